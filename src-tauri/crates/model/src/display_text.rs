//! Text from outside on its way to a person: names and notes come from any device and any program that can write the folder.

/// The text without characters that steer a terminal or turn the order of what is written around it. Line breaks and tabs stay.
#[must_use]
pub fn display_text(text: &str) -> String {
    if !text.contains(steers) {
        return text.to_owned();
    }
    text.chars().filter(|letter| !steers(*letter)).collect()
}

/// Control characters, and those that embed, override or isolate a direction of writing (Unicode Standard Annex 9, section 2).
/// The marks that a right-to-left text needs beside punctuation (U+200E, U+200F, U+061C) reach no further than that and stay.
fn steers(letter: char) -> bool {
    (letter.is_control() && letter != '\n' && letter != '\t')
        || matches!(letter, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

#[cfg(test)]
mod tests {
    use super::display_text;

    #[test]
    fn terminal_and_direction_controls_are_dropped() {
        assert_eq!(display_text("a\u{1b}]0;title\u{7}b\u{1b}[2Jc\u{9b}31md"), "a]0;titleb[2Jc31md");
        assert_eq!(display_text("scarf\u{202e}fdp.exe\u{2066}"), "scarffdp.exe");
        assert_eq!(
            display_text("two\nlines\tand a tab, äöü, \u{5e9}\u{5dc}\u{200f}."),
            "two\nlines\tand a tab, äöü, \u{5e9}\u{5dc}\u{200f}."
        );
    }
}

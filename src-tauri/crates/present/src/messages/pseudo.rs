//! A language for tests of the layout: English that can still be read, with accents, and longer by about a third.

use super::{InterfaceMessages, MessagePart, MessagePattern, interface_messages};
use fellmark_model::Language;

/// How much longer a text becomes.
const GROWTH: f64 = 0.35;

/// The interface's messages in the pseudo-language; every text stands in brackets, so that one which is cut off shows.
#[must_use]
pub fn pseudo_language() -> InterfaceMessages {
    let mut english = interface_messages(Language::English);
    english.messages.values_mut().for_each(change_pattern);
    english
}

fn change_pattern(pattern: &mut MessagePattern) {
    match pattern {
        MessagePattern::Text(text) => *text = changed(text),
        MessagePattern::Parts(parts) => parts.iter_mut().for_each(change_part),
    }
}

fn change_part(part: &mut MessagePart) {
    match part {
        MessagePart::Text(text) => *text = changed(text),
        MessagePart::Argument { .. } => {}
        MessagePart::Select { cases, otherwise, .. } => {
            cases.values_mut().for_each(change_pattern);
            change_pattern(otherwise);
        }
    }
}

/// Vowels get accents, and some are doubled until the text is longer by [`GROWTH`]; the brackets count too.
fn changed(text: &str) -> String {
    let letters = text.chars().filter(|one| one.is_alphabetic()).count();
    if letters == 0 {
        return text.to_owned();
    }
    let mut result = String::from("[");
    // Letters that are still to be added; the brackets are two.
    #[allow(clippy::cast_precision_loss)]
    let mut wanted = text.chars().count() as f64 * GROWTH - 2.0;
    for letter in text.chars() {
        let accented = accented(letter);
        result.push(accented);
        if accented != letter && wanted >= 1.0 {
            result.push(accented);
            wanted -= 1.0;
        }
    }
    // A text with few vowels is filled up, in short words so that a line can still break.
    while wanted >= 2.0 {
        result.push_str(" \u{f8}");
        wanted -= 2.0;
    }
    result.push(']');
    result
}

fn accented(letter: char) -> char {
    match letter {
        'a' => 'á',
        'e' => 'é',
        'i' => 'í',
        'o' => 'ö',
        'u' => 'ü',
        'A' => 'Á',
        'E' => 'É',
        'I' => 'Í',
        'O' => 'Ö',
        'U' => 'Ü',
        other => other,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn texts_are_longer_by_about_a_third() {
        assert_eq!(changed("Choose a folder"), "[Chööööséé á földér]");
        assert_eq!(changed("30"), "30");
        for text in ["Start weaving", "Why?", "Warp and cloth", "The first pick starts the timer."] {
            #[allow(clippy::cast_precision_loss)]
            let growth = changed(text).chars().count() as f64 / text.chars().count() as f64;
            assert!((1.25..=1.6).contains(&growth), "{text}: {growth}");
        }
    }
}

//! Figures given roughly, as people give them: "about 120 m", "~40 g", "a bit over a metre", "half a skein" is none.
//!
//! The mark is taken off and remembered, so that the figure widens every span that rests on it and is shown as "about" again.

use std::borrow::Cow;

use crate::Language;
use crate::typed_words::understood;

/// Marks before a figure; longer ones before those they begin with.
const BEFORE: &[&str] = &[
    "about",
    "approximately",
    "approx.",
    "approx",
    "around",
    "circa",
    "ca.",
    "ca",
    "c.",
    "roughly",
    "some",
    "nearly",
    "almost",
    "barely",
    "maybe",
    "perhaps",
    "a bit over",
    "a bit under",
    "a bit more than",
    "a bit less than",
    "a little over",
    "a little under",
    "a little more than",
    "a little less than",
    "just over",
    "just under",
    "more or less",
    "not quite",
    "over",
    "under",
    "~",
    "\u{2248}",
    "\u{223c}",
    "\u{b1}",
];
/// Marks behind a figure.
const BEHIND: &[&str] = &["or so", "more or less", "roughly", "about", "approx.", "approx", "ish", "?", "~"];
/// Figures in words, each before a unit.
const WORDS: &[(&str, &str)] = &[
    ("half a", "0.5"),
    ("half an", "0.5"),
    ("a quarter of a", "0.25"),
    ("one and a half", "1.5"),
    ("two and a half", "2.5"),
    ("a couple of", "2"),
    ("an", "1"),
    ("a", "1"),
    ("one", "1"),
    ("two", "2"),
    ("three", "3"),
    ("four", "4"),
    ("five", "5"),
    ("six", "6"),
    ("seven", "7"),
    ("eight", "8"),
    ("nine", "9"),
    ("ten", "10"),
    ("twelve", "12"),
];

/// What was typed without its rough mark, and whether there was one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ApproximateFigure<'a> {
    /// The figure with its unit.
    pub figure: Cow<'a, str>,
    /// Whether it was given roughly.
    pub rough: bool,
}

/// The text behind a mark that it begins with; a mark of letters ends where a word ends.
fn after<'a>(text: &'a str, mark: &str) -> Option<&'a str> {
    let head = text.get(..mark.len()).filter(|head| head.eq_ignore_ascii_case(mark))?;
    let rest = &text[mark.len()..];
    let whole = !head.ends_with(|c: char| c.is_alphabetic()) || !rest.starts_with(char::is_alphabetic);
    whole.then(|| rest.trim_start())
}

/// The text before a mark that it ends with.
fn before<'a>(text: &'a str, mark: &str) -> Option<&'a str> {
    let at = text.len().checked_sub(mark.len())?;
    text.get(at..).filter(|tail| tail.eq_ignore_ascii_case(mark))?;
    Some(text[..at].trim_end()).filter(|rest| !rest.is_empty())
}

/// Takes rough marks off; figures in words become figures. Text without either is handed back as it is.
#[must_use]
pub fn parse(text: &str, language: Language) -> ApproximateFigure<'_> {
    // One kind of space, so that "a bit over" is found however it was typed.
    let spaced: String = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let mut rest = spaced.as_str();
    let mut rough = false;
    let marks_before = || understood(language).flat_map(|words| words.rough_before).chain(BEFORE);
    let marks_behind = || understood(language).flat_map(|words| words.rough_behind).chain(BEHIND);
    while let Some(behind) = marks_before().find_map(|mark| after(rest, mark)).filter(|behind| !behind.is_empty()) {
        (rest, rough) = (behind, true);
    }
    while let Some(front) = marks_behind().find_map(|mark| before(rest, mark)) {
        (rest, rough) = (front.trim_end_matches(['-', ',']).trim_end(), true);
    }
    let worded = WORDS.iter().find_map(|(words, figure)| {
        let unit = after(rest, words).filter(|unit| unit.starts_with(char::is_alphabetic))?;
        // Half a metre is seldom measured; a figure in words is a rough one.
        Some(format!("{figure} {unit}"))
    });
    match worded {
        Some(figure) => ApproximateFigure { figure: figure.into(), rough: true },
        None if rough => ApproximateFigure { figure: rest.to_owned().into(), rough },
        None => ApproximateFigure { figure: text.into(), rough },
    }
}

/// Takes off that yarn was weighed on its shuttle: "68 g with the shuttle".
#[must_use]
pub fn on_shuttle(text: &str) -> (&str, bool) {
    let text = text.trim();
    let mut rest = text;
    for word in ["shuttle", "bobbin"] {
        let Some(front) = before(rest, word) else { continue };
        rest = front;
        for small in ["its", "the", "my", "a"] {
            if let Some(front) = before(rest, &format!(" {small}")) {
                rest = front;
                break;
            }
        }
        for joining in [" with", " on", " incl.", " including", " and", " +", "+"] {
            if let Some(front) = before(rest, joining) {
                return (front.trim_end_matches(','), true);
            }
        }
    }
    (text, false)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rough_marks_are_taken_off_and_remembered() {
        for (text, figure) in [
            ("about 120 m", "120 m"),
            ("About 120\u{a0}m", "120 m"),
            ("~40 g", "40 g"),
            ("\u{2248} 40 g", "40 g"),
            ("ca. 40 g", "40 g"),
            ("ca 40", "40"),
            ("40 g or so", "40 g"),
            ("40ish", "40"),
            ("40-ish", "40"),
            ("40 g?", "40 g"),
            ("a bit over a metre", "1 metre"),
            ("just under 1.20 m", "1.20 m"),
            ("half a metre", "0.5 metre"),
            ("about one and a half metres", "1.5 metres"),
            ("a couple of yards", "2 yards"),
            ("some 300 yd", "300 yd"),
        ] {
            assert_eq!(
                parse(text, Language::English),
                ApproximateFigure { figure: figure.into(), rough: true },
                "{text}"
            );
        }
        for text in
            ["120 m", "72 1/2 in", "6'2\"", "a lot", "acre", "aboutish", "1.85 m", "\u{a0}41\u{a0}cm", "", "~", "-5"]
        {
            let found = parse(text, Language::English);
            assert!(!found.rough || found.figure != text, "{text}: {found:?}");
            if !["a lot", "aboutish"].contains(&text) {
                assert_eq!(found, ApproximateFigure { figure: text.into(), rough: false }, "{text}");
            }
        }
    }

    #[test]
    fn rough_marks_of_the_language_are_taken_off() {
        for (text, language) in [
            ("etwa 40 g", Language::German),
            ("Ungefähr 40 g", Language::German),
            ("40 g oder so", Language::German),
            ("about 40 g", Language::German),
            ("environ 40 g", Language::French),
            ("à peu près 40 g", Language::French),
        ] {
            assert_eq!(parse(text, language), ApproximateFigure { figure: "40 g".into(), rough: true }, "{text}");
        }
        assert!(!parse("etwa 40 g", Language::English).rough);
    }

    #[test]
    fn a_weighing_on_the_shuttle_says_so() {
        for text in [
            "68 g with the shuttle",
            "68 g with shuttle",
            "68 g on its bobbin",
            "68 g + shuttle",
            "68 g on the shuttle",
        ] {
            assert_eq!(on_shuttle(text), ("68 g", true), "{text}");
        }
        for text in ["68 g", "shuttle", "the shuttle", ""] {
            assert_eq!(on_shuttle(text), (text, false));
        }
    }
}

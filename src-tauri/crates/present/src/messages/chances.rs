//! Chances as people write them.

use super::declared::figures as messages;
use super::text;
use fellmark_model::display_format::DisplayFormat;

/// A chance is written as a figure up to this share; beyond, and below what is left to one, a figure would claim too much.
const GREATEST_WRITTEN: f64 = 0.98;

/// A chance, from 0 to 1, as a percentage: "94%"; "more than 98%" and "less than 2%" at the ends.
#[must_use]
pub fn chance_text(chance: f64, format: &DisplayFormat) -> String {
    let hundredths = (chance * 100.0).round();
    let message = if hundredths > GREATEST_WRITTEN * 100.0 {
        messages::chance_above(GREATEST_WRITTEN)
    } else if hundredths < 100.0 - GREATEST_WRITTEN * 100.0 {
        messages::chance_below(1.0 - GREATEST_WRITTEN)
    } else {
        messages::percentage(hundredths)
    };
    text(&message, format)
}

/// A chance as people say it in English.
#[must_use]
pub fn chance_words(chance: f64) -> String {
    if chance >= 0.985 {
        "almost surely".into()
    } else if chance <= 0.015 {
        "hardly at all".into()
    } else {
        format!("{:.0} times in 100", (chance * 100.0).round())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use fellmark_model::Language;

    /// The forms of percentages are those of the Unicode locale data (CLDR).
    #[test]
    fn chances_are_percentages_that_never_claim_certainty() {
        let english = DisplayFormat::default();
        let written = |chance| chance_text(chance, &english);
        assert_eq!([0.944, 1.0, 0.98, 0.0, 0.02].map(written), ["94%", "more than 98%", "98%", "less than 2%", "2%"]);
        assert_eq!(chance_text(0.5, &english.in_language(Language::German)), "50\u{a0}%");
        assert_eq!(chance_text(0.5, &english.in_language(Language::French)), "50\u{202f}%");
    }
}

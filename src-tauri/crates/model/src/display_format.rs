//! How words, figures and dates are read and written: language, units, decimal mark, order of day and month.

use crate::Language;
use pure_rust_locales::{Locale, locale_match};

/// Units that bare figures are read in and all figures are written in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Units {
    /// Centimetres, metres, grams, picks per 10 cm.
    Metric,
    /// Inches, yards, ounces, picks per inch.
    Imperial,
}

impl Units {
    /// The word it has in the journal.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Metric => "metric",
            Self::Imperial => "imperial",
        }
    }

    /// The units of a word in the journal.
    #[must_use]
    pub fn from_word(word: &str) -> Option<Self> {
        match word {
            "metric" => Some(Self::Metric),
            "imperial" => Some(Self::Imperial),
            _ => None,
        }
    }
}

/// How figures and dates are written for one reader.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DisplayFormat {
    /// Language of all sentences.
    pub language: Language,
    /// Units.
    pub units: Units,
    /// Units of weights, where they are others.
    pub weights: Units,
    /// Whether times of day are written in twelve hours, `7:40 pm`.
    pub twelve_hours: bool,
    /// `.` or `,`.
    pub decimal_mark: char,
    /// Whether the month is said before the day.
    pub month_first: bool,
}

impl Default for DisplayFormat {
    fn default() -> Self {
        Self {
            language: Language::English,
            units: Units::Metric,
            weights: Units::Metric,
            twelve_hours: false,
            decimal_mark: '.',
            month_first: false,
        }
    }
}

impl DisplayFormat {
    /// The format of a locale such as `de-DE`, `en_US.UTF-8` or `fr`; the default where the locale is not known.
    ///
    /// The language stays English: which languages are offered is known to the layer that has the catalogues.
    #[must_use]
    pub fn of_locale(tag: &str) -> Self {
        let Some((locale, region)) = find_locale(tag) else { return Self::default() };
        let decimal: &str = locale_match!(locale => LC_NUMERIC::DECIMAL_POINT);
        let date: &str = locale_match!(locale => LC_TIME::D_FMT);
        let time: &str = locale_match!(locale => LC_TIME::T_FMT);
        // The regions whose everyday measures are US customary, from memory of the Unicode locale data.
        let units = if matches!(region.as_str(), "US" | "LR") { Units::Imperial } else { Units::Metric };
        Self {
            language: Language::English,
            units,
            weights: units,
            twelve_hours: time.contains("%r") || time.contains("%I") || time.contains("%l"),
            decimal_mark: if decimal == "," { ',' } else { '.' },
            month_first: month_leads(date),
        }
    }

    /// The same format in another language.
    #[must_use]
    pub fn in_language(self, language: Language) -> Self {
        Self { language, ..self }
    }

    /// The same format in other units, weights included.
    #[must_use]
    pub fn in_units(self, units: Units) -> Self {
        Self { units, weights: units, ..self }
    }

    /// The same format with weights in other units.
    #[must_use]
    pub fn with_weights(self, weights: Units) -> Self {
        Self { weights, ..self }
    }

    /// A time of day written `HH:MM`, as the reader writes it.
    #[must_use]
    pub fn time(&self, hours_and_minutes: &str) -> String {
        let time = chrono::NaiveTime::parse_from_str(hours_and_minutes, "%H:%M");
        match time {
            Ok(time) if self.twelve_hours => time.format("%-I:%M %P").to_string(),
            _ => hours_and_minutes.to_owned(),
        }
    }

    /// A figure with at most `places` decimals and no trailing zeros, `-` as a true minus sign.
    #[must_use]
    pub fn number(&self, value: f64, places: usize) -> String {
        let mut text = format!("{value:.places$}");
        if text.contains('.') {
            text.truncate(text.trim_end_matches('0').trim_end_matches('.').len());
        }
        if text == "-0" {
            text = "0".into();
        }
        text.replace('.', &self.decimal_mark.to_string()).replace('-', "\u{2212}")
    }

    /// A figure as it is put back into a form: like [`Self::number`], with a hyphen that a keyboard has.
    #[must_use]
    pub fn form_number(&self, value: f64, places: usize) -> String {
        self.number(value, places).replace('\u{2212}', "-")
    }
}

/// Whether a strftime pattern writes the month before the day and the year last, as in `%m/%d/%Y`.
fn month_leads(pattern: &str) -> bool {
    let place = |letters: &[&str]| letters.iter().filter_map(|letter| pattern.find(letter)).min();
    let month = place(&["%m", "%-m", "%b", "%B"]);
    let day = place(&["%d", "%e", "%-d"]);
    let year = place(&["%y", "%Y"]);
    match (month, day, year) {
        (Some(month), Some(day), Some(year)) => month < day && day < year,
        _ => pattern.contains("%D"),
    }
}

/// The locale of a tag, with its region.
fn find_locale(tag: &str) -> Option<(Locale, String)> {
    let plain = tag.split(['.', '@']).next()?.replace('-', "_");
    let mut parts = plain.split('_').filter(|part| !part.is_empty());
    let language = parts.next()?.to_ascii_lowercase();
    // A script such as `Hans` may stand between language and region; a region has two letters.
    let region = parts.find(|part| part.len() == 2).map(str::to_ascii_uppercase);
    let usual = match language.as_str() {
        "en" => "US".to_owned(),
        "da" => "DK".to_owned(),
        "sv" => "SE".to_owned(),
        "nb" | "nn" => "NO".to_owned(),
        "cs" => "CZ".to_owned(),
        "ja" => "JP".to_owned(),
        other => other.to_ascii_uppercase(),
    };
    let region = region.unwrap_or(usual);
    let locale = Locale::try_from(format!("{language}_{region}").as_str()).ok()?;
    Some((locale, region))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn locales_set_units_mark_and_order() {
        // Expected values: the C library's locale definitions en_US, de_DE, en_GB.
        let us = DisplayFormat::of_locale("en-US");
        assert_eq!((us.units, us.decimal_mark, us.month_first), (Units::Imperial, '.', true));
        let de = DisplayFormat::of_locale("de_DE.UTF-8");
        assert_eq!((de.units, de.decimal_mark, de.month_first), (Units::Metric, ',', false));
        let gb = DisplayFormat::of_locale("en-GB");
        assert_eq!((gb.decimal_mark, gb.month_first), ('.', false));
        assert_eq!((us.twelve_hours, gb.twelve_hours, de.twelve_hours), (true, false, false));
        assert_eq!(
            (us.time("19:40"), us.time("00:05"), gb.time("19:40")),
            ("7:40 pm".into(), "12:05 am".into(), "19:40".into())
        );
        assert_eq!(DisplayFormat::of_locale("C"), DisplayFormat::default());
        assert_eq!(DisplayFormat::of_locale("zz-unknown"), DisplayFormat::default());
        assert_eq!(DisplayFormat::of_locale("sr-Latn-RS").decimal_mark, ',');
    }

    #[test]
    fn figures_follow_the_decimal_mark() {
        let de = DisplayFormat { decimal_mark: ',', ..DisplayFormat::default() };
        assert_eq!(de.number(184.50, 2), "184,5");
        assert_eq!(de.number(-0.001, 1), "0");
        assert_eq!(de.number(-2.74, 1), "\u{2212}2,7");
        assert_eq!(de.form_number(-2.0, 1), "-2");
        assert_eq!(de.number(1200.0, 0), "1200");
    }
}

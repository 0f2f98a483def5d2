//! The words that people type, in each language: rows of a sequence, days of the week, months, marks of a rough figure. English words
//! are understood in every language, and what is stored has the English spelling that every version of the program reads.

mod de;
mod en;
mod fr;

use chrono::Weekday;
use pure_rust_locales::{Locale, locale_match};

use crate::Language;

/// The words of one language.
pub(crate) struct TypedWords {
    /// Locale whose names of days and months are read.
    locale: Locale,
    /// Words of a row, each with its English spelling; none for what is left out.
    row: &'static [(&'static str, &'static str)],
    /// Further names of days of the week, with days since Monday.
    pub further_weekdays: &'static [(&'static str, usize)],
    /// Words for Saturday and Sunday together.
    pub weekend: &'static [&'static str],
    /// Words for Monday to Friday together.
    pub weekdays: &'static [&'static str],
    /// Phrases for every day.
    pub every_day: &'static [&'static str],
    /// Words beside a day that say nothing more.
    pub beside_a_day: &'static [&'static str],
    /// Shortest beginning of a name that names the day of the week.
    shortest_weekday: usize,
    /// Words for today.
    pub today: &'static [&'static str],
    /// Words for yesterday.
    pub yesterday: &'static [&'static str],
    /// Marks before a rough figure, longer ones before those they begin with.
    pub rough_before: &'static [&'static str],
    /// Marks behind a rough figure.
    pub rough_behind: &'static [&'static str],
}

/// The words understood by a reader of a language: its own, then English.
pub(crate) fn understood(language: Language) -> impl Iterator<Item = &'static TypedWords> {
    let own = match language {
        Language::English => None,
        Language::German => Some(&de::WORDS),
        Language::French => Some(&fr::WORDS),
    };
    own.into_iter().chain([&en::WORDS])
}

/// Small letters without the accents that are often left out in French.
fn folded(word: &str) -> String {
    word.to_lowercase().replace(['é', 'è', 'ê'], "e").replace('û', "u").replace('à', "a")
}

/// The only one of the names that begins with the word.
fn only_beginning(names: &[&str], word: &str, shortest: usize) -> Option<usize> {
    let word = folded(word);
    if word.chars().count() < shortest {
        return None;
    }
    let mut found = names.iter().enumerate().filter(|(_, name)| folded(name).starts_with(&word));
    let (index, _) = found.next()?;
    found.next().is_none().then_some(index)
}

impl TypedWords {
    /// Days since Monday of a name of a day of the week: "Tues", "Sa", "samedis".
    pub fn weekday(&self, word: &str) -> Option<usize> {
        let sunday_first: &[&str] = locale_match!(self.locale => LC_TIME::DAY);
        let single = word.strip_suffix('s').unwrap_or(word);
        let further = |word: &str| self.further_weekdays.iter().find(|(name, _)| *name == word).map(|(_, day)| *day);
        let named = |word: &str| {
            only_beginning(sunday_first, word, self.shortest_weekday).map(|since_sunday| (since_sunday + 6) % 7)
        };
        named(word).or_else(|| named(single)).or_else(|| further(word)).or_else(|| further(single))
    }

    /// Month of the year, from 1, of its name or its beginning of three letters or more.
    pub fn month(&self, word: &str) -> Option<u32> {
        let months: &[&str] = locale_match!(self.locale => LC_TIME::MON);
        only_beginning(months, word, 3).and_then(|index| u32::try_from(index + 1).ok())
    }
}

/// The short name of a day of the week, as a form shows it.
#[must_use]
pub fn short_weekday(day: Weekday, language: Language) -> &'static str {
    let words = understood(language).next().unwrap_or(&en::WORDS);
    let sunday_first: &[&'static str] = locale_match!(words.locale => LC_TIME::ABDAY);
    sunday_first.get(day.num_days_from_sunday() as usize).copied().unwrap_or_default()
}

/// A row of a sequence in its English spelling, in which it is stored. What is not known stays as it is.
#[must_use]
pub fn row_in_english(row: &str, language: Language) -> String {
    let mut changed = false;
    let mut english = String::new();
    let mut word = String::new();
    // A mark at the end, so that the last word is put out too.
    for letter in row.chars().chain(['\n']) {
        if letter.is_alphabetic() {
            word.push(letter);
            continue;
        }
        let small = word.to_lowercase();
        let known = understood(language).flat_map(|words| words.row).find(|(own, _)| *own == small);
        changed |= known.is_some();
        english.push_str(known.map_or(word.as_str(), |(_, english)| english));
        word.clear();
        english.push(if matches!(letter, '\'' | '\u{2019}') { ' ' } else { letter });
    }
    if changed { english.split_whitespace().collect::<Vec<_>>().join(" ") } else { row.to_owned() }
}

/// The rows of a section as typed, one a line, in their English spelling.
pub(crate) fn rows_in_english(text: &str, language: Language) -> Vec<String> {
    text.lines().map(str::trim).filter(|row| !row.is_empty()).map(|row| row_in_english(row, language)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::availability::WEEK;
    use fellmark_cloth::sequence::rows_from_words;

    #[test]
    fn a_row_is_read_in_the_language_and_stored_in_english() {
        for (language, row, english) in [
            (Language::German, "Webkamm oben", "heddle up"),
            (Language::German, "unten", "down"),
            (Language::German, "3 x oben", "3 x up"),
            (Language::German, "oben + Stab", "up + stick"),
            (Language::German, "Kamm unten und zweiter Musterstab", "heddle down and second stick"),
            (Language::German, "Kamm in Ruhestellung, Stab hochkant", "heddle rest, stick edge"),
            (Language::French, "peigne en haut", "heddle up"),
            (Language::French, "bas · baguette · haut", "down · stick · up"),
            (Language::French, "peigne au repos, baguette sur chant", "heddle rest, stick edge"),
            (Language::French, "haut et deuxième baguette à plat", "up and second stick flat"),
            (Language::French, "bas, baguette à l’arrière", "down, stick back"),
            (Language::French, "up + stick", "up + stick"),
        ] {
            let stored = row_in_english(row, language);
            assert_eq!(stored, english, "{row}");
            assert!(rows_from_words(&format!("{stored};")).is_ok(), "{row}: {stored}");
        }
        assert_eq!(row_in_english("3 x up", Language::English), "3 x up");
        assert!(rows_from_words(&row_in_english("schräg", Language::German)).is_err());
    }

    #[test]
    fn every_short_weekday_is_read_back() {
        for language in Language::ALL {
            for (index, day) in WEEK.into_iter().enumerate() {
                let shown = short_weekday(day, language).trim_end_matches('.').to_lowercase();
                let read = understood(language).find_map(|words| words.weekday(&shown));
                assert_eq!(read, Some(index), "{language:?} {shown}");
            }
        }
    }
}

//! Days as people write them: year, month, day; or in the order of the reader's locale.

use chrono::{Datelike, NaiveDate};

use crate::Language;
use crate::typed_words::understood;

/// A day of the calendar: `2026-12-24`, `24.12.2026`, and `12/24/2026` where the month is said first; a year of two digits is one of
/// this century. With points the day leads everywhere.
pub(super) fn read(text: &str, month_first: bool) -> Option<NaiveDate> {
    let day: Option<NaiveDate> = text.parse().ok().or_else(|| in_order(text, month_first));
    day.filter(|day| (1900..=2200).contains(&day.year()))
}

/// A day with the name of its month, in the reader's language or English: "21 Dec", "Dec 21, 2026", "Mo., 21. Dezember 2026", "1er
/// mai". Without a year it is one of this year, as the program leaves out this year too.
pub(super) fn with_a_month_name(text: &str, language: Language, today: NaiveDate) -> Option<NaiveDate> {
    let (mut day, mut month, mut year) = (None, None, None);
    let between = |c: char| c.is_whitespace() || matches!(c, '.' | ',' | '-');
    for word in text.split(between).filter(|word| !word.is_empty()) {
        let digits = word.trim_end_matches(char::is_alphabetic);
        let ending = &word[digits.len()..];
        if !digits.is_empty() {
            let number: i32 =
                digits.parse().ok().filter(|_| matches!(ending, "" | "er" | "st" | "nd" | "rd" | "th"))?;
            let slot = if digits.len() == 4 { &mut year } else { &mut day };
            if slot.replace(number).is_some() || !matches!(digits.len(), 1 | 2 | 4) {
                return None;
            }
        } else if let Some(found) = understood(language).find_map(|words| words.month(word)) {
            // "Mar" is a month in English and a day of the week in French: the later word decides.
            month = Some(found);
        } else if !understood(language).any(|words| {
            let small = word.to_lowercase();
            words.weekday(&small).is_some() || words.beside_a_day.contains(&small.as_str())
        }) {
            return None;
        }
    }
    NaiveDate::from_ymd_opt(year.unwrap_or(today.year()), month?, u32::try_from(day?).ok()?)
        .filter(|day| (1900..=2200).contains(&day.year()))
}

fn in_order(text: &str, month_first: bool) -> Option<NaiveDate> {
    let mark = text.chars().find(|c| matches!(c, '.' | '/' | '-'))?;
    let parts: Vec<&str> = text.split(mark).map(str::trim).collect();
    let [first, second, year] = parts.as_slice() else { return None };
    if ![first, second, year].iter().all(|part| part.chars().all(|c| c.is_ascii_digit())) {
        return None;
    }
    let year = match year.len() {
        2 => 2000 + year.parse::<i32>().ok()?,
        4 => year.parse().ok()?,
        _ => return None,
    };
    let (first, second) = (first.parse().ok()?, second.parse().ok()?);
    let (month, day) = if month_first && mark != '.' { (first, second) } else { (second, first) };
    NaiveDate::from_ymd_opt(year, month, day)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_day_is_read_with_the_name_of_its_month() {
        use Language::{English, French, German};
        let today = NaiveDate::from_ymd_opt(2026, 11, 25).unwrap();
        for (text, language) in [
            ("21 Dec", English),
            ("Dec 21, 2026", English),
            ("Monday, 21 December", English),
            ("21st December 2026", English),
            ("21. Dezember 2026", German),
            ("Mo., 21. Dez.", German),
            ("21 Dec", German),
            ("21 déc.", French),
            ("lundi 21 decembre 2026", French),
            ("le 21 décembre", French),
        ] {
            let day = NaiveDate::from_ymd_opt(2026, 12, 21);
            assert_eq!(with_a_month_name(text, language, today), day, "{text}");
        }
        assert_eq!(with_a_month_name("1er août", French, today), NaiveDate::from_ymd_opt(2026, 8, 1));
        assert_eq!(with_a_month_name("mar. 3 févr.", French, today), NaiveDate::from_ymd_opt(2026, 2, 3));
        for text in
            ["21 Dezember", "21", "Dec", "31 Feb", "21 22 Dec", "121 Dec", "21 juil", "Dec 21 2026 2027", "x Dec 1"]
        {
            assert_eq!(with_a_month_name(text, English, today), None, "{text}");
        }
    }

    #[test]
    fn a_day_is_read_in_the_order_of_the_locale() {
        let christmas_eve = NaiveDate::from_ymd_opt(2026, 12, 24);
        for (text, month_first) in [
            ("2026-12-24", true),
            ("12/24/2026", true),
            ("12-24-26", true),
            ("24.12.2026", true),
            ("24.12.2026", false),
            ("24. 12. 2026", false),
            ("24.12.26", false),
            ("24/12/2026", false),
        ] {
            assert_eq!(read(text, month_first), christmas_eve, "{text} {month_first}");
        }
        // The same figures are another day where the order is another, and never a guess.
        assert_eq!(read("3/4/2026", true), NaiveDate::from_ymd_opt(2026, 3, 4));
        assert_eq!(read("3/4/2026", false), NaiveDate::from_ymd_opt(2026, 4, 3));
        for text in [
            "24/12/2026",
            "12/24",
            "12/24/2026/1",
            "12/24/026",
            "a/b/2026",
            "+1/2/2026",
            "31.2.2026",
            "1.1.2400",
            "",
            "/",
        ] {
            assert_eq!(read(text, true), None, "{text}");
        }
    }
}

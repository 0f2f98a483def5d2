//! Days as people write them: year, month, day; or in the order of the reader's locale.

use chrono::{Datelike, NaiveDate};

/// A day of the calendar: `2026-12-24`, `24.12.2026`, and `12/24/2026` where the month is said first; a year of two digits is one of
/// this century. With points the day leads everywhere.
pub(super) fn read(text: &str, month_first: bool) -> Option<NaiveDate> {
    let day: Option<NaiveDate> = text.parse().ok().or_else(|| in_order(text, month_first));
    day.filter(|day| (1900..=2200).contains(&day.year()))
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

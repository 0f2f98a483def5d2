//! Days in words.

use chrono::{Datelike, NaiveDate};

use fellmark_model::display_format::DisplayFormat;

/// Days in words, in the reader's order of day and month.
pub trait DateText {
    /// "12 December", "December 12"; with its year when that is not `today`'s.
    #[must_use]
    fn date(&self, day: NaiveDate, today: NaiveDate) -> String;

    /// "between 4 December and 27 December"; with both years where they differ, so that neither is misread.
    #[must_use]
    fn between(&self, from: NaiveDate, to: NaiveDate, today: NaiveDate) -> String;

    /// "Saturday 12 December", "Saturday, December 12".
    #[must_use]
    fn weekday_date(&self, day: NaiveDate, today: NaiveDate) -> String;

    /// A day as people speak of it: "today", "yesterday", "tomorrow", else as [`Self::weekday_date`].
    #[must_use]
    fn spoken_day(&self, day: NaiveDate, today: NaiveDate) -> String;
}

impl DateText for DisplayFormat {
    fn date(&self, day: NaiveDate, today: NaiveDate) -> String {
        let (month, number) = (day.format("%B"), day.day());
        let text = if self.month_first { format!("{month} {number}") } else { format!("{number} {month}") };
        if day.year() == today.year() {
            text
        } else if self.month_first {
            format!("{text}, {}", day.year())
        } else {
            format!("{text} {}", day.year())
        }
    }

    fn between(&self, from: NaiveDate, to: NaiveDate, today: NaiveDate) -> String {
        // A day outside any year makes the year be named.
        let reference = if from.year() == to.year() { today } else { NaiveDate::MIN };
        format!("between {} and {}", self.date(from, reference), self.date(to, reference))
    }

    fn weekday_date(&self, day: NaiveDate, today: NaiveDate) -> String {
        let comma = if self.month_first { "," } else { "" };
        format!("{}{comma} {}", day.format("%A"), self.date(day, today))
    }

    fn spoken_day(&self, day: NaiveDate, today: NaiveDate) -> String {
        match (day - today).num_days() {
            0 => "today".into(),
            -1 => "yesterday".into(),
            1 => "tomorrow".into(),
            _ => self.weekday_date(day, today),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn day(text: &str) -> NaiveDate {
        text.parse().unwrap()
    }

    #[test]
    fn dates_name_the_year_only_when_it_helps() {
        let format = DisplayFormat::default();
        let today = day("2026-11-25");
        assert_eq!(format.weekday_date(day("2026-12-12"), today), "Saturday 12 December");
        assert_eq!(format.date(day("2027-01-03"), today), "3 January 2027");
        let us = DisplayFormat { month_first: true, ..format };
        assert_eq!(us.weekday_date(day("2027-01-03"), today), "Sunday, January 3, 2027");
        assert_eq!(us.spoken_day(day("2026-11-24"), today), "yesterday");
        assert_eq!(
            format.between(day("2026-12-25"), day("2028-02-14"), today),
            "between 25 December 2026 and 14 February 2028"
        );
        assert_eq!(format.between(day("2026-12-04"), day("2026-12-27"), today), "between 4 December and 27 December");
    }
}

//! Days and lists in the reader's language, from the Unicode locale data (CLDR).

use chrono::{Datelike, NaiveDate, Weekday};
use icu_calendar::{Date, Gregorian};
use icu_datetime::fieldsets::{E, MD, MDE, YMD, YMDE};
use icu_datetime::{DateTimeFormatterPreferences, FixedCalendarDateTimeFormatter};
use icu_list::ListFormatter;
use icu_list::options::ListFormatterOptions;
use icu_locale_core::{Locale, locale};

use super::declared::dates as messages;
use super::text;
use fellmark_model::Language;
use fellmark_model::display_format::DisplayFormat;

/// Days in words, in the reader's language and order of day and month.
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

    /// "Saturday".
    #[must_use]
    fn weekday(&self, day: Weekday) -> String;

    /// A day as people speak of it: "today", "yesterday", "tomorrow", else as [`Self::weekday_date`].
    #[must_use]
    fn spoken_day(&self, day: NaiveDate, today: NaiveDate) -> String;

    /// "Mondays, Fridays and Sundays".
    #[must_use]
    fn and_list<S: AsRef<str>>(&self, names: &[S]) -> String;
}

/// The locale whose words and order of day and month the reader has.
fn locale_of(format: &DisplayFormat) -> Locale {
    match (format.language, format.month_first) {
        (Language::English, true) => locale!("en-US"),
        (Language::English, false) => locale!("en-GB"),
        (Language::German, _) => locale!("de"),
        (Language::French, _) => locale!("fr"),
    }
}

/// Writes a day with a set of fields.
macro_rules! written {
    ($format:expr, $fields:ident, $day:expr) => {{
        let preferences: DateTimeFormatterPreferences = locale_of($format).into();
        let formatter = FixedCalendarDateTimeFormatter::<Gregorian, _>::try_new(preferences, $fields::long());
        let day = $day;
        // Both are there for every language and every day of the calendar, which a test checks; without them the figures say enough.
        match (formatter, gregorian(day)) {
            (Ok(formatter), Some(date)) => formatter.format(&date).to_string(),
            _ => day.to_string(),
        }
    }};
}

fn gregorian(day: NaiveDate) -> Option<Date<Gregorian>> {
    let (month, number) = (u8::try_from(day.month()).ok()?, u8::try_from(day.day()).ok()?);
    Date::try_new_gregorian(day.year(), month, number).ok()
}

impl DateText for DisplayFormat {
    fn date(&self, day: NaiveDate, today: NaiveDate) -> String {
        if day.year() == today.year() { written!(self, MD, day) } else { written!(self, YMD, day) }
    }

    fn between(&self, from: NaiveDate, to: NaiveDate, today: NaiveDate) -> String {
        // A day outside any year makes the year be named.
        let reference = if from.year() == to.year() { today } else { NaiveDate::MIN };
        text(&messages::between_days((from, reference), (to, reference)), self)
    }

    fn weekday_date(&self, day: NaiveDate, today: NaiveDate) -> String {
        if day.year() == today.year() { written!(self, MDE, day) } else { written!(self, YMDE, day) }
    }

    fn weekday(&self, day: Weekday) -> String {
        // 5 January 1970 was a Monday.
        let monday = NaiveDate::from_ymd_opt(1970, 1, 5).unwrap_or_default();
        let day = monday + chrono::Days::new(u64::from(day.num_days_from_monday()));
        written!(self, E, day)
    }

    fn spoken_day(&self, day: NaiveDate, today: NaiveDate) -> String {
        let message = match (day - today).num_days() {
            0 => messages::spoken_today(),
            -1 => messages::spoken_yesterday(),
            1 => messages::spoken_tomorrow(),
            _ => return self.weekday_date(day, today),
        };
        text(&message, self)
    }

    fn and_list<S: AsRef<str>>(&self, names: &[S]) -> String {
        let names: Vec<&str> = names.iter().map(AsRef::as_ref).collect();
        // The list patterns are there for every language; without them commas do.
        match ListFormatter::try_new_and(locale_of(self).into(), ListFormatterOptions::default()) {
            Ok(formatter) => formatter.format(names.iter()).to_string(),
            Err(_) => names.join(", "),
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

    /// Expected values: the Unicode locale data (CLDR) of German and French.
    #[test]
    fn days_and_lists_are_written_in_the_readers_language() {
        let today = day("2026-11-25");
        let german = DisplayFormat::default().in_language(Language::German);
        assert_eq!(german.weekday_date(day("2026-12-12"), today), "Samstag, 12. Dezember");
        assert_eq!(german.date(day("2027-01-03"), today), "3. Januar 2027");
        assert_eq!(german.weekday(Weekday::Sun), "Sonntag");
        assert_eq!(german.spoken_day(day("2026-11-26"), today), "morgen");
        assert_eq!(german.and_list(&["Saum", "Wäsche", "Trocknen"]), "Saum, Wäsche und Trocknen");
        let french = DisplayFormat::default().in_language(Language::French);
        assert_eq!(french.weekday_date(day("2026-12-12"), today), "samedi 12 décembre");
        assert_eq!(french.date(day("2027-03-02"), today), "2 mars 2027");
        assert_eq!(french.and_list(&["ourlet", "lavage"]), "ourlet et lavage");
    }

    #[test]
    fn none_one_two_and_many_are_listed() {
        let format = DisplayFormat::default();
        assert_eq!(format.and_list::<&str>(&[]), "");
        assert_eq!(format.and_list(&["hem"]), "hem");
        assert_eq!(format.and_list(&["hem", "wash"]), "hem and wash");
        assert_eq!(format.and_list(&["hem", "wash", "dry"]), "hem, wash and dry");
    }
}

//! The weaver's stated days: days of the week, away from and until, every day until. They replace what the sittings show.

use chrono::{NaiveDate, Weekday};
use fellmark_projection::{Availability, DayRange};
use serde_json::{Value, json};

use crate::fields;
use crate::forms::WarpForm;
use crate::measures::Reader;
use crate::typed_words::understood;
use crate::{Language, TypedFields, UserError, messages};

/// The days that the weaver stated.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct StatedAvailability {
    /// The days of the week the weaver works on, Monday first; nothing when the weaver has not said.
    pub weekdays: Option<[bool; 7]>,
    /// First and last day the weaver is away.
    pub away: Option<DayRange>,
    /// First and last day of a stretch on every day of which the weaver intends to weave.
    pub every_day: Option<DayRange>,
}

/// The days of the week in the order of [`StatedAvailability::weekdays`].
pub const WEEK: [Weekday; 7] =
    [Weekday::Mon, Weekday::Tue, Weekday::Wed, Weekday::Thu, Weekday::Fri, Weekday::Sat, Weekday::Sun];
const NAMES: [&str; 7] = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"];

impl StatedAvailability {
    /// What a warp's record says.
    #[must_use]
    pub fn of(get: &TypedFields<'_>) -> Self {
        let named = get.texts(fields::warp::WEAVING_DAYS);
        let weekdays = NAMES.map(|name| named.iter().any(|one| one == name));
        let range = |from: &str, until: &str| {
            let range = DayRange { from: get.day(from)?, until: get.day(until)? };
            (range.from <= range.until).then_some(range)
        };
        Self {
            weekdays: weekdays.contains(&true).then_some(weekdays),
            away: range(fields::warp::AWAY_FROM, fields::warp::AWAY_UNTIL),
            every_day: range(fields::warp::EVERY_DAY_FROM, fields::warp::EVERY_DAY_UNTIL),
        }
    }

    /// As the projection takes it.
    #[must_use]
    pub fn for_projection(&self, days_a_week: Option<f64>) -> Availability {
        Availability {
            weekdays: self.weekdays,
            days_a_week,
            away: self.away.into_iter().collect(),
            every_day: self.every_day.into_iter().collect(),
        }
    }
}

/// Reads the days the weaver typed, in her language or English: "Sat, Sun", "weekends", "every day"; empty says nothing.
fn read_weekdays(text: &str, language: Language) -> Result<Vec<&'static str>, UserError> {
    let mut days = [false; 7];
    let text = text.to_lowercase().replace("week-end", "weekend");
    for word in text.split(|c: char| !c.is_alphabetic()).filter(|word| !word.is_empty()) {
        let understood = || understood(language);
        if understood().any(|words| words.weekend.contains(&word)) {
            days[5..].fill(true);
        } else if understood().any(|words| words.weekdays.contains(&word)) {
            days[..5].fill(true);
        } else if word == "all" {
            days.fill(true);
        } else if let Some(index) = understood().find_map(|words| words.weekday(word)) {
            days[index] = true;
        } else if !understood().any(|words| words.beside_a_day.contains(&word)) {
            let other: String = word.chars().take(30).collect();
            return Err(UserError::at("weaving_days", messages::unknown_weekday(other)));
        }
    }
    if understood(language).flat_map(|words| words.every_day).any(|phrase| text.contains(phrase)) {
        days.fill(true);
    }
    Ok(NAMES.iter().zip(days).filter(|(_, on)| *on).map(|(name, _)| *name).collect())
}

/// Reads what was typed about days into the warp's fields.
///
/// # Errors
/// The first field that cannot be understood.
pub fn read_form(form: &WarpForm, read: &Reader<'_>, put: &mut impl FnMut(&str, Value)) -> Result<(), UserError> {
    put(fields::warp::WEAVING_DAYS, json!(read_weekdays(&form.weaving_days, read.format.language)?));
    let range =
        |from: (&str, &str), until: (&str, &str)| -> Result<(Option<NaiveDate>, Option<NaiveDate>), UserError> {
            let until_day = read.day(until.0, until.1)?;
            // Only an end means: from now on. An old beginning is kept, so that showing a form is not changing it.
            let from_day = read.day(from.0, from.1)?.or(until_day.map(|until| until.min(read.today)));
            match (from_day, until_day) {
                (Some(_), None) => Err(UserError::at(until.0, messages::range_without_end())),
                (Some(from), Some(until_day)) if from > until_day => {
                    Err(UserError::at(until.0, messages::range_reversed()))
                }
                both => Ok(both),
            }
        };
    let (from, until) = range(("away_from", &form.away_from), ("away_until", &form.away_until))?;
    put(fields::warp::AWAY_FROM, json!(from));
    put(fields::warp::AWAY_UNTIL, json!(until));
    let (from, until) = range(("every_day_from", &form.every_day_from), ("every_day_until", &form.every_day_until))?;
    put(fields::warp::EVERY_DAY_FROM, json!(from));
    put(fields::warp::EVERY_DAY_UNTIL, json!(until));
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_are_read_as_people_write_them() {
        for (text, days) in [
            ("", vec![]),
            ("Sat, Sun", vec!["sat", "sun"]),
            ("weekends", vec!["sat", "sun"]),
            ("Tues and thursdays", vec!["tue", "thu"]),
            ("weekdays, Saturday", vec!["mon", "tue", "wed", "thu", "fri", "sat"]),
            ("every day", NAMES.to_vec()),
        ] {
            assert_eq!(read_weekdays(text, Language::English).unwrap(), days, "{text}");
        }
        let trouble = read_weekdays("Sat, Funday", Language::English).unwrap_err();
        assert_eq!(trouble.field.as_deref(), Some("weaving_days"));
        assert_eq!(trouble.message, messages::unknown_weekday("funday"));
        assert!(read_weekdays("satanic", Language::English).is_err());
    }

    #[test]
    fn days_are_read_in_the_language_of_the_reader() {
        for (text, language, days) in [
            ("Sa, So", Language::German, vec!["sat", "sun"]),
            ("am Wochenende", Language::German, vec!["sat", "sun"]),
            ("montags und Do.", Language::German, vec!["mon", "thu"]),
            ("jeden Tag", Language::German, NAMES.to_vec()),
            ("Sat, Sun", Language::German, vec!["sat", "sun"]),
            ("mar., jeu.", Language::French, vec!["tue", "thu"]),
            ("le samedi et les dimanches", Language::French, vec!["sat", "sun"]),
            ("les week-ends", Language::French, vec!["sat", "sun"]),
            ("tous les jours", Language::French, NAMES.to_vec()),
        ] {
            assert_eq!(read_weekdays(text, language).unwrap(), days, "{text}");
        }
        assert!(read_weekdays("jeudi", Language::English).is_err());
    }
}

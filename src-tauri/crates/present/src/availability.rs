//! What was said about the days of weaving, in words.

use chrono::{Datelike, NaiveDate};

use crate::dates::DateText;
use crate::messages::declared::sittings as messages;
use crate::messages::{text, texts};
use fellmark_model::availability::{StatedAvailability, WEEK};
use fellmark_model::display_format::DisplayFormat;

/// The stated days in words, for the calculation.
#[must_use]
pub fn availability_words(
    said: &StatedAvailability,
    days_a_week: Option<f64>,
    minutes_a_day: Option<f64>,
    format: &DisplayFormat,
    today: NaiveDate,
) -> Option<String> {
    let mut parts = Vec::new();
    parts.extend(days_a_week.map(messages::availability_days_a_week));
    parts.extend(minutes_a_day.map(messages::availability_minutes_a_day));
    if let Some(days) = said.weekdays {
        let names = WEEK.iter().zip(days).filter(|(_, on)| *on).map(|(day, _)| format.weekday(*day));
        parts.push(messages::availability_weekdays(names.collect()));
    }
    if let Some(away) = said.away.filter(|away| away.until >= today) {
        parts.push(if away.from == away.until {
            messages::availability_away_on((away.from, today))
        } else {
            // A day outside any year makes both years be named where they differ.
            let reference = if away.from.year() == away.until.year() { today } else { NaiveDate::MIN };
            messages::availability_away((away.from, reference), (away.until, reference))
        });
    }
    if let Some(every) = said.every_day.filter(|every| every.until >= today) {
        parts.push(messages::availability_every_day((every.until, today)));
    }
    let entered = || text(&messages::availability_entered(texts(&parts, format).join("; ")), format);
    (!parts.is_empty()).then(entered)
}

#[cfg(test)]
mod tests {
    use fellmark_projection::DayRange;

    use super::*;
    use crate::figures::loose;

    #[test]
    fn her_words_come_back_to_her() {
        let today: NaiveDate = "2026-11-25".parse().unwrap();
        let said = StatedAvailability {
            weekdays: Some([false, false, false, false, false, true, true]),
            away: Some(DayRange { from: today, until: "2026-12-06".parse().unwrap() }),
            every_day: None,
        };
        assert_eq!(
            availability_words(&said, None, None, &DisplayFormat::default(), today).unwrap(),
            "As you entered: weaving days: Saturday and Sunday; away from 25 November to 6 December."
        );
        let one_day =
            StatedAvailability { away: Some(DayRange { from: today, until: today }), ..StatedAvailability::default() };
        assert_eq!(
            availability_words(&one_day, None, None, &DisplayFormat::default(), today).unwrap(),
            "As you entered: away on 25 November."
        );
        let nothing = StatedAvailability::default();
        assert_eq!(availability_words(&nothing, None, None, &DisplayFormat::default(), today), None);
        let about =
            |days: f64| availability_words(&nothing, Some(days), None, &DisplayFormat::default(), today).unwrap();
        assert_eq!(about(3.0), "As you entered: weaving days a week: about 3.");
        assert_eq!(about(1.0), "As you entered: weaving days a week: about 1.");
        assert_eq!(
            loose(&availability_words(&nothing, Some(3.0), Some(90.0), &DisplayFormat::default(), today).unwrap()),
            "As you entered: weaving days a week: about 3; time at the loom a day: about 1 h 30 min."
        );
    }
}

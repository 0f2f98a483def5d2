//! What was said about the days of weaving, in words.

use chrono::NaiveDate;

use crate::dates::DateText;
use crate::figures::show_minutes;
use crate::lists_and_numbers::listed;
use fellmark_model::availability::{StatedAvailability, WEEK, long_name};
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
    if let Some(days) = days_a_week {
        let unit = if days == 1.0 { "day" } else { "days" };
        parts.push(format!("you weave about {} {unit} a week", format.number(days, 1)));
    }
    if let Some(minutes) = minutes_a_day {
        parts.push(format!("you weave about {} a day", show_minutes(minutes)));
    }
    if let Some(days) = said.weekdays {
        let names = WEEK.iter().zip(days).filter(|(_, on)| *on).map(|(day, _)| format!("{}s", long_name(*day)));
        parts.push(format!("you weave on {}", listed(&names.collect::<Vec<_>>())));
    }
    if let Some(away) = said.away.filter(|away| away.until >= today) {
        parts.push(if away.from == away.until {
            format!("you are away on {}", format.date(away.from, today))
        } else {
            format!("you are away {}", format.between(away.from, away.until, today))
        });
    }
    if let Some(every) = said.every_day.filter(|every| every.until >= today) {
        parts.push(format!("you weave every day until {}", format.date(every.until, today)));
    }
    (!parts.is_empty()).then(|| format!("As you said: {}.", parts.join("; ")))
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
            "As you said: you weave on Saturdays and Sundays; you are away between 25 November and 6 December."
        );
        let one_day =
            StatedAvailability { away: Some(DayRange { from: today, until: today }), ..StatedAvailability::default() };
        assert_eq!(
            availability_words(&one_day, None, None, &DisplayFormat::default(), today).unwrap(),
            "As you said: you are away on 25 November."
        );
        let nothing = StatedAvailability::default();
        assert_eq!(availability_words(&nothing, None, None, &DisplayFormat::default(), today), None);
        let about =
            |days: f64| availability_words(&nothing, Some(days), None, &DisplayFormat::default(), today).unwrap();
        assert_eq!(about(3.0), "As you said: you weave about 3 days a week.");
        assert_eq!(about(1.0), "As you said: you weave about 1 day a week.");
        assert_eq!(
            loose(&availability_words(&nothing, Some(3.0), Some(90.0), &DisplayFormat::default(), today).unwrap()),
            "As you said: you weave about 3 days a week; you weave about 1 h 30 min a day."
        );
    }
}

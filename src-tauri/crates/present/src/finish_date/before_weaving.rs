//! Before the first sitting: the hours it takes, what the gift day takes, and what is asked for.

use chrono::NaiveDate;
use fellmark_cloth::learned::SpeedPrior;
use fellmark_model::display_format::DisplayFormat;
use fellmark_reports::finish_date::{BeforeWeaving, GiftNeed, WeavingWeek};

use super::projection::{in_picks, note_sentence};
use super::set_up_words;
use crate::dates::DateText;
use crate::figures::{show_length, show_minutes};
use crate::view::{Answer, Figures, Standing};

/// "No date yet: about 8 h at the loom", or since when it rests.
pub(super) fn headline(before: &BeforeWeaving, format: &DisplayFormat, today: NaiveDate) -> String {
    match before.resting_since {
        Some(since) => format!("Resting since {}, so there is no date.", format.date(since, today)),
        None => format!("No date yet: about {} at the loom.", rounded_hours(before.hours.likely)),
    }
}

/// What it takes, and what is still to be said for a date.
pub(crate) fn answer(before: &BeforeWeaving, headline: String, format: &DisplayFormat, today: NaiveDate) -> Answer {
    let hours = &before.hours;
    let mut answer = Answer { headline, standing: Standing::Open, ..Answer::default() };
    answer.more.push(format!(
        "Usually {} to {} at the loom, {} most often.",
        rounded_hours(hours.low),
        rounded_hours(hours.high),
        rounded_hours(hours.likely)
    ));
    if let Some((gift, need)) = &before.gift {
        answer.more.push(gift_words(*gift, need, format, today));
        if matches!(need, GiftNeed::TooMuch { .. } | GiftNeed::Past) {
            answer.standing = Standing::Short;
        }
    }
    answer.more.push(
        match (before.minutes_stated, before.days_stated) {
            (None, None) => {
                "How many days a week will you weave, and how many minutes on such a day? Then there is a date."
            }
            (None, Some(_)) => "How many minutes will you weave on such a day? Then there is a date.",
            (Some(_), None) => "How many days a week will you weave? Then there is a date.",
            (Some(_), Some(_)) => "Your first sitting will show your own pace.",
        }
        .to_owned(),
    );
    let date = |day: NaiveDate| format.date(day, today);
    answer.more.extend(before.notes.iter().map(|note| note_sentence(note, &date, &in_picks)));
    answer.why.push(speed_words(&before.speed, format));
    if before.set_up_minutes > 0.0 {
        answer.why.push(set_up_words());
    }
    if before.gift.is_some() {
        answer.why.push(
            "What is advised makes the day four times in five, finishing included. Never more than 3 h on a day, with a break \
             every hour: longer strains hands and back (common practice, no source)."
                .into(),
        );
    }
    answer
}

/// The hours as plain figures.
pub(super) fn fill(figures: &mut Figures, before: &BeforeWeaving) {
    let hours = &before.hours;
    figures.hours = Some([hours.low, hours.likely, hours.high]);
    if let Some((_, GiftNeed::Ways(ways))) = &before.gift {
        figures.gift_ways = ways.iter().map(|way| [way.days_a_week, way.minutes]).collect();
    }
}

fn gift_words(gift: NaiveDate, need: &GiftNeed, format: &DisplayFormat, today: NaiveDate) -> String {
    match need {
        GiftNeed::Past => format!("The gift day, {}, is past.", format.weekday_date(gift, today)),
        GiftNeed::Ways(ways) => {
            let ways: Vec<String> = ways.iter().map(|way| way_words(*way, format)).collect();
            format!("To have it by {}: {}.", format.spoken_day(gift, today), ways.join(", or "))
        }
        GiftNeed::TooMuch { most_minutes, days_a_week } => format!(
            "For {} even {} would not be enough: think of another day, a shorter piece or another gift.",
            format.spoken_day(gift, today),
            way_words(WeavingWeek { days_a_week: *days_a_week, minutes: *most_minutes }, format)
        ),
    }
}

/// "5 days a week of 50 min", "every day 40 min".
pub(super) fn way_words(way: WeavingWeek, format: &DisplayFormat) -> String {
    let minutes = show_minutes(way.minutes);
    match way.days_a_week {
        days if days >= 7.0 => format!("{minutes} every day"),
        1.0 => format!("{minutes} on one day a week"),
        days => format!("{minutes} on {} days a week", format.number(days, 1)),
    }
}

/// The speed that the hours follow from, with its source.
pub(crate) fn speed_words(speed: &SpeedPrior, format: &DisplayFormat) -> String {
    let inches = |inches: f64| show_length(inches * 25.4, format);
    format!(
        "Nothing is known of your pace yet: on a rigid heddle {} an hour is usual for such rows, nine in ten between {} and {} \
         (common practice, no source).",
        inches(speed.usual),
        inches(speed.slow),
        inches(speed.fast)
    )
}

/// To the quarter of an hour below ten hours, to the hour above.
pub(crate) fn rounded_hours(hours: f64) -> String {
    let step = if hours < 10.0 { 15.0 } else { 60.0 };
    show_minutes(((hours * 60.0 / step).round() * step).max(15.0))
}

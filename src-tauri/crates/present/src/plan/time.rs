//! How long a plan takes: hours at the loom, and the day it can be finished if begun today.

use chrono::{Datelike, NaiveDate};

use crate::chances::chance_words;
use crate::dates::DateText;
use crate::finish_date::{
    before_weaving_answer, in_picks, kind_words, projection_sentence, rounded_hours, set_up_words, span_words,
    speed_words,
};
use crate::learned::behind;
use crate::view::{Answer, PlanFigures, Standing};
use fellmark_model::display_format::DisplayFormat;
use fellmark_model::plan::PlanInputs;
use fellmark_reports::finish_date::GiftNeed;
use fellmark_reports::plan::{PaceBasis, PlanDays, PlanTime};
use fellmark_reports::usual_hours::HoursSpan;

/// Chances from which a gift day is safe, and from which it is close.
const SAFE_CHANCE: f64 = 0.8;
const CLOSE_CHANCE: f64 = 0.4;

/// Hours and days in words.
pub(super) fn answer(time: &PlanTime, inputs: &PlanInputs, format: &DisplayFormat, today: NaiveDate) -> Answer {
    let projection = match &time.days {
        PlanDays::Projected(projection) => projection,
        PlanDays::BeforeWeaving(before) => {
            let headline = format!("About {} at the loom.", rounded_hours(before.hours.likely));
            return before_weaving_answer(before, headline, format, today);
        }
    };
    let dated = !projection.beyond_three_years;
    // Days of two years each name theirs.
    let off_loom = projection.off_loom.quantiles;
    let one_year = off_loom.p10.year() == off_loom.p90.year();
    let date = |day: NaiveDate| format.date(day, if one_year { today } else { NaiveDate::MIN });
    let mut answer = Answer {
        headline: if dated {
            format!("Begun today, likely finished {}.", format.spoken_day(projection.finished.quantiles.p50, today))
        } else {
            "Begun today, not within three years at this pace.".into()
        },
        more: Vec::new(),
        why: vec![
            pace_why(time, format),
            projection_sentence(projection, &date, &in_picks),
            set_up_words(),
            "To the last pick come hem or fringe, washing, drying and pressing: one to three days, two most often (common \
             practice, no source)."
                .into(),
        ],
        standing: Standing::Open,
    };
    if dated {
        answer.more.push(span_words(&projection.finished, format, today));
    }
    answer.more.push(hours_words(&time.hours));
    if let (Some(gift_on), Some(chance)) = (inputs.gift_on, projection.gift_chance) {
        answer.more.push(gift_words(gift_on, chance, format, today));
        answer.standing = match chance {
            c if c >= SAFE_CHANCE => Standing::Well,
            c if c >= CLOSE_CHANCE => Standing::Close,
            _ => Standing::Short,
        };
    }
    answer
}

/// Hours and days as plain figures; no days where the likely one is more than three years ahead.
pub(super) fn fill_plain(time: &PlanTime, plain: &mut PlanFigures) {
    let HoursSpan { low, likely, high } = time.hours;
    plain.hours = Some([low, likely, high]);
    match &time.days {
        PlanDays::Projected(projection) if !projection.beyond_three_years => {
            let span = projection.finished.quantiles;
            plain.finished_likely = Some(span.p50.to_string());
            plain.finished_span = Some([span.p10.to_string(), span.p90.to_string()]);
            plain.gift_chance = projection.gift_chance;
        }
        PlanDays::Projected(_) => {}
        PlanDays::BeforeWeaving(before) => {
            if let Some((_, GiftNeed::Ways(ways))) = &before.gift {
                plain.gift_ways = ways.iter().map(|way| [way.days_a_week, way.minutes]).collect();
            }
        }
    }
}

fn hours_words(hours: &HoursSpan) -> String {
    format!(
        "Some {} of weaving, between {} and {}; winding and threading come on top.",
        rounded_hours(hours.likely),
        rounded_hours(hours.low),
        rounded_hours(hours.high)
    )
}

fn gift_words(gift_on: NaiveDate, chance: f64, format: &DisplayFormat, today: NaiveDate) -> String {
    if gift_on < today {
        return format!("The gift day, {}, is past.", format.weekday_date(gift_on, today));
    }
    let day = format.spoken_day(gift_on, today);
    match chance_words(chance).as_str() {
        "almost surely" => format!("It would almost surely be finished for {day}."),
        "hardly at all" => format!("It would hardly be finished for {day}."),
        words => format!("Finished by {day}: {words}."),
    }
}

fn pace_why(time: &PlanTime, format: &DisplayFormat) -> String {
    let whole = |number: f64| format.number(number, 0);
    let kind = kind_words(&time.kind);
    match &time.pace {
        PaceBasis::EarlierWarps { pace, slow, fast } => format!(
            "{} picks at {} an hour in {kind}, {}; four times in five between {} and {}.",
            whole(time.picks),
            whole(pace.value),
            behind(pace, format),
            whole(*slow),
            whole(*fast)
        ),
        PaceBasis::CommonPractice(speed) => speed_words(speed, format),
    }
}

//! How long a plan takes: hours at the loom, and the day it can be done if begun today.

use chrono::{Datelike, NaiveDate};
use fellmark_cloth::state::WovenLength;
use fellmark_projection::{Availability, LeftToWeave, Question, SectionKind, project, usual_finishing};

use super::past::History;
use super::typed::Typed;
use crate::model::display_format::DisplayFormat;
use crate::model::measures::{show_length, show_minutes};
use crate::present::view::{Answer, Standing};
use crate::reports::learnt::{Figure, behind};
use crate::reports::when::{SET_UP_MINUTES, chance_words, set_up_words, span_words};

/// Rigid heddle, inches of cloth an hour at the loom: middle, and nine in ten between (what hobby weavers report; common practice).
const PLAIN_INCHES_AN_HOUR: (f64, f64, f64) = (5.0, 12.0, 25.0);
const PICK_UP_INCHES_AN_HOUR: (f64, f64, f64) = (1.0, 4.0, 10.0);

/// Half the width of a span that holds four times in five, in standard deviations of a normal distribution.
const FOUR_IN_FIVE_Z: f64 = 1.281_551_565_544_6;

/// Hours and days of a plan.
#[derive(Clone, Debug)]
pub(super) struct Time {
    pub answer: Answer,
    /// Low, likely, high.
    pub hours: [f64; 3],
    /// The day, its span and the gift day's chance; none where the day lies more than three years ahead.
    pub likely: Option<String>,
    pub span: Option<[String; 2]>,
    pub gift_chance: Option<f64>,
}

/// Hours, with the sentence behind them.
fn hours(
    picks: f64,
    woven: WovenLength,
    kind: &SectionKind,
    pace: Option<&Figure>,
    format: &DisplayFormat,
) -> ([f64; 3], String) {
    if let Some(pace) = pace.filter(|pace| pace.value > 0.0) {
        let off = FOUR_IN_FIVE_Z * pace.deviation;
        // A warp a third as quick as the others is as slow as is reckoned with.
        let (slow, fast) = ((pace.value - off).max(pace.value / 3.0), pace.value + off);
        let why = format!(
            "{} picks at {} an hour in {}, {}; four times in five between {} and {}.",
            format.number(picks, 0),
            format.number(pace.value, 0),
            kind.words(),
            behind(pace),
            format.number(slow, 0),
            format.number(fast, 0)
        );
        return ([picks / fast, picks / pace.value, picks / slow], why);
    }
    let (slow, usual, fast) = if *kind == SectionKind::PickUp { PICK_UP_INCHES_AN_HOUR } else { PLAIN_INCHES_AN_HOUR };
    let inch = |inches: f64| show_length(inches * 25.4, format);
    let why = format!(
        "Nothing is known of your pace in {} yet: on a rigid heddle {} an hour is usual, nine in ten between {} and {} (common \
         practice, no source).",
        kind.words(),
        inch(usual),
        inch(slow),
        inch(fast)
    );
    let inches = woven.inches();
    ([inches / fast, inches / usual, inches / slow], why)
}

/// Reckons the time; nothing when it cannot be told.
pub(super) fn time(
    typed: &Typed,
    picks: f64,
    woven: WovenLength,
    history: &History<'_>,
    format: &DisplayFormat,
    today: NaiveDate,
) -> Option<Time> {
    let kind = if typed.weave_word.starts_with("plain weave,") { SectionKind::PickUp } else { SectionKind::Plain };
    let (hours, pace_why) = hours(picks, woven, &kind, history.pace.as_ref(), format);
    let question = Question {
        left: vec![LeftToWeave { kind, picks, picks_sd: 0.0 }],
        earlier: history.earlier().to_vec(),
        availability: Availability { days_a_week: typed.days_a_week, ..Availability::default() },
        finishing: usual_finishing(),
        plan_hours: Some(hours[1]),
        set_up_minutes: SET_UP_MINUTES,
        gift_day: typed.gift_on,
        ..Question::new(today, picks)
    };
    let projection = project(&question).ok()?;
    let span = projection.finished.span;
    // Days of two years each name theirs.
    let off = projection.off_loom.span;
    let reference = if off.p10.year() == off.p90.year() { today } else { NaiveDate::MIN };
    let date = |day: NaiveDate| format.date(day, reference);
    let dated = !projection.far;
    let weaving = format!(
        "Some {} of weaving, between {} and {}; winding and threading come on top.",
        rounded_hours(hours[1]),
        rounded_hours(hours[0]),
        rounded_hours(hours[2])
    );
    let mut answer = Answer {
        headline: if dated {
            format!("Begun today, likely finished {}.", format.spoken_day(span.p50, today))
        } else {
            "Begun today, not within three years at this pace.".into()
        },
        more: dated.then(|| span_words(&projection.finished, format, today)).into_iter().chain([weaving]).collect(),
        why: vec![
            pace_why,
            projection.sentence(&date),
            set_up_words(),
            "To the last pick come hem or fringe, washing, drying and pressing: one to three days, two most often (common \
             practice, no source)."
                .into(),
        ],
        standing: Standing::Open,
    };
    if let (Some(gift), Some(chance)) = (typed.gift_on, projection.gift_chance) {
        let day = format.spoken_day(gift, today);
        answer.more.push(match chance_words(chance).as_str() {
            _ if gift < today => format!("The gift day, {}, is past.", format.weekday_date(gift, today)),
            "almost surely" => format!("It would almost surely be finished for {day}."),
            "hardly at all" => format!("It would hardly be finished for {day}."),
            words => format!("Finished by {day}: {words}."),
        });
        answer.standing = match chance {
            c if c >= 0.8 => Standing::Well,
            c if c >= 0.4 => Standing::Close,
            _ => Standing::Short,
        };
    }
    Some(Time {
        answer,
        hours,
        likely: dated.then(|| span.p50.to_string()),
        span: dated.then(|| [span.p10.to_string(), span.p90.to_string()]),
        gift_chance: projection.gift_chance.filter(|_| dated),
    })
}

/// To the quarter of an hour below ten hours, to the hour above.
fn rounded_hours(hours: f64) -> String {
    let step = if hours < 10.0 { 15.0 } else { 60.0 };
    show_minutes(((hours * 60.0 / step).round() * step).max(15.0))
}

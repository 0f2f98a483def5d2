//! Before the first sitting of a weaver without finished warps: no date is made from other people's habits, but what it takes.

use chrono::NaiveDate;
use fellmark_cloth::learned::SpeedPrior;
use fellmark_cloth::state::WovenLength;
use fellmark_projection::{Basis, Note, Projection, ProjectionState, Question, project};

use crate::usual_hours::{HoursSpan, usual_hours};

/// The chance aimed at, 0 to 1.
pub(super) const SURE_ENOUGH: f64 = 0.8;
/// Longer than this on a day is never advised, minutes: it strains (see the caution at the loom; common practice, no source).
pub(super) const LONGEST_ADVISED_MINUTES: f64 = 180.0;
/// Minutes of a weaving day are advised in steps of five.
const STEP_MINUTES: f64 = 5.0;
/// Shorter than this it is hardly worth sitting down.
const SHORTEST_ADVISED_MINUTES: f64 = 15.0;
/// Days a week that are offered where none are stated.
const OFFERED_DAYS: [f64; 3] = [2.0, 4.0, 7.0];

/// So many weaving days a week of so many minutes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WeavingWeek {
    /// Days a week.
    pub days_a_week: f64,
    /// Minutes on each.
    pub minutes: f64,
}

/// What a gift day takes.
#[derive(Clone, Debug, PartialEq)]
pub enum GiftNeed {
    /// Each of these makes it four times in five.
    Ways(Vec<WeavingWeek>),
    /// More than can be woven without strain on the days there are; so many minutes a day were tried.
    TooMuch {
        /// The most that is advised.
        most_minutes: f64,
        /// Days a week that there are.
        days_a_week: f64,
    },
    /// It is past.
    Past,
}

/// What is known before the first sitting.
#[derive(Clone, Debug)]
pub struct BeforeWeaving {
    /// Hours at the loom, set-up not counted; nine in ten.
    pub hours: HoursSpan,
    /// The speed they follow from.
    pub speed: SpeedPrior,
    /// Minutes of set-up still to be done.
    pub set_up_minutes: f64,
    /// The gift day and what it takes.
    pub gift: Option<(NaiveDate, GiftNeed)>,
    /// The stated minutes of a weaving day.
    pub minutes_stated: Option<f64>,
    /// The stated days a week.
    pub days_stated: Option<f64>,
    /// What was noticed about the entries: sittings dated after today.
    pub notes: Vec<Note>,
    /// Since when it rests, if it does.
    pub resting_since: Option<NaiveDate>,
}

/// Hours and what the gift day takes, where the projection knows nothing but common practice; `None` where it knows more.
#[must_use]
pub fn before_weaving(
    question: &Question,
    projection: &Projection,
    cloth: WovenLength,
    speed: SpeedPrior,
) -> Option<BeforeWeaving> {
    let resting_since = match projection.state {
        ProjectionState::NotBegun | ProjectionState::NotAtThisPace => None,
        ProjectionState::Resting { since } => Some(since),
        ProjectionState::Running | ProjectionState::ReadyToCutOff | ProjectionState::Finishing { .. } => return None,
    };
    if projection.reasons.basis != Basis::CommonPractice {
        return None;
    }
    Some(BeforeWeaving {
        hours: usual_hours(cloth, speed),
        speed,
        set_up_minutes: question.set_up_minutes,
        gift: question.gift_day.map(|day| (day, gift_need(question, day))),
        minutes_stated: question.stated_minutes,
        days_stated: stated_days(question),
        notes: projection.notes.iter().filter(|note| matches!(note, Note::FutureSittings { .. })).cloned().collect(),
        resting_since,
    })
}

/// Weaving days a week as stated.
fn stated_days(question: &Question) -> Option<f64> {
    let weekdays = question.availability.weekdays.map(|days| days.iter().filter(|day| **day).count() as f64);
    weekdays.filter(|days| *days > 0.0).or(question.availability.days_a_week)
}

/// The chance of a gift day if so much were stated: the same calculation that gives the date once it is.
fn chance(question: &Question, gift: NaiveDate, days: WeavingWeek) -> f64 {
    let mut stated = question.clone();
    stated.availability.days_a_week = Some(days.days_a_week);
    stated.stated_minutes = Some(days.minutes);
    stated.gift_day = Some(gift);
    project(&stated).ok().and_then(|projection| projection.gift_chance).unwrap_or(0.0)
}

/// The least minutes a day, in steps of five, that make the gift day on so many days a week.
fn least_minutes(question: &Question, gift: NaiveDate, days_a_week: f64) -> Option<f64> {
    let steps = ((LONGEST_ADVISED_MINUTES - SHORTEST_ADVISED_MINUTES) / STEP_MINUTES).round() as u32;
    let minutes = |step: u32| SHORTEST_ADVISED_MINUTES + STEP_MINUTES * f64::from(step);
    let enough = |step: u32| chance(question, gift, WeavingWeek { days_a_week, minutes: minutes(step) }) >= SURE_ENOUGH;
    if !enough(steps) {
        return None;
    }
    let (mut low, mut high) = (0, steps);
    while low < high {
        let middle = u32::midpoint(low, high);
        if enough(middle) { high = middle } else { low = middle + 1 }
    }
    Some(minutes(high))
}

/// The least whole days a week, more than `above`, that make the gift day with so many minutes on each.
fn least_days(question: &Question, gift: NaiveDate, minutes: f64, above: f64) -> Option<f64> {
    (1..=7_u32)
        .map(f64::from)
        .filter(|days| *days > above)
        .find(|days_a_week| chance(question, gift, WeavingWeek { days_a_week: *days_a_week, minutes }) >= SURE_ENOUGH)
}

/// What would make a gift day, the stated days and minutes first: each way is enough by the calculation that follows when it is
/// stated.
pub(super) fn gift_need(question: &Question, gift: NaiveDate) -> GiftNeed {
    if gift < question.today {
        return GiftNeed::Past;
    }
    // The days of the week that are stated are the days there are.
    let fixed = question.availability.weekdays.is_some();
    let (days, minutes) = (stated_days(question), question.stated_minutes.filter(|m| *m <= LONGEST_ADVISED_MINUTES));
    let mut ways = Vec::new();
    if let Some(days_a_week) = days {
        ways.extend(least_minutes(question, gift, days_a_week).map(|minutes| WeavingWeek { days_a_week, minutes }));
    }
    if let (Some(minutes), false) = (minutes, fixed) {
        let above = days.unwrap_or(0.0);
        ways.extend(least_days(question, gift, minutes, above).map(|days_a_week| WeavingWeek { days_a_week, minutes }));
    }
    if ways.is_empty() && !fixed {
        let offered: Vec<f64> = match days {
            // More days than stated, as few more as will do.
            Some(stated) => (1..=7_u32).map(f64::from).filter(|days| *days > stated).collect(),
            None => OFFERED_DAYS.to_vec(),
        };
        let all = offered
            .iter()
            .filter_map(|days_a_week| {
                let minutes = least_minutes(question, gift, *days_a_week)?;
                Some(WeavingWeek { days_a_week: *days_a_week, minutes })
            })
            .take(if days.is_some() { 1 } else { OFFERED_DAYS.len() });
        ways.extend(all);
    }
    if ways.is_empty() {
        let days_a_week = days.filter(|_| fixed).unwrap_or(7.0);
        GiftNeed::TooMuch { most_minutes: LONGEST_ADVISED_MINUTES, days_a_week }
    } else {
        GiftNeed::Ways(ways)
    }
}

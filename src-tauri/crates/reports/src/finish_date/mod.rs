//! When a warp will be done: the question put to the projection, what it answers, and what would make the gift day.

mod advice;
mod measure;

use chrono::NaiveDate;
use fellmark_projection::{Projection, Question, QuestionError, project};

use crate::history::History;
use crate::progress::Progress;
use crate::weave_kinds::WeaveKinds;
use fellmark_model::WarpLog;
use fellmark_model::WarpState;
use fellmark_model::finishing;

pub use advice::{Advice, DaysAWeek, ShorterBy, advice};
pub use measure::Measure;

/// Winding and threading a rigid heddle, minutes: one weaver's itemised account; the practised report 20 to 30 minutes.
pub const SET_UP_MINUTES: f64 = 90.0;

/// When a warp will be done.
#[derive(Debug)]
pub enum FinishDate {
    /// Every finishing step is ticked; the day of the last tick.
    Done(NaiveDate),
    /// It is not known how much is to be woven.
    Unknown,
    /// The projection, or why there is none.
    Projected(Result<Box<Projection>, QuestionError>),
}

/// Minutes of set-up still to be done: a warp that was planned is begun before it is wound, and on the loom by its first sitting. One
/// begun without a plan is on the loom already.
#[must_use]
pub fn set_up_minutes(log: &WarpLog, progress: &Progress) -> f64 {
    let woven_on = !log.sittings.is_empty() || log.running.is_some() || progress.picks != 0;
    if log.warp.planned_hours.is_some() && !woven_on { SET_UP_MINUTES } else { 0.0 }
}

/// What the projection of a warp is asked; nothing when it is not known how much is to be woven.
#[must_use]
pub fn question(log: &WarpLog, progress: &Progress, history: &History, today: NaiveDate) -> Option<Question> {
    let warp = &log.warp;
    let measure = Measure::for_progress(progress);
    let (picks_left, picks_left_sd) = measure.left(progress)?;
    let along = WeaveKinds::of(warp);
    let history = history.without(&warp.id);
    // A day still to come is a slip: it is off the loom, or set aside, as recorded.
    let since = warp.state_on.unwrap_or(today).min(today);
    Some(Question {
        today,
        sittings: along.sittings(measure.sittings(log, progress)),
        left: along.left(measure.woven(progress), picks_left, picks_left_sd),
        earlier: history.earlier.clone(),
        availability: warp.said.for_projection(warp.days_a_week),
        finishing: finishing::still_to_do(log, &history.waiting_days),
        plan_hours: warp.planned_hours,
        set_up_minutes: set_up_minutes(log, progress),
        gift_day: warp.gift_on,
        resting_since: (warp.state == WarpState::Resting).then_some(since),
        cut_off: (warp.state == WarpState::OffTheLoom).then_some(since),
    })
}

/// Projects when a warp will be done.
#[must_use]
pub fn finish_date(log: &WarpLog, progress: &Progress, history: &History, today: NaiveDate) -> FinishDate {
    if log.warp.state == WarpState::OffTheLoom
        && let Some(day) = finishing::finished_on(log)
    {
        return FinishDate::Done(day);
    }
    match question(log, progress, history, today) {
        Some(question) => FinishDate::Projected(project(&question).map(Box::new)),
        None => FinishDate::Unknown,
    }
}

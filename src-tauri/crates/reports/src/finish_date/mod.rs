//! When a warp will be done: the question put to the projection, what it answers, and what would make the gift day.

mod advice;
mod before_weaving;
mod measure;
mod question;

use chrono::NaiveDate;
use fellmark_projection::{Projection, QuestionError, project};

use crate::history::History;
use crate::progress::Progress;
use fellmark_model::WarpLog;
use fellmark_model::WarpState;
use fellmark_model::finishing;

pub use advice::{Advice, DaysAWeek, ShorterBy, advice};
pub use before_weaving::{BeforeWeaving, GiftNeed, WeavingWeek, before_weaving};
pub use measure::Measure;
pub use question::{SET_UP_MINUTES, question, set_up_minutes};
use question::{cloth_left, usual_speed};

/// When a warp will be done.
#[derive(Debug)]
pub enum FinishDate {
    /// Every finishing step is ticked; the day of the last tick.
    Done(NaiveDate),
    /// It is not known how much is to be woven.
    Unknown,
    /// Nothing is woven and nothing known of the weaver: what it takes, and no date.
    BeforeWeaving(Box<BeforeWeaving>),
    /// The projection, or why there is none.
    Projected(Result<Box<Projection>, QuestionError>),
}

/// Projects when a warp will be done.
#[must_use]
pub fn finish_date(log: &WarpLog, progress: &Progress, history: &History, today: NaiveDate) -> FinishDate {
    if log.warp.state == WarpState::OffTheLoom
        && let Some(day) = finishing::finished_on(log)
    {
        return FinishDate::Done(day);
    }
    let Some(question) = question(log, progress, history, today) else { return FinishDate::Unknown };
    let projected = project(&question);
    if let (Ok(projection), Some(cloth)) = (&projected, cloth_left(progress))
        && let Some(before) = before_weaving(&question, projection, cloth, usual_speed(log))
    {
        return FinishDate::BeforeWeaving(Box::new(before));
    }
    FinishDate::Projected(projected.map(Box::new))
}

//! What it would take: more minutes on a weaving day, more weaving days, or a shorter piece.

use chrono::NaiveDate;
use serde::Serialize;

use crate::error::QuestionError;
use crate::projection::Projection;

/// At most this many times the usual sitting.
const MOST_TIMES: f64 = 24.0;
/// At most this long on a day, in minutes.
const LONGEST_DAY_MINUTES: f64 = 600.0;
/// Halvings of an interval: enough for a part in a million.
const HALVINGS: usize = 24;

/// What is to be reached.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Goal {
    /// The last pick woven.
    OffLoom,
    /// Every finishing step done.
    Finished,
}

/// What would reach a goal by a day with a chosen chance. Each way is on its own; `None` where it cannot be done that way.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Requirement {
    /// The chance as things are, 0 to 1.
    pub chance_now: f64,
    /// The chance asked for, 0 to 1.
    pub chance_wanted: f64,
    /// How many times the weaver's usual amount on each weaving day; 1 when things may stay as they are.
    pub times: Option<f64>,
    /// The same in minutes a weaving day; `None` when no sitting was timed.
    pub minutes_a_day: Option<f64>,
    /// The weaver's usual minutes a weaving day; `None` when no sitting was timed.
    pub usual_minutes_a_day: Option<f64>,
    /// The same in picks a weaving day.
    pub picks_a_day: Option<f64>,
    /// Days a week, at the weaver's usual amount, at most 7.
    pub days_a_week: Option<f64>,
    /// The weaver's usual days a week.
    pub usual_days_a_week: f64,
    /// Picks by which the rest would have to be shorter; 0 when it may stay as it is.
    pub picks_fewer: Option<f64>,
}

/// The least `x` in `low..=high` for which `holds`, a test that stays true once true; `None` if not at `high`.
fn least(low: f64, high: f64, holds: impl Fn(f64) -> bool) -> Option<f64> {
    if holds(low) {
        return Some(low);
    }
    if !holds(high) {
        return None;
    }
    let (mut low, mut high) = (low, high);
    for _ in 0..HALVINGS {
        let middle = (low + high) / 2.0;
        if holds(middle) { high = middle } else { low = middle }
    }
    Some(high)
}

impl Projection {
    /// What it would take to reach `goal` by the end of `day` with at least `chance`.
    ///
    /// # Errors
    /// [`QuestionError::BadChance`] unless 0 < `chance` < 1.
    pub fn requirement(&self, goal: Goal, day: NaiveDate, chance: f64) -> Result<Requirement, QuestionError> {
        if !(chance > 0.0 && chance < 1.0) {
            return Err(QuestionError::BadChance { value: chance });
        }
        let r = &self.completion;
        let offset = r.calendar.offset(day);
        // `amount` left, `often` times as many weaving days.
        let chance_with = |amount: f64, often: f64| {
            let Some(offset) = offset else { return 0.0 };
            let effort = r.effort.filter(|_| amount > 0.0).map(|_| self.pace.effort(amount, self.left.sd));
            match goal {
                Goal::OffLoom => r.woven(effort, offset, often),
                Goal::Finished => r.finished(effort, offset, often),
            }
        };
        let left = self.left.amount;
        let usual_minutes = self.reasons.minutes_a_day;
        let most = usual_minutes.map_or(MOST_TIMES, |m| (LONGEST_DAY_MINUTES / m).clamp(1.0, MOST_TIMES));
        let usual_week = (7.0 / self.reasons.days_between).min(7.0);
        let times = least(1.0, most, |times| chance_with(left / times, 1.0) >= chance);
        let often = least(1.0, 7.0 / usual_week, |often| chance_with(left, often) >= chance);
        let shorter = least(0.0, left - self.left.set_up, |less| chance_with(left - less, 1.0) >= chance);
        Ok(Requirement {
            chance_now: chance_with(left, 1.0),
            chance_wanted: chance,
            times,
            minutes_a_day: times.zip(usual_minutes).map(|(t, m)| t * m),
            usual_minutes_a_day: usual_minutes,
            picks_a_day: times.map(|t| t * self.reasons.picks_a_day),
            days_a_week: often.map(|o| o * usual_week),
            usual_days_a_week: usual_week,
            picks_fewer: shorter.map(|s| s * self.left.picks_per_amount),
        })
    }
}

//! From a question to an answer.

use std::sync::Arc;

use chrono::NaiveDate;
use serde::Serialize;

use crate::calendar::Calendar;
use crate::calibration::{StatedRhythm, calibrated_pace};
use crate::cleaning::{CleanedQuestion, clean};
use crate::date_distribution::{Completion, DateDistribution};
use crate::error::QuestionError;
use crate::notes::Note;
use crate::pace::{Pace, USUAL_MINUTES};
use crate::question::{FinishingStep, Question};
use crate::reasons::{Basis, Reasons};

/// Beyond this many days to the likely day, a date would claim too much: three years.
const LONGEST_LIKELY_DAYS: i64 = 1096;
/// An open gap longer than both of these asks whether the warp rests: days, and the weaver's usual gaps.
const RESTING_DAYS: f64 = 21.0;
const RESTING_GAPS: f64 = 4.0;
/// With fewer weaving days than this, and no earlier warp, what the weaver states about the week is the better guide.
const FEWEST_DAYS_UNASKED: usize = 4;
/// A recent pace above the weaver's usual one by so much in ln, a fifth faster, is noted.
const NOTED_SPRINT: f64 = 0.182_321_556_793_954_6;
/// More finishing days than this are a typing error.
const MOST_FINISHING_DAYS: u32 = 400;

/// The state of a warp.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(tag = "state", rename_all = "kebab-case")]
pub enum ProjectionState {
    /// No sitting yet: the distribution is based on earlier warps, on what the weaver states, or on common practice.
    NotBegun,
    /// Being woven.
    Running,
    /// The target is met: ready to cut off.
    ReadyToCutOff,
    /// Cut off; only finishing is left.
    Finishing {
        /// The day it was cut off.
        since: NaiveDate,
    },
    /// Put aside. It has no date; the distribution is what it would be if taken up today.
    Resting {
        /// Since when.
        since: NaiveDate,
    },
    /// Not within three years at this pace: show no date.
    NotAtThisPace,
}

/// An answer.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Projection {
    /// The state of the warp.
    pub state: ProjectionState,
    /// The day of the last pick.
    pub off_loom: DateDistribution,
    /// The day every finishing step is done.
    pub finished: DateDistribution,
    /// The chance, 0 to 1, that it is finished by the end of the gift day; `None` without one.
    pub gift_chance: Option<f64>,
    /// The numbers behind it.
    pub reasons: Reasons,
    /// What was noticed about the entries.
    pub notes: Vec<Note>,
    /// (day, net picks since the start by the end of it), a point for each day with a sitting: the picture's past.
    pub woven: Vec<(NaiveDate, f64)>,
    /// Whether the likely day lies more than three years ahead, also of a warp that rests: a date would claim too much.
    #[serde(skip)]
    pub beyond_three_years: bool,
    #[serde(skip)]
    pub(crate) completion: Arc<Completion>,
    #[serde(skip)]
    pub(crate) pace: Pace,
    #[serde(skip)]
    pub(crate) left: RemainingWork,
}

/// What is left, as it is projected.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct RemainingWork {
    /// In the common measure, set-up included.
    pub(crate) amount: f64,
    pub(crate) sd: f64,
    /// Set-up alone.
    pub(crate) set_up: f64,
    /// Picks the weaver counts for one of the common measure.
    pub(crate) picks_per_amount: f64,
}

/// Answers `question`.
///
/// # Errors
/// [`QuestionError`] when an entry is no amount of weaving, a stated range runs backwards, no weekday is left to
/// weave on, or today lies outside the calendar.
pub fn project(question: &Question) -> Result<Projection, QuestionError> {
    let cleaned = clean(question)?;
    let pace = calibrated_pace(question, &cleaned);
    let mut woven_days: Vec<NaiveDate> = cleaned.now.days.iter().map(|d| d.0).collect();
    woven_days.extend(cleaned.earlier.iter().flat_map(|w| w.days.iter().map(|d| d.0)));
    let one_sitting = pace.amount / pace.rate;
    let calendar = Calendar::new(question.today, &woven_days, &question.availability, one_sitting)?;

    let stated = StatedRhythm::of(question, &cleaned);
    let timed = cleaned.kinds.reference_per_minute.map(|per_minute| pace.amount / per_minute);
    let minutes_a_day = timed.or(stated.map(|stated| stated.minutes));
    let left = left(question, &cleaned, &pace, minutes_a_day)?;
    let done = cleaned.left <= 0.0 || question.cut_off.is_some_and(|day| day <= question.today);
    let effort = (!done).then(|| pace.effort(left.amount, left.sd));
    let finishing = finishing_days(&question.finishing)?;
    let completion = Arc::new(Completion { calendar, effort, finishing });
    let off_loom = DateDistribution::new(Arc::clone(&completion), false);
    let finished = DateDistribution::new(Arc::clone(&completion), true);

    let far = (off_loom.quantiles.p50 - question.today).num_days() > LONGEST_LIKELY_DAYS;
    let begun = !cleaned.now.days.is_empty();
    let state = match (question.cut_off, question.resting_since) {
        (Some(since), _) if since <= question.today => ProjectionState::Finishing { since },
        _ if done => ProjectionState::ReadyToCutOff,
        (_, Some(since)) => ProjectionState::Resting { since },
        _ if far => ProjectionState::NotAtThisPace,
        _ if begun => ProjectionState::Running,
        _ => ProjectionState::NotBegun,
    };

    let mut notes = cleaned.notes.clone();
    if !done {
        let warps = cleaned.earlier.len();
        match (begun, warps) {
            (false, 0) if stated.is_some() => {}
            (false, 0) => notes.push(Note::FromCommonPractice),
            (false, _) => notes.push(Note::FromEarlierWarps { warps }),
            _ => {}
        }
        let week_stated = question.availability.days_a_week.is_some() || question.availability.weekdays.is_some();
        if warps == 0 && cleaned.now.days.len() < FEWEST_DAYS_UNASKED && !week_stated {
            notes.push(Note::AskDaysAWeek);
        }
        // On fewer days without earlier warps the usual pace is not the weaver's own yet; and where no day is shown, no span is.
        let known = warps > 0 || cleaned.now.days.len() >= FEWEST_DAYS_UNASKED;
        if known && !far && pace.sprint >= NOTED_SPRINT {
            notes.push(Note::FasterOfLate);
        }
        if question.resting_since.is_none() && pace.open_gap > RESTING_DAYS.max(RESTING_GAPS * pace.gap) {
            notes.push(Note::AskResting { days: pace.open_gap as u32 });
        }
    }

    let mut reasons = reasons(&cleaned, &pace, &left, minutes_a_day);
    if stated.is_some() {
        reasons.basis = Basis::Stated;
    }
    let gift_chance = question.gift_day.map(|day| finished.chance_by(day));
    let mut sum = 0.0;
    let woven = cleaned.now.days_net().map(|(day, net)| {
        sum += net;
        (day, sum)
    });
    let woven = woven.collect();
    Ok(Projection {
        state,
        off_loom,
        finished,
        gift_chance,
        reasons,
        notes,
        woven,
        beyond_three_years: far,
        completion,
        pace,
        left,
    })
}

fn left(
    question: &Question,
    cleaned: &CleanedQuestion,
    pace: &Pace,
    minutes_a_day: Option<f64>,
) -> Result<RemainingWork, QuestionError> {
    let minutes = question.set_up_minutes;
    if !(0.0..=1e5).contains(&minutes) {
        return Err(QuestionError::NotAnAmount { field: "the minutes of set-up".into(), value: minutes });
    }
    let set_up = pace.amount * minutes / minutes_a_day.unwrap_or(USUAL_MINUTES).max(1.0);
    let picks_per_amount = if cleaned.left > 0.0 { cleaned.left_picks / cleaned.left } else { 1.0 };
    Ok(RemainingWork { amount: cleaned.left + set_up, sd: cleaned.left_sd, set_up, picks_per_amount })
}

fn finishing_days(steps: &[FinishingStep]) -> Result<Vec<f64>, QuestionError> {
    let mut total = vec![1.0];
    for step in steps {
        let sum: f64 = step.days.iter().map(|d| d.1).sum();
        let fine = step.days.iter().all(|(days, w)| *days <= MOST_FINISHING_DAYS && w.is_finite() && *w >= 0.0);
        if !fine || !sum.is_finite() || sum <= 0.0 {
            return Err(QuestionError::BadFinishing { step: step.name.clone() });
        }
        let longest = step.days.iter().map(|d| d.0).max().unwrap_or(0) as usize;
        let mut next = vec![0.0; total.len() + longest];
        for (before, chance) in total.iter().enumerate() {
            for (days, weight) in &step.days {
                next[before + *days as usize] += chance * weight / sum;
            }
        }
        total = next;
    }
    Ok(total)
}

fn reasons(cleaned: &CleanedQuestion, pace: &Pace, left: &RemainingWork, minutes_a_day: Option<f64>) -> Reasons {
    let (low, high) = Reasons::sittings_range(pace.sittings(left.amount));
    Reasons {
        basis: match (cleaned.now.days.is_empty(), cleaned.earlier.is_empty()) {
            (false, _) => Basis::OwnSittings,
            (true, false) => Basis::EarlierWarps,
            (true, true) => Basis::CommonPractice,
        },
        weaving_days: cleaned.now.days.len(),
        earlier_warps: cleaned.earlier.len(),
        picks_left: cleaned.left_picks,
        picks_a_day: pace.amount * left.picks_per_amount,
        days_between: pace.amount / pace.rate,
        sittings_left_low: low,
        sittings_left_high: high,
        minutes_a_day,
        paces: cleaned.kinds.paces.clone(),
    }
}

impl Projection {
    /// Median of the days from the last pick to the finished piece.
    #[must_use]
    pub fn finishing_days_likely(&self) -> u32 {
        let mut sum = 0.0;
        let enough = |chance: &f64| {
            sum += chance;
            sum >= 0.5 - 1e-12
        };
        self.completion.finishing.iter().position(enough).and_then(|days| u32::try_from(days).ok()).unwrap_or(0)
    }

    /// The mean of those days.
    #[must_use]
    pub fn finishing_days_mean(&self) -> f64 {
        self.completion.finishing.iter().enumerate().map(|(days, chance)| days as f64 * chance).sum()
    }
}

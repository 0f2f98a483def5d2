//! From a question to an answer.

use std::sync::Arc;

use chrono::NaiveDate;
use serde::Serialize;

use crate::calendar::Calendar;
use crate::clean::{Cleaned, clean};
use crate::error::QuestionError;
use crate::model::{Pace, USUAL_MINUTES};
use crate::notes::Note;
use crate::outlook::{Outlook, Reckoning};
use crate::question::{FinishingStep, Question};
use crate::reasons::{Basis, Reasons};

/// Past this many days to the likely day, a date would be a pretence: three years.
const LONGEST_LIKELY_DAYS: i64 = 1096;
/// An open gap longer than both of these asks whether the warp rests: days, and her usual gaps.
const RESTING_DAYS: f64 = 21.0;
const RESTING_GAPS: f64 = 4.0;
/// With fewer weaving days than this, and no earlier warp, her own word on her week tells more than they do.
const FEWEST_DAYS_UNASKED: usize = 4;
/// A recent pace above her usual one by so much in ln, a fifth faster, is told of.
const TOLD_SPRINT: f64 = 0.182_321_556_793_954_6;
/// More finishing days than this are a slip of the pen.
const MOST_FINISHING_DAYS: u32 = 400;

/// How things stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(tag = "state", rename_all = "kebab-case")]
pub enum State {
    /// No sitting yet: the outlook goes by earlier warps or by common practice.
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
    /// Put aside. It has no date; the outlook says what it would be if taken up today.
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
    /// How things stand.
    pub state: State,
    /// The day of the last pick.
    pub off_loom: Outlook,
    /// The day every finishing step is done.
    pub finished: Outlook,
    /// The chance, 0 to 1, that it is finished by the end of the gift day; `None` without one.
    pub gift_chance: Option<f64>,
    /// The numbers behind it.
    pub reasons: Reasons,
    /// What was noticed on the way.
    pub notes: Vec<Note>,
    /// (day, net picks since the start by the end of it), a point for each day with a sitting: the picture's past.
    pub woven: Vec<(NaiveDate, f64)>,
    /// Whether the likely day lies more than three years ahead, also of a warp that rests: a date would be a pretence.
    #[serde(skip)]
    pub far: bool,
    #[serde(skip)]
    pub(crate) reckoning: Arc<Reckoning>,
    #[serde(skip)]
    pub(crate) pace: Pace,
    #[serde(skip)]
    pub(crate) left: Left,
}

/// What is left, as the model sees it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Left {
    /// In the common measure, set-up included.
    pub(crate) amount: f64,
    pub(crate) sd: f64,
    /// Set-up alone.
    pub(crate) set_up: f64,
    /// Picks she counts for one of the common measure.
    pub(crate) picks_per_amount: f64,
}

/// Answers `question`.
///
/// # Errors
/// [`QuestionError`] when an entry is no amount of weaving, a stated range runs backwards, no weekday is left to
/// weave on, or today lies outside the calendar.
pub fn project(question: &Question) -> Result<Projection, QuestionError> {
    let cleaned = clean(question)?;
    let pace = Pace::learn(question, &cleaned);
    let mut woven_days: Vec<NaiveDate> = cleaned.now.days.iter().map(|d| d.0).collect();
    woven_days.extend(cleaned.earlier.iter().flat_map(|w| w.days.iter().map(|d| d.0)));
    let one_sitting = pace.amount / pace.rate;
    let calendar = Calendar::new(question.today, &woven_days, &question.availability, one_sitting)?;

    let minutes_a_day = cleaned.kinds.reference_per_minute.map(|per_minute| pace.amount / per_minute);
    let left = left(question, &cleaned, &pace, minutes_a_day)?;
    let done = cleaned.left <= 0.0 || question.cut_off.is_some_and(|day| day <= question.today);
    let law = (!done).then(|| pace.law(left.amount, left.sd));
    let finishing = finishing_days(&question.finishing)?;
    let reckoning = Arc::new(Reckoning { calendar, law, finishing });
    let off_loom = Outlook::new(Arc::clone(&reckoning), false);
    let finished = Outlook::new(Arc::clone(&reckoning), true);

    let far = (off_loom.span.p50 - question.today).num_days() > LONGEST_LIKELY_DAYS;
    let begun = !cleaned.now.days.is_empty();
    let state = match (question.cut_off, question.resting_since) {
        (Some(since), _) if since <= question.today => State::Finishing { since },
        _ if done => State::ReadyToCutOff,
        (_, Some(since)) => State::Resting { since },
        _ if far => State::NotAtThisPace,
        _ if begun => State::Running,
        _ => State::NotBegun,
    };

    let mut notes = cleaned.notes.clone();
    if !done {
        let warps = cleaned.earlier.len();
        match (begun, warps) {
            (false, 0) => notes.push(Note::FromCommonPractice),
            (false, _) => notes.push(Note::FromEarlierWarps { warps }),
            _ => {}
        }
        let said = question.availability.days_a_week.is_some() || question.availability.weekdays.is_some();
        if warps == 0 && cleaned.now.days.len() < FEWEST_DAYS_UNASKED && !said {
            notes.push(Note::AskDaysAWeek);
        }
        // On fewer days without earlier warps, what is usual is not yet hers; and where no day is told, no span is.
        let known = warps > 0 || cleaned.now.days.len() >= FEWEST_DAYS_UNASKED;
        if known && !far && pace.sprint >= TOLD_SPRINT {
            notes.push(Note::FasterOfLate);
        }
        if question.resting_since.is_none() && pace.open_gap > RESTING_DAYS.max(RESTING_GAPS * pace.gap) {
            notes.push(Note::AskResting { days: pace.open_gap as u32 });
        }
    }

    let reasons = reasons(&cleaned, &pace, &left, minutes_a_day);
    let gift_chance = question.gift_day.map(|day| finished.chance_by(day));
    let mut sum = 0.0;
    let woven = cleaned.now.days_net().map(|(day, net)| {
        sum += net;
        (day, sum)
    });
    let woven = woven.collect();
    Ok(Projection { state, off_loom, finished, gift_chance, reasons, notes, woven, far, reckoning, pace, left })
}

fn left(
    question: &Question,
    cleaned: &Cleaned,
    pace: &Pace,
    minutes_a_day: Option<f64>,
) -> Result<Left, QuestionError> {
    let minutes = question.set_up_minutes;
    if !(0.0..=1e5).contains(&minutes) {
        return Err(QuestionError::NotAnAmount { field: "the minutes of set-up".into(), value: minutes });
    }
    let set_up = pace.amount * minutes / minutes_a_day.unwrap_or(USUAL_MINUTES).max(1.0);
    let picks_per_amount = if cleaned.left > 0.0 { cleaned.left_picks / cleaned.left } else { 1.0 };
    Ok(Left { amount: cleaned.left + set_up, sd: cleaned.left_sd, set_up, picks_per_amount })
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

fn reasons(cleaned: &Cleaned, pace: &Pace, left: &Left, minutes_a_day: Option<f64>) -> Reasons {
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
    /// Days from the last pick to the finished piece that are as often enough as not.
    #[must_use]
    pub fn finishing_days_likely(&self) -> u32 {
        let mut sum = 0.0;
        let enough = |chance: &f64| {
            sum += chance;
            sum >= 0.5 - 1e-12
        };
        self.reckoning.finishing.iter().position(enough).and_then(|days| u32::try_from(days).ok()).unwrap_or(0)
    }

    /// The mean of those days.
    #[must_use]
    pub fn finishing_days_mean(&self) -> f64 {
        self.reckoning.finishing.iter().enumerate().map(|(days, chance)| days as f64 * chance).sum()
    }
}

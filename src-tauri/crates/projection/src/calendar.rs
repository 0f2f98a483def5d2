//! Which coming days count for how much.

use chrono::{Datelike, Days, NaiveDate};

use crate::error::QuestionError;
use crate::question::Availability;

/// The horizon: no day later than this is calculated. Ten years.
pub(crate) const HORIZON_DAYS: usize = 3653;
/// Weight of each weekday before anything is known of the weaver's week, Monday first.
const WEEK: [f64; 7] = [0.9, 0.9, 0.9, 0.9, 0.9, 1.25, 1.25];
/// Weaving days that this prior counts for.
const WEEK_WEIGHT: f64 = 28.0;

/// Coming days from today on, each with its weight in usual days, and on which of them the weaver is at home.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Calendar {
    today: NaiveDate,
    /// Usual days gained by the end of each day.
    gained: Vec<f64>,
    /// Days at home by the end of each day.
    at_home: Vec<u32>,
}

impl Calendar {
    /// `woven` are the days the weaver wove on, `promised` the weight of a day on which the weaver states to weave.
    pub(crate) fn new(
        today: NaiveDate,
        woven: &[NaiveDate],
        stated: &Availability,
        promised: f64,
    ) -> Result<Self, QuestionError> {
        let out_of_range = QuestionError::TodayOutOfRange { today };
        today.checked_add_days(Days::new(2 * HORIZON_DAYS as u64)).ok_or(out_of_range.clone())?;
        today.checked_sub_days(Days::new(2 * HORIZON_DAYS as u64)).ok_or(out_of_range)?;
        for range in stated.away.iter().chain(&stated.every_day) {
            if range.until < range.from {
                return Err(QuestionError::BackwardRange { from: range.from, until: range.until });
            }
        }
        let week = match stated.weekdays {
            Some(days) => stated_week(days)?,
            None => estimated_week(woven),
        };
        let mut weights: Vec<f64> = {
            let start = today.weekday().num_days_from_monday() as usize;
            (0..HORIZON_DAYS).map(|d| week[(start + d) % 7]).collect()
        };
        let mut away = vec![false; HORIZON_DAYS];
        let offset = |day: NaiveDate| (day - today).num_days().clamp(-1, HORIZON_DAYS as i64);
        let window = |from: NaiveDate, until: NaiveDate| {
            let (first, last) = (offset(from).max(0) as usize, offset(until));
            first..((last + 1).max(0) as usize).clamp(first.min(HORIZON_DAYS), HORIZON_DAYS)
        };
        for range in &stated.every_day {
            for weight in &mut weights[window(range.from, range.until)] {
                *weight = weight.max(promised);
            }
        }
        for range in &stated.away {
            for d in window(range.from, range.until) {
                weights[d] = 0.0;
                away[d] = true;
            }
        }
        let mut sum = 0.0;
        let gained = weights
            .iter()
            .map(|w| {
                sum += w;
                sum
            })
            .collect();
        let mut home = 0;
        let at_home = away
            .iter()
            .map(|away| {
                home += u32::from(!away);
                home
            })
            .collect();
        Ok(Self { today, gained, at_home })
    }

    /// The day `offset` days after today.
    pub(crate) fn day(&self, offset: usize) -> NaiveDate {
        self.today.checked_add_days(Days::new(offset as u64)).unwrap_or(NaiveDate::MAX)
    }

    /// Days from today to `day`; `None` before today. Held to the horizon.
    pub(crate) fn offset(&self, day: NaiveDate) -> Option<usize> {
        usize::try_from((day - self.today).num_days()).ok().map(|d| d.min(HORIZON_DAYS - 1))
    }

    /// Usual days gained by the end of the day `offset` days after today.
    pub(crate) fn gained(&self, offset: usize) -> f64 {
        self.gained[offset.min(HORIZON_DAYS - 1)]
    }

    /// The first day by whose end `effort` usual days are gained; `None` beyond the horizon.
    pub(crate) fn first_reaching(&self, effort: f64) -> Option<usize> {
        // A day that adds nothing is never the first to reach anything above zero.
        let effort = effort.max(f64::MIN_POSITIVE);
        let d = self.gained.partition_point(|g| *g < effort);
        (d < HORIZON_DAYS).then_some(d)
    }

    /// The last day off the loom from which `steps` days at home are over by the end of day `offset`.
    pub(crate) fn latest_before(&self, offset: usize, steps: u32) -> Option<usize> {
        if steps == 0 {
            return Some(offset);
        }
        let home = self.at_home[offset.min(HORIZON_DAYS - 1)].checked_sub(steps)?;
        self.at_home.partition_point(|h| *h <= home).checked_sub(1)
    }
}

fn stated_week(days: [bool; 7]) -> Result<[f64; 7], QuestionError> {
    let n = days.iter().filter(|d| **d).count();
    if n == 0 {
        return Err(QuestionError::NoWeavingDay);
    }
    Ok(days.map(|d| if d { 7.0 / n as f64 } else { 0.0 }))
}

fn estimated_week(woven: &[NaiveDate]) -> [f64; 7] {
    let mut week = WEEK.map(|w| WEEK_WEIGHT * w);
    for day in woven {
        week[day.weekday().num_days_from_monday() as usize] += 7.0;
    }
    week.map(|w| w / (woven.len() as f64 + WEEK_WEIGHT))
}

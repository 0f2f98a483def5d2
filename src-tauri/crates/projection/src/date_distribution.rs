//! The day off the loom and the day finished, as distributions over days.

use std::sync::Arc;

use chrono::NaiveDate;
use serde::Serialize;

use crate::calendar::{Calendar, HORIZON_DAYS};
use crate::math;
use crate::pace::EffortDistribution;

/// Days by whose end it is done, each with its chance in per cent. Never before today. A day ten years ahead means "later than that".
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct DateQuantiles {
    /// 1 in 20 it is done by then.
    pub p05: NaiveDate,
    /// 1 in 10.
    pub p10: NaiveDate,
    /// 1 in 4.
    pub p25: NaiveDate,
    /// As likely before as after: "most likely".
    pub p50: NaiveDate,
    /// 3 in 4.
    pub p75: NaiveDate,
    /// 9 in 10. From `p10` to `p90` is "4 times in 5".
    pub p90: NaiveDate,
    /// 19 in 20.
    pub p95: NaiveDate,
}

/// What the day off the loom and the day finished are calculated from.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Completion {
    pub(crate) calendar: Calendar,
    /// `None` when nothing is left to weave.
    pub(crate) effort: Option<EffortDistribution>,
    /// Chance of each whole number of finishing days.
    pub(crate) finishing: Vec<f64>,
}

impl Completion {
    /// The chance that it is woven by the end of day `offset` if every weaving day had `times` as much time.
    pub(crate) fn woven(&self, effort: Option<EffortDistribution>, offset: usize, times: f64) -> f64 {
        effort.map_or(1.0, |effort| effort.chance(self.calendar.gained(offset) * times))
    }

    /// The chance that it is finished by the end of day `offset`.
    pub(crate) fn finished(&self, effort: Option<EffortDistribution>, offset: usize, times: f64) -> f64 {
        let mut chance = 0.0;
        for (days, weight) in self.finishing.iter().enumerate() {
            if *weight > 0.0
                && let Some(off) = self.calendar.latest_before(offset, days as u32)
            {
                chance += weight * self.woven(effort, off, times);
            }
        }
        chance
    }
}

/// When a warp is off the loom, or a piece finished, as a distribution over days.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct DateDistribution {
    /// The usual quantiles.
    pub quantiles: DateQuantiles,
    #[serde(skip)]
    completion: Arc<Completion>,
    #[serde(skip)]
    with_finishing: bool,
}

impl DateDistribution {
    pub(crate) fn new(completion: Arc<Completion>, with_finishing: bool) -> Self {
        let at = |p| quantile(&completion, with_finishing, p);
        let (calendar, last) = (&completion.calendar, HORIZON_DAYS - 1);
        let day = |p| calendar.day(at(p).unwrap_or(last));
        let quantiles = DateQuantiles {
            p05: day(0.05),
            p10: day(0.10),
            p25: day(0.25),
            p50: day(0.50),
            p75: day(0.75),
            p90: day(0.90),
            p95: day(0.95),
        };
        Self { quantiles, completion, with_finishing }
    }

    /// The chance, 0 to 1, that it is done by the end of `day`; 0 before today.
    #[must_use]
    pub fn chance_by(&self, day: NaiveDate) -> f64 {
        let r = &self.completion;
        r.calendar.offset(day).map_or(0.0, |offset| {
            if self.with_finishing { r.finished(r.effort, offset, 1.0) } else { r.woven(r.effort, offset, 1.0) }
        })
    }

    /// The first day by whose end it is done with chance `p` (0 < p < 1); `None` when that is beyond ten years.
    #[must_use]
    pub fn day_at(&self, p: f64) -> Option<NaiveDate> {
        quantile(&self.completion, self.with_finishing, p).map(|d| self.completion.calendar.day(d))
    }
}

fn quantile(r: &Completion, with_finishing: bool, p: f64) -> Option<usize> {
    let woven = match r.effort {
        Some(effort) => r.calendar.first_reaching(effort.effort_at(math::normal_quantile(p)))?,
        None => 0,
    };
    if !with_finishing {
        return Some(woven);
    }
    // Finishing only adds days, so the day lies between that off the loom and the horizon.
    let (mut low, mut high) = (woven, HORIZON_DAYS);
    while low < high {
        let middle = usize::midpoint(low, high);
        // The last bits of a sum of chances must not make it a day later.
        if r.finished(r.effort, middle, 1.0) >= p - 1e-12 { high = middle } else { low = middle + 1 }
    }
    (low < HORIZON_DAYS).then_some(low)
}

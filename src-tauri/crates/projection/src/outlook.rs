//! The day something is reached, as a distribution over days.

use std::sync::Arc;

use chrono::NaiveDate;
use serde::Serialize;

use crate::calendar::{Calendar, HORIZON_DAYS};
use crate::math;
use crate::model::Law;

/// Days by whose end a thing is done, each with its chance in per cent. Never before today. A day ten years
/// ahead stands for "later than that".
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Span {
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

/// Everything two outlooks of one warp share.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Reckoning {
    pub(crate) calendar: Calendar,
    /// `None` when nothing is left to weave.
    pub(crate) law: Option<Law>,
    /// Chance of each whole number of finishing days.
    pub(crate) finishing: Vec<f64>,
}

impl Reckoning {
    /// The chance that it is woven by the end of day `offset`, if every weaving day gave `times` as much time.
    pub(crate) fn woven(&self, law: Option<Law>, offset: usize, times: f64) -> f64 {
        law.map_or(1.0, |law| law.chance(self.calendar.gained(offset) * times))
    }

    /// The chance that it is finished by the end of day `offset`.
    pub(crate) fn finished(&self, law: Option<Law>, offset: usize, times: f64) -> f64 {
        let mut chance = 0.0;
        for (days, weight) in self.finishing.iter().enumerate() {
            if *weight > 0.0
                && let Some(off) = self.calendar.latest_before(offset, days as u32)
            {
                chance += weight * self.woven(law, off, times);
            }
        }
        chance
    }
}

/// When a warp is off the loom, or a piece finished.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Outlook {
    /// The usual chances.
    pub span: Span,
    #[serde(skip)]
    reckoning: Arc<Reckoning>,
    #[serde(skip)]
    with_finishing: bool,
}

impl Outlook {
    pub(crate) fn new(reckoning: Arc<Reckoning>, with_finishing: bool) -> Self {
        let at = |p| quantile(&reckoning, with_finishing, p);
        let (calendar, last) = (&reckoning.calendar, HORIZON_DAYS - 1);
        let day = |p| calendar.day(at(p).unwrap_or(last));
        let span = Span {
            p05: day(0.05),
            p10: day(0.10),
            p25: day(0.25),
            p50: day(0.50),
            p75: day(0.75),
            p90: day(0.90),
            p95: day(0.95),
        };
        Self { span, reckoning, with_finishing }
    }

    /// The chance, 0 to 1, that it is done by the end of `day`; 0 before today.
    #[must_use]
    pub fn chance_by(&self, day: NaiveDate) -> f64 {
        let r = &self.reckoning;
        r.calendar.offset(day).map_or(0.0, |offset| {
            if self.with_finishing { r.finished(r.law, offset, 1.0) } else { r.woven(r.law, offset, 1.0) }
        })
    }

    /// The first day by whose end it is done with chance `p` (0 < p < 1); `None` when that is beyond ten years.
    #[must_use]
    pub fn day_at(&self, p: f64) -> Option<NaiveDate> {
        quantile(&self.reckoning, self.with_finishing, p).map(|d| self.reckoning.calendar.day(d))
    }
}

fn quantile(r: &Reckoning, with_finishing: bool, p: f64) -> Option<usize> {
    let woven = match r.law {
        Some(law) => r.calendar.first_reaching(law.effort_at(math::normal_quantile(p)))?,
        None => 0,
    };
    if !with_finishing {
        return Some(woven);
    }
    // Finishing only adds days, so the day lies between that off the loom and the horizon.
    let (mut low, mut high) = (woven, HORIZON_DAYS);
    while low < high {
        let middle = usize::midpoint(low, high);
        // The last bits of a sum of chances must not cost a day.
        if r.finished(r.law, middle, 1.0) >= p - 1e-12 { high = middle } else { low = middle + 1 }
    }
    (low < HORIZON_DAYS).then_some(low)
}

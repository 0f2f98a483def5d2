//! The numbers behind a projection.

use serde::Serialize;

use crate::section_pace::KindPace;

/// What a projection is based on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Basis {
    /// Sittings on this warp.
    OwnSittings,
    /// Earlier warps; nothing is woven on this one yet.
    EarlierWarps,
    /// What the weaver states: minutes a weaving day and days a week. Nothing is woven yet, and there are no earlier warps.
    Stated,
    /// Common practice; nothing is known of the weaver.
    CommonPractice,
}

/// The numbers behind a projection.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Reasons {
    /// What it is based on.
    pub basis: Basis,
    /// Days on which the weaver wove on this warp.
    pub weaving_days: usize,
    /// Earlier warps behind it.
    pub earlier_warps: usize,
    /// Picks still to weave.
    pub picks_left: f64,
    /// Picks on a likely weaving day, of what is still to come.
    pub picks_a_day: f64,
    /// Days from one weaving day to the next, as they go at present.
    pub days_between: f64,
    /// Likely weaving days left, from.
    pub sittings_left_low: u32,
    /// Likely weaving days left, to.
    pub sittings_left_high: u32,
    /// Minutes of a likely weaving day; `None` when no sitting was timed.
    pub minutes_a_day: Option<f64>,
    /// Pace of each kind of section; empty when no sitting was timed.
    pub paces: Vec<KindPace>,
}

impl Reasons {
    pub(crate) fn sittings_range(sittings: f64) -> (u32, u32) {
        let (whole, part) = (sittings.floor(), sittings - sittings.floor());
        // 4.9 is about five, 4.5 is four or five.
        let low = if part > 0.75 { whole + 1.0 } else { whole };
        let high = if part < 0.1 { whole } else { whole + 1.0 };
        (low.clamp(1.0, 1e6) as u32, high.clamp(1.0, 1e6) as u32)
    }
}

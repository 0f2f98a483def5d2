//! When a piece will be done, with how much certainty.
//!
//! [`project`] takes a [`Question`] (today, sittings, what is left, earlier warps, stated availability) and gives a
//! [`Projection`]: the day off the loom and the day finished as distributions, the reasons as numbers, and notes on the
//! entries. [`Projection::requirement`] calculates what it would take to be done by a day, [`Projection::fan_chart`] the
//! picks woven by each coming day.
//!
//! No clock, no I/O, no random numbers: the same question gives the same result to the bit everywhere. The logarithm,
//! exponential and normal distribution in [`math`] use only operations that IEEE 754 fixes to the bit.
//!
//! # Limitations
//! The width was tuned on invented rhythms and on event series of other pursuits, as no open log of weaving
//! exists. Before a weaver's own rhythm is known the distribution is wide, and it should be.

mod calendar;
mod calibration;
mod cleaning;
mod compare;
mod date_distribution;
mod error;
mod fan_chart;
pub mod math;
mod notes;
mod pace;
mod projection;
mod question;
mod reasons;
mod requirement;
mod section_pace;
mod shift;

pub use compare::{FEWEST_FOR_SLOPE, Slope, WarpPace, theil_sen, warp_pace};
pub use date_distribution::{DateDistribution, DateQuantiles};
pub use error::QuestionError;
pub use fan_chart::FanChartPoint;
pub use notes::Note;
pub use projection::{Projection, ProjectionState, project};
pub use question::{
    Availability, DayRange, EarlierWarp, FinishingStep, LeftToWeave, Question, SectionKind, WovenStretch,
    usual_finishing,
};
pub use reasons::{Basis, Reasons};
pub use requirement::{Goal, Requirement};
pub use section_pace::KindPace;
pub use shift::{Shift, shift};

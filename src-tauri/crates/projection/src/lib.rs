//! When a piece will be done, with what span.
//!
//! [`project`] takes a [`Question`] (today, sittings, what is left, earlier warps, what she has said about her days)
//! and gives a [`Projection`]: the day off the loom and the day finished as distributions, the reasons as numbers,
//! one sentence made of them, and what was noticed on the way. [`Projection::need`] says what it would take to make
//! a day, [`Projection::fan`] draws the way there.
//!
//! No clock, no I/O, no chance: the same question gives the same bytes everywhere. The logarithm, exponential and
//! normal distribution in [`math`] use only operations that IEEE 754 fixes to the bit.
//!
//! # Limitations
//! The span was measured on invented rhythms and on event series of other pursuits, as no open log of weaving
//! exists. Before a weaver's own rhythm is known the span is wide, and it should be.

mod calendar;
mod clean;
mod compare;
mod error;
mod fan;
mod kinds;
pub mod math;
mod model;
mod need;
mod notes;
mod outlook;
mod projection;
mod question;
mod reasons;
mod replay;
mod shift;

pub use compare::{FEWEST_FOR_SLOPE, Slope, WarpPace, theil_sen, warp_pace};
pub use error::QuestionError;
pub use fan::FanPoint;
pub use kinds::KindPace;
pub use need::{Goal, Need};
pub use notes::Note;
pub use outlook::{Outlook, Span};
pub use projection::{Projection, State, project};
pub use question::{
    Availability, DayRange, EarlierWarp, FinishingStep, LeftToWeave, Question, SectionKind, Sitting, usual_finishing,
};
pub use reasons::{Basis, Reasons};
pub use shift::{Shift, shift};

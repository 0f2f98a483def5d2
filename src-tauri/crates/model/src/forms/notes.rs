//! What is typed at single moments: readings, weighings, and what is known of a yarn.

use serde::{Deserialize, Serialize};
#[cfg(any(test, feature = "typescript"))]
use ts_rs::TS;

/// A tape reading and weighings as typed. Every figure is text; empty means not taken.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
#[cfg_attr(any(test, feature = "typescript"), derive(TS))]
pub struct ReadingForm {
    /// The day, `YYYY-MM-DD`; empty is today.
    pub on: String,
    /// Measured length.
    pub measured: String,
    /// Where the tape started: `start` or `mark`; empty is start.
    pub measured_from: String,
    /// `tight` or `relaxed`; empty is tight.
    pub measured_tension: String,
    /// Whether the mark was moved to the fell.
    pub mark_set: bool,
    /// A warp mark is at the fell: how far from the first pick, along the warp, it was tied.
    pub warp_mark: String,
    /// Whether all of it is rough.
    pub rough: bool,
    /// What is left of yarns.
    pub yarns_left: Vec<YarnLeftForm>,
    /// Record id of a yarn taken up now; empty is none.
    pub take_up: String,
}

/// What is left of one yarn, as typed.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
#[cfg_attr(any(test, feature = "typescript"), derive(TS))]
pub struct YarnLeftForm {
    /// Record id of the yarn.
    pub yarn: String,
    /// Its weight or its length: "42 g", "about 120 m".
    pub left: String,
    /// Whether it was weighed on its shuttle, whose own weight is then taken off.
    pub on_shuttle: bool,
}

/// A weft yarn as typed.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
#[cfg_attr(any(test, feature = "typescript"), derive(TS))]
pub struct YarnForm {
    /// Its name.
    pub name: String,
    /// Weight at the start.
    pub mass: String,
    /// Length at the start.
    pub length: String,
    /// What the empty shuttle or bobbin weighs that it is on.
    pub tare: String,
}

//! What is typed of a sitting.

use serde::{Deserialize, Serialize};
#[cfg(any(test, feature = "typescript"))]
use ts_rs::TS;

/// A sitting as typed into the form. Every figure is text as the weaver writes it; empty means not known.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
#[cfg_attr(any(test, feature = "typescript"), derive(TS))]
pub struct SittingForm {
    /// The day, `YYYY-MM-DD`; empty is today.
    pub on: String,
    /// Time it began, `HH:MM`.
    pub started: String,
    /// Minutes at the loom.
    pub minutes: String,
    /// Picks woven; negative when more was unwoven.
    pub picks: String,
    /// Measured length.
    pub measured: String,
    /// Where the tape started: `start` or `mark`; empty is the last mark where one is set, else the start.
    pub measured_from: String,
    /// `tight` or `relaxed`; empty is tight.
    pub measured_tension: String,
    /// Whether a mark was set at the fell.
    pub mark_set: bool,
    /// Weft left on the scale.
    pub weft_left: String,
    /// Whether it was weighed on its shuttle, whose own weight is then taken off.
    pub weft_on_shuttle: bool,
    /// Whether a pick is begun and not beaten.
    pub pick_begun: bool,
    /// A note.
    pub note: String,
    /// Whether the figures are rough.
    pub rough: bool,
}

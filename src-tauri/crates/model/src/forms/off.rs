//! What is typed of a warp that is cut off.

use serde::{Deserialize, Serialize};
#[cfg(any(test, feature = "typescript"))]
use ts_rs::TS;

/// What came off the loom as typed. Every figure is text; empty means not known. Lengths are of all pieces together,
/// without fringe.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
#[cfg_attr(any(test, feature = "typescript"), derive(TS))]
pub struct OffForm {
    /// The day it was cut off, `YYYY-MM-DD`; empty is today, or the day that stands.
    pub on: String,
    /// Cut off in front of the first pick, fringe included.
    pub front: String,
    /// Thrums: behind the last pick, fringe included.
    pub thrums: String,
    /// Length off the loom.
    pub off_loom: String,
    /// Width at the fell before it was cut off.
    pub fell_width: String,
    /// Width off the loom.
    pub off_loom_width: String,
    /// Weft left over.
    pub weft_over: String,
    /// Length after the wash.
    pub finished: String,
    /// Width after the wash.
    pub finished_width: String,
    /// Weight after the wash.
    pub finished_mass: String,
}

//! The form of a pick sequence.

use serde::{Deserialize, Serialize};
#[cfg(any(test, feature = "typescript"))]
use ts_rs::TS;

/// The rows as typed, and what they are drawn with.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
#[cfg_attr(any(test, feature = "typescript"), derive(TS))]
pub struct PickSequenceForm {
    /// Rows of the opening border, one to a line.
    pub opening: String,
    /// Rows of the repeat.
    pub repeat: String,
    /// Rows that balance the last repeat.
    pub balance: String,
    /// Rows of the closing border.
    pub closing: String,
    /// Slot ends down at each edge of the pick-up.
    pub stick_edge_ends: String,
    /// Slot ends up in each group.
    pub stick_up_ends: String,
    /// Slot ends down between groups.
    pub stick_down_ends: String,
    /// Shaft of each end over one repeat of the threading.
    pub threading: String,
    /// What each numbered shed lifts, one shed to a line.
    pub shed_lifts: String,
    /// Picks per 10 cm or per inch, as the units go.
    pub picks: String,
    /// Ends per 10 cm or per inch; empty: ten to the inch.
    pub sett: String,
}

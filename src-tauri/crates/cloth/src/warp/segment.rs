//! One stretch of the warp, in order from the cloth beam's knots to what the heddle never reaches.

use crate::state::{FinishedLength, WarpLength, WovenLength};

/// What a stretch of the warp is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SegmentKind {
    /// Knots and the stretch to the first pick: loom waste in front.
    TieOn,
    /// Waste picks that spread the warp.
    Header,
    /// A sample woven first.
    Sample,
    /// Unwoven ends that become fringe.
    Fringe,
    /// Cloth that is turned under.
    Hem,
    /// The piece itself.
    Cloth,
    /// Unwoven or waste-woven stretch between two pieces.
    Gap,
    /// What can't be woven behind: loom waste at the back.
    Unweavable,
}

impl SegmentKind {
    /// Whether picks of a piece are woven in it (hem and cloth).
    pub fn is_cloth(self) -> bool {
        matches!(self, Self::Hem | Self::Cloth)
    }
}

/// A stretch of the warp. Lengths of the same stretch in three states: the ends as wound, the cloth on the loom, the
/// cloth when finished; the latter two are nothing where nothing is woven.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct WarpSegment {
    /// What it is for.
    pub kind: SegmentKind,
    /// Which piece it belongs to, from 0; `None` for tie-on, header, sample, gaps and the end.
    pub piece: Option<usize>,
    /// Where it starts along the warp as wound.
    #[serde(rename = "start_mm")]
    pub start: WarpLength,
    /// Warp it uses.
    #[serde(rename = "warp_mm")]
    pub warp: WarpLength,
    /// Cloth woven in it, under tension.
    #[serde(rename = "woven_mm")]
    pub woven: WovenLength,
    /// Cloth it gives, finished.
    #[serde(rename = "finished_mm")]
    pub finished: FinishedLength,
}

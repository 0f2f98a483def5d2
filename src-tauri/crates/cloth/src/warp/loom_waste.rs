//! Loom waste: warp that cannot be woven.

use crate::error::Refused;
use crate::state::WarpLength;

/// Warp that can't be woven, once per warp.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct LoomWaste {
    /// Knots and the stretch before the first pick.
    #[serde(rename = "front_mm")]
    pub front: WarpLength,
    /// What never reaches the fell.
    #[serde(rename = "back_mm")]
    pub back: WarpLength,
    /// How much of the front the first fringe may use.
    #[serde(rename = "fringe_from_front_mm")]
    pub fringe_from_front: WarpLength,
    /// How much of the back the last fringe may use.
    #[serde(rename = "fringe_from_back_mm")]
    pub fringe_from_back: WarpLength,
}

/// Share of the loom waste that lies in front of the cloth: 6 of 17 inches on one small loom by audit; others differ.
pub const FRONT_SHARE_OF_WASTE: f64 = 6.0 / 17.0;

impl LoomWaste {
    /// Waste of which only the total is known, divided by [`FRONT_SHARE_OF_WASTE`]; no fringe may use it.
    /// # Errors
    /// Never for a length that was accepted.
    pub fn from_total(total: WarpLength) -> Result<Self, Refused> {
        let front = total.times(FRONT_SHARE_OF_WASTE)?;
        Ok(Self::new(front, total.less(front)))
    }

    /// Waste that no fringe may use.
    pub fn new(front: WarpLength, back: WarpLength) -> Self {
        Self { front, back, fringe_from_front: WarpLength::ZERO, fringe_from_back: WarpLength::ZERO }
    }

    /// Both fringes may use all of it.
    #[must_use]
    pub fn fringe_may_use_it(self) -> Self {
        Self { fringe_from_front: self.front, fringe_from_back: self.back, ..self }
    }

    /// Front and back.
    pub fn total(&self) -> WarpLength {
        self.front + self.back
    }
}

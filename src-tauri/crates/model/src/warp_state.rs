//! Where a warp is in its life.

use serde::{Deserialize, Serialize};
#[cfg(any(test, feature = "typescript"))]
use ts_rs::TS;

/// Where a warp is in its life.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[cfg_attr(any(test, feature = "typescript"), derive(TS))]
pub enum WarpState {
    /// Being woven.
    OnTheLoom,
    /// On a loom but put aside.
    Resting,
    /// Cut off.
    OffTheLoom,
    /// Removed; it can be restored.
    Removed,
}

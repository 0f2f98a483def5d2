//! What happens to length on the way from warp to finished cloth.

use crate::change::{ExtentChange, Release, WarpUse, WashLength};
use crate::error::Refused;
use crate::state::{Along, Finished, OffLoom, UnderTension};

/// What happens to length on the way from warp to finished cloth, stage by stage.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct LengthChanges {
    /// Warp against cloth under tension; its crimp is *u*, and can be negative.
    pub weaving: WarpUse<UnderTension>,
    /// Cloth off the loom against cloth under tension.
    pub release: Release,
    /// Finished cloth against cloth off the loom.
    pub wash: WashLength,
}

impl LengthChanges {
    /// Nothing changes: where all allowances are already in the lengths.
    pub const NONE: Self = Self { weaving: ExtentChange::NONE, release: ExtentChange::NONE, wash: ExtentChange::NONE };

    /// From a take-up measured against *relaxed* cloth, as most weavers have it, and the release where it is known
    /// (otherwise cloth under tension is taken to be as long as relaxed cloth, which errs on the side of weaving more).
    /// # Errors
    /// If the two don't fit each other.
    pub fn from_relaxed(
        take_up: WarpUse<OffLoom>,
        release: Option<Release>,
        wash: WashLength,
    ) -> Result<Self, Refused> {
        let release = release.unwrap_or(Release::NONE);
        let weaving = ExtentChange::from_ratio(take_up.ratio() / release.ratio())?;
        Ok(Self { weaving, release, wash })
    }

    /// From cloth on the loom to finished.
    pub fn woven_to_finished(&self) -> ExtentChange<Along, UnderTension, Finished> {
        ExtentChange::nearest(self.release.ratio() * self.wash.ratio())
    }

    /// From warp to finished: all stages.
    pub fn warp_to_finished(&self) -> WarpUse<Finished> {
        ExtentChange::nearest(self.weaving.ratio() * self.release.ratio() * self.wash.ratio())
    }
}

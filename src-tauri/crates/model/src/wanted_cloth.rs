//! How much cloth a warp is to become: the pieces as they are wanted, and where each ends on the loom.

use fellmark_cloth::change::{ExtentChange, Release, WashLength};
use fellmark_cloth::learned::{PriorLoss, fibre_prior};
use fellmark_cloth::quantity::Quantity;
use fellmark_cloth::state::{Along, Finished, FinishedLength, PicksIn, RelaxedLength, UnderTension, WovenLength};
use fellmark_cloth::warp::PieceEnds;

use super::{ClothState, Warp};

impl Warp {
    /// What becomes of a length under tension until it is finished: as given, else from fibre and finish after `release`, what
    /// happens when the tension goes; no change where neither is known.
    #[must_use]
    pub fn woven_to_finished(&self, release: Release) -> ExtentChange<Along, UnderTension, Finished> {
        if let Some(percent) = self.shrinkage_percent {
            return ExtentChange::from_shrinkage_percent(percent).unwrap_or(ExtentChange::NONE);
        }
        let wash = self.usual_wash().and_then(|loss| WashLength::from_shrinkage_percent(loss.usual).ok());
        wash.and_then(|wash| release.then(wash).ok()).unwrap_or(ExtentChange::NONE)
    }

    /// What cloth of this fibre and finish loses of its length in the wash, where no loss is given and cases are known.
    #[must_use]
    pub fn usual_wash(&self) -> Option<PriorLoss> {
        let fibre = self.fibre.filter(|_| self.shrinkage_percent.is_none())?;
        fibre_prior(fibre, self.finish).map(|prior| prior.length)
    }

    /// Length wanted of each piece as it was given, millimetres; empty while none is given.
    #[must_use]
    pub fn wanted_of_each_mm(&self) -> Vec<f64> {
        match self.wanted_mm {
            _ if !self.wanted_each_mm.is_empty() => self.wanted_each_mm.clone(),
            Some(mm) => vec![mm; self.pieces as usize],
            None => Vec::new(),
        }
    }

    /// Cloth to weave under tension for a wanted length, millimetres; `release` is what happens when the tension goes.
    fn woven_for(&self, wanted_mm: f64, release: Release) -> WovenLength {
        match self.wanted_state {
            // Woven = finished / (1 - s), never finished x (1 + s).
            ClothState::Finished => self
                .woven_to_finished(release)
                .before(FinishedLength::nearest(wanted_mm))
                .unwrap_or_else(|_| WovenLength::nearest(wanted_mm)),
            ClothState::OffLoom => {
                release.before(RelaxedLength::nearest(wanted_mm)).unwrap_or_else(|_| WovenLength::nearest(wanted_mm))
            }
            ClothState::UnderTension => WovenLength::nearest(wanted_mm),
        }
    }

    /// Where each piece ends on the cloth under tension; empty while no length is wanted. `release` is what happens when the tension
    /// goes, where lengths are wanted as they are off the loom.
    #[must_use]
    pub fn piece_ends(&self, release: Release) -> PieceEnds {
        if self.wanted_each_mm.is_empty() {
            return self
                .wanted_mm
                .map_or_else(PieceEnds::default, |mm| PieceEnds::alike(self.woven_for(mm, release), self.pieces));
        }
        PieceEnds::of_lengths(self.wanted_each_mm.iter().map(|mm| self.woven_for(*mm, release)))
    }

    /// Picks per length as planned.
    #[must_use]
    pub fn planned_rate(&self) -> Option<PicksIn<UnderTension>> {
        PicksIn::from_per_10cm(self.picks_per_10cm?).ok()
    }
}

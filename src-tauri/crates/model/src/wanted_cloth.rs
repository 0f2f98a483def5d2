//! How much cloth a warp is to become: the pieces as they are wanted, and where each ends on the loom.

use fellmark_cloth::change::ExtentChange;
use fellmark_cloth::quantity::Quantity;
use fellmark_cloth::state::{Along, Finished, FinishedLength, PicksIn, UnderTension, WovenLength};
use fellmark_cloth::warp::PieceEnds;

use super::{ClothState, Warp};

impl Warp {
    /// What becomes of a length under tension until it is finished; no change where no loss is known.
    #[must_use]
    pub fn woven_to_finished(&self) -> ExtentChange<Along, UnderTension, Finished> {
        self.shrinkage_percent
            .and_then(|percent| ExtentChange::from_shrinkage_percent(percent).ok())
            .unwrap_or(ExtentChange::NONE)
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

    /// Cloth to weave under tension for a wanted length, millimetres.
    fn woven_for(&self, wanted_mm: f64) -> WovenLength {
        match self.wanted_state {
            // Woven = finished / (1 - s), never finished x (1 + s).
            ClothState::Finished => self
                .woven_to_finished()
                .before(FinishedLength::nearest(wanted_mm))
                .unwrap_or_else(|_| WovenLength::nearest(wanted_mm)),
            ClothState::OffLoom | ClothState::UnderTension => WovenLength::nearest(wanted_mm),
        }
    }

    /// Where each piece ends on the cloth; empty while no length is wanted.
    #[must_use]
    pub fn piece_ends(&self) -> PieceEnds {
        if self.wanted_each_mm.is_empty() {
            return self
                .wanted_mm
                .map_or_else(PieceEnds::default, |mm| PieceEnds::alike(self.woven_for(mm), self.pieces));
        }
        PieceEnds::of_lengths(self.wanted_each_mm.iter().map(|mm| self.woven_for(*mm)))
    }

    /// Picks per length as planned.
    #[must_use]
    pub fn planned_rate(&self) -> Option<PicksIn<UnderTension>> {
        PicksIn::from_per_10cm(self.picks_per_10cm?).ok()
    }
}

//! What the projection counts in: picks, or, where only a tape was used, lengths.

use fellmark_cloth::span::FOUR_IN_FIVE_Z;

use crate::progress::Progress;
use crate::weave_kinds::SittingWoven;
use fellmark_model::WarpLog;

/// Where no picks are known, a millimetre of cloth counts as so many, so that sittings reported by the tape alone can be set beside
/// earlier warps of which the picks are known: 30 to 10 cm. Common practice, no source; it is never shown.
const STAND_IN_PICKS_PER_MM: f64 = 0.3;

/// What is woven and what is left, as the projection is to count it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measure {
    /// Picks counted for a millimetre.
    pub picks_per_mm: f64,
    /// Whether they only stand for lengths.
    pub stands_for_lengths: bool,
}

impl Measure {
    /// Picks where they are known, else what stands in for lengths.
    #[must_use]
    pub fn for_progress(progress: &Progress) -> Self {
        progress.picks_per_mm.map_or(
            Self { picks_per_mm: STAND_IN_PICKS_PER_MM, stands_for_lengths: true },
            |picks_per_mm| Self { picks_per_mm, stands_for_lengths: false },
        )
    }

    /// What is left and its standard deviation; nothing where the cloth is not known.
    #[must_use]
    pub fn left(self, progress: &Progress) -> Option<(f64, f64)> {
        if self.stands_for_lengths {
            let spread = progress.give_or_take_mm() / FOUR_IN_FIVE_Z;
            Some((progress.to_weave_mm? * self.picks_per_mm, spread * self.picks_per_mm))
        } else {
            Some((progress.to_weave_picks?, progress.to_weave_picks_sd))
        }
    }

    /// What is woven.
    #[must_use]
    pub fn woven(self, progress: &Progress) -> f64 {
        if self.stands_for_lengths { progress.woven_mm() * self.picks_per_mm } else { progress.picks as f64 }
    }

    /// What each sitting wove.
    #[must_use]
    pub fn sittings(self, log: &WarpLog, progress: &Progress) -> Vec<SittingWoven> {
        let mut all: Vec<SittingWoven> = SittingWoven::all(log, progress).collect();
        if self.stands_for_lengths {
            for (sitting, (from, to)) in all.iter_mut().zip(&progress.stretches) {
                sitting.picks = (to != from).then_some((to - from) * self.picks_per_mm);
            }
        }
        all
    }
}

//! What the projection counts in: picks, or, where only a tape was used, lengths.

use crate::model::WarpLog;
use crate::model::display_format::DisplayFormat;
use crate::model::measures::show_length;
use crate::reports::kinds::Woven;
use crate::reports::progress::Progress;

/// Where no picks are known, a millimetre of cloth counts as so many, so that sittings told by the tape alone can be set beside
/// earlier warps of which the picks are known: 30 to 10 cm. Common practice, no source; it is never shown.
const STAND_IN_PICKS_PER_MM: f64 = 0.3;
/// Half of a span of four in five, in standard deviations.
const FOUR_IN_FIVE_DEVIATES: f64 = 1.281_551_565_544_600_4;

/// What is woven and what is left, as the projection is to count it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Measure {
    /// Picks counted for a millimetre.
    pub(super) per_mm: f64,
    /// Whether they only stand for lengths.
    pub(super) lengths: bool,
}

impl Measure {
    pub(super) fn of(progress: &Progress) -> Self {
        progress
            .picks_per_mm
            .map_or(Self { per_mm: STAND_IN_PICKS_PER_MM, lengths: true }, |per_mm| Self { per_mm, lengths: false })
    }

    /// What is left and its standard deviation; nothing where the cloth is not known.
    pub(super) fn left(self, progress: &Progress) -> Option<(f64, f64)> {
        if self.lengths {
            let spread = progress.give_or_take_mm() / FOUR_IN_FIVE_DEVIATES;
            Some((progress.to_weave_mm? * self.per_mm, spread * self.per_mm))
        } else {
            Some((progress.to_weave_picks?, progress.to_weave_picks_sd))
        }
    }

    /// What is woven.
    pub(super) fn woven(self, progress: &Progress) -> f64 {
        if self.lengths { progress.woven_mm() * self.per_mm } else { progress.picks as f64 }
    }

    /// What each sitting wove.
    pub(super) fn sittings(self, log: &WarpLog, progress: &Progress) -> Vec<Woven> {
        let mut all: Vec<Woven> = Woven::all(log, progress).collect();
        if self.lengths {
            for (sitting, (from, to)) in all.iter_mut().zip(&progress.stretches) {
                sitting.picks = (to != from).then_some((to - from) * self.per_mm);
            }
        }
        all
    }

    /// An amount in words: "300 picks", "75 cm".
    pub(super) fn words(self, picks: f64, format: &DisplayFormat) -> String {
        if self.lengths {
            show_length(picks / self.per_mm, format)
        } else if picks.round() == 1.0 {
            "1 pick".into()
        } else {
            format!("{picks:.0} picks")
        }
    }
}

//! How well things are known when nobody says: how people measure, count and warp.
//!
//! Common practice without a source unless said otherwise; a caller who knows better sets others.

use crate::state::WovenLength;

/// How well things are known when nobody says: standard deviations.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct MeasurementErrors {
    /// A tape reading, as a share of what is read. Tension and the hand differ.
    pub tape_share: f64,
    /// A tape reading, at least, in mm.
    pub tape_mm: f64,
    /// A reading of relaxed cloth on the loom, in addition, as a share: it differs after two and after five minutes.
    pub relaxed_share: f64,
    /// The rate of picks from one stretch to the next, as a share: ±8 % is usual (spread of the middle nine tenths).
    pub rate_share: f64,
    /// A planned rate of picks before anything is measured, as a share.
    pub planned_rate_share: f64,
    /// Picks counted one by one, as a share: one in two hundred forgotten or doubled.
    pub count_share: f64,
    /// Picks given from memory, as a share.
    pub guess_share: f64,
    /// Width of a pick as calculated from the width, as a share.
    pub pick_share: f64,
    /// A kitchen scale's error at either side, in g: any value within ±1 g.
    pub scale_g: f64,
    /// A length or a weight given as about so much, as a share: a tenth (common practice, no source).
    pub about_share: f64,
    /// A label's metres per gram, as a share: ±10 % (one shop's weighings ran from −8 to +18 %).
    pub label_share: f64,
    /// What one yarn of a cloth takes, as calculated from another yarn of the same cloth, as a share.
    pub other_yarn_share: f64,
    /// The length of warp wound, as a share.
    pub wound_share: f64,
    /// Loom waste that was given, as a share of it.
    pub waste_share: f64,
    /// A take-up that was given, as a share of the cloth.
    pub given_take_up_share: f64,
    /// The usual take-up, taken where none is given, as a share of the cloth.
    pub usual_take_up_share: f64,
    /// Where a warp mark was tied along the warp, in mm: a thread on a warp end, measured while warping.
    pub warp_mark_mm: f64,
}

/// A stretch within which the hand keeps its beat, in mm: about a sitting's advance of the warp.
const STRETCH_MM: f64 = 250.0;

impl MeasurementErrors {
    /// Cloth ahead does not go exactly as cloth behind did: rates wander by [`MeasurementErrors::rate_share`] from stretch to
    /// stretch, so that over many stretches it evens out, ahead as well as behind. A variance, as a share squared.
    pub(crate) fn wander_variance(&self, ahead: WovenLength, behind: WovenLength) -> f64 {
        let stretches = |length: WovenLength| (length.mm() / STRETCH_MM).max(1.0);
        self.rate_share.powi(2) * (1.0 / stretches(ahead) + 1.0 / stretches(behind))
    }
}

impl Default for MeasurementErrors {
    fn default() -> Self {
        Self {
            tape_share: 0.01,
            tape_mm: 4.0,
            relaxed_share: 0.02,
            rate_share: 0.05,
            planned_rate_share: 0.12,
            count_share: 0.005,
            guess_share: 0.15,
            pick_share: 0.04,
            scale_g: 1.0,
            about_share: 0.1,
            label_share: 0.06,
            other_yarn_share: 0.2,
            wound_share: 0.01,
            waste_share: 0.1,
            given_take_up_share: 0.02,
            usual_take_up_share: 0.04,
            warp_mark_mm: 5.0,
        }
    }
}

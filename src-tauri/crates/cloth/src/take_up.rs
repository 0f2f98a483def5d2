//! Take-up: how much more warp (or weft) goes into the cloth than the cloth is long (or wide).
//!
//! The same comparison has two customary names, each with its own denominator: [`TakeUp`] T is a share of the yarn straightened, and
//! [`Crimp`] C a share of the cloth (ASTM D3883-04(2020) §4); C = T ÷ (1 − T), T = C ÷ (1 + C). A weaver says it as
//! "100 of cloth use 110 of warp" ([`ExtentChange::yarn_per_100`]). Take-up can be negative, since a warp stretches under tension.

use crate::change::{ExtentChange, LEAST_RATIO, MOST_RATIO};
use crate::error::{Refused, share};
use crate::state::{Axis, Extent, MeasuredState, Straight};

/// Warp used for 100 of cloth under tension where nothing is known of a warp (common practice, no source).
pub const USUAL_WARP_PER_100: f64 = 110.0;

/// Warp that 100 of cloth can use: rep and other warp-faced cloths stay below the upper end; warp stretches under tension, and a take-up
/// of some -3 % has been seen.
pub const POSSIBLE_WARP_PER_100: std::ops::RangeInclusive<f64> = 80.0..=200.0;

/// Take-up T = (yarn − cloth) ÷ yarn, a share of the yarn straightened. Negative if the yarn stretched.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct TakeUp(f64);

/// Crimp C = (yarn − cloth) ÷ cloth, a share of the length in the cloth. Negative if the yarn stretched.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Crimp(f64);

impl TakeUp {
    /// Per cent of the yarn.
    /// # Errors
    /// If no number, or outside −1900 % to 95 %.
    pub fn from_percent(percent: f64) -> Result<Self, Refused> {
        share("a take-up", percent / 100.0, 1.0 - MOST_RATIO, 1.0 - LEAST_RATIO).map(Self)
    }
    /// Per cent of the yarn.
    pub fn percent(self) -> f64 {
        self.0 * 100.0
    }
    /// As a share of the yarn, 0.08 for 8 %.
    pub fn share(self) -> f64 {
        self.0
    }
    /// C = T ÷ (1 − T).
    pub fn crimp(self) -> Crimp {
        Crimp(self.0 / (1.0 - self.0))
    }
}

impl Crimp {
    /// Per cent of the cloth.
    /// # Errors
    /// If no number, or outside −95 % to 1900 %.
    pub fn from_percent(percent: f64) -> Result<Self, Refused> {
        share("a crimp", percent / 100.0, LEAST_RATIO - 1.0, MOST_RATIO - 1.0).map(Self)
    }
    /// Per cent of the cloth.
    pub fn percent(self) -> f64 {
        self.0 * 100.0
    }
    /// As a share, 0.08 for 8 %.
    pub fn share(self) -> f64 {
        self.0
    }
    /// T = C ÷ (1 + C).
    pub fn take_up(self) -> TakeUp {
        TakeUp(self.0 / (1.0 + self.0))
    }
}

impl<D: Axis, S: MeasuredState> ExtentChange<D, Straight, S> {
    /// From a take-up, a share of the yarn.
    pub fn from_take_up(take_up: TakeUp) -> Self {
        Self::nearest(1.0 - take_up.share())
    }
    /// From a crimp, a share of the cloth.
    pub fn from_crimp(crimp: Crimp) -> Self {
        Self::nearest(1.0 / (1.0 + crimp.share()))
    }
    /// In words' order: so much cloth uses so much yarn.
    /// # Errors
    /// If one is nothing, or they differ more than twentyfold.
    pub fn cloth_uses(cloth: Extent<D, S>, yarn: Extent<D, Straight>) -> Result<Self, Refused> {
        Self::between(yarn, cloth)
    }
    /// Share of the yarn: (yarn − cloth) ÷ yarn.
    pub fn take_up(self) -> TakeUp {
        TakeUp(1.0 - self.ratio())
    }
    /// Share of the cloth: (yarn − cloth) ÷ cloth; *u* of what is left on the loom.
    pub fn crimp(self) -> Crimp {
        Crimp(1.0 / self.ratio() - 1.0)
    }
    /// Yarn that an extent of cloth uses: cloth × (1 + crimp).
    /// # Errors
    /// If the result leaves the limits.
    pub fn yarn_for(self, cloth: Extent<D, S>) -> Result<Extent<D, Straight>, Refused> {
        self.before(cloth)
    }
    /// Cloth that an extent of yarn makes: yarn ÷ (1 + crimp).
    /// # Errors
    /// If the result leaves the limits.
    pub fn cloth_from(self, yarn: Extent<D, Straight>) -> Result<Extent<D, S>, Refused> {
        self.after(yarn)
    }

    /// From what a weaver says: so much yarn for 100 of cloth, both in one unit.
    /// # Errors
    /// If no number, or outside 5 to 2000.
    pub fn from_yarn_per_100(yarn_per_100: f64) -> Result<Self, Refused> {
        Crimp::from_percent(yarn_per_100 - 100.0).map(Self::from_crimp)
    }

    /// Yarn used for 100 of cloth, both in one unit: 100 × (1 + crimp).
    pub fn yarn_per_100(self) -> f64 {
        100.0 + self.crimp().percent()
    }
}

/// Contraction of the warp in weaving by Taylor's rule for cotton: per cent = multiplier × intersections per inch ÷
/// weft count (English cotton); in plain cloth there are as many intersections as picks, the multiplier is about 4.
/// A mill rule of 1909 for mill cotton: shown for comparison, not for handspun.
///
/// # Errors
/// If the multiplier is negative or no number, or the contraction comes out absurd.
pub fn taylor_contraction(
    intersections: crate::quantity::ThreadDensity,
    weft: crate::quantity::YarnNumber,
    multiplier: f64,
) -> Result<TakeUp, Refused> {
    let multiplier = crate::error::Limits { what: "a multiplier", unit: "", least: 0.0, most: 100.0, zero: true }
        .take(multiplier)?;
    let count = weft.count_in(crate::quantity::YarnSystem::EnglishCotton);
    TakeUp::from_percent(multiplier * intersections.per_inch() / count)
}

/// Crimp goes with the intersections, not the picks: a cloth with floats, having fewer, takes up less of the warp or
/// the weft in proportion. `plain` is the crimp at `of` threads crossed, each an intersection.
///
/// # Errors
/// If more intersections than threads are given, or none can be counted.
pub fn crimp_by_intersections(plain: Crimp, intersections: f64, of: f64) -> Result<Crimp, Refused> {
    let part = crate::quantity::divide("the number of threads crossed", intersections, of)?;
    share("a share of intersections", part, 0.0, 1.0)?;
    Crimp::from_percent(plain.percent() * part)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use crate::change::WarpUse;
    use crate::state::{RelaxedLength, WarpLength, WovenLength};

    #[test]
    fn both_denominators() {
        // 10.8 m of yarn in 10 m of cloth: 8 % and 7.41 % (lecture notes, Introduction to Fabric Manufacturing, ex. 1).
        let used = WarpUse::between(WarpLength::from_m(10.8).unwrap(), RelaxedLength::from_m(10.0).unwrap()).unwrap();
        assert!((used.crimp().percent() - 8.0).abs() < 1e-9);
        assert!((used.take_up().percent() - 7.407_407).abs() < 1e-6);
        assert!((used.crimp().take_up().percent() - used.take_up().percent()).abs() < 1e-12);
        assert!((used.take_up().crimp().percent() - used.crimp().percent()).abs() < 1e-12);
    }

    #[test]
    fn a_stretched_warp_has_negative_take_up() {
        let used = WarpUse::between(WarpLength::from_m(0.73).unwrap(), WovenLength::from_m(0.75).unwrap()).unwrap();
        assert!(used.take_up().percent() < -2.7 && used.crimp().percent() < 0.0);
    }

    #[test]
    fn what_weavers_say_and_crimp_are_one_figure() {
        let said = WarpUse::<crate::state::UnderTension>::from_yarn_per_100(112.0).unwrap();
        assert!((said.crimp().percent() - 12.0).abs() < 1e-9 && (said.yarn_per_100() - 112.0).abs() < 1e-9);
        assert!(WarpUse::<crate::state::UnderTension>::from_yarn_per_100(0.0).is_err());
    }
}

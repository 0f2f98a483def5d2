//! Warp left, the longest cloth still possible, and whether it will reach.
//!
//! left = (wound − waste) − woven·(1+u); longest cloth still = left ÷ (1+u), u on cloth woven *under tension*. u may be
//! negative and is never clamped. Sources: the definitions; seen values in [`crate::take_up`].

use crate::change::WarpUse;
use crate::error::Refused;
use crate::quantity::{Length, LengthBalance, Quantity};
use crate::span::Estimate;
use crate::state::{Extent, UnderTension, WarpLength, WovenLength};

/// A thread tied on a warp end at a known distance, that has reached the fell: it shows the true take-up.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct WarpMark {
    /// Along the warp as wound, from where the first pick lies.
    #[serde(rename = "along_mm")]
    pub along: WarpLength,
    /// Cloth woven when it reached the fell.
    #[serde(rename = "woven_mm")]
    pub woven: WovenLength,
    /// Standard deviation of the distance tied at, in mm.
    pub along_deviation_mm: f64,
    /// Standard deviation of the woven length, in mm.
    pub woven_deviation_mm: f64,
}

impl WarpMark {
    /// Warp use that the mark shows: so much warp for so much cloth. The spread is that of *u* as a share.
    /// # Errors
    /// If one of the lengths is nothing.
    pub fn warp_use(&self) -> Result<(WarpUse<UnderTension>, f64), Refused> {
        let used = WarpUse::between(self.along, self.woven)?;
        let spread = (self.along_deviation_mm / self.along.mm()).hypot(self.woven_deviation_mm / self.woven.mm());
        Ok((used, spread / used.ratio()))
    }
}

/// The true take-up of warp used against cloth on the loom: used = wound − front − behind.
/// # Errors
/// If nothing was used or woven.
pub fn measured_take_up<S: crate::state::MeasuredState>(
    wound: WarpLength,
    tie_on: WarpLength,
    unwoven_end: WarpLength,
    cloth: Extent<crate::state::Along, S>,
) -> Result<WarpUse<S>, Refused> {
    WarpUse::between(wound.less(tie_on + unwoven_end), cloth)
}

/// What is known of the warp on the loom.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WarpOnLoom {
    /// As wound.
    pub wound: Estimate<WarpLength>,
    /// All that can't be woven, front and back, and what header, gaps and fringes already used or still will.
    pub not_cloth: Estimate<WarpLength>,
    /// Warp against cloth under tension.
    pub warp_use: WarpUse<UnderTension>,
    /// Standard deviation of *u*, as a share of cloth (0.02 is two points of per cent).
    pub warp_use_deviation: f64,
    /// The last warp mark that reached the fell, if any: corrects the take-up from then on.
    pub mark: Option<WarpMark>,
}

/// Warp left, in warp and in cloth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WarpLeft {
    /// Warp still to be woven; negative when the figures say that there should be none.
    pub warp: Estimate<LengthBalance>,
    /// The longest cloth still possible, under tension; negative likewise.
    pub cloth: Estimate<LengthBalance>,
    /// The warp use gone on with: the mark's, where one reached the fell.
    pub warp_use: WarpUse<UnderTension>,
}

/// Warp left after so much cloth: the exact relation, without spreads.
/// # Errors
/// If a length leaves the limits.
pub fn warp_left(
    wound: WarpLength,
    waste: WarpLength,
    woven: WovenLength,
    warp_use: WarpUse<UnderTension>,
) -> Result<LengthBalance, Refused> {
    LengthBalance::from_mm(wound.mm() - waste.mm() - warp_use.yarn_for(woven)?.mm())
}

/// The longest cloth that so much warp still makes, under tension.
/// # Errors
/// If a length leaves the limits.
pub fn cloth_still(left: Length, warp_use: WarpUse<UnderTension>) -> Result<WovenLength, Refused> {
    warp_use.cloth_from(Extent::new(left)?)
}

impl WarpOnLoom {
    /// What is left after so much cloth, with spreads carried through.
    /// # Errors
    /// If the mark is empty or a length leaves the limits.
    pub fn left(&self, woven: &Estimate<WovenLength>) -> Result<WarpLeft, Refused> {
        // A mark says what the cloth up to it used: its take-up holds for that cloth, and is gone on with.
        let (warp_use, u_deviation) = match &self.mark {
            Some(mark) => mark.warp_use()?,
            None => (self.warp_use, self.warp_use_deviation),
        };
        let per = 1.0 / warp_use.ratio();
        let for_cloth = self.wound.likely.mm() - self.not_cloth.likely.mm();
        let (woven_mm, woven_deviation) = (woven.likely.mm(), woven.standard_deviation());
        let (warp, cloth) = (for_cloth - woven_mm * per, for_cloth / per - woven_mm);
        let fixed = self.wound.standard_deviation().hypot(self.not_cloth.standard_deviation());
        let warp_deviation = fixed.hypot(per * woven_deviation).hypot(woven_mm * u_deviation);
        let cloth_deviation = (fixed / per).hypot(woven_deviation).hypot(for_cloth / (per * per) * u_deviation);
        Ok(WarpLeft {
            warp: Estimate::even(LengthBalance::from_mm(warp)?, warp_deviation),
            cloth: Estimate::even(LengthBalance::from_mm(cloth)?, cloth_deviation),
            warp_use,
        })
    }
}

/// Whether what is left reaches for what is still wanted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reach {
    /// Over or short, with its spread.
    pub balance: Estimate<LengthBalance>,
    /// The probability that it reaches, 0 to 1.
    pub chance: f64,
}

/// Whether cloth still possible (of warp or weft, under tension) reaches for the cloth still to weave. `left` may be an
/// estimate of [`LengthBalance`] or [`WovenLength`].
pub fn reach<Q: Quantity>(left: &Estimate<Q>, still_to_weave: WovenLength) -> Reach {
    let needed = still_to_weave.mm();
    Reach {
        balance: Estimate::even(LengthBalance::nearest(left.likely.raw() - needed), left.standard_deviation()),
        chance: left.chance_of_at_least(Q::nearest(needed)),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::take_up::Crimp;

    fn warp(inches: f64) -> WarpLength {
        WarpLength::from_inches(inches).unwrap()
    }

    fn cloth(inches: f64) -> WovenLength {
        WovenLength::from_inches(inches).unwrap()
    }

    fn on_loom(u_percent: f64) -> WarpOnLoom {
        WarpOnLoom {
            wound: Estimate::exact(warp(180.0)),
            not_cloth: Estimate::exact(warp(31.0)),
            warp_use: WarpUse::from_crimp(Crimp::from_percent(u_percent).unwrap()),
            warp_use_deviation: 0.0,
            mark: None,
        }
    }

    #[test]
    fn the_estimate_and_the_relation_agree() {
        let loom = on_loom(100.0 * 13.0 / 136.0);
        let left = loom.left(&Estimate::exact(cloth(68.0))).unwrap();
        let plain = warp_left(warp(180.0), warp(31.0), cloth(68.0), loom.warp_use).unwrap();
        assert!((left.warp.likely.mm() - plain.mm()).abs() < 1e-6);
        assert!((cloth_still(plain.over(), loom.warp_use).unwrap().mm() - left.cloth.likely.mm()).abs() < 1e-6);
        assert!((left.cloth.likely.over().inches() - 68.0).abs() < 1e-9);
    }

    #[test]
    fn a_stretched_warp_leaves_more() {
        let zero = on_loom(0.0).left(&Estimate::exact(cloth(75.0))).unwrap();
        let stretched = on_loom(-2.7).left(&Estimate::exact(cloth(75.0))).unwrap();
        assert!(stretched.warp.likely > zero.warp.likely);
    }

    #[test]
    fn a_mark_corrects_the_take_up_from_then_on() {
        let mut loom = on_loom(5.0);
        loom.warp_use_deviation = 0.04;
        let woven = Estimate::even(cloth(60.0), 10.0);
        let before = loom.left(&woven).unwrap();
        // Tied at 55 in, at the fell after 50 in: 10 %, not 5 %.
        loom.mark =
            Some(WarpMark { along: warp(55.0), woven: cloth(50.0), along_deviation_mm: 5.0, woven_deviation_mm: 8.0 });
        let after = loom.left(&woven).unwrap();
        assert!((after.warp_use.crimp().percent() - 10.0).abs() < 1e-9);
        assert!((after.warp.likely.over().inches() - (180.0 - 31.0 - 55.0 - 11.0)).abs() < 1e-6);
        assert!(after.cloth.standard_deviation() < before.cloth.standard_deviation());
    }

    #[test]
    fn reaching_is_a_matter_of_chance() {
        let left = Estimate::even(LengthBalance::from_mm(1000.0).unwrap(), 50.0);
        assert!((reach(&left, WovenLength::from_mm(1000.0).unwrap()).chance - 0.5).abs() < 1e-12);
        assert!(reach(&left, WovenLength::from_mm(900.0).unwrap()).chance > 0.97);
        assert!(reach(&left, WovenLength::from_mm(1100.0).unwrap()).balance.likely.is_short());
    }
}

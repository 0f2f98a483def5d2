//! Sett: from wraps or the yarn number, the largest there can be, what can be beaten in.
//!
//! Ashenhurst: diameters per inch = k·√(yards per pound); largest sett = diameters × e ÷ (e + i), with e ends and i
//! intersections in a repeat. The k has to be named with the figure. Sources: T. R. Ashenhurst through hand-outs; T. W.
//! Taylor, *Cotton Weaving and Designing*, 1909, ch. XII. Round a largest sett *down*.

use crate::error::{Limits, Refused};
use crate::quantity::{Mass, ThreadDensity, YarnNumber, YarnSystem};
use crate::state::{EndsIn, PicksIn, UnderTension};

/// How often threads interlace: ends and intersections in one repeat, along one thread.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Weave {
    ends: f64,
    intersections: f64,
}

impl Weave {
    /// Plain weave: two ends, two intersections.
    pub const PLAIN: Self = Self { ends: 2.0, intersections: 2.0 };
    /// Twill of three, two up and one down or the reverse.
    pub const TWILL_2_1: Self = Self { ends: 3.0, intersections: 2.0 };
    /// Twill of four, two up and two down.
    pub const TWILL_2_2: Self = Self { ends: 4.0, intersections: 2.0 };
    /// Twill of four, three up and one down or the reverse.
    pub const TWILL_3_1: Self = Self { ends: 4.0, intersections: 2.0 };
    /// Hopsack, mat, panama of twos.
    pub const HOPSACK_2: Self = Self { ends: 4.0, intersections: 2.0 };
    /// Satin of five.
    pub const SATIN_5: Self = Self { ends: 5.0, intersections: 2.0 };
    /// Satin of eight.
    pub const SATIN_8: Self = Self { ends: 8.0, intersections: 2.0 };

    /// Ends and intersections counted over any number of repeats.
    /// # Errors
    /// If there are none, or more intersections than ends.
    pub fn new(ends: f64, intersections: f64) -> Result<Self, Refused> {
        let limits = |what| Limits { what, unit: "in a repeat", least: 0.1, most: 1e6, zero: false };
        let ends = limits("a number of ends").take(ends)?;
        let intersections = limits("a number of intersections").take(intersections)?;
        if intersections > ends {
            return Err(Refused::DoesNotFit("a thread can't interlace more often than at every end".into()));
        }
        Ok(Self { ends, intersections })
    }

    /// From a cloth as drawn: the share of crossings at which a thread changes sides.
    /// # Errors
    /// If nothing interlaces.
    pub fn from_interlacing_share(share: f64) -> Result<Self, Refused> {
        Self::new(1.0, share)
    }

    /// e ÷ (e + i): ½ in plain weave, ⅔ in 2/2 twill.
    pub fn room(self) -> f64 {
        self.ends / (self.ends + self.intersections)
    }

    /// Intersections per end, 1 in plain weave.
    pub fn interlacing_share(self) -> f64 {
        self.intersections / self.ends
    }
}

/// Ashenhurst's constant: diameters per inch = k·√(yards per pound).
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, serde::Serialize, serde::Deserialize)]
#[serde(try_from = "f64", into = "f64")]
pub struct AshenhurstK(f64);

impl AshenhurstK {
    /// 0.84, soft yarns, woollens.
    pub const SOFT: Self = Self(0.84);
    /// 0.9, the usual one.
    pub const USUAL: Self = Self(0.9);
    /// 0.95, Taylor's for cotton.
    pub const TAYLOR: Self = Self(0.95);

    /// Any other.
    /// # Errors
    /// Outside 0.1 to 2.
    pub fn new(k: f64) -> Result<Self, Refused> {
        Limits { what: "the constant k", unit: "", least: 0.1, most: 2.0, zero: false }.take(k).map(Self)
    }
    /// The number.
    pub fn value(self) -> f64 {
        self.0
    }
}

impl TryFrom<f64> for AshenhurstK {
    type Error = Refused;
    fn try_from(k: f64) -> Result<Self, Refused> {
        Self::new(k)
    }
}

impl From<AshenhurstK> for f64 {
    fn from(k: AshenhurstK) -> f64 {
        k.0
    }
}

/// Threads that lie side by side: k·√(yards per pound) to the inch, the same thing as wraps counted touching.
/// # Errors
/// If the result is absurd.
pub fn diameters(yarn: YarnNumber, k: AshenhurstK) -> Result<ThreadDensity, Refused> {
    ThreadDensity::from_per_inch(k.0 * yarn.count_in(YarnSystem::YardsPerPound).sqrt())
}

/// The sett of a balanced cloth from wraps or diameters: wraps × e ÷ (e + i). Half the wraps for plain weave, two
/// thirds for 2/2 twill. As a *largest* sett if the wraps were counted touching.
/// # Errors
/// If the result is absurd.
pub fn sett_from_wraps(wraps: ThreadDensity, weave: Weave) -> Result<ThreadDensity, Refused> {
    wraps.times(weave.room())
}

/// The largest sett from a yarn number by Ashenhurst, with the k named.
/// # Errors
/// If the result is absurd.
pub fn largest_sett(yarn: YarnNumber, k: AshenhurstK, weave: Weave) -> Result<ThreadDensity, Refused> {
    sett_from_wraps(diameters(yarn, k)?, weave)
}

/// The largest sett with a weft of another thickness: e ends and i wefts between them in a repeat's width.
/// # Errors
/// If the result is absurd.
pub fn largest_sett_with(own: ThreadDensity, crossing: ThreadDensity, weave: Weave) -> Result<ThreadDensity, Refused> {
    let width = weave.ends / own.per_cm() + weave.intersections / crossing.per_cm();
    ThreadDensity::from_per_cm(weave.ends / width)
}

/// 80 % of the largest, for ordinary cloth (common practice in hand-outs on Ashenhurst).
/// # Errors
/// If the result is absurd.
pub fn ordinary_sett(largest: ThreadDensity) -> Result<ThreadDensity, Refused> {
    largest.times(0.8)
}

/// Threads per inch for the same firmness in another weave: in proportion to e ÷ (e + i).
/// # Errors
/// If the result is absurd.
pub fn same_firmness_in_weave(sett: ThreadDensity, from: Weave, to: Weave) -> Result<ThreadDensity, Refused> {
    sett.times(to.room() / from.room())
}

/// Threads (or diameters) per inch for the same firmness in another yarn: in proportion to √(yards per pound).
/// # Errors
/// If the result is absurd.
pub fn same_firmness_in_yarn(sett: ThreadDensity, from: YarnNumber, to: YarnNumber) -> Result<ThreadDensity, Refused> {
    sett.times((from.tex() / to.tex()).sqrt())
}

/// The yarn that keeps the firmness at the same sett when the weave changes.
/// # Errors
/// If the result is absurd.
pub fn yarn_for_weave(yarn: YarnNumber, from: Weave, to: Weave) -> Result<YarnNumber, Refused> {
    yarn.times((to.room() / from.room()).powi(2))
}

/// The yarn that changes the weight of a cloth at the same firmness: count × (old ÷ new)², sett as
/// [`sett_for_weight`].
/// # Errors
/// If a weight is nothing, or the result is absurd.
pub fn yarn_for_weight(yarn: YarnNumber, old: Mass, new: Mass) -> Result<YarnNumber, Refused> {
    yarn.times(crate::quantity::divide("the old weight", new.g(), old.g())?.powi(2))
}

/// The sett that goes with it: sett × old ÷ new.
/// # Errors
/// If a weight is nothing, or the result is absurd.
pub fn sett_for_weight(sett: ThreadDensity, old: Mass, new: Mass) -> Result<ThreadDensity, Refused> {
    sett.times(crate::quantity::divide("the new weight", old.g(), new.g())?)
}

/// Whether a rate of picks can be beaten in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Beat {
    /// Up to nine tenths of what fits.
    Possible,
    /// Above nine tenths: a hard beat and a tight warp.
    Hard,
    /// More picks than fit between these ends.
    TooClose,
    /// The ends alone are more than fit side by side, with every other one above: there is no room for weft to bend.
    EndsTooClose,
}

/// A rate of picks against the most that a warp takes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BeatenIn {
    /// The verdict.
    pub beat: Beat,
    /// The most picks that fit, under tension; `None` if the ends are too close.
    pub most: Option<PicksIn<UnderTension>>,
}

/// Whether picks can be beaten in between these ends, after Peirce's jammed cloth of round threads (1937, through
/// secondary texts): with P = spacing ÷ (d₁ + d₂), √(1 − P₁²) + √(1 − P₂²) = 1 where both jam; an open warp takes picks
/// until every other one touches. Threads under floats add their own diameter. Real yarn is squashed, so treat the
/// limit as good to a tenth. `warp` and `weft` are threads that lie side by side (wraps or [`diameters`]).
///
/// # Errors
/// If the result is absurd.
pub fn beaten_in(
    warp: ThreadDensity,
    weft: ThreadDensity,
    weave: Weave,
    sett: EndsIn<UnderTension>,
    picks: PicksIn<UnderTension>,
) -> Result<BeatenIn, Refused> {
    let Some(most) = most_picks(warp, weft, weave, sett)? else {
        return Ok(BeatenIn { beat: Beat::EndsTooClose, most: None });
    };
    let share = picks.density().per_cm() / most.density().per_cm();
    let beat = match share {
        s if s > 1.0 => Beat::TooClose,
        s if s > 0.9 => Beat::Hard,
        _ => Beat::Possible,
    };
    Ok(BeatenIn { beat, most: Some(most) })
}

fn most_picks(
    warp: ThreadDensity,
    weft: ThreadDensity,
    weave: Weave,
    sett: EndsIn<UnderTension>,
) -> Result<Option<PicksIn<UnderTension>>, Refused> {
    // All in cm.
    let (d1, d2) = (1.0 / warp.per_cm(), 1.0 / weft.per_cm());
    let (both, share) = (d1 + d2, weave.interlacing_share());
    // Spacing at the intersections: what floats take, lies side by side.
    let p1 = (1.0 / sett.density().per_cm() - (1.0 - share) * d1) / share;
    if p1 < d1 / 2.0 {
        return Ok(None);
    }
    let bent = 1.0 - (1.0 - (p1 / both).min(1.0).powi(2)).sqrt();
    let p2 = (both * (1.0 - bent * bent).max(0.0).sqrt()).max(d2 / 2.0);
    let spacing = share * p2 + (1.0 - share) * d2;
    Ok(Some(PicksIn::new(ThreadDensity::from_per_cm(1.0 / spacing)?)))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn per_inch(n: f64) -> ThreadDensity {
        ThreadDensity::from_per_inch(n).unwrap()
    }

    fn most(wraps: f64, weave: Weave, epi: f64) -> f64 {
        let sett = EndsIn::from_per_inch(epi).unwrap();
        most_picks(per_inch(wraps), per_inch(wraps), weave, sett).unwrap().unwrap().density().per_inch()
    }

    #[test]
    fn a_square_jammed_cloth_is_the_limit_of_both() {
        // Peirce: p/D = 0.866 both ways, so 20 wraps make 20 ÷ 2 ÷ 0.866 = 11.55 ends and picks.
        let n = 20.0 / 2.0 / 0.75f64.sqrt();
        assert!((most(20.0, Weave::PLAIN, n) - n).abs() < 1e-9);
        // More ends, fewer picks; an open warp takes more.
        assert!(most(20.0, Weave::PLAIN, n + 1.0) < n);
        assert!(most(20.0, Weave::PLAIN, 6.0) > n);
        assert!(most(20.0, Weave::TWILL_2_2, n) > most(20.0, Weave::PLAIN, n));
    }

    #[test]
    fn what_cannot_be_beaten_in_is_said() {
        let check = |epi, ppi| {
            beaten_in(
                per_inch(20.0),
                per_inch(20.0),
                Weave::PLAIN,
                EndsIn::from_per_inch(epi).unwrap(),
                PicksIn::from_per_inch(ppi).unwrap(),
            )
            .unwrap()
        };
        assert_eq!(check(10.0, 10.0).beat, Beat::Possible);
        assert_eq!(check(11.5, 11.5).beat, Beat::Hard);
        assert_eq!(check(12.0, 18.0).beat, Beat::TooClose);
        assert_eq!(check(45.0, 5.0).beat, Beat::EndsTooClose);
        assert_ne!(check(45.0, 5.0).beat, Beat::Possible);
    }

    #[test]
    fn equal_yarns_reduce_to_the_usual_formula() {
        let (d, weave) = (per_inch(52.0), Weave::TWILL_2_1);
        let with = largest_sett_with(d, d, weave).unwrap();
        assert!((with.per_inch() - sett_from_wraps(d, weave).unwrap().per_inch()).abs() < 1e-9);
        assert!(Weave::new(2.0, 3.0).is_err() && Weave::new(0.0, 0.0).is_err());
    }
}

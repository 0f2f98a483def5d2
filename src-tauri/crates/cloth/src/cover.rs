//! Cover and weight of cloth.

use crate::change::{WarpUse, WeftUse};
use crate::error::{Limits, Refused};
use crate::quantity::{ClothWeight, Length, ThreadDensity, YarnNumber, YarnSystem};
use crate::state::{EndsIn, MeasuredState, PicksIn};

/// Peirce's cover factor K = threads per inch ÷ √Ne; 28 would be threads of cotton lying side by side.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, serde::Serialize, serde::Deserialize)]
#[serde(try_from = "f64", into = "f64")]
pub struct CoverFactor(f64);

impl CoverFactor {
    /// Of one system of threads.
    /// # Errors
    /// If the result is absurd.
    pub fn of(threads: ThreadDensity, yarn: YarnNumber) -> Result<Self, Refused> {
        Self::new(threads.per_inch() / yarn.count_in(YarnSystem::EnglishCotton).sqrt())
    }

    /// A number as given.
    /// # Errors
    /// If negative, no number, or above 1000.
    pub fn new(k: f64) -> Result<Self, Refused> {
        Limits { what: "a cover factor", unit: "", least: 0.0, most: 1000.0, zero: true }.take(k).map(Self)
    }

    /// Cover of the cloth: Kc = K₁ + K₂ − K₁·K₂ ÷ 28 (the last term is often misprinted).
    /// # Errors
    /// If the factors are so large that the formula has no meaning.
    pub fn of_cloth(warp: Self, weft: Self) -> Result<Self, Refused> {
        Self::new(warp.0 + weft.0 - warp.0 * weft.0 / 28.0)
    }

    /// The number.
    pub fn value(self) -> f64 {
        self.0
    }

    /// As a share of the area: K ÷ 28.
    pub fn share_of_area(self) -> f64 {
        self.0 / 28.0
    }

    /// In the tex system, threads per cm × √tex ÷ 10: always 1.0452 times less.
    pub fn in_tex_system(self) -> f64 {
        let constant = YarnSystem::EnglishCotton.constant().unwrap_or(590.541_25);
        self.0 * constant.sqrt() / 25.4
    }
}

impl TryFrom<f64> for CoverFactor {
    type Error = Refused;
    fn try_from(k: f64) -> Result<Self, Refused> {
        Self::new(k)
    }
}

impl From<CoverFactor> for f64 {
    fn from(k: CoverFactor) -> f64 {
        k.0
    }
}

/// Share of a width that threads of a diameter cover: n·d; above 1 they overlap.
pub fn covered_width(threads: ThreadDensity, diameter: Length) -> f64 {
    threads.per_cm() * diameter.cm()
}

/// Share of the area covered by both systems: k₁ + k₂ − k₁·k₂.
/// # Errors
/// If one of the shares is not between 0 and 1.
pub fn covered_area(warp: f64, weft: f64) -> Result<f64, Refused> {
    crate::error::share("a cover", warp, 0.0, 1.0)?;
    crate::error::share("a cover", weft, 0.0, 1.0)?;
    Ok(warp + weft - warp * weft)
}

/// The warp of a cloth in state `S`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WarpIn<S> {
    /// Ends across.
    pub ends: EndsIn<S>,
    /// Its yarn.
    pub yarn: YarnNumber,
    /// Warp against cloth.
    pub used: WarpUse<S>,
}

/// The weft of a cloth in state `S`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeftIn<S> {
    /// Picks along.
    pub picks: PicksIn<S>,
    /// Its yarn.
    pub yarn: YarnNumber,
    /// Weft against width.
    pub used: WeftUse<S>,
}

/// Weight of cloth by area, all from one state: [n₁T₁(1+c₁) + n₂T₂(1+c₂)] ÷ 10 in g/m² with threads per cm and tex; the
/// same as 24/35·[epi(1+c₁)/Ne₁ + ppi(1+c₂)/Ne₂] in oz/yd².
/// # Errors
/// If the result is absurd.
pub fn cloth_weight<S: MeasuredState>(warp: WarpIn<S>, weft: WeftIn<S>) -> Result<ClothWeight, Refused> {
    let of =
        |density: ThreadDensity, yarn: YarnNumber, crimp: f64| density.per_cm() * yarn.tex() * (1.0 + crimp) / 10.0;
    ClothWeight::from_g_per_m2(
        of(warp.ends.density(), warp.yarn, warp.used.crimp().share())
            + of(weft.picks.density(), weft.yarn, weft.used.crimp().share()),
    )
}

/// Weight that one system of threads brings: threads × tex × (1 + crimp).
/// # Errors
/// If the result is absurd.
pub fn threads_weight(
    threads: ThreadDensity,
    yarn: YarnNumber,
    crimp: crate::take_up::Crimp,
) -> Result<ClothWeight, Refused> {
    ClothWeight::from_g_per_m2(threads.per_cm() * yarn.tex() * (1.0 + crimp.share()) / 10.0)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::state::Finished;
    use crate::take_up::Crimp;

    #[test]
    fn the_tex_system_is_always_as_much_less() {
        let yarn = YarnNumber::new(YarnSystem::Tex, 20.0).unwrap();
        let k = CoverFactor::of(ThreadDensity::from_per_cm(28.0).unwrap(), yarn).unwrap();
        assert!((k.in_tex_system() - 28.0 * 20f64.sqrt() / 10.0).abs() < 1e-6);
        assert!((k.value() / k.in_tex_system() - 1.0452).abs() < 5e-5);
    }

    #[test]
    fn cloth_is_covered_where_either_system_covers() {
        // By the definition: 28 covers all, whatever crosses it; two halves leave a quarter open.
        let k = |k| CoverFactor::new(k).unwrap();
        assert!((CoverFactor::of_cloth(k(28.0), k(9.0)).unwrap().value() - 28.0).abs() < 1e-12);
        let halves = CoverFactor::of_cloth(k(14.0), k(14.0)).unwrap();
        assert!((halves.value() - 21.0).abs() < 1e-12);
        assert!((halves.share_of_area() - covered_area(0.5, 0.5).unwrap()).abs() < 1e-12);
    }

    #[test]
    fn the_two_systems_add_up() {
        let yarn = YarnNumber::new(YarnSystem::Tex, 30.0).unwrap();
        let used = Crimp::from_percent(10.0).unwrap();
        let density = ThreadDensity::from_per_cm(10.0).unwrap();
        let warp = WarpIn::<Finished> { ends: EndsIn::new(density), yarn, used: WarpUse::from_crimp(used) };
        let weft = WeftIn::<Finished> { picks: PicksIn::new(density), yarn, used: WeftUse::from_crimp(used) };
        let both = cloth_weight(warp, weft).unwrap().g_per_m2();
        let one = threads_weight(density, yarn, used).unwrap().g_per_m2();
        assert!((both - 2.0 * one).abs() < 1e-9 && (both - 66.0).abs() < 1e-9);
        assert!(covered_area(1.2, 0.5).is_err());
    }
}

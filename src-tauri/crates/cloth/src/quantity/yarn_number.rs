//! How fine a yarn is, in the systems that labels and handbooks use.

use super::quantity;
use crate::error::{Limits, Refused};
use crate::quantity::mass::G_PER_POUND;
use crate::quantity::{Length, Mass};

/// Tex × (yards per pound) of any yarn: 10⁶ g/km·… = 1000 × 453.592 37 ÷ 0.9144 (ASTM D2260 Table 1: 496 055).
const TEX_YARDS_PER_POUND: f64 = 1000.0 * G_PER_POUND / 0.9144;

/// A system of yarn numbers. Direct ones say mass per length (thicker is more), indirect ones length per mass.
/// Constants: tex = constant ÷ count, ASTM D2260-03(2013) Table 1, and the definitions named at each.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum YarnSystem {
    /// Grams per 1000 m (ISO 1144).
    Tex,
    /// Grams per 10 000 m.
    Dtex,
    /// Grams per 9000 m, the modern denier; not the old trade denier of silk.
    Denier,
    /// Old trade denier of raw silk: so many of 533⅓ to the ounce in a skein of 520 yards (Taylor 1909, ch. XII).
    TradeSilkDenier,
    /// Pounds per spyndle of 14 400 yards: jute, heavy linen.
    JuteSpyndle,
    /// Drams (256 to the pound) per 1000 yards: thrown silk. From memory of the definition.
    SilkDrams,
    /// Metres per gram, kilometres per kilogram.
    MetricNm,
    /// Kilometres per 500 g: the French cotton count.
    French,
    /// Metres per 100 g, the ball band.
    MetresPer100g,
    /// Metres per kilogram.
    MetresPerKg,
    /// Yards per pound.
    YardsPerPound,
    /// Yards per ounce (Dewsbury).
    YardsPerOunce,
    /// Hanks of 840 yards per pound: cotton, spun silk.
    EnglishCotton,
    /// Hanks of 560 yards per pound: worsted.
    Worsted,
    /// Leas of 300 yards per pound: linen, hemp.
    LinenLea,
    /// Cuts of 300 yards per pound: American woollen.
    WoollenCut,
    /// Runs of 1600 yards per pound: American woollen.
    AmericanRun,
    /// Skeins of 256 yards per pound: Yorkshire woollen.
    YorkshireSkein,
    /// Cuts of 200 yards per pound: Galashiels (300 yards in 24 oz).
    Galashiels,
    /// Snaps of 320 yards per pound: West of England. From memory of the definition.
    WestOfEngland,
}

impl YarnSystem {
    /// Every system, for lists.
    pub const ALL: [Self; 20] = [
        Self::Tex,
        Self::Dtex,
        Self::Denier,
        Self::TradeSilkDenier,
        Self::JuteSpyndle,
        Self::SilkDrams,
        Self::MetricNm,
        Self::French,
        Self::MetresPer100g,
        Self::MetresPerKg,
        Self::YardsPerPound,
        Self::YardsPerOunce,
        Self::EnglishCotton,
        Self::Worsted,
        Self::LinenLea,
        Self::WoollenCut,
        Self::AmericanRun,
        Self::YorkshireSkein,
        Self::Galashiels,
        Self::WestOfEngland,
    ];

    /// Tex of one unit in a direct system (tex = count × this).
    fn direct(self) -> Option<f64> {
        Some(match self {
            Self::Tex => 1.0,
            Self::Dtex => 0.1,
            Self::Denier => 1.0 / 9.0,
            // 520 yd weigh one denier of 1/533⅓ oz.
            Self::TradeSilkDenier => G_PER_POUND / 16.0 / (1600.0 / 3.0) / (520.0 * 0.9144) * 1000.0,
            Self::JuteSpyndle => TEX_YARDS_PER_POUND / 14_400.0,
            Self::SilkDrams => TEX_YARDS_PER_POUND / 256.0 / 1000.0,
            _ => return None,
        })
    }

    /// The length of a hank, skein, lea or cut in yards where the system counts these per pound.
    pub fn yards_per_hank(self) -> Option<f64> {
        Some(match self {
            Self::YardsPerPound => 1.0,
            Self::YardsPerOunce => 16.0,
            Self::EnglishCotton => 840.0,
            Self::Worsted => 560.0,
            Self::LinenLea | Self::WoollenCut => 300.0,
            Self::AmericanRun => 1600.0,
            Self::YorkshireSkein => 256.0,
            Self::Galashiels => 200.0,
            Self::WestOfEngland => 320.0,
            _ => return None,
        })
    }

    /// The constant of an indirect system: tex × count. `None` for direct systems.
    pub fn constant(self) -> Option<f64> {
        match self {
            Self::MetricNm | Self::MetresPerKg | Self::MetresPer100g | Self::French => Some(match self {
                Self::MetricNm => 1000.0,
                Self::MetresPerKg => 1e6,
                Self::French => 500.0,
                _ => 1e5,
            }),
            _ => self.yards_per_hank().map(|yards| TEX_YARDS_PER_POUND / yards),
        }
    }

    /// Whether a thicker yarn has a larger number.
    pub fn is_direct(self) -> bool {
        self.direct().is_some()
    }

    /// How many of this system's hanks a length is (840 yd for cotton and so on).
    /// # Errors
    /// If the system has no hank.
    pub fn hanks(self, length: Length) -> Result<f64, Refused> {
        match self.yards_per_hank() {
            Some(yards) => Ok(length.yards() / yards),
            None => Err(Refused::DoesNotFit("this yarn system does not count in hanks".into())),
        }
    }
}

/// Yarns that hand weavers use, tex: from sewing thread to the thickest rug yarn (common practice, no source).
const USUAL_TEX: std::ops::RangeInclusive<f64> = 5.0..=5000.0;

quantity! {
    /// How fine a yarn is; tex inside (serde: tex). Between 0.01 tex and 1 000 000 tex (a kilogram to the metre).
    YarnNumber, tex, Limits { what: "a yarn number", unit: "tex", least: 0.01, most: 1e6, zero: false }
}

impl YarnNumber {
    /// A count in a system, of the yarn as it is used (a 2-ply's resultant count, not that of its strands).
    /// # Errors
    /// If the count is zero, negative, no number, or no yarn is that fine or that thick.
    pub fn new(system: YarnSystem, count: f64) -> Result<Self, Refused> {
        Limits { what: "a yarn number", unit: "in its system", least: 1e-9, most: 1e12, zero: false }.take(count)?;
        match (system.direct(), system.constant()) {
            (Some(tex), _) => Self::take(tex * count),
            (None, Some(constant)) => Self::take(constant / count),
            (None, None) => Err(Refused::DoesNotFit("this yarn system has no constant".into())),
        }
    }

    /// As a label has it, "8/2" or "2/28": strands of one count, so many of them. Nominal: plying takes up, by as
    /// much as 17 %, so a label's metres per 100 g win over this. Spun silk's "40/2" is already the resultant: use
    /// [`Self::new`].
    /// # Errors
    /// As [`Self::new`], or if there are no strands.
    pub fn plied(system: YarnSystem, single: f64, plies: u32) -> Result<Self, Refused> {
        if plies == 0 {
            return Err(Refused::Zero { what: "the number of strands" });
        }
        Self::take(Self::new(system, single)?.0 * f64::from(plies))
    }

    /// Plied, by a maker's or guild's allowance in place of the system's nominal constant: so many metres per kilogram
    /// for a count of 1 (Swedish mat warp: 1400, where cotton's nominal is 1693.4, since plying takes up 17 %).
    /// # Errors
    /// As [`Self::plied`].
    pub fn plied_by_allowance(metres_per_kg_per_count: f64, count: f64, plies: u32) -> Result<Self, Refused> {
        Self::plied(YarnSystem::MetresPerKg, metres_per_kg_per_count * count, plies)
    }

    /// Measured: so long a piece weighs so much. Wraps on a reel and a scale, a ball band, a yarn balance.
    /// # Errors
    /// If either is nothing.
    pub fn from_measured(length: Length, mass: Mass) -> Result<Self, Refused> {
        Self::take(super::divide("the length measured", mass.g(), length.m() / 1000.0)?)
    }

    /// The number in a system.
    pub fn count_in(self, system: YarnSystem) -> f64 {
        match (system.direct(), system.constant()) {
            (Some(tex), _) => self.0 / tex,
            (None, Some(constant)) => constant / self.0,
            (None, None) => f64::NAN,
        }
    }

    /// Whether hand weavers use yarn this fine or this thick.
    pub fn is_usual(self) -> bool {
        USUAL_TEX.contains(&self.0)
    }

    /// Grams per kilometre.
    pub fn tex(self) -> f64 {
        self.0
    }

    /// What a length of it weighs.
    /// # Errors
    /// If the result is absurd.
    pub fn mass_of(self, length: Length) -> Result<Mass, Refused> {
        Mass::from_g(self.0 * length.m() / 1000.0)
    }

    /// How long a mass of it is.
    /// # Errors
    /// If the result is absurd.
    pub fn length_of(self, mass: Mass) -> Result<Length, Refused> {
        Length::from_m(mass.g() / self.0 * 1000.0)
    }
}

/// Several yarns folded or held together: their tex add (1/N = Σ 1/Nᵢ in an indirect system), without twist take-up.
///
/// # Errors
/// If there are none, or the sum is absurd.
pub fn fold(yarns: &[YarnNumber]) -> Result<YarnNumber, Refused> {
    if yarns.is_empty() {
        return Err(Refused::Zero { what: "the number of strands" });
    }
    YarnNumber::take(yarns.iter().map(|yarn| yarn.0).sum())
}

/// Several yarns folded with twist that shortens them: the folded yarn is heavier by 1 ÷ (1 − contraction).
///
/// # Errors
/// If there are none, or the contraction is not between −50 % and 90 %.
pub fn folded_with(yarns: &[YarnNumber], contraction_percent: f64) -> Result<YarnNumber, Refused> {
    let c = crate::error::share("a twist contraction", contraction_percent / 100.0, -0.5, 0.9)?;
    YarnNumber::take(fold(yarns)?.0 / (1.0 - c))
}

/// What has to be folded with `known` to give `result`.
///
/// # Errors
/// If `known` is already as thick as the result.
pub fn unfold(result: YarnNumber, known: &[YarnNumber]) -> Result<YarnNumber, Refused> {
    let rest = result.0 - known.iter().map(|yarn| yarn.0).sum::<f64>();
    if rest <= 0.0 {
        return Err(Refused::DoesNotFit("these strands are already as thick as the yarn they are to make".into()));
    }
    YarnNumber::take(rest)
}

/// A yarn balance whose arm holds level with a snippet of some length: the arm weighs so much, so does the snippet.
/// The usual arm weighs 1/3600 lb, which makes inches × 100 the yards per pound.
///
/// # Errors
/// If the snippet has no length.
pub fn balance_yarn_number(snippet: Length) -> Result<YarnNumber, Refused> {
    YarnNumber::from_measured(snippet, Mass::from_pounds(1.0 / 3600.0)?)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn constants_as_the_tables_have_them() {
        // ASTM D2260-03(2013) Table 1 through secondary texts.
        for (system, constant) in [
            (YarnSystem::MetricNm, 1000.0),
            (YarnSystem::MetresPer100g, 100_000.0),
            (YarnSystem::YardsPerPound, 496_054.65),
            (YarnSystem::EnglishCotton, 590.541_25),
            (YarnSystem::Worsted, 885.811_87),
            (YarnSystem::LinenLea, 1_653.515_5),
            (YarnSystem::WoollenCut, 1_653.515_5),
            (YarnSystem::AmericanRun, 310.034_15),
            (YarnSystem::YorkshireSkein, 1_937.713_5),
            (YarnSystem::Galashiels, 2_480.273_2),
        ] {
            let got = system.constant().unwrap();
            assert!((got / constant - 1.0).abs() < 2e-8, "{system:?}: {got}");
        }
        assert!((YarnNumber::new(YarnSystem::JuteSpyndle, 1.0).unwrap().tex() - 34.448_24).abs() < 5e-6);
        assert!((YarnNumber::new(YarnSystem::Denier, 9.0).unwrap().tex() - 1.0).abs() < 1e-12);
    }

    #[test]
    fn every_system_there_and_back() {
        for system in YarnSystem::ALL {
            let yarn = YarnNumber::new(YarnSystem::Tex, 123.4).unwrap();
            let back = YarnNumber::new(system, yarn.count_in(system)).unwrap();
            assert!((back.tex() - 123.4).abs() < 1e-9, "{system:?}");
        }
    }

    #[test]
    fn folding_and_unfolding() {
        let ne = |n| YarnNumber::new(YarnSystem::EnglishCotton, n).unwrap();
        let both = fold(&[ne(40.0), ne(20.0)]).unwrap();
        assert!((unfold(both, &[ne(40.0)]).unwrap().count_in(YarnSystem::EnglishCotton) - 20.0).abs() < 1e-9);
        assert!(unfold(ne(40.0), &[ne(20.0)]).is_err());
        assert!(fold(&[]).is_err());
        assert!(folded_with(&[ne(40.0)], 10.0).unwrap().tex() > ne(40.0).tex());
    }

    #[test]
    fn no_yarn_of_nothing() {
        assert!(YarnNumber::new(YarnSystem::MetricNm, 0.0).is_err());
        assert!(YarnNumber::new(YarnSystem::MetricNm, f64::NAN).is_err());
        assert!(YarnNumber::new(YarnSystem::MetricNm, 1e-300).is_err());
        assert!(YarnNumber::plied(YarnSystem::EnglishCotton, 8.0, 0).is_err());
        assert!(YarnNumber::from_measured(Length::ZERO, Mass::ZERO).is_err());
    }
}

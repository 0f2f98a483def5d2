//! What to offer where nothing was learned yet: single measured cases of others and ranges of common practice, said to
//! be so. To be offered, never imposed.

use crate::error::Refused;
use crate::fibre::Fibre;
use crate::span::Estimate;
use crate::state::WarpLength;

/// How thoroughly cloth is finished.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Finishing {
    /// Soaked and washed as usual.
    Washed,
    /// Fulled.
    Fulled,
}

impl Finishing {
    /// The word it has in forms and in the folder.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Washed => "washed",
            Self::Fulled => "fulled",
        }
    }

    /// The finishing of a word; washed where it is another or none.
    #[must_use]
    pub fn from_word(word: &str) -> Self {
        if word.trim() == Self::Fulled.word() { Self::Fulled } else { Self::Washed }
    }
}

/// Shrinkage of one kind of cloth: per cents of before, lowest and highest seen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WashPrior {
    /// What it was, in words.
    pub cloth: &'static str,
    /// The fibre it stands for; nothing where the case is of a special yarn that says nothing of others.
    pub fibre: Option<Fibre>,
    /// How it was finished.
    pub finishing: Finishing,
    /// Lengthwise, per cent, lowest to highest.
    pub length_percent: (f64, f64),
    /// Across, per cent from the reed or from off the loom as the cases were reported; `None` if not reported.
    pub width_percent: Option<(f64, f64)>,
    /// Where it is from.
    pub source: &'static str,
}

const ONE_CASE: &str = "single measured case of a weaver's account; a prior only";
const PRACTICE: &str = "common practice, no source";

/// Wet finishing: single measured cases and what dealers say.
pub fn wash_priors() -> &'static [WashPrior] {
    use Finishing::{Fulled, Washed};
    const fn prior(
        cloth: &'static str,
        fibre: Option<Fibre>,
        finishing: Finishing,
        length_percent: (f64, f64),
        width_percent: Option<(f64, f64)>,
        source: &'static str,
    ) -> WashPrior {
        WashPrior { cloth, fibre, finishing, length_percent, width_percent, source }
    }
    const PRIORS: &[WashPrior] = &[
        prior("8/2 cotton twill", Some(Fibre::Cotton), Washed, (8.0, 8.0), Some((17.0, 21.0)), ONE_CASE),
        prior("3/2 cotton", Some(Fibre::Cotton), Washed, (18.0, 18.0), Some((3.0, 3.0)), ONE_CASE),
        prior("16/2 cotton", Some(Fibre::Cotton), Washed, (10.0, 10.0), None, ONE_CASE),
        prior("wool", Some(Fibre::Wool), Washed, (10.0, 20.0), None, PRACTICE),
        prior("Down wool", None, Washed, (28.0, 28.0), Some((26.0, 26.0)), ONE_CASE),
        prior("merino and angora", Some(Fibre::Wool), Fulled, (14.0, 14.0), Some((35.0, 35.0)), ONE_CASE),
        prior("linen", Some(Fibre::Linen), Washed, (2.5, 6.0), None, "measured cases; some dealers say 10\u{2013}15 %"),
    ];
    PRIORS
}

/// Loss of length when the tension goes, where nothing is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RelaxationPrior {
    /// Usual, per cent of the length under tension.
    pub usual_percent: f64,
    /// Four times in five between, per cent.
    pub percent: (f64, f64),
    /// Where it is from.
    pub source: &'static str,
}

impl RelaxationPrior {
    /// The standard deviation, as a share of the length: the range holds four times in five, 2 x 1.2816 deviations of a normal
    /// distribution.
    pub fn deviation_share(&self) -> f64 {
        (self.percent.1 - self.percent.0) / 100.0 / 2.563
    }
}

/// Weavers report losses of 10 and 13 % off the loom, once 30 %; most cloth loses less than what is worth reporting.
pub const USUAL_RELAXATION: RelaxationPrior = RelaxationPrior {
    usual_percent: 5.0,
    percent: (0.0, 12.0),
    source: "a judgement from three reported cases; no source",
};

/// What finishing does to cloth of one fibre: the cases of [`wash_priors`] together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FibrePrior {
    /// Loss of length in the wash, per cent of the length off the loom.
    pub length: PriorLoss,
    /// Loss of width from the reed to finished, per cent of the width in the reed; `None` where no case reports one.
    pub width_in_all: Option<PriorLoss>,
}

/// A loss in per cent, from cases of others.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PriorLoss {
    /// The median of the cases; of a case that is a range its middle.
    pub usual: f64,
    /// The least that was reported.
    pub least: f64,
    /// The most.
    pub most: f64,
    /// How many cases there are.
    pub cases: usize,
}

impl PriorLoss {
    /// The standard deviation to expect, as a share of the length: what was reported holds four times in five, and single cases differ
    /// by two points of per cent at least (a judgement, no source).
    pub fn deviation_share(&self) -> f64 {
        ((self.most - self.least) / 100.0 / 2.563).max(0.02)
    }

    fn of(cases: &[(f64, f64)]) -> Option<Self> {
        let mut middles: Vec<f64> = cases.iter().map(|(low, high)| f64::midpoint(*low, *high)).collect();
        middles.sort_by(f64::total_cmp);
        let n = middles.len();
        let usual = f64::midpoint(*middles.get(n.checked_sub(1)? / 2)?, *middles.get(n / 2)?);
        let least = cases.iter().map(|case| case.0).fold(f64::INFINITY, f64::min);
        let most = cases.iter().map(|case| case.1).fold(f64::NEG_INFINITY, f64::max);
        Some(Self { usual, least, most, cases: n })
    }
}

/// What a finishing does to cloth of a fibre; nothing where no case was reported.
pub fn fibre_prior(fibre: Fibre, finishing: Finishing) -> Option<FibrePrior> {
    let cases = || wash_priors().iter().filter(|one| one.fibre == Some(fibre) && one.finishing == finishing);
    let lengths: Vec<(f64, f64)> = cases().map(|one| one.length_percent).collect();
    let widths: Vec<(f64, f64)> = cases().filter_map(|one| one.width_percent).collect();
    Some(FibrePrior { length: PriorLoss::of(&lengths)?, width_in_all: PriorLoss::of(&widths) })
}

/// Loom waste of one way of warping.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WastePrior {
    /// The loom and the way of warping, in words.
    pub loom: &'static str,
    /// Lowest and highest, inches.
    pub inches: (f64, f64),
    /// Where it is from.
    pub source: &'static str,
}

impl WastePrior {
    /// Lowest and highest, millimetres.
    pub fn range_mm(&self) -> (f64, f64) {
        (self.inches.0 * 25.4, self.inches.1 * 25.4)
    }

    /// The middle of the range, millimetres.
    pub fn middle_mm(&self) -> f64 {
        f64::midpoint(self.range_mm().0, self.range_mm().1)
    }

    /// As an estimate: the range holds four times in five.
    /// # Errors
    /// Never with the ranges here.
    pub fn estimate(&self) -> Result<Estimate<WarpLength>, Refused> {
        Ok(Estimate::from_range(WarpLength::from_inches(self.inches.0)?, WarpLength::from_inches(self.inches.1)?))
    }
}

/// Loom waste of a rigid heddle warped directly: what is taken where nothing is known.
pub const RIGID_HEDDLE_DIRECT_WASTE: WastePrior =
    WastePrior { loom: "rigid heddle, direct warping", inches: (18.0, 22.0), source: PRACTICE };

/// Loom waste by loom.
pub fn waste_priors() -> &'static [WastePrior] {
    &[
        RIGID_HEDDLE_DIRECT_WASTE,
        WastePrior { loom: "rigid heddle, indirect warping", inches: (22.0, 26.0), source: PRACTICE },
        WastePrior { loom: "small rigid heddle", inches: (13.0, 17.0), source: "two audits: 4 + 9 and 6 + 11 in" },
        WastePrior { loom: "table loom", inches: (18.0, 20.0), source: PRACTICE },
        WastePrior { loom: "floor loom", inches: (27.0, 60.0), source: PRACTICE },
    ]
}

/// Cloth woven in an hour at a rigid heddle loom, inches under tension: of ten weavers nine lie between `slow` and
/// `fast`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpeedPrior {
    /// Slowest, inches an hour.
    pub slow: f64,
    /// Usual, inches an hour.
    pub usual: f64,
    /// Fastest, inches an hour.
    pub fast: f64,
}

/// Plain weave (what hobby weavers report; common practice, no source).
pub const PLAIN_WEAVE_SPEED: SpeedPrior = SpeedPrior { slow: 5.0, usual: 12.0, fast: 25.0 };
/// Rows with a stick that stays behind the heddle: bringing it forward and back costs little, taken as a quarter more time a row
/// (a judgement; common practice, no source).
pub const STICK_SPEED: SpeedPrior = SpeedPrior { slow: 4.0, usual: 9.6, fast: 20.0 };
/// Rows that are picked up anew by hand (what hobby weavers report; common practice, no source).
pub const PICKED_BY_HAND_SPEED: SpeedPrior = SpeedPrior { slow: 1.0, usual: 4.0, fast: 10.0 };

/// Which share of the rows is woven how; together they are 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RowShares {
    /// Rows without a stick.
    pub plain: f64,
    /// Rows with a stick that stays behind the heddle.
    pub stick: f64,
    /// Rows picked up anew by hand.
    pub by_hand: f64,
}

impl RowShares {
    /// Plain weave.
    pub const PLAIN: Self = Self { plain: 1.0, stick: 0.0, by_hand: 0.0 };

    /// The speed over all rows: each takes its own time, so hours add and speeds do not.
    #[must_use]
    pub fn speed(&self) -> SpeedPrior {
        let at = |of: fn(&SpeedPrior) -> f64| {
            let hours = self.plain / of(&PLAIN_WEAVE_SPEED)
                + self.stick / of(&STICK_SPEED)
                + self.by_hand / of(&PICKED_BY_HAND_SPEED);
            1.0 / hours
        };
        SpeedPrior { slow: at(|speed| speed.slow), usual: at(|speed| speed.usual), fast: at(|speed| speed.fast) }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn a_stick_row_in_four_costs_little() {
        // 3/4 of an inch at 12 an hour and 1/4 at 9.6: 0.08854 h.
        let speed = RowShares { plain: 0.75, stick: 0.25, by_hand: 0.0 }.speed();
        assert!((speed.usual - 11.294).abs() < 0.001, "{speed:?}");
        let by_hand = RowShares { plain: 0.0, stick: 0.0, by_hand: 1.0 }.speed();
        assert_eq!(by_hand, PICKED_BY_HAND_SPEED);
    }

    #[test]
    fn a_fibre_s_cases_are_taken_together() {
        // Cotton: 8, 18 and 10 % of length; 17 to 21 and 3 % of width.
        let cotton = fibre_prior(Fibre::Cotton, Finishing::Washed).unwrap();
        assert_eq!(cotton.length, PriorLoss { usual: 10.0, least: 8.0, most: 18.0, cases: 3 });
        assert_eq!(cotton.width_in_all, Some(PriorLoss { usual: 11.0, least: 3.0, most: 21.0, cases: 2 }));
        assert_eq!(fibre_prior(Fibre::Wool, Finishing::Washed).unwrap().length.usual, 15.0);
        assert_eq!(fibre_prior(Fibre::Silk, Finishing::Washed), None);
    }

    #[test]
    fn priors_are_ranges_that_can_be_meant() {
        for prior in waste_priors() {
            assert!(prior.inches.0 <= prior.inches.1);
            prior.estimate().unwrap();
        }
        for prior in wash_priors() {
            assert!(prior.length_percent.0 <= prior.length_percent.1 && prior.length_percent.1 < 40.0);
        }
    }
}

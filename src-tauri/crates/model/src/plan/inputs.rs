//! What is typed into the plan's form, as typed values.

use chrono::NaiveDate;
use fellmark_cloth::change::{Allowance, DrawIn, ExtentChange, Release, WarpUse, WashLength};
use fellmark_cloth::fibre::Fibre;
use fellmark_cloth::learned::{Finishing, WarpMeasurements};
use fellmark_cloth::quantity::{Length, ThreadDensity, YarnNumber};
use fellmark_cloth::sett::{AshenhurstK, Weave};
use fellmark_cloth::span::Estimate;
use fellmark_cloth::state::{
    Across, EndsIn, Finished, FinishedLength, FinishedWidth, InReed, OffLoom, PicksIn, ReedWidth, UnderTension,
    WarpLength,
};

use crate::{Rows, UserError};

/// A take-up with the cloth it was measured on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum MeasuredTakeUp {
    /// Against cloth off the loom.
    Relaxed(WarpUse<OffLoom>),
    /// Against cloth under tension.
    UnderTension(WarpUse<UnderTension>),
}

impl MeasuredTakeUp {
    /// Warp that 100 of that cloth uses, in the same unit.
    #[must_use]
    pub fn warp_per_100(self) -> f64 {
        let crimp = match self {
            Self::Relaxed(warp_use) => warp_use.crimp(),
            Self::UnderTension(warp_use) => warp_use.crimp(),
        };
        100.0 + crimp.percent()
    }
}

/// What ends each piece.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum EdgeKind {
    /// Nothing beyond the cloth.
    #[default]
    Plain,
    /// Unwoven ends.
    Fringe,
    /// Cloth that is turned under.
    Hem,
}

/// How the cloth is woven.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum WeaveChoice {
    /// Plain weave.
    #[default]
    Plain,
    /// 2/2 twill.
    Twill,
    /// Pick-up; between its floats the cloth is plain weave.
    PickUp,
    /// Another word, from a copied warp: counts as plain weave, and no earlier warp is like it.
    Other,
}

impl WeaveChoice {
    pub(super) fn from_word(word: &str) -> Self {
        match word {
            "" | "plain" => Self::Plain,
            "twill" => Self::Twill,
            "pick_up" => Self::PickUp,
            _ => Self::Other,
        }
    }

    /// Its interlacing.
    #[must_use]
    pub fn weave(self) -> Weave {
        if self == Self::Twill { Weave::TWILL_2_2 } else { Weave::PLAIN }
    }
}

/// Ashenhurst's constant for the diameter of the yarn.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum AshenhurstChoice {
    /// The usual one.
    #[default]
    Usual,
    /// For soft yarns.
    Soft,
    /// Taylor's for cotton.
    Cotton,
}

impl AshenhurstChoice {
    pub(super) fn from_word(word: &str) -> Self {
        match word {
            "soft" => Self::Soft,
            "cotton" => Self::Cotton,
            _ => Self::Usual,
        }
    }

    /// The constant *k*.
    #[must_use]
    pub fn k(self) -> AshenhurstK {
        match self {
            Self::Usual => AshenhurstK::USUAL,
            Self::Soft => AshenhurstK::SOFT,
            Self::Cotton => AshenhurstK::TAYLOR,
        }
    }
}

/// How the length of a yarn is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum YarnCertainty {
    /// Measured.
    Measured,
    /// As the label has it.
    ByLabel,
    /// Weighed, with the label's length for a weight.
    ByWeightAndLabel,
    /// Given approximately.
    Approximate,
}

/// A yarn that is at hand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct YarnSupply {
    /// How much there is.
    pub length: Estimate<Length>,
    /// How that is known.
    pub certainty: YarnCertainty,
}

/// The plan's form, read. `None` is a field that is empty or cannot be read.
#[derive(Clone, Debug)]
pub struct PlanInputs {
    /// Whether the plan starts from the yarn at hand; else from the piece.
    pub from_yarn: bool,
    /// Finished length of each piece.
    pub length: Option<FinishedLength>,
    /// Finished width.
    pub width: Option<FinishedWidth>,
    /// Pieces of that length, from 1 to 200.
    pub pieces: u32,
    /// Finished lengths of further pieces on the same warp.
    pub further: Vec<FinishedLength>,
    /// What ends each piece.
    pub edge: EdgeKind,
    /// Length of the fringe, or of the finished cloth turned under, at each end of each piece, millimetres.
    pub edge_mm: Option<f64>,
    /// Whether the fringes at the two ends of the warp come out of the loom waste.
    pub fringe_from_waste: bool,
    /// Ends in the reed.
    pub sett: Option<EndsIn<InReed>>,
    /// Wraps of the warp yarn side by side.
    pub wraps: Option<ThreadDensity>,
    /// How the cloth is woven.
    pub weave: WeaveChoice,
    /// Constant for the largest sett.
    pub ashenhurst: AshenhurstChoice,
    /// Number of the warp yarn.
    pub warp_yarn_number: Option<YarnNumber>,
    /// Number of the weft yarn.
    pub weft_yarn_number: Option<YarnNumber>,
    /// Name of the weft yarn, trimmed; may be empty.
    pub weft_name: String,
    /// Picks on the loom.
    pub picks: Option<PicksIn<UnderTension>>,
    /// Width in the reed, in place of the finished width.
    pub reed_width: Option<ReedWidth>,
    /// The pick sequence.
    pub rows: Rows,
    /// What the yarn is made of.
    pub fibre: Option<Fibre>,
    /// How it is finished.
    pub finish: Finishing,
    /// Take-up of the warp.
    pub take_up: Option<MeasuredTakeUp>,
    /// Loss of length when the tension goes.
    pub release: Option<Release>,
    /// Loss of length in the wash.
    pub wash: Option<WashLength>,
    /// Draw-in on the loom.
    pub draw_in: Option<DrawIn<UnderTension>>,
    /// Loss of width from the fell to finished.
    pub width_wash: Option<ExtentChange<Across, UnderTension, Finished>>,
    /// What a pick is longer than the reed is wide.
    pub pick_allowance: Option<Allowance>,
    /// Loom waste, front and back together.
    pub waste: Option<WarpLength>,
    /// Warp for the header.
    pub header: WarpLength,
    /// Warp for a sample woven first.
    pub sample: WarpLength,
    /// Warp between two pieces, besides their fringes.
    pub gap: WarpLength,
    /// Measures of a sample that was woven before.
    pub woven_sample: WarpMeasurements,
    /// Whether one yarn serves for warp and weft.
    pub one_yarn: bool,
    /// Warp yarn at hand; both yarns where one serves for both.
    pub warp_supply: Option<YarnSupply>,
    /// Weft yarn at hand.
    pub weft_supply: Option<YarnSupply>,
    /// Widest that the loom takes.
    pub loom_width: Option<ReedWidth>,
    /// Day of the gift.
    pub gift_on: Option<NaiveDate>,
    /// About how many days a week are woven on.
    pub days_a_week: Option<f64>,
    /// About how many minutes the weaver weaves on such a day.
    pub minutes_a_day: Option<f64>,
    /// Fields that cannot be read.
    pub errors: Vec<UserError>,
}

impl PlanInputs {
    /// Number of the weft yarn: the warp's where none is given, or one yarn serves for both.
    #[must_use]
    pub fn weft_number_or_warp(&self) -> Option<YarnNumber> {
        if self.one_yarn { self.warp_yarn_number } else { self.weft_yarn_number.or(self.warp_yarn_number) }
    }

    /// Length of the fringe at each end of each piece, millimetres; none where the pieces have no fringe.
    #[must_use]
    pub fn fringe_mm(&self) -> Option<f64> {
        self.edge_mm.filter(|_| self.edge == EdgeKind::Fringe)
    }
}

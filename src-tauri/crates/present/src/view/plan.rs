//! The plan: what is typed, what comes of it, and what can be taken over from earlier warps.

use serde::Serialize;
#[cfg(test)]
use ts_rs::TS;

pub use fellmark_model::forms::PlanForm;

use super::answer::Answer;
use super::forms::{ErrorView, WarpForm};
use super::pictures::WarpPicture;

/// What comes of a plan as far as it is typed.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct PlanView {
    /// The sentence that is read first.
    pub headline: String,
    /// What is still missing for it, as sentences.
    pub missing: Vec<String>,
    /// Fields that cannot be read; they count as empty.
    pub errors: Vec<ErrorView>,
    /// What measures were understood as, by field.
    pub understood: Vec<PlanFill>,
    /// The figures, each with its calculation.
    pub figures: Vec<PlanFigure>,
    /// The common rule of thumb beside the calculation, and what it leaves out.
    pub rule_of_thumb: Option<Answer>,
    /// What the weaver should think about before winding.
    pub warnings: Vec<String>,
    /// Values to take over, by field.
    pub offers: Vec<PlanOffer>,
    /// Hours, and the day it can be done if begun today.
    pub finish_date: Option<Answer>,
    /// The warp to scale.
    pub picture: Option<WarpPicture>,
    /// From the yarn: width against length.
    pub curve: Option<PlanCurve>,
    /// The plan as figures, for programs.
    pub plain: PlanFigures,
    /// The warp it becomes; nothing while too little is known.
    pub begin: Option<WarpForm>,
}

/// One figure of a plan.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct PlanFigure {
    /// Names it: `warp`, `ends`, `reed_width`, `warp_yarn`, `weft_yarn`, `picks`, `repeats`, `to_weave`, `limit`, `left_over`.
    pub id: String,
    /// What it is, in words.
    pub label: String,
    /// The figure as the weaver would write it.
    pub value: String,
    /// The calculation, line by line.
    pub why: Vec<String>,
}

/// Values that can be taken over into the form.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct PlanOffer {
    /// Member of the form it stands beside.
    pub field: String,
    /// What it is and what stands behind it.
    pub line: String,
    /// What the button says.
    pub button: String,
    /// What it writes.
    pub fills: Vec<PlanFill>,
    /// How many warps stand behind it; none for a sample or for common practice.
    #[cfg_attr(test, ts(type = "number"))]
    pub warps: usize,
    /// Whether the calculation uses it for now because the field is empty.
    pub in_use: bool,
}

/// A text that belongs to one field: what an offer writes into it, or what it was understood as.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct PlanFill {
    /// Member of the form.
    pub field: String,
    /// The text.
    pub text: String,
}

/// Width against length: the sizes that the yarn makes.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct PlanCurve {
    /// From narrow to wide.
    pub points: Vec<PlanPoint>,
    /// The chosen one.
    #[cfg_attr(test, ts(type = "number"))]
    pub chosen: usize,
    /// Longest length drawn.
    pub longest_mm: f64,
    /// Round widths below the picture.
    pub width_ticks: Vec<PlanTick>,
    /// Round lengths beside the picture.
    pub length_ticks: Vec<PlanTick>,
    /// The whole picture in a sentence.
    pub text: String,
}

/// One size that the yarn makes.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct PlanPoint {
    /// Finished width.
    pub width_mm: f64,
    /// Finished length of each piece: low, likely, high (80 %).
    pub length_mm: [f64; 3],
    /// "24 cm wide: 168 cm long, four times in five between 150 and 185 cm; the warp yarn ends first".
    pub words: String,
    /// The width as it is written into the form.
    pub width: String,
}

/// A round figure at an edge of the picture.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct PlanTick {
    /// Where.
    pub at_mm: f64,
    /// What is written.
    pub label: String,
}

/// The plan as plain figures; nothing where unknown.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct PlanFigures {
    /// Warp to wind, rounded up.
    pub warp_mm: Option<f64>,
    /// The same before rounding.
    pub warp_exact_mm: Option<f64>,
    /// What the rule of thumb has.
    pub rule_of_thumb_mm: Option<f64>,
    /// Ends.
    pub ends: Option<u32>,
    /// Width in the reed.
    pub reed_width_mm: Option<f64>,
    /// Finished width.
    pub finished_width_mm: Option<f64>,
    /// Finished length of each piece, in order.
    pub finished_mm: Vec<f64>,
    /// Cloth to weave in all, under tension.
    pub woven_mm: Option<f64>,
    /// Warp yarn, metres.
    pub warp_yarn_m: Option<f64>,
    /// Warp yarn by weight.
    pub warp_yarn_g: Option<f64>,
    /// Weft yarn, metres.
    pub weft_yarn_m: Option<f64>,
    /// Weft yarn by weight.
    pub weft_yarn_g: Option<f64>,
    /// Picks in all.
    pub picks: Option<f64>,
    /// Hours of weaving: low, likely, high (four times in five; by common practice nine in ten).
    pub hours: Option<[f64; 3]>,
    /// Day finished, likely.
    pub finished_likely: Option<String>,
    /// Day finished: earliest and latest of four times in five.
    pub finished_span: Option<[String; 2]>,
    /// Chance of the gift day.
    pub gift_chance: Option<f64>,
    /// Where nothing is known of the weaver, what makes the gift day four times in five: days a week and minutes on each.
    pub gift_ways: Vec<[f64; 2]>,
}

/// A plan that was not begun.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct PlanKept {
    /// Its record id; empty for what was typed on this device and is not kept as it stands.
    pub record: String,
    /// Of what was typed: the kept plan it came from; empty for none.
    pub from: String,
    /// Its name, or its size.
    pub name: String,
    /// "25 cm × 180 cm", "from 300 m of warp yarn".
    pub line: String,
    /// The plan as it was typed.
    pub form: PlanForm,
}

/// An earlier warp that a plan can be copied from.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct EarlierPlan {
    /// Its record id.
    pub warp: String,
    /// Its name.
    pub name: String,
    /// The plan as it would be copied.
    pub form: PlanForm,
}

#[cfg(test)]
pub(super) fn declarations() -> Vec<String> {
    super::declare!(
        PlanForm,
        PlanKept,
        PlanView,
        PlanFigure,
        PlanOffer,
        PlanFill,
        PlanCurve,
        PlanPoint,
        PlanTick,
        PlanFigures,
        EarlierPlan
    )
}

//! The warp that a plan becomes: what is written beside it into the journal.

use fellmark_cloth::fibre::Fibre;
use fellmark_cloth::learned::Finishing;
use serde_json::json;

use super::inputs::{EdgeKind, MeasuredTakeUp, PlanInputs, WeaveChoice};
use crate::fields::{plan, warp};
use crate::forms::WarpForm;
use crate::forms::{FieldMap, filled};

/// Finished lengths of two pieces that differ by less are the same, millimetres.
const SAME_LENGTH_MM: f64 = 0.01;

/// The warp that a plan becomes.
#[derive(Clone, Debug)]
pub struct PlannedWarp {
    /// The form that the warp is begun with; its figures are rounded for reading.
    pub form: WarpForm,
    /// The same figures as they were calculated.
    pub figures: PlannedFigures,
    /// What was typed into the plan.
    pub inputs: PlanInputs,
}

/// What was calculated for the warp that a plan becomes. The warp takes these in place of the rounded figures of its form,
/// which would give a pick more or less than the plan said.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PlannedFigures {
    /// Warp to wind.
    pub wound_mm: f64,
    /// What becomes neither cloth nor fringe nor gap: loom waste, header and sample.
    pub waste_mm: f64,
    /// Finished length of each piece with its hems, which are woven as cloth of their piece.
    pub finished_with_hems_mm: Vec<f64>,
    /// Finished length of each piece without its hems.
    pub finished_mm: Vec<f64>,
    /// Finished width.
    pub finished_width_mm: Option<f64>,
    /// Loss of length from the loom to finished, per cent of the length on the loom.
    pub shrinkage_percent: f64,
    /// Fringe at each end of each piece.
    pub fringe_mm: Option<f64>,
    /// Warp between two pieces, besides their fringes.
    pub gap_mm: Option<f64>,
    /// Picks on the loom.
    pub picks_per_10cm: Option<f64>,
    /// Ends in the reed.
    pub sett_per_10cm: Option<f64>,
    /// Ends across.
    pub ends: Option<u32>,
    /// Warp that 100 of cloth under tension uses.
    pub warp_per_100: f64,
    /// Width in the reed.
    pub reed_width_mm: Option<f64>,
    /// What a pick is longer than the reed is wide, per cent.
    pub weft_allowance_percent: f64,
    /// Hours of weaving, likely.
    pub hours: Option<f64>,
}

impl PlannedFigures {
    /// Whether all pieces have the same finished length, hems included.
    #[must_use]
    pub fn pieces_are_alike(&self) -> bool {
        self.finished_with_hems_mm.windows(2).all(|pair| (pair[0] - pair[1]).abs() < SAME_LENGTH_MM)
    }

    /// The fields of the warp's record that its form shows rounded.
    pub fn warp_fields(&self) -> FieldMap {
        // Finer than any tape, without the digits that a division leaves at the end.
        let figure = |value: f64| json!((value * 1e9).round() / 1e9);
        let lengths = &self.finished_with_hems_mm;
        let mean = lengths.iter().sum::<f64>() / lengths.len().max(1) as f64;
        let each = (!self.pieces_are_alike()).then(|| lengths.iter().copied().map(figure).collect::<Vec<_>>());
        let set = [
            (warp::WOUND_MM, Some(figure(self.wound_mm))),
            (warp::WASTE_MM, Some(figure(self.waste_mm))),
            (warp::WANTED_MM, Some(figure(mean))),
            (warp::WANTED_EACH_MM, each.map(|each| json!(each))),
            (warp::SHRINKAGE_PERCENT, Some(figure(self.shrinkage_percent))),
            (warp::FRINGE_MM, self.fringe_mm.map(figure)),
            (warp::GAP_MM, self.gap_mm.map(figure)),
            (warp::PICKS_PER_10CM, self.picks_per_10cm.map(figure)),
            (warp::SETT_ENDS_PER_10CM, self.sett_per_10cm.map(figure)),
            (warp::WARP_PER_100_CLOTH, Some(figure(self.warp_per_100))),
            (warp::REED_WIDTH_MM, self.reed_width_mm.map(figure)),
            (warp::WEFT_ALLOWANCE_PERCENT, Some(figure(self.weft_allowance_percent))),
        ];
        set.into_iter().filter_map(|(field, value)| Some((field.to_owned(), value?))).collect()
    }

    /// The fields of the plan that is kept beside its warp: what the warp's own fields do not hold.
    pub fn plan_fields(&self, inputs: &PlanInputs) -> FieldMap {
        let edge = match inputs.edge {
            EdgeKind::Plain => None,
            EdgeKind::Fringe => Some("fringe"),
            EdgeKind::Hem => Some("hem"),
        };
        let relaxed = inputs.take_up.filter(|take_up| matches!(take_up, MeasuredTakeUp::Relaxed(_)));
        let above_zero = |mm: f64| (mm > 0.0).then_some(mm);
        let set = [
            (plan::FINISHED_LENGTHS_MM, json!(self.finished_mm)),
            (plan::FINISHED_WIDTH_MM, json!(self.finished_width_mm)),
            (plan::ENDS, json!(self.ends)),
            (plan::SETT_ENDS_PER_10CM, json!(inputs.sett.map(|sett| sett.density().per_10cm()))),
            (plan::EDGE, json!(edge)),
            (plan::EDGE_MM, json!(inputs.edge_mm.filter(|_| edge.is_some()))),
            (plan::WEAVE, json!((inputs.weave == WeaveChoice::Twill).then_some("twill"))),
            (plan::WARP_PER_100_OFF_LOOM, json!(relaxed.map(MeasuredTakeUp::warp_per_100))),
            (plan::RELEASE_PERCENT, json!(inputs.release.map(|change| change.shrinkage_percent()))),
            (plan::FIBRE, json!(inputs.fibre.map(Fibre::word))),
            (plan::FINISH, json!((inputs.finish == Finishing::Fulled).then(|| inputs.finish.word()))),
            (plan::WASH_PERCENT, json!(inputs.wash.map(|change| change.shrinkage_percent()))),
            (plan::DRAW_IN_PERCENT, json!(inputs.draw_in.map(|change| change.shrinkage_percent()))),
            (plan::WIDTH_LOSS_PERCENT, json!(inputs.width_wash.map(|change| change.shrinkage_percent()))),
            (plan::WASTE_MM, json!(inputs.waste.map(|waste| waste.mm()))),
            (plan::HEADER_MM, json!(above_zero(inputs.header.mm()))),
            (plan::SAMPLE_MM, json!(above_zero(inputs.sample.mm()))),
            (plan::GAP_MM, json!(above_zero(inputs.gap.mm()))),
            (plan::WARP_TEX, json!(inputs.warp_yarn_number.map(|number| number.tex()))),
            (plan::WEFT_TEX, json!(inputs.weft_yarn_number.map(|number| number.tex()))),
            (plan::HOURS, json!(self.hours)),
        ];
        let set: FieldMap = set.into_iter().map(|(field, value)| (field.to_owned(), value)).collect();
        filled(&set)
    }
}

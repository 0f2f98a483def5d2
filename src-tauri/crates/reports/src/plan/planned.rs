//! The figures of the warp that a plan becomes.

use super::{MOST_LISTED_PIECES, PlanReport, WarpLengths};
use fellmark_model::plan::{PlanInputs, PlannedFigures};

/// The figures; `None` while too little is known to wind a warp.
pub(super) fn planned_figures(report: &PlanReport, inputs: &PlanInputs) -> Option<PlannedFigures> {
    let (assumptions, sett) = (report.assumptions.as_ref()?, report.sett.as_ref()?);
    let lengths = report.lengths.as_ref()?;
    let several = lengths.wish.pieces.len() > 1;
    Some(PlannedFigures {
        wound_mm: lengths.wound.mm(),
        waste_mm: assumptions.waste.value.mm() + inputs.header.mm() + inputs.sample.mm(),
        finished_with_hems_mm: finished_with_hems_mm(lengths),
        finished_mm: lengths.finished_each().iter().take(MOST_LISTED_PIECES).map(|piece| piece.mm()).collect(),
        finished_width_mm: report.widths.map(|widths| widths.finished.mm()),
        shrinkage_percent: assumptions.changes.woven_to_finished().shrinkage_percent(),
        fringe_mm: inputs.fringe_mm(),
        gap_mm: Some(inputs.gap.mm()).filter(|mm| *mm > 0.0 && several),
        picks_per_10cm: sett.picks.map(|picks| picks.density().per_10cm()),
        sett_per_10cm: sett.ends.map(|(ends, _)| ends.density().per_10cm()),
        ends: report.widths.map(|widths| widths.ends),
        warp_per_100: 100.0 + assumptions.changes.weaving.crimp().percent(),
        reed_width_mm: report.widths.map(|widths| widths.reed.mm()),
        weft_allowance_percent: assumptions.pick_allowance.used.value.percent(),
        hours: report.time.as_ref().map(|time| time.hours.likely),
    })
}

/// Finished length of each piece, its hems included: the log weaves hems as cloth of their piece.
fn finished_with_hems_mm(lengths: &WarpLengths) -> Vec<f64> {
    let of_piece = |piece| lengths.segments.iter().filter(move |segment| segment.piece == Some(piece));
    let pieces = lengths.wish.pieces.len().max(1);
    (0..pieces).map(|piece| of_piece(piece).map(|segment| segment.finished.mm()).sum()).collect()
}

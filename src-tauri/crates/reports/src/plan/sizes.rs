//! From the yarn: the sizes it makes, width against length, and the one that is chosen.

use fellmark_cloth::quantity::Length;
use fellmark_cloth::reed;
use fellmark_cloth::sizes_from_yarn::{Size, SizePlan, Yarn};
use fellmark_cloth::span::Coverage;
use fellmark_cloth::state::{EndsIn, FinishedLength, FinishedWidth, InReed, ReedWidth};
use fellmark_cloth::weft::{HEMSTITCH_WIDTHS, hemstitch_reserve};

use super::PlanError;
use super::assumptions::Assumptions;
use super::lengths::warp_wish;
use super::sett_and_widths::Sett;
use fellmark_model::display_format::Units;
use fellmark_model::plan::{EdgeKind, PlanInputs};

/// Widths tried: from this one on, in steps that a tape shows.
const NARROWEST_MM: f64 = 50.0;
const STEP_METRIC_MM: f64 = 5.0;
const STEP_IMPERIAL_MM: f64 = 6.35;
/// Most widths tried.
const MOST_SIZES: usize = 240;
/// The loom's width where none is given: a common rigid heddle (common practice, no source).
const USUAL_LOOM_WIDTH_MM: f64 = 600.0;
/// Longer pieces than this are left out: they are bands, and they would flatten the rest of the picture.
const LONGEST_MM: f64 = 6000.0;
/// Below this a piece is no cloth.
const SHORTEST_MM: f64 = 10.0;
/// Until a width is chosen: a scarf's shape, some seven widths long (common practice, no source).
const SCARF_LENGTHS_PER_WIDTH: f64 = 7.0;

/// What the yarn makes.
#[derive(Clone, Debug)]
pub struct SizesFromYarn {
    /// From narrow to wide; at least one.
    pub sizes: Vec<Size>,
    /// Which of them is chosen.
    pub chosen: usize,
    /// The chosen one.
    pub size: Size,
    /// Its finished length without hems, likely.
    pub finished: FinishedLength,
    /// The loom's width, where it was assumed.
    pub assumed_loom_width: Option<ReedWidth>,
}

/// The sizes; `None` while a yarn or the sett is missing.
///
/// # Errors
/// Figures that cannot be together, or too little yarn for any cloth.
pub(super) fn sizes_from_yarn(
    inputs: &PlanInputs,
    assumptions: &Assumptions,
    sett: &Sett,
    reed_width_wanted: Option<ReedWidth>,
    units: Units,
) -> Result<Option<SizesFromYarn>, PlanError> {
    let (Some((ends_in, _)), Some(picks), Some(warp)) = (sett.ends, sett.picks, inputs.warp_supply) else {
        return Ok(None);
    };
    let yarn = match (inputs.one_yarn, inputs.weft_supply) {
        (true, _) => Yarn::Shared(warp.length),
        (false, Some(weft)) => Yarn::Separate { warp: warp.length, weft: weft.length },
        (false, None) => return Ok(None),
    };
    let loom = match inputs.loom_width {
        Some(loom) => loom,
        None => ReedWidth::from_mm(USUAL_LOOM_WIDTH_MM)?,
    };
    // Hems are cloth: they come out of the length.
    let edge = if inputs.edge == EdgeKind::Hem { EdgeKind::Plain } else { inputs.edge };
    let no_cloth = vec![FinishedLength::ZERO; inputs.pieces.try_into().unwrap_or(1)];
    let plan = SizePlan {
        sett: ends_in,
        extra_ends: 0,
        picks,
        changes: assumptions.changes,
        draw_in: assumptions.width.value,
        pick_allowance: assumptions.pick_allowance.used.value,
        not_cloth: warp_wish(inputs, edge, assumptions, &no_cloth)?.warp_needed()?,
        weft_reserve: Length::ZERO,
        pieces: inputs.pieces,
    };
    let size_at = |width: FinishedWidth| -> Result<Size, PlanError> {
        let weft_reserve = match inputs.edge {
            EdgeKind::Fringe => {
                hemstitch_reserve(plan.draw_in.before(width)?, HEMSTITCH_WIDTHS, inputs.pieces.saturating_mul(2))?
            }
            EdgeKind::Plain | EdgeKind::Hem => Length::ZERO,
        };
        Ok(SizePlan { weft_reserve, ..plan }.size_at(&yarn, width, Coverage::FOUR_IN_FIVE)?)
    };
    let sizes = widths_to_try(ends_in, assumptions, loom, units)?
        .into_iter()
        .map(|mm| size_at(FinishedWidth::from_mm(mm)?))
        .collect::<Result<Vec<Size>, _>>()?;
    let sizes = without_bands(sizes);
    if sizes.iter().all(|size| size.length.likely.mm() < SHORTEST_MM) {
        return Err(PlanError::YarnTooShort);
    }
    let chosen = match (reed_width_wanted, inputs.length) {
        (Some(reed), _) => nearest_width(&sizes, assumptions.width.value.after(reed)?),
        (None, Some(length)) => {
            let widest = plan.widest_for(&yarn, length, loom, Coverage::FOUR_IN_FIVE)?;
            widest_up_to(&sizes, widest.map_or(0.0, |size| size.width.mm()))
        }
        (None, None) => {
            nearest(&sizes, |size| (size.length.likely.mm() - SCARF_LENGTHS_PER_WIDTH * size.width.mm()).abs())
        }
    };
    let Some(size) = sizes.get(chosen).copied() else { return Ok(None) };
    let hems = match (inputs.edge, inputs.edge_mm) {
        (EdgeKind::Hem, Some(mm)) => FinishedLength::from_mm(2.0 * mm)?,
        _ => FinishedLength::ZERO,
    };
    let finished = size.length.likely.less(hems);
    let assumed_loom_width = inputs.loom_width.is_none().then_some(loom);
    Ok(Some(SizesFromYarn { sizes, chosen, size, finished, assumed_loom_width }))
}

/// Finished widths from narrow to the widest that the loom takes, millimetres.
fn widths_to_try(
    sett: EndsIn<InReed>,
    assumptions: &Assumptions,
    loom: ReedWidth,
    units: Units,
) -> Result<Vec<f64>, PlanError> {
    let step = match units {
        Units::Metric => STEP_METRIC_MM,
        Units::Imperial => STEP_IMPERIAL_MM,
    };
    let widest = assumptions.width.value.after(loom)?.mm();
    // Below two ends there is no cloth.
    let two_ends = assumptions.width.value.after(reed::width_of(2, sett)?)?.mm();
    let first = (two_ends.max(NARROWEST_MM.min(widest)) / step).ceil();
    let mut widths = Vec::new();
    let mut steps = first;
    while steps * step <= widest + 1e-6 && widths.len() < MOST_SIZES {
        widths.push(steps * step);
        steps += 1.0;
    }
    if widths.is_empty() {
        widths.push(widest);
    }
    Ok(widths)
}

/// The sizes that are no bands; all of them where the yarn is more than the loom takes at its widest.
fn without_bands(all: Vec<Size>) -> Vec<Size> {
    let pieces: Vec<Size> = all.iter().filter(|size| size.length.likely.mm() <= LONGEST_MM).copied().collect();
    if pieces.len() >= 2 { pieces } else { all }
}

/// The first size with the least distance.
fn nearest(sizes: &[Size], distance: impl Fn(&Size) -> f64) -> usize {
    let distances = sizes.iter().map(distance).enumerate();
    distances.min_by(|(_, a), (_, b)| a.total_cmp(b)).map_or(0, |(index, _)| index)
}

fn nearest_width(sizes: &[Size], width: FinishedWidth) -> usize {
    nearest(sizes, |size| (size.width.mm() - width.mm()).abs())
}

/// The widest size that is not wider: one that still makes the length.
fn widest_up_to(sizes: &[Size], width_mm: f64) -> usize {
    sizes.iter().rposition(|size| size.width.mm() <= width_mm + 0.1).unwrap_or(0)
}

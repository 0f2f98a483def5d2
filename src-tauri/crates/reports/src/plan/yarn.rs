//! Picks and yarn of a plan.

use fellmark_cloth::Refused;
use fellmark_cloth::quantity::{Length, Mass, YarnNumber};
use fellmark_cloth::state::{PicksIn, UnderTension, WarpLength};
use fellmark_cloth::warp::warp_yarn;
use fellmark_cloth::weft::{HEMSTITCH_WIDTHS, hemstitch_reserve, picks, weft_mass_by_scale, weft_yarn, whole_picks};

use super::assumptions::Assumptions;
use super::lengths::WarpLengths;
use super::sett_and_widths::Widths;
use fellmark_model::plan::{EdgeKind, PlanInputs};

/// How much of a yarn is needed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct YarnNeed {
    /// Its length.
    pub length: Length,
    /// Its mass; `None` where neither the yarn's number nor a weighing is known.
    pub mass: Option<Mass>,
}

impl YarnNeed {
    fn by_number(length: Length, number: Option<YarnNumber>) -> Result<Self, Refused> {
        Ok(Self { length, mass: number.map(|number| number.mass_of(length)).transpose()? })
    }
}

/// Warp yarn: ends times the warp to wind.
///
/// # Errors
/// A figure that leaves the limits.
pub(super) fn warp_need(ends: u32, wound: WarpLength, inputs: &PlanInputs) -> Result<YarnNeed, Refused> {
    YarnNeed::by_number(warp_yarn(ends, wound)?, inputs.warp_yarn_number)
}

/// Picks and weft yarn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WeftNeed {
    /// Whole picks in all.
    pub picks: f64,
    /// Weft in the picks alone.
    pub in_picks: Length,
    /// Weft for hemstitching; `None` where the pieces have no fringe.
    pub hemstitching: Option<Length>,
    /// All of it; by the scale where earlier warps with this yarn were weighed, else by its number.
    pub total: YarnNeed,
}

/// Picks and weft yarn of the whole warp.
///
/// # Errors
/// A figure that leaves the limits.
pub(super) fn weft_need(
    widths: &Widths,
    lengths: &WarpLengths,
    picks_in: PicksIn<UnderTension>,
    assumptions: &Assumptions,
    inputs: &PlanInputs,
) -> Result<WeftNeed, Refused> {
    let picks = whole_picks(picks(picks_in, lengths.woven));
    let in_picks = weft_yarn(picks, widths.pick)?;
    let hemstitching = match inputs.edge {
        EdgeKind::Fringe => {
            let ends = u32::try_from(lengths.wish.pieces.len() * 2).unwrap_or(u32::MAX);
            Some(hemstitch_reserve(widths.reed, HEMSTITCH_WIDTHS, ends)?)
        }
        EdgeKind::Plain | EdgeKind::Hem => None,
    };
    let length = hemstitching.map_or(in_picks, |hemstitching| in_picks + hemstitching);
    let mut total = YarnNeed::by_number(length, inputs.weft_number_or_warp())?;
    if let Some(by_scale) = assumptions.weft_by_scale {
        // The yarn of the hemstitching weighs as much as that of the picks.
        let share = if in_picks.m() > 0.0 { length.m() / in_picks.m() } else { 1.0 };
        let mass = weft_mass_by_scale(by_scale.g_per_reed_metre, picks, widths.reed)?;
        total.mass = Some(Mass::from_g(mass.g() * share)?);
    }
    Ok(WeftNeed { picks, in_picks, hemstitching, total })
}

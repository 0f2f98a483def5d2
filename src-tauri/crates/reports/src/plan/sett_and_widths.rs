//! Sett, picks, ends and widths of a plan.

use fellmark_cloth::Refused;
use fellmark_cloth::quantity::ThreadDensity;
use fellmark_cloth::reed;
use fellmark_cloth::sett::{BeatenIn, beaten_in, diameters, largest_sett, ordinary_sett, sett_from_wraps};
use fellmark_cloth::state::{EndsIn, FinishedWidth, InReed, PickLength, PicksIn, ReedWidth, UnderTension};
use fellmark_cloth::weft::pick_from_reed;

use super::assumptions::Assumptions;
use fellmark_model::plan::PlanInputs;

/// Where the sett comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SettSource {
    /// Typed.
    Given,
    /// From wraps of the yarn.
    Wraps,
    /// From the yarn's number.
    YarnNumber,
}

/// The sett, what it could be at most, and whether the picks can be beaten in.
#[derive(Clone, Debug, Default)]
pub struct Sett {
    /// Ends in the reed that the plan is calculated with.
    pub ends: Option<(EndsIn<InReed>, SettSource)>,
    /// The largest sett of the yarn, and the ordinary one below it.
    pub largest: Option<(ThreadDensity, ThreadDensity)>,
    /// The sett that the wraps give.
    pub by_wraps: Option<ThreadDensity>,
    /// Picks on the loom: as typed, else as many as ends.
    pub picks: Option<PicksIn<UnderTension>>,
    /// Whether the picks were typed.
    pub picks_given: bool,
    /// Whether the picks can be beaten in; `None` while the yarn's diameter is not known.
    pub beaten: Option<BeatenIn>,
}

impl Sett {
    /// Settles the sett.
    ///
    /// # Errors
    /// Figures that cannot be together.
    pub(super) fn settle(inputs: &PlanInputs, assumptions: &Assumptions) -> Result<Self, Refused> {
        let (weave, k) = (inputs.weave.weave(), inputs.ashenhurst.k());
        let by_wraps = inputs.wraps.map(|wraps| sett_from_wraps(wraps, weave)).transpose()?;
        let largest = match inputs.warp_yarn_number {
            Some(number) => {
                let largest = largest_sett(number, k, weave)?;
                Some((largest, ordinary_sett(largest)?))
            }
            None => None,
        };
        let ends = match (inputs.sett, by_wraps, largest) {
            (Some(sett), _, _) => Some((sett, SettSource::Given)),
            (None, Some(sett), _) => Some((EndsIn::new(sett), SettSource::Wraps)),
            (None, None, Some((_, ordinary))) => Some((EndsIn::new(ordinary), SettSource::YarnNumber)),
            (None, None, None) => None,
        };
        let picks = inputs.picks.or(ends.map(|(sett, _)| PicksIn::new(sett.density())));
        // Wraps were counted side by side: they are the yarn's diameters as it is.
        let warp_diameters = match (inputs.wraps, inputs.warp_yarn_number) {
            (Some(wraps), _) => Some(wraps),
            (None, Some(number)) => Some(diameters(number, k)?),
            (None, None) => None,
        };
        let weft_diameters = match inputs.weft_number_or_warp() {
            Some(number) if inputs.weft_yarn_number.is_some() || inputs.wraps.is_none() => Some(diameters(number, k)?),
            _ => warp_diameters,
        };
        let beaten = match (warp_diameters, weft_diameters, ends, picks) {
            (Some(warp), Some(weft), Some((sett, _)), Some(picks)) => {
                let at_fell: EndsIn<UnderTension> = assumptions.draw_in.value.density_after(sett)?;
                Some(beaten_in(warp, weft, weave, at_fell, picks)?)
            }
            _ => None,
        };
        Ok(Self { ends, largest, by_wraps, picks, picks_given: inputs.picks.is_some(), beaten })
    }
}

/// Ends and widths.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Widths {
    /// Whole ends.
    pub ends: u32,
    /// The width in the reed that so many ends take.
    pub reed: ReedWidth,
    /// The finished width.
    pub finished: FinishedWidth,
    /// Weft in one pick.
    pub pick: PickLength,
}

impl Widths {
    /// Whole ends for a width in the reed, and the widths they make.
    ///
    /// # Errors
    /// A width that leaves the limits.
    pub(super) fn for_reed_width(
        wanted: ReedWidth,
        sett: EndsIn<InReed>,
        assumptions: &Assumptions,
    ) -> Result<Self, Refused> {
        let ends = reed::ends(wanted, sett)?;
        let reed = reed::width_of(ends, sett)?;
        Ok(Self {
            ends,
            reed,
            finished: assumptions.width.value.after(reed)?,
            pick: pick_from_reed(reed, assumptions.pick_allowance.used.value)?,
        })
    }
}

/// The width in the reed that is asked for: as typed, else from the finished width.
///
/// # Errors
/// A width that leaves the limits.
pub(super) fn reed_width_wanted(inputs: &PlanInputs, assumptions: &Assumptions) -> Result<Option<ReedWidth>, Refused> {
    match (inputs.reed_width, inputs.width) {
        (Some(reed), _) => Ok(Some(reed)),
        (None, Some(width)) => assumptions.width.value.before(width).map(Some),
        (None, None) => Ok(None),
    }
}

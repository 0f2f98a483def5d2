//! The warp of a plan, stretch by stretch.

use fellmark_cloth::Refused;
use fellmark_cloth::quantity::Length;
use fellmark_cloth::state::{FinishedLength, WarpLength, WovenLength};
use fellmark_cloth::warp::{Edge, LoomWaste, Piece, SegmentKind, WarpLayout, WarpSegment, warp_by_rule_of_thumb};

use super::assumptions::Assumptions;
use fellmark_model::display_format::Units;
use fellmark_model::plan::{EdgeKind, PlanInputs};

/// Steps a warp is rounded up to: what a warping peg or board is set to.
const STEP_METRIC_MM: f64 = 50.0;
const STEP_IMPERIAL_MM: f64 = 50.8;
/// What the common rule of thumb adds at each end, inches (common practice, no source).
const RULE_OF_THUMB_INCHES: f64 = 10.0;

/// A warp of pieces with these finished lengths, each with this edge at both ends.
///
/// # Errors
/// A length that leaves the limits.
pub(super) fn warp_wish(
    inputs: &PlanInputs,
    edge: EdgeKind,
    assumptions: &Assumptions,
    finished: &[FinishedLength],
) -> Result<WarpLayout, Refused> {
    let edge = match (edge, inputs.edge_mm) {
        (EdgeKind::Fringe, Some(mm)) => Edge::Fringe(WarpLength::from_mm(mm)?),
        (EdgeKind::Hem, Some(mm)) => Edge::Hem(FinishedLength::from_mm(mm)?),
        _ => Edge::Plain,
    };
    let mut waste = LoomWaste::from_total(assumptions.waste.value)?;
    if inputs.fringe_from_waste {
        waste = waste.fringe_may_use_it();
    }
    Ok(WarpLayout {
        pieces: finished.iter().map(|length| Piece { finished: *length, begin: edge, end: edge }).collect(),
        gap: inputs.gap,
        header: inputs.header,
        sample: inputs.sample,
        waste,
        changes: assumptions.changes,
    })
}

/// The lengths of a plan's warp.
#[derive(Clone, Debug)]
pub struct WarpLengths {
    /// The pieces and everything between them.
    pub wish: WarpLayout,
    /// The warp in order, stretch by stretch.
    pub segments: Vec<WarpSegment>,
    /// Warp needed, before rounding.
    pub exact: WarpLength,
    /// Warp to wind: rounded up, or all that the yarn gives.
    pub wound: WarpLength,
    /// Finished length of all pieces together, hems not counted.
    pub finished: FinishedLength,
    /// Cloth to weave in all, under tension, hems included.
    pub woven: WovenLength,
    /// The same of each piece.
    pub woven_each: Vec<WovenLength>,
}

impl WarpLengths {
    /// Calculates them; `wound` is what the yarn gives, where the plan starts from the yarn.
    ///
    /// # Errors
    /// A length that leaves the limits.
    pub(super) fn of_wish(wish: WarpLayout, wound: Option<WarpLength>, units: Units) -> Result<Self, Refused> {
        let step = Length::from_mm(match units {
            Units::Metric => STEP_METRIC_MM,
            Units::Imperial => STEP_IMPERIAL_MM,
        })?;
        let exact = wish.warp_needed()?;
        let wound = match wound {
            Some(wound) => wound,
            None => exact.rounded_up_to(step)?,
        };
        let woven_each = (0..wish.pieces.len()).map(|i| wish.woven_length(i)).collect::<Result<Vec<_>, _>>()?;
        Ok(Self {
            segments: wish.segments()?,
            exact,
            wound,
            finished: wish.pieces.iter().map(|piece| piece.finished).sum(),
            woven: woven_each.iter().copied().sum(),
            woven_each,
            wish,
        })
    }

    /// Finished length of each piece, hems not counted.
    #[must_use]
    pub fn finished_each(&self) -> Vec<FinishedLength> {
        self.wish.pieces.iter().map(|piece| piece.finished).collect()
    }

    /// Finished length of all pieces together, hems included.
    #[must_use]
    pub fn finished_with_hems(&self) -> FinishedLength {
        self.segments.iter().map(|segment| segment.finished).sum()
    }

    /// Warp in the stretches of these kinds.
    #[must_use]
    pub fn warp_in(&self, kinds: &[SegmentKind]) -> WarpLength {
        self.segments.iter().filter(|one| kinds.contains(&one.kind)).map(|one| one.warp).sum()
    }
}

/// The warp by the common rule of thumb: the finished length and so much at each end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RuleOfThumb {
    /// The warp it gives.
    pub warp: WarpLength,
    /// What it adds at each end.
    pub at_each_end: Length,
}

impl RuleOfThumb {
    /// For this finished length of all pieces together.
    ///
    /// # Errors
    /// A length that leaves the limits.
    pub(super) fn for_finished(finished: FinishedLength) -> Result<Self, Refused> {
        let at_each_end = Length::from_inches(RULE_OF_THUMB_INCHES)?;
        Ok(Self { warp: warp_by_rule_of_thumb(finished, at_each_end)?, at_each_end })
    }
}

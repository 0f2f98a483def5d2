//! The cloth of a plan: ends, widths, picks, from what is typed and what the reckoning rests on.

use fellmark_cloth::Refused;
use fellmark_cloth::quantity::{ThreadDensity, YarnNumber};
use fellmark_cloth::reed;
use fellmark_cloth::sett::{self, AshenhurstK, BeatenIn, Weave, beaten_in, diameters, largest_sett, ordinary_sett};
use fellmark_cloth::state::{
    EndsIn, FinishedLength, FinishedWidth, InReed, PickLength, PicksIn, ReedWidth, UnderTension, WarpLength,
};
use fellmark_cloth::warp::{Edge, LoomWaste, Piece, WarpWish};
use fellmark_cloth::weft::pick_from_reed;

use super::basis::Basis;
use super::typed::{EdgeKind, Typed};
use crate::model::display_format::{DisplayFormat, Units};
use crate::present::picture::FRONT_SHARE;

/// Threads per length as they are written in these units, without the unit.
pub(super) fn density_figure(density: ThreadDensity, format: &DisplayFormat) -> String {
    match format.units {
        Units::Metric => format.number(density.per_10cm(), 1),
        Units::Imperial => format.number(density.per_inch(), 2),
    }
}

/// "per 10 cm" or "per inch".
pub(super) fn per(format: &DisplayFormat) -> &'static str {
    match format.units {
        Units::Metric => "per 10\u{a0}cm",
        Units::Imperial => "per inch",
    }
}

/// How the sett was come by.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum SettFrom {
    Given,
    Wraps,
    Yarn,
}

/// The sett, what it could be at most, and whether the picks can be beaten in.
#[derive(Clone, Debug, Default)]
pub(super) struct Sett {
    pub ends: Option<(EndsIn<InReed>, SettFrom)>,
    /// The largest, and the ordinary one below it.
    pub largest: Option<(ThreadDensity, ThreadDensity)>,
    pub by_wraps: Option<ThreadDensity>,
    pub picks: Option<PicksIn<UnderTension>>,
    pub picks_given: bool,
    pub beaten: Option<BeatenIn>,
}

/// The weave, the k and the yarn numbers that are used.
pub(super) fn weave(typed: &Typed) -> (Weave, AshenhurstK) {
    (typed.weave.unwrap_or(Weave::PLAIN), typed.k.unwrap_or(AshenhurstK::USUAL))
}

/// The weft's number; the warp's where none is given.
pub(super) fn weft_count(typed: &Typed) -> Option<YarnNumber> {
    if typed.one_yarn { typed.warp_count } else { typed.weft_count.or(typed.warp_count) }
}

/// Settles the sett.
///
/// # Errors
/// Figures that cannot be together.
pub(super) fn settle_sett(typed: &Typed, basis: &Basis) -> Result<Sett, Refused> {
    let (weave, k) = weave(typed);
    let by_wraps = typed.wraps.map(|wraps| sett::sett_from_wraps(wraps, weave)).transpose()?;
    let by_yarn = typed.warp_count.map(|count| largest_sett(count, k, weave)).transpose()?;
    let largest = by_yarn.map(|largest| Ok::<_, Refused>((largest, ordinary_sett(largest)?))).transpose()?;
    let ends = match (typed.sett, by_wraps, largest) {
        (Some(sett), _, _) => Some((sett, SettFrom::Given)),
        (None, Some(sett), _) => Some((EndsIn::new(sett), SettFrom::Wraps)),
        (None, None, Some((_, ordinary))) => Some((EndsIn::new(ordinary), SettFrom::Yarn)),
        (None, None, None) => None,
    };
    let picks = typed.picks.or(ends.map(|(sett, _)| PicksIn::new(sett.density())));
    // Wraps were counted side by side: they are the yarn's diameters as it is.
    let warp_wraps = match (typed.wraps, typed.warp_count) {
        (Some(wraps), _) => Some(wraps),
        (None, Some(count)) => Some(diameters(count, k)?),
        (None, None) => None,
    };
    let weft_wraps = match weft_count(typed) {
        Some(count) if typed.weft_count.is_some() || typed.wraps.is_none() => Some(diameters(count, k)?),
        _ => warp_wraps,
    };
    let beaten = match (warp_wraps, weft_wraps, ends, picks) {
        (Some(warp), Some(weft), Some((sett, _)), Some(picks)) => {
            let tight: EndsIn<UnderTension> = basis.draw_in.0.density_after(sett)?;
            Some(beaten_in(warp, weft, weave, tight, picks)?)
        }
        _ => None,
    };
    Ok(Sett { ends, largest, by_wraps, picks, picks_given: typed.picks.is_some(), beaten })
}

/// Ends and widths.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Across {
    pub ends: u32,
    /// The width that so many ends take.
    pub reed: ReedWidth,
    pub finished: FinishedWidth,
    pub pick: PickLength,
}

/// The width in the reed that is asked for: as typed, else from the finished width.
///
/// # Errors
/// A width that leaves the limits.
pub(super) fn reed_wanted(typed: &Typed, basis: &Basis) -> Result<Option<ReedWidth>, Refused> {
    match (typed.reed_width, typed.width) {
        (Some(reed), _) => Ok(Some(reed)),
        (None, Some(width)) => basis.width.0.before(width).map(Some),
        (None, None) => Ok(None),
    }
}

/// Whole ends for a width in the reed, and what they make.
///
/// # Errors
/// A width that leaves the limits.
pub(super) fn across(wanted: ReedWidth, sett: EndsIn<InReed>, basis: &Basis) -> Result<Across, Refused> {
    let ends = reed::ends(wanted, sett)?;
    let reed = reed::width_of(ends, sett)?;
    Ok(Across { ends, reed, finished: basis.width.0.after(reed)?, pick: pick_from_reed(reed, basis.allowance.0)? })
}

/// The warp wished for, with pieces of these finished lengths.
///
/// # Errors
/// A length that leaves the limits.
pub(super) fn wish(typed: &Typed, basis: &Basis, finished: &[FinishedLength]) -> Result<WarpWish, Refused> {
    let edge = match (typed.edge, typed.edge_mm) {
        (EdgeKind::Fringe, Some(mm)) => Edge::Fringe(WarpLength::from_mm(mm)?),
        (EdgeKind::Hem, Some(mm)) => Edge::Hem(FinishedLength::from_mm(mm)?),
        _ => Edge::Plain,
    };
    let front = basis.waste.0.times(FRONT_SHARE)?;
    let mut waste = LoomWaste::new(front, basis.waste.0.less(front));
    if typed.fringe_from_waste {
        waste = waste.fringe_may_use_it();
    }
    Ok(WarpWish {
        pieces: finished.iter().map(|length| Piece { finished: *length, begin: edge, end: edge }).collect(),
        gap: typed.gap.0,
        header: typed.header.0,
        sample: typed.sample.0,
        waste,
        changes: basis.changes,
    })
}

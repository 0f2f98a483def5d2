//! Will the warp reach: what is left on the loom against what is still to be woven, as a chance and a span.

use fellmark_cloth::Refused;
use fellmark_cloth::change::WarpUse;
use fellmark_cloth::quantity::{LengthBalance, Quantity};
use fellmark_cloth::span::{Coverage, Estimate};
use fellmark_cloth::state::{WarpLength, WovenLength};
use fellmark_cloth::take_up::Crimp;
use fellmark_cloth::warp_left::{WarpLeft, WarpMark, WarpOnLoom, reach};

use crate::model::{Warp, WarpLog, WarpState};
use crate::reports::progress::Progress;

/// Loom waste where none is given: rigid heddle, warped directly, 18 to 22 inches (common practice, no source).
pub const USUAL_WASTE_MM: (f64, f64) = (457.2, 558.8);
/// Warp that 100 of cloth uses where nothing is given, and how far off that may be (common practice, no source).
pub const USUAL_WARP_PER_100: f64 = 110.0;
const USUAL_TAKE_UP_DEVIATION: f64 = 0.04;
/// How far off a take-up may be that she gave, as a share of cloth.
const GIVEN_TAKE_UP_DEVIATION: f64 = 0.02;
/// How far off the length wound may be.
const WOUND_DEVIATION_SHARE: f64 = 0.01;
/// How far off the waste may be that she gave.
const WASTE_DEVIATION_SHARE: f64 = 0.10;
/// What a pick is longer than the reed width where nothing is given: a tenth (common practice, no source).
pub const USUAL_ALLOWANCE_PERCENT: f64 = 10.0;

/// Units of warp for 100 of cloth that the reckoning uses.
#[must_use]
pub fn warp_per_100(warp: &Warp) -> f64 {
    warp.warp_per_100.unwrap_or(USUAL_WARP_PER_100)
}

/// Loom waste that the reckoning uses, millimetres.
#[must_use]
pub fn waste_mm(warp: &Warp) -> f64 {
    warp.waste_mm.unwrap_or(f64::midpoint(USUAL_WASTE_MM.0, USUAL_WASTE_MM.1))
}

/// Warp that becomes fringe and is not already reckoned in the waste, millimetres.
#[must_use]
pub fn fringe_mm(warp: &Warp) -> f64 {
    let all = warp.fringe_mm * 2.0 * f64::from(warp.pieces);
    if warp.fringe_from_waste { (all - (warp.fringe_mm * 2.0).min(waste_mm(warp))).max(0.0) } else { all }
}

/// Warp between pieces besides their fringes, all gaps together, millimetres.
#[must_use]
pub fn gaps_mm(warp: &Warp) -> f64 {
    warp.gap_mm * f64::from(warp.pieces.saturating_sub(1))
}

/// How far along the warp a mark can be tied wrongly, one time in three: a thread on a warp end, measured while warping.
const WARP_MARK_DEVIATION_MM: f64 = 5.0;

/// The last warp mark that reached the fell: warp used for cloth alone, gaps between pieces left out, against cloth woven.
fn warp_mark(warp: &Warp, progress: &Progress) -> Option<WarpMark> {
    let reached = progress.warp_mark?;
    let pieces_done = progress.piece_at(reached.woven_mm).map_or(0, |(piece, ..)| piece);
    let gaps = pieces_done as f64 * (2.0 * warp.fringe_mm + warp.gap_mm);
    Some(WarpMark {
        along: WarpLength::from_mm(reached.along_mm - gaps).ok().filter(|along| along.mm() > 0.0)?,
        woven: WovenLength::from_mm(reached.woven_mm).ok()?,
        along_deviation_mm: WARP_MARK_DEVIATION_MM,
        woven_deviation_mm: reached.woven_sd_mm,
    })
}

/// Units of warp for 100 of cloth by now: what a warp mark showed at the fell, else as given.
#[must_use]
pub fn warp_per_100_now(warp: &Warp, progress: &Progress) -> f64 {
    let shown = warp_mark(warp, progress).and_then(|mark| mark.warp_use().ok());
    shown.map_or_else(|| warp_per_100(warp), |(used, _)| 100.0 + used.crimp().percent())
}

fn on_loom(warp: &Warp, progress: &Progress) -> Result<Option<WarpOnLoom>, Refused> {
    let Some(wound_mm) = warp.wound_mm else { return Ok(None) };
    let waste = match warp.waste_mm {
        Some(mm) => Estimate::even(WarpLength::from_mm(mm)?, mm * WASTE_DEVIATION_SHARE),
        None => Estimate::from_range(WarpLength::from_mm(USUAL_WASTE_MM.0)?, WarpLength::from_mm(USUAL_WASTE_MM.1)?),
    };
    let not_cloth = WarpLength::from_mm(waste.likely.mm() + fringe_mm(warp) + gaps_mm(warp))?;
    let deviation = if warp.warp_per_100.is_some() { GIVEN_TAKE_UP_DEVIATION } else { USUAL_TAKE_UP_DEVIATION };
    Ok(Some(WarpOnLoom {
        wound: Estimate::even(WarpLength::from_mm(wound_mm)?, wound_mm * WOUND_DEVIATION_SHARE),
        not_cloth: Estimate::even(not_cloth, waste.standard_deviation()),
        warp_use: WarpUse::from_crimp(Crimp::from_percent(warp_per_100(warp) - 100.0)?),
        warp_use_deviation: deviation,
        mark: warp_mark(warp, progress),
    }))
}

/// Whether the warp reaches.
#[derive(Clone, Debug)]
pub enum WarpReach {
    /// The warp is cut off.
    CutOff,
    /// How much warp was wound is not known.
    WoundUnknown,
    /// How much cloth there is is not known.
    WovenUnknown,
    /// A figure cannot be right.
    Refused(Refused),
    /// What is left, and what that is good for.
    Known(Box<WarpSupply>),
}

/// Warp left on the loom, and the cloth it can become.
#[derive(Clone, Debug)]
pub struct WarpSupply {
    /// Warp and cloth left, with everything that is uncertain about them.
    pub left: WarpLeft,
    /// The same as it counts for the chance: what is uncertain about the cloth woven cancels out, since more of it means less to
    /// weave and less warp left alike.
    pub left_for_chance: WarpLeft,
    /// Cloth still possible under tension, low, likely and high, millimetres; four in five lie between.
    pub possible_mm: [f64; 3],
    /// Cloth still to weave under tension, millimetres, not below zero; nothing while no length is wanted.
    pub to_weave_mm: Option<f64>,
    /// The chance that the warp reaches, 0 to 1.
    pub chance: Option<f64>,
}

impl WarpSupply {
    /// Cloth to spare under tension, millimetres; negative where it is missing. Nothing while no length is wanted.
    #[must_use]
    pub fn spare_mm(&self) -> Option<f64> {
        Some(self.left.cloth.likely.mm() - self.to_weave_mm?)
    }

    /// Cloth that is possible nine times in ten, millimetres under tension.
    #[must_use]
    pub fn possible_nine_in_ten_mm(&self) -> f64 {
        self.left_for_chance.cloth.span(Coverage::FOUR_IN_FIVE).low.mm().max(0.0)
    }
}

/// Whether the warp of a log reaches.
#[must_use]
pub fn warp_reach(log: &WarpLog, progress: &Progress) -> WarpReach {
    if log.warp.state == WarpState::OffTheLoom {
        return WarpReach::CutOff;
    }
    let loom = match on_loom(&log.warp, progress) {
        Ok(Some(loom)) => loom,
        Ok(None) => return WarpReach::WoundUnknown,
        Err(error) => return WarpReach::Refused(error),
    };
    let Some(woven) = progress.woven else { return WarpReach::WovenUnknown };
    match (loom.left(&woven), loom.left(&Estimate::exact(woven.likely))) {
        (Ok(left), Ok(left_for_chance)) => {
            let span = left.cloth.span(Coverage::FOUR_IN_FIVE);
            let possible_mm = [span.low.mm(), span.likely.mm(), span.high.mm()].map(|mm| mm.max(0.0));
            let to_weave_mm = progress.to_weave_mm.map(|mm| mm.max(0.0));
            let chance = to_weave_mm
                .map(|mm| if mm <= 0.0 { 1.0 } else { reach(&left_for_chance.cloth, WovenLength::nearest(mm)).chance });
            WarpReach::Known(Box::new(WarpSupply { left, left_for_chance, possible_mm, to_weave_mm, chance }))
        }
        (Err(error), _) | (_, Err(error)) => WarpReach::Refused(error),
    }
}

/// What the pieces could be so that the warp reaches nine times in ten. What is woven stays as long as it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ReachablePieces {
    /// Each piece still to be woven could be so long.
    Alike {
        /// The piece at the fell, from 0.
        piece: usize,
        /// Pieces still to be woven, that one included.
        still_to_weave: usize,
        /// Length of each under tension, millimetres.
        each_mm: f64,
    },
    /// Pieces of different lengths: up to which one the warp reaches, and how long the next could be.
    UpTo {
        /// Pieces reached whole.
        reached: usize,
        /// Length under tension the next could have, millimetres.
        next_mm: f64,
        /// Whether pieces after that one are out of reach.
        more_after: bool,
    },
}

/// The pieces the warp reaches for nine times in ten, where it need not reach for all as they are wanted.
#[must_use]
pub fn reachable_pieces(progress: &Progress, supply: &WarpSupply) -> Option<ReachablePieces> {
    let (piece, from, _) = progress.piece_at(progress.woven_mm())?;
    let still_to_weave = progress.piece_ends_mm.len().saturating_sub(piece);
    let whole_mm = progress.woven_mm() + supply.possible_nine_in_ten_mm();
    let each_mm = (whole_mm - from) / still_to_weave.max(1) as f64;
    if progress.pieces_are_alike() && each_mm >= progress.woven_mm() - from {
        return Some(ReachablePieces::Alike { piece, still_to_weave, each_mm });
    }
    let ends = &progress.piece_ends_mm;
    let reached = ends.iter().filter(|end| **end <= whole_mm).count();
    if reached >= ends.len() {
        return None;
    }
    let before = reached.checked_sub(1).and_then(|last| ends.get(last)).copied().unwrap_or(0.0);
    Some(ReachablePieces::UpTo { reached, next_mm: whole_mm - before, more_after: reached + 1 < ends.len() })
}

/// Warp to spare for all the cloth wanted, millimetres; negative is the shortfall that the picture draws.
#[must_use]
pub fn warp_balance_mm(warp: &Warp, progress: &Progress) -> Option<f64> {
    let loom = on_loom(warp, progress).ok()??;
    let wanted = progress.wanted_mm?;
    let cloth_mm = wanted.max(progress.woven_mm());
    let warp_use = match loom.mark {
        Some(mark) => mark.warp_use().ok()?.0,
        None => loom.warp_use,
    };
    let needed = warp_use.yarn_for(WovenLength::from_mm(cloth_mm).ok()?).ok()?;
    let balance = LengthBalance::from_mm(loom.wound.likely.mm() - loom.not_cloth.likely.mm() - needed.mm()).ok()?;
    Some(balance.mm())
}

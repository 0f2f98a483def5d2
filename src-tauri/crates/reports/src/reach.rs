//! Will the warp reach: what is left on the loom against what is still to be woven, as a chance and a span.

use fellmark_cloth::Refused;
use fellmark_cloth::change::WarpUse;
use fellmark_cloth::learned::RIGID_HEDDLE_DIRECT_WASTE;
use fellmark_cloth::measurement_errors::MeasurementErrors;
use fellmark_cloth::quantity::Quantity;
use fellmark_cloth::span::{Coverage, Estimate};
use fellmark_cloth::state::{UnderTension, WarpLength, WovenLength};
use fellmark_cloth::take_up::USUAL_WARP_PER_100;
use fellmark_cloth::warp::{PieceAt, Unwoven};
use fellmark_cloth::warp_left::{WarpLeft, WarpMark, WarpOnLoom, reach};

use crate::progress::Progress;
use fellmark_model::{Warp, WarpLog, WarpState};

/// Warp used against cloth under tension, as given or as usual.
fn warp_use_given(warp: &Warp) -> Result<WarpUse<UnderTension>, Refused> {
    WarpUse::from_yarn_per_100(warp_per_100(warp))
}

/// Units of warp for 100 of cloth: as given, else as usual.
#[must_use]
pub fn warp_per_100(warp: &Warp) -> f64 {
    warp.warp_per_100.unwrap_or(USUAL_WARP_PER_100)
}

/// Warp that becomes no cloth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NotCloth {
    /// Loom waste: as given, else as usual on a rigid heddle.
    pub waste: WarpLength,
    /// Fringes that are not part of the waste.
    pub fringes: WarpLength,
    /// Between pieces besides their fringes, all gaps together.
    pub gaps: WarpLength,
}

impl NotCloth {
    /// What of a warp becomes no cloth.
    #[must_use]
    pub fn of_warp(warp: &Warp) -> Self {
        let waste = WarpLength::nearest(warp.waste_mm.unwrap_or(RIGID_HEDDLE_DIRECT_WASTE.middle_mm()));
        let unwoven = unwoven(warp);
        Self { waste, fringes: unwoven.fringes(waste), gaps: unwoven.gaps() }
    }
}

/// Fringes and gaps of a warp.
#[must_use]
pub fn unwoven(warp: &Warp) -> Unwoven {
    Unwoven {
        pieces: warp.pieces,
        fringe: WarpLength::nearest(warp.fringe_mm),
        gap: WarpLength::nearest(warp.gap_mm),
        fringe_from_waste: warp.fringe_from_waste,
    }
}

/// The last warp mark that reached the fell: warp used for cloth alone, gaps between pieces left out, against cloth woven.
fn warp_mark(warp: &Warp, progress: &Progress) -> Option<WarpMark> {
    let reached = progress.warp_mark?;
    let woven = WovenLength::from_mm(reached.woven_mm).ok()?;
    let pieces_done = progress.piece_ends.piece_at(woven).map_or(0, |at| at.piece);
    let along_mm = reached.along_mm - unwoven(warp).before_piece(pieces_done).mm();
    Some(WarpMark {
        along: WarpLength::from_mm(along_mm).ok().filter(|along| along.mm() > 0.0)?,
        woven,
        along_deviation_mm: MeasurementErrors::default().warp_mark_mm,
        woven_deviation_mm: reached.woven_sd_mm,
    })
}

/// Units of warp for 100 of cloth by now: what a warp mark showed at the fell, else as given.
#[must_use]
pub fn warp_per_100_now(warp: &Warp, progress: &Progress) -> f64 {
    let shown = warp_mark(warp, progress).and_then(|mark| mark.warp_use().ok());
    shown.map_or_else(|| warp_per_100(warp), |(used, _)| used.yarn_per_100())
}

/// Warp used against cloth under tension by now: what a warp mark showed at the fell, else as given or as usual.
#[must_use]
pub fn warp_use_now(warp: &Warp, progress: &Progress) -> WarpUse<UnderTension> {
    let shown = warp_mark(warp, progress).and_then(|mark| mark.warp_use().ok());
    shown.map(|(used, _)| used).or_else(|| warp_use_given(warp).ok()).unwrap_or(WarpUse::NONE)
}

fn on_loom(warp: &Warp, progress: &Progress) -> Result<Option<WarpOnLoom>, Refused> {
    let Some(wound_mm) = warp.wound_mm else { return Ok(None) };
    let errors = MeasurementErrors::default();
    let waste = match warp.waste_mm {
        Some(mm) => Estimate::even(WarpLength::from_mm(mm)?, mm * errors.waste_share),
        None => RIGID_HEDDLE_DIRECT_WASTE.estimate()?,
    };
    let NotCloth { fringes, gaps, .. } = NotCloth::of_warp(warp);
    let not_cloth = WarpLength::from_mm(waste.likely.mm() + fringes.mm() + gaps.mm())?;
    let given = warp.warp_per_100.is_some();
    Ok(Some(WarpOnLoom {
        wound: Estimate::even(WarpLength::from_mm(wound_mm)?, wound_mm * errors.wound_share),
        not_cloth: Estimate::even(not_cloth, waste.standard_deviation()),
        warp_use: warp_use_given(warp)?,
        warp_use_deviation: if given { errors.given_take_up_share } else { errors.usual_take_up_share },
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
    /// Warp that the cloth woven so far uses.
    pub warp_in_cloth: WarpLength,
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
    warp_supply(&loom, &woven, progress.to_weave_mm, progress.wanted_deviation_mm)
        .map_or_else(WarpReach::Refused, |supply| WarpReach::Known(Box::new(supply)))
}

fn warp_supply(
    loom: &WarpOnLoom,
    woven: &Estimate<WovenLength>,
    to_weave_mm: Option<f64>,
    wanted_deviation_mm: f64,
) -> Result<WarpSupply, Refused> {
    let (left, mut left_for_chance) = (loom.left(woven)?, loom.left(&Estimate::exact(woven.likely))?);
    if wanted_deviation_mm > 0.0 {
        // Whether it reaches depends alike on what is left and on what is wanted.
        let cloth = left_for_chance.cloth;
        let deviation = cloth.standard_deviation().hypot(wanted_deviation_mm);
        left_for_chance.cloth = Estimate::even(cloth.likely, deviation);
    }
    let span = left.cloth.span(Coverage::FOUR_IN_FIVE);
    let to_weave_mm = to_weave_mm.map(|mm| mm.max(0.0));
    let chance = |mm: f64| if mm <= 0.0 { 1.0 } else { reach(&left_for_chance.cloth, WovenLength::nearest(mm)).chance };
    Ok(WarpSupply {
        warp_in_cloth: left.warp_use.yarn_for(woven.likely)?,
        possible_mm: [span.low.mm(), span.likely.mm(), span.high.mm()].map(|mm| mm.max(0.0)),
        chance: to_weave_mm.map(chance),
        to_weave_mm,
        left,
        left_for_chance,
    })
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
    let ends = &progress.piece_ends;
    let woven = WovenLength::nearest(progress.woven_mm());
    let PieceAt { piece, begin, .. } = progress.piece_at_fell()?;
    let still_to_weave = ends.count().saturating_sub(piece);
    let whole = woven + WovenLength::nearest(supply.possible_nine_in_ten_mm());
    let each_mm = (whole.mm() - begin.mm()) / still_to_weave.max(1) as f64;
    if ends.are_alike() && each_mm >= woven.mm() - begin.mm() {
        return Some(ReachablePieces::Alike { piece, still_to_weave, each_mm });
    }
    let reached = ends.full_pieces(whole);
    if reached >= ends.count() {
        return None;
    }
    let next_mm = whole.mm() - ends.begin(reached).mm();
    Some(ReachablePieces::UpTo { reached, next_mm, more_after: reached + 1 < ends.count() })
}

//! Will the weft last: every yarn's ledger together against the cloth still to weave.

use fellmark_cloth::Refused;
use fellmark_cloth::quantity::Quantity;
use fellmark_cloth::span::{Coverage, Estimate};
use fellmark_cloth::state::WovenLength;
use fellmark_cloth::warp_left::reach;
use fellmark_cloth::weft::weft_yarn;
use fellmark_cloth::weft_left::cloth_of_yarns;

use crate::progress::Progress;
use crate::weft_ledger::{Ledger, ledgers, pick_length};
use fellmark_model::{Warp, WarpLog, WarpState};

/// Whether the weft lasts.
#[derive(Debug)]
pub enum WeftReach<'a> {
    /// The warp is cut off.
    CutOff,
    /// No weft yarn is recorded.
    NoYarn,
    /// A figure cannot be right.
    Refused(Refused),
    /// The yarns, and what they are good for together.
    Yarns(WeftSupply<'a>),
}

/// The weft yarns of a warp and what they are good for.
#[derive(Debug)]
pub struct WeftSupply<'a> {
    /// Every yarn.
    pub ledgers: Vec<Ledger<'a>>,
    /// Yarn still needed, metres; nothing without a width.
    pub needed_m: Option<f64>,
    /// What the yarns of which it is known are good for together; nothing where it is known of none.
    pub together: Option<WeftTogether>,
}

/// What several yarns are good for together.
#[derive(Clone, Copy, Debug)]
pub struct WeftTogether {
    /// Cloth they make under tension.
    pub cloth: Estimate<WovenLength>,
    /// The same low, likely and high, millimetres; four in five lie between.
    pub possible_mm: [f64; 3],
    /// Yarn left low, likely and high, metres; nothing unless it is known of each.
    pub left_m: Option<[f64; 3]>,
    /// The chance that they last, 0 to 1; nothing while no length is wanted.
    pub chance: Option<f64>,
}

/// Whether the weft of a log lasts.
#[must_use]
pub fn weft_reach<'a>(log: &'a WarpLog, progress: &Progress) -> WeftReach<'a> {
    if log.warp.state == WarpState::OffTheLoom {
        return WeftReach::CutOff;
    }
    if log.wefts.is_empty() {
        return WeftReach::NoYarn;
    }
    let ledgers = match ledgers(log, progress) {
        Ok(ledgers) => ledgers,
        Err(error) => return WeftReach::Refused(error),
    };
    let known: Vec<&Ledger<'_>> = ledgers.iter().filter(|ledger| ledger.left.is_some()).collect();
    let together = cloth_together(&known).map(|cloth| {
        let span = cloth.span(Coverage::FOUR_IN_FIVE);
        WeftTogether {
            cloth,
            possible_mm: [span.low.mm(), span.likely.mm(), span.high.mm()].map(|mm| mm.max(0.0)),
            left_m: yarn_left_m(&known),
            chance: progress
                .to_weave_mm
                .map(|mm| if mm <= 0.0 { 1.0 } else { reach(&cloth, WovenLength::nearest(mm)).chance }),
        }
    });
    WeftReach::Yarns(WeftSupply { needed_m: needed_yarn_m(&log.warp, progress), ledgers, together })
}

/// The yarn in use of which about half is gone, after so many picks of a sitting that is going on: its name.
#[must_use]
pub fn half_gone_in_use(log: &WarpLog, running_picks: i64) -> Option<String> {
    if log.wefts.is_empty() {
        return None;
    }
    let ledgers = ledgers(log, &Progress::of(log, running_picks)).ok()?;
    let yarn = ledgers.iter().find(|ledger| ledger.in_use && ledger.is_half_gone())?;
    Some(yarn.name().to_owned())
}

/// Yarn that the picks still to weave take, metres; nothing without a width.
fn needed_yarn_m(warp: &Warp, progress: &Progress) -> Option<f64> {
    let pick = pick_length(warp)?;
    let yarn = weft_yarn(progress.to_weave_picks?.max(0.0), pick).ok()?;
    Some(yarn.m())
}

/// What all yarns together are good for.
fn cloth_together(known: &[&Ledger<'_>]) -> Option<Estimate<WovenLength>> {
    let cloth: Vec<_> = known.iter().filter_map(|ledger| ledger.left.map(|left| left.cloth)).collect();
    cloth_of_yarns(&cloth).ok()?
}

/// Yarn left of all yarns, low, likely, high; nothing unless it is known of each.
fn yarn_left_m(known: &[&Ledger<'_>]) -> Option<[f64; 3]> {
    let mut all = [0.0; 3];
    for ledger in known {
        let span = ledger.left?.yarn?.span(Coverage::FOUR_IN_FIVE);
        for (sum, one) in all.iter_mut().zip([span.low.m(), span.likely.m(), span.high.m()]) {
            *sum += one;
        }
    }
    Some(all)
}

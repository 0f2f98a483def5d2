//! How projections of hers would have come out: each earlier warp is projected at a few stages from the others, and
//! what was said is held against what came.

use crate::clean::PLAN_SITTINGS;
use crate::clean::Worked;
use crate::model::{Pace, Past, Standing};
use crate::question::Availability;

/// Weaving days after which an earlier warp is projected again.
const STAGES: [usize; 6] = [1, 2, 3, 5, 8, 13];
/// Weaving days an earlier warp must have to tell anything.
const FEWEST_DAYS: usize = 3;
/// No more warps than this are replayed, the latest.
const MOST_WARPS: usize = 12;
/// Earlier warps that a span no wider or narrower than anyone's counts for.
const SCALE_WEIGHT: f64 = 2.0;
const LEAST_SCALE: f64 = 0.5;
const MOST_SCALE: f64 = 1.6;
/// How much of her mean deviation is believed to come again, and the warps that none at all counts for.
const SHIFT_SHARE: f64 = 0.5;
const SHIFT_WEIGHT: f64 = 3.0;

/// What the replay teaches: by how many standard deviations to move, and how many times as wide to be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Fit {
    pub(crate) shift: f64,
    pub(crate) scale: f64,
}

impl Default for Fit {
    fn default() -> Self {
        Self { shift: 0.0, scale: 1.0 }
    }
}

impl Fit {
    /// Replays `earlier`, which stand by their first days.
    pub(crate) fn learn(earlier: &[Worked], availability: &Availability) -> Self {
        let sums: Vec<Past> = earlier.iter().map(Past::of).collect();
        let told: Vec<(usize, &Worked)> =
            earlier.iter().enumerate().filter(|(_, warp)| warp.days.len() >= FEWEST_DAYS).collect();
        let latest = &told[told.len().saturating_sub(MOST_WARPS)..];
        let (mut warps, mut deviations, mut squares) = (0.0, 0.0, 0.0);
        for (index, warp) in latest {
            let others = sums.iter().enumerate().filter(|(other, _)| other != index).map(|(_, sum)| *sum);
            let past = Past::sum(others);
            let (mut stages, mut deviation, mut square) = (0.0, 0.0, 0.0);
            for z in deviates(warp, &past, availability) {
                stages += 1.0;
                deviation += z;
                square += z * z;
            }
            // The stages of one warp share its luck: together they count once.
            if stages > 0.0 {
                warps += 1.0;
                deviations += deviation / stages;
                squares += square / stages;
            }
        }
        if warps == 0.0 {
            return Self::default();
        }
        let scale = ((SCALE_WEIGHT + squares) / (SCALE_WEIGHT + warps)).sqrt();
        Self { shift: SHIFT_SHARE * deviations / (warps + SHIFT_WEIGHT), scale: scale.clamp(LEAST_SCALE, MOST_SCALE) }
    }
}

/// How many standard deviations late `warp` came out, at each stage of it.
fn deviates<'a>(warp: &'a Worked, past: &'a Past, availability: &'a Availability) -> impl Iterator<Item = f64> + 'a {
    let total: f64 = warp.days.iter().map(|d| d.1).sum();
    let end = warp.days.last().map(|d| d.0);
    STAGES.iter().filter(|n| **n < warp.days.len()).filter_map(move |n| {
        let days = &warp.days[..*n];
        let today = days.last()?.0;
        let standing = Standing {
            days,
            first: days.first().map(|d| d.0),
            today,
            target: total,
            planned_sittings: PLAN_SITTINGS,
            stated_days_a_week: None,
            availability,
        };
        let left = total - days.iter().map(|d| d.1).sum::<f64>();
        let took = ((end? - today).num_days() as f64).max(0.5);
        (left > 0.0).then(|| Pace::reckon(&standing, past).law(left, 0.0).deviate(took))
    })
}

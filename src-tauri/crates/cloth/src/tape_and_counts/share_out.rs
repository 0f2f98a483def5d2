//! Cloth shared out among sittings: the total after every sitting, so that each can be drawn as long as it is.

use super::observation::{Observation, PickCount, UsedReading};
use crate::quantity::Quantity;
use crate::state::{PicksIn, UnderTension, WovenLength};

/// The total under tension after each observation, from the first pick: the tape's totals, and between them each sitting by its
/// picks. After the last reading picks go on at `rate`; where none is known, nothing is added.
pub fn cloth_after_each(
    observations: &[Observation],
    readings: &[UsedReading],
    rate: Option<PicksIn<UnderTension>>,
) -> Vec<WovenLength> {
    let picks_per_mm = rate.map(PicksIn::picks_per_mm);
    let mut totals = vec![0.0; observations.len()];
    let (mut start, mut at) = (0, 0.0_f64);
    for reading in readings {
        let to = reading.total.likely.mm();
        if let (Some(stretch), Some(out)) =
            (observations.get(start..=reading.observation), totals.get_mut(start..=reading.observation))
        {
            share_out(stretch, (at, to), picks_per_mm, out);
        }
        (start, at) = (reading.observation + 1, to);
    }
    for (observation, total) in observations.iter().zip(&mut totals).skip(start) {
        at = (at + net(observation) / picks_per_mm.unwrap_or(f64::INFINITY)).max(0.0);
        *total = at;
    }
    totals.into_iter().map(WovenLength::nearest).collect()
}

fn net(observation: &Observation) -> f64 {
    observation.picks.net().unwrap_or(0.0)
}

/// Shares the cloth between two readings (mm) out among the sittings between them: by picks where all have them; else those with
/// picks get what the rate gives them, and the others share the rest evenly.
fn share_out(stretch: &[Observation], (from, to): (f64, f64), picks_per_mm: Option<f64>, out: &mut [f64]) {
    let length = to - from;
    let unknown = stretch.iter().filter(|observation| observation.picks == PickCount::Unknown).count();
    let known: f64 = stretch.iter().map(net).sum();
    let mm_per_pick = match picks_per_mm {
        _ if unknown == 0 && known > 0.0 => length / known,
        // Where the counted sittings alone make more than was measured, they are drawn shorter and the others as nothing.
        Some(rate) if unknown > 0 => (1.0 / rate).min(if known > 0.0 { (length / known).max(0.0) } else { 1.0 / rate }),
        _ => 0.0,
    };
    // Sittings on one warp are far fewer than 2⁵³.
    #[allow(clippy::cast_precision_loss)]
    let rest = if unknown > 0 { (length - known * mm_per_pick) / unknown as f64 } else { 0.0 };
    let mut at = from;
    for (observation, total) in stretch.iter().zip(&mut *out) {
        at += if observation.picks == PickCount::Unknown { rest } else { net(observation) * mm_per_pick };
        *total = at.max(0.0);
    }
    // Where nothing says how to share, the last sitting, which measured, gets it all.
    if let Some(last) = out.last_mut() {
        *last = to;
    }
}

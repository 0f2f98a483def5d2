//! Counts fill in between readings: the total after every sitting, so that each can be drawn as long as it is.

use super::woven::{Observation, Reading};
use crate::quantity::Quantity;
use crate::state::{PicksIn, UnderTension, WovenLength};

/// The total after each observation. Between two readings the cloth is shared out by picks so that it meets the tape;
/// sittings without picks share evenly what the counted ones leave. After the last reading the rate goes on.
pub(super) fn after_each(
    observations: &[Observation],
    readings: &[Reading],
    rate: Option<PicksIn<UnderTension>>,
) -> Vec<WovenLength> {
    let mut totals = Vec::with_capacity(observations.len());
    let (mut from, mut at_mm) = (0, 0.0);
    for reading in readings {
        let to = (reading.observation + 1).min(observations.len());
        let stretch = observations.get(from..to).unwrap_or_default();
        let length = reading.total.likely.mm() - at_mm;
        let shares = shared(stretch, length, rate);
        push(&mut totals, at_mm, &shares);
        at_mm = reading.total.likely.mm();
        if let Some(last) = totals.last_mut() {
            *last = reading.total.likely;
        }
        from = to;
    }
    let rest: Vec<f64> = observations
        .get(from..)
        .unwrap_or_default()
        .iter()
        .map(|o| by_rate(o.picks.net().unwrap_or(0.0), rate).unwrap_or(0.0))
        .collect();
    push(&mut totals, at_mm, &rest);
    totals
}

fn push(totals: &mut Vec<WovenLength>, from_mm: f64, lengths: &[f64]) {
    let mut at = from_mm;
    for length in lengths {
        at += length;
        totals.push(WovenLength::nearest(at));
    }
}

fn by_rate(picks: f64, rate: Option<PicksIn<UnderTension>>) -> Option<f64> {
    Some(picks / rate?.density().per_cm() * 10.0)
}

/// What each sitting of a stretch wove, together `length`.
fn shared(stretch: &[Observation], length: f64, rate: Option<PicksIn<UnderTension>>) -> Vec<f64> {
    let picks: Vec<Option<f64>> = stretch.iter().map(|o| o.picks.net()).collect();
    let unknown = picks.iter().filter(|p| p.is_none()).count();
    let counted: f64 = picks.iter().flatten().sum();
    // Sittings on one warp are far fewer than 2⁵³.
    #[allow(clippy::cast_precision_loss)]
    let evenly = |mm: f64, among: usize| mm / among.max(1) as f64;
    if unknown == 0 {
        return if counted > 0.0 && length > 0.0 {
            picks.iter().map(|p| length * p.unwrap_or(0.0) / counted).collect()
        } else {
            vec![evenly(length, stretch.len()); stretch.len()]
        };
    }
    let known = by_rate(counted, rate).unwrap_or(0.0);
    // Where the counted ones alone make more than was measured, they are drawn shorter and the others as nothing.
    let scale = if known > length && known > 0.0 { length / known } else { 1.0 };
    let each = evenly(length - known * scale, unknown);
    picks
        .iter()
        .map(|p| match p {
            Some(net) => by_rate(*net, rate).unwrap_or(0.0) * scale,
            None => each,
        })
        .collect()
}

//! Pace per kind of section, and the common measure in which a border and a plain stretch are added up.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use crate::math;
use crate::question::SectionKind;

/// Pick-up against plain, in picks an hour: hobby weavers report 4 against 12 inches an hour (rigid heddle) and
/// a weft-float scarf at 17 picks an inch where plain has about 10; 4 · 17 / (12 · 10).
const PICK_UP_AGAINST_PLAIN: f64 = 0.57;
/// How many sittings of the weaver's own outweigh that reported ratio by half.
const RATIO_WEIGHT: f64 = 2.0;
/// No kind is taken to be more than this many times slower or quicker than another.
const MOST_TIMES_SLOWER: f64 = 20.0;

/// The pace of one kind of section.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct KindPace {
    /// The kind.
    pub kind: SectionKind,
    /// Picks an hour at the loom, interruptions included.
    pub picks_per_hour: f64,
    /// TimedStretch sittings behind it; 0 when it was inferred from another kind by common practice.
    pub timed_sittings: usize,
}

/// Pace of each kind and its weight in the common measure.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct SectionPaces {
    weights: BTreeMap<SectionKind, f64>,
    pub(crate) paces: Vec<KindPace>,
    /// Picks of the reference kind a minute, when any sitting was timed.
    pub(crate) reference_per_minute: Option<f64>,
}

/// A timed stretch: (kind, picks, minutes), both above zero.
pub(crate) type TimedStretch<'a> = (&'a SectionKind, f64, f64);

fn usual_ratio(kind: &SectionKind) -> f64 {
    match kind {
        SectionKind::PickUp => PICK_UP_AGAINST_PLAIN,
        SectionKind::Plain | SectionKind::Other(_) => 1.0,
    }
}

/// The weighted median of `values`: half the weight is on either side.
pub(crate) fn weighted_median(mut values: Vec<(f64, f64)>) -> Option<f64> {
    values.sort_unstable_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    let half = values.iter().map(|v| v.1).sum::<f64>() / 2.0;
    let mut so_far = 0.0;
    for (value, weight) in &values {
        so_far += weight;
        if so_far >= half {
            return Some(*value);
        }
    }
    None
}

/// The plain median; the mean of the two middle values when their number is even.
pub(crate) fn median(values: &[f64]) -> Option<f64> {
    let mut sorted = values.to_vec();
    sorted.sort_unstable_by(f64::total_cmp);
    let n = sorted.len();
    if n == 0 {
        return None;
    }
    Some(if n % 2 == 1 { sorted[n / 2] } else { (sorted[n / 2 - 1] + sorted[n / 2]) / 2.0 })
}

impl SectionPaces {
    /// Estimates from timed stretches. `reference` is the kind whose picks are the common measure, `wanted` every
    /// kind that must have a weight.
    pub(crate) fn estimate(
        reference: &SectionKind,
        wanted: BTreeSet<&SectionKind>,
        timed: &[TimedStretch<'_>],
    ) -> Self {
        let mut by_kind: BTreeMap<&SectionKind, Vec<(f64, f64)>> = BTreeMap::new();
        for (kind, picks, minutes) in timed {
            by_kind.entry(kind).or_default().push((picks / minutes, *minutes));
        }
        let own: BTreeMap<&SectionKind, (f64, usize)> = by_kind
            .into_iter()
            .filter_map(|(kind, list)| {
                let n = list.len();
                weighted_median(list).map(|pace| (kind, (pace, n)))
            })
            .collect();
        let reference_per_minute = own.get(reference).map(|p| p.0).or_else(|| {
            // Another kind was timed: convert by the reported ratio.
            own.iter()
                .max_by_key(|(_, (_, n))| *n)
                .map(|(kind, (pace, _))| pace * usual_ratio(reference) / usual_ratio(kind))
        });
        let mut weights = BTreeMap::new();
        let mut paces = Vec::new();
        let mut all = wanted;
        all.extend(own.keys());
        all.insert(reference);
        for kind in all {
            let reported = usual_ratio(kind) / usual_ratio(reference);
            let own_pace = own.get(kind);
            let ratio = match (own_pace, reference_per_minute) {
                _ if kind == reference => 1.0,
                (Some((pace, n)), Some(per_minute)) => {
                    let n = *n as f64;
                    let log =
                        (n * math::ln(pace / per_minute) + RATIO_WEIGHT * math::ln(reported)) / (n + RATIO_WEIGHT);
                    math::exp(log).clamp(1.0 / MOST_TIMES_SLOWER, MOST_TIMES_SLOWER)
                }
                _ => reported,
            };
            weights.insert(kind.clone(), 1.0 / ratio);
            if let Some(per_minute) = reference_per_minute {
                paces.push(KindPace {
                    kind: kind.clone(),
                    picks_per_hour: 60.0 * per_minute * ratio,
                    timed_sittings: own_pace.map_or(0, |p| p.1),
                });
            }
        }
        Self { weights, paces, reference_per_minute }
    }

    /// What one pick of `kind` costs, in picks of the reference kind.
    pub(crate) fn weight(&self, kind: &SectionKind) -> f64 {
        self.weights.get(kind).copied().unwrap_or(1.0)
    }

    /// Picks a minute of `kind`, when any sitting was timed.
    pub(crate) fn per_minute(&self, kind: &SectionKind) -> Option<f64> {
        self.reference_per_minute.map(|pace| pace / self.weight(kind))
    }
}

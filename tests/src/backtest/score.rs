//! How good predictions are: coverage, loss and error, beside two baselines.
//!
//! The same calculation as the scorer kept with the cases, so that either may check the other.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use super::cases::{self, Case};
use super::mersenne::Random;

/// The chances predicted.
pub const CHANCES: [f64; 7] = [0.05, 0.10, 0.25, 0.50, 0.75, 0.90, 0.95];
const RUNS: usize = 200;
const MOST_DAYS: usize = 3000;

/// One case scored.
#[derive(Debug, Clone)]
pub struct Scored {
    /// Its stage.
    pub stage: String,
    /// Its source, without a number at the end.
    pub source: String,
    /// Whether the 50, 80 and 90 % spans hold the day.
    pub holds: [bool; 3],
    /// Mean pinball loss over the seven chances on ln(1 + days).
    pub loss: f64,
    /// |likely − actual| / actual, in days.
    pub error: f64,
    /// Loss of the constant rate and of resampled days.
    pub baselines: [f64; 2],
}

impl Scored {
    /// `real` or `synthetic`.
    pub fn kind(&self) -> &'static str {
        if self.source.starts_with("real") { "real" } else { "synthetic" }
    }
}

struct ScoredPicks {
    per_day: BTreeMap<NaiveDate, f64>,
    first: NaiveDate,
    days: i64,
    left: f64,
    done: f64,
}

fn known(case: &Case) -> Result<ScoredPicks, String> {
    let mut per_day = BTreeMap::new();
    for s in &case.sittings {
        *per_day.entry(cases::day(&s.start)?).or_insert(0.0) += s.picks.unwrap_or(0.0);
    }
    let first = *per_day.keys().next().ok_or("a case without sittings cannot be scored")?;
    let done: f64 = per_day.values().sum();
    Ok(ScoredPicks { first, days: (case.today - first).num_days() + 1, left: case.target_picks - done, done, per_day })
}

fn constant(known: &ScoredPicks) -> [f64; 7] {
    let days = (known.left / (known.done / known.days as f64)).max(1.0);
    [0.4, 0.5, 0.75, 1.0, 1.25, 1.5, 1.6].map(|f| (days * f).round_ties_even())
}

fn resampled(known: &ScoredPicks, id: &str) -> [f64; 7] {
    let pool: Vec<f64> = (0..known.days)
        .map(|d| known.per_day.get(&(known.first + chrono::TimeDelta::days(d))).copied().unwrap_or(0.0))
        .collect();
    let mut random = Random::seeded(id);
    let mut ends: Vec<usize> = (0..RUNS)
        .map(|_| {
            let (mut woven, mut days) = (0.0, 0);
            while woven < known.left && days < MOST_DAYS {
                woven += pool[random.index(pool.len())];
                days += 1;
            }
            days
        })
        .collect();
    ends.sort_unstable();
    CHANCES.map(|q| ends[(RUNS - 1).min((q * RUNS as f64) as usize)] as f64)
}

fn loss(actual: f64, predicted: &[f64; 7]) -> f64 {
    let y = actual.ln_1p();
    let each = CHANCES.iter().zip(predicted).map(|(q, days)| {
        let over = y - days.max(0.0).ln_1p();
        (q * over).max((q - 1.0) * over)
    });
    each.sum::<f64>() / CHANCES.len() as f64
}

/// Scores the projection on `case`.
pub fn score(case: &Case) -> Result<Scored, String> {
    let end = case.actual_finish.ok_or("a case without its actual finish cannot be scored")?;
    let actual = (end - case.today).num_days() as f64;
    let span = case.span()?;
    let p = [span.p05, span.p10, span.p25, span.p50, span.p75, span.p90, span.p95]
        .map(|day| (day - case.today).num_days() as f64);
    let known = known(case)?;
    let within = |low: usize, high: usize| p[low] <= actual && actual <= p[high];
    let source = case.source.splitn(3, '-').take(2).collect::<Vec<_>>().join("-");
    Ok(Scored {
        stage: case.stage.clone(),
        source,
        holds: [within(2, 4), within(1, 5), within(0, 6)],
        loss: loss(actual, &p),
        error: (p[3] - actual).abs() / actual.max(1.0),
        baselines: [loss(actual, &constant(&known)), loss(actual, &resampled(&known, &case.id))],
    })
}

/// The mean of `values`; 0 for none.
pub fn mean(values: impl Iterator<Item = f64>) -> f64 {
    let (mut sum, mut n) = (0.0, 0.0);
    for value in values {
        sum += value;
        n += 1.0;
    }
    if n > 0.0 { sum / n } else { 0.0 }
}

/// Figures of a group of cases.
#[derive(Debug, Clone, Copy)]
pub struct Summary {
    /// Cases.
    pub n: usize,
    /// Share held by the 50, 80 and 90 % spans.
    pub held: [f64; 3],
    /// Mean loss.
    pub loss: f64,
    /// Mean loss of each baseline.
    pub baselines: [f64; 2],
    /// Median relative error of the likely day.
    pub error: f64,
}

impl Summary {
    /// Sums up `scored`.
    pub fn of(scored: &[&Scored]) -> Self {
        let held = [0, 1, 2].map(|i| mean(scored.iter().map(|s| f64::from(u8::from(s.holds[i])))));
        let mut errors: Vec<f64> = scored.iter().map(|s| s.error).collect();
        errors.sort_by(f64::total_cmp);
        let n = errors.len();
        let error = match n {
            0 => 0.0,
            _ if n % 2 == 1 => errors[n / 2],
            _ => (errors[n / 2 - 1] + errors[n / 2]) / 2.0,
        };
        Self {
            n,
            held,
            loss: mean(scored.iter().map(|s| s.loss)),
            baselines: [0, 1].map(|i| mean(scored.iter().map(|s| s.baselines[i]))),
            error,
        }
    }

    /// Loss over the better baseline's.
    pub fn ratio(&self) -> f64 {
        self.loss / self.baselines[0].min(self.baselines[1])
    }
}

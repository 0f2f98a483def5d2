//! The fan chart: how many picks are likely to be woven by each coming day.

use chrono::NaiveDate;
use serde::Serialize;

use crate::projection::Projection;

/// Steps of the work at which the quantiles are calculated; between them they are interpolated.
const STEPS: usize = 24;
/// Normal deviates of 10, 25, 50, 75 and 90 per cent.
const DEVIATES: [f64; 5] =
    [-1.281_551_565_544_600_4, -0.674_489_750_196_081_7, 0.0, 0.674_489_750_196_081_7, 1.281_551_565_544_600_4];

/// Picks woven in all by the end of a coming day, as [`Projection::woven`]; with several kinds of section left,
/// each kind is assumed to advance in step.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct FanChartPoint {
    /// The day.
    pub day: NaiveDate,
    /// Fewer than this 1 time in 10.
    pub p10: f64,
    /// Fewer than this 1 time in 4.
    pub p25: f64,
    /// As likely fewer as more.
    pub p50: f64,
    /// More than this 1 time in 4.
    pub p75: f64,
    /// More than this 1 time in 10.
    pub p90: f64,
}

impl Projection {
    /// The chart from today to the day by which the warp is off the loom 9 times in 10, in at most `points` points (at least 2).
    /// Empty when nothing is left to weave.
    #[must_use]
    pub fn fan_chart(&self, points: usize) -> Vec<FanChartPoint> {
        let Some(_) = self.completion.effort else {
            return Vec::new();
        };
        let calendar = &self.completion.calendar;
        let done = self.woven.last().map_or(0.0, |w| w.1);
        let to_weave = self.left.amount - self.left.set_up;
        // For each deviate, the effort at which each step of the work is reached.
        let lines = DEVIATES.map(|z| {
            let mut line = vec![(0.0, 0.0)];
            let mut reached = 0.0_f64;
            for step in 1..=STEPS {
                let picks = to_weave * step as f64 / STEPS as f64;
                reached = reached.max(self.pace.effort(picks + self.left.set_up, self.left.sd).effort_at(z));
                line.push((reached, picks));
            }
            line
        });
        let last = calendar.offset(self.off_loom.quantiles.p90).unwrap_or(0);
        let points = points.clamp(2, last.max(1) + 1);
        (0..points)
            .map(|i| {
                let offset = last * i / (points - 1);
                let effort = calendar.gained(offset);
                // A late day means few picks: the deviate of the day is the negative of that of the picks.
                let at = |index: usize| done + self.left.picks_per_amount * interpolated(&lines[index], effort);
                FanChartPoint { day: calendar.day(offset), p10: at(4), p25: at(3), p50: at(2), p75: at(1), p90: at(0) }
            })
            .collect()
    }
}

fn interpolated(line: &[(f64, f64)], effort: f64) -> f64 {
    let next = line.partition_point(|point| point.0 <= effort);
    match (line.get(next.wrapping_sub(1)), line.get(next)) {
        (Some(before), Some(after)) if after.0 > before.0 => {
            before.1 + (after.1 - before.1) * (effort - before.0) / (after.0 - before.0)
        }
        (Some(before), None) => before.1,
        _ => 0.0,
    }
}

//! The fan: how far the cloth is likely to be on each coming day.

use chrono::NaiveDate;
use serde::Serialize;

use crate::projection::Projection;

/// Steps of the work at which the fan is reckoned; between them it is drawn straight.
const STEPS: usize = 24;
/// Normal deviates of 10, 25, 50, 75 and 90 per cent.
const DEVIATES: [f64; 5] =
    [-1.281_551_565_544_600_4, -0.674_489_750_196_081_7, 0.0, 0.674_489_750_196_081_7, 1.281_551_565_544_600_4];

/// Picks woven in all by the end of a coming day, as [`Projection::woven`]; of a rest in several kinds of section,
/// each kind is taken to advance in step.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct FanPoint {
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
    /// The fan from today to the day it is off the loom 9 times in 10, in at most `points` points (at least 2).
    /// Empty when nothing is left to weave.
    #[must_use]
    pub fn fan(&self, points: usize) -> Vec<FanPoint> {
        let Some(_) = self.reckoning.law else {
            return Vec::new();
        };
        let calendar = &self.reckoning.calendar;
        let done = self.woven.last().map_or(0.0, |w| w.1);
        let to_weave = self.left.amount - self.left.set_up;
        // For each deviate, the effort at which each step of the work is reached.
        let lines = DEVIATES.map(|z| {
            let mut line = vec![(0.0, 0.0)];
            let mut reached = 0.0_f64;
            for step in 1..=STEPS {
                let picks = to_weave * step as f64 / STEPS as f64;
                reached = reached.max(self.pace.law(picks + self.left.set_up, self.left.sd).effort_at(z));
                line.push((reached, picks));
            }
            line
        });
        let last = calendar.offset(self.off_loom.span.p90).unwrap_or(0);
        let points = points.clamp(2, last.max(1) + 1);
        (0..points)
            .map(|i| {
                let offset = last * i / (points - 1);
                let effort = calendar.gained(offset);
                // Reached late is woven little: the deviate of the day is the opposite of that of the picks.
                let at = |index: usize| done + self.left.picks_per_amount * along(&lines[index], effort);
                FanPoint { day: calendar.day(offset), p10: at(4), p25: at(3), p50: at(2), p75: at(1), p90: at(0) }
            })
            .collect()
    }
}

fn along(line: &[(f64, f64)], effort: f64) -> f64 {
    let next = line.partition_point(|point| point.0 <= effort);
    match (line.get(next.wrapping_sub(1)), line.get(next)) {
        (Some(before), Some(after)) if after.0 > before.0 => {
            before.1 + (after.1 - before.1) * (effort - before.0) / (after.0 - before.0)
        }
        (Some(before), None) => before.1,
        _ => 0.0,
    }
}

//! Pace compared: what one warp took, and how pace changes with something else over several.

use chrono::NaiveDate;
use serde::Serialize;

use crate::cleaning::clean;
use crate::error::QuestionError;
use crate::math;
use crate::notes::Note;
use crate::question::{Question, WovenStretch};
use crate::section_pace::KindPace;

/// What one warp took.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WarpPace {
    /// Hours at the loom over the timed sittings, forgotten timers counted shorter (see [`Note::LongSitting`]).
    pub hours: f64,
    /// Days with usable minutes.
    pub timed_days: usize,
    /// Sittings in all.
    pub sittings: usize,
    /// Days on which more was woven than unwoven.
    pub weaving_days: usize,
    /// Days from the first to the last sitting, both counted; 0 without sittings.
    pub days_first_to_last: u32,
    /// Net picks.
    pub picks: f64,
    /// Picks an hour over the timed sittings: picks summed, then divided by hours summed; `None` when none was
    /// timed.
    pub picks_per_hour: Option<f64>,
    /// Pace of each kind of section.
    pub kinds: Vec<KindPace>,
    /// Long or fast sittings that were counted differently.
    pub notes: Vec<Note>,
}

/// What the warp of `sittings` took, up to `today`.
///
/// # Errors
/// [`QuestionError::BadSitting`] when a sitting is no amount of weaving.
pub fn warp_pace(today: NaiveDate, sittings: &[WovenStretch]) -> Result<WarpPace, QuestionError> {
    let mut question = Question::new(today, 0.0);
    question.sittings = sittings.to_vec();
    let cleaned = clean(&question)?;
    let past: Vec<&WovenStretch> = sittings.iter().filter(|s| s.day <= today && !s.continues).collect();
    let minutes: f64 = cleaned.now.minutes.iter().sum();
    let (timed_picks, timed_minutes) = cleaned.now.timed;
    Ok(WarpPace {
        hours: minutes / 60.0,
        timed_days: cleaned.now.minutes.len(),
        sittings: past.len(),
        weaving_days: cleaned.now.days.len(),
        days_first_to_last: cleaned.now.span.map_or(0, |(first, last)| (last - first).num_days() as u32 + 1),
        picks: cleaned.now.picks,
        picks_per_hour: (timed_minutes > 0.0).then(|| timed_picks / timed_minutes * 60.0),
        kinds: cleaned.kinds.paces,
        notes: cleaned.notes,
    })
}

/// How one figure changes with another over several warps: a robust line.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Slope {
    /// Change of y for one unit of x: the median over all pairs (Theil 1950, Sen 1968).
    pub per_unit: f64,
    /// Lower end of the interval.
    pub low: f64,
    /// Upper end of the interval.
    pub high: f64,
    /// y at x = 0: median y − slope · median x.
    pub intercept: f64,
    /// Points behind it.
    pub points: usize,
}

impl Slope {
    /// Whether the interval leaves zero out: only then do these warps show that y changes with x.
    #[must_use]
    pub fn is_clear(&self) -> bool {
        self.low > 0.0 || self.high < 0.0
    }
}

/// Fewer points than this show no trend.
pub const FEWEST_FOR_SLOPE: usize = 4;
/// More points than this are refused: pairs grow with the square.
const MOST_POINTS: usize = 2000;

/// The Theil–Sen slope of `(x, y)` with a two-sided interval of `confidence` (0 to 1) after Sen 1968, ties included.
///
/// `None` with fewer than [`FEWEST_FOR_SLOPE`] finite points, more than 2,000, or all x the same.
#[must_use]
pub fn theil_sen(points: &[(f64, f64)], confidence: f64) -> Option<Slope> {
    let points: Vec<(f64, f64)> = points.iter().copied().filter(|p| p.0.is_finite() && p.1.is_finite()).collect();
    let n = points.len();
    let sensible = (FEWEST_FOR_SLOPE..=MOST_POINTS).contains(&n) && confidence > 0.0 && confidence < 1.0;
    if !sensible {
        return None;
    }
    let mut slopes = Vec::with_capacity(n * (n - 1) / 2);
    for (i, a) in points.iter().enumerate() {
        for b in &points[i + 1..] {
            if a.0 != b.0 {
                slopes.push((b.1 - a.1) / (b.0 - a.0));
            }
        }
    }
    slopes.sort_by(f64::total_cmp);
    let per_unit = sorted_median(&slopes)?;
    let middle = |pick: fn(&(f64, f64)) -> f64| {
        let mut values: Vec<f64> = points.iter().map(pick).collect();
        values.sort_by(f64::total_cmp);
        sorted_median(&values)
    };
    let intercept = middle(|p| p.1)? - per_unit * middle(|p| p.0)?;
    // Sen's variance of Kendall's sum, less what ties take from it.
    let term = |k: f64| k * (k - 1.0) * (2.0 * k + 5.0);
    let ties = |pick: fn(&(f64, f64)) -> f64| {
        let mut values: Vec<f64> = points.iter().map(pick).collect();
        values.sort_by(f64::total_cmp);
        values.chunk_by(|a, b| a == b).map(|same| term(same.len() as f64)).sum::<f64>()
    };
    let variance = (term(n as f64) - ties(|p| p.0) - ties(|p| p.1)) / 18.0;
    let reach = math::normal_quantile(0.5 + confidence / 2.0) * variance.max(0.0).sqrt();
    let count = slopes.len() as f64;
    let upper = (((count + reach) / 2.0).round_ties_even().max(0.0) as usize).min(slopes.len() - 1);
    let lower = ((count - reach) / 2.0).round_ties_even() - 1.0;
    let lower = if lower > 0.0 { lower as usize } else { 0 };
    Some(Slope { per_unit, low: slopes[lower.min(upper)], high: slopes[upper], intercept, points: n })
}

fn sorted_median(sorted: &[f64]) -> Option<f64> {
    let n = sorted.len();
    match n {
        0 => None,
        _ if n % 2 == 1 => Some(sorted[n / 2]),
        _ => Some((sorted[n / 2 - 1] + sorted[n / 2]) / 2.0),
    }
}

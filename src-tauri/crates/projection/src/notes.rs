//! What was noticed on the way, for her to know or to answer.

use chrono::NaiveDate;
use serde::Serialize;

/// Something noticed about the entries or the answer.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(tag = "note", rename_all = "kebab-case")]
pub enum Note {
    /// Sittings after today, left out.
    FutureSittings {
        /// How many.
        sittings: usize,
    },
    /// A forgotten timer, reckoned shorter.
    LongSitting {
        /// The day.
        day: NaiveDate,
        /// What was entered.
        minutes_entered: f64,
        /// What it counts as; `None` when her pace is not yet known, so it counts for none.
        minutes_reckoned: Option<f64>,
    },
    /// More than 3,000 picks an hour: asked about, left out of pace.
    FastSitting {
        /// The day.
        day: NaiveDate,
        /// Picks entered.
        picks: f64,
        /// Minutes entered.
        minutes: f64,
    },
    /// Sittings without picks, reckoned from their minutes or from a usual sitting.
    PicksGuessed {
        /// How many.
        sittings: usize,
    },
    /// Sittings without minutes: they count for the date, not for pace.
    MinutesMissing {
        /// How many.
        sittings: usize,
    },
    /// Nothing woven yet: reckoned from earlier warps.
    FromEarlierWarps {
        /// How many.
        warps: usize,
    },
    /// Nothing woven yet and no earlier warp: reckoned from common practice.
    FromCommonPractice,
    /// Nothing woven for long: is the warp resting?
    AskResting {
        /// Days since the last weaving day, days away not counted.
        days: u32,
    },
    /// Much faster of late than usual: it may be a sprint, and the span is the wider for it.
    FasterOfLate,
    /// A few weaving days say little: asking about how many days a week she weaves would help.
    AskDaysAWeek,
}

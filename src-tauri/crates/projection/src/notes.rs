//! What was noticed about the entries, to show or to ask about.

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
    /// A forgotten timer, counted shorter.
    LongSitting {
        /// The day.
        day: NaiveDate,
        /// What was entered.
        minutes_entered: f64,
        /// What it counts as; `None` when the pace is not known yet, so it counts for none.
        minutes_used: Option<f64>,
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
    /// Sittings without picks, estimated from their minutes or from a usual sitting.
    PicksGuessed {
        /// How many.
        sittings: usize,
    },
    /// Sittings without minutes: they count for the date, not for pace.
    MinutesMissing {
        /// How many.
        sittings: usize,
    },
    /// Nothing woven yet: estimated from earlier warps.
    FromEarlierWarps {
        /// How many.
        warps: usize,
    },
    /// Nothing woven yet and no earlier warp: estimated from common practice.
    FromCommonPractice,
    /// Nothing woven for long: is the warp resting?
    AskResting {
        /// Days since the last weaving day, days away not counted.
        days: u32,
    },
    /// Much faster of late than usual: it may be a sprint, and the distribution is wider because of it.
    FasterOfLate,
    /// Few weaving days are known: asking how many days a week the weaver works would help.
    AskDaysAWeek,
}

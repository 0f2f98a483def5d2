//! What is noted of the cloth: picks and tape readings, and where they disagree.

use crate::span::Estimate;
use crate::state::{RelaxedLength, WovenLength};

/// Picks of a sitting, net of what was unwoven: negative if more was taken out than put in.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PickCount {
    /// Counted one by one.
    Counted(i64),
    /// Given from memory.
    Guessed(i64),
    /// Not known: only a tape can tell what was woven here.
    Unknown,
}

impl PickCount {
    /// Net picks, where they are known.
    pub fn net(self) -> Option<f64> {
        match self {
            // Sittings hold thousands of picks; 2⁵³ is far.
            #[allow(clippy::cast_precision_loss)]
            Self::Counted(n) | Self::Guessed(n) => Some(n as f64),
            Self::Unknown => None,
        }
    }
}

/// How cloth was measured. All lengths from where counting began (the first pick).
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum TapeReading {
    /// All of it under tension, from the first pick.
    #[serde(rename = "total_mm")]
    Total(WovenLength),
    /// All of it, tension let off.
    #[serde(rename = "relaxed_total_mm")]
    RelaxedTotal(RelaxedLength),
    /// All of it under tension, given as about so much.
    #[serde(rename = "rough_total_mm")]
    ApproximateTotal(WovenLength),
    /// All of it, tension let off, given as about so much.
    #[serde(rename = "rough_relaxed_total_mm")]
    ApproximateRelaxedTotal(RelaxedLength),
    /// From the last of several marks set at a fixed distance.
    FromMarks {
        /// How many marks, the first one interval from the first pick.
        marks: u32,
        /// From mark to mark.
        #[serde(rename = "apart_mm")]
        apart: WovenLength,
        /// From the last mark to the fell.
        #[serde(rename = "from_last_mm")]
        from_last: WovenLength,
    },
    /// What was woven since the last reading.
    #[serde(rename = "since_last_mm")]
    SinceLast(WovenLength),
}

/// A reading as it is used: a total under tension.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UsedReading {
    /// Which observation it came from.
    pub observation: usize,
    /// The total and how well it is known.
    pub total: Estimate<WovenLength>,
    /// Net picks up to it, `None` if a sitting before it has none.
    pub picks: Option<f64>,
}

/// One sitting, or one look with the tape: picks first, then the reading at its end.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Observation {
    /// Picks woven, net.
    pub picks: PickCount,
    /// What was measured at its end.
    #[serde(rename = "taken")]
    pub tape: Option<TapeReading>,
}

/// Tape and counts apart by near a whole interval: a mark, or a turn of the tape, counted once too often or too rarely.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MissedInterval {
    /// The observation whose reading it is.
    pub observation: usize,
    /// Intervals that the counts see and the tape doesn't; negative if the tape has more.
    pub intervals: i64,
    /// The interval.
    pub apart: WovenLength,
    /// By the tape; still used.
    pub by_tape: WovenLength,
    /// By the counts alone.
    pub by_counts: WovenLength,
}

/// Where tape and counts do not agree, or do not tell everything.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Discrepancy {
    /// Near a whole interval missed.
    MissedInterval(MissedInterval),
    /// Tape and counts apart by more than their spreads explain.
    Apart {
        /// The observation whose reading it is.
        observation: usize,
        /// By the tape; used.
        by_tape: WovenLength,
        /// By the counts alone.
        by_counts: WovenLength,
    },
    /// A reading is less than the one before although nothing was unwoven.
    Shrunk {
        /// The observation whose reading it is.
        observation: usize,
        /// The one before.
        before: WovenLength,
        /// This one.
        now: WovenLength,
    },
    /// Sittings since the last reading have no picks: what they wove is missing from the total.
    Uncounted {
        /// How many.
        sittings: usize,
    },
}

//! What is noted at single moments, in a sitting or between two: the place in the sequence, a tape reading, a mark moved, a
//! weighing, a yarn taken up. And the order in which all that was woven and noted happened.
//!
//! A moment names the sitting it was noted in and how many picks of it were woven by then, or the sitting it came after. So it
//! keeps its place when picks of an earlier sitting are corrected, and no clock decides. What belongs to a sitting that was
//! removed goes with it, and comes back with it.

mod timeline;

use chrono::NaiveDate;
use fellmark_journal::{Record, RecordId};

pub use timeline::{Timeline, TimelineObservation, TimelineStep};

use crate::fields::{self, kind};
use crate::{Tape, TypedFields, read_tape};

/// When something was noted.
#[derive(Clone, Debug, PartialEq)]
pub struct Moment {
    /// Its record.
    pub id: RecordId,
    /// The day.
    pub on: NaiveDate,
    /// The sitting it was noted in or after; nothing before the first.
    pub sitting: Option<RecordId>,
    /// Net picks of that sitting by then; nothing after the sitting.
    pub picks_into: Option<i64>,
    /// When its first entry was written.
    pub first_at: String,
}

/// A part of the pick sequence.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// The opening border.
    Opening,
    /// A repeat.
    Repeat,
    /// The balance after the last repeat.
    Balance,
    /// The closing border.
    Closing,
}

impl Part {
    /// All of them, in the order they are woven.
    pub const ALL: [Self; 4] = [Self::Opening, Self::Repeat, Self::Balance, Self::Closing];

    /// The word it has in the journal and in forms.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Opening => "opening",
            Self::Repeat => "repeat",
            Self::Balance => "balance",
            Self::Closing => "closing",
        }
    }

    /// The part of a word.
    #[must_use]
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|part| part.word() == word)
    }
}

/// A place in the sequence that was set: the row that came next.
#[derive(Clone, Debug, PartialEq)]
pub struct PlaceSaid {
    /// When it was set.
    pub when: Moment,
    /// Which piece, from 0.
    pub piece: u32,
    /// Which part.
    pub part: Part,
    /// Which repeat, from 0; in balance and closing border how many were woven.
    pub repeat: u64,
    /// Which row, from 0.
    pub row: usize,
}

/// A tape laid on the cloth, a mark moved, a warp mark at the fell.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// When.
    pub when: Moment,
    /// What the tape said.
    pub tape: Option<Tape>,
    /// Whether the mark was moved to the fell.
    pub mark_set: bool,
    /// How far along the warp, from the first pick, the warp mark at the fell was tied, millimetres.
    pub warp_mark_mm: Option<f64>,
}

/// What is left of a yarn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum YarnLeft {
    /// By the scale, grams.
    Mass(f64),
    /// By its length, millimetres.
    Length(f64),
}

/// What was found to be left of a yarn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weighed {
    /// How much.
    pub left: YarnLeft,
    /// Given as about so much.
    pub rough: bool,
}

/// A yarn weighed or measured.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighing {
    /// When.
    pub when: Moment,
    /// The yarn.
    pub weft: RecordId,
    /// What was left.
    pub found: Weighed,
}

/// A yarn taken up: from here on it is woven.
#[derive(Clone, Debug, PartialEq)]
pub struct Join {
    /// When.
    pub when: Moment,
    /// The yarn.
    pub weft: RecordId,
}

/// Everything noted at single moments of a warp.
#[derive(Clone, Debug, Default)]
pub struct Moments {
    /// Places in the sequence, the one said last at the end.
    pub places: Vec<PlaceSaid>,
    /// Tape readings and marks, in order of writing.
    pub readings: Vec<Reading>,
    /// Weighings, in order of writing.
    pub weighings: Vec<Weighing>,
    /// Yarns taken up, in order of writing.
    pub joins: Vec<Join>,
}

fn read_moment(record: &Record) -> Moment {
    let get = TypedFields(record);
    Moment {
        id: record.id.clone(),
        on: get.day(fields::moment::ON).unwrap_or_else(|| record.first_at.time().unwrap_or_default().date_naive()),
        sitting: get.text(fields::moment::SITTING).and_then(|id| id.parse().ok()),
        picks_into: get.whole(fields::moment::PICKS_INTO),
        first_at: record.first_at.to_string(),
    }
}

impl Moments {
    /// Takes in a record that is none of a warp's other kinds; one that says nothing this version understands is passed over.
    pub fn add(&mut self, record: &Record) {
        let get = TypedFields(record);
        let when = read_moment(record);
        match record.kind.as_str() {
            kind::PLACE => {
                let from_one = |field: &str| get.whole(field).and_then(|n| u64::try_from(n).ok());
                let Some(part) = get.text(fields::place::SECTION).and_then(|word| Part::from_word(&word)) else {
                    return;
                };
                let repeat = from_one(fields::place::REPEAT).unwrap_or(1);
                let in_repeat = part == Part::Repeat;
                self.places.push(PlaceSaid {
                    when,
                    piece: from_one(fields::place::PIECE).and_then(|n| u32::try_from(n).ok()).unwrap_or(1).max(1) - 1,
                    part,
                    repeat: if in_repeat { repeat.max(1) - 1 } else { repeat }.min(1_000_000),
                    row: from_one(fields::place::ROW).and_then(|n| usize::try_from(n).ok()).unwrap_or(1).max(1) - 1,
                });
            }
            kind::READING => {
                let reading = Reading {
                    when,
                    tape: read_tape(&get),
                    mark_set: get.flag(fields::sitting::MARK_SET),
                    warp_mark_mm: get.number(fields::reading::WARP_MARK_MM).filter(|mm| *mm > 0.0),
                };
                if reading.tape.is_some() || reading.mark_set || reading.warp_mark_mm.is_some() {
                    self.readings.push(reading);
                }
            }
            kind::WEIGHING => {
                let grams = get.number(fields::weighing::LEFT_G).filter(|g| *g >= 0.0).map(YarnLeft::Mass);
                let length = get.number(fields::weighing::LEFT_MM).filter(|mm| *mm >= 0.0).map(YarnLeft::Length);
                let weft = get.text(fields::weighing::WEFT).and_then(|id| id.parse().ok());
                if let (Some(left), Some(weft)) = (grams.or(length), weft) {
                    let rough = get.flag(fields::sitting::ROUGH);
                    self.weighings.push(Weighing { when, weft, found: Weighed { left, rough } });
                }
            }
            kind::JOIN => {
                if let Some(weft) = get.text(fields::weighing::WEFT).and_then(|id| id.parse().ok()) {
                    self.joins.push(Join { when, weft });
                }
            }
            _ => {}
        }
    }

    /// Puts everything into an order that depends on the entries alone.
    pub fn order(&mut self) {
        let by_writing = |a: &Moment, b: &Moment| (&a.first_at, &a.id).cmp(&(&b.first_at, &b.id));
        self.places.sort_by(|a, b| by_writing(&a.when, &b.when));
        self.readings.sort_by(|a, b| by_writing(&a.when, &b.when));
        self.weighings.sort_by(|a, b| by_writing(&a.when, &b.when));
        self.joins.sort_by(|a, b| by_writing(&a.when, &b.when));
    }
}

/// Sample records for tests.
#[cfg(any(test, feature = "test-support"))]
#[allow(clippy::unwrap_used, clippy::missing_panics_doc, clippy::must_use_candidate)]
pub mod tests {
    use super::*;

    /// A moment in or after a sitting, on a day of November 2026.
    pub fn moment(sitting: Option<&RecordId>, picks_into: Option<i64>, day: u32) -> Moment {
        Moment {
            id: format!("m{day:019}").parse().unwrap(),
            on: NaiveDate::from_ymd_opt(2026, 11, day).unwrap(),
            sitting: sitting.cloned(),
            picks_into,
            first_at: format!("2026-11-{day:02}"),
        }
    }
}

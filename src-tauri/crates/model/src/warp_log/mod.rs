//! What the journal's records mean: warps, weft yarns, sittings and photos, read leniently.
//!
//! A field that is missing, or of a type this version does not know, counts as not known. Where a field holds two answers the
//! one in use is read.

mod log;
mod read;

use chrono::NaiveDate;
use fellmark_cloth::fibre::Fibre;
use fellmark_cloth::learned::Finishing;
use fellmark_journal::{Key, RecordId};

use crate::WarpState;
use crate::availability::StatedAvailability;
use crate::cloth_edge::ClothEdge;
use crate::off_loom::OffMeasures;

pub use log::{WarpLog, warp, warp_log, warp_logs};
pub use read::TypedFields;
pub use read::read_tape;

/// Which of the three lengths a figure is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum ClothState {
    /// After the wash.
    #[default]
    Finished,
    /// Cut off, before the wash.
    OffLoom,
    /// On the loom, under tension.
    UnderTension,
}

impl ClothState {
    /// The word it has in the journal and in forms.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Finished => "finished",
            Self::OffLoom => "off_loom",
            Self::UnderTension => "under_tension",
        }
    }

    /// The state of a word.
    #[must_use]
    pub fn from_word(word: &str) -> Option<Self> {
        [Self::Finished, Self::OffLoom, Self::UnderTension].into_iter().find(|state| state.word() == word)
    }
}

/// A warp as the journal has it.
#[derive(Clone, Debug)]
pub struct Warp {
    /// Record id.
    pub id: RecordId,
    /// Every head of the record: what a change answers.
    pub seen: Vec<Key>,
    /// Name, never empty.
    pub name: String,
    /// Day it was begun.
    pub begun_on: Option<NaiveDate>,
    /// Where it is.
    pub state: WarpState,
    /// Since when it is there.
    pub state_on: Option<NaiveDate>,
    /// Warp wound, millimetres.
    pub wound_mm: Option<f64>,
    /// Loom waste, millimetres.
    pub waste_mm: Option<f64>,
    /// Length wanted of each piece, millimetres.
    pub wanted_mm: Option<f64>,
    /// The same of each piece where they are not alike, as many as there are pieces; empty where they are.
    pub wanted_each_mm: Vec<f64>,
    /// What length that is.
    pub wanted_state: ClothState,
    /// Loss of length from the loom to finished, per cent.
    pub shrinkage_percent: Option<f64>,
    /// What its yarn is made of.
    pub fibre: Option<Fibre>,
    /// How it is finished.
    pub finish: Finishing,
    /// Number of pieces, at least one.
    pub pieces: u32,
    /// Fringe at each end of each piece, millimetres.
    pub fringe_mm: f64,
    /// Whether the outermost fringes come out of the waste.
    pub fringe_from_waste: bool,
    /// Warp between two pieces besides their fringes, millimetres.
    pub gap_mm: f64,
    /// Picks per 10 cm under tension.
    pub picks_per_10cm: Option<f64>,
    /// Ends per 10 cm in the reed or heddle.
    pub sett_per_10cm: Option<f64>,
    /// Units of warp that 100 units of cloth under tension use.
    pub warp_per_100: Option<f64>,
    /// Width in the reed, millimetres.
    pub reed_width_mm: Option<f64>,
    /// What one pick is longer than the reed width, per cent.
    pub weft_allowance_percent: Option<f64>,
    /// `plain`, `pick_up` or nothing.
    pub weave: Option<String>,
    /// Rows of the pick sequence.
    pub rows: Rows,
    /// The threading as the weaver wrote it.
    pub threading: Vec<String>,
    /// What each numbered shed lifts, as the weaver wrote it.
    pub shed_lifts: Vec<String>,
    /// Picks that one press counts, 1 or 2.
    pub picks_per_tap: i64,
    /// The pick-up on the stick: slot ends down at each edge, up in a group, down between groups.
    pub stick: Option<[usize; 3]>,
    /// Day of the gift.
    pub gift_on: Option<NaiveDate>,
    /// About how many days a week the weaver works.
    pub days_a_week: Option<f64>,
    /// About how many minutes the weaver states to weave on a weaving day.
    pub minutes_a_day: Option<f64>,
    /// The days that the weaver stated.
    pub said: StatedAvailability,
    /// Whether it is for a young child.
    pub for_child: bool,
    /// A note.
    pub note: Option<String>,
    /// What was measured when it was cut off, and after the wash.
    pub off: OffMeasures,
    /// Hours of weaving that its plan gave; nothing where it was begun without one.
    pub planned_hours: Option<f64>,
    /// The edge that its plan gives it; nothing where it was begun without one.
    pub planned_edge: Option<ClothEdge>,
    /// What earlier warps lost in length when the tension went; nothing where that is not known.
    pub learned_release: Option<LearnedRelease>,
}

impl Warp {
    /// How the ends of its pieces are finished.
    #[must_use]
    pub fn edge(&self) -> ClothEdge {
        if self.fringe_mm > 0.0 { ClothEdge::Fringe } else { self.planned_edge.unwrap_or(ClothEdge::Hem) }
    }
}

/// What earlier warps lost in length when the tension went.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LearnedRelease {
    /// Length off the loom ÷ length under tension.
    pub ratio: f64,
    /// Its standard deviation.
    pub deviation: f64,
    /// How many warps it comes from.
    pub warps: usize,
}

/// The rows of a pick sequence, as the weaver wrote them.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Rows {
    /// Opening border.
    pub opening: Vec<String>,
    /// Repeat.
    pub repeat: Vec<String>,
    /// What balances the last repeat.
    pub balance: Vec<String>,
    /// Closing border.
    pub closing: Vec<String>,
}

/// A weft yarn of a warp.
#[derive(Clone, Debug)]
pub struct Weft {
    /// Record id.
    pub id: RecordId,
    /// Every head of the record.
    pub seen: Vec<Key>,
    /// When its first entry was written: the yarns' order.
    pub first_at: String,
    /// Its name.
    pub name: Option<String>,
    /// Weight at the start, grams.
    pub start_mass_g: Option<f64>,
    /// Length at the start, millimetres.
    pub start_length_mm: Option<f64>,
    /// Whether the weight was given roughly.
    pub start_mass_rough: bool,
    /// Whether the length was given roughly.
    pub start_length_rough: bool,
    /// What the empty shuttle or bobbin it is on weighs, grams.
    pub tare_g: Option<f64>,
}

/// What a tape said.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tape {
    /// The reading, millimetres.
    pub mm: f64,
    /// Measured from the last mark instead of the start.
    pub from_mark: bool,
    /// Measured off tension.
    pub relaxed: bool,
    /// Given as about so much.
    pub rough: bool,
}

/// A sitting as the journal has it.
#[derive(Clone, Debug)]
pub struct Sitting {
    /// Record id.
    pub id: RecordId,
    /// Every head of the record.
    pub seen: Vec<Key>,
    /// The day.
    pub on: NaiveDate,
    /// Time it began, `HH:MM`.
    pub started: Option<String>,
    /// When its first entry was written: orders the sittings of a day that carry no time.
    pub first_at: String,
    /// The device that wrote it first.
    pub by: String,
    /// Minutes at the loom.
    pub minutes: Option<f64>,
    /// Picks woven less picks unwoven.
    pub picks: Option<i64>,
    /// What was measured at its end.
    pub tape: Option<Tape>,
    /// Whether a mark was set at the fell.
    pub mark_set: bool,
    /// Weft left on the scale, grams.
    pub weft_left_g: Option<f64>,
    /// A pick was begun and not beaten at its end.
    pub pick_begun: bool,
    /// A note.
    pub note: Option<String>,
    /// Whether the figures are rough.
    pub rough: bool,
    /// Removed on one device, edited on another.
    pub contested: bool,
}

/// A photo as the journal has it.
#[derive(Clone, Debug)]
pub struct Photo {
    /// Record id.
    pub id: RecordId,
    /// The sitting it belongs to.
    pub sitting: Option<RecordId>,
    /// Hash of the stored bytes.
    pub hash: String,
}

/// Sample records for tests.
#[cfg(any(test, feature = "test-support"))]
#[allow(clippy::unwrap_used, clippy::missing_panics_doc, clippy::must_use_candidate)]
pub mod tests {
    use super::*;

    /// A warp of 2.5 m, 1.8 m wanted as woven, 40 picks per 10 cm, on the loom since 1 November 2026.
    pub fn log() -> WarpLog {
        WarpLog::new(Warp {
            id: "w0000000000000000001".parse().unwrap(),
            seen: Vec::new(),
            name: "test warp".into(),
            begun_on: NaiveDate::from_ymd_opt(2026, 11, 1),
            state: WarpState::OnTheLoom,
            state_on: NaiveDate::from_ymd_opt(2026, 11, 1),
            wound_mm: Some(2500.0),
            waste_mm: Some(450.0),
            wanted_mm: Some(1800.0),
            wanted_each_mm: Vec::new(),
            wanted_state: ClothState::UnderTension,
            shrinkage_percent: None,
            fibre: None,
            finish: Finishing::Washed,
            pieces: 1,
            fringe_mm: 0.0,
            fringe_from_waste: false,
            gap_mm: 0.0,
            picks_per_10cm: Some(40.0),
            sett_per_10cm: None,
            warp_per_100: Some(110.0),
            reed_width_mm: Some(200.0),
            weft_allowance_percent: None,
            weave: None,
            rows: Rows::default(),
            threading: Vec::new(),
            shed_lifts: Vec::new(),
            picks_per_tap: 1,
            stick: None,
            gift_on: None,
            days_a_week: None,
            minutes_a_day: None,
            said: StatedAvailability::default(),
            for_child: false,
            note: None,
            off: OffMeasures::default(),
            planned_hours: None,
            planned_edge: None,
            learned_release: None,
        })
    }

    /// A sitting of picks, with or without a tape reading from the start.
    pub fn sitting(day: u32, picks: Option<i64>, measured_mm: Option<f64>) -> Sitting {
        Sitting {
            id: format!("s{day:019}").parse().unwrap(),
            seen: Vec::new(),
            on: NaiveDate::from_ymd_opt(2026, 11, day).unwrap(),
            started: None,
            first_at: String::new(),
            by: "laptop".into(),
            minutes: Some(40.0),
            picks,
            tape: measured_mm.map(|mm| Tape { mm, from_mark: false, relaxed: false, rough: false }),
            mark_set: false,
            weft_left_g: None,
            pick_begun: false,
            note: None,
            rough: false,
            contested: false,
        }
    }
}

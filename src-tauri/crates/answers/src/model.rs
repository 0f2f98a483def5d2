//! What the journal's records mean: warps, weft yarns, sittings and photos, read leniently.
//!
//! A field that is missing, or of a type this version does not know, counts as not known. Where a field holds two answers the
//! one in use is read.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use fellmark_journal::{Key, Kind, Presence, Record, RecordId, State};
use serde_json::Value;

use crate::availability::Said;
use crate::fields::{self, kind};
use crate::finishing::{self, Step};
use crate::moments::Moments;
use crate::off_loom::{self, OffMeasures};
use crate::view::WarpState;

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
    /// What length that is.
    pub wanted_state: ClothState,
    /// Loss of length from the loom to finished, per cent.
    pub shrinkage_percent: Option<f64>,
    /// Number of pieces, at least one.
    pub pieces: u32,
    /// Fringe at each end of each piece, millimetres.
    pub fringe_mm: f64,
    /// Whether the outermost fringes come out of the waste.
    pub fringe_from_waste: bool,
    /// Picks per 10 cm under tension.
    pub picks_per_10cm: Option<f64>,
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
    /// Picks that one press counts, 1 or 2.
    pub picks_per_tap: i64,
    /// The pick-up on the stick: slot ends down at each edge, up in a group, down between groups.
    pub stick: Option<[usize; 3]>,
    /// Day of the gift.
    pub gift_on: Option<NaiveDate>,
    /// About how many days a week she weaves.
    pub days_a_week: Option<f64>,
    /// What she said about her days.
    pub said: Said,
    /// Whether it is for a young child.
    pub for_child: bool,
    /// A note.
    pub note: Option<String>,
    /// What was measured when it was cut off, and after the wash.
    pub off: OffMeasures,
}

/// The rows of a pick sequence, as she wrote them.
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

/// One warp with all that belongs to it.
#[derive(Clone, Debug)]
pub struct WarpLog {
    /// The warp.
    pub warp: Warp,
    /// Its weft yarns, in order of writing.
    pub wefts: Vec<Weft>,
    /// Its sittings in order of time.
    pub sittings: Vec<Sitting>,
    /// Sittings that were removed, in order of time.
    pub removed: Vec<Sitting>,
    /// Its photos in order of writing.
    pub photos: Vec<Photo>,
    /// What was noted at single moments.
    pub moments: Moments,
    /// The sitting that is going on on this device, which the log does not hold yet.
    pub running: Option<RecordId>,
    /// Its finishing steps in their order; none before the first was written.
    pub steps: Vec<Step>,
    /// Records of it in which a field holds two answers, or which were removed here and edited there.
    pub to_settle: Vec<Record>,
}

/// Typed look-ups in a record.
pub struct Fields<'a>(pub &'a Record);

impl Fields<'_> {
    fn value(&self, field: &str) -> Option<&Value> {
        self.0.get(field).filter(|value| !value.is_null())
    }

    /// Text that is not empty.
    #[must_use]
    pub fn text(&self, field: &str) -> Option<String> {
        self.value(field)?.as_str().filter(|text| !text.is_empty()).map(str::to_owned)
    }

    /// A finite number.
    #[must_use]
    pub fn number(&self, field: &str) -> Option<f64> {
        self.value(field)?.as_f64().filter(|number| number.is_finite())
    }

    /// A whole number.
    #[must_use]
    pub fn whole(&self, field: &str) -> Option<i64> {
        let value = self.value(field)?;
        value.as_i64().or_else(|| {
            let number = value.as_f64()?.round();
            // Beyond 2^53 a float no longer names one whole number.
            (number.abs() < 9.0e15).then_some(number as i64)
        })
    }

    /// A day.
    #[must_use]
    pub fn day(&self, field: &str) -> Option<NaiveDate> {
        self.value(field)?.as_str()?.parse().ok()
    }

    /// A yes.
    #[must_use]
    pub fn flag(&self, field: &str) -> bool {
        self.value(field).and_then(Value::as_bool).unwrap_or(false)
    }

    /// A list of texts.
    #[must_use]
    pub fn texts(&self, field: &str) -> Vec<String> {
        let list = self.value(field).and_then(Value::as_array);
        list.map(|items| items.iter().filter_map(|item| item.as_str().map(str::to_owned)).collect()).unwrap_or_default()
    }
}

fn positive(number: f64) -> Option<f64> {
    (number > 0.0).then_some(number)
}

fn read_warp(record: &Record) -> Warp {
    let get = Fields(record);
    let state = match get.text(fields::warp::STATE).as_deref() {
        _ if record.presence == Presence::Gone => WarpState::Removed,
        Some("resting") => WarpState::Resting,
        Some("off_the_loom") => WarpState::OffTheLoom,
        _ => WarpState::OnTheLoom,
    };
    Warp {
        id: record.id.clone(),
        seen: record.heads.clone(),
        name: get.text(fields::warp::NAME).unwrap_or_else(|| "a warp without a name".into()),
        begun_on: get.day(fields::warp::BEGUN_ON),
        state,
        state_on: get.day(fields::warp::STATE_ON),
        wound_mm: get.number(fields::warp::WOUND_MM).and_then(positive),
        waste_mm: get.number(fields::warp::WASTE_MM).filter(|mm| *mm >= 0.0),
        wanted_mm: get.number(fields::warp::WANTED_MM).and_then(positive),
        wanted_state: get
            .text(fields::warp::WANTED_STATE)
            .and_then(|word| ClothState::from_word(&word))
            .unwrap_or_default(),
        shrinkage_percent: get.number(fields::warp::SHRINKAGE_PERCENT).filter(|percent| *percent < 100.0),
        pieces: get.whole(fields::warp::PIECES).and_then(|n| u32::try_from(n).ok()).unwrap_or(1).clamp(1, 200),
        fringe_mm: get.number(fields::warp::FRINGE_MM).and_then(positive).unwrap_or(0.0),
        fringe_from_waste: get.flag(fields::warp::FRINGE_FROM_WASTE),
        picks_per_10cm: get.number(fields::warp::PICKS_PER_10CM).and_then(positive),
        warp_per_100: get.number(fields::warp::WARP_PER_100_CLOTH).and_then(positive),
        reed_width_mm: get.number(fields::warp::REED_WIDTH_MM).and_then(positive),
        weft_allowance_percent: get.number(fields::warp::WEFT_ALLOWANCE_PERCENT),
        weave: get.text(fields::warp::WEAVE),
        rows: Rows {
            opening: get.texts(fields::warp::OPENING_ROWS),
            repeat: get.texts(fields::warp::REPEAT_ROWS),
            balance: get.texts(fields::warp::BALANCE_ROWS),
            closing: get.texts(fields::warp::CLOSING_ROWS),
        },
        picks_per_tap: get.whole(fields::warp::PICKS_PER_TAP).unwrap_or(1).clamp(1, 2),
        stick: read_stick(&get),
        gift_on: get.day(fields::warp::GIFT_ON),
        days_a_week: get.number(fields::warp::DAYS_A_WEEK).filter(|days| *days > 0.0 && *days <= 7.0),
        said: Said::of(&get),
        for_child: get.flag(fields::warp::FOR_CHILD),
        note: get.text(fields::warp::NOTE),
        off: off_loom::read(&get),
    }
}

/// The pick-up across the width; nothing unless the ends that are up are given.
fn read_stick(get: &Fields<'_>) -> Option<[usize; 3]> {
    let ends = |field: &str| get.whole(field).and_then(|n| usize::try_from(n).ok()).filter(|n| *n <= 500);
    let up = ends(fields::warp::STICK_UP_ENDS).filter(|n| *n > 0)?;
    let down = ends(fields::warp::STICK_DOWN_ENDS).filter(|n| *n > 0).unwrap_or(1);
    Some([ends(fields::warp::STICK_EDGE_ENDS).unwrap_or(1), up, down])
}

fn read_weft(record: &Record) -> Weft {
    let get = Fields(record);
    Weft {
        id: record.id.clone(),
        seen: record.heads.clone(),
        first_at: record.first_at.to_string(),
        name: get.text(fields::weft::NAME),
        start_mass_g: get.number(fields::weft::START_MASS_G).and_then(positive),
        start_length_mm: get.number(fields::weft::START_LENGTH_MM).and_then(positive),
    }
}

/// A tape reading as a sitting and a reading carry it.
pub(crate) fn read_tape(get: &Fields<'_>) -> Option<Tape> {
    get.number(fields::sitting::MEASURED_MM).and_then(positive).map(|mm| Tape {
        mm,
        from_mark: get.text(fields::sitting::MEASURED_FROM).as_deref() == Some("mark"),
        relaxed: get.text(fields::sitting::MEASURED_TENSION).as_deref() == Some("relaxed"),
    })
}

/// A sitting without a day that can be read is dated by its first entry, so that it is never lost from sight.
fn read_sitting(record: &Record) -> Sitting {
    let get = Fields(record);
    let tape = read_tape(&get);
    Sitting {
        id: record.id.clone(),
        seen: record.heads.clone(),
        on: get.day(fields::sitting::ON).unwrap_or_else(|| record.first_at.time().unwrap_or_default().date_naive()),
        started: get.text(fields::sitting::STARTED),
        first_at: record.first_at.to_string(),
        by: record.by.to_string(),
        minutes: get.number(fields::sitting::MINUTES).and_then(positive),
        picks: get.whole(fields::sitting::PICKS),
        tape,
        mark_set: get.flag(fields::sitting::MARK_SET),
        weft_left_g: get.number(fields::sitting::WEFT_LEFT_G).filter(|mass| *mass >= 0.0),
        pick_begun: get.flag(fields::sitting::PICK_BEGUN),
        note: get.text(fields::sitting::NOTE),
        rough: get.flag(fields::sitting::ROUGH),
        contested: record.presence == Presence::RemovedHereEditedThere,
    }
}

fn read_photo(record: &Record) -> Option<Photo> {
    let get = Fields(record);
    Some(Photo {
        id: record.id.clone(),
        sitting: get.text(fields::photo::SITTING).and_then(|id| id.parse().ok()),
        hash: get.text(fields::photo::HASH)?,
    })
}

/// Whether a record waits for her to choose: a field with two answers, or removed here and edited there.
fn needs_settling(record: &Record) -> bool {
    record.presence == Presence::RemovedHereEditedThere || record.unsettled().any(|(field, _)| field != fields::ACT)
}

/// Every warp of a journal with what belongs to it, keyed by record id.
#[must_use]
pub fn warp_logs(state: &State) -> BTreeMap<RecordId, WarpLog> {
    let mut logs: BTreeMap<RecordId, WarpLog> = BTreeMap::new();
    for record in state.of_kind(&Kind::WARP) {
        logs.insert(record.id.clone(), WarpLog::new(read_warp(record)));
    }
    for record in state.records() {
        let Some(log) = record.place.warp_id().and_then(|warp| logs.get_mut(warp)) else { continue };
        log.add(record);
    }
    for log in logs.values_mut() {
        log.order();
    }
    logs
}

/// One warp with what belongs to it.
#[must_use]
pub fn warp_log(state: &State, warp: &RecordId) -> Option<WarpLog> {
    let record = state.record(warp).filter(|record| record.kind == Kind::WARP)?;
    let mut log = WarpLog::new(read_warp(record));
    for record in state.of_warp(warp) {
        log.add(record);
    }
    log.order();
    Some(log)
}

impl WarpLog {
    /// The log as if it held this sitting, in place of the one of its id if there is one.
    #[must_use]
    pub fn with_sitting(&self, sitting: Sitting) -> Self {
        let mut log = self.clone();
        if log.running.as_ref() == Some(&sitting.id) {
            log.running = None;
        }
        log.sittings.retain(|one| one.id != sitting.id);
        log.sittings.push(sitting);
        log.order();
        log
    }

    fn new(warp: Warp) -> Self {
        Self {
            warp,
            wefts: Vec::new(),
            sittings: Vec::new(),
            removed: Vec::new(),
            photos: Vec::new(),
            steps: Vec::new(),
            moments: Moments::default(),
            running: None,
            to_settle: Vec::new(),
        }
    }

    fn add(&mut self, record: &Record) {
        let gone = record.presence == Presence::Gone;
        match record.kind.as_str() {
            kind::SITTING if gone => self.removed.push(read_sitting(record)),
            kind::SITTING => self.sittings.push(read_sitting(record)),
            kind::WEFT if !gone => self.wefts.push(read_weft(record)),
            kind::PHOTO if !gone => self.photos.extend(read_photo(record)),
            kind::FINISHING if !gone => self.steps.push(finishing::read(record)),
            _ if !gone => self.moments.add(record),
            _ => {}
        }
        if !gone && needs_settling(record) {
            self.to_settle.push(record.clone());
        }
    }

    /// Puts everything into an order that depends on the entries alone.
    fn order(&mut self) {
        let by_time = |a: &Sitting, b: &Sitting| {
            let time = |s: &Sitting| (s.on, s.started.clone(), s.first_at.clone(), s.id.clone());
            time(a).cmp(&time(b))
        };
        self.sittings.sort_by(by_time);
        self.removed.sort_by(by_time);
        self.wefts.sort_by(|a, b| (&a.first_at, &a.id).cmp(&(&b.first_at, &b.id)));
        self.moments.order();
        self.photos.sort_by(|a, b| a.id.cmp(&b.id));
        self.steps.sort_by(|a, b| (a.position, &a.id).cmp(&(b.position, &b.id)));
        self.to_settle.sort_by(|a, b| a.id.cmp(&b.id));
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;

    /// A warp of 2.5 m, 1.8 m wanted as woven, 40 picks per 10 cm, on the loom since 1 November 2026.
    pub(crate) fn log() -> WarpLog {
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
            wanted_state: ClothState::UnderTension,
            shrinkage_percent: None,
            pieces: 1,
            fringe_mm: 0.0,
            fringe_from_waste: false,
            picks_per_10cm: Some(40.0),
            warp_per_100: Some(110.0),
            reed_width_mm: Some(200.0),
            weft_allowance_percent: None,
            weave: None,
            rows: Rows::default(),
            picks_per_tap: 1,
            stick: None,
            gift_on: None,
            days_a_week: None,
            said: Said::default(),
            for_child: false,
            note: None,
            off: OffMeasures::default(),
        })
    }

    /// A sitting of picks, with or without a tape reading from the start.
    pub(crate) fn sitting(day: u32, picks: Option<i64>, measured_mm: Option<f64>) -> Sitting {
        Sitting {
            id: format!("s{day:019}").parse().unwrap(),
            seen: Vec::new(),
            on: NaiveDate::from_ymd_opt(2026, 11, day).unwrap(),
            started: None,
            first_at: String::new(),
            by: "laptop".into(),
            minutes: Some(40.0),
            picks,
            tape: measured_mm.map(|mm| Tape { mm, from_mark: false, relaxed: false }),
            mark_set: false,
            weft_left_g: None,
            pick_begun: false,
            note: None,
            rough: false,
            contested: false,
        }
    }
}

//! Noting tape readings, marks, yarn that is left and a yarn taken up.

use chrono::NaiveDate;
use fellmark_journal::{EntryDraft, Kind, Place, RecordId};
use serde_json::json;

use super::{Commands, DuringSitting, moment_fields};
use crate::fields::{self, kind};
use crate::forms::{FieldMap, ReadingForm};
use crate::measures::Reader;
use crate::moments::{Moment, Reading, Weighed, YarnLeft};
use crate::yarn_left::parse_yarn_left;
use crate::{Tape, UserError, WarpLog, messages};

/// What was noted at one moment.
#[derive(Clone, Debug)]
pub struct AddedNote {
    /// The warp's log before it.
    pub before: WarpLog,
    /// The tape reading or the mark.
    pub reading: Option<Reading>,
    /// The yarns whose rest was weighed or measured.
    pub weighed: Vec<RecordId>,
    /// The yarn that was taken up.
    pub taken_up: Option<RecordId>,
}

/// A reading as read from its form.
struct ParsedReading {
    on: NaiveDate,
    tape: Option<Tape>,
    mark_set: bool,
    warp_mark_mm: Option<f64>,
    left: Vec<(RecordId, Weighed, Option<f64>)>,
    take_up: Option<RecordId>,
}

fn read_form(form: &ReadingForm, log: &WarpLog, read: Reader<'_>) -> Result<ParsedReading, UserError> {
    let on = read.day("on", &form.on)?.unwrap_or(read.today);
    // Once cloth is on the beam, the tape starts at the last mark.
    let from = match form.measured_from.trim() {
        "" if log.has_mark_by(on) => "mark",
        from => from,
    };
    let word = |field: &str, text: &str, words: [&str; 2]| match text.trim() {
        "" => Ok(false),
        text if text == words[0] => Ok(false),
        text if text == words[1] => Ok(true),
        other => Err(UserError::at(field, messages::neither_nor(other, words[0], words[1]))),
    };
    let from_mark = word("measured_from", from, ["start", "mark"])?;
    let relaxed = word("measured_tension", &form.measured_tension, ["tight", "relaxed"])?;
    let measured =
        read.roughly(&form.measured, |read, text| read.length("measured", messages::the_measured_length(), text))?;
    let known = |id: &str| log.wefts.iter().find(|weft| weft.id.as_str() == id).map(|weft| weft.id.clone());
    let mut left = Vec::new();
    for one in form.yarns_left.iter().filter(|one| !one.left.trim().is_empty()) {
        let yarn = known(&one.yarn).ok_or_else(|| UserError::new(messages::unknown_yarn()))?;
        let tare_g = log.wefts.iter().find(|weft| weft.id == yarn).and_then(|weft| weft.tare_g);
        let (found, tare_g) = parse_yarn_left(&format!("left_{}", one.yarn), &one.left, one.on_shuttle, tare_g, read)?;
        left.push((yarn, Weighed { rough: found.rough || form.rough, ..found }, tare_g));
    }
    let take_up = match form.take_up.trim() {
        "" => None,
        id => Some(known(id).ok_or_else(|| UserError::at("take_up", messages::unknown_yarn()))?),
    };
    let warp_mark_mm = read.length("warp_mark", messages::the_warp_mark_distance(), &form.warp_mark)?;
    let tape = measured.map(|(mm, rough)| Tape { mm, from_mark, relaxed, rough: rough || form.rough });
    let says_something =
        tape.is_some() || form.mark_set || warp_mark_mm.is_some() || !left.is_empty() || take_up.is_some();
    if !says_something {
        return Err(UserError::at("measured", messages::empty_reading()));
    }
    Ok(ParsedReading { on, tape, mark_set: form.mark_set, warp_mark_mm, left, take_up })
}

impl Commands<'_> {
    /// Notes a reading, weighings and a yarn taken up, as one action; what was noted.
    ///
    /// # Errors
    /// The first field that cannot be understood, or nothing is noted.
    pub fn add_note(
        &mut self,
        warp: &RecordId,
        form: &ReadingForm,
        during: &DuringSitting,
    ) -> Result<AddedNote, UserError> {
        let mut log = self.log(warp)?;
        log.running = during.as_ref().map(|(sitting, _)| sitting.clone());
        let read = read_form(form, &log, self.reader())?;
        let mut reading = None;
        let mut drafts = Vec::new();
        let moment = moment_fields(&log, during, read.on);
        let mut draft = |of_kind: &'static str, fields: FieldMap| {
            let mut set = moment.clone();
            set.extend(fields);
            drafts.push(EntryDraft::new(Place::warp(warp), RecordId::new(), Kind::fixed(of_kind), set));
        };
        if read.tape.is_some() || read.mark_set || read.warp_mark_mm.is_some() {
            reading = Some(as_reading(&read, &log, during));
            draft(kind::READING, reading_fields(&read));
        }
        for (yarn, found, tare_g) in &read.left {
            let mut set = FieldMap::new();
            set.insert(fields::weighing::WEFT.into(), json!(yarn));
            match found.left {
                YarnLeft::Mass(grams) => set.insert(fields::weighing::LEFT_G.into(), json!(grams)),
                YarnLeft::Length(mm) => set.insert(fields::weighing::LEFT_MM.into(), json!(mm)),
            };
            if let Some(tare_g) = tare_g {
                set.insert(fields::weighing::TARE_G.into(), json!(tare_g));
            }
            if found.rough {
                set.insert(fields::sitting::ROUGH.into(), json!(true));
            }
            draft(kind::WEIGHING, set);
        }
        if let Some(yarn) = &read.take_up {
            let mut set = FieldMap::new();
            set.insert(fields::weighing::WEFT.into(), json!(yarn));
            draft(kind::JOIN, set);
        }
        self.act(drafts)?;
        let weighed = read.left.into_iter().map(|(yarn, ..)| yarn).collect();
        Ok(AddedNote { before: log, reading, weighed, taken_up: read.take_up })
    }
}

fn reading_fields(read: &ParsedReading) -> FieldMap {
    let mut set = FieldMap::new();
    if let Some(tape) = read.tape {
        set.insert(fields::sitting::MEASURED_MM.into(), json!(tape.mm));
        let from = if tape.from_mark { "mark" } else { "start" };
        set.insert(fields::sitting::MEASURED_FROM.into(), json!(from));
        let tension = if tape.relaxed { "relaxed" } else { "tight" };
        set.insert(fields::sitting::MEASURED_TENSION.into(), json!(tension));
        if tape.rough {
            set.insert(fields::sitting::ROUGH.into(), json!(true));
        }
    }
    if read.mark_set {
        set.insert(fields::sitting::MARK_SET.into(), json!(true));
    }
    if let Some(mm) = read.warp_mark_mm {
        set.insert(fields::reading::WARP_MARK_MM.into(), json!(mm));
    }
    set
}

/// The reading as if the log held it, after everything else.
fn as_reading(read: &ParsedReading, log: &WarpLog, during: &DuringSitting) -> Reading {
    let after = log.sittings.iter().rev().find(|sitting| sitting.on <= read.on).map(|sitting| sitting.id.clone());
    let when = Moment {
        id: RecordId::new(),
        on: read.on,
        sitting: during.as_ref().map_or(after, |(sitting, _)| Some(sitting.clone())),
        picks_into: during.as_ref().map(|(_, picks)| *picks),
        first_at: "\u{7f}".into(),
    };
    Reading { when, tape: read.tape, mark_set: read.mark_set, warp_mark_mm: read.warp_mark_mm }
}

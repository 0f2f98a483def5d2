//! What she notes while weaving or beside it, through the same pen as everything else.

use chrono::NaiveDate;
use fellmark_journal::{Draft, Key, Kind, Place, RecordId};
use serde_json::json;

use crate::model::approximate;
use crate::model::commands::Commands;
use crate::model::fields::{self, kind};
use crate::model::forms::{self, FieldMap, some_text};
use crate::model::forms::{PlaceForm, ReadingForm, SittingForm, YarnForm};
use crate::model::measures::Reader;
use crate::model::moments::{Moment, Reading, Timeline, Weighed, YarnLeft};
use crate::model::sequence;
use crate::model::{Tape, UserError, WarpLog, Weft, messages, warp_log};

/// The sitting that is going on and its net picks, when something is noted in it.
pub type Going = Option<(RecordId, i64)>;

/// What was noted at one moment.
#[derive(Clone, Debug)]
pub struct Noted {
    /// The warp's log before it.
    pub before: WarpLog,
    /// The tape reading or the mark.
    pub reading: Option<Reading>,
    /// The yarns whose rest was weighed or measured.
    pub weighed: Vec<RecordId>,
    /// The yarn that was taken up.
    pub taken_up: Option<RecordId>,
}

/// The yarn that is on the shuttle: the one taken up last, at first the first one written down.
#[must_use]
pub fn yarn_in_use(log: &WarpLog) -> Option<&Weft> {
    let timeline = Timeline::of(log, 0);
    let known = |id: &RecordId| log.wefts.iter().find(|weft| weft.id == *id);
    timeline.steps.iter().rev().find_map(|step| step.then.joined.and_then(known)).or_else(|| log.wefts.first())
}

/// A reading as read from its form.
struct Read {
    on: NaiveDate,
    tape: Option<Tape>,
    mark_set: bool,
    warp_mark_mm: Option<f64>,
    left: Vec<(RecordId, Weighed, Option<f64>)>,
    take_up: Option<RecordId>,
}

fn read_form(form: &ReadingForm, log: &WarpLog, read: Reader<'_>) -> Result<Read, UserError> {
    let on = read.day("on", &form.on)?.unwrap_or(read.today);
    let word = |field: &str, text: &str, words: [&str; 2]| match text.trim() {
        "" => Ok(false),
        text if text == words[0] => Ok(false),
        text if text == words[1] => Ok(true),
        other => Err(UserError::at(field, messages::neither_nor(other, words[0], words[1]))),
    };
    let from_mark = word("measured_from", &form.measured_from, ["start", "mark"])?;
    let relaxed = word("measured_tension", &form.measured_tension, ["tight", "relaxed"])?;
    let measured =
        read.roughly(&form.measured, |read, text| read.length("measured", messages::the_measured_length(), text))?;
    let known = |id: &str| log.wefts.iter().find(|weft| weft.id.as_str() == id).map(|weft| weft.id.clone());
    let mut left = Vec::new();
    for one in form.yarns_left.iter().filter(|one| !one.left.trim().is_empty()) {
        let yarn = known(&one.yarn).ok_or_else(|| UserError::new(messages::unknown_yarn()))?;
        let tare_g = log.wefts.iter().find(|weft| weft.id == yarn).and_then(|weft| weft.tare_g);
        let (found, tare_g) = read_left(&format!("left_{}", one.yarn), &one.left, one.on_shuttle, tare_g, read)?;
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
    Ok(Read { on, tape, mark_set: form.mark_set, warp_mark_mm, left, take_up })
}

/// A weight or a length; a bare figure is a weight. What was taken off for the shuttle goes with it.
/// # Errors
/// It is neither, or the shuttle that is to be taken off is not known.
pub(crate) fn read_left(
    field: &str,
    text: &str,
    on_shuttle: bool,
    tare_g: Option<f64>,
    read: Reader<'_>,
) -> Result<(Weighed, Option<f64>), UserError> {
    let (text, said) = approximate::on_shuttle(text);
    let heard = approximate::hear(text);
    let (text, rough) = (&*heard.figure, heard.rough);
    match read.mass_or_zero(field, messages::the_yarn_left(), text) {
        Ok(Some(grams)) if on_shuttle || said => {
            let (grams, tare_g) = without_shuttle(field, grams, tare_g)?;
            Ok((Weighed { left: YarnLeft::Mass(grams), rough }, Some(tare_g)))
        }
        Ok(Some(grams)) => Ok((Weighed { left: YarnLeft::Mass(grams), rough }, None)),
        Ok(None) => Err(UserError::at(field, messages::nothing_left_written())),
        Err(no_mass) => match read.length_or_zero(field, messages::the_yarn_left(), text) {
            // A shuttle adds no length.
            Ok(Some(mm)) => Ok((Weighed { left: YarnLeft::Length(mm), rough }, None)),
            _ => Err(no_mass),
        },
    }
}

/// The yarn alone, and what was taken off: grams.
///
/// # Errors
/// What the shuttle weighs is not known, or it weighs more than the scale showed.
pub(crate) fn without_shuttle(field: &str, shown_g: f64, tare_g: Option<f64>) -> Result<(f64, f64), UserError> {
    let Some(tare_g) = tare_g else {
        return Err(UserError::at(field, messages::shuttle_weight_unknown()));
    };
    if tare_g > shown_g {
        return Err(UserError::at(field, messages::shuttle_heavier_than_shown(tare_g, shown_g)));
    }
    Ok((shown_g - tare_g, tare_g))
}

/// Where a moment on a day lies: in the sitting that goes on, or after the last one up to that day.
fn moment_fields(log: &WarpLog, going: &Going, on: NaiveDate) -> FieldMap {
    let mut set = FieldMap::new();
    set.insert(fields::moment::ON.into(), json!(on));
    match going {
        Some((sitting, picks)) => {
            set.insert(fields::moment::SITTING.into(), json!(sitting));
            set.insert(fields::moment::PICKS_INTO.into(), json!(picks));
        }
        None => {
            if let Some(last) = log.sittings.iter().rev().find(|sitting| sitting.on <= on) {
                set.insert(fields::moment::SITTING.into(), json!(last.id));
            }
        }
    }
    set
}

impl Commands<'_> {
    fn log(&self, warp: &RecordId) -> Result<WarpLog, UserError> {
        warp_log(self.journal.state(), warp).ok_or_else(|| UserError::new(messages::unknown_warp_id(warp.to_string())))
    }

    fn reader(&self) -> Reader<'_> {
        Reader { format: &self.format, today: self.today }
    }

    /// Says where in the sequence she is. No pick is added or taken away.
    ///
    /// # Errors
    /// There is no such place in the warp's sequence.
    pub fn say_place(&mut self, warp: &RecordId, form: &PlaceForm, going: &Going) -> Result<RecordId, UserError> {
        let mut log = self.log(warp)?;
        log.running = going.as_ref().map(|(sitting, _)| sitting.clone());
        let picks = going.as_ref().map_or(0, |(_, picks)| *picks);
        let mut set = sequence::read_place(form, &log, picks, self.reader())?;
        set.extend(moment_fields(&log, going, self.today));
        let id = RecordId::new();
        self.act(vec![Draft::new(Place::warp(warp), id.clone(), Kind::fixed(kind::PLACE), set)])?;
        Ok(id)
    }

    /// Notes a reading, weighings and a yarn taken up, as one action; what was noted.
    ///
    /// # Errors
    /// The first field that cannot be understood, or nothing is noted.
    pub fn note(&mut self, warp: &RecordId, form: &ReadingForm, going: &Going) -> Result<Noted, UserError> {
        let mut log = self.log(warp)?;
        log.running = going.as_ref().map(|(sitting, _)| sitting.clone());
        let read = read_form(form, &log, self.reader())?;
        let mut reading = None;
        let mut drafts = Vec::new();
        let moment = moment_fields(&log, going, read.on);
        let mut draft = |of_kind: &'static str, fields: FieldMap| {
            let mut set = moment.clone();
            set.extend(fields);
            drafts.push(Draft::new(Place::warp(warp), RecordId::new(), Kind::fixed(of_kind), set));
        };
        if read.tape.is_some() || read.mark_set || read.warp_mark_mm.is_some() {
            reading = Some(as_reading(&read, &log, going));
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
        Ok(Noted { before: log, reading, weighed, taken_up: read.take_up })
    }

    /// Takes the shuttle of the yarn being woven off what the scale showed in a sitting's form.
    ///
    /// # Errors
    /// What it weighs is not known, or it weighs more than the scale showed.
    pub(crate) fn take_shuttle_off(
        &self,
        form: &SittingForm,
        warp: &RecordId,
        read: &mut FieldMap,
    ) -> Result<(), UserError> {
        let (_, said) = approximate::on_shuttle(&form.weft_left);
        let Some(shown_g) = read.get(fields::sitting::WEFT_LEFT_G).and_then(serde_json::Value::as_f64) else {
            return Ok(());
        };
        if !said && !form.weft_on_shuttle {
            return Ok(());
        }
        let log = self.log(warp)?;
        let tare_g = yarn_in_use(&log).and_then(|yarn| yarn.tare_g);
        let (grams, tare_g) = without_shuttle("weft_left", shown_g, tare_g)?;
        read.insert(fields::sitting::WEFT_LEFT_G.into(), json!(grams));
        read.insert(fields::sitting::WEFT_TARE_G.into(), json!(tare_g));
        Ok(())
    }

    /// Adds a weft yarn to a warp; its id.
    ///
    /// # Errors
    /// The first field that cannot be understood, or nothing is said of it.
    pub fn add_yarn(&mut self, warp: &RecordId, form: &YarnForm) -> Result<RecordId, UserError> {
        self.record(warp, kind::WARP)?;
        let set = forms::filled(&read_yarn_form(form, self.reader())?);
        if set.is_empty() {
            return Err(UserError::at("name", messages::empty_yarn()));
        }
        let id = RecordId::new();
        self.act(vec![Draft::new(Place::warp(warp), id.clone(), Kind::fixed(kind::WEFT), set)])?;
        Ok(id)
    }

    /// Changes a weft yarn; `seen` are the entries that were on her screen (empty: what stands now).
    ///
    /// # Errors
    /// The first field that cannot be understood, or no such yarn.
    pub fn change_yarn(&mut self, yarn: &RecordId, form: &YarnForm, seen: &[Key]) -> Result<(), UserError> {
        let read = read_yarn_form(form, self.reader())?;
        let record = self.record(yarn, kind::WEFT)?;
        let drafts = self.change(record, &read, seen).into_iter().collect();
        self.act(drafts)
    }

    /// Sets after how many minutes a stretch is suggested; "off" or 0 is never.
    ///
    /// # Errors
    /// It is no number of minutes.
    pub fn set_stretch(&mut self, text: &str) -> Result<(), UserError> {
        let minutes = match text.trim() {
            "off" | "never" => 0,
            text => self
                .reader()
                .whole_between("stretch", messages::the_minutes(), text, 0, 240)?
                .ok_or_else(|| UserError::at("stretch", messages::stretch_without_number()))?,
        };
        self.set_setting(fields::settings::STRETCH_MINUTES, json!(minutes))
    }
}

fn read_yarn_form(form: &YarnForm, read: Reader<'_>) -> Result<FieldMap, UserError> {
    let mut set = FieldMap::new();
    set.insert(fields::weft::NAME.into(), json!(some_text(&form.name)));
    let mass = read.roughly(&form.mass, |read, text| read.mass("mass", messages::the_yarn_mass(), text))?;
    // Read as yarn is, in metres or yards.
    let length = read.roughly(&form.length, |read, text| read.length("weft_length", messages::the_yarn_length(), text));
    let length = length.map_err(|error| error.moved_to("length"))?;
    set.extend(forms::start_of_yarn(mass, length));
    set.insert(fields::weft::TARE_G.into(), json!(read.mass("tare", messages::the_empty_shuttle_mass(), &form.tare)?));
    Ok(set)
}

fn reading_fields(read: &Read) -> FieldMap {
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
fn as_reading(read: &Read, log: &WarpLog, going: &Going) -> Reading {
    let after = log.sittings.iter().rev().find(|sitting| sitting.on <= read.on).map(|sitting| sitting.id.clone());
    let when = Moment {
        id: RecordId::new(),
        on: read.on,
        sitting: going.as_ref().map_or(after, |(sitting, _)| Some(sitting.clone())),
        picks_into: going.as_ref().map(|(_, picks)| *picks),
        first_at: "\u{7f}".into(),
    };
    Reading { when, tape: read.tape, mark_set: read.mark_set, warp_mark_mm: read.warp_mark_mm }
}

//! Everything she can do to the log, in one place: the window and the command line write through the same pen.

mod begin_planned;
mod keep_plan;

use chrono::NaiveDate;
use fellmark_journal::{Draft, GONE, Journal, Key, Kind, Place, Record, RecordId, State};
use serde_json::{Value, json};

use crate::model::WarpState;
use crate::model::display_format::{DisplayFormat, Units};
use crate::model::fields::{self, kind};
use crate::model::forms::{self, FieldMap};
use crate::model::forms::{SittingForm, WarpForm};
use crate::model::undo::{self, Undoable};
use crate::model::{UserError, messages};

/// Writes into a journal, in the format of one reader.
pub struct Commands<'a> {
    /// The journal.
    pub journal: &'a mut Journal,
    /// How figures are read.
    pub format: DisplayFormat,
    /// Today by the device's calendar.
    pub today: NaiveDate,
}

/// The one record that holds the settings, so that all devices mean the same one.
fn settings_id() -> Option<RecordId> {
    fields::settings::RECORD.parse().ok()
}

/// The units chosen in the folder, if any were.
#[must_use]
pub fn chosen_units(state: &State) -> Option<Units> {
    let record = state.record(&settings_id()?).filter(|record| record.is_visible())?;
    Units::from_word(record.get(fields::settings::UNITS)?.as_str()?)
}

/// Whether the folder says that its data are invented.
#[must_use]
pub fn is_example(state: &State) -> bool {
    let record = settings_id().and_then(|id| state.record(&id));
    record.and_then(|record| record.get(fields::settings::EXAMPLE)).and_then(Value::as_bool).unwrap_or(false)
}

impl Commands<'_> {
    /// Begins a warp; its id.
    ///
    /// # Errors
    /// The first field that cannot be understood.
    pub fn begin_warp(&mut self, form: &WarpForm) -> Result<RecordId, UserError> {
        let (id, drafts) = self.begin_drafts(form)?;
        self.act(drafts)?;
        Ok(id)
    }

    /// What beginning a warp writes, with the id it will have.
    pub(crate) fn begin_drafts(&self, form: &WarpForm) -> Result<(RecordId, Vec<Draft>), UserError> {
        let read = forms::read_warp_form(form, &self.format, self.today)?;
        let id = RecordId::new();
        let place = Place::warp(&id);
        let mut set = forms::filled(&read.warp);
        set.insert(fields::warp::STATE.into(), json!("on_the_loom"));
        set.insert(fields::warp::STATE_ON.into(), json!(self.today));
        let mut drafts = vec![Draft::new(place.clone(), id.clone(), Kind::WARP, set)];
        let weft = forms::filled(&read.weft);
        if !weft.is_empty() {
            drafts.push(Draft::new(place, RecordId::new(), Kind::fixed(kind::WEFT), weft));
        }
        Ok((id, drafts))
    }

    /// Changes a warp's figures; `seen` are the entries that were on her screen (empty: what stands now).
    ///
    /// # Errors
    /// The first field that cannot be understood, or that there is no such warp.
    pub fn change_warp(&mut self, warp: &RecordId, form: &WarpForm, seen: &[Key]) -> Result<(), UserError> {
        let read = forms::read_warp_form(form, &self.format, self.today)?;
        let record = self.record(warp, kind::WARP)?.clone();
        let mut drafts = Vec::new();
        drafts.extend(self.change(&record, &read.warp, seen));
        let log = crate::model::warp_log(self.journal.state(), warp);
        let weft = log.as_ref().and_then(|log| log.wefts.first());
        match weft.and_then(|weft| self.journal.state().record(&weft.id)) {
            Some(weft) => drafts.extend(self.change(weft, &read.weft, &[])),
            None => {
                let set = forms::filled(&read.weft);
                if !set.is_empty() {
                    drafts.push(Draft::new(record.place, RecordId::new(), Kind::fixed(kind::WEFT), set));
                }
            }
        }
        self.act(drafts)
    }

    /// Puts a warp aside, takes it up again, or notes that it is cut off.
    ///
    /// # Errors
    /// There is no such warp.
    pub fn set_state(&mut self, warp: &RecordId, state: WarpState) -> Result<(), UserError> {
        let word = match state {
            WarpState::OnTheLoom => "on_the_loom",
            WarpState::Resting => "resting",
            WarpState::OffTheLoom => "off_the_loom",
            WarpState::Removed => return self.remove(warp),
        };
        let record = self.record(warp, kind::WARP)?;
        let mut set = FieldMap::new();
        set.insert(fields::warp::STATE.into(), json!(word));
        set.insert(fields::warp::STATE_ON.into(), json!(self.today));
        let draft = Draft::on(record, set);
        self.act(vec![draft])
    }

    /// Logs a sitting; its id.
    ///
    /// A sitting that was tapped in brings the `id` its first tap was given, so that it is logged once, whatever happens between
    /// writing it and forgetting the taps.
    ///
    /// # Errors
    /// The first field that cannot be understood, a sitting in which nothing is said, or no such warp.
    pub fn log_sitting(
        &mut self,
        warp: &RecordId,
        form: &SittingForm,
        id: Option<RecordId>,
    ) -> Result<RecordId, UserError> {
        let mut read = forms::read_sitting_form(form, &self.format, self.today)?;
        self.record(warp, kind::WARP)?;
        self.take_shuttle_off(form, warp, &mut read)?;
        let set = forms::filled(&read);
        let says_something = set.keys().any(|field| {
            ![fields::sitting::ON, fields::sitting::STARTED, fields::sitting::ROUGH, fields::sitting::MARK_SET]
                .contains(&field.as_str())
        });
        if !says_something {
            return Err(UserError::at("picks", messages::empty_sitting()));
        }
        let id = id.unwrap_or_else(RecordId::new);
        self.act(vec![Draft::new(Place::warp(warp), id.clone(), Kind::SITTING, set)])?;
        Ok(id)
    }

    /// Corrects a sitting; `seen` are the entries that were on her screen (empty: what stands now).
    ///
    /// # Errors
    /// The first field that cannot be understood, or no such sitting.
    pub fn correct_sitting(&mut self, sitting: &RecordId, form: &SittingForm, seen: &[Key]) -> Result<(), UserError> {
        let mut read = forms::read_sitting_form(form, &self.format, self.today)?;
        let record = self.record(sitting, kind::SITTING)?;
        if let Some(warp) = record.place.warp_id() {
            self.take_shuttle_off(form, warp, &mut read)?;
        }
        let mut drafts: Vec<Draft> = self.change(record, &read, seen).into_iter().collect();
        for draft in &mut drafts {
            // Another weight, of the yarn alone: what was taken off before says nothing of it.
            let alone = draft.set.contains_key(fields::sitting::WEFT_LEFT_G)
                && !read.contains_key(fields::sitting::WEFT_TARE_G)
                && record.get(fields::sitting::WEFT_TARE_G).is_some_and(|tare| !tare.is_null());
            if alone {
                draft.set.insert(fields::sitting::WEFT_TARE_G.into(), Value::Null);
            }
        }
        self.act(drafts)
    }

    /// Removes a record; it can be restored.
    ///
    /// # Errors
    /// There is no such record.
    pub fn remove(&mut self, record: &RecordId) -> Result<(), UserError> {
        self.set_gone(record, true)
    }

    /// Restores a removed record, or keeps one that was removed on one device and edited on another.
    ///
    /// # Errors
    /// There is no such record.
    pub fn restore(&mut self, record: &RecordId) -> Result<(), UserError> {
        self.set_gone(record, false)
    }

    /// Picks one of two answers.
    ///
    /// # Errors
    /// There is no such record or field, or it has been settled since.
    pub fn settle(&mut self, record: &RecordId, field: &str, key: &str) -> Result<(), UserError> {
        let record = self.any_record(record)?;
        let answers = record.conflicts().find(|(name, _)| *name == field).map(|(_, answers)| answers);
        let chosen = answers.and_then(|answers| answers.iter().find(|answer| answer.key.to_string() == key));
        let Some(chosen) = chosen else {
            return Err(UserError::new(messages::conflict_gone()));
        };
        let mut set = FieldMap::new();
        set.insert(field.to_owned(), chosen.value.clone());
        let draft = Draft::on(record, set);
        self.act(vec![draft])
    }

    /// Takes the latest action of this device back; nothing when there is nothing to take back.
    ///
    /// # Errors
    /// It could not be written.
    pub fn undo(&mut self) -> Result<Option<Undoable>, UserError> {
        let Some(found) = undo::undoable(self.journal.state(), self.journal.device()) else { return Ok(None) };
        self.journal.write(found.drafts.clone())?;
        Ok(Some(found))
    }

    /// Adds a photo to a sitting: the picture is stored without its camera's data, then noted; the note's id.
    ///
    /// # Errors
    /// There is no such sitting, or the bytes are no picture that can be read.
    pub fn add_photo(&mut self, sitting: &RecordId, bytes: &[u8]) -> Result<RecordId, UserError> {
        let place = self.record(sitting, kind::SITTING)?.place.clone();
        let Some(warp) = place.warp_id().cloned() else {
            return Err(UserError::new(messages::photo_without_warp()));
        };
        let added = self.journal.photo_add(&warp, bytes)?;
        let mut set = FieldMap::new();
        set.insert(fields::photo::SITTING.into(), json!(sitting));
        set.insert(fields::photo::HASH.into(), json!(added.hash));
        if let Some(taken_at) = added.taken_at {
            set.insert(fields::photo::TAKEN_AT.into(), json!(taken_at));
        }
        let id = RecordId::new();
        self.act(vec![Draft::new(place, id.clone(), Kind::PHOTO, set)])?;
        Ok(id)
    }

    /// Whether a photo could be added, to be asked before what it belongs to is written.
    ///
    /// # Errors
    /// The bytes are no picture that can be read.
    pub fn check_photo(&self, bytes: &[u8]) -> Result<(), UserError> {
        fellmark_journal::photos::prepare(bytes).map_err(fellmark_journal::Error::from)?;
        Ok(())
    }

    /// Sets the units figures are read and written in, for every device on this folder.
    ///
    /// # Errors
    /// It could not be written.
    pub fn set_units(&mut self, units: Units) -> Result<(), UserError> {
        self.set_setting(fields::settings::UNITS, json!(units.word()))
    }

    /// Marks the folder as holding invented data.
    ///
    /// # Errors
    /// It could not be written.
    pub fn mark_as_example(&mut self) -> Result<(), UserError> {
        self.set_setting(fields::settings::EXAMPLE, json!(true))
    }

    pub(crate) fn set_setting(&mut self, field: &str, value: Value) -> Result<(), UserError> {
        let Some(id) = settings_id() else { return Ok(()) };
        let mut set = FieldMap::new();
        set.insert(field.to_owned(), value);
        let draft = match self.journal.state().record(&id) {
            Some(record) => {
                // A folder may hold settings that were taken back as a whole: with what is chosen now they are there again.
                if !record.is_visible() {
                    set.insert(GONE.into(), json!(false));
                }
                Draft::on(record, set)
            }
            None => Draft::new(Place::Shelf, id, Kind::SETTINGS, set),
        };
        self.act(vec![draft])
    }

    fn set_gone(&mut self, id: &RecordId, gone: bool) -> Result<(), UserError> {
        let record = self.any_record(id)?;
        let mut set = FieldMap::new();
        set.insert(GONE.into(), json!(gone));
        let draft = Draft::on(record, set);
        self.act(vec![draft])
    }

    /// The entry that changes what differs from what she saw; nothing when nothing does.
    pub(crate) fn change(&self, record: &Record, new: &FieldMap, seen: &[Key]) -> Option<Draft> {
        let state = self.journal.state();
        let seen = if seen.is_empty() { &record.heads } else { seen };
        let held = |field: &str| {
            let entries = seen.iter().filter_map(|key| state.entry(*key)).filter(|entry| entry.of() == &record.id);
            let wrote = entries.filter(|entry| entry.set().contains_key(field)).collect();
            // What stood on the screen, not what a clock that was wrong calls the latest.
            undo::standing(wrote).and_then(|entry| entry.set().get(field).cloned())
        };
        let set = forms::changed(new, &self.format, held);
        (!set.is_empty()).then(|| {
            let mut draft = Draft::on(record, set);
            draft.over = seen.to_vec();
            draft
        })
    }

    /// Writes one action: its entries carry its name, so that undo finds them together.
    pub(crate) fn act(&mut self, mut drafts: Vec<Draft>) -> Result<(), UserError> {
        if drafts.is_empty() {
            return Ok(());
        }
        let act = undo::next_act(self.journal.state(), self.journal.device());
        for draft in &mut drafts {
            draft.set.insert(fields::ACT.into(), json!(act));
        }
        self.journal.write(drafts)?;
        Ok(())
    }

    pub(crate) fn any_record(&self, id: &RecordId) -> Result<&Record, UserError> {
        self.journal.state().record(id).ok_or_else(|| UserError::new(messages::unknown_record(id.to_string())))
    }

    pub(crate) fn record(&self, id: &RecordId, kind: &str) -> Result<&Record, UserError> {
        let record = self.any_record(id)?;
        if record.kind.as_str() == kind {
            Ok(record)
        } else {
            Err(UserError::new(messages::wrong_kind(id.to_string(), kind, record.kind.to_string())))
        }
    }
}

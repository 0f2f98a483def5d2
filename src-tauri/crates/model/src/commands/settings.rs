//! The settings of the folder: units, the mark of sample data, when a stretch is suggested.

use fellmark_journal::{EntryDraft, EntrySet, GONE, Kind, Place, RecordId};
use serde_json::{Value, json};

use super::Commands;
use crate::display_format::Units;
use crate::fields;
use crate::forms::FieldMap;
use crate::{UserError, messages};

/// The one record that holds the settings, so that all devices mean the same one.
fn settings_id() -> Option<RecordId> {
    fields::settings::RECORD.parse().ok()
}

/// The units chosen in the folder, if any were.
#[must_use]
pub fn chosen_units(state: &EntrySet) -> Option<Units> {
    chosen(state, fields::settings::UNITS)
}

/// The units of weights chosen in the folder, where they are others than those of lengths.
#[must_use]
pub fn chosen_weights(state: &EntrySet) -> Option<Units> {
    chosen(state, fields::settings::WEIGHT_UNITS)
}

fn chosen(state: &EntrySet, field: &str) -> Option<Units> {
    let record = state.record(&settings_id()?).filter(|record| record.is_visible())?;
    Units::from_word(record.get(field)?.as_str()?)
}

/// Whether the folder says that its data are invented.
#[must_use]
pub fn is_example(state: &EntrySet) -> bool {
    let record = settings_id().and_then(|id| state.record(&id));
    record.and_then(|record| record.get(fields::settings::EXAMPLE)).and_then(Value::as_bool).unwrap_or(false)
}

impl Commands<'_> {
    /// Sets the units figures are read and written in, for every device on this folder.
    ///
    /// # Errors
    /// It could not be written.
    pub fn set_units(&mut self, units: Units) -> Result<(), UserError> {
        self.set_setting(fields::settings::UNITS, json!(units.word()))
    }

    /// Sets the units weights are read and written in, for every device on this folder.
    ///
    /// # Errors
    /// It could not be written.
    pub fn set_weights(&mut self, weights: Units) -> Result<(), UserError> {
        self.set_setting(fields::settings::WEIGHT_UNITS, json!(weights.word()))
    }

    /// Marks the folder as holding invented data.
    ///
    /// # Errors
    /// It could not be written.
    pub fn mark_as_example(&mut self) -> Result<(), UserError> {
        self.set_setting(fields::settings::EXAMPLE, json!(true))
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

    fn set_setting(&mut self, field: &str, value: Value) -> Result<(), UserError> {
        let Some(id) = settings_id() else { return Ok(()) };
        let mut set = FieldMap::new();
        set.insert(field.to_owned(), value);
        let draft = match self.journal.state().record(&id) {
            Some(record) => {
                // A folder may hold settings that were taken back as a whole: with what is chosen now they are there again.
                if !record.is_visible() {
                    set.insert(GONE.into(), json!(false));
                }
                EntryDraft::on(record, set)
            }
            None => EntryDraft::new(Place::Shelf, id, Kind::SETTINGS, set),
        };
        self.act(vec![draft])
    }
}

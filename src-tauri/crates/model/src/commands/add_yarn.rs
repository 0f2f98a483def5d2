//! Adding a weft yarn to a warp.

use fellmark_journal::{EntryDraft, Kind, Place, RecordId};
use serde_json::json;

use super::Commands;
use crate::fields::{self, kind};
use crate::forms::{self, FieldMap, YarnForm, some_text};
use crate::measures::Reader;
use crate::{UserError, messages};

impl Commands<'_> {
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
        self.act(vec![EntryDraft::new(Place::warp(warp), id.clone(), Kind::fixed(kind::WEFT), set)])?;
        Ok(id)
    }
}

/// Reads the form of a yarn.
pub(super) fn read_yarn_form(form: &YarnForm, read: Reader<'_>) -> Result<FieldMap, UserError> {
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

//! A log brought back whole from the file that “Everything” exports.

use fellmark_journal::{EntryDraft, EntrySet, GONE, Kind, Place, RecordId};
use serde::Deserialize;
use serde_json::{Map, Value};

use crate::fields;
use crate::{UserError, messages};

/// A longer file is refused, in bytes: twenty years of weaving are a third of it.
pub const MOST_BYTES_OF_EVERYTHING: usize = 64 << 20;

/// The file, as far as it is needed to make the same records again.
#[derive(Deserialize)]
struct ExportedLog {
    records: Vec<ExportedRecord>,
}

#[derive(Deserialize)]
struct ExportedRecord {
    id: String,
    kind: String,
    warp: Option<String>,
    presence: String,
    fields: Map<String, Value>,
    #[serde(default)]
    conflicts: Map<String, Value>,
}

/// Whether a text is such a file and no table.
#[must_use]
pub fn is_everything(text: &str) -> bool {
    text.trim_start_matches('\u{feff}').trim_start().starts_with('{')
}

/// The entries that make the same records in an empty folder, removed ones and fields with two answers included; nothing is written.
///
/// # Errors
/// The folder has records already, or the text is not what this program exports.
pub fn read_everything(state: &EntrySet, text: &str) -> Result<Vec<EntryDraft>, UserError> {
    let refused = |message| UserError::at("text", message);
    if text.len() > MOST_BYTES_OF_EVERYTHING {
        return Err(refused(messages::everything_too_long((MOST_BYTES_OF_EVERYTHING >> 20) as i64)));
    }
    if state.records().any(|record| record.kind.as_str() != fields::kind::SETTINGS) {
        return Err(refused(messages::everything_needs_empty_folder()));
    }
    let log: ExportedLog = serde_json::from_str(text.trim_start_matches('\u{feff}'))
        .map_err(|error| refused(messages::not_everything(error.to_string())))?;
    let mut drafts = Vec::new();
    for record in &log.records {
        drafts.extend(record.drafts().ok_or_else(|| refused(messages::record_not_read(record.id.clone())))?);
    }
    if drafts.is_empty() {
        return Err(refused(messages::table_without_rows()));
    }
    Ok(drafts)
}

impl ExportedRecord {
    /// One entry, and before it one for each further answer of a field with several: of those that stand the latest is used.
    fn drafts(&self) -> Option<Vec<EntryDraft>> {
        let id: RecordId = self.id.parse().ok()?;
        let kind = Kind::new(&self.kind).ok()?;
        let place = match &self.warp {
            Some(warp) => Place::warp(&warp.parse().ok()?),
            None => Place::Shelf,
        };
        let draft = |set| EntryDraft::new(place.clone(), id.clone(), kind.clone(), set);
        let mut drafts = Vec::new();
        // What undo goes by belongs to the device that wrote it.
        for (field, answers) in self.conflicts.iter().filter(|(field, _)| *field != fields::ACT) {
            let used = self.fields.get(field);
            let others = answers.as_array()?.iter().filter_map(|one| one.get("value")).filter(|one| Some(*one) != used);
            drafts.extend(others.map(|value| draft(Map::from_iter([(field.clone(), value.clone())]))));
        }
        let mut set = self.fields.clone();
        set.remove(fields::ACT);
        if self.presence == "gone" {
            set.insert(GONE.to_owned(), Value::Bool(true));
        }
        drafts.push(draft(set));
        Some(drafts)
    }
}

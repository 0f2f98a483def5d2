//! Resolving a conflict between two devices.

use fellmark_journal::{EntryDraft, RecordId};

use super::Commands;
use crate::forms::FieldMap;
use crate::{UserError, messages};

impl Commands<'_> {
    /// Chooses one of the conflicting values of a field; `key` is the entry that wrote it.
    ///
    /// # Errors
    /// There is no such record or field, or it has been resolved since.
    pub fn resolve(&mut self, record: &RecordId, field: &str, key: &str) -> Result<(), UserError> {
        let record = self.any_record(record)?;
        let answers = record.conflicts().find(|(name, _)| *name == field).map(|(_, answers)| answers);
        let chosen = answers.and_then(|answers| answers.iter().find(|answer| answer.key.to_string() == key));
        let Some(chosen) = chosen else {
            return Err(UserError::new(messages::conflict_gone()));
        };
        let mut set = FieldMap::new();
        set.insert(field.to_owned(), chosen.value.clone());
        let draft = EntryDraft::on(record, set);
        self.act(vec![draft])
    }
}

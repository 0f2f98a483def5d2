//! Resolving a conflict between two devices.

use fellmark_journal::{EntryDraft, GONE, Presence, RecordId};

use super::Commands;
use crate::forms::FieldMap;
use crate::{UserError, messages};

/// What becomes of a record that was removed on one device and changed on another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ContestedRecord {
    /// It is removed; it can be restored like anything that was removed.
    Removed,
    /// It stays, with the change.
    Restored,
}

impl ContestedRecord {
    /// The word that stands in place of an entry's key where one of the two is chosen.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Removed => "removed",
            Self::Restored => "restored",
        }
    }

    fn from_key(key: &str) -> Option<Self> {
        [Self::Removed, Self::Restored].into_iter().find(|one| one.key() == key)
    }
}

impl Commands<'_> {
    /// Chooses one of the conflicting values of a field; `key` is the entry that wrote it. Of a record that was removed on one
    /// device and changed on another, the field is [`GONE`] and the key that of a [`ContestedRecord`].
    ///
    /// # Errors
    /// There is no such record or field, or it has been resolved since.
    pub fn resolve(&mut self, record: &RecordId, field: &str, key: &str) -> Result<(), UserError> {
        let record = self.any_record(record)?;
        if field == GONE && record.presence == Presence::RemovedHereEditedThere {
            let chosen = ContestedRecord::from_key(key).ok_or_else(|| UserError::new(messages::conflict_gone()))?;
            let id = record.id.clone();
            return self.set_gone(&id, chosen == ContestedRecord::Removed);
        }
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

//! Removing a record.

use fellmark_journal::RecordId;

use super::Commands;
use crate::UserError;

impl Commands<'_> {
    /// Removes a record; it can be restored.
    ///
    /// # Errors
    /// There is no such record.
    pub fn remove(&mut self, record: &RecordId) -> Result<(), UserError> {
        self.set_gone(record, true)
    }
}

//! Restoring a removed record.

use fellmark_journal::RecordId;

use super::Commands;
use crate::UserError;

impl Commands<'_> {
    /// Restores a removed record, or keeps one that was removed on one device and edited on another.
    ///
    /// # Errors
    /// There is no such record.
    pub fn restore(&mut self, record: &RecordId) -> Result<(), UserError> {
        self.set_gone(record, false)
    }
}

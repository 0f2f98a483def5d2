//! Importing a table.

use super::Commands;
use crate::forms::ImportForm;
use crate::import::{self, ColumnLabels, ImportedTable, KnownWarps, OnProgress};
use crate::{UserError, messages};

impl Commands<'_> {
    /// Imports a table as one action; what it was read as. It can be stopped until all rows are read: only then they are written,
    /// all at once.
    ///
    /// # Errors
    /// The text is no table, no row of it can be taken, it was stopped, or it could not be written.
    pub fn import(
        &mut self,
        warps: &KnownWarps,
        labels: ColumnLabels,
        form: &ImportForm,
        on_progress: OnProgress<'_>,
    ) -> Result<ImportedTable, UserError> {
        let table = import::read(self.journal.state(), warps, labels, form, &self.format, self.today, on_progress)?;
        if table.drafts.is_empty() {
            let message = match table.refused.first() {
                Some((line, why)) => messages::no_row_taken(i64::try_from(*line).unwrap_or(i64::MAX), why.clone()),
                None => messages::table_without_rows(),
            };
            return Err(UserError::at("text", message));
        }
        self.act(table.drafts.clone())?;
        Ok(table)
    }

    /// Brings a whole log back into an empty folder, from the file that “Everything” exports; how many entries that were.
    ///
    /// # Errors
    /// As [`import::read_everything`], or it could not be written.
    pub fn import_everything(&mut self, text: &str) -> Result<usize, UserError> {
        let drafts = import::read_everything(self.journal.state(), text)?;
        let count = drafts.len();
        self.act(drafts)?;
        Ok(count)
    }
}

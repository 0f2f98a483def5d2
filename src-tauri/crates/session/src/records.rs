//! What can be done to any record; and the units.

use fellmark_journal::RecordId;
use fellmark_model::display_format::Units;
use fellmark_present::undo::{Undone, undone};
use fellmark_present::view::ErrorView;

use crate::Session;

impl Session {
    /// Removes a record; it can be restored.
    ///
    /// # Errors
    /// It is not known, or cannot be written.
    pub fn remove(&mut self, record: &RecordId) -> Result<(), ErrorView> {
        self.run(|commands| commands.remove(record))
    }

    /// Restores a removed record.
    ///
    /// # Errors
    /// It is not known, or cannot be written.
    pub fn restore(&mut self, record: &RecordId) -> Result<(), ErrorView> {
        self.run(|commands| commands.restore(record))
    }

    /// Chooses one of the values that devices gave a field at the same time; `key` is the entry's that has it.
    ///
    /// # Errors
    /// There is no such value, or it cannot be written.
    pub fn resolve(&mut self, record: &RecordId, field: &str, key: &str) -> Result<(), ErrorView> {
        self.run(|commands| commands.resolve(record, field, key))
    }

    /// Takes back what this device did last; nothing where there is nothing.
    ///
    /// # Errors
    /// It cannot be written.
    pub fn undo(&mut self) -> Result<Option<Undone>, ErrorView> {
        let found = self.run(|commands| commands.undo())?;
        Ok(found.map(|found| undone(&found, &self.journal)))
    }

    /// Chooses the units of weights for every device on this folder.
    ///
    /// # Errors
    /// It cannot be written.
    pub fn set_weights(&mut self, weights: Units) -> Result<(), ErrorView> {
        self.run(|commands| commands.set_weights(weights))
    }

    /// Chooses the units for every device on this folder.
    ///
    /// # Errors
    /// It cannot be written.
    pub fn set_units(&mut self, units: Units) -> Result<(), ErrorView> {
        self.run(|commands| commands.set_units(units))
    }
}

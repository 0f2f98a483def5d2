//! Removing a finishing step.

use fellmark_journal::{GONE, RecordId};
use serde_json::json;

use super::Commands;
use crate::finishing::steps;
use crate::forms::FieldMap;
use crate::{UserError, messages};

impl Commands<'_> {
    /// Removes a step from the list; undo restores it.
    ///
    /// # Errors
    /// It is the last one, or there is no such step.
    pub fn remove_step(&mut self, warp: &RecordId, step: &RecordId) -> Result<(), UserError> {
        if steps(&self.log_of_step(warp)?).len() <= 1 {
            return Err(UserError::new(messages::last_step_stays()));
        }
        let mut set = FieldMap::new();
        set.insert(GONE.into(), json!(true));
        self.write_step(warp, step, set)
    }
}

//! Changing the name or the day of a finishing step.

use fellmark_journal::RecordId;
use serde_json::json;

use super::Commands;
use super::steps::step_name;
use crate::UserError;
use crate::fields::finishing as field;
use crate::forms::FieldMap;

impl Commands<'_> {
    /// Gives a step a name and the day it was done; an empty day takes the tick away.
    ///
    /// # Errors
    /// The name is empty, the day cannot be understood or is still to come, or there is no such step.
    pub fn change_step(&mut self, warp: &RecordId, step: &RecordId, name: &str, on: &str) -> Result<(), UserError> {
        let mut set = FieldMap::new();
        set.insert(field::NAME.into(), json!(step_name(name)?));
        set.insert(field::DONE_ON.into(), json!(self.done_on("on", on)?));
        self.write_step(warp, step, set)
    }
}

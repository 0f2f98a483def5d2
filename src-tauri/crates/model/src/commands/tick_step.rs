//! Ticking a finishing step as done.

use fellmark_journal::RecordId;
use serde_json::json;

use super::Commands;
use crate::UserError;
use crate::fields::finishing as field;
use crate::forms::FieldMap;

impl Commands<'_> {
    /// Ticks a step as done on a day (`""`: today), or takes the tick away (`None`).
    ///
    /// # Errors
    /// The day cannot be understood or is still to come, or there is no such step.
    pub fn tick_step(&mut self, warp: &RecordId, step: &RecordId, on: Option<&str>) -> Result<(), UserError> {
        let day = match on {
            Some(text) => Some(self.done_on("on", text)?.unwrap_or(self.today)),
            None => None,
        };
        let mut set = FieldMap::new();
        set.insert(field::DONE_ON.into(), json!(day));
        self.write_step(warp, step, set)
    }
}

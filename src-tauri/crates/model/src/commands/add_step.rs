//! Adding a finishing step.

use fellmark_journal::{EntryDraft, Kind, Place, RecordId};
use serde_json::json;

use super::Commands;
use super::steps::step_name;
use crate::fields::{finishing as field, kind};
use crate::finishing::{laid_out, steps};
use crate::forms::FieldMap;
use crate::{UserError, messages};

/// Most steps of one warp.
const STEPS_MOST: usize = 12;

impl Commands<'_> {
    /// Adds a step at the end; its id.
    ///
    /// # Errors
    /// The name is empty, there are too many steps, or no such warp.
    pub fn add_step(&mut self, warp: &RecordId, name: &str) -> Result<RecordId, UserError> {
        let name = step_name(name)?;
        let log = self.log_of_step(warp)?;
        let all = steps(&log);
        if all.len() >= STEPS_MOST {
            return Err(UserError::at("name", messages::too_many_steps(STEPS_MOST as i64)));
        }
        let position = all.iter().map(|step| step.position).max().unwrap_or(0).saturating_add(1);
        let mut set = FieldMap::new();
        set.insert(field::NAME.into(), json!(name));
        set.insert(field::POSITION.into(), json!(position));
        let id = RecordId::new();
        let mut drafts = laid_out(self.journal.state(), &log);
        drafts.push(EntryDraft::new(Place::warp(warp), id.clone(), Kind::fixed(kind::FINISHING), set));
        self.act(drafts)?;
        Ok(id)
    }
}

//! Keeping a plan for later.

use fellmark_journal::{EntryDraft, Kind, Place, RecordId};

use super::Commands;
use crate::UserError;
use crate::fields::kind;
use crate::forms::PlanForm;
use crate::forms::filled;
use crate::plan::{has_content, messages, saved_plan, stored_fields};

impl Commands<'_> {
    /// Saves a plan that is not begun: as a new one, or over the saved plan it came from; the id of its record.
    ///
    /// # Errors
    /// Nothing is typed, or it could not be written.
    pub fn keep_plan(&mut self, form: &PlanForm, saved: Option<&RecordId>) -> Result<RecordId, UserError> {
        if !has_content(form) {
            return Err(UserError::new(messages::nothing_planned()));
        }
        let set = stored_fields(form, &self.format, self.today);
        let Some(record) = saved.and_then(|id| saved_plan(self.journal.state(), id)) else {
            let id = RecordId::new();
            let draft = EntryDraft::new(Place::Shelf, id.clone(), Kind::fixed(kind::PLAN), filled(&set));
            self.act(vec![draft])?;
            return Ok(id);
        };
        let id = record.id.clone();
        let draft = self.change(record, &set, &[]);
        self.act(draft.into_iter().collect())?;
        Ok(id)
    }
}

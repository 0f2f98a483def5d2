//! Beginning the warp that a plan has become.

use fellmark_journal::{EntryDraft, GONE, Kind, Place, RecordId};
use serde_json::json;

use super::Commands;
use crate::UserError;
use crate::fields::kind;
use crate::forms::FieldMap;
use crate::plan::{PlannedWarp, saved_plan};

impl Commands<'_> {
    /// Begins the warp of a plan and stores the plan beside it; the id of the warp. A plan that was saved for later is no
    /// longer among the saved ones. All of it is one action, so that one undo takes it back.
    ///
    /// # Errors
    /// A field of the warp's form that cannot be read, or it could not be written.
    pub fn begin_planned(&mut self, planned: &PlannedWarp, saved: Option<&RecordId>) -> Result<RecordId, UserError> {
        let (id, mut drafts) = self.begin_drafts(&planned.form)?;
        if let Some(warp) = drafts.iter_mut().find(|draft| draft.of == id) {
            warp.set.extend(planned.figures.warp_fields());
        }
        let beside = planned.figures.plan_fields(&planned.inputs);
        drafts.push(EntryDraft::new(Place::warp(&id), RecordId::new(), Kind::fixed(kind::PLAN), beside));
        if let Some(record) = saved.and_then(|id| saved_plan(self.journal.state(), id)) {
            drafts.push(EntryDraft::on(record, FieldMap::from_iter([(GONE.to_owned(), json!(true))])));
        }
        self.act(drafts)?;
        Ok(id)
    }
}

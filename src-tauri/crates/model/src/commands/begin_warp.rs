//! Beginning a warp.

use fellmark_journal::{EntryDraft, Kind, Place, RecordId};
use serde_json::json;

use super::Commands;
use crate::UserError;
use crate::fields::{self, kind};
use crate::forms::{self, WarpForm};

impl Commands<'_> {
    /// Begins a warp; its id.
    ///
    /// # Errors
    /// The first field that cannot be understood.
    pub fn begin_warp(&mut self, form: &WarpForm) -> Result<RecordId, UserError> {
        let (id, drafts) = self.begin_drafts(form)?;
        self.act(drafts)?;
        Ok(id)
    }

    /// What beginning a warp writes, with the id it will have.
    pub(super) fn begin_drafts(&self, form: &WarpForm) -> Result<(RecordId, Vec<EntryDraft>), UserError> {
        let read = forms::read_warp_form(form, &self.format, self.today)?;
        let id = RecordId::new();
        let place = Place::warp(&id);
        let mut set = forms::filled(&read.warp);
        set.insert(fields::warp::STATE.into(), json!("on_the_loom"));
        set.insert(fields::warp::STATE_ON.into(), json!(self.today));
        let mut drafts = vec![EntryDraft::new(place.clone(), id.clone(), Kind::WARP, set)];
        let weft = forms::filled(&read.weft);
        if !weft.is_empty() {
            drafts.push(EntryDraft::new(place, RecordId::new(), Kind::fixed(kind::WEFT), weft));
        }
        Ok((id, drafts))
    }
}

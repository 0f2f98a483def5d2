//! Changing a warp's figures.

use fellmark_journal::{EntryDraft, Key, Kind, RecordId};

use super::Commands;
use crate::UserError;
use crate::fields::kind;
use crate::forms::{self, WarpForm};

impl Commands<'_> {
    /// Changes a warp's figures; `seen` are the entries that were on the weaver's screen (empty: what stands now).
    ///
    /// # Errors
    /// The first field that cannot be understood, or that there is no such warp.
    pub fn change_warp(&mut self, warp: &RecordId, form: &WarpForm, seen: &[Key]) -> Result<(), UserError> {
        let read = forms::read_warp_form(form, &self.format, self.today)?;
        let record = self.record(warp, kind::WARP)?.clone();
        let mut drafts: Vec<EntryDraft> = self.change(&record, &read.warp, seen).into_iter().collect();
        let log = crate::warp_log(self.journal.state(), warp);
        let weft = log.as_ref().and_then(|log| log.wefts.first());
        match weft.and_then(|weft| self.journal.state().record(&weft.id)) {
            Some(weft) => drafts.extend(self.change(weft, &read.weft, &[])),
            None => {
                let set = forms::filled(&read.weft);
                if !set.is_empty() {
                    drafts.push(EntryDraft::new(record.place, RecordId::new(), Kind::fixed(kind::WEFT), set));
                }
            }
        }
        self.act(drafts)
    }
}

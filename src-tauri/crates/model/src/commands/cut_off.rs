//! Cutting a warp off.

use fellmark_journal::{EntryDraft, Key, RecordId};
use serde_json::json;

use super::Commands;
use crate::fields::{self, kind};
use crate::forms::{self, OffForm};
use crate::{UserError, WarpState, finishing, messages, warp_log};

impl Commands<'_> {
    /// Cuts a warp off, with what is true now, and lays out its finishing steps; on a warp that is off already it changes what was
    /// measured. `seen` are the entries that were on the screen (empty: what stands now).
    ///
    /// # Errors
    /// The first field that cannot be understood, or no such warp.
    pub fn cut_off(&mut self, warp: &RecordId, form: &OffForm, seen: &[Key]) -> Result<(), UserError> {
        let log = warp_log(self.journal.state(), warp).ok_or_else(|| UserError::new(messages::unknown_warp()))?;
        let day = self.reader().day("on", &form.on)?;
        if day.is_some_and(|day| day > self.today) {
            return Err(UserError::at("on", messages::off_day_in_future()));
        }
        let mut fields = forms::read_off_form(form, log.warp.wound_mm, &self.format, self.today)?;
        let is_off = log.warp.state == WarpState::OffTheLoom;
        fields.insert(fields::warp::STATE.into(), json!("off_the_loom"));
        let since = day.or(if is_off { log.warp.state_on } else { None }).unwrap_or(self.today);
        fields.insert(fields::warp::STATE_ON.into(), json!(since));
        let record = self.record(warp, kind::WARP)?;
        let mut drafts: Vec<EntryDraft> = self.change(record, &fields, seen).into_iter().collect();
        drafts.extend(finishing::laid_out(self.journal.state(), &log));
        if !is_off {
            drafts.extend(finishing::edge_named_anew(self.journal.state(), &log));
        }
        self.act(drafts)
    }
}

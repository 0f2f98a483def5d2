//! Putting a warp aside, taking it up again, or noting that it is cut off.

use fellmark_journal::{EntryDraft, RecordId};
use serde_json::json;

use super::Commands;
use crate::fields::{self, kind};
use crate::forms::FieldMap;
use crate::{UserError, WarpState};

impl Commands<'_> {
    /// Puts a warp aside, takes it up again, or notes that it is cut off.
    ///
    /// # Errors
    /// There is no such warp.
    pub fn set_warp_state(&mut self, warp: &RecordId, state: WarpState) -> Result<(), UserError> {
        let word = match state {
            WarpState::OnTheLoom => "on_the_loom",
            WarpState::Resting => "resting",
            WarpState::OffTheLoom => "off_the_loom",
            WarpState::Removed => return self.remove(warp),
        };
        let record = self.record(warp, kind::WARP)?;
        let mut set = FieldMap::new();
        set.insert(fields::warp::STATE.into(), json!(word));
        set.insert(fields::warp::STATE_ON.into(), json!(self.today));
        let draft = EntryDraft::on(record, set);
        self.act(vec![draft])
    }
}

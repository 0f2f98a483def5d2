//! Adding a photo to a sitting.

use fellmark_journal::photos::Prepared;
use fellmark_journal::{EntryDraft, Kind, RecordId};
use serde_json::json;

use super::Commands;
use crate::fields::{self, kind};
use crate::forms::FieldMap;
use crate::{UserError, messages};

impl Commands<'_> {
    /// Adds a photo to a sitting: the picture is stored, then noted; the note's id.
    ///
    /// # Errors
    /// There is no such sitting, or neither folder nor disk takes the picture.
    pub fn add_photo(&mut self, sitting: &RecordId, photo: Prepared) -> Result<RecordId, UserError> {
        let place = self.record(sitting, kind::SITTING)?.place.clone();
        let Some(warp) = place.warp_id().cloned() else {
            return Err(UserError::new(messages::photo_without_warp()));
        };
        let added = self.journal.photo_store(&warp, photo)?;
        let mut set = FieldMap::new();
        set.insert(fields::photo::SITTING.into(), json!(sitting));
        set.insert(fields::photo::HASH.into(), json!(added.hash));
        if let Some(taken_at) = added.taken_at {
            set.insert(fields::photo::TAKEN_AT.into(), json!(taken_at));
        }
        let id = RecordId::new();
        self.act(vec![EntryDraft::new(place, id.clone(), Kind::PHOTO, set)])?;
        Ok(id)
    }
}

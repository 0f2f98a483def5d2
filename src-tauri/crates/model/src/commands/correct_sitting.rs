//! Correcting a sitting.

use fellmark_journal::{EntryDraft, Key, RecordId};
use serde_json::Value;

use super::Commands;
use crate::UserError;
use crate::fields::{self, kind};
use crate::forms::{self, SittingForm};

impl Commands<'_> {
    /// Corrects a sitting; `seen` are the entries that were on the screen (empty: what stands now).
    ///
    /// # Errors
    /// The first field that cannot be understood, or no such sitting.
    pub fn correct_sitting(&mut self, sitting: &RecordId, form: &SittingForm, seen: &[Key]) -> Result<(), UserError> {
        let mut read = forms::read_sitting_form(form, &self.format, self.today)?;
        let record = self.record(sitting, kind::SITTING)?;
        if let Some(warp) = record.place.warp_id() {
            self.take_shuttle_off(form, warp, &mut read)?;
        }
        let mut drafts: Vec<EntryDraft> = self.change(record, &read, seen).into_iter().collect();
        for draft in &mut drafts {
            // Another weight, of the yarn alone: what was taken off before says nothing of it.
            let alone = draft.set.contains_key(fields::sitting::WEFT_LEFT_G)
                && !read.contains_key(fields::sitting::WEFT_TARE_G)
                && record.get(fields::sitting::WEFT_TARE_G).is_some_and(|tare| !tare.is_null());
            if alone {
                draft.set.insert(fields::sitting::WEFT_TARE_G.into(), Value::Null);
            }
        }
        self.act(drafts)
    }
}

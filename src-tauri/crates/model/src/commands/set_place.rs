//! Setting the place in the pick sequence.

use fellmark_journal::{EntryDraft, Kind, Place, RecordId};

use super::{Commands, DuringSitting, moment_fields};
use crate::fields::kind;
use crate::forms::PlaceForm;
use crate::{UserError, sequence};

impl Commands<'_> {
    /// Sets the place in the pick sequence. No pick is added or taken away.
    ///
    /// # Errors
    /// There is no such place in the warp's sequence.
    pub fn set_place(
        &mut self,
        warp: &RecordId,
        form: &PlaceForm,
        during: &DuringSitting,
    ) -> Result<RecordId, UserError> {
        let mut log = self.log(warp)?;
        log.running = during.as_ref().map(|(sitting, _)| sitting.clone());
        let picks = during.as_ref().map_or(0, |(_, picks)| *picks);
        let mut set = sequence::read_place(form, &log, picks, self.reader())?;
        set.extend(moment_fields(&log, during, self.today));
        let id = RecordId::new();
        self.act(vec![EntryDraft::new(Place::warp(warp), id.clone(), Kind::fixed(kind::PLACE), set)])?;
        Ok(id)
    }
}

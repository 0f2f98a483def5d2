//! What is noted while weaving or beside it: the place in the sequence, tape readings, weighings, yarns.

use fellmark_journal::{Key, RecordId};
use fellmark_model::commands::DuringSitting;
use fellmark_present::notes::noted_sentences;
use fellmark_present::sequence;
use fellmark_present::view::{ErrorView, PlaceForm, Places, ReadingForm, YarnForm};

use crate::Session;

impl Session {
    /// The sitting going on and its picks so far, if it is on this warp.
    #[must_use]
    pub fn running_on(&self, warp: &RecordId) -> DuringSitting {
        let (running, _) = self.running.as_ref()?;
        (running.warp == *warp).then(|| (running.sitting.clone(), running.picks))
    }

    /// The places in a warp's sequence, and which row comes next; nothing for a warp without a sequence.
    #[must_use]
    pub fn places(&self, warp: &RecordId) -> Option<Places> {
        if let Some((running, sitting)) = self.running.as_ref().filter(|(running, _)| running.warp == *warp) {
            return sitting.places(running.picks);
        }
        self.reports.warp_log(self.state(), warp).and_then(|log| sequence::places(&log, 0))
    }

    /// Says which row of the sequence comes next; `during` says within which sitting, and after how many of its picks.
    ///
    /// # Errors
    /// There is no such place, or nothing can be written.
    pub fn set_place(
        &mut self,
        warp: &RecordId,
        form: &PlaceForm,
        during: &DuringSitting,
    ) -> Result<RecordId, ErrorView> {
        self.run(|commands| commands.set_place(warp, form, during))
    }

    /// Notes a tape reading, weighings and a yarn taken up; what came of it, in sentences.
    ///
    /// # Errors
    /// The form cannot be read, or nothing can be written.
    pub fn add_measurement(
        &mut self,
        warp: &RecordId,
        form: &ReadingForm,
        during: &DuringSitting,
    ) -> Result<Vec<String>, ErrorView> {
        let noted = self.run(|commands| commands.add_note(warp, form, during))?;
        let format = self.format();
        let mut messages = noted_sentences(self.state(), &noted, during, &format);
        if form.mark_set
            && let Some((running, sitting)) = &self.running
        {
            messages.extend(sitting.at_an_advance(running, self.clock.now_ms(), &format));
        }
        Ok(messages)
    }

    /// Adds a weft yarn; its record.
    ///
    /// # Errors
    /// The form cannot be read, or nothing can be written.
    pub fn add_yarn(&mut self, warp: &RecordId, form: &YarnForm) -> Result<RecordId, ErrorView> {
        self.run(|commands| commands.add_yarn(warp, form))
    }

    /// Changes a weft yarn; `seen` are the entries the form was filled from.
    ///
    /// # Errors
    /// The form cannot be read, or nothing can be written.
    pub fn change_yarn(&mut self, yarn: &RecordId, form: &YarnForm, seen: &[Key]) -> Result<(), ErrorView> {
        self.run(|commands| commands.change_yarn(yarn, form, seen))
    }

    /// Sets after how many minutes without a pause stretching is suggested.
    ///
    /// # Errors
    /// The minutes cannot be read, or nothing can be written.
    pub fn set_stretch(&mut self, minutes: &str) -> Result<(), ErrorView> {
        self.run(|commands| commands.set_stretch(minutes))
    }
}

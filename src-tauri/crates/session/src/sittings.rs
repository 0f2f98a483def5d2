//! Sittings logged afterwards, corrected, and their photos.

use fellmark_journal::photos::{self, Prepared, StoredPhoto};
use fellmark_journal::{Key, RecordId};
use fellmark_model::display_format::DisplayFormat;
use fellmark_present::messages::error_view;
use fellmark_present::tape_and_counts;
use fellmark_present::view::{ErrorView, SittingForm};

use crate::Session;

/// A sitting that was logged.
pub struct LoggedSitting {
    /// Its record.
    pub sitting: RecordId,
    /// Tape and picks side by side, in sentences.
    pub messages: Vec<String>,
}

impl Session {
    /// Logs a sitting afterwards.
    ///
    /// # Errors
    /// The form cannot be read, or nothing can be written.
    pub fn log_sitting(&mut self, warp: &RecordId, form: &SittingForm) -> Result<LoggedSitting, ErrorView> {
        let messages = self.reconcile(warp, form, None);
        let sitting = self.run(|commands| commands.log_sitting(warp, form, None))?;
        Ok(LoggedSitting { sitting, messages })
    }

    /// Tape and picks of a form side by side, before it is logged; `sitting` is the one being corrected, or the one going on.
    #[must_use]
    pub fn reconcile(&self, warp: &RecordId, form: &SittingForm, sitting: Option<&RecordId>) -> Vec<String> {
        let log = self.reports.warp_log(self.state(), warp);
        log.map(|log| tape_and_counts::form_words(&log, form, sitting, &self.format(), self.clock.today()))
            .unwrap_or_default()
    }

    /// The same for the sitting that is going on; nothing when none is.
    #[must_use]
    pub fn reconcile_running(&self, form: &SittingForm) -> Vec<String> {
        let running = self.running.as_ref().map(|(running, _)| running);
        running.map(|running| self.reconcile(&running.warp, form, Some(&running.sitting))).unwrap_or_default()
    }

    /// Corrects a sitting; `seen` are the entries the form was filled from.
    ///
    /// # Errors
    /// The form cannot be read, or nothing can be written.
    pub fn correct_sitting(&mut self, sitting: &RecordId, form: &SittingForm, seen: &[Key]) -> Result<(), ErrorView> {
        self.run(|commands| commands.correct_sitting(sitting, form, seen))
    }

    /// Adds a photo to a sitting; its record.
    ///
    /// # Errors
    /// There is no such sitting, or nothing can be written.
    pub fn add_photo(&mut self, sitting: &RecordId, photo: Prepared) -> Result<RecordId, ErrorView> {
        self.run(|commands| commands.add_photo(sitting, photo))
    }

    /// A stored photo, to be read and decoded without the session.
    #[must_use]
    pub fn stored_photo(&self, warp: &RecordId, hash: &str) -> Option<StoredPhoto> {
        self.journal.stored_photo(warp, hash).ok()
    }
}

/// Makes a picture ready to be added, without its camera's data. Takes time, and needs no session.
///
/// # Errors
/// The bytes are no picture that can be read.
pub fn prepare_photo(bytes: &[u8], format: &DisplayFormat) -> Result<Prepared, ErrorView> {
    photos::prepare(bytes).map_err(|error| error_view(fellmark_journal::Error::from(error).into(), format))
}

//! Sittings logged afterwards, corrected, and their photos.

use std::path::PathBuf;

use fellmark_journal::{Key, RecordId};
use fellmark_model::warp_log;
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
        let log = warp_log(self.state(), warp);
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

    /// Keeps a photo with a sitting; its record.
    ///
    /// # Errors
    /// The bytes are no picture, or nothing can be written.
    pub fn add_photo(&mut self, sitting: &RecordId, bytes: &[u8]) -> Result<RecordId, ErrorView> {
        self.run(|commands| commands.add_photo(sitting, bytes))
    }

    /// Whether a photo could be kept, to be asked before the sitting it belongs to is written.
    ///
    /// # Errors
    /// The bytes are no picture.
    pub fn check_photo(&mut self, bytes: &[u8]) -> Result<(), ErrorView> {
        self.run(|commands| commands.check_photo(bytes))
    }

    /// A small copy of a photo, its long side of so many pixels.
    #[must_use]
    pub fn small_photo(&self, warp: &RecordId, hash: &str, long_side_px: u32) -> Option<Vec<u8>> {
        self.journal.thumbnail(warp, hash, long_side_px).ok()
    }

    /// Where a photo is stored.
    #[must_use]
    pub fn photo_path(&self, warp: &RecordId, hash: &str) -> Option<PathBuf> {
        self.journal.photo_path(warp, hash).ok()
    }
}

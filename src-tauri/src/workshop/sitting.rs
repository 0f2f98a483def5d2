//! Sittings logged afterwards, corrected, and their photos.

use std::path::PathBuf;

use fellmark_answers::model::warp_log;
use fellmark_answers::present::view::{AppView, SittingForm, UserError};
use fellmark_answers::reports::reconcile;
use fellmark_journal::RecordId;

use super::{SavedSitting, Session, id, keys, today};

impl Session {
    /// Logs a sitting afterwards; its id, the view, and tape and picks side by side.
    pub fn log_sitting(&mut self, warp: &str, form: &SittingForm) -> Result<SavedSitting, UserError> {
        let warp = id(warp)?;
        let messages = self.reconciled(&warp, form, None);
        let logged = self.write(|pen| pen.log_sitting(&warp, form, None))?;
        Ok(SavedSitting { view: self.view(), sitting: logged.to_string(), messages })
    }

    /// Tape and picks of a form side by side, before it is kept; `sitting` is the one being corrected, or the one going on.
    pub fn reconcile(&self, warp: &str, form: &SittingForm, sitting: Option<&str>) -> Result<Vec<String>, UserError> {
        let sitting = sitting.map(id).transpose()?;
        let running = self.open.as_ref().and_then(|open| open.running.as_ref()).map(|(running, _)| running);
        match (warp, running) {
            // The sitting that is going on.
            ("", Some(running)) => Ok(self.reconciled(&running.warp, form, Some(&running.sitting))),
            ("", None) => Ok(Vec::new()),
            (warp, _) => Ok(self.reconciled(&id(warp)?, form, sitting.as_ref())),
        }
    }

    pub(super) fn reconciled(&self, warp: &RecordId, form: &SittingForm, sitting: Option<&RecordId>) -> Vec<String> {
        let log = self.open.as_ref().and_then(|open| warp_log(open.journal.state(), warp));
        log.map(|log| reconcile::of_form(&log, form, sitting, &self.format(), today())).unwrap_or_default()
    }

    /// Corrects a sitting.
    pub fn correct_sitting(
        &mut self,
        sitting: &str,
        form: &SittingForm,
        seen: &[String],
    ) -> Result<AppView, UserError> {
        let sitting = id(sitting)?;
        self.write(|pen| pen.correct_sitting(&sitting, form, &keys(seen)))?;
        Ok(self.view())
    }

    /// Keeps a photo with a sitting.
    pub fn add_photo(&mut self, sitting: &str, bytes: &[u8]) -> Result<AppView, UserError> {
        let sitting = id(sitting)?;
        self.write(|pen| pen.add_photo(&sitting, bytes))?;
        Ok(self.view())
    }

    /// A small copy of a photo.
    pub fn small_photo(&self, warp: &RecordId, hash: &str, long_side_px: u32) -> Option<Vec<u8>> {
        self.open.as_ref()?.journal.thumbnail(warp, hash, long_side_px).ok()
    }

    /// Where a photo lies.
    pub fn photo_path(&self, warp: &RecordId, hash: &str) -> Option<PathBuf> {
        self.open.as_ref()?.journal.photo_path(warp, hash).ok()
    }
}

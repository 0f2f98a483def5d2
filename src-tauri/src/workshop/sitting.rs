//! Sittings logged afterwards, corrected, and their photos.

use std::path::PathBuf;

use fellmark_answers::view::{Desk, SittingForm, Trouble};
use fellmark_journal::RecordId;

use super::{Workshop, id, keys};

impl Workshop {
    /// Logs a sitting afterwards; its id and the desk.
    pub fn log_sitting(&mut self, warp: &str, form: &SittingForm) -> Result<(Desk, String), Trouble> {
        let warp = id(warp)?;
        let logged = self.write(|pen| pen.log_sitting(&warp, form, None))?;
        Ok((self.desk(), logged.to_string()))
    }

    /// Corrects a sitting.
    pub fn correct_sitting(&mut self, sitting: &str, form: &SittingForm, seen: &[String]) -> Result<Desk, Trouble> {
        let sitting = id(sitting)?;
        self.write(|pen| pen.correct_sitting(&sitting, form, &keys(seen)))?;
        Ok(self.desk())
    }

    /// Keeps a photo with a sitting.
    pub fn add_photo(&mut self, sitting: &str, bytes: &[u8]) -> Result<Desk, Trouble> {
        let sitting = id(sitting)?;
        self.write(|pen| pen.add_photo(&sitting, bytes))?;
        Ok(self.desk())
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

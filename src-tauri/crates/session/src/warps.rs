//! Warps: begin one, change it, say whether it is on the loom.

use fellmark_journal::{Key, RecordId};
use fellmark_present::view::{ErrorView, WarpForm, WarpState};

use crate::Session;

impl Session {
    /// Begins a warp; its id.
    ///
    /// # Errors
    /// The form cannot be read, or nothing can be written.
    pub fn begin_warp(&mut self, form: &WarpForm) -> Result<RecordId, ErrorView> {
        self.run(|commands| commands.begin_warp(form))
    }

    /// Changes a warp; `seen` are the entries the form was filled from.
    ///
    /// # Errors
    /// The form cannot be read, or nothing can be written.
    pub fn change_warp(&mut self, warp: &RecordId, form: &WarpForm, seen: &[Key]) -> Result<(), ErrorView> {
        self.run(|commands| commands.change_warp(warp, form, seen))
    }

    /// Puts a warp aside, takes it up again, or notes that it is cut off.
    ///
    /// # Errors
    /// Nothing can be written.
    pub fn set_warp_state(&mut self, warp: &RecordId, state: WarpState) -> Result<(), ErrorView> {
        self.run(|commands| commands.set_warp_state(warp, state))
    }

    /// Shows another warp from now on.
    pub fn show_warp(&mut self, warp: RecordId) {
        self.shown = Some(warp);
    }
}

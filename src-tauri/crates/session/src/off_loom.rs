//! Off the loom: cutting off, what was measured, the finishing steps.

use fellmark_journal::{Key, RecordId};
use fellmark_present::view::{ErrorView, OffForm};

use crate::Session;

impl Session {
    /// Cuts a warp off, or changes what was measured of one that is off; `seen` are the entries the form was filled from.
    ///
    /// # Errors
    /// The form cannot be read, or nothing can be written.
    pub fn cut_off(&mut self, warp: &RecordId, form: &OffForm, seen: &[Key]) -> Result<(), ErrorView> {
        self.run(|commands| commands.cut_off(warp, form, seen))
    }

    /// Ticks a finishing step as done on a day, or takes the tick away.
    ///
    /// # Errors
    /// The day cannot be read, or nothing can be written.
    pub fn tick_step(&mut self, warp: &RecordId, step: &RecordId, on: Option<&str>) -> Result<(), ErrorView> {
        self.run(|commands| commands.tick_step(warp, step, on))
    }

    /// Gives a finishing step a name and the day it was done.
    ///
    /// # Errors
    /// The name or the day cannot be taken, or nothing can be written.
    pub fn change_step(&mut self, warp: &RecordId, step: &RecordId, name: &str, on: &str) -> Result<(), ErrorView> {
        self.run(|commands| commands.change_step(warp, step, name, on))
    }

    /// Adds a finishing step; its id.
    ///
    /// # Errors
    /// The name cannot be taken, or nothing can be written.
    pub fn add_step(&mut self, warp: &RecordId, name: &str) -> Result<RecordId, ErrorView> {
        self.run(|commands| commands.add_step(warp, name))
    }

    /// Removes a finishing step.
    ///
    /// # Errors
    /// Nothing can be written.
    pub fn remove_step(&mut self, warp: &RecordId, step: &RecordId) -> Result<(), ErrorView> {
        self.run(|commands| commands.remove_step(warp, step))
    }
}

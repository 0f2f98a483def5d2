//! Off the loom: cutting off, what was measured, the finishing steps.

use fellmark_answers::present::view::{AppView, OffForm, UserError};

use super::{Session, id, keys};

impl Session {
    /// Cuts a warp off, or changes what was measured of one that is off.
    pub fn cut_off(&mut self, warp: &str, form: &OffForm, seen: &[String]) -> Result<AppView, UserError> {
        let warp = id(warp)?;
        self.write(|pen| pen.cut_off(&warp, form, &keys(seen)))?;
        Ok(self.view())
    }

    /// Ticks a finishing step as done on a day, or takes the tick away.
    pub fn tick_step(&mut self, warp: &str, step: &str, on: Option<&str>) -> Result<AppView, UserError> {
        let (warp, step) = (id(warp)?, id(step)?);
        self.write(|pen| pen.tick_step(&warp, &step, on))?;
        Ok(self.view())
    }

    /// Gives a finishing step a name and the day it was done.
    pub fn change_step(&mut self, warp: &str, step: &str, name: &str, on: &str) -> Result<AppView, UserError> {
        let (warp, step) = (id(warp)?, id(step)?);
        self.write(|pen| pen.change_step(&warp, &step, name, on))?;
        Ok(self.view())
    }

    /// Adds a finishing step.
    pub fn add_step(&mut self, warp: &str, name: &str) -> Result<AppView, UserError> {
        let warp = id(warp)?;
        self.write(|pen| pen.add_step(&warp, name))?;
        Ok(self.view())
    }

    /// Takes a finishing step out of the list.
    pub fn remove_step(&mut self, warp: &str, step: &str) -> Result<AppView, UserError> {
        let (warp, step) = (id(warp)?, id(step)?);
        self.write(|pen| pen.remove_step(&warp, &step))?;
        Ok(self.view())
    }
}

//! Warps: show one, begin one, change it, say where it is.

use fellmark_answers::present::view::{AppView, UserError, WarpForm, WarpState};

use super::{Session, id, keys};

impl Session {
    /// Shows another warp.
    pub fn show(&mut self, warp: &str) -> Result<AppView, UserError> {
        let warp_id = id(warp)?;
        self.opened()?.shown = Some(warp_id);
        self.choice.warp = Some(warp.to_owned());
        self.keep_choice();
        Ok(self.view())
    }

    /// Begins a warp and shows it.
    pub fn begin_warp(&mut self, form: &WarpForm) -> Result<AppView, UserError> {
        let warp = self.write(|pen| pen.begin_warp(form))?;
        self.show(warp.as_str())
    }

    /// Changes a warp.
    pub fn change_warp(&mut self, warp: &str, form: &WarpForm, seen: &[String]) -> Result<AppView, UserError> {
        let warp = id(warp)?;
        self.write(|pen| pen.change_warp(&warp, form, &keys(seen)))?;
        Ok(self.view())
    }

    /// Puts a warp aside, takes it up, or notes that it is cut off.
    pub fn set_warp_state(&mut self, warp: &str, state: &str) -> Result<AppView, UserError> {
        let warp = id(warp)?;
        let state = match state {
            "on_the_loom" => WarpState::OnTheLoom,
            "resting" => WarpState::Resting,
            "off_the_loom" => WarpState::OffTheLoom,
            other => return Err(UserError::new(format!("A warp cannot be \u{201c}{other}\u{201d}."))),
        };
        self.write(|pen| pen.set_state(&warp, state))?;
        Ok(self.view())
    }
}

//! At the loom: taps, and getting up.

use chrono::Local;
use fellmark_answers::model::display_format::DisplayFormat;
use fellmark_answers::model::running::{Running, Tap};
use fellmark_answers::present::desk::{self, Presenter, RunningSitting};
use fellmark_answers::present::trouble::sentence;
use fellmark_answers::present::view::{FinishForm, RunningView, SittingForm, UserError};
use fellmark_journal::RecordId;

use super::{Open, SavedSitting, Session, now_ms, today};

impl Session {
    /// Takes a pick, or takes one back; two where she counts there and back. The first one begins the sitting.
    pub fn tap(&mut self, by: i64) -> Result<RunningView, UserError> {
        if by != 1 && by != -1 {
            return Err(UserError::new("A tap is one pick, or one pick back."));
        }
        self.keep_tap(by, None)
    }

    /// Notes that a pick is begun and not beaten, or not any more.
    pub fn set_pick_begun(&mut self, begun: bool) -> Result<RunningView, UserError> {
        self.keep_tap(0, Some(begun))
    }

    fn keep_tap(&mut self, presses: i64, begun: Option<bool>) -> Result<RunningView, UserError> {
        let format = self.format();
        let open = self.opened()?;
        let woven_on = if open.running.is_none() { open.woven_on(&format) } else { None };
        let Some(taps) = &mut open.taps else {
            return Err(UserError::new(
                "Another Fellmark window on this device has this folder; weave there, or close it and open this one again.",
            ));
        };
        let (warp, sitting) = match &open.running {
            Some((running, _)) => (running.warp.clone(), running.sitting.clone()),
            None => {
                let warp = woven_on.ok_or_else(|| UserError::new("No warp is on the loom. Begin one first."))?;
                (warp, RecordId::new())
            }
        };
        let per_tap = match &open.running {
            Some((_, under)) => under.picks_per_tap(),
            None => desk::picks_per_tap(&open.journal, &warp),
        };
        let by = presses * per_tap;
        let tap =
            Tap { sitting, warp, by, begun, at_ms: now_ms(), local: Local::now().format("%Y-%m-%dT%H:%M").to_string() };
        let line = serde_json::to_value(&tap).map_err(|error| UserError::new(sentence(&error.to_string())))?;
        taps.append(&line)?;
        match &mut open.running {
            Some((running, _)) => running.add(&tap),
            None => {
                let running = Running::begun(&tap);
                let under = RunningSitting::new(&open.journal, &running)
                    .ok_or_else(|| UserError::new("This warp is not known here any more. Choose another one."))?;
                open.running = Some((running, under));
            }
        }
        let (running, under) =
            open.running.as_ref().ok_or_else(|| UserError::new("The sitting could not be begun. Try again."))?;
        Ok(under.view(running, now_ms()))
    }

    /// What getting up starts from.
    pub fn finish_form(&mut self) -> Result<FinishForm, UserError> {
        let open = self.opened()?;
        let Some((running, _)) = &open.running else {
            return Err(UserError::new("No sitting is going on."));
        };
        Ok(fellmark_answers::present::finish_form::finish_form(running, now_ms()))
    }

    /// Logs the sitting that is going on; its id, the view, and tape and picks side by side.
    pub fn finish_sitting(&mut self, form: &SittingForm) -> Result<SavedSitting, UserError> {
        let open = self.opened()?;
        let Some((running, _)) = &open.running else {
            return Err(UserError::new("No sitting is going on."));
        };
        let (warp, sitting) = (running.warp.clone(), running.sitting.clone());
        let messages = self.reconciled(&warp, form, Some(&sitting));
        let logged = self.write(|pen| pen.log_sitting(&warp, form, Some(sitting)))?;
        let open = self.opened()?;
        open.running = None;
        if let Some(taps) = &mut open.taps {
            taps.clear()?;
        }
        Ok(SavedSitting { view: self.view(), sitting: logged.to_string(), messages })
    }
}

impl Open {
    /// The warp a first tap is on.
    fn woven_on(&mut self, format: &DisplayFormat) -> Option<RecordId> {
        Presenter::new(&self.journal, &mut self.reckonings, format, today()).woven_on(self.shown.as_ref())
    }
}

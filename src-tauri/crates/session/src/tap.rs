//! At the loom: taps, and finishing the sitting.

use fellmark_journal::RecordId;
use fellmark_model::messages;
use fellmark_model::running::{Running, Tap};
use fellmark_present::finish_form;
use fellmark_present::overview::{self, RunningSitting};
use fellmark_present::view::{ErrorView, FinishForm, RunningView, SittingForm};

use crate::{LoggedSitting, Session, shown_error};

impl Session {
    /// Counts a pick, or takes one back (`by` is 1 or -1); two where a tap is there and back. The first tap begins the sitting.
    ///
    /// # Errors
    /// Another window has the folder, no warp is on the loom, or the tap cannot be written.
    pub fn tap(&mut self, by: i64) -> Result<RunningView, ErrorView> {
        if by != 1 && by != -1 {
            return Err(shown_error(messages::tap_is_one_pick()));
        }
        self.append_tap(by, None, None)
    }

    /// Notes that a pick is begun and not beaten, or not any more.
    ///
    /// # Errors
    /// As for [`Session::tap`].
    pub fn set_pick_begun(&mut self, begun: bool) -> Result<RunningView, ErrorView> {
        self.append_tap(0, Some(begun), None)
    }

    /// Pauses the timer, or lets it go on. A pick lets it go on too.
    ///
    /// # Errors
    /// No sitting is going on, or it cannot be written.
    pub fn set_paused(&mut self, paused: bool) -> Result<RunningView, ErrorView> {
        if self.running.is_none() {
            return Err(no_sitting());
        }
        self.append_tap(0, None, Some(paused))
    }

    fn append_tap(&mut self, presses: i64, begun: Option<bool>, pause: Option<bool>) -> Result<RunningView, ErrorView> {
        let (warp, sitting, picks_per_tap) = self.tapped_sitting()?;
        let Some(taps) = &mut self.taps else { return Err(held_elsewhere()) };
        let now_ms = self.clock.now_ms();
        let local = self.clock.local_minute();
        let tap = Tap { sitting, warp, by: presses * picks_per_tap, begun, pause, at_ms: now_ms, local };
        let line =
            serde_json::to_value(&tap).map_err(|error| shown_error(messages::tap_not_written(error.to_string())))?;
        taps.append(&line)?;
        match &mut self.running {
            Some((running, _)) => running.add(&tap),
            None => {
                let running = Running::begun(&tap);
                let sitting = RunningSitting::new(&self.journal, &self.reports, &running)
                    .ok_or_else(|| shown_error(messages::warp_not_known_any_more()))?;
                self.running = Some((running, sitting));
            }
        }
        let (running, sitting) = self.running.as_ref().ok_or_else(|| shown_error(messages::sitting_not_begun()))?;
        Ok(sitting.view(running, now_ms, &self.format()))
    }

    /// The warp and the sitting a tap belongs to, and how many picks it counts; a new sitting where none is going on.
    fn tapped_sitting(&mut self) -> Result<(RecordId, RecordId, i64), ErrorView> {
        if let Some((running, sitting)) = &self.running {
            return Ok((running.warp.clone(), running.sitting.clone(), sitting.picks_per_tap()));
        }
        if self.taps.is_none() {
            return Err(held_elsewhere());
        }
        let shown = self.shown.clone();
        let warp = self
            .with_presenter(|presenter| presenter.woven_on(shown.as_ref()))
            .ok_or_else(|| shown_error(messages::no_warp_on_the_loom()))?;
        let picks_per_tap = overview::picks_per_tap(&self.journal, &warp);
        Ok((warp, RecordId::new(), picks_per_tap))
    }

    /// When the sitting that is going on counts as paused if nothing more is tapped, in milliseconds since 1970; nothing when none
    /// is going on.
    #[must_use]
    pub fn pauses_at_ms(&self) -> Option<i64> {
        Some(self.running.as_ref()?.0.pauses_at_ms())
    }

    /// The form the sitting that is going on is finished with.
    ///
    /// # Errors
    /// No sitting is going on.
    pub fn finish_form(&self) -> Result<FinishForm, ErrorView> {
        let Some((running, sitting)) = &self.running else { return Err(no_sitting()) };
        Ok(finish_form::finish_form(running, sitting.log(), self.clock.now_ms(), &self.format()))
    }

    /// Logs the sitting that is going on.
    ///
    /// # Errors
    /// No sitting is going on, the form cannot be read, or nothing can be written.
    pub fn finish_sitting(&mut self, form: &SittingForm) -> Result<LoggedSitting, ErrorView> {
        let Some((running, _)) = &self.running else { return Err(no_sitting()) };
        let (warp, sitting) = (running.warp.clone(), running.sitting.clone());
        let messages = self.reconcile(&warp, form, Some(&sitting));
        let sitting = self.run(|commands| commands.log_sitting(&warp, form, Some(sitting)))?;
        self.running = None;
        if let Some(taps) = &mut self.taps {
            taps.clear()?;
        }
        Ok(LoggedSitting { sitting, messages })
    }
}

fn no_sitting() -> ErrorView {
    shown_error(messages::no_sitting_going_on())
}

fn held_elsewhere() -> ErrorView {
    shown_error(messages::folder_in_another_window())
}

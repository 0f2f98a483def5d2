//! At the loom: taps, and getting up.

use chrono::Local;
use fellmark_answers::desk::{self, UnderTheTaps};
use fellmark_answers::running::{Running, Tap};
use fellmark_answers::trouble::sentence;
use fellmark_answers::view::{GettingUp, RunningView, SittingForm, Trouble, WarpState};
use fellmark_journal::RecordId;

use super::{Kept, Workshop, now_ms, today};

impl Workshop {
    /// Takes a pick, or takes one back; two where she counts there and back. The first one begins the sitting.
    pub fn tap(&mut self, by: i64) -> Result<RunningView, Trouble> {
        if by != 1 && by != -1 {
            return Err(Trouble::new("A tap is one pick, or one pick back."));
        }
        self.keep_tap(by, None)
    }

    /// Notes that a pick is begun and not beaten, or not any more.
    pub fn pick_begun(&mut self, begun: bool) -> Result<RunningView, Trouble> {
        self.keep_tap(0, Some(begun))
    }

    fn keep_tap(&mut self, presses: i64, begun: Option<bool>) -> Result<RunningView, Trouble> {
        let shown = self.desk_warp();
        let open = self.opened()?;
        let Some(taps) = &mut open.taps else {
            return Err(Trouble::new(
                "Another Fellmark window on this device has this folder; weave there, or close it and open this one again.",
            ));
        };
        let (warp, sitting) = match &open.running {
            Some((running, _)) => (running.warp.clone(), running.sitting.clone()),
            None => {
                let warp = shown.ok_or_else(|| Trouble::new("No warp is on the loom. Begin one first."))?;
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
        let line = serde_json::to_value(&tap).map_err(|error| Trouble::new(sentence(&error.to_string())))?;
        taps.append(&line)?;
        match &mut open.running {
            Some((running, _)) => running.add(&tap),
            None => {
                let running = Running::begun(&tap);
                let under = UnderTheTaps::new(&open.journal, &running)
                    .ok_or_else(|| Trouble::new("This warp is not known here any more. Choose another one."))?;
                open.running = Some((running, under));
            }
        }
        let (running, under) =
            open.running.as_ref().ok_or_else(|| Trouble::new("The sitting could not be begun. Try again."))?;
        Ok(under.view(running, now_ms()))
    }

    /// The warp that is shown, if it is on the loom.
    fn desk_warp(&self) -> Option<RecordId> {
        let open = self.open.as_ref()?;
        let lines = desk::warp_lines(&open.journal, &self.manner(), today());
        let on = |id: &str| lines.iter().any(|line| line.id == id && line.state == WarpState::OnTheLoom);
        match &open.shown {
            Some(shown) if on(shown.as_str()) => Some(shown.clone()),
            _ => lines.iter().find(|line| line.state == WarpState::OnTheLoom).and_then(|line| line.id.parse().ok()),
        }
    }

    /// What getting up starts from.
    pub fn getting_up(&mut self) -> Result<GettingUp, Trouble> {
        let open = self.opened()?;
        let Some((running, _)) = &open.running else {
            return Err(Trouble::new("No sitting is going on."));
        };
        Ok(running.getting_up(now_ms()))
    }

    /// Logs the sitting that is going on; its id, the desk, and tape and picks side by side.
    pub fn get_up(&mut self, form: &SittingForm) -> Result<Kept, Trouble> {
        let open = self.opened()?;
        let Some((running, _)) = &open.running else {
            return Err(Trouble::new("No sitting is going on."));
        };
        let (warp, sitting) = (running.warp.clone(), running.sitting.clone());
        let told = self.reconciled(&warp, form, Some(&sitting));
        let logged = self.write(|pen| pen.log_sitting(&warp, form, Some(sitting)))?;
        let open = self.opened()?;
        open.running = None;
        if let Some(taps) = &mut open.taps {
            taps.clear()?;
        }
        Ok(Kept { desk: self.desk(), sitting: logged.to_string(), told })
    }
}

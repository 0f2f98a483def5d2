//! The sitting that is going on, as it is shown: what it stands on is reckoned once, so that a tap costs nothing.

use fellmark_journal::{Journal, State};
use serde_json::Value;

use crate::fields;
use crate::model::{self, WarpLog};
use crate::moments::Course;
use crate::progress::Progress;
use crate::running::{Running, STRETCH_MINUTES};
use crate::sequence;
use crate::view::{PlaceView, Places, RunningView};

/// Minutes for which a reminder to stretch is shown at each interval; then it goes by itself.
const SHOWN_MINUTES: f64 = 3.0;
/// When the cloth is wound on after this share of the interval, that is the moment to stretch.
const AT_AN_ADVANCE_SHARE: f64 = 0.6;

/// Minutes without a pause after which a stretch is suggested in this folder; nothing when she wants no reminder.
#[must_use]
pub fn stretch_minutes(state: &State) -> Option<f64> {
    let id = fields::settings::RECORD.parse().ok()?;
    let record = state.record(&id).filter(|record| record.is_visible());
    let chosen = record.and_then(|record| record.get(fields::settings::STRETCH_MINUTES)).and_then(Value::as_f64);
    Some(chosen.unwrap_or(STRETCH_MINUTES)).filter(|minutes| *minutes > 0.0)
}

/// What a sitting that is going on stands on.
#[derive(Clone, Debug)]
pub struct UnderTheTaps {
    log: WarpLog,
    stretch: Option<f64>,
}

impl UnderTheTaps {
    /// The warp under the taps; nothing when it is not known any more.
    #[must_use]
    pub fn new(journal: &Journal, running: &Running) -> Option<Self> {
        let mut log = model::warp_log(journal.state(), &running.warp)?;
        log.running = Some(running.sitting.clone());
        Some(Self { log, stretch: stretch_minutes(journal.state()) })
    }

    /// The place in the pick sequence after so many picks of the running sitting.
    #[must_use]
    pub fn place(&self, running_picks: i64) -> Option<PlaceView> {
        sequence::has_rows(&self.log.warp.rows)
            .then(|| sequence::place(&self.log, &Progress::of(&self.log, running_picks)))
            .flatten()
    }

    /// The places she can go to.
    #[must_use]
    pub fn places(&self, running_picks: i64) -> Option<Places> {
        sequence::places(&self.log, running_picks)
    }

    /// Picks that one press counts.
    #[must_use]
    pub fn picks_per_tap(&self) -> i64 {
        self.log.warp.picks_per_tap
    }

    /// The log it stands on.
    #[must_use]
    pub fn log(&self) -> &WarpLog {
        &self.log
    }

    /// The running sitting as it is shown.
    #[must_use]
    pub fn view(&self, running: &Running, now_ms: i64) -> RunningView {
        let since = running.began_local.get(11..16).unwrap_or_default();
        let place = self.place(running.picks).map(|place| PlaceView { begun: running.begun, ..place });
        RunningView {
            warp: running.warp.to_string(),
            picks: running.picks,
            picks_in_all: Course::of(&self.log, running.picks).picks(),
            minutes: running.minutes(now_ms).floor(),
            since: format!("since {since}"),
            paused: running.is_paused(now_ms),
            place,
            picks_per_tap: self.picks_per_tap(),
            begun: running.begun,
            stretch: self.stretch.filter(|every| is_due(running.stretch(now_ms), *every)).map(stretch_words),
        }
    }

    /// A word about stretching when the cloth is wound on, the best moment for it.
    #[must_use]
    pub fn at_an_advance(&self, running: &Running, now_ms: i64) -> Option<String> {
        let (minutes, every) = (running.stretch(now_ms), self.stretch?);
        (minutes >= every * AT_AN_ADVANCE_SHARE).then(|| {
            format!("{minutes:.0} minutes without a pause: while you wind on, stand up and loosen shoulders and hands.")
        })
    }
}

fn is_due(minutes: f64, every: f64) -> bool {
    minutes >= every && minutes % every < SHOWN_MINUTES.min(every)
}

fn stretch_words(every: f64) -> String {
    format!(
        "{every:.0} minutes without a pause. When you next wind the cloth on, stand up and loosen shoulders and hands. If \
         anything keeps hurting, see a clinician."
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_reminder_comes_at_each_interval_and_goes_by_itself() {
        for (minutes, due) in [(29.0, false), (30.0, true), (32.9, true), (33.1, false), (60.5, true)] {
            assert_eq!(is_due(minutes, 30.0), due, "{minutes}");
        }
        assert!(is_due(20.0, 20.0) && !is_due(19.9, 20.0));
    }
}

//! The sitting that is going on, as it is shown: what it rests on is calculated once, so that a tap costs nothing.

use fellmark_journal::{EntrySet, Journal};
use serde_json::Value;

use crate::messages::declared::{cautions, sittings};
use crate::messages::text;
use crate::progress::to_go;
use crate::view::{PlaceView, Places, PressView, RunningView};
use crate::weft;
use fellmark_model::WarpLog;
use fellmark_model::display_format::DisplayFormat;
use fellmark_model::fields;
use fellmark_model::moments::Timeline;
use fellmark_model::running::{Running, STRETCH_MINUTES};
use fellmark_model::sequence;
use fellmark_reports::progress::Progress;
use fellmark_reports::report_cache::ReportCache;

/// Minutes for which a reminder to stretch is shown at each interval; then it goes by itself.
const SHOWN_MINUTES: f64 = 3.0;
/// Presses ahead and back whose outcome is handed out with each answer: more than a quick hand makes before the next answer.
const AHEAD: i64 = 4;
const BACK: i64 = 2;
/// When the cloth is wound on after this share of the interval, that is the moment to stretch.
const AT_AN_ADVANCE_SHARE: f64 = 0.6;

/// Minutes without a pause after which a stretch is suggested in this folder; nothing when the weaver wants no reminder.
#[must_use]
pub fn stretch_minutes(state: &EntrySet) -> Option<f64> {
    let id = fields::settings::RECORD.parse().ok()?;
    let record = state.record(&id).filter(|record| record.is_visible());
    let chosen = record.and_then(|record| record.get(fields::settings::STRETCH_MINUTES)).and_then(Value::as_f64);
    Some(chosen.unwrap_or(STRETCH_MINUTES)).filter(|minutes| *minutes > 0.0)
}

/// What a sitting that is going on stands on.
#[derive(Clone, Debug)]
pub struct RunningSitting {
    log: WarpLog,
    stretch: Option<f64>,
}

impl RunningSitting {
    /// The warp under the taps; nothing when it is not known any more.
    #[must_use]
    pub fn new(journal: &Journal, reports: &ReportCache, running: &Running) -> Option<Self> {
        let mut log = reports.warp_log(journal.state(), &running.warp)?;
        log.running = Some(running.sitting.clone());
        Some(Self { log, stretch: stretch_minutes(journal.state()) })
    }

    /// The places the weaver can go to.
    #[must_use]
    pub fn places(&self, running_picks: i64) -> Option<Places> {
        crate::sequence::places(&self.log, running_picks)
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
    pub fn view(&self, running: &Running, now_ms: i64, format: &DisplayFormat) -> RunningView {
        let since = running.began_local.get(11..16).unwrap_or_default();
        let here = press(&self.log, running.picks, format);
        let place = here.place.map(|place| PlaceView { begun: running.begun, ..place });
        let presses = (-BACK..=AHEAD).filter(|by| *by != 0);
        RunningView {
            warp: running.warp.to_string(),
            sitting: running.sitting.to_string(),
            taps: running.taps,
            picks: running.picks,
            picks_in_all: here.picks_in_all,
            minutes: running.minutes(now_ms).floor(),
            since: text(&sittings::sitting_since(format.time(since)), format),
            paused: running.is_paused(now_ms),
            held: running.held,
            to_go: here.to_go,
            place,
            picks_per_tap: self.picks_per_tap(),
            begun: running.begun,
            stretch: self
                .stretch
                .filter(|every| is_due(running.stretch(now_ms), *every))
                .map(|every| text(&cautions::stretch_due(every), format)),
            half: weft::mirror_here(&self.log, running.picks, format),
            press_previews: presses
                .map(|by| press(&self.log, running.picks + by * self.picks_per_tap(), format))
                .collect(),
        }
    }

    /// A word about stretching when the cloth is wound on, the best moment for it.
    #[must_use]
    pub fn at_an_advance(&self, running: &Running, now_ms: i64, format: &DisplayFormat) -> Option<String> {
        let (minutes, every) = (running.stretch(now_ms), self.stretch?);
        (minutes >= every * AT_AN_ADVANCE_SHARE).then(|| text(&cautions::stretch_at_an_advance(minutes), format))
    }
}

/// What the first presses of a sitting on this warp would show.
pub(crate) fn first_presses(log: &WarpLog, format: &DisplayFormat) -> Vec<PressView> {
    (1..=AHEAD).map(|by| press(log, by * log.warp.picks_per_tap, format)).collect()
}

fn press(log: &WarpLog, picks: i64, format: &DisplayFormat) -> PressView {
    let progress = Progress::of(log, picks);
    PressView {
        picks,
        picks_in_all: Timeline::of(log, picks).picks(),
        to_go: to_go(&progress, format),
        place: sequence::has_rows(&log.warp.rows).then(|| crate::sequence::place(log, &progress, format)).flatten(),
    }
}

fn is_due(minutes: f64, every: f64) -> bool {
    minutes >= every && minutes % every < SHOWN_MINUTES.min(every)
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

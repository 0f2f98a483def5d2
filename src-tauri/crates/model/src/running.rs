//! The sitting that is going on: an append-only list of taps, from which picks and minutes follow.

use fellmark_journal::RecordId;
use serde::{Deserialize, Serialize};
use serde_json::Value;

/// A gap between two taps longer than this is a pause and does not count as time at the loom. Shorter interruptions do: a
/// weaver's pace is the pace with bobbins, tangles and tea (common practice, no source).
pub const PAUSE_MINUTES: f64 = 15.0;

/// After this long at work without a pause a stretch is suggested, half-hourly as weavers advise (common practice, no source).
pub const STRETCH_MINUTES: f64 = 30.0;

/// A pause taken by hand that is at least so long ends a stretch: breaks of five to ten minutes are what guidance on working at a
/// screen asks for (HSE, from memory).
const BREAK_MINUTES: f64 = 5.0;

/// A longer time since the first tap is not offered as time at the loom (common practice, no source).
const LONGEST_LIKELY_MINUTES: f64 = 240.0;

const MS_PER_MINUTE: f64 = 60_000.0;

/// A tap as it is written down.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Tap {
    /// The sitting's record id, given to it by its first tap.
    pub sitting: RecordId,
    /// The warp.
    pub warp: RecordId,
    /// Picks: above zero woven, below zero taken back, nothing when only `begun` is said.
    pub by: i64,
    /// That a pick is begun and not beaten, or not any more.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub begun: Option<bool>,
    /// That the timer is paused by hand, or goes on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pause: Option<bool>,
    /// Milliseconds since 1970.
    pub at_ms: i64,
    /// `YYYY-MM-DDTHH:MM` by the clock on the wall.
    pub local: String,
}

/// The running sitting as its taps tell it.
#[derive(Clone, Debug, PartialEq)]
pub struct Running {
    /// The record id the sitting will have.
    pub sitting: RecordId,
    /// The warp.
    pub warp: RecordId,
    /// How many taps it is made of: of two views of it the one with more is the newer.
    pub taps: u32,
    /// Net picks.
    pub picks: i64,
    /// A pick is begun and not beaten.
    pub begun: bool,
    /// `YYYY-MM-DDTHH:MM` of the first tap.
    pub began_local: String,
    /// Milliseconds of the first tap.
    pub began_ms: i64,
    /// Milliseconds of the last tap.
    pub last_ms: i64,
    /// Minutes at work between taps, pauses left out.
    pub worked_minutes: f64,
    /// Minutes in pauses between taps that nobody asked for: nothing was tapped for long.
    pub paused_minutes: f64,
    /// Minutes for which the timer was paused by hand.
    pub held_minutes: f64,
    /// The timer is paused by hand since the last tap.
    pub held: bool,
    /// Minutes at work since the last pause.
    pub stretch_minutes: f64,
}

impl Running {
    /// The sitting described by the lines of its log; nothing when no line can be read. Lines of another sitting than the first
    /// are left out.
    #[must_use]
    pub fn from_lines(lines: &[Value]) -> Option<Self> {
        let mut running: Option<Self> = None;
        for line in lines {
            let Ok(tap) = serde_json::from_value::<Tap>(line.clone()) else { continue };
            match &mut running {
                None => running = Some(Self::begun(&tap)),
                Some(running) => running.add(&tap),
            }
        }
        running
    }

    /// A sitting that begins with this tap.
    #[must_use]
    pub fn begun(tap: &Tap) -> Self {
        Self {
            sitting: tap.sitting.clone(),
            warp: tap.warp.clone(),
            taps: 1,
            picks: tap.by,
            begun: tap.begun.unwrap_or(false),
            began_local: tap.local.clone(),
            began_ms: tap.at_ms,
            last_ms: tap.at_ms,
            worked_minutes: 0.0,
            paused_minutes: 0.0,
            held_minutes: 0.0,
            held: false,
            stretch_minutes: 0.0,
        }
    }

    /// Takes one more tap in.
    pub fn add(&mut self, tap: &Tap) {
        if tap.sitting != self.sitting {
            return;
        }
        self.taps = self.taps.saturating_add(1);
        self.picks += tap.by;
        // A pick that is beaten, or taken out, is not begun any more.
        self.begun = tap.begun.unwrap_or(self.begun && tap.by == 0);
        // A clock set back between two taps counts as no time.
        let gap = minutes_between(self.last_ms, tap.at_ms);
        if self.held {
            self.held_minutes += gap;
            if gap >= BREAK_MINUTES {
                self.stretch_minutes = 0.0;
            }
        } else if gap <= PAUSE_MINUTES {
            self.worked_minutes += gap;
            self.stretch_minutes += gap;
        } else {
            self.paused_minutes += gap;
            self.stretch_minutes = 0.0;
        }
        self.last_ms = self.last_ms.max(tap.at_ms);
        // Who goes on weaving goes on counting time.
        self.held = tap.pause.unwrap_or(false);
    }

    /// Whether the timer stands still: paused by hand, or because nothing happened for long.
    #[must_use]
    pub fn is_paused(&self, now_ms: i64) -> bool {
        self.held || minutes_between(self.last_ms, now_ms) > PAUSE_MINUTES
    }

    /// When it counts as paused if nothing more is tapped, in milliseconds since 1970.
    #[must_use]
    pub fn pauses_at_ms(&self) -> i64 {
        if self.held {
            return self.last_ms;
        }
        self.last_ms.saturating_add((PAUSE_MINUTES * MS_PER_MINUTE) as i64)
    }

    /// Minutes at the loom up to now.
    #[must_use]
    pub fn minutes(&self, now_ms: i64) -> f64 {
        self.worked_minutes + self.since_last(now_ms)
    }

    /// Minutes without a pause up to now.
    #[must_use]
    pub fn stretch(&self, now_ms: i64) -> f64 {
        self.stretch_minutes + self.since_last(now_ms)
    }

    /// Minutes left out of [`Self::minutes`] because nothing was tapped, the pause that is going on included. What was paused by
    /// hand is no question.
    #[must_use]
    pub fn left_out(&self, now_ms: i64) -> f64 {
        let open = minutes_between(self.last_ms, now_ms);
        self.paused_minutes + if open > PAUSE_MINUTES && !self.held { open } else { 0.0 }
    }

    /// Minutes by the clock since the first tap, whole, without those paused by hand; nothing where no other time was left out, or
    /// where it is longer than anyone sits at the loom at once. Who wove on without counting takes this time.
    #[must_use]
    pub fn minutes_by_the_clock(&self, now_ms: i64) -> Option<f64> {
        let held = self.held_minutes + if self.held { minutes_between(self.last_ms, now_ms) } else { 0.0 };
        let whole = (minutes_between(self.began_ms, now_ms) - held).round();
        (self.left_out(now_ms) > 0.0 && whole <= LONGEST_LIKELY_MINUTES).then_some(whole)
    }

    fn since_last(&self, now_ms: i64) -> f64 {
        let open = minutes_between(self.last_ms, now_ms);
        if open <= PAUSE_MINUTES && !self.held { open } else { 0.0 }
    }
}

fn minutes_between(from_ms: i64, to_ms: i64) -> f64 {
    (to_ms.saturating_sub(from_ms)).max(0) as f64 / MS_PER_MINUTE
}

#[cfg(test)]
mod tests {
    use super::*;

    const MINUTE: i64 = 60_000;

    fn tap(by: i64, minute: i64) -> Tap {
        Tap {
            sitting: "s0000000000000001".parse().unwrap(),
            warp: "w0000000000000001".parse().unwrap(),
            by,
            begun: None,
            pause: None,
            at_ms: minute * MINUTE,
            local: "2026-11-25T19:00".into(),
        }
    }

    fn lines(taps: &[Tap]) -> Vec<Value> {
        taps.iter().map(|tap| serde_json::to_value(tap).unwrap()).collect()
    }

    #[test]
    fn picks_taken_back_count_as_work() {
        let running = Running::from_lines(&lines(&[tap(1, 0), tap(1, 1), tap(-1, 3)])).unwrap();
        assert_eq!(running.picks, 1);
        assert!((running.minutes(4 * MINUTE) - 4.0).abs() < 1e-9);
    }

    #[test]
    fn a_forgotten_timer_counts_only_the_work() {
        let running = Running::from_lines(&lines(&[tap(1, 0), tap(1, 10)])).unwrap();
        let nine_hours_on = 9 * 60 * MINUTE;
        assert!(running.is_paused(nine_hours_on));
        assert!((running.minutes(nine_hours_on) - 10.0).abs() < 1e-9);
        assert!((running.left_out(nine_hours_on) - 530.0).abs() < 1e-9);
    }

    #[test]
    fn a_pick_begun_is_kept_until_it_is_beaten_or_taken_out() {
        let begun = |said: Option<bool>, minute: i64| Tap { begun: said, ..tap(0, minute) };
        let running = Running::from_lines(&lines(&[tap(1, 0), begun(Some(true), 1)])).unwrap();
        assert_eq!((running.picks, running.begun), (1, true));
        for after in [tap(1, 2), tap(-1, 2), begun(Some(false), 2)] {
            let running = Running::from_lines(&lines(&[tap(1, 0), begun(Some(true), 1), after])).unwrap();
            assert!(!running.begun);
        }
    }

    #[test]
    fn a_short_gap_without_taps_may_have_been_woven_in() {
        let running = Running::from_lines(&lines(&[tap(1, 0)])).unwrap();
        assert_eq!(running.minutes_by_the_clock(50 * MINUTE), Some(50.0));
        assert_eq!(running.minutes_by_the_clock(9 * 60 * MINUTE), None);
        assert_eq!(running.minutes_by_the_clock(5 * MINUTE), None);
    }

    #[test]
    fn a_pause_between_taps_ends_a_stretch() {
        let running = Running::from_lines(&lines(&[tap(1, 0), tap(1, 14), tap(1, 60), tap(1, 65)])).unwrap();
        assert!((running.minutes(65 * MINUTE) - 19.0).abs() < 1e-9);
        assert!((running.stretch(65 * MINUTE) - 5.0).abs() < 1e-9);
    }

    /// Ten minutes woven, eight at the door, five woven: fifteen.
    #[test]
    fn what_is_paused_by_hand_is_not_counted() {
        let pause = |said: bool, minute: i64| Tap { pause: Some(said), ..tap(0, minute) };
        let taps = [tap(1, 0), pause(true, 10), pause(false, 18), tap(1, 20)];
        let running = Running::from_lines(&lines(&taps)).unwrap();
        assert!((running.minutes(23 * MINUTE) - 15.0).abs() < 1e-9);
        assert!((running.stretch(23 * MINUTE) - 5.0).abs() < 1e-9, "eight minutes are a break");
        assert_eq!(running.left_out(23 * MINUTE), 0.0, "nothing is asked");
        assert_eq!(running.minutes_by_the_clock(23 * MINUTE), None);

        // Still paused two hours on; a pick resumes it.
        let running = Running::from_lines(&lines(&taps[..2])).unwrap();
        assert!(running.is_paused(130 * MINUTE));
        assert!((running.minutes(130 * MINUTE) - 10.0).abs() < 1e-9);
        assert_eq!((running.left_out(130 * MINUTE), running.pauses_at_ms()), (0.0, 10 * MINUTE));
        let running = Running::from_lines(&lines(&[taps[0].clone(), taps[1].clone(), tap(1, 130)])).unwrap();
        assert!(!running.is_paused(131 * MINUTE));
        assert!((running.minutes(131 * MINUTE) - 11.0).abs() < 1e-9);

        // Paused for twenty minutes by hand, and nothing tapped for fifty: the clock's offer leaves the twenty out.
        let taps = [tap(1, 0), pause(true, 10), pause(false, 30), tap(1, 80)];
        let running = Running::from_lines(&lines(&taps)).unwrap();
        assert_eq!((running.left_out(80 * MINUTE), running.minutes_by_the_clock(80 * MINUTE)), (50.0, Some(60.0)));
    }

    /// A line as an earlier version wrote it, and none of its own that an earlier version could not read.
    #[test]
    fn taps_without_a_pause_are_written_as_before() {
        assert!(!lines(&[tap(1, 0)])[0].to_string().contains("pause"));
    }

    #[test]
    fn lines_that_are_no_taps_are_passed_over() {
        let mut all = lines(&[tap(1, 0), tap(1, 1)]);
        all.insert(1, serde_json::json!({"warp": 3}));
        all.insert(0, serde_json::json!("torn"));
        assert_eq!(Running::from_lines(&all).unwrap().picks, 2);
        assert_eq!(Running::from_lines(&[]), None);
    }

    #[test]
    fn a_clock_set_back_takes_no_time_away() {
        let running = Running::from_lines(&lines(&[tap(1, 100), tap(1, 5), tap(1, 101)])).unwrap();
        assert!((running.minutes(101 * MINUTE) - 1.0).abs() < 1e-9);
    }
}

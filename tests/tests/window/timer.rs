//! The timer of a sitting, on a clock that the test sets forward.

use fellmark_tests::window::{Clock, Key, TestWindow, Window, WindowOptions};
use serde_json::Value;

use crate::folder::written_fields;

struct TimerWindow {
    window: TestWindow,
    clock: Clock,
    picks: i32,
}

impl TimerWindow {
    fn weaving(options: WindowOptions) -> Self {
        let clock = Clock::new();
        let window = TestWindow::weaving(&options.clock(&clock));
        Self { window, clock, picks: 0 }
    }

    /// So many minutes later, a pick.
    fn pick_after(&mut self, minutes: u32) {
        self.clock.forward(minutes);
        self.window.press(Key::Space);
        self.picks += 1;
        self.window.wait_for_count(self.picks);
    }

    fn finish(&self) {
        self.window.click("@tap-finish");
        self.window.wait("the form is there", 5.0, |window| window.shows("@sitting-minutes"));
    }

    /// Weaves for sixteen minutes, beginning so many minutes from now, and opens the form of the sitting.
    fn sixteen_minutes_in(&mut self, minutes: u32) {
        self.clock.forward(minutes);
        self.pick_after(0);
        self.pick_after(8);
        self.pick_after(8);
        self.window.wait_text("@tap-minutes", "16 minutes", 5.0);
        self.finish();
        assert_eq!(self.window.value("@sitting-minutes"), "16");
    }

    /// Saves the only sitting; its fields.
    fn save(&self) -> Value {
        self.window.click("@sitting-save");
        let written = || written_fields(&self.window.folder, "sitting");
        self.window.wait("it is logged", 5.0, |_| !written().is_empty());
        let mut sittings = written();
        assert_eq!(sittings.len(), 1);
        sittings.remove(0)
    }
}

#[test]
fn it_starts_with_the_first_pick() {
    let mut sitting = TimerWindow::weaving(WindowOptions::laptop());
    sitting.window.wait_text("@tap-minutes", "The first pick starts the timer.", 5.0);
    // Seven minutes with a knot in the warp are not woven yet.
    sitting.pick_after(7);
    sitting.window.wait_text("@tap-minutes", "0 minutes", 5.0);
    sitting.pick_after(3);
    sitting.window.wait_text("@tap-minutes", "3 minutes", 5.0);
    sitting.clock.forward(1);
    sitting.finish();
    assert_eq!(sitting.window.value("@sitting-minutes"), "4");
    assert!(!sitting.window.shows("@finish-question"), "nothing is asked after an ordinary sitting");
    assert!(!sitting.window.shows("@finish-clock"));
    assert_eq!(sitting.save()["minutes"].as_f64(), Some(4.0));
}

#[test]
fn a_forgotten_timer_proposes_what_is_likely_and_offers_the_clock() {
    let mut sitting = TimerWindow::weaving(WindowOptions::phone());
    sitting.pick_after(0);
    sitting.pick_after(10);
    // Weaving went on without counting, or the timer was forgotten.
    sitting.clock.forward(50);
    sitting.finish();
    let window = &sitting.window;
    window.wait_text("@finish-question", "Nothing was tapped for 50 min", 5.0);
    window.wait_text("@finish-question", "10 min at the loom. Is that right?", 5.0);
    assert_eq!(window.value("@sitting-minutes"), "10");
    window.wait_text("@finish-clock", "use 60 minutes", 5.0);
    assert_eq!(window.overflow(), "", "asked about the time");
    assert_eq!(window.axe(), "", "asked about the time");
    window.screenshot("finish-forgotten-phone");
    window.click("@finish-clock");
    assert_eq!(window.value("@sitting-minutes"), "60");
    // Weaving goes on instead, and this time the timer is forgotten overnight: the clock is no likely figure then.
    window.click("@sitting-back");
    window.wait_for_weaving();
    sitting.pick_after(0);
    sitting.clock.forward(9 * 60);
    sitting.finish();
    let window = &sitting.window;
    window.wait_text("@finish-question", "Is that right?", 5.0);
    assert!(!window.shows("@finish-clock"), "ten hours are not offered");
    window.type_into("@sitting-minutes", "25");
    window.click("@sitting-save");
    window.wait("it is logged", 5.0, |_| !written_fields(&sitting.window.folder, "sitting").is_empty());
    assert_eq!(written_fields(&sitting.window.folder, "sitting")[0]["minutes"].as_f64(), Some(25.0));
}

#[test]
fn a_stretch_is_suggested_at_the_chosen_interval_and_best_at_an_advance() {
    let mut sitting = TimerWindow::weaving(WindowOptions::phone());
    sitting.window.click("@tap-settings");
    sitting.window.click("label:has(#stretch-20)");
    sitting.window.click("@settings-back");
    sitting.pick_after(0);
    sitting.pick_after(11);
    // Too early even for an advance.
    wind_on(&sitting.window);
    assert!(!sitting.window.page().contains("loosen"), "eleven minutes of twenty");
    sitting.pick_after(2);
    wind_on(&sitting.window);
    let reminder = "13 minutes without a pause: while you advance the warp, stand up and loosen shoulders and hands.";
    sitting.window.wait_text("@message", reminder, 5.0);
    sitting.window.screenshot("at-loom-stretch-advance-phone");
    sitting.pick_after(6);
    assert!(!sitting.window.shows("@stretch"), "nineteen minutes");
    sitting.pick_after(1);
    sitting.window.wait_text("@stretch", "20 minutes without a pause. When you next advance the warp", 5.0);
    assert_eq!(sitting.window.axe(), "", "a word about stretching");
    sitting.window.screenshot("at-loom-stretch-phone");
    sitting.window.click("@stretch-close");
    sitting.window.wait_gone("@stretch");
    sitting.window.wait_for_weaving();
    sitting.pick_after(1);
    assert!(!sitting.window.shows("@stretch"), "read is read");
    // It comes again after as long, and goes by itself.
    sitting.pick_after(10);
    sitting.pick_after(9);
    sitting.window.wait_text("@stretch", "20 minutes without a pause", 5.0);
    sitting.pick_after(5);
    sitting.window.wait_gone("@stretch");
    // Never is never.
    sitting.window.click("@tap-settings");
    sitting.window.click("label:has(#stretch-0)");
    sitting.window.click("@settings-back");
    for _ in 0..3 {
        sitting.pick_after(5);
        assert!(!sitting.window.shows("@stretch"));
    }
}

/// Winds the cloth on without measuring.
fn wind_on(window: &Window) {
    window.click("@tap-wind-on");
    window.click("@reading-save");
    window.wait_for_weaving();
}

/// Minutes from now until ten minutes before midnight where the window is, and the day on which that is.
fn minutes_until_late(window: &Window) -> (u32, String) {
    const LATE: u64 = 23 * 60 + 50;
    const DAY: u64 = 24 * 60;
    let now = window.run("const now = new Date(); return now.getHours() * 60 + now.getMinutes()").as_u64().unwrap();
    let minutes = (LATE + DAY - now) % DAY;
    let day = format!("return new Date(Date.now() + {minutes} * 60000).toLocaleDateString('sv')");
    (u32::try_from(minutes).unwrap(), window.run(&day).as_str().unwrap().to_owned())
}

/// What was begun before midnight belongs to the day it was begun, with all its minutes.
#[test]
fn a_sitting_over_midnight_is_stored_and_shown_on_the_day_it_began() {
    let mut sitting = TimerWindow::weaving(WindowOptions::laptop());
    let (minutes, day) = minutes_until_late(&sitting.window);
    sitting.sixteen_minutes_in(minutes);
    assert!(!sitting.window.shows("@finish-question"), "nothing is asked after an ordinary sitting");
    let stored = sitting.save();
    assert_eq!((&stored["on"], stored["minutes"].as_f64()), (&day.as_str().into(), Some(16.0)));
    assert_eq!((stored["started"].as_str().map(|time| &time[..3]), &stored["picks"]), (Some("23:"), &3.into()));
    // By the clock on the wall it is the next day by now, so that this was yesterday.
    sitting.window.click("@answer-where-why summary");
    sitting.window.wait_text("@answer-where", "Last sitting: yesterday.", 5.0);
}

/// Minutes from now until ten minutes before the clock goes forward where the window is, and the day on which it does.
fn minutes_until_the_change(window: &Window) -> (u32, String) {
    let change = window.run(
        "const hour = 3600000; let at = Math.ceil(Date.now() / hour) * hour + hour;
         const offset = (time) => new Date(time).getTimezoneOffset();
         while (offset(at) >= offset(at - 1)) at += hour;
         return [Math.floor((at - Date.now()) / 60000) - 10, new Date(at).toLocaleDateString('sv')]",
    );
    (u32::try_from(change[0].as_u64().unwrap()).unwrap(), change[1].as_str().unwrap().to_owned())
}

/// The hour that the clock leaves out was not woven: the minutes are those that went by.
#[test]
fn a_sitting_over_the_change_of_the_clock_has_the_minutes_that_went_by() {
    let mut sitting = TimerWindow::weaving(WindowOptions::laptop());
    let (minutes, day) = minutes_until_the_change(&sitting.window);
    sitting.sixteen_minutes_in(minutes);
    let stored = sitting.save();
    assert_eq!((&stored["on"], stored["minutes"].as_f64()), (&day.as_str().into(), Some(16.0)));
    assert_eq!(stored["started"].as_str().map(|time| &time[..3]), Some("01:"));
    sitting.window.click("@answer-where-why summary");
    sitting.window.wait_text("@answer-where", "Last sitting: today.", 5.0);
}

/// Ten minutes woven, half an hour at the door with the battery gone meanwhile, five woven: fifteen, and nothing is asked.
#[test]
fn paused_by_hand_it_counts_nothing_and_survives_a_cut() {
    let mut sitting = TimerWindow::weaving(WindowOptions::phone());
    assert!(!sitting.window.shows("@tap-pause"), "no timer runs yet");
    sitting.pick_after(0);
    sitting.pick_after(10);
    sitting.window.click("@tap-pause");
    sitting.window.wait_text("@tap-minutes", "10 min, paused", 5.0);
    assert_eq!((sitting.window.overflow(), sitting.window.axe()), (String::new(), String::new()));
    sitting.window.screenshot("paused-phone");
    sitting.clock.forward(12);
    let TimerWindow { window, clock, .. } = sitting;
    let window = window.kill_and_reopen(&WindowOptions::phone().clock(&clock));
    window.click("@running @continue-weaving");
    window.wait_text("@tap-minutes", "10 min, paused", 5.0);
    clock.forward(18);
    assert_eq!(window.text("@tap-pause"), "Resume");
    window.click("@tap-pause");
    window.wait_text("@tap-minutes", "10 minutes", 5.0);
    clock.forward(5);
    window.press(Key::Space);
    window.wait_for_count(3);
    window.wait_text("@tap-minutes", "15 minutes", 5.0);
    // A pick lets it go on, too.
    window.click("@tap-pause");
    window.wait_text("@tap-minutes", "15 min, paused", 5.0);
    clock.forward(3);
    window.press(Key::Space);
    window.wait_for_count(4);
    window.wait_text("@tap-minutes", "15 minutes", 5.0);
    window.click("@tap-finish");
    window.wait("the form is there", 5.0, |window| window.shows("@sitting-minutes"));
    assert_eq!(window.value("@sitting-minutes"), "15");
    assert!(!window.shows("@finish-question") && !window.shows("@finish-clock"));
}

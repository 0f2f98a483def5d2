//! The screen stays awake while a sitting is woven: what the window asks of the desktop, over a real session bus.

use std::time::Duration;

use fellmark_tests::window::{Clock, Desktop, DesktopService, Key, TestWindow, Window, WindowOptions};
use serde_json::json;

fn weave_example(options: &WindowOptions) -> TestWindow {
    let window = TestWindow::with_example(options);
    window.start_weaving();
    window
}

/// Waits until the desktop keeps the screen awake for so many programs.
fn kept_awake(window: &Window, desktop: &Desktop, times: usize, seconds: f64) {
    let what = format!("the screen is kept awake for {times}, and was for {:?}", desktop.inhibitors());
    window.wait(&what, seconds, |_| desktop.inhibitors().len() == times);
}

/// Waits, without a window, until the desktop keeps the screen awake for nobody.
fn wait_until_released(desktop: &Desktop) {
    let start = std::time::Instant::now();
    while !desktop.inhibitors().is_empty() {
        assert!(start.elapsed() < Duration::from_secs(10), "still kept awake for {:?}", desktop.inhibitors());
        std::thread::sleep(Duration::from_millis(20));
    }
}

/// Each service that a desktop may have is called by its own interface.
#[test]
fn each_desktop_is_asked_at_the_first_pick_and_released_when_the_sitting_is_finished() {
    for service in [DesktopService::Session, DesktopService::ScreenSaver, DesktopService::Portal] {
        let desktop = Desktop::new(service);
        let window = weave_example(&WindowOptions::phone().desktop(&desktop));
        std::thread::sleep(Duration::from_millis(300));
        assert_eq!(desktop.request_counts(), (0, 0, 0), "{service:?}: nothing is asked before the first pick");
        window.press(Key::Space);
        window.wait_for_count(1);
        kept_awake(&window, &desktop, 1, 5.0);
        let reasons = desktop.inhibitors().concat();
        assert!(reasons.contains("sitting at the loom"), "{service:?}: {reasons}");
        window.press_space(5);
        window.wait_for_count(6);
        // It holds on the other screens too, and is asked for once.
        window.click("@tap-answers");
        window.wait("the answers are there", 5.0, |window| window.shows("@running"));
        assert_eq!(desktop.request_counts(), (1, 0, 0), "{service:?}: asked once for all picks");
        window.click("@running @finish-sitting");
        window.click("@sitting-save");
        kept_awake(&window, &desktop, 0, 5.0);
        assert_eq!(desktop.request_counts(), (1, 1, 0), "{service:?}: released, not only left");
        assert!(!window.shows("@tap-dark"));
    }
}

#[test]
fn a_pause_lets_the_screen_go_and_the_next_pick_keeps_it_again() {
    let (desktop, clock) = (Desktop::new(DesktopService::ScreenSaver), Clock::new());
    let options = WindowOptions::phone().desktop(&desktop).clock(&clock);
    let window = weave_example(&options);
    window.press(Key::Space);
    window.wait_for_count(1);
    kept_awake(&window, &desktop, 1, 5.0);
    clock.forward(14);
    window.press(Key::Space);
    window.wait_for_count(2);
    clock.forward(14);
    window.wait_text("@tap-minutes", "28 minutes", 25.0);
    assert_eq!(desktop.request_counts(), (1, 0, 0), "a quarter of an hour is no pause yet");
    clock.forward(2);
    // By itself: nobody presses anything.
    window.wait_text("@tap-minutes", "14 minutes, timer paused", 25.0);
    kept_awake(&window, &desktop, 0, 5.0);
    window.press(Key::Space);
    window.wait_for_count(3);
    kept_awake(&window, &desktop, 1, 5.0);
    assert_eq!(desktop.request_counts(), (2, 1, 0));
    // Closing the window while the sitting goes on.
    let (device, _slots) = window.close();
    wait_until_released(&desktop);
    // It is still going on when the window opens again, so the screen stays awake again.
    let window = device.open(&options);
    kept_awake(&window, &desktop, 1, 5.0);
    // A power cut or a crash.
    window.kill_9();
    wait_until_released(&desktop);
    let (asked, let_go, gone) = desktop.request_counts();
    assert_eq!((asked, let_go + gone), (3, 3));
    assert!(gone >= 1, "a killed program cannot release");
}

/// Where nothing can keep it awake, a hint says so once, and disappears by itself.
#[test]
fn a_hint_says_that_the_screen_may_go_dark() {
    let desktop = Desktop::new(DesktopService::Nothing);
    for options in [WindowOptions::phone(), WindowOptions::phone().desktop(&desktop)] {
        let window = weave_example(&options);
        assert!(!window.shows("@tap-dark"));
        window.press(Key::Space);
        window.wait_for_count(1);
        window.wait_text("@tap-dark", "The screen may turn off here; no pick is lost.", 10.0);
        window.screenshot("at-loom-dark-told-phone");
        assert_eq!(window.overflow(), "");
        assert_eq!(window.axe(), "", "the hint that the screen may go dark");
        std::thread::sleep(Duration::from_secs(11));
        window.press(Key::Space);
        window.wait_for_count(2);
        window.wait_gone("@tap-dark");
        window.click("@tap-answers");
        window.click("@running @continue-weaving");
        window.press(Key::Space);
        window.wait_for_count(3);
        std::thread::sleep(Duration::from_millis(500));
        assert!(!window.shows("@tap-dark"), "shown once");
    }
}

/// Where the shell knows no desktop the page asks the web view. No such system runs here, so that answer and the web view's are put
/// into its mouth.
#[test]
fn the_web_view_is_asked_where_the_shell_cannot() {
    let window = TestWindow::first_start(&WindowOptions::phone());
    window.click("@begin-example");
    let played = window.run(
        "window.asked = 0;
         window.held = 0;
         const bridge = window.fetch;
         window.fetch = (where, how) => String(where).endsWith('screen_is_held')
           ? Promise.resolve(new Response('null', { headers: { 'Tauri-Response': 'ok', 'Content-Type': 'application/json' } }))
           : bridge(where, how);
         // Held, or the engine may make it anew without what is set here.
         window.wakeLock = navigator.wakeLock;
         // One that grants it only after a second key or touch.
         window.wakeLock.request = async () => {
           window.asked += 1;
           if (window.asked === 1) throw new DOMException('not yet', 'NotAllowedError');
           window.held += 1;
           return { released: false, release: async () => { window.held -= 1; } };
         };
         return window.fetch !== bridge",
    );
    assert_eq!(played, json!(true));
    window.start_weaving();
    std::thread::sleep(Duration::from_millis(300));
    assert_eq!(window.run("return window.asked"), json!(0), "not before the first pick");
    window.press(Key::Space);
    window.wait("it is asked for", 5.0, |window| window.run("return window.asked") == json!(1));
    window.wait("the hint is shown", 5.0, |window| window.shows("@tap-dark"));
    window.press(Key::Space);
    window.press(Key::Space);
    window.wait_for_count(3);
    window.wait_gone("@tap-dark");
    assert_eq!(window.run("return [window.asked, window.held]"), json!([2, 1]), "asked again, once granted no more");
    // It is let go with the loom.
    window.click("@tap-answers");
    window.wait("it may sleep again", 5.0, |window| window.run("return window.held") == json!(0));
}

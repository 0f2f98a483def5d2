//! From a key to the paint that shows it, measured in the real window. The figures are printed, not judged: a machine under load
//! is no fault of the program's. What the same key takes on a screen that does nothing with it is printed beside them.

use std::time::Duration;

use fellmark_tests::window::{Device, Key, Look, Stage, Window};

use crate::weaver::counted;

const PICKS: i32 = 120;
/// Between two keys: a quick hand.
const APART: Duration = Duration::from_millis(200);

/// Notes, for each key, how long after it was struck the next frame was painted, and the frame that holds the new count.
const WATCH: &str = "
    window.seen = { beat: [], count: [] };
    const painted = then => requestAnimationFrame(() => {
      const channel = new MessageChannel();
      channel.port1.onmessage = () => then(performance.now());
      channel.port2.postMessage(null);
    });
    const waiting = [];
    document.addEventListener('keydown', event => {
      waiting.push(event.timeStamp);
      painted(at => window.seen.beat.push(at - event.timeStamp));
    }, { capture: true });
    const count = document.querySelector('[data-part=tap-count]');
    if (count) new MutationObserver(() => {
      const from = waiting.shift();
      if (from !== undefined) painted(at => window.seen.count.push(at - from));
    }).observe(count, { childList: true, characterData: true, subtree: true });";

#[test]
fn a_key_is_painted_within_a_frame_or_so() {
    // Alone on the display.
    let _stage = Stage::for_windows(2);
    for look in [Look::phone(), Look::laptop()] {
        let device = Device::named("Laptop");
        let window = device.open(&look);
        window.click("@begin-example");
        window.wait("the example is shown", 5.0, |window| window.sees("@sit-down"));
        // A key reaches the page only where something has the focus.
        window.tab_to("@nav-plan");
        window.run(WATCH);
        for _ in 0..50 {
            window.keys("x");
            std::thread::sleep(APART);
        }
        window.settle();
        let size = look.name();
        print(&window, &size, "beat", "a key that does nothing");
        window.click("@sit-down");
        window.wait("the surface is there", 5.0, |window| window.sees("@tap"));
        window.run(WATCH);
        for picks in 1..=PICKS {
            window.press(Key::Space);
            // One after another, as they are woven: a pick is counted before the next one is thrown.
            counted(&window, picks);
            std::thread::sleep(APART);
        }
        print(&window, &size, "beat", "the next frame");
        print(&window, &size, "count", "the count and the next pick");
    }
}

/// Prints the median and the 99th in a hundred.
fn print(window: &Window, size: &str, of: &str, what: &str) {
    let seen = window.run(&format!("return window.seen.{of}"));
    let mut times: Vec<f64> = seen.as_array().unwrap().iter().filter_map(serde_json::Value::as_f64).collect();
    assert!(times.len() >= 40, "{what}: only {} were seen", times.len());
    times.sort_by(f64::total_cmp);
    let at = |share: f64| times[((times.len() - 1) as f64 * share).round() as usize];
    println!("{size}: from key to {what}: median {:.1} ms, 99th {:.1} ms, {} keys", at(0.5), at(0.99), times.len());
}

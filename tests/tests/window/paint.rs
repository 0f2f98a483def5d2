//! From a key to the paint that shows it, measured in the real window. The figures are printed, not judged: a machine under load
//! is no fault of the program's.

use fellmark_tests::window::{Device, Key, Look, Stage, Window};

use crate::weaver::counted;

const PICKS: i32 = 200;

/// Notes, for each key, when the page was told, when the frame with the beat was painted, and when the one with the count was.
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
    new MutationObserver(() => {
      const from = waiting.shift();
      if (from !== undefined) painted(at => window.seen.count.push(at - from));
    }).observe(document.querySelector('[data-part=tap-count]'), { childList: true, characterData: true, subtree: true });";

#[test]
fn a_key_is_painted_within_a_frame_or_so() {
    let _stage = Stage::for_windows(2);
    let device = Device::named("Laptop");
    let window = device.open(&Look::laptop());
    window.click("@begin-example");
    window.wait("the example is shown", 5.0, |window| window.sees("@sit-down"));
    window.click("@sit-down");
    window.wait("the surface is there", 5.0, |window| window.sees("@tap"));
    window.run(WATCH);
    for picks in 1..=PICKS {
        window.press(Key::Space);
        // One after another, as they are woven: a pick is counted before the next one is thrown.
        counted(&window, picks);
    }
    for what in ["beat", "count"] {
        let mut times = figures(&window, what);
        assert!(times.len() as i32 >= PICKS * 9 / 10, "{what}: only {} were seen", times.len());
        times.sort_by(f64::total_cmp);
        let at = |share: f64| times[((times.len() - 1) as f64 * share).round() as usize];
        println!("from key to {what}: median {:.1} ms, 99th {:.1} ms, of {} keys", at(0.5), at(0.99), times.len());
    }
}

fn figures(window: &Window, what: &str) -> Vec<f64> {
    let seen = window.run(&format!("return window.seen.{what}"));
    seen.as_array().unwrap().iter().filter_map(serde_json::Value::as_f64).collect()
}

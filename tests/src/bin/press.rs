//! From a key to the paint that shows its pick, in the real window at a phone's and a laptop's size.
//!
//! `press PROGRAM [ROUNDS]`: the release program, on the invented example. Frames come when the display is due, so a key waits half
//! a frame on the average before anything can be painted; all figures are reported as multiples of that frame too. What the same keys
//! take on a screen that does nothing with them is printed beside them, and how long it takes until a pick is written.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::time::Duration;

use fellmark_tests::window::{Device, Key, Window, WindowOptions, WindowSlots};

const PICKS: usize = 120;
/// Between two keys, in milliseconds: a quick hand, and at no fixed place within a frame.
const APART_MS: std::ops::Range<u64> = 150..170;

/// Notes, for each key, how long after it was struck the next frame was painted, the frame that holds the new count, and the
/// answer that it is written.
const WATCH: &str = "
    window.watching?.abort();
    window.watching = new AbortController();
    window.seen = { frame: [], count: [], written: [] };
    const painted = then => requestAnimationFrame(() => {
      const channel = new MessageChannel();
      channel.port1.onmessage = () => then(performance.now());
      channel.port2.postMessage(null);
    });
    const struck = { count: [], written: [] };
    document.addEventListener('keydown', event => {
      struck.count.push(event.timeStamp);
      struck.written.push(event.timeStamp);
      painted(at => window.seen.frame.push(at - event.timeStamp));
    }, { capture: true, signal: window.watching.signal });
    const watch = (part, which, then) => {
      const element = document.querySelector(`[data-part=${part}]`);
      if (element) new MutationObserver(() => {
        const from = struck[which].shift();
        if (from !== undefined) then(at => window.seen[which].push(at - from));
      }).observe(element, { childList: true, characterData: true, subtree: true });
    };
    watch('tap-count', 'count', then => painted(then));
    watch('tap-announcement', 'written', then => then(performance.now()));";

/// The time between frames, the median of a hundred.
const FRAME: &str = "
    const done = arguments[arguments.length - 1];
    const times = [];
    const note = at => {
      times.push(at);
      if (times.length < 101) return requestAnimationFrame(note);
      const between = times.slice(1).map((time, n) => time - times[n]).sort((a, b) => a - b);
      done(between[50]);
    };
    requestAnimationFrame(note)";

fn main() {
    let mut words = std::env::args().skip(1);
    let Some(program) = words.next() else {
        eprintln!("usage: press PROGRAM [ROUNDS]");
        return;
    };
    let rounds: usize = words.next().and_then(|word| word.parse().ok()).unwrap_or(3);
    // Alone on the display.
    let _slots = WindowSlots::take(2);
    for options in [WindowOptions::phone(), WindowOptions::laptop()] {
        let mut times: [Vec<f64>; 4] = Default::default();
        let mut frames = Vec::new();
        for _ in 0..rounds {
            let device = Device::named("Laptop");
            let window = device.open(&options.clone().program(&program));
            window.click("@begin-example");
            window.wait("the example is shown", 5.0, |window| window.shows("@start-weaving"));
            frames.push(window.run_async(FRAME).as_f64().expect("a time between frames"));
            // A key reaches the page only where something has the focus.
            window.tab_to("@nav-plan");
            window.run(WATCH);
            strike(&window, PICKS / 2, |window| window.type_keys("x"));
            times[0].extend(seen(&window, "frame"));
            window.click("@start-weaving");
            window.wait("the surface is there", 5.0, |window| window.has_focus("@tap"));
            window.run(WATCH);
            strike(&window, PICKS, |window| window.press(Key::Space));
            window.settle();
            for (place, which) in ["frame", "count", "written"].iter().enumerate() {
                let found = seen(&window, which);
                assert_eq!(found.len(), PICKS, "{which}: each key is seen once");
                times[place + 1].extend(found);
            }
        }
        frames.sort_by(f64::total_cmp);
        let frame = frames[frames.len() / 2];
        let load = std::fs::read_to_string("/proc/loadavg").unwrap_or_default();
        println!("{}: a frame takes {frame:.1} ms; load {}", options.name(), load.trim());
        let what = ["a key that does nothing", "the next frame", "count and next pick painted", "written"];
        for (what, times) in what.iter().zip(&mut times) {
            print(what, times, frame);
        }
        let painted = times[2][times[2].len() / 2] / frame;
        println!("ratio: key to its count painted over a frame, {} | {painted:.2} |", options.name());
    }
}

fn strike(window: &Window, times: usize, key: impl Fn(&Window)) {
    for n in 0..times as u64 {
        key(window);
        let apart = APART_MS.start + n * 7 % (APART_MS.end - APART_MS.start);
        std::thread::sleep(Duration::from_millis(apart));
    }
}

fn seen(window: &Window, which: &str) -> Vec<f64> {
    let seen = window.run(&format!("return window.seen.{which}"));
    seen.as_array().expect("a list").iter().filter_map(serde_json::Value::as_f64).collect()
}

/// Prints the median and the 99th in a hundred.
fn print(what: &str, times: &mut [f64], frame: f64) {
    times.sort_by(f64::total_cmp);
    let at = |share: f64| times[((times.len() - 1) as f64 * share).round() as usize];
    println!(
        "  {what:28} median {:5.1} ms, {:.2} frames; 99th {:5.1} ms, {:.2} frames; longest {:5.1} ms; {} keys",
        at(0.5),
        at(0.5) / frame,
        at(0.99),
        at(0.99) / frame,
        at(1.0),
        times.len()
    );
}

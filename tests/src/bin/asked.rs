//! How long the commands take that go over all warps, as the window waits for them, on a folder of twenty years: 400 warps, 30,000
//! sittings. Each is asked first in a window that was just started, and then again.
//!
//! `asked PROGRAM [ROUNDS]`: the release program. The median of each is printed, and beside it what it takes to get the view.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::fs;
use std::path::Path;

use fellmark_tests::twenty_years;
use fellmark_tests::window::{Device, Window, WindowOptions, WindowSlots};
use serde_json::{Value, json};

const WARPS: usize = 400;
const SITTINGS: usize = 30_000;
/// Times that each is asked again.
const AGAIN: usize = 5;

fn main() {
    let mut words = std::env::args().skip(1);
    let Some(program) = words.next() else {
        eprintln!("usage: asked PROGRAM [ROUNDS]");
        return;
    };
    let rounds: usize = words.next().map_or(5, |word| word.parse().expect("a number of rounds"));
    let root = tempfile::tempdir().unwrap();
    twenty_years::generate(root.path(), WARPS, SITTINGS, |_, _| {});
    let _slots = WindowSlots::take(1);
    let device = Device::named("Laptop");
    let options = WindowOptions::laptop().program(program).folder(root.path().join("log"));
    // What it keeps for later starts is kept now.
    let window = device.open(&options);
    let asked = asked(&device.folder("out"), &shown(&window));
    window.close();

    let mut times: Vec<[Vec<f64>; 2]> = asked.iter().map(|_| Default::default()).collect();
    for _ in 0..rounds {
        for ((_, command, form), times) in asked.iter().zip(&mut times) {
            let window = device.open(&options);
            times[0].push(takes_ms(&window, command, form));
            times[1].extend((0..AGAIN).map(|_| takes_ms(&window, command, form)));
            window.close();
        }
    }
    let load = fs::read_to_string("/proc/loadavg").unwrap_or_default();
    println!("{WARPS} warps, {SITTINGS} sittings; load {}", load.trim());
    for ((what, ..), [first, again]) in asked.iter().zip(&mut times) {
        println!("{what:44} at first {:7.1} ms, again {:7.1} ms", median(first), median(again));
    }
}

/// What is asked: in words, the command, and what it is asked with.
fn asked(out: &Path, warp: &str) -> Vec<(&'static str, &'static str, Value)> {
    let take = |what: &str, warp: Option<&str>| json!({"what": what, "warp": warp, "split": "", "folder": out});
    let sittings: String = (0..300).map(|n| format!("2026-10-{:02},{},{}\n", 1 + n % 30, 20 + n / 30, 5 + n)).collect();
    let sittings = format!("on,minutes,picks\n{sittings}");
    let warps: String = (0..20).map(|n| format!("Old {n},2006-01-{:02}\n", n + 1)).collect();
    let table = |text: String, warp: &str| json!({"form": {"text": text, "list": "", "columns": [], "warp": warp}});
    let plan = json!({"length": "180 cm", "width": "20 cm", "sett": "40"});
    vec![
        ("the view", "view", json!({"locale": "en-GB"})),
        ("pace", "pace", json!({"split": "", "within": null, "width": 720, "text": 16})),
        ("earlier plans", "earlier_plans", json!({})),
        ("a plan, reckoned", "calculate_plan", json!({"form": plan, "from": ""})),
        ("all sittings taken out", "export", take("sittings", None)),
        ("all warps taken out", "export", take("warps", None)),
        ("all joins taken out", "export", take("joins", None)),
        ("everything taken out", "export", take("everything", None)),
        ("pace taken out", "export", take("pace", None)),
        ("a picture of pace taken out", "export", take("chart-length", None)),
        ("a warp's sheet taken out", "export", take("sheet", Some(warp))),
        ("a warp's picture", "progress_picture", json!({"warp": warp})),
        ("a preview of a table of 300 sittings", "preview_import", table(sittings, warp)),
        ("a preview of a table of 20 warps", "preview_import", table(format!("name,begun_on\n{warps}"), "")),
    ]
}

/// The warp that is shown.
fn shown(window: &Window) -> String {
    let view = window.run_async(
        "const done = arguments[arguments.length - 1];
         window.__TAURI__.core.invoke('view', { locale: 'en-GB' }).then(view => done(view.loom.id));",
    );
    view.as_str().expect("a warp is shown").to_owned()
}

/// From asking to the answer, in the page.
fn takes_ms(window: &Window, command: &str, with: &Value) -> f64 {
    let script = format!(
        "const done = arguments[arguments.length - 1];
         const tauri = window.__TAURI__.core;
         const args = {with};
         if ({command:?} === 'preview_import') args.progress = new tauri.Channel(() => {{}});
         const began = performance.now();
         tauri.invoke({command:?}, args).then(() => done(performance.now() - began), why => done(JSON.stringify(why)));"
    );
    let took = window.run_async(&script);
    took.as_f64().unwrap_or_else(|| panic!("{command}: {took}"))
}

fn median(times: &mut [f64]) -> f64 {
    times.sort_by(f64::total_cmp);
    times[times.len() / 2]
}

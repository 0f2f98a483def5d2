//! A long day at the loom at speed, in the real window: taps, sittings, photos, undo, all screens, and another device that writes into
//! the same folder.
//!
//! `soak [HOURS] [PROGRAM]`: so many simulated hours, 8 unless told otherwise, of ten picks a minute; the program's clock is set
//! forward. Fails where memory grows, a descriptor or a watch is leaked, or what the window shows is not what a device shows that reads
//! the folder for the first time.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::path::PathBuf;
use std::time::{Duration, Instant};

use fellmark_tests::command_line::CommandLineDevice;
use fellmark_tests::window::{Clock, Device, Resources, Window, WindowOptions, WindowSlots};
use serde_json::{Value, json};

const HOURS: usize = 8;
const MINUTES_PER_SITTING: usize = 30;
const PICKS_PER_MINUTE: usize = 10;
/// Sittings that the other device writes while one is woven.
const ARRIVING: usize = 3;
/// Memory in the last quarter over that in the second: more is a leak.
const MOST_GROWTH: f64 = 1.15;
/// Descriptors that may be open beside those after the first sitting, such as a file being read at that moment.
const SPARE_DESCRIPTORS: usize = 4;

/// A long warp: 4,800 picks fit.
const WARP: [(&str, &str); 5] =
    [("name", "Long grey"), ("wound", "40 m"), ("waste", "45 cm"), ("wanted", "30 m"), ("picks", "40")];

fn main() {
    let mut words = std::env::args().skip(1);
    let hours: usize = words.next().map_or(HOURS, |word| word.parse().expect("a number of hours"));
    let program = words.next();
    let began = Instant::now();
    let _slots = WindowSlots::take(2);
    let clock = Clock::new();
    let device = Device::named("Laptop");
    let folder = device.folder("Weaving");
    let mut options = WindowOptions::laptop().clock(&clock);
    if let Some(program) = program {
        options = options.program(PathBuf::from(program));
    }
    let window = device.open(&options);
    window.open_folder(&folder);
    window.begin_warp(&WARP);
    let mut phone = CommandLineDevice::on("phone", &folder);
    phone.set_today(None);

    let mut samples = vec![window.resources()];
    println!("{:>8} {}", "hours", HEADINGS);
    print("0.0", &samples[0]);
    let sittings = (hours * 60).div_ceil(MINUTES_PER_SITTING);
    for nth in 1..=sittings {
        weave(&window, &clock, &phone, nth);
        look_around(&window);
        let sample = window.resources();
        print(&format!("{:.1}", (nth * MINUTES_PER_SITTING) as f64 / 60.0), &sample);
        samples.push(sample);
    }
    let shown = view(&window);
    window.close();
    let fresh = Device::named("Tablet");
    let other = fresh.open(&options.folder(&folder));
    let read = view(&other);
    for part in ["loom", "warps", "plans"] {
        assert_eq!(shown[part], read[part], "{part}: the window and a fresh reading differ");
    }
    let picks = sittings * MINUTES_PER_SITTING * PICKS_PER_MINUTE;
    let logged = read["loom"]["sittings"].as_array().unwrap().len();
    println!(
        "{picks} picks tapped, {logged} sittings, in {:.0} s; what is shown equals a fresh reading",
        began.elapsed().as_secs_f64()
    );
    check(&samples);
}

/// A sitting with a photo, while the phone writes sittings of its own; then one more that is undone.
fn weave(window: &Window, clock: &Clock, phone: &CommandLineDevice, nth: usize) {
    let before = sittings_shown(window);
    click(window, "start-weaving");
    window.wait_for_weaving();
    for minute in 0..MINUTES_PER_SITTING {
        press_space(window, PICKS_PER_MINUTE);
        clock.forward(1);
        if minute % (MINUTES_PER_SITTING / ARRIVING) == 4 {
            phone.json(&["log", WARP[0].1, "--picks", "11", "--minutes", "3"]);
        }
    }
    window.wait_for_count((MINUTES_PER_SITTING * PICKS_PER_MINUTE) as i32);
    click(window, "tap-finish");
    window.wait("the form is shown", 5.0, |window| window.shows("@sitting-save"));
    drop_photo(window, nth);
    window.wait("the photo is shown", 10.0, |window| window.shows("@sitting-chosen img"));
    click(window, "sitting-save");
    let wanted = before + 1 + ARRIVING;
    window.wait("all sittings are shown", 20.0, |window| sittings_shown(window) == wanted);
    window.wait("the photo is kept", 20.0, |window| photos_shown(window) == nth);

    click(window, "log");
    window.wait("the form is shown", 5.0, |window| window.shows("@sitting-picks"));
    window.run(
        "const picks = document.querySelector('[data-part=sitting-picks]');
         picks.value = '7';
         picks.dispatchEvent(new Event('input', { bubbles: true }));",
    );
    click(window, "sitting-save");
    window.wait("one more is shown", 10.0, |window| sittings_shown(window) == wanted + 1);
    click(window, "undo");
    window.wait("it is gone again", 10.0, |window| sittings_shown(window) == wanted);
}

/// Every screen once.
fn look_around(window: &Window) {
    for screen in ["nav-pace", "nav-plan", "nav-folder", "nav-loom"] {
        click(window, screen);
        window.settle();
    }
    window.wait("the warp is shown", 10.0, |window| window.shows("@start-weaving"));
    // What comes late, such as the rest of a photo, is not taken for a leak.
    std::thread::sleep(Duration::from_millis(500));
}

/// Clicks a part of the interface. From inside the page: a driver that steers from outside keeps every element it was ever given, and
/// with each one the screen it was on.
fn click(window: &Window, part: &str) {
    window.wait(&format!("{part} can be seen"), 10.0, |window| window.shows(&format!("@{part}")));
    window.run(&format!("document.querySelector('[data-part=\"{part}\"]').click()"));
}

fn press_space(window: &Window, times: usize) {
    window.run(&format!(
        "for (let n = 0; n < {times}; n += 1) {{
           const key = {{ key: ' ', code: 'Space', bubbles: true, cancelable: true }};
           document.activeElement.dispatchEvent(new KeyboardEvent('keydown', key));
           document.activeElement.dispatchEvent(new KeyboardEvent('keyup', key));
         }}"
    ));
}

/// Drops a photo unlike the others on the form of a sitting.
fn drop_photo(window: &Window, nth: usize) {
    let script = format!(
        "const done = arguments[arguments.length - 1];
         const canvas = document.createElement('canvas');
         canvas.width = 800;
         canvas.height = 600;
         const pen = canvas.getContext('2d');
         pen.fillStyle = `hsl(${{{nth} * 20}} 50% 50%)`;
         pen.fillRect(0, 0, 800, 600);
         canvas.toBlob(blob => {{
           const data = new DataTransfer();
           data.items.add(new File([blob], 'woven-{nth}.png', {{ type: 'image/png' }}));
           document.querySelector('[data-part=sitting-drop]').dispatchEvent(
             new DragEvent('drop', {{ bubbles: true, cancelable: true, dataTransfer: data }}));
           done(true);
         }}, 'image/png');"
    );
    assert_eq!(window.run_async(&script), json!(true));
}

fn view(window: &Window) -> Value {
    window.run_async(
        "const done = arguments[arguments.length - 1];
         window.__TAURI__.core.invoke('view', { locale: navigator.language }).then(done);",
    )
}

fn sittings_shown(window: &Window) -> usize {
    view(window)["loom"]["sittings"].as_array().map_or(0, Vec::len)
}

fn photos_shown(window: &Window) -> usize {
    let strip = view(window)["loom"]["strip"].clone();
    strip.as_array().map_or(0, |photos| photos.iter().filter(|photo| photo["missing"] == json!(false)).count())
}

const HEADINGS: &str = "program MB  web view MB  descriptors  watches  threads";

fn print(hours: &str, sample: &Resources) {
    let mb = |kb: u64| kb as f64 / 1024.0;
    println!(
        "{hours:>8} {:10.1} {:12.1} {:12} {:8} {:8}",
        mb(sample.program_kb),
        mb(sample.web_view_kb),
        sample.descriptors,
        sample.watches,
        sample.threads
    );
}

/// Fails where the later samples hold more than the earlier ones. The first sample, before anything was done, is left out.
fn check(samples: &[Resources]) {
    let samples = &samples[1..];
    let quarter = samples.len() / 4;
    if quarter == 0 {
        println!("too short to say whether memory grows");
        return;
    }
    let median = |part: &[Resources], of: fn(&Resources) -> u64| {
        let mut values: Vec<u64> = part.iter().map(of).collect();
        values.sort_unstable();
        values[values.len() / 2] as f64
    };
    let (early, late) = (&samples[quarter..2 * quarter], &samples[samples.len() - quarter..]);
    let growth = |of: fn(&Resources) -> u64| median(late, of) / median(early, of);
    let (program, web_view) = (growth(|one| one.program_kb), growth(|one| one.web_view_kb));
    println!(
        "memory of the last quarter over the second: program {program:.2}, web view {web_view:.2} (at most {MOST_GROWTH})"
    );
    assert!(program <= MOST_GROWTH && web_view <= MOST_GROWTH, "memory grows");
    let (first, last) = (samples[0], samples[samples.len() - 1]);
    assert!(last.descriptors <= first.descriptors + SPARE_DESCRIPTORS, "descriptors are leaked");
    assert_eq!(last.watches, first.watches, "watches are leaked");
    println!(
        "descriptors {} to {}, watches {} to {}",
        first.descriptors, last.descriptors, first.watches, last.watches
    );
}

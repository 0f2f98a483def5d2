//! A press is shown in the very next frame; and what is shown is written, or an error says that it is not.

use fellmark_tests::window::{Device, GREY_RUNNER, Key, TestWindow, WindowOptions, WindowSlots};
use serde_json::Value;

use crate::at_the_loom::assert_within_reach;
use crate::folder::files;

/// Keeps, for each key, what can be read when the next frame is about to be painted.
const WATCH: &str = "
    window.frames = [];
    const read = part => document.querySelector(`[data-part=${part}]`).textContent;
    document.addEventListener('keydown', () => {
      requestAnimationFrame(() => window.frames.push(
        [read('tap-count'), read('tap-next'), read('tap-then'), read('tap-place'), read('tap-last'), read('tap-in-all')]));
    }, { capture: true });";

/// The same, as it stands when it is written.
const READ: &str = "
    const read = part => document.querySelector(`[data-part=${part}]`).textContent;
    return [read('tap-count'), read('tap-next'), read('tap-then'), read('tap-place'), read('tap-last'), read('tap-in-all')]";

#[test]
fn the_next_frame_after_a_key_holds_count_and_next_pick() {
    let window = TestWindow::with_example(&WindowOptions::phone());
    window.start_weaving();
    window.settle();
    window.run(WATCH);
    let mut picks = 0;
    let mut written = Vec::new();
    // The first begins the sitting; one is taken back and woven again.
    for by in [1, 1, 1, 1, 1, -1, -1, 1, 1, 1, 1, 1] {
        window.press(if by > 0 { Key::Space } else { Key::Backspace });
        picks += by;
        window.wait_for_count(picks);
        written.push(window.run(READ));
        window.settle();
    }
    let frames = window.run("return window.frames");
    // What the frame held is what the shell answered once it was written, word for word.
    assert_eq!(frames, Value::Array(written));
    assert!(frames[0][1].as_str().unwrap().contains("heddle"), "{}", frames[0]);

    // Four at once, faster than any answer.
    window.run("window.frames = []");
    window.press_space(4);
    window.wait_for_count(picks + 4);
    window.settle();
    let frames = window.run("return window.frames.map(one => Number(one[0]))");
    let frames: Vec<i64> = frames.as_array().unwrap().iter().filter_map(Value::as_i64).collect();
    // On a busy machine two keys may share a frame; none lags behind its key.
    assert!((1..=4).zip(&frames).all(|(key, shown)| *shown >= i64::from(picks) + key), "{picks} and {frames:?}");
    assert_eq!(frames.len(), 4);
}

/// The taps that are written on this device.
fn taps(device: &Device) -> i64 {
    let lines = files(&device.home().join(".local/share")).into_iter().filter(|file| file.ends_with("running.lines"));
    let text: String = lines.map(|file| std::fs::read_to_string(file).unwrap()).collect();
    text.lines().map(|line| serde_json::from_str::<Value>(line).unwrap()["by"].as_i64().unwrap()).sum()
}

/// A power cut at any moment costs at most the pick that was shown last.
#[test]
fn what_is_shown_is_written_but_for_the_last() {
    let options = WindowOptions::phone();
    let mut window = TestWindow::weaving(&options);
    for round in 0..8 {
        window.press_space(5);
        // Not waited for: only what can be read, and then the cut.
        let shown: i64 = window.text("@tap-count").parse().unwrap();
        let (device, slots) = window.kill_9();
        let kept = taps(&device);
        assert!(kept >= shown - 1, "round {round}: {shown} were shown, {kept} written");
        window = TestWindow::with_slots(slots, device, &options);
        window.click("@running @continue-weaving");
        window.wait_for_weaving();
    }
}

#[test]
fn a_pick_that_cannot_be_written_is_not_passed_over() {
    let _slots = WindowSlots::take(2);
    let device = Device::new();
    let folder = device.folder("Weaving");
    let first = device.open(&WindowOptions::phone());
    first.open_folder(&folder);
    first.begin_warp(&GREY_RUNNER);
    not_written(&device);
    // With a sequence there is less room for the sentence.
    first.click("@change");
    first.click("@warp-more-sequence summary");
    first.type_into("@warp-repeat", "up\nstick\nup\ndown");
    first.click("@warp-save");
    first.wait("the warp is changed", 5.0, |window| window.shows("@start-weaving"));
    not_written(&device);
    drop(first);
}

/// In a second window on the same folder, which only shows it.
fn not_written(device: &Device) {
    let second = device.open(&WindowOptions::phone());
    second.click("@start-weaving");
    second.wait_for_weaving();
    second.press(Key::Space);
    second.press(Key::Space);
    second.wait_text("@tap-trouble", "Another Fellmark window on this device has this folder", 5.0);
    second.wait_text("@tap-trouble", "2 picks are not saved yet", 5.0);
    assert_eq!(second.text("@tap-announcement"), "", "nothing is said to be counted");
    assert_within_reach(&second);
    second.screenshot("at-loom-not-written-phone");
    assert_eq!(second.axe(), "", "a pick that is not written");
    second.kill_9();
    assert_eq!(taps(device), 0);
}

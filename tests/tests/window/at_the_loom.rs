//! At the loom: the place that is jumped to, the pick begun and not beaten, winding on, keys that are chosen, pieces.

use fellmark_tests::window::{GREY_RUNNER, Key, TestWindow, Window, WindowOptions};
use serde_json::json;

use crate::folder::{entries, written_fields};

/// A sequence in four sections.
const ROWS: [(&str, &str); 4] =
    [("opening", "up\ndown"), ("repeat", "up\nstick\nup\ndown"), ("balance", "up\nstick\nup"), ("closing", "down\nup")];

/// A warp with a sequence and these figures besides, the weaving screen open.
fn weaving_sequence(options: &WindowOptions, more: &[(&str, &str)]) -> TestWindow {
    let window = TestWindow::with_folder(options);
    window.click("@warp-more-sequence summary");
    window.fill("warp", &ROWS);
    if !more.is_empty() {
        window.click("@warp-more-pieces summary");
    }
    window.fill("warp", more);
    window.begin_warp(&GREY_RUNNER);
    window.click("@start-weaving");
    window.wait("the weaving screen is there", 5.0, |window| window.shows("@tap"));
    window
}

fn place(window: &Window, text: &str) {
    window.wait_text("@tap-place", text, 5.0);
}

/// Everything that is needed at a pick is in the window and large enough for a thumb.
pub fn assert_within_reach(window: &Window) {
    let outside = window.run(
        "return [...document.querySelectorAll('[data-part=tap-next], [data-part=tap-place], .tap-side, [data-part=tap-settings], \
         [data-part=tap-answers], [data-part=tap-count], [data-part=tap-then], [data-part=tap-begun], .tap-open .shed')]
            .filter(e => e.checkVisibility() && e.textContent !== '' || e.matches('.shed'))
            .map(e => [e.dataset.part ?? 'drawing', e.getBoundingClientRect()])
            .filter(([_, r]) => r.left < -0.5 || r.top < -0.5 || r.right > innerWidth + 0.5 || r.bottom > innerHeight + 0.5)
            .map(([part, r]) => `${part} ${r.left} ${r.top} ${r.right} ${r.bottom}`).join('; ')",
    );
    assert_eq!(outside, json!(""), "something needed is outside");
    // What the open warp holds is cut off neither above nor below.
    let cut = window.run(
        "const open = document.querySelector('.tap-open').getBoundingClientRect();
         return [...document.querySelectorAll('.tap-open > *')]
            .filter(e => e.checkVisibility() && (e.textContent !== '' || e.matches('.tap-shed')))
            .map(e => [e.className, e.getBoundingClientRect()])
            .filter(([_, r]) => r.top < open.top - 0.5 || r.bottom > open.bottom + 0.5)
            .map(([name, r]) => `${name} ${r.top} to ${r.bottom} in ${open.top} to ${open.bottom}`).join('; ')",
    );
    assert_eq!(cut, json!(""), "something is cut off");
    let small = window.run(
        "return [...document.querySelectorAll('.tap-side, [data-part=tap-settings], [data-part=tap-answers]')]
            .map(e => [e.dataset.part, e.getBoundingClientRect()])
            .filter(([_, r]) => r.width < 44 || r.height < 44).map(([part, r]) => `${part} ${r.width} x ${r.height}`).join('; ')",
    );
    assert_eq!(small, json!(""), "too small for a thumb");
}

#[test]
fn another_place_is_chosen_and_no_pick_is_lost() {
    let window = weaving_sequence(&WindowOptions::phone(), &[]);
    window.press_space(4);
    window.wait_for_count(4);
    place(&window, "pick 3 of 4 in repeat 1");
    window.wait_text("@tap-then", "then heddle down", 5.0);
    assert_within_reach(&window);
    window.screenshot("at-loom-place-phone");

    // Weaving is really at the second row of the seventh repeat.
    window.click("@tap-settings");
    window.wait("the rows are there", 5.0, |window| window.shows("[data-place=repeat-2]"));
    assert_eq!(window.overflow(), "", "the places fit the screen");
    assert_eq!(window.axe(), "", "while weaving");
    window.screenshot("at-loom-more-phone");
    window.type_into("#place-repeat", "7");
    window.click("[data-place=repeat-2]");
    place(&window, "pick 2 of 4 in repeat 7");
    window.wait_text("@tap-last", "heddle up", 5.0);
    counted_still(&window, 4);
    window.press(Key::Space);
    window.wait_for_count(5);
    place(&window, "pick 3 of 4 in repeat 7");

    // It is kept through a cut, and undone like anything else.
    let window = window.kill_and_reopen(&WindowOptions::phone());
    window.click("@running @continue-weaving");
    place(&window, "pick 3 of 4 in repeat 7");
    window.click("@tap-answers");
    window.click("@undo");
    window.click("@continue-weaving");
    place(&window, "pick 4 of 4 in repeat 1");
    window.wait_text("@tap-count", "5", 5.0);
    assert_eq!(written_fields(&window.folder, "place").len(), 2, "set, and taken back");
}

fn counted_still(window: &Window, picks: i32) {
    window.wait_text("@tap-count", &picks.to_string(), 5.0);
}

#[test]
fn another_place_is_chosen_by_keyboard_alone_and_a_piece_ends() {
    let window = weaving_sequence(&WindowOptions::laptop(), &[("pieces", "2")]);
    place(&window, "piece 1 of 2, pick 1 of 2 in the opening border");
    window.tab_to("@tap-settings");
    window.press(Key::Enter);
    window.wait("the rows are there", 5.0, |window| window.shows("[data-place=closing-1]"));
    window.tab_to("[data-place=closing-1]");
    window.press(Key::Enter);
    place(&window, "piece 1 of 2, pick 1 of 2 in the closing border");
    window.screenshot("at-loom-pieces-laptop");
    window.press(Key::Space);
    window.press(Key::Space);
    window.wait_for_count(2);
    // The sequence starts again with the next piece.
    place(&window, "piece 2 of 2, pick 1 of 2 in the opening border");
    window.press(Key::Backspace);
    place(&window, "piece 1 of 2, pick 2 of 2 in the closing border");
}

#[test]
fn two_picks_in_one_shed_are_warned_of() {
    let window = weaving_sequence(&WindowOptions::phone().dark(), &[]);
    window.press(Key::Space);
    window.wait_for_count(1);
    assert!(!window.shows("@tap-warning"));
    // After "up" the balance begins with "up".
    window.click("@tap-settings");
    window.click("[data-place=balance-1]");
    window.wait_text("@tap-warning", "same shed", 5.0);
    assert_eq!(window.axe(), "", "a warning at the loom");
    assert_within_reach(&window);
    window.screenshot("at-loom-warning-phone-dark");
}

#[test]
fn a_pick_begun_and_not_beaten_is_marked() {
    let window = weaving_sequence(&WindowOptions::phone(), &[]);
    window.press(Key::Space);
    window.wait_for_count(1);
    window.click("@tap-begin");
    window.wait("it is marked", 5.0, |window| window.shows("@tap-begun"));
    assert_within_reach(&window);
    window.screenshot("at-loom-begun-phone");
    // Beaten: the mark goes by itself, and Escape sets it again.
    window.press(Key::Space);
    window.wait_for_count(2);
    window.wait("the mark is gone", 5.0, |window| !window.shows("@tap-begun"));
    window.press(Key::Escape);
    window.wait("it is marked again", 5.0, |window| window.shows("@tap-begun"));

    let window = window.kill_and_reopen(&WindowOptions::phone());
    window.click("@running @continue-weaving");
    window.wait("it is still marked", 5.0, |window| window.shows("@tap-begun"));
    window.wait_text("@tap-count", "2", 5.0);
    window.click("@tap-finish");
    window.click("@sitting-save");
    window.click("@answer-where-why summary");
    window.wait_text("@answer-where", "you stopped within a pick: it is not beaten yet", 5.0);
    assert_eq!(written_fields(&window.folder, "sitting")[0]["pick_begun"], json!(true));
}

#[test]
fn a_key_is_chosen_and_kept_on_this_device() {
    let window = weaving_sequence(&WindowOptions::laptop(), &[]);
    window.tab_to("@tap-settings");
    window.press(Key::Enter);
    window.tab_to("@bind-pick");
    window.press(Key::Enter);
    window.wait_text("@keys-now", "Press the key or pedal now", 5.0);
    window.press(Key::PageDown);
    window.wait_text("@keys-now", "Only Page Down counts a pick.", 5.0);
    window.tab_to("@bind-back");
    window.press(Key::Space);
    window.press(Key::PageUp);
    window.wait_text("@keys-now", "Page Up undoes a pick.", 5.0);
    assert_eq!(window.axe(), "", "keys");

    let window = window.reopen(&WindowOptions::laptop());
    window.click("@start-weaving");
    for _ in 0..3 {
        window.press(Key::PageDown);
    }
    window.wait_for_count(3);
    // A key that was not chosen does nothing, not even on the surface, which is a button.
    window.press(Key::Space);
    window.press(Key::Enter);
    window.type_keys("q");
    window.press(Key::Backspace);
    window.press(Key::PageUp);
    window.wait_for_count(2);
    // A finger still counts.
    window.click("@tap");
    window.wait_for_count(3);
    window.click("@tap-settings");
    window.click("@bind-free");
    window.wait_text("@keys-now", "Any key counts a pick", 5.0);
}

#[test]
fn there_and_back_counts_two() {
    let window = TestWindow::with_folder(&WindowOptions::phone());
    window.click("@warp-more-sequence summary");
    window.fill("warp", &ROWS);
    window.click("label:has(#warp-picks-per-tap-2)");
    window.begin_warp(&GREY_RUNNER);
    window.click("@start-weaving");
    window.wait_text("@tap-next", "heddle up", 5.0);
    window.wait_text("@tap-then", "heddle down", 5.0);
    window.screenshot("at-loom-two-phone");
    window.press(Key::Space);
    window.wait_for_count(2);
    place(&window, "pick 1 of 4 in repeat 1");
    window.press(Key::Space);
    window.press(Key::Backspace);
    window.wait_for_count(2);
    assert_within_reach(&window);
}

#[test]
fn winding_on_moves_the_mark_and_sets_tape_beside_picks() {
    let window = weaving_sequence(&WindowOptions::phone(), &[]);
    window.press_space(31);
    window.wait_for_count(31);
    window.click("@tap-wind-on");
    window.wait("the mark is to be moved", 5.0, |window| {
        window.run("return document.querySelector('#reading-mark-set')?.checked") == json!(true)
    });
    window.type_into("@reading-measured", "as long as a hand");
    window.click("@reading-save");
    window.wait_text("@reading-measured-trouble", "185 cm", 5.0);
    assert_eq!(window.value("@reading-measured"), "as long as a hand");
    window.type_into("@reading-measured", "11 cm");
    assert_eq!(window.overflow(), "", "winding on");
    assert_eq!(window.axe(), "", "winding on");
    window.screenshot("at-loom-wind-on-phone");
    window.click("@reading-save");
    // 31 picks are 10 cm as planned; the tape counts, and the reason is given.
    window.wait_text("@message", "11 cm by the tape, 10 cm by the picks", 5.0);
    window.wait_text("@message", "The mark is now at the fell, 11 cm from the start", 5.0);
    window.wait("the weaving screen is back", 5.0, |window| window.shows("@tap"));
    window.screenshot("at-loom-result-phone");
    window.press_space(14);
    window.wait_for_count(45);
    window.click("@tap-wind-on");
    // There is a mark now, so that is where the tape starts.
    window.wait("from the mark", 5.0, |window| {
        window.run("return document.querySelector('#reading-measured-from-mark')?.checked") == json!(true)
    });
    window.type_into("@reading-measured", "5 cm");
    window.click("@reading-save");
    window.wait_text("@message", "16 cm by the tape", 5.0);
    let readings = written_fields(&window.folder, "reading");
    assert_eq!(readings.len(), 2);
    assert_eq!((&readings[0]["picks_into"], &readings[1]["picks_into"]), (&json!(31), &json!(45)));

    // Finishing: the tape is compared before it is saved. Four centimetres without a pick are asked about.
    window.click("@tap-finish");
    window.type_into("@sitting-measured", "4 cm");
    window.click("@sitting-more-how summary");
    window.click("label:has(#sitting-measured-from-mark)");
    window.wait_text("@sitting-more-how summary", "Measured from the last mark, warp under tension", 5.0);
    window.wait_text("@sitting-reconciled", "The tape says 20 cm, the picks say 16 cm", 5.0);
    window.screenshot("at-loom-reconciled-phone");
    // Measured again.
    window.type_into("@sitting-measured", "0.2 cm");
    window.wait_text("@sitting-reconciled", "16 cm by the tape, and the picks agree", 5.0);
    window.click("@sitting-save");
    window.wait_text("@message", "the picks agree", 5.0);
    window.wait_text("@answer-where-headline", "16 cm of", 5.0);
}

#[test]
fn a_warp_mark_at_the_fell_corrects_the_take_up() {
    let window = TestWindow::with_warp(&WindowOptions::laptop());
    window.log_sitting(&[("picks", "155"), ("measured", "50 cm")]);
    window.wait("the answers are back", 5.0, |window| window.shows("@weigh"));
    window.click("@weigh");
    window.click("@reading-more-mark summary");
    window.type_into("@reading-warp_mark", "57 cm");
    window.click("@reading-save");
    window.wait_text("@message", "100 of cloth take 114 of warp", 5.0);
    window.click("@answer-warp-why summary");
    window.wait_text("@answer-warp-why", "A warp mark at 57 cm reached the fell after 50 cm", 5.0);
    // It can be removed again, and then what was given holds.
    window.click("@other-records summary");
    window.click("[data-act=remove-record]");
    window.wait("it is gone", 5.0, |window| !window.text("@answer-warp-why").contains("warp mark"));
    window.click("@undo");
    window.wait_text("@answer-warp-why", "A warp mark at 57 cm", 5.0);
}

#[test]
fn the_reminder_to_stretch_can_be_set() {
    let window = weaving_sequence(&WindowOptions::phone(), &[]);
    window.click("@tap-settings");
    window.click("label:has(#stretch-45)");
    let is_kept =
        |minutes: i64| entries(&window.folder).iter().any(|entry| entry["set"]["stretch_minutes"] == json!(minutes));
    window.wait("45 minutes are kept", 5.0, |_| is_kept(45));
    window.click("label:has(#stretch-0)");
    window.wait("never is kept", 5.0, |_| is_kept(0));
}

#[test]
fn all_answers_are_seen_on_the_laptop_without_scrolling() {
    let window = TestWindow::with_example(&WindowOptions::laptop());
    window.settle();
    let below = window.run(
        "return [...document.querySelectorAll('.answer')]
            .map(e => [e.dataset.part, e.getBoundingClientRect()])
            .filter(([_, r]) => r.bottom > innerHeight).map(([part, r]) => `${part} ends at ${r.bottom} of ${innerHeight}`).join('; ')",
    );
    window.screenshot("answers-at-a-glance-laptop");
    assert_eq!(below, json!(""));
    assert_eq!(window.run("return document.querySelectorAll('.answer').length"), json!(4));
}

/// The shed as it is seen from the weaver's seat: the fell is where the cloth is.
#[test]
fn the_shed_faces_as_the_screen_does_and_centimetres_stand_beside_the_repeats() {
    let middle = |window: &Window, part: &str| {
        let script = format!(
            "const e = [...document.querySelectorAll('{part}')].find(e => e.checkVisibility());
             const r = e.getBoundingClientRect(); return [r.left + r.width / 2, r.top + r.height / 2]"
        );
        let at = window.run(&script);
        (at[0].as_f64().unwrap(), at[1].as_f64().unwrap())
    };
    for (options, name) in [(WindowOptions::phone(), "phone"), (WindowOptions::laptop(), "laptop")] {
        let window = weaving_sequence(&options, &[]);
        window.press_space(2);
        window.wait_for_count(2);
        place(&window, "pick 1 of 4 in repeat 1");
        window.settle();
        window.screenshot(&format!("shed-{name}"));
        let cloth = middle(&window, ".tap-woven");
        let open = middle(&window, ".tap-open");
        for (fell, wood) in
            [(".shed .shed-fell", ".shed .shed-wood :first-child"), (".shed .shed-cloth", ".shed .shed-heddle")]
        {
            let (fell, wood) = (middle(&window, fell), middle(&window, wood));
            let towards = (cloth.0 - open.0) * (fell.0 - wood.0) + (cloth.1 - open.1) * (fell.1 - wood.1);
            assert!(
                towards > 0.0,
                "{name}: the cloth is at {cloth:?}, the fell drawn at {fell:?}, the loom behind it at {wood:?}"
            );
        }
        assert_within_reach(&window);
        // 160 cm wanted, 31 picks per 10 cm: after two picks 159.4 cm.
        window.wait_text("@tap-place", "repeats (159 cm) to go", 5.0);
    }
    let window = TestWindow::weaving(&WindowOptions::phone());
    window.press_space(31);
    window.wait_for_count(31);
    window.wait_text("@tap-in-all", "31 on this warp · 150 cm to go", 5.0);
}

//! What is due is shown when it is due, while weaving: half of the yarn gone, balance and closing border, a warp mark.

use fellmark_tests::window::{GREY_RUNNER, Key, TestWindow, Window, WindowOptions};
use serde_json::json;

use crate::folder::written_fields;

/// The usual warp with some figures of its own.
fn with(own: &[(&'static str, &'static str)]) -> Vec<(&'static str, &'static str)> {
    let figure = |(name, usual)| (name, own.iter().find(|(own, _)| *own == name).map_or(usual, |(_, figure)| *figure));
    GREY_RUNNER.into_iter().map(figure).collect()
}

fn picks(window: &Window, from: i32, to: i32) {
    for _ in from..to {
        window.press(Key::Space);
    }
    window.wait_for_count(to);
}

/// 60 m of yarn at 33 cm a pick (30 cm in the reed and a tenth more): from 45 of 100 gone it counts as half, at 82 picks.
#[test]
fn half_of_the_yarn_gone() {
    let window = TestWindow::with_folder(&WindowOptions::phone());
    window.begin_warp(&with(&[("weft_length", "60 m")]));
    window.log_sitting(&[("picks", "80")]);
    window.wait("the answers are back", 5.0, |window| window.shows("@start-weaving"));
    window.start_weaving();
    picks(&window, 0, 1);
    assert!(!window.shows("@tap-half"), "81 picks");
    picks(&window, 1, 2);
    window.wait_text(
        "@tap-half",
        "About half of Grey two-ply is used. To make both ends match, mirror the sequence from here.",
        5.0,
    );
    assert_eq!(window.axe(), "", "half gone");
    window.screenshot("at-loom-half-phone");
    window.click("@tap-half-close");
    window.wait_gone("@tap-half");
    picks(&window, 2, 6);
    assert!(!window.shows("@tap-half"), "read is read");
}

/// 10 cm at 31 picks to 10 cm: two of the opening border, six repeats of four, three of the balance, two of the closing border.
#[test]
fn balance_and_closing_border_are_begun_when_there_is_no_room_for_a_repeat() {
    let window = TestWindow::with_folder(&WindowOptions::phone());
    window.click("@warp-more-sequence summary");
    let rows = [
        ("opening", "up\ndown"),
        ("repeat", "up\nstick\nup\ndown"),
        ("balance", "up\nstick\nup"),
        ("closing", "down\nup"),
    ];
    window.fill("warp", &rows);
    window.begin_warp(&with(&[("wanted", "10 cm")]));
    window.start_weaving();
    picks(&window, 0, 22);
    assert!(!window.shows("@tap-due"), "there is room for one more repeat");
    picks(&window, 22, 26);
    window.wait_text("@tap-due", "Another whole repeat would be too long: the balance comes now.", 5.0);
    assert_eq!(window.axe(), "", "the balance is due");
    window.screenshot("at-loom-due-phone");
    // By keyboard; the pick that is counted meanwhile is not lost.
    window.tab_to("@tap-due-go");
    window.press(Key::Enter);
    window.wait_text("@tap-place", "pick 1 of 3 in the balance", 5.0);
    window.wait_gone("@tap-due");
    assert_eq!(written_fields(&window.folder, "place")[0]["section"], json!("balance"));
    window.wait_for_weaving();
    picks(&window, 26, 29);
    window.wait_text("@tap-place", "pick 1 of 2 in the closing border", 5.0);
    picks(&window, 29, 31);
    window.wait_text("@tap-next", "the end of the sequence", 5.0);
}

#[test]
fn a_warp_mark_reaches_the_fell_when_the_cloth_is_wound_on() {
    let window = TestWindow::weaving(&WindowOptions::phone());
    picks(&window, 0, 62);
    window.click("@tap-wind-on");
    window.type_into("@reading-measured", "20 cm");
    window.click("@reading-more-mark summary");
    window.type_into("@reading-warp_mark", "23 cm");
    window.click("@reading-save");
    // 23 cm of warp for 20 of cloth, where 110 to 100 were planned.
    window.wait_text("@message", "100 of cloth take 115 of warp", 5.0);
    window.wait_for_weaving();
    assert_eq!(written_fields(&window.folder, "reading")[0]["picks_into"], json!(62));
}

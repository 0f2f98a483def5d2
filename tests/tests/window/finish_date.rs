//! When it will be done, in the window: the day in words, and the picture of the days.

use fellmark_tests::window::{TestWindow, Window, WindowOptions};
use serde_json::json;

fn woven(window: &Window, picks: &str) {
    window.log_sitting(&[("picks", picks)]);
    window.wait("the answers are back", 5.0, |window| window.shows("@answer-when-headline"));
}

fn drawn(window: &Window, what: &str) -> bool {
    window.run(&format!("return document.querySelector('[data-part=\"days-picture\"] {what}') !== null")) == json!(true)
}

/// 160 cm at 31 picks to 10 cm are 496 picks.
#[test]
fn where_nothing_is_left_to_weave_no_fan_is_drawn_nor_spoken_of() {
    let window = TestWindow::with_warp(&WindowOptions::phone());
    woven(&window, "200");
    window.wait("a fan is drawn", 5.0, |window| drawn(window, ".fan"));
    assert!(window.text("@days-legend").contains("Hatched area"));
    woven(&window, "296");
    window.wait_text("@answer-when-headline", "Ready to cut off", 5.0);
    window.wait("the fan is gone", 5.0, |window| !drawn(window, ".fan"));
    assert_eq!(window.text("@days-legend"), "Line: woven so far.");
    assert_eq!(window.overflow() + &window.axe(), "");
}

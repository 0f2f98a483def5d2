//! Cautions are shown per warp.

use fellmark_tests::window::{TestWindow, Window, WindowOptions};

fn begin_for_child(window: &Window, name: &str) {
    window.fill("warp", &[("name", name), ("wound", "2 m"), ("picks", "40")]);
    window.click("@warp-more-people summary");
    window.click("@warp-for_child");
    window.click("@warp-save");
    window.wait_text("@warp-name", name, 5.0);
}

#[test]
fn a_caution_that_was_read_for_one_warp_is_shown_for_the_next() {
    let options = WindowOptions::phone();
    let window = TestWindow::with_folder(&options);
    begin_for_child(&window, "Cowl");
    window.wait_text("@cautions", "EN 14682", 5.0);
    assert_eq!(window.overflow() + &window.axe(), "");
    window.screenshot("cautions-phone");
    window.click("[data-act=cautions-seen]");
    window.wait("they are read", 5.0, |window| !window.shows("@cautions"));

    window.click("@nav-plan");
    window.click("@way-begin");
    begin_for_child(&window, "Blanket");
    window.wait_text("@cautions", "strangle", 5.0);
    // For the first they stay read, also after a restart.
    let window = window.reopen(&options);
    window.wait_text("@warp-name", "Blanket", 5.0);
    assert!(window.shows("@cautions"));
    window.click("@warps button");
    window.wait_text("@warp-name", "Cowl", 5.0);
    assert!(!window.shows("@cautions"));
}

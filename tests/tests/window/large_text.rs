//! Text of twice the size on a phone: nothing reaches past the edge, and the result of a measurement does not cover the rest.

use fellmark_tests::window::{Key, TestWindow, Window, WindowOptions};
use serde_json::json;

fn enlarge(window: &Window) {
    window.enlarge_text();
    window.wait("there is little room", 5.0, |window| {
        window.run("return document.documentElement.dataset.room") == "tight"
    });
    window.settle();
}

#[test]
fn nothing_is_cut_off_at_the_edge() {
    let window = TestWindow::with_example(&WindowOptions::phone().reduced_motion());
    enlarge(&window);
    let mut found = String::new();
    let mut at = |screen: &str| {
        window.settle();
        window.screenshot(&format!("large-text-{screen}"));
        let wide = window.overflow();
        // Labels beside the warp must not be cut off by the edge of their place either.
        let cut = window.run(
            "return [...document.querySelectorAll('.warp-label')].filter(e => e.scrollWidth > e.clientWidth + 1).length",
        );
        if !wide.is_empty() || cut != json!(0) {
            found += &format!("{screen}: {cut} labels cut, {wide}\n");
        }
    };
    at("loom");
    window.click("@start-weaving");
    window.wait("the surface is there", 5.0, |window| window.shows("@tap"));
    window.press(Key::Space);
    window.wait_for_count(1);
    at("tap");
    window.click("@tap-finish");
    window.wait("the form is there", 5.0, |window| window.shows("@sitting-minutes"));
    at("finish-sitting");
    window.click("@sitting-save");
    window.wait("the warp is shown again", 5.0, |window| window.shows("@log"));
    window.click("@log");
    at("log");
    for screen in ["plan", "pace", "folder", "off"] {
        window.click(&format!("@nav-{screen}"));
        at(screen);
    }
    window.click("@off-list button");
    window.wait("the finished warp is shown", 5.0, |window| window.shows("@steps"));
    at("off-warp");
    window.click("@step-change");
    at("step");
    assert!(found.is_empty(), "{found}");
}

#[test]
fn the_result_of_a_measurement_scrolls_away_on_a_phone() {
    let window = TestWindow::with_warp(&WindowOptions::phone());
    window.log_sitting(&[("picks", "60"), ("measured", "20 cm")]);
    window.wait("its result is shown", 5.0, |window| window.shows("@message-close"));
    let bottom = "return document.querySelector('[data-part=message]').getBoundingClientRect().bottom";
    assert!(window.run(bottom).as_f64().unwrap() > 0.0, "it is in sight at first");
    window.scroll_to("@change");
    assert!(window.run(bottom).as_f64().unwrap() <= 0.0, "it does not cover what was scrolled to");
    // The notice of a press stays in sight wherever the page is scrolled to.
    window.click("[data-state=resting]");
    window.wait_text("@notice", "Warp set aside.", 5.0);
    let top = window.run("return document.querySelector('[data-part=notice]').getBoundingClientRect().top");
    assert!((0.0..700.0).contains(&top.as_f64().unwrap()), "{top}");
}

//! The sequence while it is written: the cloth drawn, what is wrong beside it, examples, the border mirrored.

use fellmark_tests::window::{GREY_RUNNER, Key, TestWindow, Window, WindowOptions};
use serde_json::json;

use crate::folder::written_fields;

fn rows(window: &Window) -> u64 {
    window.run("return document.querySelectorAll('.cloth-weft').length").as_u64().unwrap()
}

#[test]
fn a_sequence_is_drawn_while_it_is_written() {
    let window = TestWindow::with_folder(&WindowOptions::phone());
    window.click("@warp-more-sequence summary");

    window.type_into("@warp-repeat", "up\nsideways");
    window.wait_text("@warp-repeat-trouble", "sideways", 5.0);
    assert_eq!(window.value("@warp-repeat"), "up\nsideways");

    window.click_text("@examples button", "Weft floats");
    window.wait("the cloth is drawn", 5.0, |window| rows(window) == 4 + 2 * 4 + 3 + 4);
    window.wait_text("@sequence-counts", "4 picks of opening border, 4 picks to a repeat", 5.0);
    assert!(!window.shows("@warp-repeat-trouble"));
    assert!(!window.shows("@sequence-messages .trouble"));
    // Three ends down between two that are picked up: the float is seven ends long, and pointed out.
    window.type_into("@warp-stick_down_ends", "3");
    window.wait_text("@sequence-messages", "the weft floats over 7 ends, 17.8 mm: long enough to catch", 5.0);
    window.wait("it is outlined", 5.0, |window| window.shows(".cloth-long"));
    window.screenshot("sequence-long-phone");
    window.type_into("@warp-stick_down_ends", "1");
    window.wait("it is short again", 5.0, |window| !window.shows(".cloth-long"));

    // Two picks in one shed.
    window.type_into("@warp-opening", "up\ndown\nup + stick\nup");
    window.wait_text("@sequence-messages", "lies in the same shed as the pick before it", 5.0);
    window.type_into("@warp-opening", "up\ndown\nup + stick\ndown");
    window.wait("the joins are well", 5.0, |window| !window.shows("@sequence-messages .trouble"));

    // The opening border, mirrored.
    window.click("@mirror");
    assert_eq!(window.value("@warp-closing"), "down\nup + stick\ndown\nup");
    window.wait("the cloth is drawn", 5.0, |window| rows(window) == 19);
    assert_eq!(window.overflow(), "", "the editor");
    assert_eq!(window.axe(), "", "the editor");
    window.run("document.querySelector('[data-part=sequence-cloth]').scrollIntoView()");
    window.screenshot("sequence-phone");
    // What a screen reader reads for the drawing.
    let name = window.run("return document.querySelector('[data-part=cloth]').getAttribute('aria-label')");
    let name = name.as_str().unwrap().replace('\u{a0}', " ");
    assert!(name.contains("the longest weft float crosses 3 ends, 7.6 mm"), "{name}");
    window.begin_warp(&GREY_RUNNER);
    assert_eq!(written_fields(&window.folder, "warp")[0]["closing_rows"], json!(["down", "up + stick", "down", "up"]));
}

#[test]
fn cloth_is_drawn_at_its_own_sett_and_from_numbered_sheds() {
    let window = TestWindow::with_folder(&WindowOptions::phone().dark());
    window.click("@warp-more-sequence summary");
    window.click_text("@examples button", "Weft floats");
    // Without a sett what is assumed is shown; with one the same float has another length.
    window.wait_text("@sequence-messages", "Neither sett nor picks are written down", 5.0);
    let drawn = |window: &Window| {
        let name = window.run("return document.querySelector('[data-part=cloth]')?.getAttribute('aria-label') ?? ''");
        name.as_str().unwrap().replace('\u{a0}', " ")
    };
    let shape =
        "const box = document.querySelector('[data-part=cloth]').viewBox.baseVal; return box.width / box.height";
    assert!(drawn(&window).contains("crosses 3 ends, 7.6 mm"), "{}", drawn(&window));
    let even = window.run(shape).as_f64().unwrap();
    window.type_into("@warp-sett", "30");
    window.wait_text("@warp-sett-understood", "30 ends per 10 cm", 5.0);
    window.wait("the floats follow", 5.0, |window| drawn(window).contains("crosses 3 ends, 10 mm"));
    window.wait_text("@sequence-messages", "Drawn with 30 ends to 10 cm", 5.0);
    window.type_into("@warp-picks", "60");
    window.wait_text("@sequence-messages", "Drawn to scale with 30 ends and 60 picks to 10 cm", 5.0);
    // Picks twice as close as ends make a drawing half as high.
    let close = window.run(shape).as_f64().unwrap();
    assert!(close > 1.5 * even, "{even} {close}");
    window.type_into("@warp-sett", "a few");
    window.wait_text("@warp-sett-trouble", "Write the sett as 40", 5.0);
    window.type_into("@warp-sett", "30");

    // Four sheds: not drawn until it is known what each lifts, then as they interlace.
    for section in ["opening", "balance", "closing"] {
        window.type_into(&format!("@warp-{section}"), " ");
    }
    window.type_into("@warp-repeat", "1 2 3 4");
    window.wait_text("@sequence-messages", "What each shed lifts is not written down yet", 5.0);
    assert!(!window.shows("@cloth"));
    window.click("@sequence-shafts summary");
    window.type_into("@warp-shed_lifts", "1: 1 2\n2: 2 x");
    window.wait_text("@warp-shed_lifts-trouble", "is no shaft", 5.0);
    window.type_into("@warp-shed_lifts", "1: 1 2\n2: 2 3\n3: 3 4\n4: 4 1");
    window.wait_text("@sequence-messages", "straight through on shafts 1 to 4", 5.0);
    window.wait("the twill is drawn", 5.0, |window| drawn(window).contains("longest weft float crosses 2 ends"));
    assert_eq!(window.overflow() + &window.axe(), "");
    window.run("document.querySelector('[data-part=sequence-cloth]').scrollIntoView({ block: 'center' })");
    window.screenshot("sequence-twill-phone-dark");
    window.type_into("@warp-threading", "1-4 3 2");
    window.wait("the point is drawn", 5.0, |window| drawn(window).contains("longest weft float crosses 3 ends"));
    window.begin_warp(&GREY_RUNNER);
    let warp = &written_fields(&window.folder, "warp")[0];
    assert_eq!(warp["shed_lifts"], json!(["1: 1 2", "2: 2 3", "3: 3 4", "4: 4 1"]));
    assert_eq!((&warp["threading"], warp["sett_ends_per_10cm"].as_f64()), (&json!(["1-4 3 2"]), Some(30.0)));
}

#[test]
fn a_sequence_is_written_by_keyboard_alone() {
    let window = TestWindow::with_folder(&WindowOptions::laptop());
    window.tab_to("@warp-name");
    window.type_keys("Lace runner");
    window.tab_to("@warp-more-sequence summary");
    window.press(Key::Enter);
    window.tab_to("@examples [data-example='3']");
    window.press(Key::Enter);
    window.wait("the cloth is drawn", 5.0, |window| rows(window) > 12);
    window.tab_to("@mirror");
    window.press(Key::Enter);
    window.run("document.querySelector('[data-part=sequence-cloth]').scrollIntoView()");
    window.screenshot("sequence-laptop");
    window.tab_to("@warp-save");
    window.press(Key::Enter);
    window.wait_text("@warp-name", "Lace runner", 5.0);
    let warp = &written_fields(&window.folder, "warp")[0];
    assert_eq!(warp["repeat_rows"], json!(["up", "stick", "up", "stick", "up", "down"]));
    assert_eq!(warp["closing_rows"], json!(["down", "up", "down", "up"]));
}

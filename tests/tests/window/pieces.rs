//! Pieces of different sizes on one warp: typed as a list, drawn to scale, woven one after the other.

use fellmark_tests::window::{TestWindow, Window, WindowOptions};
use serde_json::json;

use crate::folder::written_fields;

const SCARF_AND_RUGS: [(&str, &str); 5] = [
    ("name", "Scarf and mug rugs"),
    ("wound", "290 cm"),
    ("waste", "50 cm"),
    ("wanted", "180, 15, 15 cm"),
    ("picks", "40"),
];

fn bands(window: &Window, what: &str) -> i64 {
    let script = format!("return document.querySelectorAll('[data-part=\"warp-picture\"] [data-band={what}]').length");
    window.run(&script).as_i64().unwrap()
}

fn woven_to(window: &Window, picks: &str, measured: &str) {
    window.log_sitting(&[("picks", picks), ("measured", measured)]);
    window.wait("the answers are back", 5.0, |window| window.shows("@answer-where-headline"));
}

/// On a phone what is not read first is behind a disclosure.
fn wait_for_place(window: &Window, words: &str) {
    let open = "document.querySelectorAll('[data-part=\"answer-where\"] details').forEach(one => { one.open = true; })";
    window.wait(words, 5.0, |window| {
        window.run(open);
        window.text("@answer-where").contains(words)
    });
}

fn pieces(options: &WindowOptions) {
    let window = TestWindow::with_folder(options);
    // What was understood is shown while it is typed.
    window.type_into("@warp-wanted", "180, 15, 15 cm");
    window.wait_text("@warp-wanted-understood", "180 cm and 2 pieces of 15 cm", 5.0);
    window.type_into("@warp-wanted", "180, as long as it gets");
    window.wait("it says what to write", 5.0, |window| window.shows("@warp-wanted-trouble"));
    window.click("@warp-more-pieces summary");
    window.type_into("@warp-gap", "2 cm");
    window.begin_warp(&SCARF_AND_RUGS);
    let warp = &written_fields(&window.folder, "warp")[0];
    assert_eq!(warp["wanted_each_mm"], json!([1800.0, 150.0, 150.0]));
    assert_eq!((&warp["pieces"], &warp["gap_mm"]), (&json!(3), &json!(20.0)));
    window.wait_text("@answer-where-headline", "Nothing woven yet; 210 cm to weave", 5.0);
    window.wait_text("@picture-text", "210 cm of cloth to weave", 5.0);
    window.wait("each piece is drawn", 5.0, |window| bands(window, "to_weave") == 3);

    woven_to(&window, "760", "190 cm");
    wait_for_place(&window, "Piece 2 of 3: 10 cm of 15 cm.");
    window.scroll_to("@warp-picture");
    window.screenshot(&format!("pieces-{}", options.name()));
    assert_eq!(window.overflow(), "");

    // Changed as it is written; the number of pieces follows.
    window.click("@change");
    assert_eq!(window.value("@warp-wanted"), "180 cm; 15 cm; 15 cm");
    window.click("@warp-more-pieces summary");
    assert_eq!(window.value("@warp-pieces"), "");
    window.type_into("@warp-pieces", "2");
    window.click("@warp-save");
    window.wait_text("@warp-pieces-trouble", "3 lengths are wanted", 5.0);
    window.type_into("@warp-pieces", "");
    window.type_into("@warp-wanted", "180 cm, 4 x 15 cm");
    window.click("@warp-save");
    wait_for_place(&window, "Piece 2 of 5");
    // The warp wound is 32 cm short of five pieces: what it reaches is drawn, and the rest as missing.
    window.wait("each piece is drawn as far as the warp goes", 5.0, |window| {
        bands(window, "to_weave") == 3 && bands(window, "missing") == 1
    });
    window.click("@undo");
    wait_for_place(&window, "Piece 2 of 3");
}

#[test]
fn on_a_laptop() {
    pieces(&WindowOptions::laptop());
}

#[test]
fn on_a_phone() {
    pieces(&WindowOptions::phone().dark());
}

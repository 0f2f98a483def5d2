//! The keyboard alone goes the whole way.

use fellmark_tests::window::{Key, TestWindow, WindowOptions};

use crate::folder::written_fields;

#[test]
fn begins_taps_and_gets_up() {
    let window = TestWindow::first_start(&WindowOptions::laptop());

    window.tab_to("@typed-path summary");
    window.press(Key::Enter);
    window.tab_to("@welcome-path");
    window.type_keys(window.folder.to_str().unwrap());
    window.press(Key::Enter);
    window.wait("the plan is open", 5.0, |window| window.shows("@warp-name"));

    for (field, text) in [("name", "Sampler"), ("wound", "2 m"), ("waste", "45 cm"), ("wanted", "1 m"), ("picks", "40")]
    {
        window.tab_to(&format!("@warp-{field}"));
        window.type_keys(text);
    }
    window.press(Key::Enter);
    window.wait("the warp is on the loom", 5.0, |window| window.shows("@start-weaving"));

    window.tab_to("@start-weaving");
    window.press(Key::Enter);
    window.wait("the surface is there", 5.0, |window| window.shows("@tap"));
    window.press(Key::Space);
    window.press(Key::Enter);
    // A page-turning pedal is a keyboard.
    window.press(Key::PageDown);
    window.type_keys("p");
    window.wait_for_count(4);
    window.press(Key::Backspace);
    window.wait_for_count(3);

    window.tab_to("@tap-finish");
    window.press(Key::Enter);
    window.wait("the form is there", 5.0, |window| window.shows("@sitting-minutes"));
    window.tab_to("@sitting-note");
    window.type_keys("by keys");
    window.tab_to("@sitting-save");
    window.press(Key::Enter);
    window.wait_for_picks(3, 5.0);
    let sitting = &written_fields(&window.folder, "sitting")[0];
    assert_eq!((sitting["picks"].as_i64(), sitting["note"].as_str()), (Some(3), Some("by keys")));
}

//! The keyboard alone goes the whole way.

use fellmark_tests::window::{Device, Key, Look, Stage};

use crate::folder::said;
use crate::weaver::{counted, told};

#[test]
fn begins_taps_and_gets_up() {
    let _stage = Stage::for_windows(1);
    let device = Device::new();
    let folder = device.folder("Weaving");
    let window = device.open(&Look::laptop());

    window.tab_to("@typed-path summary");
    window.press(Key::Enter);
    window.tab_to("@welcome-path");
    window.keys(folder.to_str().unwrap());
    window.press(Key::Enter);
    window.wait("the plan is open", 5.0, |window| window.sees("@warp-name"));

    for (field, text) in [("name", "Sampler"), ("wound", "2 m"), ("waste", "45 cm"), ("wanted", "1 m"), ("picks", "40")]
    {
        window.tab_to(&format!("@warp-{field}"));
        window.keys(text);
    }
    window.press(Key::Enter);
    window.wait("the warp is on the loom", 5.0, |window| window.sees("@sit-down"));

    window.tab_to("@sit-down");
    window.press(Key::Enter);
    window.wait("the surface is there", 5.0, |window| window.sees("@tap"));
    window.press(Key::Space);
    window.press(Key::Enter);
    // A page-turning pedal is a keyboard.
    window.press(Key::PageDown);
    window.keys("p");
    counted(&window, 4);
    window.press(Key::Backspace);
    counted(&window, 3);

    window.tab_to("@tap-get-up");
    window.press(Key::Enter);
    window.wait("the form is there", 5.0, |window| window.sees("@sitting-minutes"));
    window.tab_to("@sitting-note");
    window.keys("by keys");
    window.tab_to("@sitting-save");
    window.press(Key::Enter);
    told(&window, 3, 5.0);
    let sitting = &said(&folder, "sitting")[0];
    assert_eq!((sitting["picks"].as_i64(), sitting["note"].as_str()), (Some(3), Some("by keys")));
}

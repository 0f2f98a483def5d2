//! Nothing tapped is lost when the program is killed.

use fellmark_tests::window::{Device, Key, Look, Stage};

use crate::folder::said;
use crate::weaver::{GREY_RUNNER, begin, counted, open_folder, sit_down, told};

#[test]
fn a_running_sitting_comes_back_after_kill_9() {
    let _stage = Stage::for_windows(1);
    let device = Device::new();
    let folder = device.folder("Weaving");
    let window = device.open(&Look::phone());
    open_folder(&window, &folder);
    begin(&window, &GREY_RUNNER);
    sit_down(&window);
    for _ in 0..12 {
        window.press(Key::Space);
    }
    counted(&window, 12);
    window.kill_9();

    let window = device.open(&Look::phone());
    window.click("@running @go-on");
    window.wait_text("@tap-count", "12", 5.0);
    window.press(Key::Space);
    counted(&window, 13);
    window.kill_9();

    // Getting up after a second cut writes what was tapped over all three runs.
    let window = device.open(&Look::phone());
    window.click("@running @get-up");
    window.wait("the picks are known", 5.0, |window| window.sees("@sitting-picks"));
    assert_eq!(window.value("@sitting-picks"), "13");
    window.click("@sitting-save");
    told(&window, 13, 5.0);
    assert!(!window.sees("@running"));
    assert_eq!(said(&folder, "sitting")[0]["picks"], 13);
}

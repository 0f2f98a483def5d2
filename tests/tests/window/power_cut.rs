//! Nothing tapped is lost when the program is killed.

use fellmark_tests::window::{Key, TestWindow, WindowOptions};

use crate::folder::written_fields;

#[test]
fn a_running_sitting_comes_back_after_kill_9() {
    let window = TestWindow::weaving(&WindowOptions::phone());
    window.press_space(12);
    window.wait_for_count(12);

    let window = window.kill_and_reopen(&WindowOptions::phone());
    window.click("@running @continue-weaving");
    window.wait_text("@tap-count", "12", 5.0);
    window.press(Key::Space);
    window.wait_for_count(13);

    // Finishing the sitting after a second cut writes what was tapped over all three runs.
    let window = window.kill_and_reopen(&WindowOptions::phone());
    window.click("@running @finish-sitting");
    window.wait("the picks are known", 5.0, |window| window.shows("@sitting-picks"));
    assert_eq!(window.value("@sitting-picks"), "13");
    window.click("@sitting-save");
    window.wait_for_picks(13, 5.0);
    assert!(!window.shows("@running"));
    assert_eq!(written_fields(&window.folder, "sitting")[0]["picks"], 13);
}

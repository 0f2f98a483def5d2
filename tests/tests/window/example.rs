//! The invented example: one tap there, one tap gone.

use std::path::PathBuf;

use fellmark_tests::window::{TestWindow, WindowOptions};

#[test]
fn the_example_comes_and_goes_with_one_tap() {
    let window = TestWindow::first_start(&WindowOptions::phone());
    window.click("@begin-example");
    for answer in ["where", "warp", "weft", "when"] {
        assert!(!window.spoken_text(&format!("@answer-{answer}-headline")).is_empty());
    }
    assert!(window.shows("@example"), "a notice says that these figures are invented");

    window.click("@nav-folder");
    let folder = PathBuf::from(window.text("@folder-path"));
    assert!(folder.join("warps").is_dir(), "{} holds the example", folder.display());
    assert!(folder.starts_with(window.device.home()), "{}", folder.display());

    window.click("[data-act=leave-example]");
    window.wait("the first screen is back", 5.0, |window| window.shows("@begin-example"));
    assert!(!folder.exists(), "{} is deleted", folder.display());

    // It is not there after a new start either.
    let window = window.reopen(&WindowOptions::phone());
    assert!(window.shows("@begin-example"));
}

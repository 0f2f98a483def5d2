//! The invented example: one tap there, one tap gone.

use std::path::PathBuf;

use fellmark_tests::window::{Device, Look, Stage};

#[test]
fn the_example_comes_and_goes_with_one_tap() {
    let _stage = Stage::for_windows(1);
    let device = Device::new();
    let window = device.open(&Look::phone());
    window.click("@begin-example");
    for answer in ["where", "warp", "weft", "when"] {
        assert!(!window.text(&format!("@answer-{answer}-headline")).is_empty());
    }
    assert!(window.sees("@example"), "it is said that these figures are invented");

    window.click("@nav-folder");
    let folder = PathBuf::from(window.text("@folder-path"));
    assert!(folder.join("warps").is_dir(), "{} holds the example", folder.display());
    assert!(folder.starts_with(device.home()), "{}", folder.display());

    window.click("[data-act=leave-example]");
    window.wait("the first screen is back", 5.0, |window| window.sees("@begin-example"));
    assert!(!folder.exists(), "{} is deleted", folder.display());

    // It is not there after a new start either.
    window.close();
    let window = device.open(&Look::phone());
    assert!(window.sees("@begin-example"));
}

//! All markers by which devices know the folder are gone: the window says so, and marks it again when that is confirmed.

use fellmark_tests::window::{Device, Look, Stage};

use crate::folder::{files, said};
use crate::weaver::{GREY_RUNNER, begin, open_folder, told};

#[test]
fn a_folder_without_markers_is_marked_again_when_that_is_confirmed() {
    let _stage = Stage::for_windows(1);
    let device = Device::new();
    let folder = device.folder("Weaving");
    let window = device.open(&Look::phone());
    open_folder(&window, &folder);
    begin(&window, &GREY_RUNNER);
    window.run("location.hash = '#/folder'");
    window.wait_text("@folder-line", "All here", 5.0);
    assert!(!window.sees("@mark-ask"), "nothing needs marking");

    std::fs::remove_dir_all(folder.join("devices")).unwrap();
    window.wait_text("@folder-line", "the markers by which devices know it", 10.0);
    window.click("@mark-ask");
    window.wait_text("@mark-question", "Is this the right folder?", 5.0);
    assert!(window.has_the_keys("@mark-cancel"), "the safe answer has the keys");
    assert!(window.text("@mark-question").contains(&folder.display().to_string()));
    assert_eq!(window.overflow() + &window.axe(), "");
    window.screenshot("folder-mark-again-phone");
    // Asked and not confirmed is nothing done.
    window.click("@mark-cancel");
    window.wait("the button is back", 5.0, |window| window.has_the_keys("@mark-ask"));
    assert!(!folder.join("devices").exists());

    // What is logged meanwhile waits.
    window.run("location.hash = '#/loom'");
    window.click("@log");
    window.type_into("@sitting-picks", "7");
    window.click("@sitting-save");
    told(&window, 7, 5.0);
    assert!(said(&folder, "sitting").is_empty());
    window.run("location.hash = '#/folder'");
    window.click("@mark-ask");
    window.click("@mark-confirm");
    window.wait_text("@folder-line", "All here", 5.0);
    window.wait_gone("@mark-question");
    assert!(!window.sees("@mark-ask"));
    assert_eq!(files(&folder.join("devices")).len(), 1);
    assert_eq!(said(&folder, "sitting").len(), 1);
}

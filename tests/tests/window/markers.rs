//! All markers by which devices know the folder are gone: the window says so, and marks it again when that is confirmed.

use fellmark_tests::window::{TestWindow, WindowOptions};

use crate::folder::{files, written_fields};

#[test]
fn a_folder_without_markers_is_marked_again_when_that_is_confirmed() {
    let window = TestWindow::with_warp(&WindowOptions::phone());
    window.run("location.hash = '#/folder'");
    window.wait_text("@folder-line", "All here", 5.0);
    assert!(!window.shows("@mark-ask"), "nothing needs marking");

    std::fs::remove_dir_all(window.folder.join("devices")).unwrap();
    window.wait_text("@folder-line", "the markers by which devices know it", 10.0);
    window.click("@mark-ask");
    window.wait_text("@mark-question", "Is this the right folder?", 5.0);
    assert!(window.has_focus("@mark-cancel"), "the safe answer has the focus");
    assert!(window.text("@mark-question").contains(&window.folder.display().to_string()));
    assert_eq!(window.overflow() + &window.axe(), "");
    window.screenshot("folder-mark-again-phone");
    // Asked and not confirmed is nothing done.
    window.click("@mark-cancel");
    window.wait("the button is back", 5.0, |window| window.has_focus("@mark-ask"));
    assert!(!window.folder.join("devices").exists());

    // What is logged meanwhile waits.
    window.run("location.hash = '#/loom'");
    window.log_sitting(&[("picks", "7")]);
    window.wait_for_picks(7, 5.0);
    assert!(written_fields(&window.folder, "sitting").is_empty());
    window.run("location.hash = '#/folder'");
    window.click("@mark-ask");
    window.click("@mark-confirm");
    window.wait_text("@folder-line", "All here", 5.0);
    window.wait_gone("@mark-question");
    assert!(!window.shows("@mark-ask"));
    assert_eq!(files(&window.folder.join("devices")).len(), 1);
    assert_eq!(written_fields(&window.folder, "sitting").len(), 1);
}

//! The guide in the window: every page, without a network and without a folder, and the ways to it.

use fellmark_tests::window::{TestWindow, Window, WindowOptions, photo};
use serde_json::json;

use crate::folder::written_fields;

const PAGES: [&str; 8] =
    ["first-warp", "at-the-loom", "plan-from-yarn", "off-the-loom", "two-devices", "backup", "deleting", "figures"];

fn heading(window: &Window) -> String {
    window.run("return document.querySelector('#screen h1')?.textContent ?? ''").as_str().unwrap().to_owned()
}

#[test]
fn every_page_is_read_before_there_is_a_folder() {
    let window = TestWindow::first_start(&WindowOptions::phone());
    window.click("@help-first-warp");
    window.wait_text("@guide-page", "The first warp", 5.0);
    window.click("@guide-contents");
    window.wait_text("@about-version", env!("CARGO_PKG_VERSION"), 5.0);
    window.click("@about-licence summary");
    window.wait_text("@about-licence", "WITHOUT WARRANTY", 5.0);
    assert_eq!(window.overflow() + &window.axe(), "");
    window.screenshot("guide-contents-phone");
    window.click("@guide-first-warp");
    for page in PAGES {
        window.wait(&format!("{page} is open"), 5.0, |window| {
            window.run("return location.hash") == json!(format!("#/guide/{page}")) && !heading(window).is_empty()
        });
        window.wait("its pictures are shown", 5.0, |window| {
            window.run("return [...document.querySelectorAll('.guide-picture')].every(img => img.naturalWidth > 100)")
                == json!(true)
        });
        assert!(!window.shows("@guide-untranslated"), "English is asked for");
        assert_eq!(window.overflow() + &window.axe(), "", "{page}");
        assert_eq!(window.run("return document.querySelectorAll('#screen a[href^=http]').length"), json!(0));
        window.screenshot(&format!("guide-{page}-phone"));
        if page != PAGES[PAGES.len() - 1] {
            window.click("@guide-next");
        }
    }
    // Back to where the question arose.
    for _ in PAGES {
        window.click("@guide-back");
    }
    window.wait("the contents are shown again", 5.0, |window| window.shows("@guide-first-warp"));
}

#[test]
fn a_photo_is_removed_and_the_guide_says_how_to_delete_it() {
    let window = TestWindow::with_warp(&WindowOptions::phone());
    window.log_sitting(&[("picks", "60")]);
    window.wait_text("@sitting-summary", "60 picks", 5.0);
    window.click("@sitting-summary");
    window.choose_file("details[open] @sitting-photos", &photo(window.device.home()));
    window.wait("it is kept", 15.0, |window| window.shows(".timeline-photos img"));
    window.click(".timeline-photos button");
    window.wait("it is enlarged", 5.0, |window| window.shows("@photo-remove"));
    assert_eq!(window.axe() + &window.overflow(), "");
    window.screenshot("photo-enlarged-phone");
    window.click("@photo-remove");
    window.wait("it is gone", 5.0, |window| !window.shows(".timeline-photos img"));
    assert!(written_fields(&window.folder, "photo").iter().any(|photo| photo["gone"] == json!(true)));
    window.click("@nav-folder");
    window.click("@help-deleting");
    window.wait_text("@guide-page", "Its file is still in the folder", 5.0);
    window.click("@guide-back");
    window.wait("the folder is shown again", 5.0, |window| window.shows("@folder-path"));
}

//! Finishing a sitting in ten seconds with one thumb: how many touches and keys it takes, with a length and a photo.

use fellmark_tests::window::{Key, TestWindow, Window, WindowOptions, photo};
use serde_json::json;

use crate::folder::written_fields;

/// Targets while weaving are at least so large, in CSS pixels.
const TARGET: f64 = 44.0;
/// The upper third of a phone held in one hand is out of the thumb's reach (common practice, no source).
const OUT_OF_REACH: f64 = 1.0 / 3.0;

/// Counts what the thumb does, and fails where it could not.
struct Thumb<'a> {
    window: &'a Window,
    touches: u32,
}

impl Thumb<'_> {
    /// That it is in the window without scrolling, within reach, and large enough.
    fn reaches(&self, selector: &str) {
        let css = selector.replace('@', "");
        let found = self.window.run(&format!(
            "const e = document.querySelector('[data-part=\"{css}\"]');
             const r = e.getBoundingClientRect();
             return [r.width, r.height, r.top, r.bottom, innerHeight, scrollY]"
        ));
        let at = |which: usize| found[which].as_f64().unwrap();
        let (width, height, top, bottom, all) = (at(0), at(1), at(2), at(3), at(4));
        assert!(width >= TARGET && height >= TARGET, "{selector} is {width} × {height}");
        assert!(top >= all * OUT_OF_REACH && bottom <= all, "{selector} is at {top} to {bottom} of {all}");
        // What is fixed at the bottom must not cover it.
        let hit = self.window.run(&format!(
            "const e = document.querySelector('[data-part=\"{css}\"]');
             const r = e.getBoundingClientRect();
             const there = document.elementFromPoint(r.left + r.width / 2, r.bottom - 2);
             return there === e || e.contains(there)"
        ));
        assert_eq!(hit, json!(true), "something covers {selector}");
        assert_eq!(found[5], json!(0), "the page was scrolled for {selector}");
    }

    fn touch(&mut self, selector: &str) {
        self.window.wait(&format!("{selector} can be seen"), 5.0, |window| window.shows(selector));
        self.window.settle();
        self.reaches(selector);
        self.window.touch(selector);
        self.touches += 1;
    }
}

#[test]
fn by_thumb_it_takes_four_touches_and_the_digits() {
    let window = TestWindow::weaving(&WindowOptions::phone());
    window.press_space(31);
    window.wait_for_count(31);

    let mut thumb = Thumb { window: &window, touches: 0 };
    thumb.touch("@tap-finish");
    thumb.touch("@sitting-measured");
    window.wait("the field has the focus", 5.0, |window| window.has_focus("@sitting-measured"));
    window.type_keys("10");
    // The system's own picker cannot be driven: the touch that opens it is counted, and the file handed over.
    thumb.reaches("@sitting-photos");
    thumb.touches += 1;
    window.choose_file("@sitting-photos", &photo(window.device.home()));
    window.wait("the photo is shown", 5.0, |window| window.shows("@sitting-chosen img"));
    window.wait_text("@sitting-reconciled", "10 cm by the tape, and the picks agree", 5.0);
    window.screenshot("getting-up-phone");
    thumb.touch("@sitting-save");
    window.wait("the photo is kept", 5.0, |_| written_fields(&window.folder, "photo").len() == 1);
    assert_eq!(thumb.touches, 4, "finish, the length, the photo, save");
    let sitting = &written_fields(&window.folder, "sitting")[0];
    assert_eq!((sitting["picks"].as_i64(), sitting["measured_mm"].as_f64()), (Some(31), Some(100.0)));
    assert_eq!(window.overflow(), "");
}

/// Nothing measured, nothing noted: two touches.
#[test]
fn by_thumb_with_nothing_to_add_it_takes_two_touches() {
    let window = TestWindow::weaving(&WindowOptions::phone().dark());
    window.press(Key::Space);
    window.wait_for_count(1);
    let mut thumb = Thumb { window: &window, touches: 0 };
    thumb.touch("@tap-finish");
    thumb.touch("@sitting-save");
    window.wait("it is logged", 5.0, |_| written_fields(&window.folder, "sitting").len() == 1);
    assert_eq!(thumb.touches, 2);
}

#[test]
fn by_keyboard_it_takes_six_keys_and_the_digits() {
    let window = TestWindow::weaving(&WindowOptions::laptop());
    window.press_space(31);
    window.wait_for_count(31);
    let mut keys = window.tab_to("@tap-finish");
    window.press(Key::Enter);
    window.wait("the length is next", 5.0, |window| window.has_focus("@sitting-measured"));
    window.type_keys("10");
    window.press(Key::Enter);
    keys += 2;
    window.wait("it is logged", 5.0, |_| written_fields(&window.folder, "sitting").len() == 1);
    assert_eq!(keys, 6, "to the button, into the form, and save");
    assert_eq!(written_fields(&window.folder, "sitting")[0]["measured_mm"].as_f64(), Some(100.0));
}

/// The first time it is explained what a mark is for; from then on the tape starts there.
#[test]
fn a_mark_is_offered_at_the_end_and_the_next_tape_starts_there() {
    let window = TestWindow::weaving(&WindowOptions::phone());
    window.press_space(31);
    window.wait_for_count(31);
    window.click("@tap-finish");
    window.wait("a mark is offered", 5.0, |window| window.shows("@sitting-mark_set"));
    assert!(window.text("#sitting-mark-set-hint").contains("the first pick goes onto the beam"));
    assert!(window.text("@sitting-more-how").contains("from the first pick"));
    window.type_into("@sitting-measured", "10");
    window.click("@sitting-mark_set");
    window.settle();
    window.screenshot("mark-offered-phone");
    assert_eq!(window.overflow(), "");
    window.click("@sitting-save");
    window.wait("it is logged", 5.0, |_| written_fields(&window.folder, "sitting").len() == 1);

    window.start_weaving();
    window.press_space(31);
    window.wait_for_count(31);
    window.click("@tap-finish");
    window.wait("a mark is offered", 5.0, |window| window.shows("@sitting-mark_set"));
    assert!(!window.shows("#sitting-mark-set-hint"), "it is known by now");
    assert!(window.text("@sitting-more-how").contains("from the last mark"));
    window.type_into("@sitting-measured", "10");
    window.wait_text("@sitting-reconciled", "20 cm by the tape, and the picks agree", 5.0);
    window.click("@sitting-save");
    window.wait("it is logged", 5.0, |_| written_fields(&window.folder, "sitting").len() == 2);
    let last = &written_fields(&window.folder, "sitting")[1];
    assert_eq!((last["measured_from"].as_str(), last["measured_mm"].as_f64()), (Some("mark"), Some(100.0)));

    // The same where a sitting is added afterwards, and where something is measured between two.
    window.click("@log");
    window.wait("the form is there", 5.0, |window| window.shows("#sitting-measured-from-mark"));
    assert_eq!(window.run("return document.querySelector('#sitting-measured-from-mark').checked"), json!(true));
    window.click("@sitting-back");
    window.run("location.hash = '#/measure'");
    window.wait("the form is there", 5.0, |window| window.shows("#reading-measured-from-mark"));
    assert_eq!(window.run("return document.querySelector('#reading-measured-from-mark').checked"), json!(true));
}

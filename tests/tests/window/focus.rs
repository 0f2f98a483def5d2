//! The focus stays where work goes on: after a column was chosen, a notice closed, a warp put to rest, a sitting removed. And fields
//! are asked for, and days read, in the expected order.

use fellmark_tests::window::{GREY_RUNNER, Key, TestWindow, Window, WindowOptions};
use serde_json::json;

use crate::folder::written_fields;
use crate::plan::{fill, plan_from_wish};

const SCARVES: &str =
    "Name,Begun,Ended,Picks\nRed scarf,2025-01-05,2025-01-20,700\nBlue scarf,2025-02-03,2025-02-15,690\n";

fn column(window: &Window, at: usize) -> String {
    let script = format!("return document.querySelector('[data-column=\"{at}\"]')?.value ?? 'gone'");
    window.run(&script).as_str().unwrap().to_owned()
}

/// Chooses as the keyboard does: the select has the focus.
fn take(window: &Window, at: usize, field: &str) {
    window.run(&format!("document.querySelector('[data-column=\"{at}\"]').focus()"));
    window.choose(&format!("[data-column='{at}']"), field);
}

#[test]
fn columns_are_chosen_one_after_another_without_losing_the_focus() {
    let window = TestWindow::with_folder(&WindowOptions::laptop());
    window.click("@nav-folder");
    window.click("@export-import");
    let table = window.device.home().join("scarves.csv");
    std::fs::write(&table, SCARVES).unwrap();
    window.choose_file("@import-file", &table);
    window.wait_text("@import-file-name", "scarves.csv", 5.0);
    window.choose("@import-list", "warps");
    window.wait_text("@import-line", "2 warps would be brought in", 5.0);
    take(&window, 2, "-");
    window.wait("it is looked through again", 5.0, |window| !window.text("[data-key=rows]").contains("2025-01-20"));
    assert!(window.has_focus("[data-column='2']"), "{}", window.page());

    // A field that is taken already is reported, and every column is still there to be chosen otherwise.
    take(&window, 2, "begun_on");
    window.wait_text("@import-line", "Two columns are taken for the same field", 5.0);
    assert!(window.has_focus("[data-column='2']"), "{}", window.page());
    assert_eq!([column(&window, 0), column(&window, 1)], ["name", "begun_on"]);
    assert!(!window.shows("@import-confirm"), "what is refused is not brought in");
    assert_eq!(window.axe(), "", "a refused column");
    take(&window, 2, "state_on");
    window.wait_text("@import-line", "2 warps would be brought in", 5.0);

    // What was pressed is gone: the focus is at the file, and the same one can be chosen again.
    window.tab_to("@import-confirm");
    window.press(Key::Enter);
    window.wait_text("@notice", "2 warps were brought in", 5.0);
    assert!(window.has_focus("@import-file"), "{}", window.page());
    window.choose_file("@import-file", &table);
    window.wait("it is read again", 5.0, |window| window.shows("@import-line"));
}

#[test]
fn the_focus_stays_where_something_changed() {
    let window = TestWindow::with_warp(&WindowOptions::laptop());
    window.log_sitting(&[("picks", "60"), ("measured", "20 cm")]);
    window.wait("its result is shown", 5.0, |window| window.shows("@message-close"));
    window.tab_to("@message-close");
    window.press(Key::Enter);
    window.wait_gone("@message-close");
    assert!(window.has_focus("@warp-name"), "the screen's title");

    window.tab_to("[data-state=resting]");
    window.press(Key::Enter);
    window.wait_text("@notice", "Warp set aside.", 5.0);
    assert!(window.has_focus("[data-state=on_the_loom]"), "the same button takes it up again");
    window.press(Key::Enter);
    window.wait_text("@notice", "The warp is on the loom.", 5.0);
    assert!(window.has_focus("[data-state=resting]"));

    window.tab_to("@sitting-summary");
    window.press(Key::Enter);
    window.tab_to("[data-act=remove-sitting]");
    window.press(Key::Enter);
    window.wait_text("@notice", "Sitting removed.", 5.0);
    assert!(window.has_focus("@log"), "the sittings' first way on");
}

#[test]
fn the_yarn_is_asked_for_first_where_a_plan_starts_from_it() {
    let window = plan_from_wish(&WindowOptions::phone());
    window.click("@way-yarn");
    window.wait_text("@plan-headline", "Still to say: how much warp yarn there is, how much weft yarn there is", 5.0);
    fill(&window, "sett", "40");
    fill(&window, "warp_have", "about 120 m");
    assert!(!window.shows("@plan-warp_have-trouble"), "{}", window.page());
    window.wait_text("@plan-warp_have-understood", "about 120 m", 5.0);
    fill(&window, "weft_have", "ca. 95 m");
    window.wait_text("@plan-headline", "Wind", 5.0);
}

#[test]
fn a_day_is_typed_in_the_order_it_is_shown_in() {
    let window = TestWindow::with_folder(&WindowOptions::laptop().language("en_US"));
    window.type_into("@warp-gift_on", "12/24/2031");
    window.wait_text("@warp-gift_on-understood", "Wednesday, December 24, 2031", 5.0);
    // The month to pick from opens where that day is, and has it chosen.
    window.click("@warp-gift-on-pick");
    window.wait("the month is open", 5.0, |window| window.shows(".month [data-day]"));
    let chosen = "const day = document.querySelector('.month [aria-pressed=true]');
                  return day === document.activeElement ? day.getAttribute('aria-label') : ''";
    assert_eq!(window.run(chosen), json!("Wednesday, December 24, 2031"), "{}", window.page());
    window.press(Key::Escape);
    window.begin_warp(&GREY_RUNNER);
    assert_eq!(written_fields(&window.folder, "warp")[0]["gift_on"], json!("2031-12-24"));
    window.click("@change");
    window.wait_text("@warp-gift_on-understood", "Wednesday, December 24, 2031", 5.0);
}

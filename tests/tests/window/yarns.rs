//! Weft yarns as ledgers: several, weighed at any time, taken up, half gone.

use fellmark_tests::window::{Device, Key, Look, Stage};
use serde_json::json;

use crate::folder::said;
use crate::weaver::{GREY_RUNNER, begin, open_folder};

#[test]
fn two_yarns_are_weighed_swapped_and_told_of() {
    let _stage = Stage::for_windows(1);
    let device = Device::new();
    let folder = device.folder("Weaving");
    let window = device.open(&Look::phone());
    open_folder(&window, &folder);
    begin(&window, &GREY_RUNNER);

    // A second yarn, by weight; nonsense is told beside its field.
    window.click("@yarn-add");
    window.type_into("@yarn-name", "Walnut");
    window.type_into("@yarn-mass", "some");
    window.click("@yarn-save");
    window.wait_text("@yarn-mass-trouble", "85 g", 5.0);
    assert_eq!(window.value("@yarn-name"), "Walnut");
    window.type_into("@yarn-mass", "60 g");
    assert_eq!(window.axe(), "", "a yarn");
    window.click("@yarn-save");
    window.wait_text("@yarns", "Walnut", 5.0);
    window.click("@log");
    window.type_into("@sitting-picks", "155");
    window.type_into("@sitting-measured", "50 cm");
    window.click("@sitting-save");
    window.wait_text("@yarns", "50 cm woven with it", 5.0);

    // Taken up from here.
    window.click("[data-act=take-up-yarn]");
    window.wait_text("@yarns", "on the shuttle", 5.0);
    window.click("@log");
    window.type_into("@sitting-picks", "93");
    window.type_into("@sitting-measured", "80 cm");
    window.click("@sitting-save");
    window.wait_text("@yarns", "30 cm woven with it", 5.0);

    // Weighed: half is gone, and what it is good for is said on the spot.
    window.click("@weigh");
    let walnut = said(&folder, "weft").len();
    assert_eq!(walnut, 2);
    let field = window.run(
        "return [...document.querySelectorAll('#reading-form label')].find(e => e.innerText === 'Walnut').htmlFor",
    );
    window.type_into(&format!("#{}", field.as_str().unwrap()), "30 g");
    assert_eq!(window.overflow(), "", "weighing");
    assert_eq!(window.axe(), "", "weighing");
    window.screenshot("yarns-weigh-phone");
    window.click("@reading-save");
    // 30 g for 30 cm.
    window.wait_text("@told", "Walnut is good for some 30 cm more.", 5.0);
    window.wait_text("@told", "mirror the sequence from here", 5.0);
    window.wait_text("@yarn-half", "About half of Walnut is gone", 5.0);
    window.click("@answer-weft-why summary");
    window.wait_text("@answer-weft", "mirror the sequence from here", 5.0);
    window.screenshot("yarns-half-phone");
    let weighing = &said(&folder, "weighing")[0];
    assert_eq!(weighing["left_g"].as_f64(), Some(30.0));
    assert_eq!(said(&folder, "join").len(), 1);

    // Undo takes the weighing back, and the notice with it.
    window.click("@undo");
    window.wait("the notice is gone", 5.0, |window| !window.sees("@yarn-half"));
    window.close();

    // By keyboard alone, by length this time.
    let window = device.open(&Look::laptop());
    window.tab_to("@weigh");
    window.press(Key::Enter);
    window.wait("the form is there", 5.0, |window| window.sees("@reading-save"));
    window.tab_to(&format!("#{}", field.as_str().unwrap()));
    window.keys("20 m");
    window.press(Key::Enter);
    window.wait_text("@told", "Walnut", 5.0);
    assert_eq!(said(&folder, "weighing").last().unwrap()["left_mm"].as_f64(), Some(20_000.0));
    window.screenshot("yarns-laptop");
    assert_eq!(window.run("return document.querySelectorAll('[data-part=yarn]').length"), json!(2));
}

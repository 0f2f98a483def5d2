//! Weft yarns: several, weighed at any time, taken up, half gone.

use fellmark_tests::window::{GREY_RUNNER, Key, TestWindow, WindowOptions};
use serde_json::json;

use crate::folder::written_fields;

#[test]
fn two_yarns_are_weighed_and_swapped() {
    let window = TestWindow::with_warp(&WindowOptions::phone());

    // A second yarn, by weight; nonsense is explained beside its field.
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
    window.log_sitting(&[("picks", "155"), ("measured", "50 cm")]);
    window.wait_text("@yarns", "50 cm woven with it", 5.0);

    // Taken up from here.
    window.click("[data-act=take-up-yarn]");
    window.wait_text("@yarns", "on the shuttle", 5.0);
    window.log_sitting(&[("picks", "93"), ("measured", "80 cm")]);
    window.wait_text("@yarns", "30 cm woven with it", 5.0);

    // Weighed: half is gone, and how far it reaches is shown at once.
    window.click("@weigh");
    let walnut = written_fields(&window.folder, "weft").len();
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
    window.wait_text("@message", "Walnut: enough for another 30 cm.", 5.0);
    window.wait_text("@message", "mirror the sequence from here", 5.0);
    window.wait_text("@yarn-half", "About half of Walnut is used", 5.0);
    window.click("@answer-weft-why summary");
    window.wait_text("@answer-weft", "mirror the sequence from here", 5.0);
    window.screenshot("yarns-half-phone");
    let weighing = &written_fields(&window.folder, "weighing")[0];
    assert_eq!(weighing["left_g"].as_f64(), Some(30.0));
    assert_eq!(written_fields(&window.folder, "join").len(), 1);

    // Undo takes the weighing back, and the notice with it.
    window.click("@undo");
    window.wait("the notice is gone", 5.0, |window| !window.shows("@yarn-half"));

    // By keyboard alone, by length this time.
    let window = window.reopen(&WindowOptions::laptop());
    window.tab_to("@weigh");
    window.press(Key::Enter);
    window.wait("the form is there", 5.0, |window| window.shows("@reading-save"));
    window.tab_to(&format!("#{}", field.as_str().unwrap()));
    window.type_keys("20 m");
    window.press(Key::Enter);
    window.wait_text("@message", "Walnut", 5.0);
    assert_eq!(written_fields(&window.folder, "weighing").last().unwrap()["left_mm"].as_f64(), Some(20_000.0));
    window.screenshot("yarns-laptop");
    assert_eq!(window.run("return document.querySelectorAll('[data-part=yarn]').length"), json!(2));
}

/// The figure that a "why?" gives for how far the weft goes, as its span's two ends in centimetres.
fn span(window: &fellmark_tests::window::Window) -> (f64, f64) {
    let text =
        window.run("return document.querySelector('[data-part=answer-weft]').textContent.replaceAll('\\u00a0', ' ')");
    let text = text.as_str().unwrap().to_owned();
    let ends = text.split("Weft left for: ").nth(1).unwrap_or_else(|| panic!("{text}"));
    let mut figures = ends.split(" to ").map(|end| {
        let (figure, unit) = end.split_once(' ').unwrap();
        let figure: f64 = figure.parse().unwrap_or_else(|_| panic!("{text}"));
        if unit.starts_with("m ") { figure * 100.0 } else { figure }
    });
    (figures.next().unwrap(), figures.next().unwrap())
}

#[test]
fn a_yarn_is_weighed_on_its_shuttle() {
    let window = TestWindow::with_folder(&WindowOptions::phone());
    window.begin_warp(&[("name", "Shuttle scarf"), ("wound", "2.6 m"), ("wanted", "1.6 m"), ("weft_mass", "90 g")]);

    // Weighed on it before its weight is known: explained beside the field, and nothing is lost.
    window.click("@weigh");
    let field = window.run("return document.querySelector('#reading-form [id^=reading-left]').id");
    let field = format!("#{}", field.as_str().unwrap());
    window.type_into(&field, "68 g with the shuttle");
    window.wait_text("@reading-yarns, #reading-form", "68 g, the shuttle with it", 5.0);
    window.click("@reading-save");
    window.wait_text("#reading-form", "What the empty shuttle weighs is not known", 5.0);
    assert_eq!(window.value(&field), "68 g with the shuttle");
    assert!(written_fields(&window.folder, "weighing").is_empty());
    window.click("@reading-back");

    // Remembered with the yarn.
    window.click("@yarn-change");
    window.type_into("@yarn-tare", "28 g");
    assert_eq!(window.axe(), "", "a yarn with its shuttle");
    window.screenshot("yarns-shuttle-phone");
    window.click("@yarn-save");
    window.wait_gone("@yarn-save");
    assert_eq!(written_fields(&window.folder, "weft").last().unwrap()["tare_g"].as_f64(), Some(28.0));

    // A tick subtracts it, here and when a sitting is finished.
    window.click("@log");
    window.type_into("@sitting-picks", "155");
    window.type_into("@sitting-measured", "50 cm");
    window.type_into("@sitting-weft_left", "93 g");
    window.click("#sitting-weft-on-shuttle");
    assert_eq!(window.axe(), "", "logging with a shuttle");
    window.click("@sitting-save");
    window.wait_text("@sitting-summary", "65 g of weft left", 5.0);
    let sitting = written_fields(&window.folder, "sitting").pop().unwrap();
    assert_eq!((sitting["weft_left_g"].as_f64(), sitting["weft_tare_g"].as_f64()), (Some(65.0), Some(28.0)));
    window.click("@weigh");
    window.type_into(&field, "20 g");
    window.click(&field.replace("left", "shuttle"));
    window.click("@reading-save");
    window.wait_text("#reading-form", "The empty shuttle weighs 28 g, so with yarn on it 20 g cannot be all.", 5.0);
    window.type_into(&field, "88 g");
    window.screenshot("yarns-weigh-shuttle-phone");
    window.click("@reading-save");
    window.wait_text("@message", "enough for another", 5.0);
    let weighing = written_fields(&window.folder, "weighing").pop().unwrap();
    assert_eq!((weighing["left_g"].as_f64(), weighing["tare_g"].as_f64()), (Some(60.0), Some(28.0)));
    window.wait_text("@yarn-line", "60 g left when last weighed or measured", 5.0);
}

#[test]
fn a_rough_figure_is_shown_as_about_and_widens_the_span() {
    let window = TestWindow::with_folder(&WindowOptions::laptop());
    let mut figures = GREY_RUNNER.to_vec();
    figures.retain(|(field, _)| *field != "weft_length");
    window.fill("warp", &figures);
    window.type_into("@warp-weft_length", "about 420 m");
    window.wait_text("@warp-weft_length-understood", "about 420 m", 5.0);
    window.click("@warp-save");
    window.wait_text("@yarn-line", "about 420 m at first", 5.0);
    window.log_sitting(&[("picks", "155"), ("measured", "50 cm")]);
    window.wait_text("@yarn-line", "50 cm woven with it", 5.0);
    let rough = span(&window);

    // Measured after all: the same yarn, and the span is narrower.
    window.click("@yarn-change");
    assert_eq!(window.value("@yarn-length"), "about 420 m");
    window.type_into("@yarn-length", "420 m");
    window.click("@yarn-save");
    window.wait_gone("@yarn-save");
    window.wait("it is shown without about", 5.0, |window| !window.text("@yarn-line").contains("about"));
    let measured = span(&window);
    println!("roughly {rough:?} cm, measured {measured:?} cm");
    assert!(rough.1 - rough.0 > 1.2 * (measured.1 - measured.0), "{rough:?} {measured:?}");

    // By the tape and by the scale, from memory.
    window.click("@weigh");
    window.type_into("@reading-measured", "a bit over half a metre");
    window.wait_text("@reading-measured-understood", "about 50 cm", 5.0);
    let field = window.run("return document.querySelector('#reading-form [id^=reading-left]').id");
    window.type_into(&format!("#{}", field.as_str().unwrap()), "~ 300 m");
    window.wait_text("#reading-form", "about 300 m", 5.0);
    window.click("@reading-save");
    window.click("@other-records summary");
    window.wait_text("@other-records", "about 50 cm from the start", 5.0);
    window.wait_text("@other-records", "about 300 m left", 5.0);
    window.wait_text("@yarn-line", "about 300 m left when last weighed or measured", 5.0);
    window.wait_text("@answer-where", "About 50 cm", 5.0);
    assert_eq!(written_fields(&window.folder, "reading")[0]["rough"], json!(true));
    assert_eq!(written_fields(&window.folder, "weighing")[0]["rough"], json!(true));
    window.screenshot("yarns-rough-laptop");

    // A sitting from memory.
    window.log_sitting(&[("picks", "60 or so"), ("minutes", "about 40")]);
    window.wait_text("@sitting-summary", "about 40 min, about 60 picks", 5.0);
    assert_eq!(written_fields(&window.folder, "sitting").last().unwrap()["rough"], json!(true));
    assert_eq!(window.axe() + &window.overflow(), "");
}

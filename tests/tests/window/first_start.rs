//! The whole main job once, from the first start on, with what it leaves on disk.

use fellmark_tests::window::{GREY_RUNNER, Key, TestWindow, WindowOptions, photo};
use serde_json::json;

use crate::folder::{files, written_fields};

#[test]
fn on_a_laptop() {
    begin_weave_and_correct(&WindowOptions::laptop());
}

#[test]
fn on_a_phone() {
    begin_weave_and_correct(&WindowOptions::phone());
}

fn begin_weave_and_correct(options: &WindowOptions) {
    let window = TestWindow::first_start(options);

    // A folder, then a warp with the figures known at the start.
    window.open_folder(&window.folder);
    window.begin_warp(&GREY_RUNNER);
    let warp = &written_fields(&window.folder, "warp")[0];
    for (field, value) in [
        ("name", json!("Grey runner")),
        ("wound_mm", json!(2600)),
        ("waste_mm", json!(450)),
        ("wanted_mm", json!(1600)),
        ("picks_per_10cm", json!(31)),
        ("warp_per_100_cloth", json!(110)),
        ("reed_width_mm", json!(300)),
    ] {
        assert_eq!(number(&warp[field]), number(&value), "{field} in {warp}");
    }
    assert_eq!(number(&written_fields(&window.folder, "weft")[0]["start_length_mm"]), json!(420_000.0));

    // A sitting: picks by key and by mouse, one taken back.
    window.start_weaving();
    window.press_space(5);
    for _ in 0..3 {
        window.click("@tap");
    }
    window.wait_for_count(8);
    window.press(Key::Backspace);
    window.wait_for_count(7);
    window.screenshot(&format!("story-tap-{}", options.name()));

    // Finishing the sitting: minutes, measured length, a photo.
    window.click("@tap-finish");
    window.wait("the picks are known", 5.0, |window| window.shows("@sitting-picks"));
    assert_eq!(window.value("@sitting-picks"), "7");
    window.type_into("@sitting-minutes", "35");
    window.type_into("@sitting-measured", "2.5 cm");
    window.wait_text("@sitting-measured-understood", "2.5 cm", 3.0);
    window.choose_file("@sitting-photos", &photo(window.device.home()));
    window.wait("the photo is chosen", 5.0, |window| window.shows("@sitting-chosen img"));
    window.screenshot(&format!("story-finish-{}", options.name()));
    window.click("@sitting-save");

    // The three answers, and the sitting with its photo.
    window.wait_for_picks(7, 5.0);
    for answer in ["warp", "weft", "when"] {
        let headline = window.spoken_text(&format!("@answer-{answer}-headline"));
        assert!(headline.len() > 10 && headline.ends_with('.'), "{answer}: {headline:?}");
        println!("{answer}: {headline}");
    }
    assert!(!window.shows("@answer-warp[data-standing=open]"), "{}", window.page());
    assert!(!window.shows("@answer-weft[data-standing=open]"), "{}", window.page());
    window.wait_text("@sitting-summary", "35 min", 5.0);
    window.click("@sitting-summary");
    let drawn =
        "return [...document.querySelectorAll('.sitting-photos img')].some(e => e.complete && e.naturalWidth > 0)";
    window.wait("the photo is drawn", 5.0, |window| window.run(drawn) == json!(true));
    window.screenshot(&format!("story-answers-{}", options.name()));
    let sitting = &written_fields(&window.folder, "sitting")[0];
    assert_eq!(
        [&sitting["minutes"], &sitting["picks"], &sitting["measured_mm"]].map(number),
        [json!(35.0), json!(7.0), json!(25.0)]
    );
    let hash = written_fields(&window.folder, "photo")[0]["hash"].as_str().unwrap().to_owned();
    let stored = files(&window.folder)
        .into_iter()
        .find(|file| file.to_str().unwrap().contains(&hash))
        .expect("the photo is stored");
    assert!(stored.parent().unwrap().ends_with("photos"), "{}", stored.display());

    // A sitting logged afterwards.
    window.click("@log");
    window.click("@sitting-on-yesterday");
    window.type_into("@sitting-minutes", "1 h 10");
    window.type_into("@sitting-picks", "120");
    window.click("@sitting-save");
    window.wait("two sittings are listed", 5.0, |window| sittings(window) == 2);
    window.wait_text("@sitting-summary", "120 picks", 5.0);
    assert_eq!(number(&written_fields(&window.folder, "sitting")[1]["minutes"]), json!(70.0));

    // Corrected: what was written stays, and is answered.
    let before = written_fields(&window.folder, "sitting").len();
    window.click_text("@sitting-summary", "120 picks");
    window.click("details[open] @sitting-correct");
    window.type_into("@sitting-picks", "130");
    window.click("@sitting-save");
    window.wait_text("@sitting-summary", "130 picks", 5.0);
    window.wait_for_picks(137, 5.0);
    let after = written_fields(&window.folder, "sitting");
    assert_eq!(after.len(), before + 1);
    assert_eq!(written(&after[before]), json!({ "picks": 130 }), "only what was changed is written");

    // Removed, and restored by undo.
    if !window.shows("details[open] [data-act=remove-sitting]") {
        window.click_text("@sitting-summary", "130 picks");
    }
    window.click("details[open] [data-act=remove-sitting]");
    window.wait("one sitting is listed", 5.0, |window| sittings(window) == 1);
    window.wait_for_picks(7, 5.0);
    assert_eq!(written(written_fields(&window.folder, "sitting").last().unwrap()), json!({ "gone": true }));
    window.click("@undo");
    window.wait("both sittings are listed again", 5.0, |window| sittings(window) == 2);
    window.wait_for_picks(137, 5.0);
}

fn sittings(window: &fellmark_tests::window::Window) -> usize {
    let script = "return document.querySelectorAll('[data-part=\"sitting\"]').length";
    usize::try_from(window.run(script).as_u64().unwrap()).unwrap()
}

/// 2600 and 2600.0 are one figure.
fn number(value: &serde_json::Value) -> serde_json::Value {
    value.as_f64().map_or_else(|| value.clone(), |number| json!(number))
}

/// An entry's fields but the one that groups entries for undo.
fn written(set: &serde_json::Value) -> serde_json::Value {
    let mut fields = set.as_object().unwrap().clone();
    fields.remove("act");
    fields.into()
}

/// A path as people write it; a missing folder is created after asking. Days, times and weights as people write them.
#[test]
fn a_missing_folder_is_asked_about_and_days_are_read_as_written() {
    let window = TestWindow::first_start(&WindowOptions::phone());
    let folder = window.device.home().join("Cloth/log");
    window.click("@typed-path summary");
    window.type_into("@welcome-path", "~/Cloth/log");
    assert!(!window.shows("@create-folder"));
    window.click("@open-path");
    window.wait_text("@unopened", "There is no folder", 5.0);
    window.screenshot("missing-folder-phone");
    assert_eq!((window.overflow(), window.axe()), (String::new(), String::new()));
    assert!(!folder.exists(), "nothing is created before the answer");
    window.click("@create-folder");
    window.wait_gone("@open-path");
    assert!(folder.is_dir());
    window.begin_warp(&GREY_RUNNER);

    window.run("location.hash = '#/folder'");
    window.wait("the units are there", 5.0, |window| window.shows("@weights"));
    window.click("#weights-imperial");
    window.wait("lengths stay as they were", 5.0, |window| {
        window.run("return document.querySelector('#units-metric').checked && document.querySelector('#weights-imperial').checked")
            == json!(true)
    });
    window.scroll_to("@weights");
    window.screenshot("units-phone");
    window.run("location.hash = '#/loom'");
    window.click("@log");
    window.fill("sitting", &[("on", "1 December"), ("started", "7:40 pm"), ("picks", "9"), ("weft_left", "2")]);
    window.wait_text("@sitting-on-understood", "1 December", 5.0);
    window.click("@sitting-save");
    window.wait("it is logged", 5.0, |_| !written_fields(&folder, "sitting").is_empty());
    let sitting = &written_fields(&folder, "sitting")[0];
    assert!(sitting["on"].as_str().unwrap().ends_with("-12-01"), "{sitting}");
    let two_ounces_g = sitting["weft_left_g"].as_f64().unwrap();
    assert!(sitting["started"] == "19:40" && (two_ounces_g - 56.699).abs() < 0.001, "{sitting}");
}

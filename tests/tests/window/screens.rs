//! Every screen with the invented example: no barrier that axe-core finds, nothing wider than the window, a picture of each.

use fellmark_tests::window::{Desktop, DesktopService, GREY_RUNNER, Key, TestWindow, Window, WindowOptions};
use serde_json::json;

#[test]
fn laptop() {
    walk(&WindowOptions::laptop(), |window| window.overflow() + &window.axe());
}

#[test]
fn laptop_dark() {
    walk(&WindowOptions::laptop().dark(), |window| window.overflow() + &window.axe());
}

#[test]
fn phone() {
    walk(&WindowOptions::phone(), |window| window.overflow() + &window.axe());
}

#[test]
fn phone_dark() {
    walk(&WindowOptions::phone().dark().reduced_motion(), |window| window.overflow() + &window.axe());
}

#[test]
fn narrowest() {
    let options = WindowOptions::narrowest();
    // Barriers do not depend on the last forty pixels; room does.
    walk(&options, |window| window.overflow());
}

/// Goes to every screen by its own ways, and looks at each for what is wrong.
fn walk(options: &WindowOptions, wrong: impl Fn(&Window) -> String) {
    // As at home: with a desktop that keeps the screen awake.
    let desktop = Desktop::new(DesktopService::ScreenSaver);
    let window = TestWindow::first_start(&options.clone().desktop(&desktop));
    let mut found = String::new();
    let mut at = |screen: &str| found += &seen(&window, options, screen, &wrong);

    at("welcome");
    window.click("@begin-example");
    window.wait("the example is shown", 5.0, |window| window.shows("@answer-when-headline"));
    at("loom");
    for part in ["warp-picture", "days-picture"] {
        window.scroll_to(&format!("@{part}"));
        window.screenshot(&format!("screen-{part}-{}", options.name()));
    }
    window.click("@log");
    at("log");
    window.click("@sitting-back");
    window.click("@sitting-summary");
    window.click("details[open] @sitting-correct");
    at("correct");
    window.click("@sitting-back");
    window.click("@change");
    at("change");
    for screen in ["plan", "off", "pace", "folder"] {
        window.click(&format!("@nav-{screen}"));
        if screen == "pace" {
            window.wait("the pictures are drawn", 5.0, |window| window.shows("@chart-within svg"));
        }
        at(screen);
    }
    window.click("@export-import");
    at("export-import");
    window.click("@nav-off");
    window.click("@off-list button");
    window.wait("the finished warp is shown", 5.0, |window| window.shows("@warp-name"));
    at("off-warp");
    window.click("@step-add");
    at("step");
    window.click("@nav-loom");
    window.click("@cut-off");
    at("cut-off");
    window.click("@nav-loom");
    window.start_weaving();
    window.press_space(3);
    window.wait_for_count(3);
    at("tap-half");
    window.click("@tap-half-close");
    at("tap");
    window.click("@tap-finish");
    window.wait("the form is there", 5.0, |window| window.shows("@sitting-minutes"));
    at("finish-sitting");
    assert!(found.is_empty(), "{found}");
}

/// A picture of the screen as it opens; then, with everything unfolded, what is wrong with it.
fn seen(window: &Window, options: &WindowOptions, screen: &str, wrong: impl Fn(&Window) -> String) -> String {
    let name = format!("{screen}-{}", options.name());
    let expected = match screen {
        "correct" => "sitting",
        "off-warp" => "loom",
        "tap-half" => "tap",
        other => other,
    };
    window.wait(&format!("{name} is open"), 5.0, |window| {
        window.run("return document.documentElement.dataset.screen") == json!(expected)
    });
    if screen == "folder" {
        // A picture goes to everyone: it names an invented folder, not where the test keeps it.
        window.run("document.querySelector('[data-part=folder-path]').textContent = 'Weaving'");
    }
    window.screenshot(&format!("screen-{name}"));
    window.run("document.querySelectorAll('details').forEach(one => { one.open = true; })");
    let found = wrong(window);
    window.run("document.querySelectorAll('details').forEach(one => { one.open = false; })");
    if found.is_empty() { found } else { format!("{name}:\n{found}\n") }
}

#[test]
fn what_undo_takes_back_is_read_whole_on_a_phone() {
    let window = TestWindow::with_folder(&WindowOptions::narrowest());
    window.click("@warp-more-sequence summary");
    window.type_into("@warp-repeat", "up\ndown");
    window.begin_warp(&GREY_RUNNER);
    window.start_weaving();
    window.press(Key::Space);
    window.wait_for_count(1);
    window.click("@tap-settings");
    window.click("[data-place=repeat-2]");
    window.click("@tap-answers");
    window.wait_text("@undo", "Undo: the place in the sequence was set", 5.0);
    let cut =
        "return ['undo', 'sync-line'].map((part) => document.querySelector(`[data-part=\"${part}\"]`)).map((one) => {
                   const box = one.getBoundingClientRect();
                   const hit = document.elementFromPoint(box.left + box.width / 2, box.top + box.height / 2);
                   return [one.scrollWidth - one.clientWidth, box.height >= 24, one.contains(hit)];
               })";
    window.screenshot("undo-narrowest");
    let checks = window.run(cut);
    assert_eq!(checks[0], json!([0, true, true]), "undo is cut short, low, or covered");
    assert_eq!(checks[1][2], json!(true), "the folder's line is covered");
    assert_eq!(window.overflow(), "");
}

#[test]
fn a_notice_goes_with_the_screen_where_it_was_shown() {
    let window = TestWindow::with_warp(&WindowOptions::laptop());
    // It led to another screen, and is read there.
    window.wait_text("@notice", "Warp started.", 5.0);
    window.click("@nav-folder");
    let gone = window.wait("it is not shown on the next", 5.0, |window| {
        window.run("return document.documentElement.dataset.screen") == json!("folder")
            && window.text("@notice").is_empty()
    });
    // By itself it goes after six seconds.
    assert!(gone.as_secs_f64() < 3.0, "{gone:?}");
}

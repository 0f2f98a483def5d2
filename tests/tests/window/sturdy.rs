//! What input of unusual shape and a stray click must not do to a page.

use fellmark_tests::window::{GREY_RUNNER, TestWindow, WindowOptions};
use serde_json::json;

#[test]
fn a_long_name_without_a_space_does_not_make_the_page_wider() {
    let window = TestWindow::with_folder(&WindowOptions::phone());
    let name = "Hochzeitstischläufer".repeat(4);
    let mut figures: Vec<(&str, &str)> = GREY_RUNNER.to_vec();
    figures[0] = ("name", name.as_str());
    window.begin_warp(&figures);
    window.wait("the warp is shown", 5.0, |window| window.shows("@warp-name"));
    assert_eq!(window.text("@warp-name"), name);
    assert_eq!(window.overflow(), "");
}

/// The engine's own menu can load the page anew, which would lose what is being typed; in a field it also pastes.
#[test]
fn the_menu_of_the_web_view_opens_in_fields_alone() {
    let window = TestWindow::with_warp(&WindowOptions::laptop());
    window.click("@log");
    window.wait("the form is there", 5.0, |window| window.shows("@sitting-picks"));
    let opens = |selector: &str| {
        window.run(&format!(
            "return document.querySelector('{selector}').dispatchEvent(new MouseEvent('contextmenu', {{bubbles: true, cancelable: true}}))"
        ))
    };
    assert_eq!(opens("h1"), json!(false), "over the page");
    assert_eq!(opens("input[type=text], input:not([type])"), json!(true), "in a field");
}

#[test]
fn the_name_the_whole_warp_and_every_answer_are_seen_without_scrolling() {
    let window = TestWindow::first_start(&WindowOptions::laptop());
    window.click("@begin-example");
    window.wait("the example is shown", 5.0, |window| window.shows("@answer-when-headline"));
    window.settle();
    let order = window.run(
        "return ['warp-name', 'warp-picture', 'answer-where', 'answer-warp', 'answer-weft', 'answer-when']
             .map((part) => document.querySelector(`[data-part=\"${part}\"]`).getBoundingClientRect())
             .map(({ top, bottom }) => [top >= 0, bottom <= innerHeight])",
    );
    assert_eq!(order, json!(vec![[true, true]; 6]));
    let whole = window
        .run("return document.querySelector('.warp-svg').clientWidth / document.querySelector('main').clientWidth");
    assert!(whole.as_f64().unwrap() > 0.95, "{whole}");
    // The sample has two weft yarns, whose metres are no one figure: every other answer has a drawing.
    assert_eq!(window.run("return document.querySelectorAll('.answer .gauge').length"), json!(3));
}

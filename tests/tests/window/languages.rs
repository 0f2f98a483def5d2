//! Every language of the interface has room on every screen, and so has one that is longer by a third.

use fellmark_model::Language;
use fellmark_present::messages::{InterfaceMessages, interface_messages, pseudo_language};
use fellmark_tests::window::{TestWindow, Window, WindowOptions};
use serde_json::json;

/// Addresses of screens that are there while a sitting of the example is woven.
const SCREENS: [&str; 18] = [
    "loom",
    "tap",
    "finish-sitting",
    "weaving-settings",
    "measure",
    "measure/advance",
    "log",
    "yarn/new",
    "change",
    "cut-off",
    "step/new",
    "plan/wish",
    "plan/yarn",
    "plan/begin",
    "off",
    "pace",
    "export-import",
    "folder",
];

#[test]
fn german_and_french() {
    let languages = [Language::German, Language::French].map(interface_messages);
    every_screen_has_room(&WindowOptions::narrowest(), &languages);
    every_screen_has_room(&WindowOptions::laptop(), &languages);
}

#[test]
fn longer_by_a_third() {
    let language = [pseudo_language()];
    every_screen_has_room(&WindowOptions::narrowest(), &language);
    every_screen_has_room(&WindowOptions::laptop(), &language);
}

fn every_screen_has_room(options: &WindowOptions, languages: &[InterfaceMessages]) {
    let window = TestWindow::with_example(options);
    window.start_weaving();
    window.press_space(3);
    window.wait_for_count(3);
    let mut found = String::new();
    for messages in languages {
        speak(&window, messages);
        for screen in SCREENS {
            open(&window, screen);
            window.run("document.querySelectorAll('details').forEach(one => { one.open = true; })");
            let wrong = window.overflow() + &cut_labels(&window);
            if !wrong.is_empty() {
                found += &format!("{} {screen} {}: {wrong}\n", messages.language, options.name());
            }
        }
    }
    assert!(found.is_empty(), "{found}");
}

/// Gives the page the messages of a language, as the shell would have at the start.
fn speak(window: &Window, messages: &InterfaceMessages) {
    let script = format!(
        "const done = arguments[arguments.length - 1];
         import('/messages.js').then(({{ setMessages }}) => done(setMessages({}) ?? 'set'), error => done(String(error)))",
        json!(messages)
    );
    assert_eq!(window.run_async(&script), json!("set"));
}

fn open(window: &Window, screen: &str) {
    window.run(&format!("location.hash = '#/{screen}'"));
    let name = screen.split('/').next().unwrap_or_default();
    window.wait(&format!("{screen} is open"), 5.0, |window| {
        window.run("return document.documentElement.dataset.screen") == json!(name)
    });
    window.settle();
}

/// Labels, buttons and titles that hold more than they show.
fn cut_labels(window: &Window) -> String {
    let script = "
        return [...document.querySelectorAll('h1, h2, h3, a, button, label, legend, summary, th, dt, dd, .hint')]
            .filter(e => e.checkVisibility() && !e.closest('.hidden-words, .skip') && !e.querySelector('.hidden-words'))
            // What is one pixel wide is there for screen readers alone.
            .filter(e => e.clientWidth > 1 && getComputedStyle(e).display !== 'inline' && e.scrollWidth > e.clientWidth + 1)
            .map(e => `${e.localName} “${e.innerText}” needs ${e.scrollWidth} of ${e.clientWidth}`).join('\\n')";
    window.run(script).as_str().unwrap_or_default().to_owned()
}

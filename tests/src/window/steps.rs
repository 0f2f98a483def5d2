//! What a person does in a window, and what is read there.
//!
//! Selectors are CSS, where `@tap` is short for the interface's own names for its parts: `[data-part="tap"]`.

use fantoccini::Locator;
use fantoccini::elements::Element;
use serde_json::json;

use super::session::Window;

/// Seconds that something may take to appear after a step.
const SOON: f64 = 5.0;

/// A selector with its `@names` written out.
pub(super) fn css(selector: &str) -> String {
    let mut written = String::new();
    let mut rest = selector;
    while let Some((before, named)) = rest.split_once('@') {
        let end = named.find(|c: char| !c.is_ascii_alphanumeric() && c != '-' && c != '_').unwrap_or(named.len());
        written += &format!("{before}[data-part=\"{}\"]", &named[..end]);
        rest = &named[end..];
    }
    written + rest
}

/// A figure and its unit are held together by a space that does not break; a reader sees a space.
pub(super) fn plain(text: &str) -> String {
    text.replace('\u{a0}', " ")
}

impl Window {
    /// Whether something of this selector can be seen.
    pub fn shows(&self, selector: &str) -> bool {
        let script = format!(
            "return [...document.querySelectorAll({})].some(e => e.checkVisibility({{visibilityProperty: true}}))",
            json!(css(selector))
        );
        self.run(&script) == json!(true)
    }

    /// The first element of this selector that can be seen, once it can.
    pub(super) fn find(&self, selector: &str) -> Element {
        self.wait(&format!("{selector} can be seen"), SOON, |window| window.shows(selector));
        let all = self.now(selector, self.client().find_all(Locator::Css(&css(selector))));
        let shown = all.iter().find(|element| self.now(selector, element.is_displayed()));
        shown.or(all.first()).unwrap_or_else(|| panic!("{selector} went away")).clone()
    }

    /// Brings it to the middle, as a person scrolls: away from the bars at the edges, which the driver's own scrolling does not
    /// heed.
    pub fn scroll_to(&self, selector: &str) -> Element {
        let element = self.find(selector);
        let there = serde_json::to_value(&element).expect("an element has an id");
        let scroll = "arguments[0].scrollIntoView({block: 'center', behavior: 'instant'})";
        self.now("scrolling", self.client().execute(scroll, vec![there]));
        element
    }

    /// Clicks it with the mouse, and looks whether the click arrived: what is still being drawn may move it from under the
    /// pointer. Then, as a person does, once more.
    pub fn click(&self, selector: &str) {
        let mut missed = String::new();
        for _ in 0..4 {
            let element = self.scroll_to(selector);
            let there = serde_json::to_value(&element).expect("an element has an id");
            let heed = "window.clicked = false;
                        arguments[0].addEventListener('click', () => { window.clicked = true; }, {once: true, capture: true})";
            let clicked = async {
                self.client().execute(heed, vec![there]).await?;
                element.click().await
            };
            if let Err(why) = self.attempt(clicked) {
                missed = why;
            }
            if self.run("return window.clicked") == json!(true) {
                return;
            }
        }
        panic!("{selector} takes no click {missed}\n{}", self.page());
    }

    /// Clicks the button, link or other thing of this selector that reads so.
    pub fn click_text(&self, selector: &str, text: &str) {
        let script = format!(
            "const all = [...document.querySelectorAll({})].filter(e => e.checkVisibility({{visibilityProperty: true}}));
             const read = e => (e.innerText || e.ariaLabel || '').replaceAll('\\u00a0', ' ').trim();
             const one = all.find(e => read(e) === {text}) ?? all.find(e => read(e).includes({text}));
             document.querySelectorAll('[data-test-target]').forEach(e => delete e.dataset.testTarget);
             if (one) one.dataset.testTarget = 'yes';
             return !!one",
            json!(css(selector)),
            text = json!(text)
        );
        self.wait(&format!("{selector} reads {text:?}"), SOON, |window| window.run(&script) == json!(true));
        self.click("[data-test-target]");
    }

    /// Types into a field after emptying it.
    pub fn type_into(&self, selector: &str, text: &str) {
        let field = self.scroll_to(selector);
        self.now(&format!("emptying {selector}"), field.clear());
        // The driver types a line feed as nothing, and refuses to type nothing; a person presses Return, and takes back what
        // stood there.
        let keys = if text.is_empty() { " \u{e003}".to_owned() } else { text.replace('\n', "\u{e006}") };
        self.now(&format!("typing into {selector}"), field.send_keys(&keys));
    }

    /// Hands a file to a file field, which need not be visible.
    pub fn choose_file(&self, selector: &str, file: &std::path::Path) {
        let path = file.to_str().expect("test files have plain names");
        let field = self.now(selector, self.client().find(Locator::Css(&css(selector))));
        self.now(&format!("handing a file to {selector}"), field.send_keys(path));
    }

    /// Chooses an option by its value.
    pub fn choose(&self, selector: &str, value: &str) {
        let field = self.find(selector);
        self.now(&format!("choosing in {selector}"), field.select_by_value(value));
    }

    /// What can be read in the first such element that can be seen.
    pub fn text(&self, selector: &str) -> String {
        let element = self.find(selector);
        plain(&self.now(selector, element.text()))
    }

    /// The text of an element, also where it is there for screen readers only.
    #[must_use]
    pub fn spoken_text(&self, selector: &str) -> String {
        self.find(selector);
        let script = format!("return document.querySelector({}).textContent", json!(css(selector)));
        plain(self.run(&script).as_str().unwrap_or_default())
    }

    /// What stands in a field.
    pub fn value(&self, selector: &str) -> String {
        self.wait(&format!("{selector} can be seen"), SOON, |window| window.shows(selector));
        let script = format!("return document.querySelector({})?.value ?? null", json!(css(selector)));
        self.run(&script).as_str().unwrap_or_else(|| panic!("there is no field {selector}")).to_owned()
    }

    /// Waits until it can be seen and reads so.
    pub fn wait_text(&self, selector: &str, text: &str, seconds: f64) -> std::time::Duration {
        let script = format!(
            "return [...document.querySelectorAll({})].some(e => e.checkVisibility() && e.innerText.replaceAll('\\u00a0', ' ').includes({}))",
            json!(css(selector)),
            json!(text)
        );
        self.wait(&format!("{selector} reads {text:?}"), seconds, |window| window.run(&script) == json!(true))
    }

    /// Waits until nothing of this selector can be seen.
    pub fn wait_gone(&self, selector: &str) {
        self.wait(&format!("{selector} is gone"), SOON, |window| !window.shows(selector));
    }

    /// What reaches past the right edge, as one selector to a line; empty when the page scrolls only up and down.
    pub fn overflow(&self) -> String {
        let script = "
            const wide = document.documentElement;
            if (wide.scrollWidth <= wide.clientWidth) return '';
            return [...document.body.querySelectorAll('*')]
                .filter(e => e.getBoundingClientRect().right > wide.clientWidth + 0.5)
                .map(e => `${e.localName}${e.id && '#' + e.id}.${[...e.classList].join('.')} ${e.getBoundingClientRect().right}`)
                .slice(0, 20).join('\\n') || `the page is ${wide.scrollWidth} wide`";
        self.run(script).as_str().unwrap_or_default().to_owned()
    }
}

//! What a person does in a window, and what she reads there.

use fantoccini::Locator;
use fantoccini::elements::Element;
use serde_json::json;

use super::session::Window;

/// Seconds that something may take to appear after a step.
const SOON: f64 = 5.0;

impl Window {
    /// Whether something of this selector can be seen.
    pub fn sees(&self, css: &str) -> bool {
        let script = format!(
            "return [...document.querySelectorAll({})].some(e => e.checkVisibility({{visibilityProperty: true}}))",
            json!(css)
        );
        self.run(&script) == json!(true)
    }

    /// The first element of this selector that can be seen, once it can.
    fn find(&self, css: &str) -> Element {
        self.wait(&format!("{css} can be seen"), SOON, |window| window.sees(css));
        let all = self.now(css, self.client().find_all(Locator::Css(css)));
        let shown = all.iter().find(|element| self.now(css, element.is_displayed()));
        shown.or(all.first()).unwrap_or_else(|| panic!("{css} went away")).clone()
    }

    /// Clicks it with the mouse.
    pub fn click(&self, css: &str) {
        let element = self.find(css);
        self.now(&format!("clicking {css}"), element.click());
    }

    /// Clicks the button, link or other thing of this selector that reads so.
    pub fn click_text(&self, css: &str, text: &str) {
        let script = format!(
            "const all = [...document.querySelectorAll({})].filter(e => e.checkVisibility({{visibilityProperty: true}}));
             const read = e => (e.innerText || e.ariaLabel || '').trim();
             const one = all.find(e => read(e) === {text}) ?? all.find(e => read(e).includes({text}));
             document.querySelectorAll('[data-test-target]').forEach(e => delete e.dataset.testTarget);
             if (one) one.dataset.testTarget = 'yes';
             return !!one",
            json!(css),
            text = json!(text)
        );
        self.wait(&format!("{css} reads {text:?}"), SOON, |window| window.run(&script) == json!(true));
        self.click("[data-test-target]");
    }

    /// Types into a field after emptying it.
    pub fn type_into(&self, css: &str, text: &str) {
        let field = self.find(css);
        self.now(&format!("emptying {css}"), field.clear());
        self.now(&format!("typing into {css}"), field.send_keys(text));
    }

    /// Hands a file to a file field, which need not be visible.
    pub fn hand_file(&self, css: &str, file: &std::path::Path) {
        let path = file.to_str().expect("test files have plain names");
        let field = self.now(css, self.client().find(Locator::Css(css)));
        self.now(&format!("handing a file to {css}"), field.send_keys(path));
    }

    /// Chooses an option by its value.
    pub fn choose(&self, css: &str, value: &str) {
        let field = self.find(css);
        self.now(&format!("choosing in {css}"), field.select_by_value(value));
    }

    /// What can be read in the first such element that can be seen.
    pub fn text(&self, css: &str) -> String {
        let element = self.find(css);
        self.now(css, element.text())
    }

    /// What stands in a field.
    pub fn value(&self, css: &str) -> String {
        let script = format!("return document.querySelector({})?.value ?? null", json!(css));
        self.run(&script).as_str().unwrap_or_else(|| panic!("there is no field {css}")).to_owned()
    }

    /// Waits until it can be seen and reads so.
    pub fn wait_text(&self, css: &str, text: &str, seconds: f64) -> std::time::Duration {
        let script = format!(
            "return [...document.querySelectorAll({})].some(e => e.checkVisibility() && e.innerText.includes({}))",
            json!(css),
            json!(text)
        );
        self.wait(&format!("{css} reads {text:?}"), seconds, |window| window.run(&script) == json!(true))
    }

    /// Waits until nothing of this selector can be seen.
    pub fn wait_gone(&self, css: &str) {
        self.wait(&format!("{css} is gone"), SOON, |window| !window.sees(css));
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

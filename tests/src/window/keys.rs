//! The keyboard alone, and the finger alone.

use fantoccini::actions::{InputSource, KeyAction, KeyActions, PointerAction, TouchActions};
use fantoccini::key::Key;
use serde_json::json;

use super::session::Window;
use super::steps::css;

impl Window {
    /// Presses one key, wherever the focus is.
    pub fn press(&self, key: Key) {
        self.strike(&[char::from(key)], None);
    }

    /// Presses one key while another is held.
    pub fn press_with(&self, held: Key, key: Key) {
        self.strike(&[char::from(key)], Some(char::from(held)));
    }

    /// Types a text, wherever the focus is.
    pub fn type_keys(&self, text: &str) {
        self.strike(&text.chars().collect::<Vec<_>>(), None);
    }

    /// Touches it where it is, without scrolling.
    pub fn touch(&self, selector: &str) {
        let element = self.find(selector);
        let finger = TouchActions::new("finger".to_owned())
            .then(PointerAction::MoveToElement { element, duration: None, x: 0.0, y: 0.0 })
            .then(PointerAction::Down { button: 0 })
            .then(PointerAction::Up { button: 0 });
        self.now("a touch", self.client().perform_actions(finger));
    }

    fn strike(&self, keys: &[char], held: Option<char>) {
        let mut actions = KeyActions::new("keyboard".to_owned());
        if let Some(value) = held {
            actions = actions.then(KeyAction::Down { value });
        }
        for &value in keys {
            actions = actions.then(KeyAction::Down { value }).then(KeyAction::Up { value });
        }
        if let Some(value) = held {
            actions = actions.then(KeyAction::Up { value });
        }
        self.now("the keyboard", self.client().perform_actions(actions));
    }

    /// Whether what it names would be given a key press now. (The window itself may lack the focus: no one gives it out on this
    /// display.)
    pub fn has_focus(&self, selector: &str) -> bool {
        let script = format!("return document.activeElement?.matches({}) ?? false", json!(css(selector)));
        self.run(&script) == json!(true)
    }

    /// Goes on with Tab until what has the focus matches; gives how many times it took.
    pub fn tab_to(&self, selector: &str) -> usize {
        for times in 0..200 {
            if self.has_focus(selector) {
                return times;
            }
            self.press(Key::Tab);
        }
        panic!("Tab does not lead to {selector}\n{}", self.page())
    }
}

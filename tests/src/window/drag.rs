//! A pointer that is pressed, moved in steps, and lifted.

use fantoccini::actions::{InputSource, MouseActions, PointerAction, TouchActions};
use serde_json::json;

use super::session::Window;
use super::steps::css;

/// What is moved.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pointer {
    /// A mouse with its button.
    Mouse,
    /// A finger on the glass.
    Finger,
}

impl Pointer {
    fn act(self, window: &Window, action: PointerAction) {
        match self {
            Self::Mouse => {
                window
                    .now("the mouse", window.client().perform_actions(MouseActions::new("mouse".into()).then(action)));
            }
            Self::Finger => {
                window
                    .now("a finger", window.client().perform_actions(TouchActions::new("finger".into()).then(action)));
            }
        }
    }
}

impl Window {
    /// The point at a share of its width and height, in the window.
    pub fn point_in(&self, selector: &str, (across, down): (f64, f64)) -> (f64, f64) {
        let script = format!(
            "const r = document.querySelector({}).getBoundingClientRect();
             return [r.left + r.width * {across}, r.top + r.height * {down}]",
            json!(css(selector))
        );
        let point = self.run(&script);
        (point[0].as_f64().expect("it has a position"), point[1].as_f64().expect("it has a position"))
    }

    /// Moves a pointer there; what is held goes with it.
    pub fn pointer_to(&self, pointer: Pointer, (x, y): (f64, f64)) {
        let (x, y) = (x.round(), y.round());
        pointer.act(self, PointerAction::MoveTo { duration: None, x, y });
    }

    /// Presses it where it is.
    pub fn pointer_down(&self, pointer: Pointer) {
        pointer.act(self, PointerAction::Down { button: 0 });
    }

    /// Lifts it.
    pub fn pointer_up(&self, pointer: Pointer) {
        pointer.act(self, PointerAction::Up { button: 0 });
    }
}

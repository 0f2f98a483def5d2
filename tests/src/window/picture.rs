//! Pictures of the window.

use std::fs;
use std::path::PathBuf;

use super::app::target;
use super::session::Window;

/// Where pictures are put.
pub(super) fn folder() -> PathBuf {
    let folder = target().join("pictures");
    fs::create_dir_all(&folder).expect("the build folder can be written");
    folder
}

impl Window {
    /// Keeps a picture as `target/pictures/<name>.png`.
    pub fn screenshot(&self, name: &str) -> PathBuf {
        self.settle();
        let png = self.now("a picture", self.client().screenshot());
        let path = folder().join(format!("{name}.png"));
        fs::write(&path, png).expect("the build folder can be written");
        path
    }

    /// Waits for letters and the next painted frames: a picture shows the last frame painted, not the page as it is.
    pub fn settle(&self) {
        let script = "
            const done = arguments[arguments.length - 1];
            document.fonts.ready.then(() => requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(done, 50))))";
        self.now("painting", self.client().execute_async(script, Vec::new()));
    }
}

//! What tests do again and again in a window.

use std::path::{Path, PathBuf};
use std::time::Duration;

use fantoccini::key::Key;
use serde_json::json;

use super::session::Window;

/// Figures of a warp as they are typed, field by field. Invented.
pub const GREY_RUNNER: [(&str, &str); 9] = [
    ("name", "Grey runner"),
    ("wound", "2.6 m"),
    ("waste", "45 cm"),
    ("wanted", "1.6 m"),
    ("picks", "31"),
    ("warp_per_100", "110"),
    ("reed_width", "30 cm"),
    ("weft_name", "Grey two-ply"),
    ("weft_length", "420 m"),
];

impl Window {
    /// From the first screen into a folder, by typing its path: the system's own dialog cannot be driven.
    pub fn open_folder(&self, folder: &Path) {
        self.click("@typed-path summary");
        self.type_into("@welcome-path", folder.to_str().expect("test folders have plain names"));
        self.click("@open-path");
        self.create_folder_if_asked();
        self.wait_gone("@open-path");
    }

    /// Answers the question whether a folder that is not there is to be created, if it is asked.
    pub fn create_folder_if_asked(&self) {
        self.wait("the folder is open, or there is a question or an error", 5.0, |window| {
            !window.shows("@open-path") || window.shows("@create-folder") || window.shows("@welcome-path-trouble")
        });
        if self.shows("@create-folder") {
            self.click("@create-folder");
        }
    }

    /// From the first screen to the invented example.
    pub fn open_example(&self) {
        self.click("@begin-example");
        self.wait("the example is shown", 5.0, |window| window.shows("@answer-when-headline"));
    }

    /// Types into the fields of a form: `fill("sitting", [("picks", "60")])` types into `@sitting-picks`.
    pub fn fill(&self, form: &str, fields: &[(&str, &str)]) {
        for (field, text) in fields {
            self.type_into(&format!("@{form}-{field}"), text);
        }
    }

    /// Begins a warp with these figures, the first of which is its name.
    pub fn begin_warp(&self, figures: &[(&str, &str)]) {
        self.fill("warp", figures);
        self.click("@warp-save");
        self.wait_text("@warp-name", figures[0].1, 5.0);
    }

    /// Logs a sitting from the screen of its warp; what is shown next is not waited for.
    pub fn log_sitting(&self, fields: &[(&str, &str)]) {
        self.click("@log");
        self.fill("sitting", fields);
        self.click("@sitting-save");
    }

    /// Opens the weaving screen and waits until it takes key presses.
    pub fn start_weaving(&self) {
        self.click("@start-weaving");
        self.wait_for_weaving();
    }

    /// Waits until the weaving screen takes key presses.
    pub fn wait_for_weaving(&self) {
        self.wait("the weaving screen has the focus", 5.0, |window| window.has_focus("@tap"));
    }

    /// Presses the space bar so many times, without waiting.
    pub fn press_space(&self, times: usize) {
        for _ in 0..times {
            self.press(Key::Space);
        }
    }

    /// Waits until the weaving screen shows this count, which it does when the picks are written.
    pub fn wait_for_count(&self, picks: i32) {
        let script = format!(
            "return document.querySelector('[data-part=\"tap-count\"]').innerText === '{picks}'
                 && document.querySelector('[data-part=\"tap-announcement\"]').innerText.startsWith('{picks}')"
        );
        self.wait(&format!("{picks} picks are counted"), 5.0, |window| window.run(&script) == json!(true));
    }

    /// Waits until the first answer counts so many picks; gives how long it took.
    pub fn wait_for_picks(&self, picks: i32, seconds: f64) -> Duration {
        let script = format!(
            "return [...document.querySelectorAll('[data-part=\"answer-where\"] p')].some(e => e.textContent.startsWith('{picks} picks '))"
        );
        self.wait(&format!("{picks} picks are shown"), seconds, |window| window.run(&script) == json!(true))
    }

    /// Makes all text twice as large, as a setting of the system does.
    pub fn enlarge_text(&self) {
        self.run("document.documentElement.style.fontSize = '200%'; dispatchEvent(new Event('resize'))");
    }
}

/// A small photo, made here: a warm gradient.
pub fn photo(folder: &Path) -> PathBuf {
    let path = folder.join("woven.jpg");
    let picture = image::RgbImage::from_fn(160, 120, |x, y| image::Rgb([200, (x + 40) as u8, (y + 60) as u8]));
    picture.save(&path).expect("a temporary folder can be written");
    path
}

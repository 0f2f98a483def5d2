//! What a weaver does again and again.

use std::path::{Path, PathBuf};
use std::time::Duration;

use fellmark_tests::window::Window;
use serde_json::json;

/// Figures of a warp as she would type them, field by field. Invented.
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

/// From the first screen into a folder, by typing its path: the system's own dialog cannot be driven.
pub fn open_folder(window: &Window, folder: &Path) {
    window.click("@typed-path summary");
    window.type_into("@welcome-path", folder.to_str().unwrap());
    window.click("@open-path");
    window.wait_gone("@open-path");
}

/// Begins a warp with these figures.
pub fn begin(window: &Window, figures: &[(&str, &str)]) {
    for (field, text) in figures {
        window.type_into(&format!("@warp-{field}"), text);
    }
    window.click("@warp-save");
    window.wait_text("@warp-name", figures[0].1, 5.0);
}

/// Sits down at the loom.
pub fn sit_down(window: &Window) {
    window.click("@sit-down");
    window.wait("the surface has the keys", 5.0, |window| window.has_the_keys("@tap"));
}

/// Waits until the surface shows this count, which it does when the picks are written.
pub fn counted(window: &Window, picks: i32) {
    let script = format!(
        "return document.querySelector('[data-part=\"tap-count\"]').innerText === '{picks}'
             && document.querySelector('[data-part=\"tap-said\"]').innerText.startsWith('{picks}')"
    );
    window.wait(&format!("{picks} picks are counted"), 5.0, |window| window.run(&script) == json!(true));
}

/// A small photo, made here: a warm gradient.
pub fn photo(folder: &Path) -> PathBuf {
    let path = folder.join("woven.jpg");
    let picture = image::RgbImage::from_fn(160, 120, |x, y| image::Rgb([200, (x + 40) as u8, (y + 60) as u8]));
    picture.save(&path).unwrap();
    path
}

/// Waits until the first answer tells of so many picks; gives how long it took.
pub fn told(window: &Window, picks: i32, seconds: f64) -> Duration {
    let script = format!(
        "return [...document.querySelectorAll('[data-part=\"answer-where\"] p')].some(e => e.innerText.startsWith('{picks} picks '))"
    );
    window.wait(&format!("{picks} picks are told"), seconds, |window| window.run(&script) == json!(true))
}

//! The pictures in the documentation, taken from the real window.

use std::fs;

use crate::setup::{self, Purpose};
use crate::step::{self, Outcome};
use crate::test;

/// Runs the walk through every screen and keeps its pictures.
pub fn pictures() -> Outcome {
    setup::setup(Purpose::Tests)?;
    test::build()?;
    let taken = step::target().join("pictures");
    let kept = step::top().join("docs/pictures");
    let told = |what: &std::path::Path, error: std::io::Error| format!("{}: {error}", what.display());
    step::run(step::cargo("test", &["--workspace", "--test", "window", "screens::"]).env("FELLMARK_BUILT", "yes"))?;
    fs::create_dir_all(&kept).map_err(|error| told(&kept, error))?;
    for entry in fs::read_dir(&taken).map_err(|error| told(&taken, error))? {
        let path = entry.map_err(|error| told(&taken, error))?.path();
        let name = path.file_name().unwrap_or_default().to_owned();
        if name.to_string_lossy().starts_with("screen-") {
            let to = kept.join(&name);
            fs::copy(&path, &to).map_err(|error| told(&to, error))?;
            println!("docs/pictures/{}", name.to_string_lossy());
        }
    }
    Ok(())
}

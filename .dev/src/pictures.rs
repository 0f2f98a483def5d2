//! The pictures in the documentation, taken from the real window.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use crate::setup::{self, Purpose};
use crate::step::{self, StepResult};
use crate::test;

/// Runs the walk through every screen and keeps its pictures, at a laptop's and a phone's width.
pub fn pictures() -> StepResult {
    setup::setup(Purpose::Pictures)?;
    test::build()?;
    // What is of an earlier run is not of this one.
    let taken = empty(step::target().join("pictures"))?;
    step::run(step::cargo("test", &["--workspace", "--test", "window", "screens::"]).env("FELLMARK_BUILT", "yes"))?;

    let kept = empty(step::top().join("docs/pictures"))?;
    for entry in fs::read_dir(&taken).map_err(|error| io_message(&taken, &error))? {
        let from = entry.map_err(|error| io_message(&taken, &error))?.path();
        let name = from.file_name().unwrap_or_default().to_string_lossy().into_owned();
        let Some(name) = name.strip_prefix("screen-").filter(|name| !name.contains("-320.")) else { continue };
        keep(&from, &kept.join(name))?;
        println!("docs/pictures/{name}");
    }
    Ok(())
}

fn empty(folder: PathBuf) -> Result<PathBuf, String> {
    if folder.exists() {
        fs::remove_dir_all(&folder).map_err(|error| io_message(&folder, &error))?;
    }
    fs::create_dir_all(&folder).map_err(|error| io_message(&folder, &error))?;
    Ok(folder)
}

/// Copies a picture with a palette of its own, a quarter of the size; as it is where that would be seen.
fn keep(from: &Path, to: &Path) -> StepResult {
    let mut quantised = Command::new("pngquant");
    quantised.args(["--force", "--skip-if-larger", "--strip", "--speed", "1", "--quality", "80-95", "--output"]);
    if quantised.arg(to).arg(from).status().is_ok_and(|status| status.success()) {
        return Ok(());
    }
    fs::copy(from, to).map(|_| ()).map_err(|error| io_message(to, &error))
}

fn io_message(what: &Path, error: &std::io::Error) -> String {
    format!("{}: {error}", what.display())
}

//! The typefaces of the window: taken from npm at the versions of the lock file and copied beside the interface, never committed.
//! Without them the window uses the system's.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use crate::step::{self, StepResult};

/// Package, first part of its files' names.
const FACES: [(&str, &str); 2] = [
    ("@fontsource-variable/atkinson-hyperlegible-next", "atkinson-hyperlegible-next"),
    ("@fontsource-variable/literata", "literata"),
];
/// The letters of Western and of Central Europe.
const SUBSETS: [&str; 2] = ["latin", "latin-ext"];

/// The folder of each package.
pub fn folders() -> Vec<(&'static str, PathBuf)> {
    FACES.iter().map(|(package, _)| (*package, source().join("node_modules").join(package))).collect()
}

/// Installs the packages where their lock file is newer, and copies the files that the style sheet names.
///
/// # Errors
/// npm fails, or a file cannot be copied. Without npm nothing is copied.
pub fn fetch() -> StepResult {
    if !step::on_path("npm") {
        eprintln!("npm is not installed: the window will use the system's typefaces.");
        return Ok(());
    }
    let folder = source();
    let changed = |name: &str| folder.join(name).metadata().and_then(|data| data.modified()).ok();
    if changed("node_modules/.package-lock.json") < changed("package-lock.json") {
        let mut npm = Command::new("npm");
        step::run(npm.current_dir(&folder).args(["ci", "--loglevel=error"]).stdin(Stdio::null()))?;
    }
    let served = step::top().join("ui/typefaces");
    fs::create_dir_all(&served).map_err(|error| io_message(&served, &error))?;
    for ((_, name), (_, package)) in FACES.iter().zip(folders()) {
        for subset in SUBSETS {
            copy(&package.join(format!("files/{name}-{subset}-wght-normal.woff2")), &served)?;
        }
    }
    Ok(())
}

fn source() -> PathBuf {
    step::top().join(".dev/typefaces")
}

/// Copies a file that is not there yet as it is, so that the window is not built anew for nothing.
fn copy(from: &Path, into: &Path) -> StepResult {
    let to = into.join(from.file_name().unwrap_or_default());
    let bytes = fs::read(from).map_err(|error| io_message(from, &error))?;
    if fs::read(&to).is_ok_and(|there| there == bytes) {
        return Ok(());
    }
    fs::write(&to, bytes).map_err(|error| io_message(&to, &error))
}

fn io_message(what: &Path, error: &std::io::Error) -> String {
    format!("{}: {error}", what.display())
}

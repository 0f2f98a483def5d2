//! Locales made where no administrator is needed.

use std::collections::BTreeSet;
use std::path::PathBuf;
use std::process::Command;
use std::sync::{Mutex, PoisonError};

use super::app::target;

/// Makes `de_DE.UTF-8` and its like, and gives the folder for `LOCPATH`.
///
/// `C.UTF-8` will not do: the page would get the language "C", which is no language tag.
pub fn locale_folder(language: &str) -> PathBuf {
    static MADE: Mutex<BTreeSet<String>> = Mutex::new(BTreeSet::new());
    let folder = target().join("locales");
    let made = folder.join(format!("{language}.UTF-8"));
    let mut known = MADE.lock().unwrap_or_else(PoisonError::into_inner);
    if known.insert(language.to_owned()) && !made.join("LC_CTYPE").exists() {
        std::fs::create_dir_all(&folder).expect("the build folder can be written");
        let outcome = Command::new("localedef").args(["-i", language, "-f", "UTF-8"]).arg(&made).output();
        let outcome = outcome.expect("localedef starts");
        // It warns by its status about harmless things, so the result decides.
        let message = String::from_utf8_lossy(&outcome.stderr).into_owned();
        assert!(made.join("LC_CTYPE").exists(), "localedef made no {language}: {message}");
    }
    folder
}

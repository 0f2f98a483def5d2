//! What this device remembers between starts: the folder the weaver chose, its own name, the warp last looked at. Never synced.

use std::io::Write;
use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};

/// What this device remembers.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub(crate) struct Settings {
    /// The folder.
    pub folder: Option<PathBuf>,
    /// This device's name.
    pub device: Option<String>,
    /// Record id of the warp last looked at.
    pub warp: Option<String>,
    /// Journals this device has opened.
    pub known: Vec<KnownJournal>,
}

/// A journal this device has opened.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub(crate) struct KnownJournal {
    /// The journal's id.
    pub journal: String,
    /// Where it was last.
    pub path: PathBuf,
    /// Name of the folder in this device's own data that belongs to it.
    pub local: String,
}

impl Settings {
    /// Reads the settings; where there are none, or they cannot be read, they are empty.
    #[must_use]
    pub(crate) fn load(file: &Path) -> Self {
        std::fs::read(file).ok().and_then(|bytes| serde_json::from_slice(&bytes).ok()).unwrap_or_default()
    }

    /// Writes the settings: whole or not at all.
    ///
    /// # Errors
    /// The file cannot be written.
    pub(crate) fn save(&self, file: &Path) -> std::io::Result<()> {
        let directory = file.parent().unwrap_or(Path::new("."));
        fellmark_journal::private_dir(directory)?;
        let mut temporary = tempfile::NamedTempFile::new_in(directory)?;
        temporary.write_all(&serde_json::to_vec_pretty(self)?)?;
        temporary.as_file().sync_all()?;
        temporary.persist(file)?;
        Ok(())
    }
}

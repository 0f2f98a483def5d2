//! What can go wrong with the journal as a whole. Each says what happened, where, and what to do.
//!
//! A single bad line or file is no error: it is a [`crate::Problem`] in the status, and the rest is used.

use std::io;
use std::path::{Path, PathBuf};

/// An error of the journal.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum Error {
    /// Another window or command holds this folder's local data.
    #[error("another Fellmark on this device is using {}: close it, or open the folder for reading only", folder.display())]
    InUse {
        /// The folder.
        folder: PathBuf,
    },
    /// There is no journal here.
    #[error("{} is no Fellmark folder: {why}", folder.display())]
    NotAJournal {
        /// The folder.
        folder: PathBuf,
        /// Why, and what to do.
        why: String,
    },
    /// A file or directory could not be read or written.
    #[error("{what} {}: {source}", path.display())]
    Io {
        /// What was tried, as the beginning of a sentence: "cannot read".
        what: &'static str,
        /// The path.
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
    /// Neither the folder nor this device's own data could be written: nothing was saved.
    #[error(
        "nothing could be saved: {} cannot be written ({folder_says}), nor can {}: {source}; \
         free some space and try again",
        folder.display(), local.display()
    )]
    NowhereToWrite {
        /// The folder.
        folder: PathBuf,
        /// Why the folder could not be written.
        folder_says: String,
        /// The local data folder.
        local: PathBuf,
        /// Why the local data could not be written.
        source: io::Error,
    },
    /// What was to be written cannot be: too long, or nested too deep.
    #[error("this cannot be written: {why}")]
    Draft {
        /// Why, and what to do.
        why: String,
    },
    /// The journal was opened for reading only.
    #[error("the folder is open for reading only here: close the other Fellmark on this device to write")]
    ReadOnly,
    /// A photograph could not be taken in.
    #[error(transparent)]
    Photo(#[from] crate::photo::PhotoError),
    /// The folder could not be watched.
    #[error("{} cannot be watched for changes: {why}", folder.display())]
    Watch {
        /// The folder.
        folder: PathBuf,
        /// What the system said.
        why: String,
    },
}

impl Error {
    pub(crate) fn io(what: &'static str, path: &Path) -> impl FnOnce(io::Error) -> Self {
        let path = path.to_owned();
        move |source| Self::Io { what, path, source }
    }
}

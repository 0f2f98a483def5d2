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
    /// The reading was stopped by the listener to its progress.
    #[error("reading the folder {} was stopped; nothing in it was changed", folder.display())]
    Stopped {
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
    #[error("{what} {}: {source}; {}", path.display(), advice(source))]
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
    /// It is in the folder, but neither the folder's disk nor this device's own says that it will survive a power cut.
    #[error(
        "this is written in {}, but the disk does not confirm that it will stay ({folder_says}). Do not enter it again; free some \
         space, and look whether it is there after the next start",
        folder.display()
    )]
    Unconfirmed {
        /// The folder.
        folder: PathBuf,
        /// What its disk said.
        folder_says: String,
    },
    /// What goes into several files of the folder could not first be kept on this device: nothing was saved.
    #[error(
        "nothing was saved: what belongs together is kept on this device before it goes into the folder, and {} cannot be \
         written: {source}; free some space and try again",
        local.display()
    )]
    NotKeptTogether {
        /// The local data folder.
        local: PathBuf,
        /// Why the local data could not be written.
        source: io::Error,
    },
    /// This device's own disk took entries, does not confirm them, and does not confirm that they are cleared away again either.
    #[error(
        "it is not certain whether this was saved: it may come in at the next start, as {} can neither be written nor \
         cleared ({source}). Do not enter it again before you have looked; free some space, start Fellmark again, and enter it \
         if it is not there",
        local.display()
    )]
    Uncertain {
        /// The local data folder.
        local: PathBuf,
        /// Why the local data could not be written.
        source: io::Error,
    },
    /// This device needs an id and has no place to keep it: nothing was saved.
    #[error(
        "nothing was saved: this device needs a new id of its own, as another device writes under the one it had, or what it wrote \
         could not be kept here, and the new id cannot be kept either ({why}); free some space and try again"
    )]
    NoPlaceForId {
        /// What its own disk said.
        why: String,
    },
    /// The folder need not or must not be marked again.
    #[error("{} is not marked again: {why}", folder.display())]
    NotMarked {
        /// The folder.
        folder: PathBuf,
        /// Why.
        why: String,
    },
    /// What was to be written cannot be: too long, or nested too deep.
    #[error("this cannot be written: {why}")]
    EntryDraft {
        /// Why, and what to do.
        why: String,
    },
    /// The journal was opened for reading only.
    #[error("the folder is open for reading only here: close the other Fellmark on this device to write")]
    ReadOnly,
    /// A photograph could not be taken in.
    #[error(transparent)]
    Photo(#[from] crate::photos::PhotoError),
    /// The folder could not be watched.
    #[error("{} cannot be watched for changes: {why}", folder.display())]
    Watch {
        /// The folder.
        folder: PathBuf,
        /// What the system said.
        why: String,
    },
}

/// What to do about what the system said.
fn advice(source: &io::Error) -> &'static str {
    use io::ErrorKind as E;
    match source.kind() {
        // "Operation not permitted" and "permission denied" are one kind.
        E::PermissionDenied => "check who may write there, or choose another folder",
        E::ReadOnlyFilesystem => "what lies there can only be read: choose another folder",
        E::StorageFull | E::QuotaExceeded => "free some space and try again",
        E::NotFound | E::NotADirectory => "check the path, or choose another folder",
        _ => "check the disk or the connection to it and try again, or choose another folder",
    }
}

impl Error {
    /// Whether a disk, or another program that holds the folder, refused it, and not what was to be written.
    #[must_use]
    pub fn is_of_storage(&self) -> bool {
        match self {
            Self::EntryDraft { .. } | Self::Photo(_) | Self::Stopped { .. } => false,
            Self::InUse { .. }
            | Self::NotAJournal { .. }
            | Self::Io { .. }
            | Self::NowhereToWrite { .. }
            | Self::Unconfirmed { .. }
            | Self::NotKeptTogether { .. }
            | Self::Uncertain { .. }
            | Self::NoPlaceForId { .. }
            | Self::NotMarked { .. }
            | Self::ReadOnly
            | Self::Watch { .. } => true,
        }
    }

    pub(crate) fn io(what: &'static str, path: &Path) -> impl FnOnce(io::Error) -> Self {
        let path = path.to_owned();
        move |source| Self::Io { what, path, source }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_the_system_refuses_comes_with_what_to_do() {
        // The numbers of Linux: not permitted, permission denied, no space, read-only.
        for (number, reported) in
            [(1, "choose another folder"), (13, "who may write"), (28, "free some space"), (30, "only be read")]
        {
            let error = Error::io("cannot write in", Path::new("here"))(io::Error::from_raw_os_error(number));
            let said = error.to_string();
            assert!(said.starts_with("cannot write in here: ") && said.contains(reported), "{said}");
        }
    }
}

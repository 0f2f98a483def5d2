//! How the folder fares, in words for people.

use std::path::PathBuf;

use chrono::{DateTime, Utc};

use crate::format::ids::DeviceId;
use crate::format::segment::{LineProblem, SCHEMA, Segment};

/// Whether the folder can be read and written now.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FolderState {
    /// It can.
    Ok,
    /// It is not there, or it is empty where it was not: moved, or not mounted.
    Missing,
    /// It can be read only.
    ReadOnly,
    /// There is no space on its disk.
    Full,
    /// Something else lies there: another journal, or none that can be identified for sure.
    Wrong,
    /// Files of a log lie there, but no device's marker: it cannot be known to be the right folder. See
    /// [`crate::Journal::mark_folder_again`].
    Unmarked,
    /// The system reports another fault when it is written.
    Faulty,
}

impl FolderState {
    /// Whether the folder's files are neither read nor written now.
    #[must_use]
    pub fn is_out_of_reach(self) -> bool {
        matches!(self, Self::Missing | Self::Wrong | Self::Unmarked)
    }

    pub(crate) fn from_error(error: &std::io::Error) -> Self {
        use std::io::ErrorKind as E;
        match error.kind() {
            E::ReadOnlyFilesystem | E::PermissionDenied => Self::ReadOnly,
            E::StorageFull | E::QuotaExceeded | E::FileTooLarge => Self::Full,
            E::NotFound | E::NotADirectory | E::StaleNetworkFileHandle => Self::Missing,
            _ => Self::Faulty,
        }
    }
}

/// Something in the folder that could not be used, and what to do about it. Nothing is lost by it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// The file or directory.
    pub file: PathBuf,
    /// The line, counted from 1, where it is one line's.
    pub line: Option<usize>,
    /// What is wrong.
    pub kind: ProblemKind,
}

/// What is wrong with something in the folder.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ProblemKind {
    /// The file is empty.
    EmptyFile,
    /// A newer version wrote the file, in this format.
    NewerFormat(u32),
    /// A line could not be used.
    Line(LineProblem),
    /// So many more lines could not be used than are listed.
    MoreLines(usize),
    /// A directory has the name of a file of the log.
    DirectoryForFile,
    /// A link, a pipe or a device, which is not followed.
    NotFollowed,
    /// The file cannot be read; what the system says.
    Unreadable(String),
    /// No file of the log, or damaged beyond recognition.
    NotOfTheLog,
    /// The file is longer than what is read of it, both in bytes.
    TooLong {
        /// How long it is.
        bytes: u64,
        /// How much is read.
        read_bytes: u64,
    },
    /// The devices' markers cannot be read; what the system says.
    MarkersUnreadable(String),
    /// No device has left its marker.
    NoMarker,
    /// Two journals have met in the folder.
    TwoJournals,
    /// A photo that a record names is not there.
    PhotoMissing,
    /// A photo's bytes are not those that were stored.
    PhotoDamaged,
    /// A device's marker is damaged.
    MarkerDamaged,
}

impl std::fmt::Display for Problem {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}", self.file.display())?;
        if let Some(line) = self.line {
            write!(f, ", line {line}")?;
        }
        write!(f, ": {:?}", self.kind)
    }
}

/// The journal's state of health.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Status {
    /// Entries and photographs that wait on this device to be written into the folder.
    pub waiting_to_write: usize,
    /// Whether the folder can be used.
    pub folder: FolderState,
    /// What the system said when the folder could last not be written.
    pub folder_says: Option<String>,
    /// What this device's own disk said when it last took no copy of what is in the folder: until it does, the folder
    /// alone has it.
    pub no_local_copy: Option<String>,
    /// Whether this journal only reads.
    pub read_only: bool,
    /// What could not be used.
    pub problems: Vec<Problem>,
    /// Entries known to this device that no file of the folder holds any more. They stay visible.
    pub vanished: usize,
}

/// One device that writes, or wrote, into the folder.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DeviceInfo {
    /// Its id.
    pub id: DeviceId,
    /// The name a person gave it; its id where no marker says.
    pub name: String,
    /// When it last wrote, by its clock.
    pub last_wrote: Option<DateTime<Utc>>,
}

/// The problems of one file of entries.
pub(crate) fn problems_of(file: &std::path::Path, bytes: usize, segment: &Segment) -> Vec<Problem> {
    let problem = |line: Option<usize>, kind: ProblemKind| Problem { file: file.to_owned(), line, kind };
    if bytes == 0 {
        return vec![problem(None, ProblemKind::EmptyFile)];
    }
    let mut problems = Vec::new();
    if let Some(head) = segment.head.as_ref().filter(|head| head.schema > SCHEMA) {
        problems.push(problem(Some(1), ProblemKind::NewerFormat(head.schema)));
    }
    problems.extend(segment.refused.iter().map(|(line, why)| problem(Some(*line), ProblemKind::Line(*why))));
    if segment.refused_more > 0 {
        problems.push(problem(None, ProblemKind::MoreLines(segment.refused_more)));
    }
    problems
}

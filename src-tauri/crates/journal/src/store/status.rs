//! How the folder fares, in words for people.

use std::path::PathBuf;

use chrono::{DateTime, Utc};

use crate::format::entry::Refusal;
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
    /// One quiet sentence; `None` when all is well.
    #[must_use]
    pub fn sentence(self) -> Option<&'static str> {
        match self {
            Self::Ok => None,
            Self::Missing => Some(
                "The folder is not there now. What was logged is shown from this device; new entries wait here. \
                 If the folder was moved, choose it again.",
            ),
            Self::ReadOnly => Some("The folder cannot be written now; new entries wait on this device."),
            Self::Full => Some("The folder's disk is full; new entries wait on this device until there is space."),
            Self::Wrong => Some(
                "Another journal, or none, lies where this folder was; nothing is written there. \
                 Choose the folder again.",
            ),
            Self::Unmarked => Some(
                "The folder holds a log, but the markers by which devices know it (the files in “devices”) are gone; new \
                 entries wait here. If this is the right folder, mark it again.",
            ),
            Self::Faulty => Some("The folder's disk reports a fault; new entries wait on this device."),
        }
    }

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
    /// What is wrong, in a sentence.
    pub what: String,
    /// What to do, in a sentence.
    pub do_what: String,
}

impl std::fmt::Display for Problem {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}", self.file.display())?;
        if let Some(line) = self.line {
            write!(f, ", line {line}")?;
        }
        write!(f, ": {} {}", self.what, self.do_what)
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
    let problem = |line: Option<usize>, what: &str, do_what: &str| Problem {
        file: file.to_owned(),
        line,
        what: what.to_owned(),
        do_what: do_what.to_owned(),
    };
    if bytes == 0 {
        return vec![problem(
            None,
            "The file is empty.",
            "If a synchroniser is still at work, wait; the device that wrote it will complete it.",
        )];
    }
    let mut problems = Vec::new();
    if let Some(head) = segment.head.as_ref().filter(|head| head.schema > SCHEMA) {
        problems.push(problem(
            Some(1),
            &format!("A newer Fellmark wrote this file (format {}, this one knows {SCHEMA}).", head.schema),
            "What can be read is used and nothing is changed; bring Fellmark up to date on this device.",
        ));
    }
    for (line, problem_of_line) in &segment.refused {
        let (what, do_what) = match problem_of_line {
            LineProblem::Torn => (
                "The file is cut off in the middle of a line; what stands before is used.",
                "If a synchroniser is still at work, wait; the device that wrote it will complete it.",
            ),
            LineProblem::Nul => (
                "The file holds empty bytes where text should be, as after a power cut; the rest is used.",
                "Open Fellmark on the device that wrote it, which will complete it.",
            ),
            LineProblem::Marker => (
                "A version control program left its conflict marker here; all sound lines are used.",
                "Nothing is lost; remove the three marker lines when it suits you.",
            ),
            LineProblem::Foreign => (
                "This line is nothing Fellmark writes; it is left alone.",
                "If you put it there, keep notes in another file.",
            ),
            LineProblem::Entry(Refusal::Key | Refusal::Shape) => (
                "This entry is torn or was changed by hand: its key does not match, so it is not used.",
                "Correct the log in Fellmark instead; the unchanged entry comes back from a device that has it.",
            ),
            LineProblem::Entry(Refusal::Meaning) => (
                "This entry cannot be understood, so it is not used; it is kept as it is.",
                "If another device runs a newer Fellmark, bring this one up to date.",
            ),
            LineProblem::Entry(Refusal::Long) => (
                "This line is longer than any entry may be (1 MB), so it is not used.",
                "If you did not put it there, the file is damaged: bring back an older copy of it.",
            ),
        };
        problems.push(problem(Some(*line), what, do_what));
    }
    if segment.refused_more > 0 {
        problems.push(problem(
            None,
            &format!("{} more lines of this file could not be used.", segment.refused_more),
            "See the lines named before.",
        ));
    }
    problems
}

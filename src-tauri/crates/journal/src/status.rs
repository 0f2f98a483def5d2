//! How the folder fares, in words for people.

use std::path::PathBuf;

use chrono::{DateTime, Utc};

use crate::entry::Refusal;
use crate::ids::DeviceId;
use crate::segment::{Parsed, SCHEMA, Wrong};

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
    /// Something else lies there: another journal, or none that can be told for sure.
    Wrong,
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
            Self::Faulty => Some("The folder's disk reports a fault; new entries wait on this device."),
        }
    }

    pub(crate) fn of_error(error: &std::io::Error) -> Self {
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
    /// Whether this journal only reads.
    pub read_only: bool,
    /// What could not be used.
    pub problems: Vec<Problem>,
    /// Questions to settle: fields with several answers, records removed here and edited there.
    pub two_answers: usize,
    /// Entries known to this device that no file of the folder holds any more. They stay visible.
    pub vanished: usize,
}

/// One device that writes, or wrote, into the folder.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DeviceInfo {
    /// Its id.
    pub id: DeviceId,
    /// The name a person gave it; its id where no marker tells.
    pub name: String,
    /// When it last wrote, by its clock.
    pub last_wrote: Option<DateTime<Utc>>,
}

/// The problems of one file of entries.
pub(crate) fn problems_of<E>(file: &std::path::Path, bytes: usize, segment: &Parsed<E>) -> Vec<Problem> {
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
    for (line, wrong) in &segment.refused {
        let (what, do_what) = match wrong {
            Wrong::Torn => (
                "The file is cut off in the middle of a line; what stands before is used.",
                "If a synchroniser is still at work, wait; the device that wrote it will complete it.",
            ),
            Wrong::Nul => (
                "The file holds empty bytes where text should be, as after a power cut; the rest is used.",
                "Open Fellmark on the device that wrote it, which will complete it.",
            ),
            Wrong::Marker => (
                "A version control program left its conflict marker here; all sound lines are used.",
                "Nothing is lost; remove the three marker lines when it suits you.",
            ),
            Wrong::Foreign => (
                "This line is nothing Fellmark writes; it is left alone.",
                "If you put it there, keep notes in another file.",
            ),
            Wrong::Entry(Refusal::Key | Refusal::Shape) => (
                "This entry is torn or was changed by hand: its key does not match, so it is not used.",
                "Correct the log in Fellmark instead; the unchanged entry comes back from a device that has it.",
            ),
            Wrong::Entry(Refusal::Meaning) => (
                "This entry cannot be understood, so it is not used; it is kept as it is.",
                "If another device runs a newer Fellmark, bring this one up to date.",
            ),
            Wrong::Entry(Refusal::Long) => (
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

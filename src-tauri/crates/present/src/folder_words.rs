//! The state of the folder and the problems in it, in sentences.

use fellmark_journal::{FolderState, LineProblem, ProblemKind, Refusal, SCHEMA};

/// One quiet sentence on the folder; `None` when all is well.
#[must_use]
pub fn folder_sentence(folder: FolderState) -> Option<&'static str> {
    Some(match folder {
        FolderState::Ok => return None,
        FolderState::Missing => {
            "The folder is not there now. What was logged is shown from this device; new entries wait here. \
             If the folder was moved, choose it again."
        }
        FolderState::ReadOnly => "The folder cannot be written now; new entries wait on this device.",
        FolderState::Full => "The folder's disk is full; new entries wait on this device until there is space.",
        FolderState::Wrong => {
            "Another journal, or none, lies where this folder was; nothing is written there. Choose the folder again."
        }
        FolderState::Unmarked => {
            "The folder holds a log, but the markers by which devices know it (the files in “devices”) are gone; new \
             entries wait here. If this is the right folder, mark it again."
        }
        FolderState::Faulty => "The folder's disk reports a fault; new entries wait on this device.",
    })
}

/// What is wrong, in a sentence.
#[must_use]
pub fn problem_sentence(problem: &ProblemKind) -> String {
    match problem {
        ProblemKind::EmptyFile => "The file is empty.".into(),
        ProblemKind::NewerFormat(format) => {
            format!("A newer Fellmark wrote this file (format {format}, this one knows {SCHEMA}).")
        }
        ProblemKind::Line(problem) => line_words(*problem).0.into(),
        ProblemKind::MoreLines(count) => format!("{count} more lines of this file could not be used."),
        ProblemKind::DirectoryForFile => "This is a directory where a file of the log should be.".into(),
        ProblemKind::NotFollowed => "This is a link, a pipe or a device, no plain file; it is not followed.".into(),
        ProblemKind::Unreadable(error) => {
            format!("It cannot be read: {error}. What is known of it is shown from this device.")
        }
        ProblemKind::NotOfTheLog => {
            "This is no file of the log, or it is damaged beyond recognition; it is left alone.".into()
        }
        ProblemKind::TooLong { bytes, read_bytes } => {
            format!("The file is {} MB long; only its first {} MB are read.", bytes >> 20, read_bytes >> 20)
        }
        ProblemKind::MarkersUnreadable(error) => format!("It cannot be read: {error}."),
        ProblemKind::NoMarker => {
            "No device has left its marker here, so this is no Fellmark folder, or it has not arrived yet.".into()
        }
        ProblemKind::TwoJournals => {
            "Two journals were begun apart and have met in this folder; both are read as one.".into()
        }
        ProblemKind::PhotoMissing => "This photo is not here.".into(),
        ProblemKind::PhotoDamaged => "This photo is damaged: its bytes are not those that were stored.".into(),
        ProblemKind::MarkerDamaged => "This device's marker is damaged.".into(),
    }
}

/// What to do about it, in a sentence.
#[must_use]
pub fn problem_advice(problem: &ProblemKind) -> &'static str {
    match problem {
        ProblemKind::EmptyFile => {
            "If a synchroniser is still at work, wait; the device that wrote it will complete it."
        }
        ProblemKind::NewerFormat(_) => {
            "What can be read is used and nothing is changed; bring Fellmark up to date on this device."
        }
        ProblemKind::Line(problem) => line_words(*problem).1,
        ProblemKind::MoreLines(_) => "See the lines named before.",
        ProblemKind::DirectoryForFile => "Give it another name; the log goes on in the next file.",
        ProblemKind::NotFollowed => "Put the file or directory itself here, if it belongs to the log.",
        ProblemKind::Unreadable(_) => "Check the disk, and who may read the file.",
        ProblemKind::NotOfTheLog => "If it is yours, keep it elsewhere; what it held is shown from this device.",
        ProblemKind::TooLong { .. } => "Fellmark writes no such file; take it out of the folder.",
        ProblemKind::MarkersUnreadable(_) => "Check that the folder is there and who may read it.",
        ProblemKind::NoMarker => "Choose the right folder, or wait for the synchroniser.",
        ProblemKind::TwoJournals => "Nothing needs doing if that is what you wanted.",
        ProblemKind::PhotoMissing => {
            "If a synchroniser is still at work, wait; else add the same picture again, which puts it back."
        }
        ProblemKind::PhotoDamaged => {
            "Add the same picture again, which repairs it, or bring back an older copy of the file."
        }
        ProblemKind::MarkerDamaged => "Open Fellmark on that device, which will write it again.",
    }
}

/// What is wrong with a line, and what to do.
fn line_words(problem: LineProblem) -> (&'static str, &'static str) {
    match problem {
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
    }
}

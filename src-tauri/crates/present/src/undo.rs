//! What undo takes back, in words.

use fellmark_journal::Journal;

use crate::lists_and_numbers::listed;
use fellmark_model::undo::{Action, ActionSubject, ActionVerb, Undoable, undoable};

/// What was taken back.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Undone {
    /// What it was: "the sitting was logged".
    pub what: String,
    /// That another device's changes went with it, and where they are.
    pub note: Option<String>,
}

/// What undo would take back, for a button; nothing when there is nothing to take back.
#[must_use]
pub fn words(journal: &Journal) -> Option<String> {
    undoable(journal.state(), journal.device()).map(|found| with_warning(&found, journal))
}

/// What was taken back, in words.
#[must_use]
pub fn undone(found: &Undoable, journal: &Journal) -> Undone {
    Undone { what: action_words(found.action), note: note(found, journal) }
}

/// What it was; and beforehand, that another device has changed it since.
fn with_warning(found: &Undoable, journal: &Journal) -> String {
    let what = action_words(found.action);
    let Some((names, whole)) = names(found, journal).zip(found.as_a_whole) else { return what };
    let has = if found.elsewhere.len() == 1 { "has" } else { "have" };
    let thing = match (found.action.subject == whole.subject, is_several(whole)) {
        (true, true) => "them".into(),
        (true, false) => "it".into(),
        (false, _) => subject_words(whole.subject),
    };
    format!("{what} ({names} {has} {} {thing} since)", changed(whole))
}

/// That another device's changes went with it, and where they are found.
fn note(found: &Undoable, journal: &Journal) -> Option<String> {
    let (names, whole) = names(found, journal).zip(found.as_a_whole)?;
    let many = is_several(whole);
    let (they, went) = if many { ("they", "them") } else { ("it", "it") };
    let place = match whole.subject {
        ActionSubject::Sitting | ActionSubject::Sittings(_) => {
            Some("the removed sittings, below the others of the warp")
        }
        ActionSubject::Warp | ActionSubject::Warps(_) => Some("the removed warps, under Off the loom"),
        _ => None,
    };
    let then = match place {
        Some(place) if many => format!("Bring back what should stay from {place}."),
        Some(place) => format!("To have it again, with what {names} wrote, bring it back from {place}."),
        None => format!("What {names} wrote is kept in the folder."),
    };
    let thing = if many { "some of what was brought in".into() } else { subject_words(whole.subject) };
    let phrase = verb_words(whole);
    Some(format!(
        "{names} had {} {thing} since {they} {phrase} here, and that went with {went}. {then}",
        changed(whole)
    ))
}

/// The names of the other devices, as a sentence has them.
fn names(found: &Undoable, journal: &Journal) -> Option<String> {
    let devices = crate::overview::devices(journal);
    let names: Vec<&str> = found
        .elsewhere
        .iter()
        .map(|id| devices.iter().find(|one| one.id == *id).map_or(id.as_str(), |one| one.name.as_str()))
        .collect();
    (!names.is_empty()).then(|| listed(&names))
}

fn is_several(action: Action) -> bool {
    matches!(action.subject, ActionSubject::Sittings(_) | ActionSubject::Warps(_))
}

fn changed(action: Action) -> &'static str {
    if action.subject == ActionSubject::Warp { "written on" } else { "changed" }
}

/// "the sitting was logged", "12 sittings were brought in".
fn action_words(action: Action) -> String {
    format!("{} {}", subject_words(action.subject), verb_words(action))
}

fn subject_words(subject: ActionSubject) -> String {
    match subject {
        ActionSubject::Warp => "the warp".into(),
        ActionSubject::Warps(count) => format!("{count} warps"),
        ActionSubject::Sitting => "the sitting".into(),
        ActionSubject::Sittings(count) => format!("{count} sittings"),
        ActionSubject::Photo => "the photo".into(),
        ActionSubject::WeftYarn => "the weft yarn".into(),
        ActionSubject::SequencePlace => "the place in the sequence".into(),
        ActionSubject::Reading => "the measure".into(),
        ActionSubject::Weighing => "the weighing".into(),
        ActionSubject::YarnJoined => "the yarn taken up".into(),
        ActionSubject::FinishingStep => "the finishing step".into(),
        ActionSubject::Plan => "the plan".into(),
        ActionSubject::Setting => "the setting".into(),
        ActionSubject::Unknown => "the last entry".into(),
    }
}

fn verb_words(action: Action) -> String {
    let was = if is_several(action) { "were" } else { "was" };
    let phrase = match action.verb {
        ActionVerb::Removed => "removed",
        ActionVerb::Restored => "restored",
        ActionVerb::Imported => "brought in",
        ActionVerb::CutOff => "cut off",
        ActionVerb::Begun => "begun",
        ActionVerb::Logged => "logged",
        ActionVerb::Set => "set",
        ActionVerb::Chosen => "chosen",
        ActionVerb::Kept => "kept",
        ActionVerb::Noted => "noted",
        ActionVerb::Added => "added",
        ActionVerb::Changed => "changed",
    };
    format!("{was} {phrase}")
}

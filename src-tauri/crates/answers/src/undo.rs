//! Taking back: the latest action of this device that still stands, answered by entries that restore what was there.
//!
//! A pure function of the journal's state, so undo works after a restart, and on the command line.

use std::collections::BTreeSet;
use std::sync::Arc;

use fellmark_journal::{At, DeviceId, Draft, Entry, GONE, Key, State};
use serde_json::{Value, json};

use crate::fields::{ACT, kind, warp};
use crate::forms::FieldMap;

/// What an undoing entry's `act` begins with.
const UNDO: &str = "undo ";

/// An action that can be taken back.
#[derive(Clone, Debug)]
pub struct Undoable {
    /// What it was, to stand behind "Undo:": "the sitting was logged".
    pub what: String,
    /// The entries that take it back.
    pub drafts: Vec<Draft>,
}

/// The latest action of this device that stands and was not itself an undo; nothing when there is none.
///
/// Looks back from the latest entry, and no further than it must: an action's entries were written together, and what takes it
/// back came after it, as a device's own clock never runs backwards in its entries.
#[must_use]
pub fn undoable(state: &State, device: &DeviceId) -> Option<Undoable> {
    let mut own = state.latest_by(device).peekable();
    let mut undone: BTreeSet<&str> = BTreeSet::new();
    while let Some(last) = own.next() {
        let Some(act) = act_of(last) else { continue };
        if let Some(taken_back) = act.strip_prefix(UNDO) {
            undone.insert(taken_back);
            continue;
        }
        let mut entries = vec![last];
        while let Some(entry) = own.next_if(|entry| act_of(entry) == Some(act)) {
            entries.push(entry);
        }
        if undone.contains(act) {
            continue;
        }
        entries.reverse();
        let drafts: Vec<Draft> = entries.iter().filter_map(|entry| answer_to(state, entry, act)).collect();
        if !drafts.is_empty() {
            return Some(Undoable { what: what_it_was(&entries), drafts });
        }
    }
    None
}

fn act_of(entry: &Entry) -> Option<&str> {
    entry.set().get(ACT).and_then(Value::as_str)
}

/// What orders entries where an order is shown: time, then key.
pub(crate) fn order(entry: &Entry) -> (&At, Key) {
    (entry.at(), entry.key())
}

/// The entry that restores what one entry changed. A field that another entry has answered since is left alone.
fn answer_to(state: &State, entry: &Entry, act: &str) -> Option<Draft> {
    let record = state.record(entry.of())?;
    if !record.heads.contains(&entry.key()) {
        return None;
    }
    let mut set = FieldMap::new();
    if entry.over().is_empty() {
        set.insert(GONE.into(), json!(true));
    } else {
        for field in entry.set().keys().filter(|field| *field != ACT) {
            if stands(state, entry, field) {
                set.insert(field.clone(), before(state, entry, field));
            }
        }
    }
    if set.is_empty() {
        return None;
    }
    set.insert(ACT.into(), json!(format!("{UNDO}{act}")));
    Some(Draft::on(record, set))
}

/// Whether nothing has replaced what an entry wrote into a field.
fn stands(state: &State, entry: &Entry, field: &str) -> bool {
    !state.history(entry.of()).any(|later| later.over().contains(&entry.key()) && later.set().contains_key(field))
}

/// What stood in a field before an entry.
fn before(state: &State, entry: &Entry, field: &str) -> Value {
    let named = entry.over().iter().filter_map(|key| state.entry(*key));
    let wrote = named.filter(|earlier| earlier.of() == entry.of() && earlier.set().contains_key(field));
    let last = wrote.max_by(|a, b| order(a).cmp(&order(b)));
    let nothing = if field == GONE { json!(false) } else { Value::Null };
    last.and_then(|earlier| earlier.set().get(field).cloned()).unwrap_or(nothing)
}

fn what_it_was(entries: &[&Arc<Entry>]) -> String {
    // The first entry of an action is on the record she acted on.
    let Some(entry) = entries.first() else { return String::new() };
    let brought: BTreeSet<_> = entries.iter().filter(|one| one.over().is_empty()).map(|one| one.of()).collect();
    let alike = entries.iter().all(|one| one.kind() == entry.kind());
    if brought.len() > 1 && alike && [kind::SITTING, kind::WARP].contains(&entry.kind().as_str()) {
        let things = if entry.kind().as_str() == kind::SITTING { "sittings" } else { "warps" };
        return format!("{} {things} were brought in", brought.len());
    }
    let thing = match entry.kind().as_str() {
        kind::WARP => "the warp",
        kind::SITTING => "the sitting",
        kind::PHOTO => "the photo",
        kind::WEFT => "the weft yarn",
        kind::PLACE => "the place in the sequence",
        kind::READING => "the measure",
        kind::WEIGHING => "the weighing",
        kind::JOIN => "the yarn taken up",
        kind::FINISHING => "the finishing step",
        kind::PLAN => "the plan",
        kind::SETTINGS => "the settings",
        _ => "the last entry",
    };
    let deed = match entry.set().get(GONE) {
        Some(Value::Bool(true)) => "was removed",
        Some(_) => "was restored",
        None if entry.set().get(warp::STATE).and_then(Value::as_str) == Some("off_the_loom") => "was cut off",
        None if entry.over().is_empty() => match entry.kind().as_str() {
            kind::WARP => "was begun",
            kind::SITTING => "was logged",
            kind::PLACE => "was set",
            kind::PLAN => "was kept",
            kind::READING | kind::WEIGHING | kind::JOIN => "was noted",
            _ => "was added",
        },
        None => "was changed",
    };
    format!("{thing} {deed}")
}

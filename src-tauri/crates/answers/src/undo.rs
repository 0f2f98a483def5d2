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

/// The entry that takes back what one entry changed. A field that another entry has answered since is left alone, and an answer
/// that was given without sight of it stays.
fn answer_to(state: &State, entry: &Entry, act: &str) -> Option<Draft> {
    let record = state.record(entry.of())?;
    let mut set = FieldMap::new();
    let mut others: BTreeSet<Key> = BTreeSet::new();
    for field in entry.set().keys().filter(|field| *field != ACT) {
        let heads = record.heads.iter().filter_map(|key| state.entry(*key)).filter(|head| stands(state, head, field));
        let shown = heads.map(|head| (head, shown_by(state, head, field)));
        let (own, other): (Vec<_>, Vec<_>) =
            shown.partition(|(_, shown)| shown.is_some_and(|shown| shown.key() == entry.key()));
        if own.is_empty() {
            continue;
        }
        // Its own forerunners come back with it; they are no other answers.
        let is_apart = |shown: Option<&Arc<Entry>>| shown.is_some_and(|shown| !entry.over().contains(&shown.key()));
        let apart: Vec<_> = other.into_iter().filter(|(_, shown)| is_apart(*shown)).map(|(head, _)| head).collect();
        others.extend(apart.iter().map(|head| head.key()));
        let value = apart.last().copied().or_else(|| before(state, entry, field)).and_then(|one| one.set().get(field));
        let nothing = if field == GONE { json!(false) } else { Value::Null };
        set.insert(field.clone(), value.cloned().unwrap_or(nothing));
    }
    if set.is_empty() {
        return None;
    }
    if entry.over().is_empty() {
        set = FieldMap::from_iter([(GONE.to_owned(), json!(true))]);
        others.clear();
    }
    set.insert(ACT.into(), json!(format!("{UNDO}{act}")));
    let mut draft = Draft::on(record, set);
    draft.over.retain(|key| !others.contains(key));
    Some(draft)
}

/// Whether an entry wrote a field and nothing has replaced that.
fn stands(state: &State, entry: &Entry, field: &str) -> bool {
    let replaces = |later: &Entry| later.over().contains(&entry.key()) && later.set().contains_key(field);
    entry.set().contains_key(field) && !state.history(entry.of()).any(|later| replaces(later))
}

/// The entry whose answer is shown in a field where this one stands: one that took another back shows what was there before that.
fn shown_by<'a>(state: &'a State, entry: &'a Arc<Entry>, field: &str) -> Option<&'a Arc<Entry>> {
    let mut shown = entry;
    while let Some(act) = act_of(shown).and_then(|act| act.strip_prefix(UNDO)) {
        let mut history = state.history(shown.of()).filter(|one| one.by() == shown.by() && act_of(one) == Some(act));
        let taken_back = history.find(|one| one.set().contains_key(field))?;
        // Whatever a file holds, this goes back in time and ends.
        shown = before(state, taken_back, field).filter(|earlier| order(earlier) < order(shown))?;
    }
    Some(shown)
}

/// The entry that stood in a field before another.
fn before<'a>(state: &'a State, entry: &Entry, field: &str) -> Option<&'a Arc<Entry>> {
    let named = entry.over().iter().filter_map(|key| state.entry(*key));
    let wrote = named.filter(|earlier| earlier.of() == entry.of() && earlier.set().contains_key(field));
    wrote.max_by(|a, b| order(a).cmp(&order(b)))
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

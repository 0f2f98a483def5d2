//! Taking back: the latest action of this device that still stands, answered by entries that restore what was there.
//!
//! A pure function of the journal's state, so undo works after a restart, and on the command line.

use std::cmp::Reverse;
use std::collections::BTreeSet;
use std::sync::Arc;

use fellmark_journal::{At, DeviceId, Entry, EntryDraft, EntrySet, GONE, Key, RecordId};
use serde_json::{Value, json};

use crate::fields::{ACT, kind, warp};
use crate::finishing;
use crate::forms::FieldMap;

/// What an undoing entry's `act` begins with.
const UNDO: &str = "undo ";

/// What an action was done to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ActionSubject {
    /// A warp.
    Warp,
    /// Several warps of an imported table.
    Warps(usize),
    /// A sitting.
    Sitting,
    /// Several sittings of an imported table.
    Sittings(usize),
    /// A photo.
    Photo,
    /// A weft yarn.
    WeftYarn,
    /// The place in the pick sequence.
    SequencePlace,
    /// A tape reading.
    Reading,
    /// A weighing of yarn.
    Weighing,
    /// A yarn taken up.
    YarnJoined,
    /// A finishing step.
    FinishingStep,
    /// A plan.
    Plan,
    /// A setting.
    Setting,
    /// A record of a kind that this version does not know.
    Unknown,
}

/// What was done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ActionVerb {
    /// It was removed.
    Removed,
    /// It was restored.
    Restored,
    /// It came in with a table.
    Imported,
    /// The warp was cut off.
    CutOff,
    /// The warp was begun.
    Begun,
    /// The sitting was logged.
    Logged,
    /// The place was set.
    Set,
    /// The setting was chosen.
    Chosen,
    /// The plan was kept.
    Kept,
    /// It was noted.
    Noted,
    /// It was added.
    Added,
    /// It was changed.
    Changed,
}

/// What an action was: what was done, and to what.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Action {
    /// What it was done to.
    pub subject: ActionSubject,
    /// What was done.
    pub verb: ActionVerb,
}

/// An action that can be taken back.
#[derive(Clone, Debug)]
pub struct Undoable {
    /// What it was.
    pub action: Action,
    /// The entries that take it back.
    pub drafts: Vec<EntryDraft>,
    /// The other devices whose entries go with it, as they changed meanwhile what is taken away as a whole.
    pub elsewhere: BTreeSet<DeviceId>,
    /// What is taken away as a whole, where anything is.
    pub as_a_whole: Option<Action>,
}

/// The last action of this device that stands and was not itself an undo; nothing when there is none.
///
/// Actions are taken back in the order they were done, which their numbers give: the clock may have been wrong meanwhile. Actions
/// of earlier versions have no number; they come before all others, in the order of their times.
#[must_use]
pub fn undoable(state: &EntrySet, device: &DeviceId) -> Option<Undoable> {
    let mut own: Vec<&Arc<Entry>> = state.latest_by(device).filter(|entry| act_of(entry).is_some()).collect();
    own.sort_by_key(|entry| Reverse(number_of_entry(entry)));
    let mut seen: BTreeSet<&str> =
        own.iter().filter_map(|entry| act_of(entry)).filter_map(|act| act.strip_prefix(UNDO)).collect();
    for (n, last) in own.iter().enumerate() {
        let Some(act) = act_of(last).filter(|act| !act.starts_with(UNDO)) else { continue };
        if !seen.insert(act) {
            continue;
        }
        let mut entries: Vec<&Arc<Entry>> =
            own[n..].iter().copied().take_while(|entry| number_of_entry(entry) == number_of(act)).collect();
        entries.retain(|entry| act_of(entry) == Some(act));
        entries.reverse();
        let drafts: Vec<EntryDraft> = entries.iter().filter_map(|entry| answer_to(state, entry, act)).collect();
        if !drafts.is_empty() {
            entries.retain(|entry| !only_lays_out(entry));
            let action =
                action_of(&entries).unwrap_or(Action { subject: ActionSubject::Unknown, verb: ActionVerb::Changed });
            let whole: Vec<_> = entries.into_iter().filter(|entry| goes_as_a_whole(entry)).collect();
            let elsewhere = whole.iter().flat_map(|entry| written_elsewhere(state, entry, device)).collect();
            return Some(Undoable { action, drafts, elsewhere, as_a_whole: action_of(&whole) });
        }
    }
    None
}

/// The name of a new action: its number on this device, one above all before, and an id: `12.k3m8pq7x`.
pub fn next_act(state: &EntrySet, device: &DeviceId) -> String {
    let last = state.latest_by(device).map(|entry| number_of_entry(entry)).max().unwrap_or(0);
    format!("{}.{}", last.saturating_add(1), RecordId::new().short())
}

/// The number in an action's name; 0 in that of an earlier version.
fn number_of(act: &str) -> u64 {
    act.split_once('.').and_then(|(number, _)| number.parse().ok()).unwrap_or(0)
}

fn number_of_entry(entry: &Entry) -> u64 {
    act_of(entry).map_or(0, number_of)
}

fn act_of(entry: &Entry) -> Option<&str> {
    entry.set().get(ACT).and_then(Value::as_str)
}

/// What orders entries where an order is shown: time, then key.
pub fn order(entry: &Entry) -> (&At, Key) {
    (entry.at(), entry.key())
}

/// Whether what an entry began goes with it. All settings stand in one record: the first of them takes no other away. The usual
/// finishing steps are there before they are written: what is done to the first of them writes all, and takes none away.
fn goes_as_a_whole(entry: &Entry) -> bool {
    entry.over().is_empty() && entry.kind().as_str() != kind::SETTINGS && !finishing::lays_out(entry)
}

/// Whether an entry only lays out a finishing step, for another of which it was done.
fn only_lays_out(entry: &Entry) -> bool {
    let mut said = entry.set().keys().filter(|field| *field != ACT);
    finishing::lays_out(entry) && said.all(|field| finishing::is_as_laid_out(entry, field))
}

/// The entry that takes back what one entry changed. A field that another entry has answered since is left alone, and an answer
/// that was given without sight of it stays.
fn answer_to(state: &EntrySet, entry: &Entry, act: &str) -> Option<EntryDraft> {
    let record = state.record(entry.of())?;
    let mut set = FieldMap::new();
    let mut others: BTreeSet<Key> = BTreeSet::new();
    let lays_out = finishing::lays_out(entry);
    let is_hers = |field: &str| field != ACT && !(lays_out && finishing::is_as_laid_out(entry, field));
    for field in entry.set().keys().filter(|field| is_hers(field)) {
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
        let nothing = || match field.as_str() {
            _ if lays_out => finishing::before_anything(state, entry, field),
            GONE => json!(false),
            _ => Value::Null,
        };
        set.insert(field.clone(), value.cloned().unwrap_or_else(nothing));
    }
    if set.is_empty() {
        return None;
    }
    if goes_as_a_whole(entry) {
        set = FieldMap::from_iter([(GONE.to_owned(), json!(true))]);
        others.clear();
    }
    set.insert(ACT.into(), json!(format!("{UNDO}{act}")));
    let mut draft = EntryDraft::on(record, set);
    draft.over.retain(|key| !others.contains(key));
    if draft.set.get(GONE) == Some(&json!(true))
        && let Some(removal) = before(state, entry, GONE)
    {
        // What the removal had not seen is asked about again.
        let unseen = |key: &Key| entry.over().contains(key) && *key != removal.key() && !removal.over().contains(key);
        draft.over.retain(|key| !unseen(key));
    }
    Some(draft)
}

/// The other devices whose words stand in what an entry began: in its record, and for a warp in all that is written on it.
fn written_elsewhere(state: &EntrySet, entry: &Entry, device: &DeviceId) -> BTreeSet<DeviceId> {
    let own = state.record(entry.of());
    let of_warp = own.filter(|record| record.kind.as_str() == kind::WARP).map(|record| state.of_warp(&record.id));
    let records = own.into_iter().chain(of_warp.into_iter().flatten()).filter(|record| record.is_visible());
    let heads = records.flat_map(|record| &record.heads).filter_map(|key| state.entry(*key));
    heads.map(|head| head.by()).filter(|by| *by != device).cloned().collect()
}

/// Whether an entry wrote a field and nothing has replaced that.
fn stands(state: &EntrySet, entry: &Entry, field: &str) -> bool {
    let replaces = |later: &Entry| later.over().contains(&entry.key()) && later.set().contains_key(field);
    entry.set().contains_key(field) && !state.history(entry.of()).any(|later| replaces(later))
}

/// The entry whose answer is shown in a field where this one stands: one that took another back shows what was there before that.
fn shown_by<'a>(state: &'a EntrySet, entry: &'a Arc<Entry>, field: &str) -> Option<&'a Arc<Entry>> {
    let mut shown = entry;
    let mut seen = BTreeSet::from([entry.key()]);
    while let Some(act) = act_of(shown).and_then(|act| act.strip_prefix(UNDO)) {
        let mut history = state.history(shown.of()).filter(|one| one.by() == shown.by() && act_of(one) == Some(act));
        let taken_back = history.find(|one| one.set().contains_key(field))?;
        // Whatever a file holds, this ends; times say nothing, since a clock may have been wrong.
        shown = before(state, taken_back, field).filter(|earlier| seen.insert(earlier.key()))?;
    }
    Some(shown)
}

/// The entry that stood in a field before another. What lays a finishing step out begins it anew: nothing stood before that.
fn before<'a>(state: &'a EntrySet, entry: &Entry, field: &str) -> Option<&'a Arc<Entry>> {
    if finishing::lays_out(entry) {
        return None;
    }
    let named = entry.over().iter().filter_map(|key| state.entry(*key));
    let wrote = named.filter(|earlier| earlier.of() == entry.of() && earlier.set().contains_key(field));
    standing(wrote.collect())
}

/// Of entries that wrote a field of a record, the one that stood: the latest of those that no other one has replaced.
pub fn standing(wrote: Vec<&Arc<Entry>>) -> Option<&Arc<Entry>> {
    let is_replaced = |one: &Entry| wrote.iter().any(|later| later.over().contains(&one.key()));
    wrote.iter().copied().filter(|entry| !is_replaced(entry)).max_by(|a, b| order(a).cmp(&order(b)))
}

/// How many records an action began.
fn begun(entries: &[&Arc<Entry>]) -> usize {
    entries.iter().filter(|one| one.over().is_empty()).map(|one| one.of()).collect::<BTreeSet<_>>().len()
}

/// What the entries of one action did, and to what; nothing without entries.
fn action_of(entries: &[&Arc<Entry>]) -> Option<Action> {
    // The first entry of an action is on the record the weaver acted on.
    let entry = entries.first()?;
    let entry_kind = entry.kind().as_str();
    let alike = entries.iter().all(|one| one.kind() == entry.kind());
    let count = begun(entries);
    if count > 1 && alike && [kind::SITTING, kind::WARP].contains(&entry_kind) {
        let subject =
            if entry_kind == kind::SITTING { ActionSubject::Sittings(count) } else { ActionSubject::Warps(count) };
        return Some(Action { subject, verb: ActionVerb::Imported });
    }
    let subject = match entry_kind {
        kind::WARP => ActionSubject::Warp,
        kind::SITTING => ActionSubject::Sitting,
        kind::PHOTO => ActionSubject::Photo,
        kind::WEFT => ActionSubject::WeftYarn,
        kind::PLACE => ActionSubject::SequencePlace,
        kind::READING => ActionSubject::Reading,
        kind::WEIGHING => ActionSubject::Weighing,
        kind::JOIN => ActionSubject::YarnJoined,
        kind::FINISHING => ActionSubject::FinishingStep,
        kind::PLAN => ActionSubject::Plan,
        kind::SETTINGS => ActionSubject::Setting,
        _ => ActionSubject::Unknown,
    };
    let begins = entry.over().is_empty() && !finishing::lays_out(entry);
    let is_off = entry.set().get(warp::STATE).and_then(Value::as_str) == Some("off_the_loom");
    let verb = match entry.set().get(GONE) {
        Some(Value::Bool(true)) => ActionVerb::Removed,
        Some(_) if entry_kind != kind::SETTINGS && !finishing::lays_out(entry) => ActionVerb::Restored,
        // What is begun here is begun on the loom.
        None if is_off && begins => ActionVerb::Imported,
        None if is_off => ActionVerb::CutOff,
        None if begins => match entry_kind {
            kind::WARP => ActionVerb::Begun,
            kind::SITTING => ActionVerb::Logged,
            kind::PLACE => ActionVerb::Set,
            kind::SETTINGS => ActionVerb::Chosen,
            kind::PLAN => ActionVerb::Kept,
            kind::READING | kind::WEIGHING | kind::JOIN => ActionVerb::Noted,
            _ => ActionVerb::Added,
        },
        _ => ActionVerb::Changed,
    };
    Some(Action { subject, verb })
}

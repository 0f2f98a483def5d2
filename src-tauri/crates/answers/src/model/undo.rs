//! Taking back: the latest action of this device that still stands, answered by entries that restore what was there.
//!
//! A pure function of the journal's state, so undo works after a restart, and on the command line.

use std::collections::BTreeSet;
use std::sync::Arc;

use fellmark_journal::{At, DeviceId, Draft, Entry, GONE, Journal, Key, State};
use serde_json::{Value, json};

use crate::model::fields::{ACT, kind, warp};
use crate::model::finishing;
use crate::model::forms::FieldMap;
use crate::present::words::listed;

/// What an undoing entry's `act` begins with.
const UNDO: &str = "undo ";

/// An action that can be taken back.
#[derive(Clone, Debug)]
pub struct Undoable {
    /// What it was, to stand behind "Undo:": "the sitting was logged".
    pub what: String,
    /// The entries that take it back.
    pub drafts: Vec<Draft>,
    /// The other devices whose words go with it, as they changed meanwhile what is taken away as a whole.
    pub elsewhere: BTreeSet<DeviceId>,
    /// What is taken away as a whole, and what was done with it: "the sitting", "was logged".
    told: (String, String),
}

/// What was taken back.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Undone {
    /// What it was: "the sitting was logged".
    pub what: String,
    /// What she should know of it besides: that another device's words went with it, and where they are.
    pub note: Option<String>,
}

impl Undoable {
    /// The names of the other devices, as a sentence has them.
    fn names(&self, journal: &Journal) -> Option<String> {
        let devices = journal.devices();
        let names: Vec<&str> = self
            .elsewhere
            .iter()
            .map(|id| devices.iter().find(|one| one.id == *id).map_or(id.as_str(), |one| one.name.as_str()))
            .collect();
        (!names.is_empty()).then(|| listed(&names))
    }

    /// What it was; and beforehand, that another device has had a hand in it since.
    #[must_use]
    pub fn words(&self, journal: &Journal) -> String {
        let Some(names) = self.names(journal) else { return self.what.clone() };
        let has = if self.elsewhere.len() == 1 { "has" } else { "have" };
        let thing = &self.told.0;
        let thing = if self.what.starts_with(thing) { if self.many() { "them" } else { "it" } } else { thing };
        format!("{} ({names} {has} {} {thing} since)", self.what, self.changed())
    }

    /// That another device's words went with it, and where she finds them.
    #[must_use]
    pub fn note(&self, journal: &Journal) -> Option<String> {
        let names = self.names(journal)?;
        let (thing, deed) = &self.told;
        let many = self.many();
        let (they, went) = if many { ("they", "them") } else { ("it", "it") };
        let place = match thing.rsplit(' ').next() {
            Some("sitting" | "sittings") => Some("the removed sittings, below the others of the warp"),
            Some("warp" | "warps") => Some("the removed warps, under Off the loom"),
            _ => None,
        };
        let then = match place {
            Some(place) if many => format!("Bring back what should stay from {place}."),
            Some(place) => format!("To have it again, with what {names} wrote, bring it back from {place}."),
            None => format!("What {names} wrote is kept in the folder."),
        };
        let thing = if many { "some of what was brought in" } else { thing };
        Some(format!(
            "{names} had {} {thing} since {they} {deed} here, and that went with {went}. {then}",
            self.changed()
        ))
    }

    fn many(&self) -> bool {
        self.told.1.starts_with("were ")
    }

    fn changed(&self) -> &'static str {
        if self.told.0.ends_with("warp") { "written on" } else { "changed" }
    }
}

/// What undo would take back, for a button; nothing when there is nothing to take back.
#[must_use]
pub fn words(journal: &Journal) -> Option<String> {
    undoable(journal.state(), journal.device()).map(|found| found.words(journal))
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
            entries.retain(|entry| !only_lays_out(entry));
            let (thing, deed) = what_it_was(&entries);
            let what = format!("{thing} {deed}");
            let whole: Vec<_> = entries.into_iter().filter(|entry| goes_as_a_whole(entry)).collect();
            let elsewhere = whole.iter().flat_map(|entry| written_elsewhere(state, entry, device)).collect();
            return Some(Undoable { what, drafts, elsewhere, told: what_it_was(&whole) });
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
fn answer_to(state: &State, entry: &Entry, act: &str) -> Option<Draft> {
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
    let mut draft = Draft::on(record, set);
    draft.over.retain(|key| !others.contains(key));
    Some(draft)
}

/// The other devices whose words stand in what an entry began: in its record, and for a warp in all that is written on it.
fn written_elsewhere(state: &State, entry: &Entry, device: &DeviceId) -> BTreeSet<DeviceId> {
    let own = state.record(entry.of());
    let of_warp = own.filter(|record| record.kind.as_str() == kind::WARP).map(|record| state.of_warp(&record.id));
    let records = own.into_iter().chain(of_warp.into_iter().flatten()).filter(|record| record.is_visible());
    let heads = records.flat_map(|record| &record.heads).filter_map(|key| state.entry(*key));
    heads.map(|head| head.by()).filter(|by| *by != device).cloned().collect()
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

/// The entry that stood in a field before another. What lays a finishing step out begins it anew: nothing stood before that.
fn before<'a>(state: &'a State, entry: &Entry, field: &str) -> Option<&'a Arc<Entry>> {
    if finishing::lays_out(entry) {
        return None;
    }
    let named = entry.over().iter().filter_map(|key| state.entry(*key));
    let wrote = named.filter(|earlier| earlier.of() == entry.of() && earlier.set().contains_key(field));
    wrote.max_by(|a, b| order(a).cmp(&order(b)))
}

/// How many records an action began.
fn begun(entries: &[&Arc<Entry>]) -> usize {
    entries.iter().filter(|one| one.over().is_empty()).map(|one| one.of()).collect::<BTreeSet<_>>().len()
}

/// What she acted on and what she did with it: "the sitting", "was logged"; "12 sittings", "were brought in".
fn what_it_was(entries: &[&Arc<Entry>]) -> (String, String) {
    // The first entry of an action is on the record she acted on.
    let Some(entry) = entries.first() else { return Default::default() };
    let alike = entries.iter().all(|one| one.kind() == entry.kind());
    if begun(entries) > 1 && alike && [kind::SITTING, kind::WARP].contains(&entry.kind().as_str()) {
        let things = if entry.kind().as_str() == kind::SITTING { "sittings" } else { "warps" };
        return (format!("{} {things}", begun(entries)), "were brought in".into());
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
        kind::SETTINGS => "the setting",
        _ => "the last entry",
    };
    let begins = entry.over().is_empty() && !finishing::lays_out(entry);
    let is_off = entry.set().get(warp::STATE).and_then(Value::as_str) == Some("off_the_loom");
    let deed = match entry.set().get(GONE) {
        Some(Value::Bool(true)) => "was removed",
        Some(_) if entry.kind().as_str() != kind::SETTINGS && !finishing::lays_out(entry) => "was restored",
        // What is begun here is begun on the loom.
        None if is_off && begins => "was brought in",
        None if is_off => "was cut off",
        None if begins => match entry.kind().as_str() {
            kind::WARP => "was begun",
            kind::SITTING => "was logged",
            kind::PLACE => "was set",
            kind::SETTINGS => "was chosen",
            kind::PLAN => "was kept",
            kind::READING | kind::WEIGHING | kind::JOIN => "was noted",
            _ => "was added",
        },
        _ => "was changed",
    };
    (thing.into(), deed.into())
}

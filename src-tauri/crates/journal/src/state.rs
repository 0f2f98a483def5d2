//! The state: a set of entries, and what they amount to. Pure: no files, no clock.

use std::collections::hash_map::Entry::Vacant;
use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::sync::{Arc, OnceLock};

use crate::entry::Entry;
use crate::ids::{ByBits, Key, Kind, Place, RecordId};
use crate::record::{Presence, Record};

/// A set of entries by key. Merging is union; the view of each record is worked out when it is asked for, and
/// again only when an entry of that record arrives.
#[derive(Debug, Clone, Default)]
pub struct State {
    entries: HashMap<Key, Arc<Entry>, ByBits>,
    records: BTreeMap<RecordId, Cell>,
    warps: BTreeMap<RecordId, BTreeSet<RecordId>>,
    /// See [`State::version_of_warp`].
    versions: HashMap<Place, u128>,
    /// Set once the many records that came together were worked out together.
    worked_out: OnceLock<()>,
}

/// Fewer records than this are worked out one after the other.
const RECORDS_FOR_THREADS: usize = 2048;
/// More threads than this only wait for the memory.
const THREADS_MAX: usize = 4;

#[derive(Debug, Clone, Default)]
struct Cell {
    entries: Vec<Arc<Entry>>,
    /// Apart from the cell, so that the tree of records stays small.
    view: OnceLock<Option<Box<Record>>>,
}

fn add_version(versions: &mut HashMap<Place, u128>, place: &Place, number: u128) {
    match versions.get_mut(place) {
        Some(version) => *version = version.wrapping_add(number),
        None => _ = versions.insert(place.clone(), number),
    }
}

impl Cell {
    fn version(&self) -> u128 {
        self.entries.iter().fold(0, |sum, entry| sum.wrapping_add(entry.key().number()))
    }

    fn view(&self) -> Option<&Record> {
        self.view.get_or_init(|| Record::of_entries(&self.entries).map(Box::new)).as_deref()
    }
}

impl State {
    /// No entries.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds an entry; `false` when it was there.
    pub fn insert(&mut self, entry: impl Into<Arc<Entry>>) -> bool {
        let entry = entry.into();
        if self.entries.contains_key(&entry.key()) {
            return false;
        }
        let cell = self.records.entry(entry.of().clone()).or_default();
        let before: BTreeSet<&Place> = cell.entries.iter().map(|entry| entry.place()).collect();
        for place in &before {
            add_version(&mut self.versions, place, entry.key().number());
        }
        if !before.contains(entry.place()) {
            let sum = cell.version().wrapping_add(entry.key().number());
            add_version(&mut self.versions, entry.place(), sum);
        }
        cell.entries.push(Arc::clone(&entry));
        cell.view.take();
        if let Some(warp) = entry.place().warp_id() {
            match self.warps.get_mut(warp) {
                Some(records) => {
                    records.insert(entry.of().clone());
                }
                None => {
                    self.warps.insert(warp.clone(), BTreeSet::from([entry.of().clone()]));
                }
            }
        }
        self.entries.insert(entry.key(), entry);
        true
    }

    /// Adds many entries at once.
    pub(crate) fn extend(&mut self, entries: Vec<Arc<Entry>>) {
        if !self.is_empty() {
            for entry in entries {
                self.insert(entry);
            }
            return;
        }
        self.worked_out.take();
        self.entries.reserve(entries.len());
        let mut fresh: Vec<(u128, Arc<Entry>)> = Vec::with_capacity(entries.len());
        for entry in entries {
            if let Vacant(place) = self.entries.entry(entry.key()) {
                place.insert(Arc::clone(&entry));
                fresh.push((entry.of().leading(), entry));
            }
        }
        // Built in the order they will have: much sooner done than one by one.
        fresh.sort_unstable_by(|a, b| a.0.cmp(&b.0).then_with(|| a.1.of().cmp(b.1.of())));
        let mut records: Vec<(RecordId, Cell)> = Vec::with_capacity(fresh.len());
        let mut warps: HashMap<RecordId, Vec<RecordId>> = HashMap::new();
        for (_, entry) in fresh {
            if let Some(warp) = entry.place().warp_id() {
                let known = match warps.get_mut(warp) {
                    Some(known) => known,
                    None => warps.entry(warp.clone()).or_default(),
                };
                if known.last() != Some(entry.of()) {
                    known.push(entry.of().clone());
                }
            }
            match records.last_mut() {
                Some((id, cell)) if id == entry.of() => cell.entries.push(entry),
                _ => records.push((entry.of().clone(), Cell { entries: vec![entry], view: OnceLock::new() })),
            }
        }
        for (_, cell) in &records {
            let places: BTreeSet<&Place> = cell.entries.iter().map(|entry| entry.place()).collect();
            for place in places {
                add_version(&mut self.versions, place, cell.version());
            }
        }
        self.records = records.into_iter().collect();
        self.warps = warps.into_iter().map(|(warp, records)| (warp, records.into_iter().collect())).collect();
    }

    /// Adds all entries of another state.
    pub fn merge(&mut self, other: &Self) {
        for entry in other.entries.values() {
            self.insert(Arc::clone(entry));
        }
    }

    /// How many entries there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.entries.len()
    }

    /// Whether there is no entry.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.entries.is_empty()
    }

    /// Whether an entry is there.
    #[must_use]
    pub fn contains(&self, key: Key) -> bool {
        self.entries.contains_key(&key)
    }

    /// One entry.
    #[must_use]
    pub fn entry(&self, key: Key) -> Option<&Arc<Entry>> {
        self.entries.get(&key)
    }

    /// All entries, in no order.
    pub fn entries(&self) -> impl Iterator<Item = &Arc<Entry>> {
        self.entries.values()
    }

    /// The entries of one record, in no order: its history.
    #[must_use]
    pub fn history(&self, id: &RecordId) -> &[Arc<Entry>] {
        self.records.get(id).map(|cell| cell.entries.as_slice()).unwrap_or_default()
    }

    /// All records by id, the removed ones too.
    pub fn records(&self) -> impl Iterator<Item = &Record> {
        self.worked_out.get_or_init(|| self.work_out());
        self.records.values().filter_map(Cell::view)
    }

    /// Works out all records on several threads, if there are many.
    fn work_out(&self) {
        let threads = std::thread::available_parallelism().map_or(1, std::num::NonZero::get).min(THREADS_MAX);
        if threads == 1 || self.records.len() < RECORDS_FOR_THREADS {
            return;
        }
        let waiting: Vec<&Cell> = self.records.values().filter(|cell| cell.view.get().is_none()).collect();
        std::thread::scope(|scope| {
            for part in waiting.chunks(waiting.len().div_ceil(threads).max(1)) {
                scope.spawn(|| part.iter().for_each(|cell| _ = cell.view()));
            }
        });
    }

    /// One record.
    #[must_use]
    pub fn record(&self, id: &RecordId) -> Option<&Record> {
        self.records.get(id).and_then(Cell::view)
    }

    /// The records of one kind, the removed ones too.
    pub fn of_kind(&self, kind: &Kind) -> impl Iterator<Item = &Record> {
        self.records().filter(move |record| record.kind == *kind)
    }

    /// The records that belong to one warp, the warp's own among them, the removed ones too.
    pub fn of_warp(&self, warp: &RecordId) -> impl Iterator<Item = &Record> {
        self.warps
            .get(warp)
            .into_iter()
            .flatten()
            .filter_map(|id| self.record(id))
            .filter(move |record| record.place.warp_id() == Some(warp))
    }

    /// The ids of all warps that any entry belongs to.
    pub fn warp_ids(&self) -> impl Iterator<Item = &RecordId> {
        self.warps.keys()
    }

    /// The version of what is known of a warp: a pure function of the set of all entries of the records that belong to it,
    /// or did by any of their entries. The order of arrival makes no difference, nor does the device, nor a restart; any
    /// entry more makes another version. So what was worked out from a warp's records may be kept under it, on a disk too.
    /// 0 when no entry belongs to it.
    #[must_use]
    pub fn version_of_warp(&self, warp: &RecordId) -> u128 {
        self.versions.get(&Place::warp(warp)).copied().unwrap_or(0)
    }

    /// The same of what belongs to no warp.
    #[must_use]
    pub fn version_of_shelf(&self) -> u128 {
        self.versions.get(&Place::Shelf).copied().unwrap_or(0)
    }

    /// How many questions wait for her: fields with several answers, and records removed here and edited there.
    #[must_use]
    pub fn two_answers(&self) -> usize {
        self.records()
            .filter(|record| record.is_visible())
            .map(|record| record.unsettled().count() + usize::from(record.presence == Presence::RemovedHereEditedThere))
            .sum()
    }
}

impl PartialEq for State {
    fn eq(&self, other: &Self) -> bool {
        self.entries.len() == other.entries.len() && self.entries.keys().all(|key| other.entries.contains_key(key))
    }
}
impl Eq for State {}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test")]
mod tests {
    use super::*;
    use crate::entry::Draft;

    fn entry(of: &str, place: Place, minutes: u32, over: Vec<Key>) -> Arc<Entry> {
        let set = serde_json::Map::from_iter([("minutes".to_owned(), minutes.into())]);
        let draft = Draft { over, ..Draft::new(place, of.parse().unwrap(), Kind::SITTING, set) };
        let at = crate::clock::At::carried("2026-05-31T18:04:05.123Z.0000").unwrap();
        Arc::new(Entry::from_draft(draft, &"a-device".parse().unwrap(), at).unwrap())
    }

    #[test]
    fn a_version_follows_from_the_set_of_entries_alone() {
        let (one, two): (RecordId, RecordId) = ("one".parse().unwrap(), "two".parse().unwrap());
        let first = entry("r", Place::warp(&one), 1, Vec::new());
        let all = [
            Arc::clone(&first),
            entry("r", Place::warp(&one), 2, vec![first.key()]),
            entry("s", Place::warp(&two), 3, Vec::new()),
            entry("t", Place::Shelf, 4, Vec::new()),
            // A record that is told to belong elsewhere, too.
            entry("r", Place::warp(&two), 5, vec![first.key()]),
            entry("r", Place::Shelf, 6, Vec::new()),
        ];
        let versions =
            |state: &State| [state.version_of_warp(&one), state.version_of_warp(&two), state.version_of_shelf()];
        let mut together = State::new();
        together.extend(all.to_vec());
        assert_eq!(State::new().version_of_warp(&one), 0);
        let mut seen = BTreeSet::from([0]);
        for turn in 0..all.len() {
            let mut state = State::new();
            for i in 0..all.len() {
                state.insert(Arc::clone(&all[(i + turn) % all.len()]));
                state.insert(Arc::clone(&all[turn]));
                if turn == 0 {
                    // Every entry changes the version of all that it may change, and of nothing else.
                    let changed = versions(&state).into_iter().filter(|version| seen.insert(*version)).count();
                    assert_eq!(changed, [1, 1, 1, 1, 2, 3][i], "entry {i}");
                }
            }
            assert_eq!(versions(&state), versions(&together), "turn {turn}");
        }
    }
}

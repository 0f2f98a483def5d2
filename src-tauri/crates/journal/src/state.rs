//! The state: a set of entries, and what they amount to. Pure: no files, no clock.

use std::collections::BTreeMap;
use std::hash::{BuildHasher, Hasher};
use std::sync::{Arc, OnceLock};

use hashbrown::HashTable;

use crate::cell::Cell;
use crate::entry::Entry;
use crate::ids::{ByBits, Key, KeySum, Kind, Place, RecordId};
use crate::record::{Presence, Record};
use crate::threads;

/// A set of entries by key. Merging is union; the view of each record is worked out when it is asked for, and
/// again only when an entry of that record arrives.
#[derive(Debug, Clone, Default)]
pub struct State {
    /// One for each record, in the order of arrival; what follows names them by their numbers.
    cells: Vec<Cell>,
    by_id: HashTable<u32>,
    /// Each entry: its cell, and which of that cell's it is.
    by_key: HashTable<(u32, u32)>,
    hasher: ByBits,
    sum: KeySum,
    groups: Vec<Group>,
    places: BTreeMap<Place, u32>,
    /// Records with more than one entry.
    several: Vec<u32>,
    /// Records by id, once somebody asked for that.
    ordered: OnceLock<Vec<u32>>,
    /// Set once the many records that came together were worked out together.
    worked_out: OnceLock<()>,
}

/// An entry that may be new, with what it is found by beside it, so that it need not be fetched from far to be looked up.
#[derive(Debug)]
pub(crate) struct Fresh {
    key: Key,
    /// The hash of its record's id.
    of_id: u64,
    entry: Arc<Entry>,
}

impl From<Arc<Entry>> for Fresh {
    fn from(entry: Arc<Entry>) -> Self {
        Self { key: entry.key(), of_id: hash_id(&ByBits::default(), entry.of()), entry }
    }
}

impl Fresh {
    pub(crate) fn into_entry(self) -> Arc<Entry> {
        self.entry
    }
}

/// The records of one place.
#[derive(Debug, Clone, Default)]
struct Group {
    records: Vec<u32>,
    /// The same by id, once somebody asked for that.
    ordered: OnceLock<Vec<u32>>,
    /// See [`State::version_of_warp`].
    version: u128,
}

/// Fewer records than this are worked out one after the other.
const RECORDS_FOR_THREADS: usize = 2048;

impl State {
    /// No entries.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds an entry; `false` when it was there.
    pub fn insert(&mut self, entry: impl Into<Arc<Entry>>) -> bool {
        self.add(entry.into())
    }

    /// Adds the entries of many files at once, about `count`, each file with the place of all its entries if they have one.
    pub(crate) fn extend(&mut self, count: usize, files: Vec<(Option<Place>, Vec<Fresh>)>) {
        if self.is_empty() {
            self.worked_out.take();
            let (cells, hasher) = (&self.cells, &self.hasher);
            self.by_key.reserve(count, |at| hash_of(hasher, cells, *at));
            self.by_id.reserve(count, |at| hash_of_id(hasher, cells, *at));
            self.cells.reserve(count);
        }
        for (place, entries) in files {
            let only = place.map(|place| self.group(&place));
            for fresh in entries {
                let group = only.unwrap_or_else(|| self.group(fresh.entry.place()));
                self.add_to(fresh, group);
            }
        }
    }

    fn add(&mut self, entry: Arc<Entry>) -> bool {
        let group = self.group(entry.place());
        self.add_to(entry.into(), group)
    }

    /// The number of a place's group, which is made if need be.
    fn group(&mut self, place: &Place) -> u32 {
        if let Some(known) = self.places.get(place) {
            return *known;
        }
        let group = number(self.groups.len());
        self.groups.push(Group::default());
        self.places.insert(place.clone(), group);
        group
    }

    /// Adds an entry whose place has this group.
    fn add_to(&mut self, fresh: Fresh, group: u32) -> bool {
        let Fresh { key, of_id, entry } = fresh;
        let hash = self.hasher.hash_one(key);
        if self.by_key.find(hash, |at| key_at(&self.cells, *at) == Some(key)).is_some() {
            return false;
        }
        let known = self.by_id.find(of_id, |at| self.cells[*at as usize].id() == Some(entry.of())).copied();
        let at = match known {
            Some(at) => {
                self.note_in_group(at, &entry, group);
                let cell = &mut self.cells[at as usize];
                cell.push(entry);
                if cell.entries().len() == 2 {
                    self.several.push(at);
                }
                at
            }
            None => self.begin(entry, key, group, of_id),
        };
        let nth = number(self.cells[at as usize].entries().len()).saturating_sub(1);
        let (cells, hasher) = (&self.cells, &self.hasher);
        self.by_key.insert_unique(hash, (at, nth), |at| hash_of(hasher, cells, *at));
        self.sum.add(key);
        true
    }

    /// Begins a record with its first entry.
    fn begin(&mut self, entry: Arc<Entry>, key: Key, group: u32, of_id: u64) -> u32 {
        let at = number(self.cells.len());
        self.cells.push(Cell::new(entry, group));
        let (cells, hasher) = (&self.cells, &self.hasher);
        self.by_id.insert_unique(of_id, at, |at| hash_of_id(hasher, cells, *at));
        if let Some(ordered) = self.ordered.get_mut() {
            put_in_order(cells, ordered, at);
        }
        self.groups[group as usize].take(cells, at, key.number());
        at
    }

    /// Takes note of a further entry of a record in the groups of all places that the record is told to belong to.
    fn note_in_group(&mut self, at: u32, entry: &Entry, group: u32) {
        let cell = &self.cells[at as usize];
        let version = entry.key().number();
        if cell.is_only_in(group) {
            let known = &mut self.groups[group as usize].version;
            *known = known.wrapping_add(version);
            return;
        }
        let mut told: Vec<u32> =
            cell.entries().iter().filter_map(|entry| self.places.get(entry.place())).copied().collect();
        told.sort_unstable();
        told.dedup();
        for known in &told {
            let known = &mut self.groups[*known as usize].version;
            *known = known.wrapping_add(version);
        }
        if !told.contains(&group) {
            let version = version.wrapping_add(cell.version());
            self.groups[group as usize].take(&self.cells, at, version);
            self.cells[at as usize].is_in_several_groups();
        }
    }

    /// Adds all entries of another state.
    pub fn merge(&mut self, other: &Self) {
        for entry in other.entries() {
            self.insert(Arc::clone(entry));
        }
    }

    /// How many entries there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.by_key.len()
    }

    /// Whether there is no entry.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.by_key.is_empty()
    }

    /// What tells this set of keys from others, in this process.
    pub(crate) fn sum(&self) -> KeySum {
        self.sum
    }

    /// Whether an entry is there.
    #[must_use]
    pub fn contains(&self, key: Key) -> bool {
        self.entry(key).is_some()
    }

    /// One entry.
    #[must_use]
    pub fn entry(&self, key: Key) -> Option<&Arc<Entry>> {
        let found = self.by_key.find(self.hasher.hash_one(key), |at| key_at(&self.cells, *at) == Some(key));
        found.and_then(|at| entry_at(&self.cells, *at))
    }

    /// All entries, in no order.
    pub fn entries(&self) -> impl Iterator<Item = &Arc<Entry>> {
        self.cells.iter().flat_map(Cell::entries)
    }

    /// The entries of one record, in no order: its history.
    #[must_use]
    pub fn history(&self, id: &RecordId) -> &[Arc<Entry>] {
        self.cell(id).map(Cell::entries).unwrap_or_default()
    }

    fn cell(&self, id: &RecordId) -> Option<&Cell> {
        let found = self.by_id.find(hash_id(&self.hasher, id), |at| self.cells[*at as usize].id() == Some(id));
        found.map(|at| &self.cells[*at as usize])
    }

    /// All records by id, the removed ones too.
    pub fn records(&self) -> impl Iterator<Item = &Record> {
        self.worked_out.get_or_init(|| self.work_out());
        let ordered = self.ordered.get_or_init(|| in_order(&self.cells, (0..number(self.cells.len())).collect()));
        ordered.iter().filter_map(|at| self.cells[*at as usize].view())
    }

    /// Works out all records on several threads, if there are many.
    fn work_out(&self) {
        if self.cells.len() >= RECORDS_FOR_THREADS {
            threads::each(&self.cells, 0, 256, |cell| _ = cell.view());
        }
    }

    /// One record.
    #[must_use]
    pub fn record(&self, id: &RecordId) -> Option<&Record> {
        self.cell(id).and_then(Cell::view)
    }

    /// The records of one kind, the removed ones too.
    pub fn of_kind(&self, kind: &Kind) -> impl Iterator<Item = &Record> {
        self.records().filter(move |record| record.kind == *kind)
    }

    /// The records that belong to one warp by id, the warp's own among them, the removed ones too.
    pub fn of_warp(&self, warp: &RecordId) -> impl Iterator<Item = &Record> {
        self.group_of(&Place::warp(warp))
            .into_iter()
            .flat_map(|group| group.ordered.get_or_init(|| in_order(&self.cells, group.records.clone())))
            .filter_map(|at| self.cells[*at as usize].view())
            .filter(move |record| record.place.warp_id() == Some(warp))
    }

    fn group_of(&self, place: &Place) -> Option<&Group> {
        self.places.get(place).map(|group| &self.groups[*group as usize])
    }

    /// The ids of all warps that any entry belongs to.
    pub fn warp_ids(&self) -> impl Iterator<Item = &RecordId> {
        self.places.keys().filter_map(Place::warp_id)
    }

    /// The version of what is known of a warp: a pure function of the set of all entries of the records that belong to it,
    /// or did by any of their entries. The order of arrival makes no difference, nor does the device, nor a restart; any
    /// entry more makes another version. So what was worked out from a warp's records may be kept under it, on a disk too.
    /// 0 when no entry belongs to it.
    #[must_use]
    pub fn version_of_warp(&self, warp: &RecordId) -> u128 {
        self.group_of(&Place::warp(warp)).map_or(0, |group| group.version)
    }

    /// The same of what belongs to no warp.
    #[must_use]
    pub fn version_of_shelf(&self) -> u128 {
        self.group_of(&Place::Shelf).map_or(0, |group| group.version)
    }

    /// How many questions wait for her: fields with several answers, and records removed here and edited there.
    #[must_use]
    pub fn two_answers(&self) -> usize {
        // One entry alone raises no question.
        let asking = self.several.iter().map(|at| &self.cells[*at as usize]).filter(|cell| !cell.is_plainly_settled());
        asking
            .filter_map(Cell::view)
            .filter(|record| record.is_visible())
            .map(|record| record.unsettled().count() + usize::from(record.presence == Presence::RemovedHereEditedThere))
            .sum()
    }
}

impl Group {
    /// Takes in a record that this place did not have, and the versions of all its entries.
    fn take(&mut self, cells: &[Cell], at: u32, version: u128) {
        self.records.push(at);
        if let Some(ordered) = self.ordered.get_mut() {
            put_in_order(cells, ordered, at);
        }
        self.version = self.version.wrapping_add(version);
    }
}

/// A place in a list as a number. There are never so many: each stands for a line of some hundred bytes.
fn number(at: usize) -> u32 {
    u32::try_from(at).unwrap_or(u32::MAX)
}

fn entry_at(cells: &[Cell], (cell, nth): (u32, u32)) -> Option<&Arc<Entry>> {
    cells.get(cell as usize)?.entries().get(nth as usize)
}

fn key_at(cells: &[Cell], at: (u32, u32)) -> Option<Key> {
    entry_at(cells, at).map(|entry| entry.key())
}

fn hash_of(hasher: &ByBits, cells: &[Cell], at: (u32, u32)) -> u64 {
    key_at(cells, at).map_or(0, |key| hasher.hash_one(key))
}

fn hash_id(hasher: &ByBits, id: &RecordId) -> u64 {
    let mut hash = hasher.build_hasher();
    hash.write(id.as_bytes());
    hash.finish()
}

fn hash_of_id(hasher: &ByBits, cells: &[Cell], at: u32) -> u64 {
    cells.get(at as usize).and_then(Cell::id).map_or(0, |id| hash_id(hasher, id))
}

fn in_order(cells: &[Cell], mut list: Vec<u32>) -> Vec<u32> {
    list.sort_unstable_by(|a, b| cells[*a as usize].id().cmp(&cells[*b as usize].id()));
    list
}

fn put_in_order(cells: &[Cell], list: &mut Vec<u32>, at: u32) {
    let id = cells[at as usize].id();
    let place = list.partition_point(|other| cells[*other as usize].id() < id);
    list.insert(place, at);
}

impl PartialEq for State {
    fn eq(&self, other: &Self) -> bool {
        self.len() == other.len() && self.entries().all(|entry| other.contains(entry.key()))
    }
}
impl Eq for State {}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test")]
mod tests {
    use std::collections::BTreeSet;

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
        together.extend(all.len(), vec![(None, all.iter().cloned().map(Fresh::from).collect())]);
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

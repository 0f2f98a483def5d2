//! The state: a set of entries, and what they amount to. Pure: no files, no clock.

use std::collections::HashMap;
use std::sync::{Arc, OnceLock};

use foldhash::fast::RandomState;
use indexmap::IndexMap;
use indexmap::map::Entry as Slot;

use crate::format::entry::Entry;
use crate::format::ids::{DeviceId, Key, Kind, Place, RecordId};
use crate::record::Record;

/// A set of entries by key. Merging is union; each record is computed when it is asked for, and again only when an entry
/// of that record arrives.
#[derive(Debug, Clone, Default)]
pub struct EntrySet {
    /// In the order in which they came: what lies together in the folder lies together in memory.
    entries: IndexMap<Key, Arc<Entry>, RandomState>,
    records: IndexMap<RecordId, RecordEntries, RandomState>,
    places: HashMap<Place, PlaceRecords, RandomState>,
}

/// The entries of one record.
#[derive(Debug, Clone, Default)]
struct RecordEntries {
    entries: Vec<Arc<Entry>>,
    computed: OnceLock<Option<Box<Record>>>,
}

/// The records that belong to a place by any of their entries.
#[derive(Debug, Clone, Default)]
struct PlaceRecords {
    /// Where each of them stands among all records, in no order.
    positions: Vec<usize>,
    version: u128,
}

impl PlaceRecords {
    fn add_to_version(&mut self, entry: &Entry) {
        self.version = self.version.wrapping_add(entry.key().number());
    }
}

impl RecordEntries {
    fn record(&self) -> Option<&Record> {
        self.computed.get_or_init(|| Record::from_entries(&self.entries).map(Box::new)).as_deref()
    }
}

impl EntrySet {
    /// No entries.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds an entry; `false` when it was there.
    pub fn insert(&mut self, entry: impl Into<Arc<Entry>>) -> bool {
        let entry = entry.into();
        match self.entries.entry(entry.key()) {
            Slot::Occupied(_) => return false,
            Slot::Vacant(slot) => _ = slot.insert(Arc::clone(&entry)),
        }
        let record = self.records.entry(entry.of().clone());
        let position = record.index();
        let record = record.or_default();
        let here = self.places.entry(entry.place().clone()).or_default();
        here.add_to_version(&entry);
        if !record.entries.iter().any(|one| one.place() == entry.place()) {
            here.positions.push(position);
            record.entries.iter().for_each(|earlier| here.add_to_version(earlier));
        }
        let mut elsewhere: Vec<&Place> =
            record.entries.iter().map(|one| one.place()).filter(|place| *place != entry.place()).collect();
        elsewhere.sort_unstable();
        elsewhere.dedup();
        for place in elsewhere {
            if let Some(records) = self.places.get_mut(place) {
                records.add_to_version(&entry);
            }
        }
        record.computed.take();
        // Most records have one entry; a vector would make room for four.
        record.entries.reserve_exact(1);
        record.entries.push(entry);
        true
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

    /// All entries, in the order in which they came.
    pub fn entries(&self) -> impl Iterator<Item = &Arc<Entry>> {
        self.entries.values()
    }

    /// The entries that a device wrote, the latest first by its clock, then by key.
    pub fn latest_by(&self, device: &DeviceId) -> impl Iterator<Item = &Arc<Entry>> + use<'_> {
        let mut own: Vec<&Arc<Entry>> = self.entries().filter(|entry| entry.by() == device).collect();
        own.sort_unstable_by(|one, other| other.order().cmp(&one.order()));
        own.into_iter()
    }

    /// The entries of one record, in no order: its history.
    pub fn history(&self, id: &RecordId) -> impl Iterator<Item = &Arc<Entry>> {
        self.records.get(id).into_iter().flat_map(|record| &record.entries)
    }

    /// All records by id, the removed ones too.
    pub fn records(&self) -> impl Iterator<Item = &Record> {
        let mut records: Vec<(&RecordId, &RecordEntries)> = self.records.iter().collect();
        records.sort_unstable_by_key(|(id, _)| *id);
        records.into_iter().filter_map(|(_, record)| record.record())
    }

    /// One record.
    #[must_use]
    pub fn record(&self, id: &RecordId) -> Option<&Record> {
        self.records.get(id)?.record()
    }

    /// The records of one kind, the removed ones too.
    pub fn of_kind(&self, kind: &Kind) -> impl Iterator<Item = &Record> {
        self.records().filter(move |record| record.kind == *kind)
    }

    /// The records that belong to one warp by id, the warp's own among them, the removed ones too.
    pub fn of_warp(&self, warp: &RecordId) -> impl Iterator<Item = &Record> {
        self.of_place(Place::warp(warp))
    }

    /// The records that belong to no warp, by id, the removed ones too.
    pub fn of_shelf(&self) -> impl Iterator<Item = &Record> {
        self.of_place(Place::Shelf)
    }

    fn of_place(&self, place: Place) -> impl Iterator<Item = &Record> + use<'_> {
        let positions = self.places.get(&place).into_iter().flat_map(|records| &records.positions);
        let mut records: Vec<(&RecordId, &RecordEntries)> =
            positions.filter_map(|position| self.records.get_index(*position)).collect();
        records.sort_unstable_by_key(|(id, _)| *id);
        records.into_iter().filter_map(|(_, record)| record.record()).filter(move |record| record.place == place)
    }

    /// The ids of all warps that any entry belongs to, in order.
    pub fn warp_ids(&self) -> impl Iterator<Item = &RecordId> {
        let mut ids: Vec<&RecordId> = self.places.keys().filter_map(Place::warp_id).collect();
        ids.sort_unstable();
        ids.into_iter()
    }

    /// The version of what is known of a warp: a pure function of the set of all entries of the records that belong to it,
    /// or did by any of their entries (the sum of their keys). The order of arrival makes no difference; any further entry
    /// makes another version. 0 when no entry belongs to it.
    #[must_use]
    pub fn version_of_warp(&self, warp: &RecordId) -> u128 {
        self.version_of(&Place::warp(warp))
    }

    /// The same of what belongs to no warp.
    #[must_use]
    pub fn version_of_shelf(&self) -> u128 {
        self.version_of(&Place::Shelf)
    }

    fn version_of(&self, place: &Place) -> u128 {
        self.places.get(place).map_or(0, |records| records.version)
    }
}

impl PartialEq for EntrySet {
    fn eq(&self, other: &Self) -> bool {
        self.len() == other.len() && self.entries.keys().all(|key| other.contains(*key))
    }
}
impl Eq for EntrySet {}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test")]
mod tests {
    use std::collections::BTreeSet;

    use super::*;
    use crate::format::entry::EntryDraft;

    fn entry(of: &str, place: Place, minutes: u32, over: Vec<Key>) -> Arc<Entry> {
        let set = serde_json::Map::from_iter([("minutes".to_owned(), minutes.into())]);
        let draft = EntryDraft { over, ..EntryDraft::new(place, of.parse().unwrap(), Kind::SITTING, set) };
        let at = crate::format::clock::At::carried("2026-05-31T18:04:05.123Z.0000").unwrap();
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
            // A record that is said to belong elsewhere, too.
            entry("r", Place::warp(&two), 5, vec![first.key()]),
            entry("r", Place::Shelf, 6, Vec::new()),
        ];
        let versions =
            |state: &EntrySet| [state.version_of_warp(&one), state.version_of_warp(&two), state.version_of_shelf()];
        let mut together = EntrySet::new();
        all.iter().for_each(|entry| _ = together.insert(Arc::clone(entry)));
        assert_eq!(EntrySet::new().version_of_warp(&one), 0);
        let mut seen = BTreeSet::from([0]);
        for turn in 0..all.len() {
            let mut state = EntrySet::new();
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

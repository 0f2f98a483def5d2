//! The state: a set of entries, and what they amount to. Pure: no files, no clock.

use std::sync::{Arc, OnceLock};

use crate::cell::Cell;
use crate::cells::{Cells, hash_id};
use crate::entry::Entry;
use crate::ids::{ByBits, DeviceId, Key, KeySum, Kind, Place, RecordId};
use crate::keys::Keys;
use crate::latest::latest_by;
use crate::pool::{Pool, Slot};
use crate::record::{Presence, Record};
use crate::sheet::Sheet;
use crate::threads;

/// A set of entries by key. Merging is union; the view of each record is worked out when it is asked for, and
/// again only when an entry of that record arrives.
#[derive(Debug, Clone, Default)]
pub struct State {
    pool: Pool,
    keys: Keys,
    cells: Cells,
    /// Set once the many records that came together were worked out together.
    worked_out: OnceLock<()>,
}

/// The entries of one file, which may be new, with what they are found by beside them.
#[derive(Debug)]
pub(crate) struct Found {
    pub(crate) keys: Arc<[Key]>,
    /// The hash of each entry's record's id.
    of_ids: Vec<u64>,
    lots: Lots,
}

#[derive(Debug)]
enum Lots {
    Read(Vec<Arc<Entry>>),
    /// All of one place.
    Unread(Sheet),
}

impl Found {
    pub(crate) fn of(keys: Arc<[Key]>, entries: Vec<Arc<Entry>>) -> Self {
        let of_ids = entries.iter().map(|entry| hash_id(ByBits::default(), entry.of().as_bytes())).collect();
        Self { keys, of_ids, lots: Lots::Read(entries) }
    }

    pub(crate) fn unread(sheet: Sheet) -> Self {
        let of_ids = sheet.ids().map(|id| hash_id(ByBits::default(), id)).collect();
        Self { keys: Arc::clone(sheet.keys()), of_ids, lots: Lots::Unread(sheet) }
    }

    /// What has been read; nothing where the entries are still unread.
    pub(crate) fn entries(&self) -> Option<&[Arc<Entry>]> {
        match &self.lots {
            Lots::Read(entries) => Some(entries),
            Lots::Unread(_) => None,
        }
    }

    /// What has been read.
    pub(crate) fn into_entries(self) -> Vec<Arc<Entry>> {
        match self.lots {
            Lots::Read(entries) => entries,
            Lots::Unread(_) => Vec::new(),
        }
    }
}

/// A file's entries that lie in the pool.
struct Pooled {
    first: Slot,
    keys: Arc<[Key]>,
    of_ids: Vec<u64>,
    /// The place of all of them, if they have one.
    place: Option<Place>,
}

/// Fewer records than this are worked out one after the other.
const RECORDS_FOR_THREADS: usize = 2048;
/// Fewer entries than this are added by one thread.
const ENTRIES_FOR_THREADS: usize = 4096;

impl State {
    /// No entries.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds an entry; `false` when it was there.
    pub fn insert(&mut self, entry: impl Into<Arc<Entry>>) -> bool {
        let entry = entry.into();
        if self.contains(entry.key()) {
            return false;
        }
        let (key, of_id) = (entry.key(), hash_id(ByBits::default(), entry.of().as_bytes()));
        let group = self.cells.group(entry.place());
        let slot = self.pool.push(entry);
        self.keys.add(&self.pool, key, slot);
        self.cells.add(&self.pool, slot, key, of_id, group);
        true
    }

    /// Adds the entries of many files at once, each file with the place of all its entries if they have one.
    pub(crate) fn extend(&mut self, files: Vec<(Option<Place>, Found)>) {
        let pool = &mut self.pool;
        let pooled: Vec<Pooled> = files
            .into_iter()
            .map(|(place, Found { keys, of_ids, lots })| {
                let first = match lots {
                    Lots::Read(entries) => pool.push_all(entries),
                    Lots::Unread(sheet) => pool.push_sheet(sheet),
                };
                Pooled { first, keys, of_ids, place }
            })
            .collect();
        let count = pooled.iter().map(|file| file.keys.len()).sum();
        let begun = self.is_empty();
        let (pool, keys, cells) = (&self.pool, &mut self.keys, &mut self.cells);
        if begun {
            self.worked_out.take();
        }
        if begun && count >= ENTRIES_FOR_THREADS {
            // Nearly always no entry lies there twice, and then neither waits for the other.
            let all_new = std::thread::scope(|scope| {
                let adding = scope.spawn(|| {
                    keys.reserve(pool, count);
                    pooled.iter().flat_map(Pooled::slots).all(|(slot, key)| keys.add(pool, key, slot))
                });
                cells.reserve(pool, count);
                add_cells(cells, pool, &pooled, |_| true);
                adding.join().unwrap_or(false)
            });
            if all_new {
                return;
            }
            (*keys, *cells) = (Keys::default(), Cells::default());
        }
        add_cells(cells, pool, &pooled, |(slot, key)| keys.add(pool, key, slot));
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
        self.keys.len()
    }

    /// Whether there is no entry.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// What tells this set of keys from others, in this process.
    pub(crate) fn sum(&self) -> KeySum {
        self.keys.sum()
    }

    /// Whether an entry is there.
    #[must_use]
    pub fn contains(&self, key: Key) -> bool {
        self.keys.find(&self.pool, key).is_some()
    }

    /// One entry.
    #[must_use]
    pub fn entry(&self, key: Key) -> Option<&Arc<Entry>> {
        self.pool.entry(self.keys.find(&self.pool, key)?)
    }

    /// All entries, in no order.
    pub fn entries(&self) -> impl Iterator<Item = &Arc<Entry>> {
        self.cells.all().iter().flat_map(|cell| cell.entries(&self.pool))
    }

    /// The entries that a device wrote, the latest first by its clock, then by key. They are read as they are asked for.
    pub fn latest_by<'a>(&'a self, device: &'a DeviceId) -> impl Iterator<Item = &'a Arc<Entry>> {
        latest_by(&self.pool, device)
    }

    /// The keys of all entries, in no order.
    pub(crate) fn keys(&self) -> impl Iterator<Item = Key> {
        self.cells.all().iter().flat_map(Cell::slots).filter_map(|slot| self.pool.key(*slot))
    }

    /// The entries of one record, in no order: its history.
    pub fn history(&self, id: &RecordId) -> impl Iterator<Item = &Arc<Entry>> {
        let cell = self.cells.find(&self.pool, id.as_bytes());
        cell.into_iter().flat_map(|cell| cell.entries(&self.pool))
    }

    /// All records by id, the removed ones too.
    pub fn records(&self) -> impl Iterator<Item = &Record> {
        self.worked_out.get_or_init(|| self.work_out());
        self.cells.in_order(&self.pool).filter_map(|cell| cell.view(&self.pool))
    }

    /// Works out all records on several threads, if there are many.
    fn work_out(&self) {
        let cells = self.cells.all();
        if cells.len() >= RECORDS_FOR_THREADS {
            threads::each(cells, 0, 256, |cell| _ = cell.view(&self.pool));
        }
    }

    /// One record.
    #[must_use]
    pub fn record(&self, id: &RecordId) -> Option<&Record> {
        self.cells.find(&self.pool, id.as_bytes())?.view(&self.pool)
    }

    /// The records of one kind, the removed ones too.
    pub fn of_kind(&self, kind: &Kind) -> impl Iterator<Item = &Record> {
        self.records().filter(move |record| record.kind == *kind)
    }

    /// The records that belong to one warp by id, the warp's own among them, the removed ones too.
    pub fn of_warp(&self, warp: &RecordId) -> impl Iterator<Item = &Record> {
        self.of_place(Place::warp(warp)).filter(move |record| record.place.warp_id() == Some(warp))
    }

    /// The records that belong to no warp, by id, the removed ones too.
    pub fn of_shelf(&self) -> impl Iterator<Item = &Record> {
        self.of_place(Place::Shelf).filter(|record| record.place == Place::Shelf)
    }

    /// The records that belong to a place by any of their entries.
    fn of_place(&self, place: Place) -> impl Iterator<Item = &Record> + use<'_> {
        self.cells.of_place(&self.pool, &place).filter_map(|cell| cell.view(&self.pool))
    }

    /// The ids of all warps that any entry belongs to.
    pub fn warp_ids(&self) -> impl Iterator<Item = &RecordId> {
        self.cells.places().filter_map(Place::warp_id)
    }

    /// The version of what is known of a warp: a pure function of the set of all entries of the records that belong to it,
    /// or did by any of their entries. The order of arrival makes no difference, nor does the device, nor a restart; any
    /// entry more makes another version. So what was worked out from a warp's records may be kept under it, on a disk too.
    /// 0 when no entry belongs to it.
    #[must_use]
    pub fn version_of_warp(&self, warp: &RecordId) -> u128 {
        self.cells.version_of(&Place::warp(warp))
    }

    /// The same of what belongs to no warp.
    #[must_use]
    pub fn version_of_shelf(&self) -> u128 {
        self.cells.version_of(&Place::Shelf)
    }

    /// How many questions wait for her: fields with several answers, and records removed here and edited there.
    #[must_use]
    pub fn two_answers(&self) -> usize {
        let to_settle = self.cells.to_settle(&self.pool).filter_map(|cell| cell.view(&self.pool));
        to_settle
            .filter(|record| record.is_visible())
            .map(|record| record.unsettled().count() + usize::from(record.presence == Presence::RemovedHereEditedThere))
            .sum()
    }
}

impl Pooled {
    fn slots(&self) -> impl Iterator<Item = (Slot, Key)> {
        self.keys.iter().enumerate().map(|(nth, key)| (self.first.after(nth), *key))
    }
}

/// Adds to the records those entries of some files that are new.
fn add_cells(cells: &mut Cells, pool: &Pool, files: &[Pooled], mut is_new: impl FnMut((Slot, Key)) -> bool) {
    for file in files {
        let only = file.place.as_ref().map(|place| cells.group(place));
        if let Some(group) = only {
            cells.reserve_in(group, file.keys.len());
        }
        for ((slot, key), of_id) in file.slots().zip(&file.of_ids) {
            let group = only.or_else(|| pool.entry(slot).map(|entry| cells.group(entry.place())));
            if let Some(group) = group
                && is_new((slot, key))
            {
                cells.add(pool, slot, key, *of_id, group);
            }
        }
    }
}

impl PartialEq for State {
    fn eq(&self, other: &Self) -> bool {
        self.len() == other.len() && self.keys().all(|key| other.contains(key))
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
    fn many_files_at_once_are_what_their_entries_are_one_by_one() {
        let warps: Vec<RecordId> = (0..7).map(|n| format!("warp-{n}").parse().unwrap()).collect();
        let mut all: Vec<Arc<Entry>> = Vec::new();
        for n in 0..ENTRIES_FOR_THREADS {
            // Every ninth answers an earlier one, and every hundredth of those is told to belong to another warp.
            let over = if n % 9 == 8 { vec![all[n - 3].key()] } else { Vec::new() };
            let of = if n % 9 == 8 { all[n - 3].of().to_string() } else { format!("record-{n}") };
            let warp = &warps[(n / 9 + usize::from(n % 900 == 899)) % 7];
            all.push(entry(&of, Place::warp(warp), n as u32, over));
        }
        let files = |all: &[Arc<Entry>]| -> Vec<(Option<Place>, Found)> {
            let file = |part: &[Arc<Entry>]| {
                let keys = part.iter().map(|entry| entry.key()).collect();
                let only = part.iter().all(|entry| entry.place() == part[0].place());
                (only.then(|| part[0].place().clone()), Found::of(keys, part.to_vec()))
            };
            all.chunks(9).map(file).collect()
        };
        let mut slow = State::new();
        all.iter().for_each(|entry| _ = slow.insert(Arc::clone(entry)));
        let twice: Vec<Arc<Entry>> = all.iter().chain(&all[100..200]).cloned().collect();
        for all in [&all, &twice] {
            let mut state = State::new();
            state.extend(files(all));
            assert_eq!((state.len(), state.sum(), state.two_answers()), (slow.len(), slow.sum(), slow.two_answers()));
            assert!(state.records().eq(slow.records()) && state == slow);
            for warp in &warps {
                assert_eq!(state.version_of_warp(warp), slow.version_of_warp(warp));
                assert!(state.of_warp(warp).eq(slow.of_warp(warp)));
            }
        }
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
        let keys = all.iter().map(|entry| entry.key()).collect();
        together.extend(vec![(None, Found::of(keys, all.to_vec()))]);
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

//! The records of a state, by id and by the place they belong to.

use std::collections::BTreeMap;
use std::hash::{BuildHasher, Hasher};
use std::sync::OnceLock;

use hashbrown::HashTable;

use crate::cell::Cell;
use crate::ids::{ByBits, Key, Place};
use crate::pool::{Pool, Slot, number};

/// See the module.
#[derive(Debug, Clone, Default)]
pub(crate) struct Cells {
    /// One for each record, in the order of arrival; what follows names them by their numbers.
    list: Vec<Cell>,
    by_id: HashTable<u32>,
    hasher: ByBits,
    groups: Vec<Group>,
    places: BTreeMap<Place, u32>,
    /// Records with more than one entry.
    several: Vec<u32>,
    /// Records by id, once somebody asked for that.
    ordered: OnceLock<Vec<u32>>,
}

/// The records of one place.
#[derive(Debug, Clone, Default)]
pub(crate) struct Group {
    records: Vec<u32>,
    /// The same by id, once somebody asked for that.
    ordered: OnceLock<Vec<u32>>,
    /// The sum of the keys of all entries of its records.
    version: u128,
}

impl Cells {
    /// Makes room for so many more.
    pub(crate) fn reserve(&mut self, pool: &Pool, count: usize) {
        self.list.reserve(count);
        self.by_id.reserve(count, |at| hash_of_id(self.hasher, &self.list, pool, *at));
    }

    /// Makes room in a group for so many records more.
    pub(crate) fn reserve_in(&mut self, group: u32, count: usize) {
        self.groups[group as usize].records.reserve(count);
    }

    /// The number of a place's group, which is made if need be.
    pub(crate) fn group(&mut self, place: &Place) -> u32 {
        if let Some(known) = self.places.get(place) {
            return *known;
        }
        let group = number(self.groups.len());
        self.groups.push(Group::default());
        self.places.insert(place.clone(), group);
        group
    }

    /// Adds a new entry with this key and hash of its record's id, whose place has this group.
    pub(crate) fn add(&mut self, pool: &Pool, slot: Slot, key: Key, of_id: u64, group: u32) {
        let known = self.by_id.find(of_id, |at| self.list[*at as usize].id(pool) == pool.id(slot)).copied();
        let Some(at) = known else { return self.begin(pool, slot, key, of_id, group) };
        self.note_in_group(pool, at, key, group);
        let cell = &mut self.list[at as usize];
        cell.push(slot);
        if cell.slots().len() == 2 {
            self.several.push(at);
        }
    }

    /// Begins a record with its first entry.
    fn begin(&mut self, pool: &Pool, first: Slot, key: Key, of_id: u64, group: u32) {
        let at = number(self.list.len());
        self.list.push(Cell::new(first, group));
        self.by_id.insert_unique(of_id, at, |at| hash_of_id(self.hasher, &self.list, pool, *at));
        if let Some(ordered) = self.ordered.get_mut() {
            put_in_order(&self.list, pool, ordered, at);
        }
        self.groups[group as usize].take(&self.list, pool, at, key.number());
    }

    /// Takes note of a further entry of a record in the groups of all places that the record is told to belong to.
    fn note_in_group(&mut self, pool: &Pool, at: u32, key: Key, group: u32) {
        let cell = &self.list[at as usize];
        let version = key.number();
        if cell.is_only_in(group) {
            let known = &mut self.groups[group as usize].version;
            *known = known.wrapping_add(version);
            return;
        }
        let mut told: Vec<u32> =
            cell.entries(pool).filter_map(|entry| self.places.get(entry.place())).copied().collect();
        told.sort_unstable();
        told.dedup();
        for known in &told {
            let known = &mut self.groups[*known as usize].version;
            *known = known.wrapping_add(version);
        }
        if !told.contains(&group) {
            let version = version.wrapping_add(cell.version(pool));
            self.groups[group as usize].take(&self.list, pool, at, version);
            self.list[at as usize].is_in_several_groups();
        }
    }

    pub(crate) fn all(&self) -> &[Cell] {
        &self.list
    }

    /// All records by id.
    pub(crate) fn in_order(&self, pool: &Pool) -> impl Iterator<Item = &Cell> {
        let all = || (0..number(self.list.len())).collect();
        self.ordered.get_or_init(|| in_order(&self.list, pool, all())).iter().map(|at| &self.list[*at as usize])
    }

    /// The records of a place, by id.
    pub(crate) fn of_place<'a>(&'a self, pool: &'a Pool, place: &Place) -> impl Iterator<Item = &'a Cell> + use<'a> {
        let group = self.group_of(place);
        let ordered =
            group.map(|group| group.ordered.get_or_init(|| in_order(&self.list, pool, group.records.clone())));
        ordered.into_iter().flatten().map(|at| &self.list[*at as usize])
    }

    pub(crate) fn find(&self, pool: &Pool, id: &[u8]) -> Option<&Cell> {
        let is_it = |at: &u32| self.list[*at as usize].id(pool) == Some(id);
        self.by_id.find(hash_id(self.hasher, id), is_it).map(|at| &self.list[*at as usize])
    }

    fn group_of(&self, place: &Place) -> Option<&Group> {
        self.places.get(place).map(|group| &self.groups[*group as usize])
    }

    /// All places that any entry belongs to.
    pub(crate) fn places(&self) -> impl Iterator<Item = &Place> {
        self.places.keys()
    }

    /// See [`crate::State::version_of_warp`].
    pub(crate) fn version_of(&self, place: &Place) -> u128 {
        self.group_of(place).map_or(0, |group| group.version)
    }

    /// The records of which it is not clear at a glance that nothing in them waits to be settled.
    pub(crate) fn to_settle(&self, pool: &Pool) -> impl Iterator<Item = &Cell> {
        let several = self.several.iter().map(|at| &self.list[*at as usize]);
        several.filter(|cell| !cell.is_plainly_settled(pool))
    }
}

impl Group {
    /// Takes in a record that this place did not have, and the versions of all its entries.
    fn take(&mut self, list: &[Cell], pool: &Pool, at: u32, version: u128) {
        self.records.push(at);
        if let Some(ordered) = self.ordered.get_mut() {
            put_in_order(list, pool, ordered, at);
        }
        self.version = self.version.wrapping_add(version);
    }
}

/// The hash of a record's id, by which it is found.
pub(crate) fn hash_id(hasher: ByBits, id: &[u8]) -> u64 {
    let mut hash = hasher.build_hasher();
    hash.write(id);
    hash.finish()
}

fn hash_of_id(hasher: ByBits, list: &[Cell], pool: &Pool, at: u32) -> u64 {
    list.get(at as usize).and_then(|cell| cell.id(pool)).map_or(0, |id| hash_id(hasher, id))
}

fn in_order(list: &[Cell], pool: &Pool, mut some: Vec<u32>) -> Vec<u32> {
    some.sort_unstable_by(|a, b| list[*a as usize].id(pool).cmp(&list[*b as usize].id(pool)));
    some
}

fn put_in_order(list: &[Cell], pool: &Pool, some: &mut Vec<u32>, at: u32) {
    let id = list[at as usize].id(pool);
    let place = some.partition_point(|other| list[*other as usize].id(pool) < id);
    some.insert(place, at);
}

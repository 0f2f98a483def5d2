//! The set of a state's keys, and where the entry of each lies.

use std::hash::BuildHasher;

use hashbrown::HashTable;

use crate::ids::{ByBits, Key, KeySum};
use crate::pool::{Pool, Slot};

/// See the module.
#[derive(Debug, Clone, Default)]
pub(crate) struct Keys {
    slots: HashTable<Slot>,
    hasher: ByBits,
    sum: KeySum,
}

impl Keys {
    /// Makes room for so many more.
    pub(crate) fn reserve(&mut self, pool: &Pool, count: usize) {
        self.slots.reserve(count, |slot| hash_of(self.hasher, pool, *slot));
    }

    /// Adds a key; `false` when it was there.
    pub(crate) fn add(&mut self, pool: &Pool, key: Key, slot: Slot) -> bool {
        let hash = self.hasher.hash_one(key);
        if self.slots.find(hash, |slot| pool.key(*slot) == Some(key)).is_some() {
            return false;
        }
        self.slots.insert_unique(hash, slot, |slot| hash_of(self.hasher, pool, *slot));
        self.sum.add(key);
        true
    }

    pub(crate) fn find(&self, pool: &Pool, key: Key) -> Option<Slot> {
        self.slots.find(self.hasher.hash_one(key), |slot| pool.key(*slot) == Some(key)).copied()
    }

    pub(crate) fn len(&self) -> usize {
        self.slots.len()
    }

    pub(crate) fn sum(&self) -> KeySum {
        self.sum
    }
}

fn hash_of(hasher: ByBits, pool: &Pool, slot: Slot) -> u64 {
    pool.key(slot).map_or(0, |key| hasher.hash_one(key))
}

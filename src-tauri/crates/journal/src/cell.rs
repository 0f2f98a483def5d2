//! The entries of one record, and what they amount to once somebody asks.

use std::sync::{Arc, OnceLock};

use crate::entry::Entry;
use crate::ids::Key;
use crate::pool::{Pool, Slot};
use crate::record::Record;
use crate::sheet::Glance;

/// A record of more entries than this is always looked at closely.
const SETTLED_AT_A_GLANCE: usize = 8;
/// The group of a cell that is in several.
const SEVERAL: u32 = u32::MAX;

/// One record's entries; nearly always there is one.
#[derive(Debug, Clone)]
enum Slots {
    One(Slot),
    /// Apart, so that cells stay small.
    Several(Box<Several>),
}

#[derive(Debug, Clone)]
struct Several {
    slots: Vec<Slot>,
    /// Whether nothing waits to be settled, as far as that is clear at a glance.
    settled: OnceLock<bool>,
}

/// One record.
#[derive(Debug, Clone)]
pub(crate) struct Cell {
    slots: Slots,
    /// The group of the one place that all entries tell.
    group: u32,
    /// Apart from the cell, so that cells stay small.
    view: OnceLock<Option<Box<Record>>>,
}

impl Cell {
    pub(crate) fn new(first: Slot, group: u32) -> Self {
        Self { slots: Slots::One(first), group, view: OnceLock::new() }
    }

    pub(crate) fn push(&mut self, slot: Slot) {
        self.view.take();
        match &mut self.slots {
            Slots::One(first) => {
                let several = Several { slots: vec![*first, slot], settled: OnceLock::new() };
                self.slots = Slots::Several(Box::new(several));
            }
            Slots::Several(several) => {
                several.slots.push(slot);
                several.settled.take();
            }
        }
    }

    pub(crate) fn slots(&self) -> &[Slot] {
        match &self.slots {
            Slots::One(slot) => std::slice::from_ref(slot),
            Slots::Several(several) => &several.slots,
        }
    }

    pub(crate) fn entries<'a>(&'a self, pool: &'a Pool) -> impl Iterator<Item = &'a Arc<Entry>> {
        self.slots().iter().filter_map(|slot| pool.entry(*slot))
    }

    pub(crate) fn id<'a>(&self, pool: &'a Pool) -> Option<&'a [u8]> {
        pool.id(*self.slots().first()?)
    }

    pub(crate) fn version(&self, pool: &Pool) -> u128 {
        let keys = self.slots().iter().filter_map(|slot| pool.key(*slot));
        keys.fold(0, |sum, key| sum.wrapping_add(key.number()))
    }

    pub(crate) fn is_only_in(&self, group: u32) -> bool {
        self.group == group
    }

    pub(crate) fn is_in_several_groups(&mut self) {
        self.group = SEVERAL;
    }

    pub(crate) fn view(&self, pool: &Pool) -> Option<&Record> {
        let work_out = || {
            let entries: Vec<&Entry> = self.entries(pool).map(Arc::as_ref).collect();
            Record::of_entries(&entries).map(Box::new)
        };
        self.view.get_or_init(work_out).as_deref()
    }

    /// Whether it is clear without reading the fields that nothing waits to be settled: of any two entries one was on the
    /// other's screen, so that no field has two heads, and none speaks of removing. One entry alone raises no question.
    pub(crate) fn is_plainly_settled(&self, pool: &Pool) -> bool {
        match &self.slots {
            Slots::One(_) => true,
            Slots::Several(several) => *several.settled.get_or_init(|| are_plainly_settled(&several.slots, pool)),
        }
    }
}

fn are_plainly_settled(slots: &[Slot], pool: &Pool) -> bool {
    if slots.len() > SETTLED_AT_A_GLANCE {
        return false;
    }
    let mut before: Vec<(Key, Glance)> = Vec::with_capacity(slots.len());
    for slot in slots {
        let (Some(key), Some(glance)) = (pool.key(*slot), pool.glance(*slot)) else { return false };
        let seen = |(other, its): &(Key, Glance)| glance.over.contains(other) || its.over.contains(&key);
        if glance.may_say_gone || !before.iter().all(seen) {
            return false;
        }
        before.push((key, glance));
    }
    true
}

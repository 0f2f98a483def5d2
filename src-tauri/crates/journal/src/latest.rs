//! The entries of one device, the latest first. No more of them are read than are asked for.

use std::cmp::Ordering;
use std::collections::BinaryHeap;
use std::sync::Arc;

use crate::clock::At;
use crate::entry::Entry;
use crate::ids::{DeviceId, Key};
use crate::pool::Pool;
use crate::sheet::Sheet;

/// What comes next: an entry, or a sheet whose latest entry may.
enum Next<'a> {
    Entry(&'a Arc<Entry>),
    Sheet(&'a Sheet),
}

impl Next<'_> {
    /// Time, then sheets before entries, then key: an entry is told when no sheet may have a later one.
    fn order(&self) -> (&At, bool, Option<Key>) {
        match self {
            Self::Entry(entry) => (entry.at(), false, Some(entry.key())),
            Self::Sheet(sheet) => (sheet.latest(), true, None),
        }
    }
}

impl Ord for Next<'_> {
    fn cmp(&self, other: &Self) -> Ordering {
        self.order().cmp(&other.order())
    }
}

impl PartialOrd for Next<'_> {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl PartialEq for Next<'_> {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for Next<'_> {}

/// See the module. By time, then by key; each entry once, in however many files it lies.
pub(crate) fn latest_by<'a>(pool: &'a Pool, device: &'a DeviceId) -> impl Iterator<Item = &'a Arc<Entry>> + use<'a> {
    let entries = pool.read_one_by_one().iter().filter(move |entry| entry.by() == device).map(Next::Entry);
    let sheets = pool.sheets().filter(|sheet| sheet.is_by(device)).map(Next::Sheet);
    let mut next: BinaryHeap<Next<'a>> = entries.chain(sheets).collect();
    let mut told: Option<Key> = None;
    std::iter::from_fn(move || {
        loop {
            match next.pop()? {
                Next::Sheet(sheet) => next.extend(sheet.entries().map(Next::Entry)),
                Next::Entry(entry) if told == Some(entry.key()) => {}
                Next::Entry(entry) => {
                    told = Some(entry.key());
                    return Some(entry);
                }
            }
        }
    })
}

//! The entries of one record, and what they amount to once somebody asks.

use std::sync::{Arc, OnceLock};

use crate::entry::Entry;
use crate::ids::RecordId;
use crate::record::Record;

/// A record of more entries than this is always looked at closely.
const SETTLED_AT_A_GLANCE: usize = 8;
/// The group of a cell that is in several.
const SEVERAL: u32 = u32::MAX;

/// One record's entries; nearly always there is one.
#[derive(Debug, Clone)]
enum Entries {
    One(Arc<Entry>),
    Several(Vec<Arc<Entry>>),
}

/// One record.
#[derive(Debug, Clone)]
pub(crate) struct Cell {
    entries: Entries,
    /// The group of the one place that all entries tell.
    group: u32,
    /// Apart from the cell, so that cells stay small.
    view: OnceLock<Option<Box<Record>>>,
}

impl Cell {
    pub(crate) fn new(first: Arc<Entry>, group: u32) -> Self {
        Self { entries: Entries::One(first), group, view: OnceLock::new() }
    }

    pub(crate) fn push(&mut self, entry: Arc<Entry>) {
        self.view.take();
        match &mut self.entries {
            Entries::One(first) => self.entries = Entries::Several(vec![Arc::clone(first), entry]),
            Entries::Several(entries) => entries.push(entry),
        }
    }

    pub(crate) fn entries(&self) -> &[Arc<Entry>] {
        match &self.entries {
            Entries::One(entry) => std::slice::from_ref(entry),
            Entries::Several(entries) => entries,
        }
    }

    pub(crate) fn id(&self) -> Option<&RecordId> {
        self.entries().first().map(|entry| entry.of())
    }

    pub(crate) fn version(&self) -> u128 {
        self.entries().iter().fold(0, |sum, entry| sum.wrapping_add(entry.key().number()))
    }

    pub(crate) fn is_only_in(&self, group: u32) -> bool {
        self.group == group
    }

    pub(crate) fn is_in_several_groups(&mut self) {
        self.group = SEVERAL;
    }

    pub(crate) fn view(&self) -> Option<&Record> {
        self.view.get_or_init(|| Record::of_entries(self.entries()).map(Box::new)).as_deref()
    }

    /// Whether it is clear without reading the fields that nothing waits to be settled: of any two entries one was on the
    /// other's screen, so that no field has two heads, and none speaks of removing.
    pub(crate) fn is_plainly_settled(&self) -> bool {
        let entries = self.entries();
        entries.len() <= SETTLED_AT_A_GLANCE
            && entries.iter().enumerate().all(|(i, one)| {
                let seen = |other: &Arc<Entry>| one.over().contains(&other.key()) || other.over().contains(&one.key());
                !one.may_say_gone() && entries[..i].iter().all(seen)
            })
    }
}

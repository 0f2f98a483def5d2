//! Where the entries of a state lie, by number: those that were read one by one, and the sheets.

use std::sync::Arc;

use crate::entry::Entry;
use crate::ids::Key;
use crate::sheet::{Glance, Sheet};

/// The sheet of what lies in none.
const LOOSE: u32 = u32::MAX;

/// One entry's number. Only the pool that gave it knows it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Slot {
    sheet: u32,
    nth: u32,
}

impl Slot {
    /// The slot so many places further.
    pub(crate) fn after(self, places: usize) -> Self {
        Self { nth: self.nth.saturating_add(number(places)), ..self }
    }
}

/// See the module.
#[derive(Debug, Clone, Default)]
pub(crate) struct Pool {
    loose: Vec<Arc<Entry>>,
    sheets: Vec<Arc<Sheet>>,
}

impl Pool {
    /// Takes in an entry.
    pub(crate) fn push(&mut self, entry: Arc<Entry>) -> Slot {
        self.loose.push(entry);
        Slot { sheet: LOOSE, nth: number(self.loose.len() - 1) }
    }

    /// Takes entries in; gives the slot of the first, which the others follow.
    pub(crate) fn push_all(&mut self, entries: Vec<Arc<Entry>>) -> Slot {
        let first = Slot { sheet: LOOSE, nth: number(self.loose.len()) };
        self.loose.extend(entries);
        first
    }

    /// Takes a sheet in; gives the slot of its first entry, which the others follow.
    pub(crate) fn push_sheet(&mut self, sheet: Sheet) -> Slot {
        self.sheets.push(Arc::new(sheet));
        Slot { sheet: number(self.sheets.len() - 1), nth: 0 }
    }

    pub(crate) fn key(&self, slot: Slot) -> Option<Key> {
        match self.sheet(slot) {
            Some(sheet) => sheet.key(slot.nth),
            None => self.loose(slot).map(|entry| entry.key()),
        }
    }

    /// The id of an entry's record.
    pub(crate) fn id(&self, slot: Slot) -> Option<&[u8]> {
        match self.sheet(slot) {
            Some(sheet) => sheet.id(slot.nth),
            None => self.loose(slot).map(|entry| entry.of().as_bytes()),
        }
    }

    pub(crate) fn entry(&self, slot: Slot) -> Option<&Arc<Entry>> {
        match self.sheet(slot) {
            Some(sheet) => sheet.entry(slot.nth),
            None => self.loose(slot),
        }
    }

    pub(crate) fn glance(&self, slot: Slot) -> Option<Glance> {
        match self.sheet(slot) {
            Some(sheet) => Some(sheet.glance(slot.nth)),
            None => self.loose(slot).map(|entry| Glance::of(entry)),
        }
    }

    /// The entries that lie in no sheet.
    pub(crate) fn read_one_by_one(&self) -> &[Arc<Entry>] {
        &self.loose
    }

    pub(crate) fn sheets(&self) -> impl Iterator<Item = &Sheet> {
        self.sheets.iter().map(Arc::as_ref)
    }

    fn sheet(&self, slot: Slot) -> Option<&Arc<Sheet>> {
        self.sheets.get(slot.sheet as usize)
    }

    fn loose(&self, slot: Slot) -> Option<&Arc<Entry>> {
        self.loose.get(slot.nth as usize)
    }
}

/// A place in a list as a number. There are never so many: each stands for a line of some hundred bytes.
pub(crate) fn number(at: usize) -> u32 {
    u32::try_from(at).unwrap_or(u32::MAX)
}

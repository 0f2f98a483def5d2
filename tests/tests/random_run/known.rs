//! What must be known of a sitting, by what was acknowledged.

use std::collections::BTreeSet;

use fellmark_journal::Key;

/// A write to a sitting.
#[derive(Clone, Debug)]
pub struct KnownWrite {
    /// The keys of its entries.
    pub keys: BTreeSet<Key>,
    pub picks: Option<i64>,
    pub removed: Option<bool>,
    /// It was acknowledged. Else it may have been written or not: it was killed, or its answer says so.
    pub sure: bool,
    /// Its entry lay in one place alone, which was announced, and that place was overwritten.
    pub is_gone: bool,
    /// A later write was made where this one was not known, so that both are kept and one of them is shown.
    pub competes: bool,
}

impl KnownWrite {
    pub fn new(keys: BTreeSet<Key>, picks: Option<i64>, removed: Option<bool>, sure: bool) -> Self {
        Self { keys, picks, removed, sure, is_gone: false, competes: false }
    }
}

/// A sitting: the device that logged it, and what it wrote, the latest last.
pub struct KnownSitting {
    pub writer: usize,
    pub writes: Vec<KnownWrite>,
}

impl KnownSitting {
    /// Whether it must be there.
    pub fn is_there(&self) -> bool {
        self.writes.first().is_some_and(|logged| !logged.is_gone)
    }

    /// Adds a write that was made where these entries were known.
    pub fn add(&mut self, write: KnownWrite, known: &BTreeSet<Key>) {
        for earlier in &mut self.writes {
            earlier.competes = !earlier.keys.is_subset(known);
        }
        self.writes.push(write);
    }

    /// The picks it may have: more than one where it is not sure.
    pub fn picks(&self) -> BTreeSet<i64> {
        self.values(|write| write.picks)
    }

    /// Whether it may be removed, and whether it may be there.
    pub fn removed(&self) -> BTreeSet<bool> {
        self.values(|write| write.removed)
    }

    fn values<T: Ord>(&self, of: impl Fn(&KnownWrite) -> Option<T>) -> BTreeSet<T> {
        let mut values = BTreeSet::new();
        let standing = || self.writes.iter().filter(|write| !write.is_gone);
        for write in standing() {
            if let Some(value) = of(write) {
                if write.sure {
                    values.clear();
                }
                values.insert(value);
            }
        }
        values.extend(standing().filter(|write| write.competes).filter_map(of));
        values
    }
}

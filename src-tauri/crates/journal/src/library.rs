//! Where the entries of a file are read that was known to be sound: from that file, and what it does not hold any more from the
//! shadow, which has a line of every entry ever seen.

use std::collections::HashMap;
use std::path::Path;
use std::sync::{Arc, OnceLock};

use crate::disk::Disk;
use crate::entry::Entry;
use crate::ids::{ByBits, Key};
use crate::reading::FILE_MAX_BYTES;
use crate::segment::Parsed;
use crate::shadow::Lines;

/// See the module.
#[derive(Debug)]
pub(crate) struct Library {
    disk: Arc<dyn Disk>,
    shadow: Lines,
    /// All that the shadow has, once a file was not what it was: then others are likely not to be, either.
    recalled: OnceLock<HashMap<Key, Arc<Entry>, ByBits>>,
}

impl Library {
    pub(crate) fn new(disk: Arc<dyn Disk>, shadow: Lines) -> Self {
        Self { disk, shadow, recalled: OnceLock::new() }
    }

    /// The entries with these keys, in their order, which a file held at the start: those that it holds still, the others from
    /// the shadow. A line's own key tells that it is the one.
    pub(crate) fn entries(&self, file: &Path, keys: &[Key]) -> Box<[Option<Arc<Entry>>]> {
        let there = self.disk.read(file, FILE_MAX_BYTES).map(in_file).unwrap_or_default();
        if there.iter().map(|entry| entry.key()).eq(keys.iter().copied()) {
            return there.into_iter().map(Some).collect();
        }
        let there: HashMap<Key, Arc<Entry>, ByBits> = there.into_iter().map(|entry| (entry.key(), entry)).collect();
        keys.iter().map(|key| there.get(key).or_else(|| self.recalled().get(key)).cloned()).collect()
    }

    fn recalled(&self) -> &HashMap<Key, Arc<Entry>, ByBits> {
        self.recalled.get_or_init(|| self.shadow.all().map(|entry| (entry.key(), Arc::new(entry))).collect())
    }
}

fn in_file(bytes: Vec<u8>) -> Vec<Arc<Entry>> {
    match String::from_utf8(bytes) {
        Ok(text) => {
            let whole = 0..text.len();
            Parsed::read_text(&Arc::new(text), whole).entries
        }
        Err(error) => Parsed::read(error.as_bytes()).entries,
    }
}

//! Where the entries of a file are read that was known to be sound: from that file, or, when it is not what it was, from the
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
use crate::sound::{Mark, Secret};

/// See the module.
#[derive(Debug)]
pub(crate) struct Library {
    disk: Arc<dyn Disk>,
    shadow: Lines,
    /// What marks are made with; nothing where the system gave no secret.
    secret: Option<Secret>,
    /// All that the shadow has, once a file was not what it was: then others are likely not to be, either.
    recalled: OnceLock<HashMap<Key, Arc<Entry>, ByBits>>,
}

impl Library {
    pub(crate) fn new(disk: Arc<dyn Disk>, shadow: Lines, secret: Option<Secret>) -> Self {
        Self { disk, shadow, secret, recalled: OnceLock::new() }
    }

    pub(crate) fn secret(&self) -> Option<Secret> {
        self.secret
    }

    /// The entries with these keys, in their order, which a file held whose bytes had this mark.
    pub(crate) fn entries(&self, file: &Path, was: &Mark, keys: &[Key]) -> Box<[Option<Arc<Entry>>]> {
        self.of_file(file, was, keys).unwrap_or_else(|| self.of_shadow(keys))
    }

    fn of_file(&self, file: &Path, was: &Mark, keys: &[Key]) -> Option<Box<[Option<Arc<Entry>>]>> {
        let secret = self.secret?;
        let bytes = self.disk.read(file, FILE_MAX_BYTES).ok().filter(|bytes| secret.mark(bytes) == *was)?;
        let text = Arc::new(String::from_utf8(bytes).ok()?);
        let entries: Vec<Arc<Entry>> = Parsed::read_text(&text, 0..text.len()).entries;
        let same = entries.iter().map(|entry| entry.key()).eq(keys.iter().copied());
        same.then(|| entries.into_iter().map(Some).collect())
    }

    fn of_shadow(&self, keys: &[Key]) -> Box<[Option<Arc<Entry>>]> {
        let recall = || self.shadow.all().map(|entry| (entry.key(), Arc::new(entry))).collect();
        let recalled = self.recalled.get_or_init(recall);
        keys.iter().map(|key| recalled.get(key).cloned()).collect()
    }
}

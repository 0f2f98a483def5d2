//! The entries of a file whose bytes are known to be sound: known by their keys, and read once one of them is asked for. Of a
//! log of twenty years a start looks at a few.

use std::path::PathBuf;
use std::sync::{Arc, OnceLock};

use serde::{Deserialize, Serialize};

use crate::clock::At;
use crate::entry::Entry;
use crate::ids::{DeviceId, Key};
use crate::library::Library;
use crate::pool::number;
use crate::segment;
use crate::sound::Known;

/// See the module.
#[derive(Debug)]
pub(crate) struct Sheet {
    file: PathBuf,
    known: Arc<Known>,
    library: Arc<Library>,
    keys: Arc<[Key]>,
    /// The ids of their records, one behind the other, and where each ends.
    ids: Box<[u8]>,
    ends: Box<[u32]>,
    /// One that cannot be read any more keeps its place, so that the others keep theirs.
    entries: OnceLock<Box<[Option<Arc<Entry>>]>>,
}

/// What can be seen of an entry without reading all of it.
#[derive(Debug, Default, Clone, PartialEq, Serialize, Deserialize)]
pub(crate) struct Glance {
    pub(crate) over: Vec<Key>,
    /// Whether the fields may say that the record was removed or restored; `false` is certain.
    pub(crate) may_say_gone: bool,
}

impl Glance {
    pub(crate) fn of(entry: &Entry) -> Self {
        Self { over: entry.over().to_vec(), may_say_gone: entry.may_say_gone() }
    }
}

impl Sheet {
    /// Finds the lines in a file's bytes, if they stand as this program writes them and are as many as is known.
    pub(crate) fn of(file: PathBuf, bytes: &[u8], known: &Arc<Known>, library: &Arc<Library>) -> Option<Self> {
        let count = (known.count as usize).min(bytes.len() / Entry::AFTER_KEY);
        let (mut keys, mut ends) = (Vec::with_capacity(count), Vec::with_capacity(count));
        let mut ids = Vec::with_capacity(count * ID_USUAL_BYTES);
        for (i, line) in segment::lines(bytes).enumerate() {
            if let Some(key) = Entry::claimed_key(line) {
                ids.extend_from_slice(Entry::claimed_id(line)?);
                keys.push(key);
                ends.push(u32::try_from(ids.len()).ok()?);
            } else if i > 0 {
                break;
            }
        }
        (keys.len() == known.count as usize).then(|| Self {
            file,
            known: Arc::clone(known),
            library: Arc::clone(library),
            keys: keys.into(),
            ids: ids.into_boxed_slice(),
            ends: ends.into_boxed_slice(),
            entries: OnceLock::new(),
        })
    }

    /// Whether its entries are a device's.
    pub(crate) fn is_by(&self, device: &DeviceId) -> bool {
        self.known.device == *device
    }

    /// When the latest of its entries was written.
    pub(crate) fn latest(&self) -> &At {
        &self.known.latest
    }

    pub(crate) fn keys(&self) -> &Arc<[Key]> {
        &self.keys
    }

    /// The key of one of its entries. Whoever asks holds a number that this sheet gave.
    pub(crate) fn key(&self, nth: u32) -> Option<Key> {
        self.keys.get(nth as usize).copied()
    }

    /// The id of an entry's record.
    pub(crate) fn id(&self, nth: u32) -> Option<&[u8]> {
        let end = *self.ends.get(nth as usize)?;
        let from = nth.checked_sub(1).and_then(|before| self.ends.get(before as usize)).map_or(0, |from| *from);
        self.ids.get(from as usize..end as usize)
    }

    /// The ids of all records, an entry's at its place.
    pub(crate) fn ids(&self) -> impl Iterator<Item = &[u8]> {
        (0..number(self.ends.len())).filter_map(|nth| self.id(nth))
    }

    /// An entry; all of the sheet are read with the first.
    pub(crate) fn entry(&self, nth: u32) -> Option<&Arc<Entry>> {
        self.read().get(nth as usize)?.as_ref()
    }

    /// All entries.
    pub(crate) fn entries(&self) -> impl Iterator<Item = &Arc<Entry>> {
        self.read().iter().flatten()
    }

    fn read(&self) -> &[Option<Arc<Entry>>] {
        self.entries.get_or_init(|| self.library.entries(&self.file, &self.keys))
    }

    /// What can be seen of an entry at a glance.
    pub(crate) fn glance(&self, nth: u32) -> Glance {
        let glances = &self.known.glances;
        let told = glances.binary_search_by_key(&nth, |(nth, _)| *nth);
        told.map_or_else(|_| Glance::default(), |at| glances[at].1.clone())
    }
}

/// Bytes of an id that this program makes.
const ID_USUAL_BYTES: usize = 20;

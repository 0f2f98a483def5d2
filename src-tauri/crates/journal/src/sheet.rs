//! The entries of a file whose bytes are known to be sound: known by their keys, and read from its text once one of them is
//! asked for. Of a log of twenty years a start looks at a few.

use std::ops::Range;
use std::sync::{Arc, OnceLock};

use serde::{Deserialize, Serialize};

use crate::entry::{Entry, Lines};
use crate::ids::{DeviceId, Key};
use crate::pool::number;
use crate::segment;

/// See the module.
#[derive(Debug)]
pub(crate) struct Sheet {
    keys: Arc<[Key]>,
    about: About,
    text: Arc<String>,
    /// Where each entry's line begins in the text.
    starts: Box<[u32]>,
    /// A line that cannot be read all the same keeps its place, so that the others keep theirs.
    entries: OnceLock<Box<[Option<Arc<Entry>>]>>,
}

/// What can be seen of an entry without reading all of it.
#[derive(Debug, Default, Clone, PartialEq, Serialize, Deserialize)]
pub(crate) struct Glance {
    pub(crate) over: Vec<Key>,
    /// Whether the fields may say that the record was removed or restored; `false` is certain.
    pub(crate) may_say_gone: bool,
}

/// What is known of a sheet's entries before they are read.
#[derive(Debug, Default, Clone, PartialEq, Serialize, Deserialize)]
pub(crate) struct About {
    /// How many there are.
    pub(crate) count: u32,
    /// The devices that wrote them.
    pub(crate) by: Vec<DeviceId>,
    /// What can be seen of those that answer others, or may speak of removing, by their numbers. The rest do neither.
    pub(crate) glances: Vec<(u32, Glance)>,
}

impl Glance {
    pub(crate) fn of(entry: &Entry) -> Self {
        Self { over: entry.over().to_vec(), may_say_gone: entry.may_say_gone() }
    }
}

impl About {
    pub(crate) fn of(entries: &[Arc<Entry>]) -> Self {
        let mut about = Self { count: number(entries.len()), ..Self::default() };
        for (nth, entry) in entries.iter().enumerate() {
            if !about.by.contains(entry.by()) {
                about.by.push(entry.by().clone());
            }
            let glance = Glance::of(entry);
            if glance != Glance::default() {
                about.glances.push((number(nth), glance));
            }
        }
        about
    }
}

impl Sheet {
    /// Finds the lines of a file in a text, if they stand as this program writes them and are as many as is known; for each
    /// of them, `each` is told the id of its record.
    pub(crate) fn of(
        text: &Arc<String>,
        file: Range<usize>,
        about: &About,
        mut each: impl FnMut(&[u8]),
    ) -> Option<Self> {
        let bytes = text.as_bytes().get(file.clone())?;
        let count = (about.count as usize).min(bytes.len() / Entry::AFTER_KEY);
        let (mut keys, mut starts) = (Vec::with_capacity(count), Vec::with_capacity(count));
        let mut start = file.start;
        for (i, line) in segment::lines(bytes).enumerate() {
            if let Some(key) = Entry::claimed_key(line) {
                each(Entry::claimed_id(line)?);
                keys.push(key);
                starts.push(u32::try_from(start).ok()?);
            } else if i > 0 {
                break;
            }
            start += line.len() + 1;
        }
        (keys.len() == about.count as usize).then(|| Self {
            keys: keys.into(),
            about: about.clone(),
            text: Arc::clone(text),
            starts: starts.into_boxed_slice(),
            entries: OnceLock::new(),
        })
    }

    pub(crate) fn may_be_by(&self, device: &DeviceId) -> bool {
        self.about.by.contains(device)
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
        Entry::claimed_id(self.text.as_bytes().get(*self.starts.get(nth as usize)? as usize..)?)
    }

    /// An entry; all of the sheet are read with the first.
    pub(crate) fn entry(&self, nth: u32) -> Option<&Arc<Entry>> {
        self.entries.get_or_init(|| self.read()).get(nth as usize)?.as_ref()
    }

    fn read(&self) -> Box<[Option<Arc<Entry>>]> {
        let mut lines = Lines::of(Arc::clone(&self.text));
        let each = self.keys.iter().zip(&self.starts);
        each.map(|(key, start)| lines.read_known(*key, self.line(*start)).ok().map(Arc::new)).collect()
    }

    /// What can be seen of an entry at a glance.
    pub(crate) fn glance(&self, nth: u32) -> Glance {
        let told = self.about.glances.binary_search_by_key(&nth, |(nth, _)| *nth);
        told.map_or_else(|_| Glance::default(), |at| self.about.glances[at].1.clone())
    }

    /// Where a line stands that begins at a place: up to its end, or the comma before that.
    fn line(&self, start: u32) -> Range<usize> {
        let start = start as usize;
        let rest = self.text.as_bytes().get(start..).unwrap_or_default();
        let line = rest.get(..memchr::memchr(b'\n', rest).unwrap_or(rest.len())).unwrap_or_default();
        start..start + line.strip_suffix(b",").unwrap_or(line).len()
    }
}

//! The local replica: a line of every entry ever seen, on this device alone, for what a synchroniser, a fault or a person
//! takes out of the folder. It is only added to. A line counts only if it holds the whole entry; one that a full disk or a
//! power cut has torn is added again at the next start, if the folder or the outbox has the entry.

use std::collections::HashSet;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use foldhash::fast::RandomState;
use rayon::prelude::*;

use super::disk::{Disk, DiskFile};
use crate::entry_set::EntrySet;
use crate::format::entry::Entry;
use crate::format::ids::Key;
use crate::format::segment::lines;

const NAME: &str = "shadow.lines";
/// Most bytes that are read: some 15 million entries.
const MAX_BYTES: u64 = 4 << 30;
/// Lines are written in parts of about this size.
const PART_BYTES: usize = 1 << 20;

#[derive(Debug)]
pub(crate) struct LocalReplica {
    path: PathBuf,
    disk: Arc<dyn Disk>,
    /// What it should hold and does not yet, because the disk refused.
    owed: Vec<Arc<Entry>>,
    /// What the disk said then.
    refusal: Option<String>,
}

/// What the replica holds, beside what is known already.
#[derive(Debug, Default)]
pub(crate) struct Remembered {
    /// Entries that the state did not have.
    pub(crate) only_here: Vec<Arc<Entry>>,
    /// The keys of lines that hold a whole entry.
    pub(crate) whole: HashSet<Key, RandomState>,
    /// The keys of lines that are torn or damaged: the entry was known here once.
    pub(crate) damaged: HashSet<Key, RandomState>,
}

/// What one line of the replica holds.
enum Remembers {
    /// An entry that the state has, whole.
    Known(Key),
    /// An entry that the state does not have.
    OnlyHere(Arc<Entry>),
    /// A key that the rest of the line does not hold.
    Damaged(Key),
}

impl Remembers {
    fn read(line: &[u8], state: &EntrySet) -> Option<Self> {
        let key = Entry::claimed_key(line)?;
        Some(match state.entry(key) {
            Some(entry) if entry.line().as_bytes() == line => Self::Known(key),
            Some(_) => Self::Damaged(key),
            None => Entry::from_line(line).map_or(Self::Damaged(key), |entry| Self::OnlyHere(Arc::new(entry))),
        })
    }
}

impl LocalReplica {
    pub(crate) fn new(dir: &Path, disk: Arc<dyn Disk>) -> Self {
        Self { path: dir.join(NAME), disk, owed: Vec::new(), refusal: None }
    }

    /// Compares every line with the entries of a state.
    pub(crate) fn read(&self, state: &EntrySet) -> Remembered {
        let bytes = self.disk.read(&self.path, MAX_BYTES).unwrap_or_default();
        let lines: Vec<&[u8]> = lines(&bytes).collect();
        let found: Vec<Remembers> = lines.par_iter().filter_map(|line| Remembers::read(line, state)).collect();
        let mut remembered = Remembered::default();
        remembered.whole.reserve(found.len());
        for one in found {
            match one {
                Remembers::Known(key) => _ = remembered.whole.insert(key),
                Remembers::OnlyHere(entry) if remembered.whole.insert(entry.key()) => remembered.only_here.push(entry),
                Remembers::OnlyHere(_) => {}
                Remembers::Damaged(key) => _ = remembered.damaged.insert(key),
            }
        }
        remembered
    }

    /// Adds entries. When the disk refuses, they are owed and added with the next.
    pub(crate) fn add(&mut self, entries: &[Arc<Entry>]) {
        self.owed.extend_from_slice(entries);
        if self.owed.is_empty() {
            return;
        }
        match self.append_owed() {
            Ok(file) => {
                (self.owed, self.refusal) = (Vec::new(), None);
                sync_meanwhile(file);
            }
            Err(error) => self.refusal = Some(error.to_string()),
        }
    }

    /// What the disk said when it did not take entries that only the folder has.
    pub(crate) fn refusal(&self) -> Option<&str> {
        self.refusal.as_deref()
    }

    fn append_owed(&self) -> io::Result<Box<dyn DiskFile>> {
        let mut file = self.disk.append(&self.path)?;
        // The line end in front closes a line that a crash has torn; empty lines are passed over.
        let mut bytes = vec![b'\n'];
        for entry in &self.owed {
            if bytes.len() > PART_BYTES {
                file.write(&bytes)?;
                bytes.clear();
            }
            bytes.extend_from_slice(entry.line().as_bytes());
            bytes.push(b'\n');
        }
        file.write(&bytes)?;
        Ok(file)
    }
}

/// Syncs on a thread of its own: that takes longer than adding does. Power may fail before it is done; then the entries
/// are taken from the folder or the outbox again.
fn sync_meanwhile(mut file: Box<dyn DiskFile>) {
    let _ = std::thread::Builder::new().spawn(move || file.sync());
}

//! The shadow: a line of every entry ever seen, on this device alone, for what a synchroniser, a fault or a person takes out
//! of the folder. It is only added to. At a start only the keys of its lines are of interest, and beside a long shadow they
//! are kept in a file of their own, so that it need not be read through again: a memo that is made anew when it does not fit.

use std::collections::HashSet;
use std::fs::File;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::mpsc::{self, Sender};
use std::thread::JoinHandle;

use crate::disk::{Disk, DiskFile};
use crate::entry::{Entry, LINE_MAX_BYTES, WRITTEN_MAX_BYTES};
use crate::ids::{ByBits, Key, KeySum};
use crate::memo;
use crate::segment::lines;
use crate::state::State;

const LINES: &str = "shadow.lines";
const KEYS: &str = "shadow.keys";
/// The first bytes of the file of keys, with its version.
const MAGIC: &[u8; 16] = b"fellmark keys 1\n";
/// Bytes of a number or digest in it.
const WORD: usize = 16;
/// Magic, length of the shadow, digest of what stands before that.
const HEAD: usize = 3 * WORD;
/// The shadow is known by so many of its bytes: the last line is among them, with its key.
const KNOWN_BY_BYTES: u64 = WRITTEN_MAX_BYTES as u64 + 4096;
/// The keys are kept again when the shadow has grown by so much.
const GROWN_BYTES: u64 = 1 << 20;
/// The shadow is read and written in parts of this size.
const PART_BYTES: usize = 1 << 20;
/// Most bytes of the keys that are read: a billion bytes of shadow have a twentieth of that in keys.
const KEYS_MAX_BYTES: u64 = 1 << 28;

/// Where it lies, and how it is read.
#[derive(Debug, Clone)]
pub(crate) struct Lines {
    dir: PathBuf,
    disk: Arc<dyn Disk>,
}

/// See the module.
#[derive(Debug)]
pub(crate) struct Shadow {
    kept: Lines,
    /// What it should hold and does not yet, because the disk refused.
    owed: Vec<Arc<Entry>>,
    keeping: Option<JoinHandle<()>>,
    /// To the thread that syncs what was added.
    syncing: Option<Sender<Box<dyn DiskFile>>>,
}

/// The keys of the shadow's lines.
#[derive(Debug, Default)]
pub(crate) struct Remembered {
    /// In order, none twice; a line may be torn all the same.
    pub(crate) keys: Vec<Key>,
    /// For how much of the shadow they are kept.
    kept_for_bytes: u64,
}

impl Remembered {
    /// Whether these are the very keys of a state.
    pub(crate) fn is_of(&self, state: &State) -> bool {
        if self.keys.len() != state.len() {
            return false;
        }
        let mut sum = KeySum::default();
        self.keys.iter().for_each(|key| sum.add(*key));
        sum == state.sum()
    }
}

impl Lines {
    fn path(&self) -> PathBuf {
        self.dir.join(LINES)
    }

    /// The keys its lines claim, unchecked.
    pub(crate) fn keys(&self) -> Remembered {
        let mut remembered = self.kept_keys().unwrap_or_default();
        let kept = remembered.keys.len();
        self.read_lines(remembered.kept_for_bytes, |line| remembered.keys.extend(Entry::claimed_key(line)));
        if remembered.keys.len() > kept {
            // Finds what is in order already, and leaves it so.
            remembered.keys.sort();
            remembered.keys.dedup();
        }
        remembered
    }

    /// The entries with these keys.
    pub(crate) fn recall(&self, keys: &HashSet<Key, ByBits>) -> Vec<Entry> {
        let mut found = Vec::new();
        if !keys.is_empty() {
            self.read_lines(0, |line| {
                if Entry::claimed_key(line).is_some_and(|key| keys.contains(&key)) {
                    found.extend(Entry::from_line(line));
                }
            });
        }
        found
    }

    /// All entries.
    pub(crate) fn all(&self) -> impl Iterator<Item = Entry> {
        let mut found = Vec::new();
        self.read_lines(0, |line| found.extend(Entry::from_line(line)));
        found.into_iter()
    }

    /// Reads lines from a place on, in parts: a shadow may be as long as all the folder.
    fn read_lines(&self, from: u64, mut each: impl FnMut(&[u8])) {
        let path = self.path();
        let mut from = from;
        let mut part: Vec<u8> = Vec::new();
        loop {
            let Ok(more) = self.disk.read_from(&path, from, PART_BYTES as u64) else { return };
            if more.is_empty() {
                return each(&part);
            }
            from += more.len() as u64;
            part.extend_from_slice(&more);
            let whole = part.iter().rposition(|b| *b == b'\n').map_or(0, |end| end + 1);
            lines(&part[..whole]).filter(|line| !line.is_empty()).for_each(&mut each);
            part.drain(..whole);
            if part.len() > 2 * LINE_MAX_BYTES {
                // No entry is so long; its end will be none either.
                part.clear();
            }
        }
    }

    fn kept_keys(&self) -> Option<Remembered> {
        let bytes = self.disk.read(&self.dir.join(KEYS), KEYS_MAX_BYTES).ok()?;
        let (kept_for_bytes, known_by, keys) = parse(&bytes)?;
        let there = self.disk.stat(&self.path()).ok()?.bytes;
        (there >= kept_for_bytes && self.known_by(kept_for_bytes).ok()? == known_by)
            .then_some(Remembered { keys, kept_for_bytes })
    }

    /// A digest of what stands in the shadow before a place.
    fn known_by(&self, bytes: u64) -> io::Result<Key> {
        let from = bytes.saturating_sub(KNOWN_BY_BYTES);
        self.disk.read_from(&self.path(), from, bytes - from).map(|part| Key::of_rest(&part))
    }
}

impl Shadow {
    pub(crate) fn new(dir: &Path, disk: Arc<dyn Disk>) -> Self {
        Self { kept: Lines { dir: dir.to_owned(), disk }, owed: Vec::new(), keeping: None, syncing: None }
    }

    /// What it holds already.
    pub(crate) fn kept(&self) -> &Lines {
        &self.kept
    }

    /// Adds entries. When the disk refuses, they are owed and added with the next.
    pub(crate) fn add(&mut self, entries: &[Arc<Entry>]) {
        self.owed.extend_from_slice(entries);
        if self.owed.is_empty() {
            return;
        }
        let written = self.kept.disk.append(&self.kept.path()).and_then(|mut file| {
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
        });
        if let Ok(file) = written {
            self.owed = Vec::new();
            self.sync_meanwhile(file);
        }
    }

    /// Syncs what was added on a thread of its own, which is begun once only: that takes longer than adding does. Power may
    /// fail before it is done: then the entries are read from the folder again.
    fn sync_meanwhile(&mut self, file: Box<dyn DiskFile>) {
        let syncing = self.syncing.get_or_insert_with(|| {
            let (sender, added) = mpsc::channel::<Box<dyn DiskFile>>();
            let _ = std::thread::Builder::new().spawn(move || added.iter().for_each(|mut file| drop(file.sync())));
            sender
        });
        if syncing.send(file).is_err() {
            // There was no thread to be had; perhaps next time.
            self.syncing = None;
        }
    }

    /// Keeps the keys for the next start, on a thread of its own, if they were not kept for nearly all of the shadow.
    pub(crate) fn keep_keys(&mut self, remembered: Remembered) {
        let path = self.kept.path();
        let bytes = self.kept.disk.stat(&path).map_or(0, |stat| stat.bytes);
        if !self.owed.is_empty() || bytes.saturating_sub(remembered.kept_for_bytes) < GROWN_BYTES {
            return;
        }
        let Ok(known_by) = self.kept.known_by(bytes) else { return };
        self.keeping = memo::keep(&self.kept.dir, KEYS, move || {
            let mut keys = remembered.keys;
            keys.sort();
            keys.dedup();
            // What is told of the shadow must not reach the disk before it.
            File::open(path)?.sync_all()?;
            Ok(render(bytes, known_by, &keys))
        });
    }

    /// Gives what is owed once more to the disk, and waits until the keys are kept.
    pub(crate) fn finish(&mut self) {
        // What the disk did not take it may take now; what is not here at the next start is taken for another's.
        self.add(&[]);
        if let Some(keeping) = self.keeping.take() {
            let _ = keeping.join();
        }
    }
}

/// The file of keys: magic, length, digest of the shadow before that, the keys, and a digest of all that.
fn render(shadow_bytes: u64, known_by: Key, keys: &[Key]) -> Vec<u8> {
    let mut bytes = Vec::with_capacity(HEAD + keys.len() * WORD + WORD);
    bytes.extend_from_slice(MAGIC);
    bytes.extend_from_slice(&u128::from(shadow_bytes).to_le_bytes());
    bytes.extend_from_slice(&known_by.bytes());
    keys.iter().for_each(|key| bytes.extend_from_slice(&key.bytes()));
    memo::with_check(bytes)
}

/// Reads the file of keys; `None` when it is not whole, or of another version.
fn parse(bytes: &[u8]) -> Option<(u64, Key, Vec<Key>)> {
    let (words, rest) = memo::checked(bytes)?.as_chunks::<WORD>();
    let ([magic, length, known_by, keys @ ..], []) = (words, rest) else { return None };
    if magic != MAGIC {
        return None;
    }
    let keys: Vec<Key> = keys.iter().copied().map(Key::from_bytes).collect();
    let length = u64::try_from(u128::from_le_bytes(*length)).ok()?;
    keys.is_sorted_by(|a, b| a < b).then_some((length, Key::from_bytes(*known_by), keys))
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test")]
mod tests {
    use super::*;

    #[test]
    fn keys_come_back_and_nothing_else_is_taken_for_them() {
        let keys: Vec<Key> = (0..5u8).map(|n| Key::from_bytes([n; 16])).collect();
        let whole = render(77, keys[3], &keys);
        assert_eq!(parse(&whole), Some((77, keys[3], keys.clone())));
        assert!(memo::broken(&whole).all(|broken| parse(&broken).is_none()));
        let doubled = [keys[1], keys[1]];
        assert_eq!(parse(&render(77, keys[3], &doubled)), None);
    }
}

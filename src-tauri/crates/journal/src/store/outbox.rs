//! The outbox: entries wait in it until the folder has them. It is a file of lines on this device, only added to and
//! emptied now and then; what is in neither place is not saved, and that is said.

use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::disk::{self, Disk};
use crate::error::Error;
use crate::format::entry::Entry;
use crate::format::segment::lines;
use crate::journal::{Changes, Journal};

const NAME: &str = "unsent.lines";
/// A line behind entries that the folder has.
const SENT: &[u8] = b"=";
/// A line behind entries that were refused: they were never saved.
const REFUSED: &[u8] = b"-";
/// Before entries that were written together, with how many there are: fewer are what a crash has left of them.
const TOGETHER: &str = "+";
/// The file is emptied when nothing waits and it is longer than this.
const EMPTIED_FROM_BYTES: u64 = 64 << 10;
/// Most bytes that are read.
const MAX_BYTES: u64 = 1 << 30;

/// What lies in the outbox.
#[derive(Debug, Default)]
pub(crate) struct Waiting {
    /// Entries to be written into the folder.
    pub(crate) unsent: Vec<Entry>,
    /// Entries that were written into it not long ago.
    pub(crate) sent: Vec<Entry>,
}

impl Waiting {
    fn read(bytes: &[u8]) -> Self {
        let mut waiting = Self::default();
        let mut together = Together::default();
        for line in lines(bytes).filter(|line| !line.is_empty()) {
            if line == SENT || line == REFUSED {
                together.leave_out_torn(&mut waiting.unsent);
                together = Together::default();
                let done = std::mem::take(&mut waiting.unsent);
                if line == SENT {
                    waiting.sent.extend(done);
                }
            } else if let Some(lines) = written_together(line) {
                together.leave_out_torn(&mut waiting.unsent);
                together = Together { before: waiting.unsent.len(), to_come: lines, last_is_torn: false };
            } else {
                let entry = Entry::from_line(line).ok();
                together.heed(entry.is_some());
                waiting.unsent.extend(entry);
            }
        }
        together.leave_out_torn(&mut waiting.unsent);
        waiting
    }
}

/// The file.
#[derive(Debug)]
pub(crate) struct Outbox {
    path: PathBuf,
    disk: Arc<dyn Disk>,
}

impl Outbox {
    pub(crate) fn new(dir: &Path, disk: Arc<dyn Disk>) -> Self {
        Self { path: dir.join(NAME), disk }
    }

    pub(crate) fn read(&self) -> Waiting {
        Waiting::read(&self.disk.read(&self.path, MAX_BYTES).unwrap_or_default())
    }

    /// Whether a start would find nothing to be waiting but these entries.
    fn waits_only(&self, entries: &[Arc<Entry>]) -> bool {
        let bytes = match self.disk.read(&self.path, MAX_BYTES) {
            Ok(bytes) => bytes,
            Err(error) => return error.kind() == io::ErrorKind::NotFound,
        };
        let known = |waiting: &Entry| entries.iter().any(|entry| entry.key() == waiting.key());
        Waiting::read(&bytes).unsent.iter().all(known)
    }

    /// Adds entries, all of them or none; returns when they survive a kill.
    fn add(&self, entries: &[Arc<Entry>]) -> io::Result<()> {
        let mut bytes = format!("\n{TOGETHER}{}\n", entries.len()).into_bytes();
        bytes.extend_from_slice(&as_lines(entries));
        self.disk.append(&self.path)?.write(&bytes)
    }

    /// Returns when what was added survives a power cut.
    fn sync(&self) -> io::Result<()> {
        self.disk.append(&self.path)?.sync()?;
        self.path.parent().map_or(Ok(()), |dir| self.disk.sync_dir(dir))
    }

    /// Keeps exactly these entries; `mark` says what became of the others.
    fn set(&self, entries: &[Arc<Entry>], mark: &[u8]) -> io::Result<()> {
        if !entries.is_empty() {
            let temp = self.path.with_extension("lines.tmp");
            let _ = self.disk.remove(&temp);
            return disk::replace(self.disk.as_ref(), &self.path, &temp, &as_lines(entries));
        }
        // Emptied now and then only: to empty a file and fill it again makes a file system write it out at once, and
        // the save that follows wait for that.
        if self.disk.stat(&self.path).is_ok_and(|stat| stat.bytes < EMPTIED_FROM_BYTES) {
            let marked = self.disk.append(&self.path).and_then(|mut file| file.write(&[b"\n", mark, b"\n"].concat()));
            // A full disk that takes no line more may still take some away.
            return marked.or_else(|_| self.disk.empty(&self.path));
        }
        match self.disk.empty(&self.path) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(()),
            other => other,
        }
    }
}

fn as_lines(entries: &[Arc<Entry>]) -> Vec<u8> {
    entries.iter().flat_map(|entry| entry.line().bytes().chain([b'\n'])).collect()
}

/// Lines that were written together. A crash leaves fewer of them, or the last one cut: then none is taken. A line that
/// cannot be read among others that can is damaged, and the others stay.
#[derive(Default)]
struct Together {
    /// How many entries waited before them.
    before: usize,
    to_come: usize,
    last_is_torn: bool,
}

impl Together {
    fn heed(&mut self, is_read: bool) {
        if self.to_come > 0 {
            self.to_come -= 1;
            self.last_is_torn = self.to_come == 0 && !is_read;
        }
    }

    fn leave_out_torn(&self, waiting: &mut Vec<Entry>) {
        if self.to_come > 0 || self.last_is_torn {
            waiting.truncate(self.before);
        }
    }
}

/// How many entries follow that were written together, if a line says that.
fn written_together(line: &[u8]) -> Option<usize> {
    std::str::from_utf8(line).ok()?.strip_prefix(TOGETHER)?.parse().ok()
}

impl Journal {
    /// Puts entries among what waits, then sends what waits; `are_apart` when they belong together and go into several files.
    pub(crate) fn keep(&mut self, entries: Vec<Arc<Entry>>, are_apart: bool) -> Result<Changes, Error> {
        self.clear_refused();
        let kept = self.local.outbox.add(&entries);
        if kept.is_err() {
            self.local.fall_behind();
        }
        // They reach the folder file by file. When the power fails or the folder refuses between two of these, the rest must be
        // known here: else some would be in the folder, and nothing could bring the others, or take those back.
        let kept = if are_apart { Ok(self.sync_apart(kept)?) } else { kept };
        self.unsent.extend(entries.iter().cloned());
        self.look_at_folder_again();
        self.send_waiting();
        let mut failure = None;
        let is_new = |waiting: &Arc<Entry>| entries.iter().any(|entry| entry.key() == waiting.key());
        // What waited before is safe here already.
        if !are_apart && self.unsent.iter().any(is_new) {
            let was_taken = kept.is_ok();
            if let Err(source) = kept.and_then(|()| self.local.outbox.sync()) {
                // What is neither in the folder nor safe on this device was not saved, and is not shown as if it were.
                self.unsent.retain(|waiting| !is_new(waiting));
                failure = Some((source, was_taken));
            }
        }
        let mut changes = Changes::default();
        let mut new = Vec::new();
        for entry in &entries {
            if (failure.is_none() || self.index.holds(entry.key())) && self.add(Arc::clone(entry)) {
                changes.note(entry);
                new.push(Arc::clone(entry));
            }
        }
        // The replica knows them before they stop waiting: own entries that it does not know are taken for a
        // copy's.
        self.local.remember(&new);
        match failure {
            Some((source, was_taken)) => Err(self.not_safe(&entries, source, was_taken)),
            None => {
                self.settle_unsent();
                Ok(changes)
            }
        }
    }

    /// Why entries are not safe, which this device's own disk refused too; `was_taken` when it took their lines, and refused later.
    fn not_safe(&mut self, entries: &[Arc<Entry>], source: io::Error, was_taken: bool) -> Error {
        let is_cleared = self.refuse(was_taken);
        let folder = self.folder.clone();
        let folder_says = self.folder_says.clone().unwrap_or_else(|| "it is not there".to_owned());
        let local = self.local.dir.clone();
        if entries.iter().all(|entry| self.index.holds(entry.key())) {
            return Error::Unconfirmed { folder, folder_says };
        }
        if is_cleared {
            Error::NowhereToWrite { folder, folder_says, local, source }
        } else {
            Error::Uncertain { local, source }
        }
    }

    /// What goes into several files is safe on this device before the first of them is written, or none of it is kept.
    fn sync_apart(&mut self, kept: io::Result<()>) -> Result<(), Error> {
        let was_taken = kept.is_ok();
        kept.and_then(|()| self.local.outbox.sync()).map_err(|source| {
            let is_cleared = self.refuse(was_taken);
            let local = self.local.dir.clone();
            if is_cleared { Error::NotKeptTogether { local, source } } else { Error::Uncertain { local, source } }
        })
    }

    /// Clears away what was noted of entries that are refused, as it must not come in later; whether it is certain that it will not.
    fn refuse(&mut self, was_taken: bool) -> bool {
        // Lines that this disk was given whole may be on it already: that they are settled must be as safe as they.
        let cleared = self.local.outbox.set(&self.unsent, REFUSED);
        let cleared = cleared.and_then(|()| if was_taken { self.local.outbox.sync() } else { Ok(()) });
        // Lines of which it took only some are passed over at the next start, unless it was no more than the end that is wanting.
        let is_cleared = cleared.is_ok() || !was_taken && self.local.outbox.waits_only(&self.unsent);
        self.uncleared = !is_cleared;
        is_cleared
    }

    /// Tries again to clear away what was refused, so that it does not come in beside what is entered in its place.
    pub(crate) fn clear_refused(&mut self) {
        if self.uncleared {
            self.refuse(true);
        }
    }

    /// Sends what waits into the folder, which was just looked at, and completes this device's own files.
    pub(crate) fn send(&mut self) {
        self.clear_refused();
        let waited = !self.unsent.is_empty();
        self.send_waiting();
        if waited {
            self.settle_unsent();
        }
    }

    fn settle_unsent(&self) {
        // If the disk refuses, the entries are found to be in the folder at the next start.
        let _ = self.local.outbox.set(&self.unsent, SENT);
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test")]
mod tests {
    use super::*;
    use crate::format::entry::Draft;
    use crate::format::ids::{Kind, Place};

    fn line(minutes: u32) -> String {
        let (warp, of) = ("warp".parse().unwrap(), format!("record-{minutes}").parse().unwrap());
        let set = serde_json::Map::from_iter([("minutes".to_owned(), minutes.into())]);
        let at = crate::format::clock::At::carried("2026-05-31T18:04:05.123Z.0000").unwrap();
        let entry =
            Entry::from_draft(Draft::new(Place::warp(&warp), of, Kind::SITTING, set), &"a".parse().unwrap(), at);
        entry.unwrap().line().to_owned()
    }

    fn waiting(bytes: &[u8]) -> Vec<u64> {
        let minutes = |entry: &Entry| entry.set()["minutes"].as_u64().unwrap();
        Waiting::read(bytes).unsent.iter().map(minutes).collect()
    }

    #[test]
    fn of_entries_written_together_a_torn_end_takes_all_and_a_damaged_line_only_itself() {
        let one = format!("\n+1\n{}\n", line(1));
        let three = format!("\n+3\n{}\n{}\n{}\n", line(2), line(3), line(4));
        let whole = format!("{one}{three}");
        assert_eq!(waiting(whole.as_bytes()), [1, 2, 3, 4]);
        // Wherever it ends, and whatever is written after that.
        for end in one.len()..whole.len() - 1 {
            let torn = &whole[..end];
            assert_eq!(waiting(torn.as_bytes()), [1], "{end}");
            assert_eq!(waiting(format!("{torn}\n+1\n{}\n", line(5)).as_bytes()), [1, 5], "{end}");
        }
        let damaged = whole.replacen(&line(3), &line(3).replacen("minutes", "minuter", 1), 1);
        assert_eq!(waiting(damaged.as_bytes()), [1, 2, 4]);
        assert_eq!(waiting(format!("{whole}=\n{one}").as_bytes()), [1]);
        assert_eq!(waiting(format!("{whole}-\n{one}").as_bytes()), [1]);
        // What was refused was never written; what was sent may be needed again.
        let sent = |bytes: &str| Waiting::read(bytes.as_bytes()).sent.len();
        assert_eq!((sent(&format!("{whole}=\n")), sent(&format!("{whole}-\n"))), (4, 0));
        // Without the count, as it was written once.
        assert_eq!(waiting(format!("{}\n{}\n", line(6), line(7)).as_bytes()), [6, 7]);
    }
}

//! The outbox: entries wait in it until the folder has them. It is a file of lines on this device, only added to and
//! emptied now and then; what is in neither place is not saved, and that is said.

use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::disk::{self, Disk};
use crate::format::entry::Entry;
use crate::format::segment::lines;

const NAME: &str = "unsent.lines";
/// A line behind entries that the folder has.
pub(super) const SENT: &[u8] = b"=";
/// A line behind entries that were refused: they were never saved.
pub(super) const REFUSED: &[u8] = b"-";
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
    pub(super) fn waits_only(&self, entries: &[Arc<Entry>]) -> bool {
        let bytes = match self.disk.read(&self.path, MAX_BYTES) {
            Ok(bytes) => bytes,
            Err(error) => return error.kind() == io::ErrorKind::NotFound,
        };
        let known = |waiting: &Entry| entries.iter().any(|entry| entry.key() == waiting.key());
        Waiting::read(&bytes).unsent.iter().all(known)
    }

    /// Adds entries, all of them or none; returns when they survive a kill.
    pub(super) fn add(&self, entries: &[Arc<Entry>]) -> io::Result<()> {
        let mut bytes = format!("\n{TOGETHER}{}\n", entries.len()).into_bytes();
        bytes.extend_from_slice(&as_lines(entries));
        self.disk.append(&self.path)?.write(&bytes)
    }

    /// Returns when what was added survives a power cut.
    pub(super) fn sync(&self) -> io::Result<()> {
        self.disk.append(&self.path)?.sync()?;
        self.path.parent().map_or(Ok(()), |dir| self.disk.sync_dir(dir))
    }

    /// Keeps exactly these entries; `mark` says what became of the others.
    pub(super) fn set(&self, entries: &[Arc<Entry>], mark: &[u8]) -> io::Result<()> {
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

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test")]
mod tests {
    use super::*;
    use crate::format::entry::EntryDraft;
    use crate::format::ids::{Kind, Place};

    fn line(minutes: u32) -> String {
        let (warp, of) = ("warp".parse().unwrap(), format!("record-{minutes}").parse().unwrap());
        let set = serde_json::Map::from_iter([("minutes".to_owned(), minutes.into())]);
        let at = crate::format::clock::At::carried("2026-05-31T18:04:05.123Z.0000").unwrap();
        let entry =
            Entry::from_draft(EntryDraft::new(Place::warp(&warp), of, Kind::SITTING, set), &"a".parse().unwrap(), at);
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

//! This device's own data beside the folder, never carried: who it is, a shadow of every entry seen, what
//! waits to be written, and the lock.

use std::collections::BTreeSet;
use std::fs::{File, OpenOptions, TryLockError};
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::thread::JoinHandle;

use serde::{Deserialize, Serialize};

use crate::disk::{self, Disk};
use crate::entry::Entry;
use crate::error::Error;
use crate::ids::{DeviceId, Key};
use crate::index::Index;
use crate::shadow::Shadow;
use crate::sound::{Learnt, Mark, Sound};

const ABOUT: &str = "device.json";
const UNSENT: &str = "unsent.lines";
/// A line behind entries that wait no more.
const SETTLED: &[u8] = b"=";
/// Before entries that were written together, with how many there are: fewer are what a crash has left of them.
const TOGETHER: &str = "+";
/// The list of what waits is emptied when nothing waits and it is longer than this.
const UNSENT_EMPTIED_BYTES: u64 = 64 << 10;
const LOCK: &str = "lock";
/// Most bytes of what waits that are read.
const UNSENT_MAX_BYTES: u64 = 1 << 30;

/// Who this device is, for one folder.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub(crate) struct About {
    /// Its id.
    pub(crate) device: DeviceId,
    /// Ids it had before a copy of its disk appeared.
    #[serde(default)]
    pub(crate) former: Vec<DeviceId>,
    /// Journals that the folder is known to hold: one, or two that were begun apart and then met.
    #[serde(default)]
    pub(crate) journals: BTreeSet<String>,
}

impl About {
    /// Reads it, if it is whole: a changed byte would make another device of this one, or take the folder for
    /// another's, so a check follows on the second line.
    fn read(disk: &dyn Disk, dir: &Path) -> Option<Self> {
        let bytes = disk.read(&dir.join(ABOUT), 1 << 20).ok()?;
        let mut lines = bytes.split(|b| *b == b'\n');
        let (about, check) = (lines.next()?, lines.next()?);
        (Key::from_hex(check)? == Key::of_rest(about)).then(|| serde_json::from_slice(about).ok())?
    }
}

/// What waits on this device to be written into the folder.
#[derive(Debug, Default)]
pub(crate) struct Unsent {
    pub(crate) waiting: Vec<Entry>,
    /// The keys of what waited not long ago, too: this device wrote all of that.
    pub(crate) written: Vec<Key>,
}

impl Unsent {
    fn read(bytes: &[u8]) -> Self {
        let mut unsent = Self::default();
        let mut together = Together::default();
        for line in crate::segment::lines(bytes).filter(|line| !line.is_empty()) {
            if line == SETTLED {
                unsent.waiting.clear();
                together = Together::default();
            } else if let Some(lines) = written_together(line) {
                together.leave_out_torn(&mut unsent.waiting);
                together = Together { before: unsent.waiting.len(), to_come: lines, last_is_torn: false };
            } else {
                let entry = Entry::from_line(line).ok();
                together.heed(entry.is_some());
                if let Some(entry) = entry {
                    unsent.written.push(entry.key());
                    unsent.waiting.push(entry);
                }
            }
        }
        together.leave_out_torn(&mut unsent.waiting);
        unsent
    }
}

#[derive(Debug)]
pub(crate) struct Local {
    pub(crate) dir: PathBuf,
    disk: Arc<dyn Disk>,
    /// Held while the journal is open; `None` when it only reads.
    lock: Option<File>,
    pub(crate) about: About,
    pub(crate) shadow: Shadow,
    keeping: Option<JoinHandle<()>>,
}

impl Local {
    /// Opens the local data for writing, making what is missing.
    pub(crate) fn open(dir: &Path, folder: &Path, device_name: &str, disk: Arc<dyn Disk>) -> Result<Self, Error> {
        std::fs::create_dir_all(dir).map_err(Error::io("cannot make the directory", dir))?;
        let lock_path = dir.join(LOCK);
        let lock = OpenOptions::new()
            .create(true)
            .truncate(false)
            .write(true)
            .open(&lock_path)
            .map_err(Error::io("cannot open", &lock_path))?;
        match lock.try_lock() {
            Ok(()) => {}
            Err(TryLockError::WouldBlock) => return Err(Error::InUse { folder: folder.to_owned() }),
            Err(TryLockError::Error(source)) => return Err(Error::io("cannot lock", &lock_path)(source)),
        }
        let known = About::read(disk.as_ref(), dir);
        let fresh = known.is_none();
        let about = match known {
            Some(about) => about,
            None => About {
                device: DeviceId::for_name(device_name).map_err(Error::io("cannot make an id for", dir))?,
                former: Vec::new(),
                journals: BTreeSet::new(),
            },
        };
        let shadow = Shadow::new(dir, Arc::clone(&disk));
        let local = Self { dir: dir.to_owned(), disk, lock: Some(lock), about, shadow, keeping: None };
        if fresh {
            local.keep_about()?;
        }
        Ok(local)
    }

    /// Looks at the local data without touching them.
    pub(crate) fn peek(dir: &Path, device_name: &str, disk: Arc<dyn Disk>) -> Result<Self, Error> {
        let about = match About::read(disk.as_ref(), dir) {
            Some(about) => about,
            None => About {
                device: DeviceId::for_name(device_name).map_err(Error::io("cannot make an id for", dir))?,
                former: Vec::new(),
                journals: BTreeSet::new(),
            },
        };
        let shadow = Shadow::new(dir, Arc::clone(&disk));
        Ok(Self { dir: dir.to_owned(), disk, lock: None, about, shadow, keeping: None })
    }

    pub(crate) fn is_read_only(&self) -> bool {
        self.lock.is_none()
    }

    /// Writes down who this device is.
    pub(crate) fn keep_about(&self) -> Result<(), Error> {
        let path = self.dir.join(ABOUT);
        let mut bytes = serde_json::to_vec(&self.about).unwrap_or_default();
        let check = Key::of_rest(&bytes);
        bytes.extend_from_slice(format!("\n{check}\n").as_bytes());
        let temp = self.dir.join(format!("{ABOUT}.tmp"));
        let _ = self.disk.remove(&temp);
        disk::replace(self.disk.as_ref(), &path, &temp, &bytes).map_err(Error::io("cannot write", &path))
    }

    pub(crate) fn unsent(&self) -> Unsent {
        Unsent::read(&self.disk.read(&self.dir.join(UNSENT), UNSENT_MAX_BYTES).unwrap_or_default())
    }

    /// The files that were found to be sound at earlier starts.
    pub(crate) fn sound(&self) -> Sound {
        Sound::kept(&self.dir, Arc::clone(&self.disk), self.shadow.kept().clone())
    }

    /// Keeps them for the next start.
    pub(crate) fn keep_sound(&mut self, sound: &Sound, index: &Index, learnt: Vec<Learnt>) {
        if !self.is_read_only() {
            let there: Vec<Mark> = index.files.values().filter_map(|seen| seen.mark).collect();
            self.keeping = sound.keep(&self.dir, &there, learnt);
        }
    }

    /// Adds entries to the shadow.
    pub(crate) fn remember(&mut self, entries: &[Arc<Entry>]) {
        if !self.is_read_only() {
            self.shadow.add(entries);
        }
    }

    /// Whether a start would find nothing to be waiting but these entries.
    pub(crate) fn waits_alone(&self, entries: &[Arc<Entry>]) -> bool {
        let bytes = match self.disk.read(&self.dir.join(UNSENT), UNSENT_MAX_BYTES) {
            Ok(bytes) => bytes,
            Err(error) => return error.kind() == io::ErrorKind::NotFound,
        };
        let known = |waiting: &Entry| entries.iter().any(|entry| entry.key() == waiting.key());
        Unsent::read(&bytes).waiting.iter().all(known)
    }

    /// Adds entries to what waits, all of them or none; returns when they survive a kill.
    pub(crate) fn keep_unsent<'a>(&self, lines: impl ExactSizeIterator<Item = &'a str>) -> io::Result<()> {
        let mut bytes = format!("\n{TOGETHER}{}\n", lines.len()).into_bytes();
        for line in lines {
            bytes.extend_from_slice(line.as_bytes());
            bytes.push(b'\n');
        }
        self.disk.append(&self.dir.join(UNSENT))?.write(&bytes)
    }

    /// Returns when what waits survives a power cut.
    pub(crate) fn sync_unsent(&self) -> io::Result<()> {
        self.disk.append(&self.dir.join(UNSENT))?.sync()?;
        self.disk.sync_dir(&self.dir)
    }

    /// Keeps exactly these entries as waiting.
    pub(crate) fn set_unsent<'a>(&self, lines: impl IntoIterator<Item = &'a str>) -> io::Result<()> {
        let path = self.dir.join(UNSENT);
        let mut bytes = Vec::new();
        for line in lines {
            bytes.extend_from_slice(line.as_bytes());
            bytes.push(b'\n');
        }
        if bytes.is_empty() {
            // Emptied now and then only: to empty a file and fill it again makes a file system write it out at once, and
            // the save that follows wait for that.
            if self.disk.stat(&path).is_ok_and(|stat| stat.bytes < UNSENT_EMPTIED_BYTES) {
                let settled = [b"\n", SETTLED, b"\n"].concat();
                let noted = self.disk.append(&path).and_then(|mut file| file.write(&settled));
                // A full disk that takes no line more may still take some away.
                return noted.or_else(|_| self.disk.empty(&path));
            }
            return match self.disk.empty(&path) {
                Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(()),
                other => other,
            };
        }
        let temp = self.dir.join(format!("{UNSENT}.tmp"));
        let _ = self.disk.remove(&temp);
        disk::replace(self.disk.as_ref(), &path, &temp, &bytes)
    }
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

impl Drop for Local {
    fn drop(&mut self) {
        self.shadow.finish();
        if let Some(keeping) = self.keeping.take() {
            let _ = keeping.join();
        }
        // Closing would do, were there not a moment in which a program being started still holds the file too.
        if let Some(lock) = &self.lock {
            let _ = lock.unlock();
        }
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test")]
mod tests {
    use super::*;
    use crate::entry::Draft;
    use crate::ids::{Kind, Place};

    fn line(minutes: u32) -> String {
        let (warp, of) = ("warp".parse().unwrap(), format!("record-{minutes}").parse().unwrap());
        let set = serde_json::Map::from_iter([("minutes".to_owned(), minutes.into())]);
        let at = crate::clock::At::carried("2026-05-31T18:04:05.123Z.0000").unwrap();
        let entry =
            Entry::from_draft(Draft::new(Place::warp(&warp), of, Kind::SITTING, set), &"a".parse().unwrap(), at);
        entry.unwrap().line().to_owned()
    }

    fn waiting(bytes: &[u8]) -> Vec<u64> {
        let minutes = |entry: &Entry| entry.set()["minutes"].as_u64().unwrap();
        Unsent::read(bytes).waiting.iter().map(minutes).collect()
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
        // Without the count, as it was written once.
        assert_eq!(waiting(format!("{}\n{}\n", line(6), line(7)).as_bytes()), [6, 7]);
    }
}

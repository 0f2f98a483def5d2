//! This device's own data beside the folder, never carried: who it is, a shadow of every entry seen, what
//! waits to be written, and the lock.

use std::collections::BTreeSet;
use std::fs::{File, OpenOptions, TryLockError};
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use serde::{Deserialize, Serialize};

use crate::disk::{self, Disk};
use crate::entry::Entry;
use crate::error::Error;
use crate::ids::{DeviceId, Key};

const ABOUT: &str = "device.json";
const SHADOW: &str = "shadow.lines";
const UNSENT: &str = "unsent.lines";
const LOCK: &str = "lock";
/// Most bytes of a shadow that are read: far beyond any journal, so that a broken one does not fill the memory.
const SHADOW_MAX_BYTES: u64 = 2 << 30;

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

#[derive(Debug)]
pub(crate) struct Local {
    pub(crate) dir: PathBuf,
    disk: Arc<dyn Disk>,
    /// Held while the journal is open; `None` when it only reads.
    lock: Option<File>,
    pub(crate) about: About,
    /// Lines that the shadow should hold and does not yet, because the disk refused.
    owed: Vec<u8>,
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
        let local = Self { dir: dir.to_owned(), disk, lock: Some(lock), about, owed: Vec::new() };
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
        Ok(Self { dir: dir.to_owned(), disk, lock: None, about, owed: Vec::new() })
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

    pub(crate) fn shadow(&self) -> Lines {
        Lines(self.disk.read(&self.dir.join(SHADOW), SHADOW_MAX_BYTES).unwrap_or_default())
    }

    pub(crate) fn unsent(&self) -> Vec<Entry> {
        let lines = Lines(self.disk.read(&self.dir.join(UNSENT), SHADOW_MAX_BYTES).unwrap_or_default());
        lines.iter().filter_map(|line| Entry::from_line(line).ok()).collect()
    }

    /// Adds entries to the shadow. When the disk refuses, they are owed and added with the next.
    pub(crate) fn remember<'a>(&mut self, lines: impl IntoIterator<Item = &'a str>) {
        if self.is_read_only() {
            return;
        }
        for line in lines {
            self.owed.extend_from_slice(line.as_bytes());
            self.owed.push(b'\n');
        }
        if self.owed.is_empty() {
            return;
        }
        // The line end in front closes a line that a crash has torn; empty lines are passed over.
        let mut bytes = vec![b'\n'];
        bytes.extend_from_slice(&self.owed);
        let written = self.disk.append(&self.dir.join(SHADOW)).and_then(|mut file| {
            file.write(&bytes)?;
            Ok(file)
        });
        if let Ok(mut file) = written {
            self.owed.clear();
            // Power may fail before this is done: then the entries are read from the folder again.
            std::thread::spawn(move || file.sync());
        }
    }

    /// Adds entries to what waits; returns when they survive a kill.
    pub(crate) fn keep_unsent<'a>(&self, lines: impl IntoIterator<Item = &'a str>) -> io::Result<()> {
        let mut bytes = vec![b'\n'];
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

impl Drop for Local {
    fn drop(&mut self) {
        // Closing would do, were there not a moment in which a program being started still holds the file too.
        if let Some(lock) = &self.lock {
            let _ = lock.unlock();
        }
    }
}

/// Lines of a local file.
pub(crate) struct Lines(Vec<u8>);

impl Lines {
    pub(crate) fn iter(&self) -> impl Iterator<Item = &[u8]> {
        crate::segment::lines(&self.0).filter(|line| !line.is_empty())
    }

    /// The keys the lines claim, unchecked.
    pub(crate) fn keys(&self) -> impl Iterator<Item = (Key, &[u8])> {
        self.iter().filter_map(|line| Some((Entry::claimed_key(line)?, line)))
    }
}

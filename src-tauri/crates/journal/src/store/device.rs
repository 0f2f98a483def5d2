//! Who this device is, and its own data beside the folder: never carried, and never more than what durability needs.

use std::collections::BTreeSet;
use std::fs::{File, OpenOptions, TryLockError};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use serde::{Deserialize, Serialize};

use super::disk::{self, Disk, private_dir};
use super::outbox::Outbox;
use super::replica::LocalReplica;
use crate::error::Error;
use crate::format::entry::Entry;
use crate::format::ids::{DeviceId, Key};

const ABOUT: &str = "device.json";
const LOCK: &str = "lock";
/// An empty file: it needs no space where nothing else can be written.
const BEHIND: &str = "behind";
/// What earlier versions kept to save time; nothing reads it any more.
const OLD_CACHES: [&str; 6] =
    ["sound.memo", "sound.memo.tmp", "shadow.keys", "shadow.keys.tmp", "reckoned.memo", "reckoned.new"];

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

/// This device's own data for one folder.
#[derive(Debug)]
pub(crate) struct Local {
    pub(crate) dir: PathBuf,
    disk: Arc<dyn Disk>,
    /// Held while the journal is open; `None` when it only reads.
    lock: Option<File>,
    pub(crate) about: About,
    /// Whether `about` is on the disk as it is here.
    pub(crate) about_is_kept: bool,
    pub(crate) replica: LocalReplica,
    pub(crate) outbox: Outbox,
}

impl Local {
    /// Opens the local data for writing, making what is missing.
    pub(crate) fn open(dir: &Path, folder: &Path, device_name: &str, disk: Arc<dyn Disk>) -> Result<Self, Error> {
        private_dir(dir).map_err(Error::io("cannot make the directory", dir))?;
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
        for cache in OLD_CACHES {
            let _ = std::fs::remove_file(dir.join(cache));
        }
        let is_new = About::read(disk.as_ref(), dir).is_none();
        let mut local = Self::read(dir, device_name, disk)?;
        local.lock = Some(lock);
        if is_new {
            local.keep_about()?;
        }
        Ok(local)
    }

    /// Looks at the local data without touching them.
    pub(crate) fn read(dir: &Path, device_name: &str, disk: Arc<dyn Disk>) -> Result<Self, Error> {
        let about = match About::read(disk.as_ref(), dir) {
            Some(about) => about,
            None => About {
                device: DeviceId::for_name(device_name).map_err(Error::io("cannot make an id for", dir))?,
                former: Vec::new(),
                journals: BTreeSet::new(),
            },
        };
        let replica = LocalReplica::new(dir, Arc::clone(&disk));
        let outbox = Outbox::new(dir, Arc::clone(&disk));
        Ok(Self { dir: dir.to_owned(), disk, lock: None, about, about_is_kept: true, replica, outbox })
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

    /// Adds entries to the replica.
    pub(crate) fn remember(&mut self, entries: &[Arc<Entry>]) {
        // Without its new id on the disk, the next start finds the id that another device writes under, and must see by unknown
        // entries that it does: nothing is remembered until then.
        if !self.is_read_only() && self.about_is_kept {
            self.replica.add(entries);
            if self.replica.refusal().is_some() {
                self.fall_behind();
            }
        }
    }

    /// Notes that this disk is too full to hold what this device writes. At the next start its own entries in the folder that it
    /// does not know are then no sign of a copy of this device, and it keeps its id.
    pub(crate) fn fall_behind(&self) {
        let path = self.dir.join(BEHIND);
        if self.disk.stat(&path).is_err() {
            // Where even that is refused it takes a new id: none of its entries is lost.
            let _ = self.disk.create_new(&path).and_then(|_| self.disk.sync_dir(&self.dir));
        }
    }

    pub(crate) fn is_behind(&self) -> bool {
        self.disk.stat(&self.dir.join(BEHIND)).is_ok()
    }

    /// Notes that the replica holds everything again, if it does.
    pub(crate) fn catch_up(&self) {
        if !self.is_read_only() && self.replica.refusal().is_none() {
            let _ = self.disk.remove(&self.dir.join(BEHIND));
        }
    }
}

impl Drop for Local {
    fn drop(&mut self) {
        // What the disk did not take it may take now, while the lock is held.
        self.remember(&[]);
        // Closing would do, were there not a moment in which a program being started still holds the file too.
        if let Some(lock) = &self.lock {
            let _ = lock.unlock();
        }
    }
}

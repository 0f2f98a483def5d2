//! Reading: the folder, what this device remembers of it, and what changed since.

use std::collections::HashSet;
use std::ops::Bound;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::disk::NodeKind;
use super::files::{self, FileReading};
use super::index::{self, FileSeen, Index};
use super::progress::{ProgressReporter, ReadProgressListener};
use crate::error::Error;
use crate::format::entry::Entry;
use crate::format::ids::{DeviceId, Key};
use crate::journal::{ChangedRecords, Journal};

/// So many files are read while those before them are added.
const FILES_PER_BATCH: usize = 256;

impl Journal {
    /// Reads the folder, then what this device remembers and the folder does not hold. What this device does not
    /// remember whole is remembered from now on.
    ///
    /// # Errors
    /// [`Error::Stopped`] when the listener stopped it: then nothing is written down.
    pub(crate) fn read_all(&mut self, listener: Option<ReadProgressListener>) -> Result<(), Error> {
        if !self.folder_state.is_out_of_reach() {
            let progress = ProgressReporter::begin(listener);
            let folder = self.folder.clone();
            let files = self.files_under(&folder, &progress);
            self.read_and_add(&files, &progress);
            if progress.is_stopped() {
                return Err(Error::Stopped { folder });
            }
        }
        let remembered = self.local.replica.read(&self.state);
        let waiting = self.local.outbox.read();
        let from_outbox: HashSet<Key> = waiting.unsent.iter().chain(&waiting.sent).map(Entry::key).collect();
        let unremembered: Vec<Arc<Entry>> =
            self.state.entries().filter(|entry| !remembered.whole.contains(&entry.key())).cloned().collect();
        // Of its own entries a device knows at least the keys, or another one writes under its name.
        let is_known = |key: Key| remembered.damaged.contains(&key) || from_outbox.contains(&key);
        let behind = self.local.is_behind();
        let cloned = !behind && unremembered.iter().any(|entry| entry.by() == self.device() && !is_known(entry.key()));
        // Before anything is remembered, which waits until the new id is kept.
        if cloned {
            self.become_another_device();
        }
        self.local.remember(&unremembered);
        if behind {
            self.local.catch_up();
        }
        for entry in remembered.only_here {
            self.add(entry);
        }
        // What the folder lost again and the replica does not hold whole may be here still.
        let sent = waiting.sent.into_iter().map(|entry| (entry, false));
        for (entry, is_unsent) in sent.chain(waiting.unsent.into_iter().map(|entry| (entry, true))) {
            let entry = Arc::new(entry);
            if self.add(Arc::clone(&entry)) {
                self.local.remember(&[Arc::clone(&entry)]);
            }
            if is_unsent {
                self.unsent.push(entry);
            }
        }
        self.lost = true;
        Ok(())
    }

    /// Reads files of which nothing is known yet and adds what they hold: while some are read, those before them are added.
    fn read_and_add(&mut self, files: &[PathBuf], progress: &ProgressReporter) {
        let (disk, nothing_known) = (Arc::clone(&self.disk), Index::default());
        let mut readings = Vec::new();
        for batch in files.chunks(FILES_PER_BATCH) {
            let read = || files::read_files(disk.as_ref(), &nothing_known, batch.to_vec(), files.len(), progress);
            (_, readings) = rayon::join(|| self.add_readings(readings), read);
        }
        self.add_readings(readings);
    }

    fn add_readings(&mut self, readings: Vec<(PathBuf, FileReading)>) {
        for (file, reading) in readings {
            if let Some((seen, entries)) = self.note_reading(&file, reading) {
                entries.into_iter().for_each(|entry| _ = self.add(entry));
                self.index.put(file, seen);
            }
        }
    }

    /// Adds an entry to the state; `true` when it is new.
    pub(crate) fn add(&mut self, entry: Arc<Entry>) -> bool {
        self.hlc.seen(entry.at(), || self.clock.now());
        match self.last_by.get_mut(entry.by()) {
            Some(last) if *last >= *entry.at() => {}
            Some(last) => *last = entry.at().clone(),
            None => _ = self.last_by.insert(entry.by().clone(), entry.at().clone()),
        }
        self.state.insert(entry)
    }

    /// Looks at a path again and takes in what is new.
    pub(crate) fn look_at(&mut self, path: &Path, changes: &mut ChangedRecords) {
        let mut found = Vec::new();
        let progress = ProgressReporter::default();
        let files = self.files_under(path, &progress);
        let of = files.len();
        for (file, reading) in files::read_files(self.disk.as_ref(), &self.index, files, of, &progress) {
            if let Some((seen, entries)) = self.note_reading(&file, reading) {
                found.extend(entries);
                self.lost |= self.index.put(file, seen);
            }
        }
        self.take_in(found, changes);
    }

    /// Takes in entries that were read from the folder. One of this device's name that it never wrote means
    /// that a copy of this device writes too.
    pub(crate) fn take_in(&mut self, entries: Vec<Arc<Entry>>, changes: &mut ChangedRecords) {
        let mut new = Vec::new();
        let mut cloned = false;
        for entry in entries {
            if self.add(Arc::clone(&entry)) {
                changes.note(&entry);
                cloned |= entry.by() == self.device();
                new.push(entry);
            }
        }
        self.local.remember(&new);
        if cloned {
            self.become_another_device();
        }
    }

    /// The files under a path that may hold entries. Takes out of the index what is gone.
    fn files_under(&mut self, path: &Path, progress: &ProgressReporter) -> Vec<PathBuf> {
        let mut files = Vec::new();
        match self.disk.stat(path) {
            Ok(stat) if stat.kind == NodeKind::Dir || *path == self.folder => {
                let walk = index::walk(self.disk.as_ref(), &self.folder, path, progress);
                let there: HashSet<&PathBuf> = walk.files.iter().collect();
                let known = self.index.files.range::<Path, _>((Bound::Included(path), Bound::Unbounded));
                let known = known.map(|(file, _)| file).take_while(|file| file.starts_with(path));
                let gone: Vec<PathBuf> = known.filter(|file| !there.contains(file)).cloned().collect();
                for file in gone {
                    self.lost |= self.index.forget(&file);
                }
                self.index.not_followed.retain(|file, _| !file.starts_with(path));
                let not_followed = walk.not_followed.into_iter().map(|problem| (problem.file.clone(), problem));
                self.index.not_followed.extend(not_followed);
                if *path == self.folder {
                    self.index.temps = walk.temps;
                }
                files = walk.files;
            }
            Ok(stat) if stat.kind == NodeKind::File => {
                // A single name goes by the same rules as in a walk; its directory is small.
                if let Some(dir) = path.parent() {
                    let walk = index::walk(self.disk.as_ref(), &self.folder, dir, progress);
                    files.extend(walk.files.into_iter().filter(|file| file == path));
                }
            }
            Ok(_) => {}
            Err(error) if error.kind() == std::io::ErrorKind::NotFound => {
                self.lost |= self.index.forget(path);
            }
            Err(_) => {}
        }
        files
    }

    /// Brings the index up to date with a reading; gives what a file holds, which is still to be put in.
    fn note_reading(&mut self, file: &Path, reading: FileReading) -> Option<(FileSeen, Vec<Arc<Entry>>)> {
        match reading {
            FileReading::Unchanged => {}
            FileReading::Unreadable(error) => {
                self.index.not_followed.insert(file.to_owned(), index::unreadable(file, &error));
            }
            FileReading::NotOurs => self.lost |= self.index.forget(file),
            FileReading::Read(seen, entries) => return Some((seen, entries)),
        }
        None
    }

    /// Takes a new id: another device writes under the one it had. Its old files are left alone. Where the new id cannot
    /// be kept, nothing is written under it: the next start would not know it again.
    pub(crate) fn become_another_device(&mut self) {
        if self.local.is_read_only() {
            return;
        }
        let Ok(new) = DeviceId::for_name(&self.device_name) else { return };
        let old = std::mem::replace(&mut self.local.about.device, new);
        self.local.about.former.push(old);
        self.keep_identity();
    }

    /// Keeps this device's id, if it is not kept yet.
    pub(crate) fn keep_identity(&mut self) {
        self.no_identity = self.local.keep_about().err().map(|error| error.to_string());
        self.local.about_is_kept = self.no_identity.is_none();
    }
}

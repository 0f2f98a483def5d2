//! Reading: the folder, what this device remembers of it, and what changed since.

use std::collections::HashSet;
use std::ops::Bound;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use chrono::{DateTime, Utc};

use crate::disk::NodeKind;
use crate::entry::Entry;
use crate::ids::{ByBits, DeviceId, Key};
use crate::index::{self, Reading};
use crate::journal::{Changes, Journal};
use crate::status::FolderState;

impl Journal {
    /// Reads the folder, then what this device remembers and the folder does not hold.
    pub(crate) fn read_all(&mut self) {
        let shadow = self.local.shadow();
        let remembered: Vec<(Key, &[u8])> = shadow.keys().collect();
        let mut known: HashSet<Key, ByBits> = HashSet::with_capacity_and_hasher(remembered.len(), ByBits::default());
        known.extend(remembered.iter().map(|(key, _)| key));
        let unsent = self.local.unsent();
        let waiting: HashSet<Key> = unsent.iter().map(Entry::key).collect();

        let mut fresh = Vec::new();
        if !matches!(self.folder_state, FolderState::Missing | FolderState::Wrong) {
            let folder = self.folder.clone();
            fresh = self.read_changed(&folder, true);
        }
        let mut cloned = false;
        let mut unremembered: Vec<Arc<Entry>> = Vec::new();
        let now = self.clock.now();
        for entry in &fresh {
            if !known.contains(&entry.key()) {
                cloned |= entry.by() == self.device() && !waiting.contains(&entry.key());
                unremembered.push(Arc::clone(entry));
            }
            self.note_time(entry, now);
        }
        self.state.extend(fresh);
        let mut gone_missing = Vec::new();
        for (key, line) in remembered {
            if !self.state.contains(key)
                && let Ok(entry) = Entry::from_line(line)
            {
                self.note_time(&entry, now);
                gone_missing.push(Arc::new(entry));
            }
        }
        self.state.extend(gone_missing);
        for entry in unsent {
            let entry = Arc::new(entry);
            if !known.contains(&entry.key()) && !self.state.contains(entry.key()) {
                unremembered.push(Arc::clone(&entry));
            }
            self.add(Arc::clone(&entry));
            self.unsent.push(entry);
        }
        self.local.remember(unremembered.iter().map(|entry| entry.line()));
        self.lost = true;
        if cloned {
            self.become_another_device();
        }
    }

    /// Adds an entry to the state; `true` when it is new.
    pub(crate) fn add(&mut self, entry: Arc<Entry>) -> bool {
        self.note_time(&entry, self.clock.now());
        self.state.insert(entry)
    }

    /// Takes note of when an entry was written, and by whom.
    fn note_time(&mut self, entry: &Entry, now: DateTime<Utc>) {
        self.hlc.seen(entry.at(), now);
        match self.last_by.get_mut(entry.by()) {
            Some(last) if *last >= *entry.at() => {}
            Some(last) => *last = entry.at().clone(),
            None => {
                self.last_by.insert(entry.by().clone(), entry.at().clone());
            }
        }
    }

    /// Looks at a path again and takes in what is new.
    pub(crate) fn look_at(&mut self, path: &Path, changes: &mut Changes) {
        let fresh = self.read_changed(path, false);
        self.take_in(fresh, changes);
    }

    /// Takes in entries that were read from the folder. One of this device's name that it never wrote means
    /// that a copy of this device writes too.
    pub(crate) fn take_in(&mut self, entries: Vec<Arc<Entry>>, changes: &mut Changes) {
        let mut new = Vec::new();
        let mut cloned = false;
        for entry in entries {
            if self.add(Arc::clone(&entry)) {
                changes.note(&entry);
                cloned |= entry.by() == self.device();
                new.push(entry);
            }
        }
        self.local.remember(new.iter().map(|entry| entry.line()));
        if cloned {
            self.become_another_device();
        }
    }

    /// Reads what changed under a path and brings the index up to date. Gives every entry of the files read; with
    /// `whole` they keep their files' texts, which is right where nearly all of them will stay.
    fn read_changed(&mut self, path: &Path, whole: bool) -> Vec<Arc<Entry>> {
        let mut files = Vec::new();
        match self.disk.stat(path) {
            Ok(stat) if stat.kind == NodeKind::Dir || *path == self.folder => {
                let walk = index::walk(self.disk.as_ref(), &self.folder, path);
                let known = (Bound::Included(path), Bound::Unbounded);
                let mut known = self.index.files.range::<Path, _>(known).map(|(file, _)| file).peekable();
                let mut gone: Vec<PathBuf> = Vec::new();
                if known.peek().is_some_and(|file| file.starts_with(path)) {
                    let there: HashSet<&PathBuf> = walk.files.iter().collect();
                    let known = known.take_while(|file| file.starts_with(path));
                    gone.extend(known.filter(|file| !there.contains(file)).cloned());
                }
                for file in gone {
                    self.lost |= self.index.take_out(&file);
                }
                self.index.strange.retain(|file, _| !file.starts_with(path));
                self.index.strange.extend(walk.strange.into_iter().map(|problem| (problem.file.clone(), problem)));
                if *path == self.folder {
                    self.index.temps = walk.temps;
                }
                files = walk.files;
            }
            Ok(stat) if stat.kind == NodeKind::File => {
                // A single name goes by the same rules as in a walk; its directory is small.
                if let Some(dir) = path.parent() {
                    let walk = index::walk(self.disk.as_ref(), &self.folder, dir);
                    files.extend(walk.files.into_iter().filter(|file| file == path));
                }
            }
            Ok(_) => {}
            Err(error) if error.kind() == std::io::ErrorKind::NotFound => {
                self.lost |= self.index.take_out(path);
            }
            Err(_) => {}
        }
        let mut entries = Vec::new();
        for (file, reading) in index::read_files(self.disk.as_ref(), &self.index, files, whole) {
            match reading {
                Reading::Same => {}
                Reading::Unseen(error) => {
                    self.index.strange.insert(file.clone(), index::unreadable(&file, &error));
                }
                Reading::NotOurs => self.lost |= self.index.take_out(&file),
                Reading::Read(seen, read) => {
                    entries.extend(read.into_iter().map(Arc::new));
                    self.lost |= self.index.put(file, *seen);
                }
            }
        }
        entries
    }

    /// Takes a new id: another device writes under the one it had. Its old files are left alone.
    pub(crate) fn become_another_device(&mut self) {
        if self.local.is_read_only() {
            return;
        }
        let Ok(new) = DeviceId::for_name(&self.device_name) else { return };
        let old = std::mem::replace(&mut self.local.about.device, new);
        self.local.about.former.push(old);
        // If the disk refuses, the copy is noticed again at the next start.
        let _ = self.local.keep_about();
    }
}

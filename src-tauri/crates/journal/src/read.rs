//! Reading: the folder, what this device remembers of it, and what changed since.

use std::collections::{BTreeSet, HashSet};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::disk::NodeKind;
use crate::entry::Entry;
use crate::ids::{DeviceId, Key};
use crate::index;
use crate::journal::{Changes, Journal};
use crate::status::FolderState;

impl Journal {
    /// Reads the folder, then what this device remembers and the folder does not hold.
    pub(crate) fn read_all(&mut self) {
        let shadow = self.local.shadow();
        let remembered: HashSet<Key> = shadow.keys().map(|(key, _)| key).collect();
        let unsent = self.local.unsent();
        let waiting: HashSet<Key> = unsent.iter().map(Entry::key).collect();

        let mut fresh = Vec::new();
        if !matches!(self.folder_state, FolderState::Missing | FolderState::Wrong) {
            let folder = self.folder.clone();
            fresh = self.read_changed(&folder);
        }
        let mut cloned = false;
        let mut unremembered: Vec<Arc<Entry>> = Vec::new();
        for entry in fresh {
            if !remembered.contains(&entry.key()) {
                cloned |= entry.by() == self.device() && !waiting.contains(&entry.key());
                unremembered.push(Arc::clone(&entry));
            }
            self.add(entry);
        }
        for (key, line) in shadow.keys() {
            if !self.state.contains(key)
                && let Ok(entry) = Entry::from_line(line)
            {
                self.add(Arc::new(entry));
            }
        }
        for entry in unsent {
            let entry = Arc::new(entry);
            if !remembered.contains(&entry.key()) && !self.state.contains(entry.key()) {
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
        self.hlc.seen(entry.at(), self.clock.now());
        match self.last_by.get_mut(entry.by()) {
            Some(last) if *last >= *entry.at() => {}
            Some(last) => *last = entry.at().clone(),
            None => {
                self.last_by.insert(entry.by().clone(), entry.at().clone());
            }
        }
        self.state.insert(entry)
    }

    /// Looks at a path again and takes in what is new.
    pub(crate) fn look_at(&mut self, path: &Path, changes: &mut Changes) {
        let fresh = self.read_changed(path);
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

    /// Reads what changed under a path and brings the index up to date. Gives every entry of the files read.
    fn read_changed(&mut self, path: &Path) -> Vec<Arc<Entry>> {
        let mut files = Vec::new();
        match self.disk.stat(path) {
            Ok(stat) if stat.kind == NodeKind::Dir || *path == self.folder => {
                let walk = index::walk(self.disk.as_ref(), &self.folder, path);
                let there: BTreeSet<&PathBuf> = walk.files.iter().collect();
                let gone: Vec<PathBuf> = self
                    .index
                    .files
                    .range::<Path, _>((std::ops::Bound::Included(path), std::ops::Bound::Unbounded))
                    .map(|(file, _)| file)
                    .take_while(|file| file.starts_with(path))
                    .filter(|file| !there.contains(file))
                    .cloned()
                    .collect();
                for file in gone {
                    self.lost |= self.index.take_out(&file);
                }
                self.index.strange.retain(|file, _| !file.starts_with(path));
                self.index.strange.extend(walk.strange.into_iter().map(|problem| (problem.file.clone(), problem)));
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
        let mut changed = Vec::new();
        for file in files {
            match self.disk.stat(&file) {
                Ok(stat) if stat.kind == NodeKind::File => {
                    if self.index.files.get(&file).is_none_or(|seen| seen.stat != stat) {
                        changed.push((file, stat));
                    }
                }
                Err(error) if error.kind() != std::io::ErrorKind::NotFound => {
                    self.index.strange.insert(file.clone(), index::unreadable(&file, &error));
                }
                Ok(_) | Err(_) => {}
            }
        }
        let mut entries = Vec::new();
        for (file, read) in index::read_files(self.disk.as_ref(), changed) {
            match read {
                Some((seen, read)) => {
                    entries.extend(read.into_iter().map(Arc::new));
                    self.lost |= self.index.put(file, seen);
                }
                None => self.lost |= self.index.take_out(&file),
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

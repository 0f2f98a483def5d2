//! Reading: the folder, what this device remembers of it, and what changed since.

use std::collections::HashSet;
use std::ops::Bound;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use chrono::{DateTime, Utc};

use crate::clock::At;
use crate::disk::NodeKind;
use crate::entry::Entry;
use crate::error::Error;
use crate::ids::{ByBits, DeviceId, Key, Place};
use crate::index;
use crate::journal::{Changes, Journal};
use crate::local::Unsent;
use crate::reading::{self, Read, Reading};
use crate::sound::{Known, Learnt, Sound, Times};
use crate::state::Found;
use crate::status::FolderState;
use crate::told::{Telling, Told};

impl Journal {
    /// Reads the folder, then what this device remembers and the folder does not hold.
    ///
    /// # Errors
    /// [`Error::Stopped`] when the answer to how far it is was to stop.
    pub(crate) fn read_all(&mut self, told: Option<Told>) -> Result<(), Error> {
        let shadow = self.local.shadow.kept().clone();
        let beside = shadow.clone();
        let remembering = std::thread::Builder::new().spawn(move || beside.keys()).ok();
        let Unsent { waiting, written } = self.local.unsent();
        if !matches!(self.folder_state, FolderState::Missing | FolderState::Wrong) {
            let folder = self.folder.clone();
            let sound = self.local.sound();
            let telling = Telling::to(told);
            let readings = self.readings(&folder, Some(&sound), &telling);
            if telling.is_stopped() {
                // Nothing was taken in, so nothing is written down either.
                return Err(Error::Stopped { folder });
            }
            let learnt = self.take_all(readings);
            self.local.keep_sound(&sound, &self.index, learnt);
        }
        let mut remembered =
            remembering.and_then(|remembering| remembering.join().ok()).unwrap_or_else(|| shadow.keys());
        let mut unremembered: Vec<Arc<Entry>> = Vec::new();
        let mut cloned = false;
        // Nearly always the shadow holds exactly what the folder does.
        if !remembered.is_of(&self.state) {
            let known: HashSet<Key, ByBits> = remembered.keys.iter().copied().collect();
            let written: HashSet<Key> = written.into_iter().collect();
            let unknown: Vec<Key> = self.state.keys().filter(|key| !known.contains(key)).collect();
            for entry in unknown.into_iter().filter_map(|key| self.state.entry(key)) {
                cloned |= entry.by() == self.device() && !written.contains(&entry.key());
                unremembered.push(Arc::clone(entry));
            }
            let gone: HashSet<Key, ByBits> = known.into_iter().filter(|key| !self.state.contains(*key)).collect();
            for entry in shadow.recall(&gone) {
                self.add(Arc::new(entry));
            }
        }
        for entry in waiting {
            let entry = Arc::new(entry);
            if self.add(Arc::clone(&entry)) {
                unremembered.push(Arc::clone(&entry));
            }
            self.unsent.push(entry);
        }
        self.local.remember(&unremembered);
        if !self.local.is_read_only() {
            remembered.keys.extend(unremembered.iter().map(|entry| entry.key()));
            self.local.shadow.keep_keys(remembered);
        }
        self.lost = true;
        if cloned {
            self.become_another_device();
        }
        Ok(())
    }

    /// Takes all of the folder in at once; gives the sound files of which that was not known.
    fn take_all(&mut self, readings: Vec<(PathBuf, Reading)>) -> Vec<Learnt> {
        let mut founds: Vec<(Option<Place>, Found)> = Vec::with_capacity(readings.len());
        let mut files = Vec::with_capacity(readings.len());
        let mut learnt = Vec::new();
        let now = self.clock.now();
        for (file, reading) in readings {
            let Some(Read { seen, found, times, text }) = self.note_reading(&file, reading) else { continue };
            self.note_times(&times, now);
            if let Some((text, range)) = text
                && let Some(known) = Known::of(&seen, range.len(), &found, &times)
            {
                learnt.push(Learnt { mark: seen.mark, text, file: range, known });
            }
            founds.push((seen.only_place(), found));
            files.push((file, seen));
        }
        self.state.extend(founds);
        self.index.begin(files, self.state.len());
        learnt
    }

    /// Adds an entry to the state; `true` when it is new.
    pub(crate) fn add(&mut self, entry: Arc<Entry>) -> bool {
        self.note_time(&entry, self.clock.now());
        self.state.insert(entry)
    }

    /// Takes note of when an entry was written, and by whom.
    fn note_time(&mut self, entry: &Entry, now: DateTime<Utc>) {
        self.hlc.seen(entry.at(), now);
        self.note_last(entry.by(), entry.at());
    }

    fn note_times(&mut self, times: &Times, now: DateTime<Utc>) {
        if let Some(latest) = &times.latest {
            self.hlc.seen(latest, now);
        }
        for (by, at) in &times.by {
            self.note_last(by, at);
        }
    }

    fn note_last(&mut self, by: &DeviceId, at: &At) {
        match self.last_by.get_mut(by) {
            Some(last) if *last >= *at => {}
            Some(last) => *last = at.clone(),
            None => _ = self.last_by.insert(by.clone(), at.clone()),
        }
    }

    /// Looks at a path again and takes in what is new.
    pub(crate) fn look_at(&mut self, path: &Path, changes: &mut Changes) {
        let mut fresh = Vec::new();
        for (file, reading) in self.readings(path, None, &Telling::default()) {
            if let Some(Read { seen, found, .. }) = self.note_reading(&file, reading) {
                // What lay in it before is known.
                let known = self.index.stood_before(&file, &seen);
                fresh.extend(found.into_entries().into_iter().skip(known));
                self.lost |= self.index.put(file, seen);
            }
        }
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
        self.local.remember(&new);
        if cloned {
            self.become_another_device();
        }
    }

    /// Reads what changed under a path, and takes out of the index what is gone; `sound` as [`reading::read_files`] has it.
    fn readings(&mut self, path: &Path, sound: Option<&Sound>, telling: &Telling) -> Vec<(PathBuf, Reading)> {
        let mut files = Vec::new();
        match self.disk.stat(path) {
            Ok(stat) if stat.kind == NodeKind::Dir || *path == self.folder => {
                let walk = index::walk(self.disk.as_ref(), &self.folder, path, telling);
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
                    let walk = index::walk(self.disk.as_ref(), &self.folder, dir, telling);
                    files.extend(walk.files.into_iter().filter(|file| file == path));
                }
            }
            Ok(_) => {}
            Err(error) if error.kind() == std::io::ErrorKind::NotFound => {
                self.lost |= self.index.take_out(path);
            }
            Err(_) => {}
        }
        reading::read_files(self.disk.as_ref(), &self.index, files, sound, telling)
    }

    /// Brings the index up to date with a reading; gives what a file holds, which is still to be put in.
    fn note_reading(&mut self, file: &Path, reading: Reading) -> Option<Read> {
        match reading {
            Reading::Same => {}
            Reading::Unseen(error) => {
                self.index.strange.insert(file.to_owned(), index::unreadable(file, &error));
            }
            Reading::NotOurs => self.lost |= self.index.take_out(file),
            Reading::Read(read) => return Some(*read),
        }
        None
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

//! Writing: first to what waits on this device, then into the folder.

use std::collections::{BTreeMap, BTreeSet};
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::Duration;

use super::disk::{self, NodeKind};
use super::files::{self, FILE_MAX_BYTES};
use super::index::{FileSeen, TEMP_PREFIX, TEMP_SUFFIX};
use super::status::FolderState;
use crate::error::Error;
use crate::format::entry::{Entry, EntryDraft, Refusal, WRITTEN_MAX_BYTES};
use crate::format::ids::{DeviceId, Key, Place, RecordId, random_text};
use crate::format::segment::{self, Head, SEGMENT_MAX_BYTES};
use crate::format::slug::slug;
use crate::journal::{ChangedRecords, Journal};

/// A temporary file of a save that did not end is swept after this time.
const STALE: Duration = Duration::from_secs(24 * 60 * 60);
pub(crate) const WARPS: &str = "warps";
pub(crate) const SHELF: &str = "shelf";

/// What was written.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Written {
    /// The new entries' keys, in the order of the drafts.
    pub keys: Vec<Key>,
    /// What they changed.
    pub changes: ChangedRecords,
    /// How many entries now wait for the folder: 0 when all is in it.
    pub waiting: usize,
}

impl Journal {
    /// Writes entries. When this returns without an error, they survive a power cut: in the folder, or, where
    /// that cannot be written now, among what waits on this device (the status says which).
    ///
    /// # Errors
    /// [`Error::EntryDraft`] when one cannot be written at all (then none is), [`Error::ReadOnly`],
    /// [`Error::NowhereToWrite`] when neither the folder nor this device's own disk takes them (then none is kept),
    /// [`Error::Unconfirmed`] when they are in the folder, but neither disk says that they will stay,
    /// [`Error::NotKeptTogether`] when they go into several files and this device's own disk does not take them (then none is kept),
    /// [`Error::Uncertain`] when that disk does not say either that what it was given of them is cleared away again.
    pub fn write(&mut self, drafts: Vec<EntryDraft>) -> Result<Written, Error> {
        if self.local.is_read_only() {
            return Err(Error::ReadOnly);
        }
        self.require_identity()?;
        let mut entries = Vec::with_capacity(drafts.len());
        for draft in drafts {
            if draft.set.is_empty() {
                return Err(Error::EntryDraft { why: "it sets no field; give at least one".to_owned() });
            }
            let at = self.hlc.next(self.clock.now());
            let entry = Entry::from_draft(draft, self.device(), at).map_err(unwritable)?;
            entries.push(Arc::new(entry));
        }
        let keys = entries.iter().map(|entry| entry.key()).collect();
        let are_apart = entries.windows(2).any(|pair| pair[0].place() != pair[1].place());
        let changes = self.keep(entries, are_apart)?;
        Ok(Written { keys, changes, waiting: self.unsent.len() })
    }

    /// Writes back, into this device's own files, the entries that vanished from the folder.
    ///
    /// # Errors
    /// [`Error::ReadOnly`], and [`Error::NowhereToWrite`], [`Error::Unconfirmed`] and [`Error::Uncertain`] as [`Journal::write`] has them.
    pub fn write_back(&mut self) -> Result<Written, Error> {
        if self.local.is_read_only() {
            return Err(Error::ReadOnly);
        }
        self.require_identity()?;
        self.look_at_folder();
        if self.folder_state.is_out_of_reach() {
            return Ok(Written { waiting: self.unsent.len(), ..Written::default() });
        }
        let waiting: BTreeSet<Key> = self.unsent.iter().map(|entry| entry.key()).collect();
        let mut vanished: Vec<Arc<Entry>> = self
            .state
            .entries()
            .filter(|entry| !self.index.holds(entry.key()) && !waiting.contains(&entry.key()))
            .cloned()
            .collect();
        vanished.sort_by(|a, b| a.order().cmp(&b.order()));
        let keys = vanished.iter().map(|entry| entry.key()).collect();
        // They are known here already: none of them must wait for another.
        self.keep(vanished, false)?;
        Ok(Written { keys, changes: ChangedRecords::default(), waiting: self.unsent.len() })
    }

    /// Whether this device's id is kept where its next start finds it.
    fn require_identity(&mut self) -> Result<(), Error> {
        if self.no_identity.is_some() {
            self.keep_identity();
        }
        match &self.no_identity {
            Some(why) => Err(Error::NoPlaceForId { why: why.clone() }),
            None => Ok(()),
        }
    }

    /// Sends what waits into the folder, which was just looked at. What cannot be sent goes on waiting; the status says why.
    pub(crate) fn send_waiting(&mut self) {
        if self.folder_state.is_out_of_reach() || self.no_identity.is_some() {
            return;
        }
        let mut places: BTreeMap<Place, Vec<Arc<Entry>>> = BTreeMap::new();
        for entry in std::mem::take(&mut self.unsent) {
            // A crash between the save and the note of it leaves entries that wait and are there.
            if !self.index.holds(entry.key()) {
                places.entry(entry.place().clone()).or_default().push(entry);
            }
        }
        if self.lost {
            for place in self.places_to_complete() {
                places.entry(place).or_default();
            }
        }
        let mut failed = None;
        for (place, entries) in places {
            if failed.is_none() {
                match self.leave_marker().and_then(|()| self.save(&place, &entries)) {
                    Ok(()) => continue,
                    Err(error) => failed = Some(error),
                }
            }
            self.unsent.extend(entries);
        }
        if failed.is_none() {
            failed = self.send_photos().err();
        }
        match failed {
            None => {
                self.lost = false;
                self.folder_state = FolderState::Ok;
                self.folder_says = None;
            }
            Some(error) => {
                self.folder_state = FolderState::from_error(&error);
                self.folder_says = Some(error.to_string());
            }
        }
    }

    /// Places where a file of this device is there, but lacks entries that this device wrote.
    fn places_to_complete(&self) -> BTreeSet<Place> {
        let mut places = BTreeSet::new();
        // What lies in the folder is known, so that equal numbers mean that all of it lies there.
        if self.index.distinct() == self.state.len() {
            return places;
        }
        for entry in self.state.entries() {
            if entry.by() == self.device() && !self.index.holds(entry.key()) && !places.contains(entry.place()) {
                places.insert(entry.place().clone());
            }
        }
        places.retain(|place| self.own_file_lies_there(place));
        places
    }

    fn own_file_lies_there(&self, place: &Place) -> bool {
        let Some(dir) = self.known_dir(place) else { return false };
        self.own_segments(&dir).is_ok_and(|segments| !segments.is_empty())
    }

    /// Appends entries to this device's file of a place, by writing the whole file anew beside it.
    fn save(&mut self, place: &Place, new: &[Arc<Entry>]) -> io::Result<()> {
        // A copy of this device noticed now makes it another one, whose files are new: once more, then.
        for _ in 0..3 {
            let device = self.device().clone();
            let dir = self.dir_for(place, new)?;
            let segments = self.own_segments(&dir)?;
            let (mut number, readable) = segments.last().map_or((1, false), |(number, file)| (*number, *file));
            let mut path = dir.join(file_name(&device, number));
            let mut old = Vec::new();
            if readable {
                old = self.disk.read(&path, FILE_MAX_BYTES)?;
                self.absorb(&path, &old)?;
                // Where names do not tell capitals apart, another device's file may lie under this one's name.
                let head = self.index.files.get(&path).and_then(|seen| seen.head.as_ref());
                if head.is_some_and(|head| head.device != device) {
                    self.become_another_device();
                }
                if *self.device() != device {
                    continue;
                }
            }
            let seen = self.index.files.get(&path);
            let mut lines: Vec<Arc<Entry>> = self.own_missing(place, new);
            lines.extend(new.iter().filter(|entry| !self.index.holds(entry.key())).cloned());
            let complete = lines.is_empty();
            let added: usize = lines.iter().map(|entry| entry.line().len() + 2).sum();
            let full = old.len() + added > SEGMENT_MAX_BYTES && seen.is_some_and(|seen| !seen.keys.is_empty());
            let left_alone = seen.is_some_and(|seen| seen.untouchable);
            let next = !segments.is_empty() && (!readable || full || left_alone);
            let mut keys = Vec::new();
            let bytes = if next || old.is_empty() {
                if complete {
                    return Ok(());
                }
                if next {
                    number += 1;
                    path = dir.join(file_name(&device, number));
                }
                segment::render(&device, number, lines.iter().map(|entry| entry.line()))
            } else {
                keys = seen.map(|seen| seen.keys.clone()).unwrap_or_default();
                let as_written = seen.is_some_and(|seen| seen.as_written);
                if complete && as_written {
                    return Ok(());
                }
                let fresh = lines.iter().map(|entry| entry.line());
                match segment::extend(&old, keys.is_empty(), fresh.clone()).filter(|_| as_written) {
                    Some(bytes) => bytes,
                    None => {
                        let mut reported = BTreeSet::new();
                        keys.retain(|key| reported.insert(*key));
                        let kept = keys.iter().filter_map(|key| self.state.entry(*key)).map(|entry| entry.line());
                        segment::render(&device, number, kept.chain(fresh))
                    }
                }
            };
            let confirmed = self.put(&path, &bytes)?;
            keys.extend(lines.iter().map(|entry| entry.key()));
            let seen = FileSeen {
                stat: self.disk.stat(&path)?,
                head: Some(Head {
                    format: segment::FORMAT.to_owned(),
                    schema: segment::SCHEMA,
                    device,
                    segment: number,
                }),
                as_written: true,
                untouchable: false,
                keys,
                places: BTreeSet::from([place.clone()]),
                problems: Vec::new(),
            };
            self.index.put(path, seen);
            return confirmed;
        }
        Err(io::Error::other("another device keeps writing this device's files"))
    }

    /// Brings the index up to date with the bytes of an own file as they are now.
    fn absorb(&mut self, path: &Path, bytes: &[u8]) -> io::Result<()> {
        let stat = self.disk.stat(path)?;
        if let Some((seen, entries)) = files::parse(path, stat, bytes) {
            self.lost |= self.index.put(path.to_owned(), seen);
            self.take_in(entries, &mut ChangedRecords::default());
        }
        Ok(())
    }

    /// Entries of this device that belong to a place and lie in no file.
    fn own_missing(&self, place: &Place, new: &[Arc<Entry>]) -> Vec<Arc<Entry>> {
        if !self.lost {
            return Vec::new();
        }
        let mut missing: Vec<Arc<Entry>> = self
            .state
            .entries()
            .filter(|entry| entry.by() == self.device() && entry.place() == place)
            .filter(|entry| !self.index.holds(entry.key()) && !new.iter().any(|other| other.key() == entry.key()))
            .cloned()
            .collect();
        missing.sort_by(|a, b| a.order().cmp(&b.order()));
        missing
    }

    /// The numbers of this device's files in a directory, in order, and whether each can be read (a cloud
    /// client may have left a stub in its place).
    fn own_segments(&self, dir: &Path) -> io::Result<Vec<(u32, bool)>> {
        let mut segments = BTreeMap::new();
        for (name, kind) in self.disk.list(dir)? {
            let Some(name) = name.to_str() else { continue };
            let stub = name.strip_prefix('.').and_then(|rest| rest.strip_suffix(".icloud"));
            let plain = stub.unwrap_or(name);
            let Some(number) = own_number(self.device(), plain) else { continue };
            let readable = stub.is_none()
                && kind == NodeKind::File
                && self.disk.stat(&dir.join(name)).is_ok_and(|stat| stat.kind == NodeKind::File);
            let entry = segments.entry(number).or_insert(readable);
            *entry &= readable;
        }
        Ok(segments.into_iter().collect())
    }

    /// The directory of a place, if there is one: for a warp the one that holds its entries, whatever it is
    /// called, this device's own before others; else the one whose name ends as it should.
    pub(crate) fn known_dir(&self, place: &Place) -> Option<PathBuf> {
        let Place::Warp { id } = place else {
            let dir = self.folder.join(SHELF);
            return self.is_dir(&dir).then_some(dir);
        };
        let warps = self.folder.join(WARPS);
        let ending = ending(id);
        let mut best: Option<(bool, bool, PathBuf)> = None;
        for (file, seen) in self.index.files_of(place) {
            let Some(dir) = file.parent() else { continue };
            if dir.parent() != Some(warps.as_path()) {
                continue;
            }
            let own = seen.head.as_ref().is_some_and(|head| head.device == *self.device());
            let named = dir.file_name().is_some_and(|name| name.to_string_lossy().ends_with(&ending));
            if best.as_ref().is_none_or(|(o, n, _)| (own, named) > (*o, *n)) {
                best = Some((own, named, dir.to_owned()));
            }
        }
        best.map(|(_, _, dir)| dir).or_else(|| {
            let names = disk::list_below(self.disk.as_ref(), &warps).ok()?;
            let mut dirs: Vec<_> = names
                .into_iter()
                .filter(|(name, kind)| *kind == NodeKind::Dir && name.to_string_lossy().ends_with(&ending))
                .map(|(name, _)| warps.join(name))
                .collect();
            dirs.sort();
            dirs.into_iter().next()
        })
    }

    /// The directory of a place, made if need be.
    pub(crate) fn dir_for(&self, place: &Place, new: &[Arc<Entry>]) -> io::Result<PathBuf> {
        if let Some(dir) = self.known_dir(place) {
            return Ok(dir);
        }
        let dir = match place {
            Place::Shelf => self.folder.join(SHELF),
            Place::Warp { id } => {
                let warps = self.folder.join(WARPS);
                self.make_dir(&warps)?;
                warps.join(format!("{}{}", slug(&self.warp_name(id, new), 40, "warp"), ending(id)))
            }
        };
        self.make_dir(&dir)?;
        Ok(dir)
    }

    /// The name the warp was given first, for the directory's name, which never changes after.
    fn warp_name(&self, id: &RecordId, new: &[Arc<Entry>]) -> String {
        self.state
            .history(id)
            .chain(new)
            .filter(|entry| entry.of() == id && entry.set().contains_key("name"))
            .min_by(|a, b| a.order().cmp(&b.order()))
            .and_then(|entry| entry.set().get("name"))
            .and_then(|name| name.as_str())
            .unwrap_or_default()
            .to_owned()
    }

    fn is_dir(&self, dir: &Path) -> bool {
        self.disk.stat(dir).is_ok_and(|stat| stat.kind == NodeKind::Dir)
    }

    /// Makes one directory in the folder, unless it is there. Never the folder itself; and a link in its place is
    /// refused, as it may lead out of the folder.
    pub(crate) fn make_dir(&self, dir: &Path) -> io::Result<()> {
        match self.disk.create_dir(dir) {
            Ok(()) => dir.parent().map_or(Ok(()), |parent| self.disk.sync_dir(parent)),
            Err(error) if error.kind() != io::ErrorKind::AlreadyExists => Err(error),
            Err(_) if self.is_dir(dir) => Ok(()),
            Err(_) => Err(disk::no_directory(dir)),
        }
    }

    /// As [`Self::replace`]. Where the bytes lie there and only that they will stay is not confirmed, that is reported within: what is in
    /// the folder must be known to be, or it would be taken for another's at the next start.
    pub(crate) fn put(&self, path: &Path, bytes: &[u8]) -> io::Result<io::Result<()>> {
        match self.replace(path, bytes) {
            Err(error) if self.disk.read(path, FILE_MAX_BYTES).is_ok_and(|there| there == bytes) => Ok(Err(error)),
            replaced => replaced.map(Ok),
        }
    }

    /// Writes a file of the folder whole: the name holds what it held before, or all of the bytes.
    pub(crate) fn replace(&self, path: &Path, bytes: &[u8]) -> io::Result<()> {
        let name = format!("{TEMP_PREFIX}{}-{}{TEMP_SUFFIX}", self.device(), random_text(8)?);
        disk::replace(self.disk.as_ref(), path, &path.with_file_name(name), bytes)
    }

    /// Removes this device's own temporary files that are more than a day old.
    pub(crate) fn sweep(&self) {
        let own = format!("{TEMP_PREFIX}{}-", self.device());
        let now = std::time::SystemTime::from(self.clock.now());
        for temp in &self.index.temps {
            let ours = temp.file_name().is_some_and(|name| name.to_string_lossy().starts_with(&own));
            let old = self
                .disk
                .stat(temp)
                .ok()
                .and_then(|stat| stat.changed)
                .and_then(|changed| now.duration_since(changed).ok())
                .is_some_and(|age| age > STALE);
            if ours && old {
                let _ = self.disk.remove(temp);
            }
        }
    }
}

fn ending(id: &RecordId) -> String {
    format!("-{}", id.short())
}

/// The number of a device's file, by its name.
fn own_number(device: &DeviceId, name: &str) -> Option<u32> {
    let rest = name.strip_prefix(device.as_str())?.strip_prefix('.')?;
    let number = rest.strip_suffix(".json")?;
    (number.len() >= 4 && number.bytes().all(|b| b.is_ascii_digit())).then(|| number.parse().ok())?
}

fn file_name(device: &DeviceId, segment: u32) -> String {
    format!("{device}.{segment:04}.json")
}

fn unwritable(why: Refusal) -> Error {
    let why = match why {
        Refusal::Long => {
            format!("it is longer than {} KB; shorten the note, or split it", WRITTEN_MAX_BYTES >> 10)
        }
        _ => "a value is nested too deep, or is no plain number or text".to_owned(),
    };
    Error::EntryDraft { why }
}

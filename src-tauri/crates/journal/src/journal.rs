//! The open journal: a folder, this device's own data, and the state that both amount to.

use std::collections::{BTreeMap, BTreeSet, HashMap, HashSet};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::clock::{At, Clock, Hlc};
use crate::disk::{Disk, NodeKind, SystemDisk};
use crate::entry::Entry;
use crate::error::Error;
use crate::ids::{DeviceId, Key, RecordId, random_text};
use crate::index::{self, Index};
use crate::local::Local;
use crate::marker::{DEVICES, Marker, Markers};
use crate::state::State;
use crate::status::{DeviceInfo, FolderState, Problem, Status};

/// How to open a journal.
#[derive(Debug, Clone)]
pub struct Options {
    /// The folder she chose.
    pub folder: PathBuf,
    /// This device's own data for that folder; made if need be, never inside the folder.
    pub local: PathBuf,
    /// The name a person gives this device.
    pub device_name: String,
    /// Where the time is read.
    pub now: Clock,
    /// Whether a journal may be begun in an empty folder.
    pub create: bool,
    /// Only read: take no lock and write nothing anywhere.
    pub read_only: bool,
}

impl Options {
    /// Opens for writing, by the system's clock, and begins no journal.
    #[must_use]
    pub fn new(folder: impl Into<PathBuf>, local: impl Into<PathBuf>, device_name: impl Into<String>) -> Self {
        Self {
            folder: folder.into(),
            local: local.into(),
            device_name: device_name.into(),
            now: Clock::system(),
            create: false,
            read_only: false,
        }
    }

    /// The same, and a journal may be begun in an empty folder.
    #[must_use]
    pub fn create(mut self) -> Self {
        self.create = true;
        self
    }

    /// The same, only reading.
    #[must_use]
    pub fn read_only(mut self) -> Self {
        self.read_only = true;
        self
    }

    /// The same, by another clock.
    #[must_use]
    pub fn at(mut self, now: Clock) -> Self {
        self.now = now;
        self
    }
}

/// What a look at the folder brought.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Changes {
    /// Records with new entries.
    pub records: BTreeSet<RecordId>,
    /// Warps to which those records belong.
    pub warps: BTreeSet<RecordId>,
}

impl Changes {
    /// Whether nothing new came.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.records.is_empty() && self.warps.is_empty()
    }

    pub(crate) fn note(&mut self, entry: &Entry) {
        self.records.insert(entry.of().clone());
        if let Some(warp) = entry.place().warp_id() {
            self.warps.insert(warp.clone());
        }
    }
}

/// The open journal.
#[derive(Debug)]
pub struct Journal {
    pub(crate) disk: Arc<dyn Disk>,
    pub(crate) folder: PathBuf,
    pub(crate) local: Local,
    pub(crate) device_name: String,
    pub(crate) clock: Clock,
    pub(crate) hlc: Hlc,
    pub(crate) state: State,
    pub(crate) index: Index,
    pub(crate) unsent: Vec<Arc<Entry>>,
    pub(crate) folder_state: FolderState,
    pub(crate) folder_says: Option<String>,
    pub(crate) markers: Markers,
    pub(crate) last_by: HashMap<DeviceId, At>,
    /// Entries that lay in a file have gone from it: our own files may need completing.
    pub(crate) lost: bool,
}

impl Journal {
    /// Opens the journal: reads the whole folder and what this device remembers of it.
    ///
    /// # Errors
    /// [`Error::InUse`] when another window or command on this device has it open for writing,
    /// [`Error::NotAJournal`] when the folder holds none (and none may be begun), [`Error::Io`] when this device's
    /// own data cannot be read or made. A folder that is missing, or holds another journal than it did, is no
    /// error: what this device remembers is shown, and the status says so.
    pub fn open(options: Options) -> Result<Self, Error> {
        Self::open_on(options, Arc::new(SystemDisk))
    }

    /// Opens the journal on other file operations than the system's.
    ///
    /// # Errors
    /// As [`Journal::open`].
    pub fn open_on(options: Options, disk: Arc<dyn Disk>) -> Result<Self, Error> {
        let Options { folder, local, device_name, now, create, read_only } = options;
        if local.starts_with(&folder) {
            let why = "this device's own data must not lie inside it; choose another place for them".to_owned();
            return Err(Error::NotAJournal { folder, why });
        }
        let local = if read_only {
            Local::peek(&local, &device_name, Arc::clone(&disk))?
        } else {
            Local::open(&local, &folder, &device_name, Arc::clone(&disk))?
        };
        let mut journal = Self {
            disk,
            folder,
            local,
            device_name,
            clock: now,
            hlc: Hlc::default(),
            state: State::new(),
            index: Index::default(),
            unsent: Vec::new(),
            folder_state: FolderState::Ok,
            folder_says: None,
            markers: Markers::default(),
            last_by: HashMap::new(),
            lost: false,
        };
        journal.enter(create && !read_only)?;
        journal.read_all();
        if !journal.local.is_read_only() {
            journal.sweep();
            journal.send();
        }
        Ok(journal)
    }

    /// The state: all entries known, and what they amount to.
    #[must_use]
    pub fn state(&self) -> &State {
        &self.state
    }

    /// The folder.
    #[must_use]
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// This device. It may change while the journal is open, when a copy of this device's disk appears.
    #[must_use]
    pub fn device(&self) -> &DeviceId {
        &self.local.about.device
    }

    /// All devices that left a marker or an entry, by id; this one too.
    #[must_use]
    pub fn devices(&self) -> Vec<DeviceInfo> {
        let mut names: BTreeMap<&DeviceId, &str> = BTreeMap::new();
        for id in self.last_by.keys() {
            names.insert(id, id.as_str());
        }
        for marker in &self.markers.sound {
            names.insert(&marker.device, &marker.name);
        }
        names.insert(self.device(), &self.device_name);
        names
            .into_iter()
            .map(|(id, name)| DeviceInfo {
                id: id.clone(),
                name: name.to_owned(),
                last_wrote: self.last_by.get(id).and_then(At::time),
            })
            .collect()
    }

    /// How the folder fares.
    #[must_use]
    pub fn status(&self) -> Status {
        let reachable = !matches!(self.folder_state, FolderState::Missing | FolderState::Wrong);
        let waiting_unseen = self.unsent.iter().filter(|entry| !self.index.holds(entry.key())).count();
        let mut problems: Vec<Problem> = self.index.problems().cloned().collect();
        if reachable {
            problems.extend(self.markers.damaged.iter().map(|file| damaged_marker(file)));
        }
        Status {
            waiting_to_write: self.unsent.len() + self.photos_waiting(),
            folder: self.folder_state,
            folder_says: self.folder_says.clone(),
            read_only: self.local.is_read_only(),
            problems,
            two_answers: self.state.two_answers(),
            vanished: if reachable {
                self.state.len().saturating_sub(self.index.distinct() + waiting_unseen)
            } else {
                0
            },
        }
    }

    /// Looks at what changed in the folder: the files and directories named, or all of it when none is. Only
    /// files whose size or time changed are read.
    ///
    /// # Errors
    /// None now: what goes wrong is in the status. The type leaves room for it.
    pub fn refresh(&mut self, changed: &[PathBuf]) -> Result<Changes, Error> {
        let was = self.folder_state;
        self.look_at_folder();
        if matches!(self.folder_state, FolderState::Missing | FolderState::Wrong) {
            return Ok(Changes::default());
        }
        let back = matches!(was, FolderState::Missing | FolderState::Wrong);
        let mut changes = Changes::default();
        let inside: Vec<PathBuf> = changed.iter().filter(|path| path.starts_with(&self.folder)).cloned().collect();
        if inside.is_empty() || back {
            let folder = self.folder.clone();
            self.look_at(&folder, &mut changes);
        } else {
            for path in inside {
                self.look_at(&path, &mut changes);
            }
        }
        if !self.local.is_read_only() {
            self.send();
        }
        Ok(changes)
    }

    /// What is wrong in a folder, found by reading alone. Needs nothing of this device's own.
    #[must_use]
    pub fn check(folder: &Path) -> Vec<Problem> {
        let disk = SystemDisk;
        let mut problems = Vec::new();
        match Markers::read(&disk, folder) {
            Ok(markers) => {
                problems.extend(markers.damaged.iter().map(|file| damaged_marker(file)));
                if markers.sound.is_empty() {
                    problems.push(Problem {
                        file: folder.to_owned(),
                        line: None,
                        what: "No device has left its marker here, so this is no Fellmark folder, or it has not \
                               arrived yet."
                            .to_owned(),
                        do_what: "Choose the right folder, or wait for the synchroniser.".to_owned(),
                    });
                } else if markers.journals().len() > 1 {
                    problems.push(Problem {
                        file: folder.join(DEVICES),
                        line: None,
                        what: "Two journals were begun apart and have met in this folder; both are read as one."
                            .to_owned(),
                        do_what: "Nothing needs doing if that is what you wanted.".to_owned(),
                    });
                }
            }
            Err(error) => problems.push(Problem {
                file: folder.join(DEVICES),
                line: None,
                what: format!("It cannot be read: {error}."),
                do_what: "Check that the folder is there and who may read it.".to_owned(),
            }),
        }
        let walk = index::walk(&disk, folder, folder);
        problems.extend(walk.strange);
        for path in walk.files {
            if let Ok(stat) = disk.stat(&path)
                && let Some((seen, _)) = index::read_file(&disk, &path, stat)
            {
                problems.extend(seen.problems);
            }
        }
        problems
    }

    /// First look at the folder; begins a journal where that is wanted and possible.
    fn enter(&mut self, create: bool) -> Result<(), Error> {
        if self.local.about.journals.is_empty() {
            self.join(create)
        } else {
            self.look_at_folder();
            Ok(())
        }
    }

    /// Joins the journal that lies in the folder, or begins one.
    fn join(&mut self, create: bool) -> Result<(), Error> {
        let not = |folder: &Path, why: &str| Error::NotAJournal { folder: folder.to_owned(), why: why.to_owned() };
        match self.disk.stat(&self.folder) {
            Ok(stat) if stat.kind == NodeKind::Dir => {}
            // A link to a directory is a fair way to choose a folder; only inside it links are not followed.
            Ok(_) if self.folder.is_dir() => {}
            Ok(_) => return Err(not(&self.folder, "it is no directory; choose one")),
            Err(error) if error.kind() == std::io::ErrorKind::NotFound && create => {
                self.disk.create_dir(&self.folder).map_err(Error::io("cannot make the directory", &self.folder))?;
            }
            Err(error) if error.kind() == std::io::ErrorKind::NotFound => {
                return Err(not(&self.folder, "there is nothing of that name; choose a folder that is there"));
            }
            Err(source) => return Err(Error::io("cannot read", &self.folder)(source)),
        }
        self.markers =
            Markers::read(self.disk.as_ref(), &self.folder).map_err(Error::io("cannot read", &self.folder))?;
        if !self.markers.sound.is_empty() {
            self.local.about.journals = self.markers.journals();
            return if self.local.is_read_only() { Ok(()) } else { self.local.keep_about() };
        }
        let names = self.disk.list(&self.folder).map_err(Error::io("cannot read", &self.folder))?;
        let visible = names.iter().any(|(name, _)| !name.as_encoded_bytes().starts_with(b"."));
        if visible {
            let ours = ["warps", "shelf", DEVICES].iter().any(|dir| self.folder.join(dir).is_dir());
            return Err(not(
                &self.folder,
                if ours {
                    "no device has left its marker there yet; if a synchroniser is still bringing it, wait and try again"
                } else {
                    "it holds other things; choose an empty folder, or make a new one inside it"
                },
            ));
        }
        if !create {
            return Err(not(&self.folder, "it is empty; begin a log in it first, or choose another"));
        }
        let journal = random_text(20).map_err(Error::io("cannot make an id for", &self.folder))?;
        self.local.about.journals = BTreeSet::from([journal]);
        self.leave_marker().map_err(Error::io("cannot write in", &self.folder))?;
        self.local.keep_about()
    }

    /// Finds out whether the folder is the right one and can be read. Without a marker it is taken for an empty
    /// mount point, with other journals' markers only for another folder: neither is written.
    pub(crate) fn look_at_folder(&mut self) {
        let settle = |journal: &mut Self, state: FolderState| {
            let standing =
                matches!(journal.folder_state, FolderState::ReadOnly | FolderState::Full | FolderState::Faulty);
            if !(state == FolderState::Ok && standing) {
                journal.folder_state = state;
            }
            if state != FolderState::Ok {
                journal.folder_says = None;
            }
        };
        let markers = match Markers::read(self.disk.as_ref(), &self.folder) {
            Ok(markers) => markers,
            Err(error) => {
                settle(self, FolderState::of_error(&error));
                self.folder_says = Some(error.to_string());
                return;
            }
        };
        let here = markers.journals();
        let own = self.folder.join(DEVICES).join(format!("{}.json", self.device()));
        let known = &mut self.local.about.journals;
        if here.is_empty() {
            let right = markers.damaged.contains(&own);
            settle(self, if right { FolderState::Ok } else { FolderState::Missing });
        } else if known.is_disjoint(&here) {
            settle(self, FolderState::Wrong);
        } else {
            let more = !here.is_subset(known);
            known.extend(here);
            if more && !self.local.is_read_only() {
                // Kept again next time if the disk refuses now.
                let _ = self.local.keep_about();
            }
            settle(self, FolderState::Ok);
        }
        if matches!(self.folder_state, FolderState::Missing | FolderState::Wrong) {
            self.markers = Markers::default();
        } else {
            self.markers = markers;
        }
    }

    /// Leaves this device's marker in the folder, if it is not there as it should be.
    pub(crate) fn leave_marker(&mut self) -> std::io::Result<()> {
        let device = self.device().clone();
        let journal = match self.markers.of(&device) {
            Some(marker) if marker.name == self.device_name => return Ok(()),
            Some(marker) => marker.journal.clone(),
            None => self.local.about.journals.first().cloned().unwrap_or_default(),
        };
        let dir = self.folder.join(DEVICES);
        self.make_dir(&dir)?;
        let marker = Marker::new(&journal, &device, &self.device_name);
        let path = dir.join(format!("{device}.json"));
        self.replace(&path, &marker.render())?;
        self.markers.damaged.retain(|damaged| *damaged != path);
        self.markers.sound.retain(|other| other.device != device);
        self.markers.sound.push(marker);
        Ok(())
    }

    /// Reads the folder, then what this device remembers and the folder does not hold.
    fn read_all(&mut self) {
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
        let mut entries = Vec::new();
        for file in files {
            let stat = match self.disk.stat(&file) {
                Ok(stat) => stat,
                Err(error) => {
                    if error.kind() != std::io::ErrorKind::NotFound {
                        self.index.strange.insert(file.clone(), index::unreadable(&file, &error));
                    }
                    continue;
                }
            };
            if stat.kind != NodeKind::File || self.index.files.get(&file).is_some_and(|seen| seen.stat == stat) {
                continue;
            }
            match index::read_file(self.disk.as_ref(), &file, stat) {
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

fn damaged_marker(file: &Path) -> Problem {
    Problem {
        file: file.to_owned(),
        line: None,
        what: "This device's marker is damaged.".to_owned(),
        do_what: "Open Fellmark on that device, which will write it again.".to_owned(),
    }
}

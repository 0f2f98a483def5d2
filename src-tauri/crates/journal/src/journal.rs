//! The open journal: a folder, this device's own data, and the state that both amount to.

use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::ops::ControlFlow;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use foldhash::fast::RandomState;

use crate::entry_set::EntrySet;
use crate::error::Error;
use crate::format::clock::{At, Hlc, TimeSource};
use crate::format::entry::Entry;
use crate::format::ids::{DeviceId, RecordId};
use crate::store::device::Local;
use crate::store::disk::{Disk, SystemDisk};
use crate::store::index::Index;
use crate::store::marker::Markers;
use crate::store::progress::{ReadProgress, ReadProgressListener};
use crate::store::status::{DeviceInfo, FolderState, Problem, Status};

/// How to open a journal.
#[derive(Debug, Clone)]
pub struct Options {
    /// The folder the weaver chose.
    pub folder: PathBuf,
    /// This device's own data for that folder; made if need be, never inside the folder.
    pub local: PathBuf,
    /// The name a person gives this device.
    pub device_name: String,
    /// Where the time is read.
    pub now: TimeSource,
    /// Whether a journal may be begun in an empty folder.
    pub create: bool,
    /// Only read: take no lock and write nothing anywhere.
    pub read_only: bool,
    /// Receives how far it is while the folder is read, every few dozen files, and may stop it: see [`Error::Stopped`].
    pub progress: Option<ReadProgressListener>,
}

impl Options {
    /// Opens for writing, by the system's clock, and begins no journal.
    #[must_use]
    pub fn new(folder: impl Into<PathBuf>, local: impl Into<PathBuf>, device_name: impl Into<String>) -> Self {
        Self {
            folder: folder.into(),
            local: local.into(),
            device_name: device_name.into(),
            now: TimeSource::system(),
            create: false,
            read_only: false,
            progress: None,
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

    /// The same, with a listener to how far it is while the folder is read. Where it answers to break off, nothing is opened.
    #[must_use]
    pub fn on_progress(mut self, listen: impl Fn(ReadProgress) -> ControlFlow<()> + Send + Sync + 'static) -> Self {
        self.progress = Some(ReadProgressListener::new(listen));
        self
    }

    /// The same, by another clock.
    #[must_use]
    pub fn at(mut self, now: TimeSource) -> Self {
        self.now = now;
        self
    }
}

/// What a look at the folder brought.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct ChangedRecords {
    /// Records with new entries.
    pub records: BTreeSet<RecordId>,
    /// Warps to which those records belong.
    pub warps: BTreeSet<RecordId>,
}

impl ChangedRecords {
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
    pub(crate) clock: TimeSource,
    pub(crate) hlc: Hlc,
    pub(crate) state: EntrySet,
    pub(crate) index: Index,
    pub(crate) unsent: Vec<Arc<Entry>>,
    pub(crate) folder_state: FolderState,
    pub(crate) folder_says: Option<String>,
    pub(crate) markers: Markers,
    pub(crate) last_by: HashMap<DeviceId, At, RandomState>,
    /// Entries that lay in a file have gone from it: our own files may need completing.
    pub(crate) lost: bool,
    /// What was refused may still lie among what waits on this device's disk.
    pub(crate) uncleared: bool,
    /// Why this device's id could not be kept: then nothing is written.
    pub(crate) no_identity: Option<String>,
}

impl Journal {
    /// Opens the journal: reads the whole folder and what this device remembers of it.
    ///
    /// # Errors
    /// [`Error::InUse`] when another window or command on this device has it open for writing,
    /// [`Error::NotAJournal`] when the folder holds none (and none may be begun), [`Error::Io`] when this device's
    /// own data cannot be read or made, [`Error::Stopped`] when the listener to its progress stopped it: then
    /// nothing was changed in the folder, and opening it again gives what it would have given. A folder that is missing, or
    /// holds another journal than it did, is no error: what this device remembers is shown, and the status says so.
    pub fn open(options: Options) -> Result<Self, Error> {
        Self::open_on(options, Arc::new(SystemDisk))
    }

    /// Opens the journal on other file operations than the system's.
    ///
    /// # Errors
    /// As [`Journal::open`].
    pub fn open_on(options: Options, disk: Arc<dyn Disk>) -> Result<Self, Error> {
        let Options { folder, local, device_name, now, create, read_only, progress } = options;
        if local.starts_with(&folder) {
            let why = "this device's own data must not lie inside it; choose another place for them".to_owned();
            return Err(Error::NotAJournal { folder, why });
        }
        let local = if read_only {
            Local::read(&local, &device_name, Arc::clone(&disk))?
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
            state: EntrySet::new(),
            index: Index::default(),
            unsent: Vec::new(),
            folder_state: FolderState::Ok,
            folder_says: None,
            markers: Markers::default(),
            last_by: HashMap::default(),
            lost: false,
            uncleared: false,
            no_identity: None,
        };
        let begun = journal.find_folder(create && !read_only)?;
        // Where a journal was just begun there is nothing to read, and it would be too late to leave all as it was.
        journal.read_all(progress.filter(|_| !begun))?;
        if !journal.local.is_read_only() {
            journal.sweep();
            journal.send();
        }
        Ok(journal)
    }

    /// The state: all entries known, and what they amount to.
    #[must_use]
    pub fn state(&self) -> &EntrySet {
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
        let reachable = !self.folder_state.is_out_of_reach();
        let waiting_unseen = self.unsent.iter().filter(|entry| !self.index.holds(entry.key())).count();
        let mut problems: Vec<Problem> = self.index.problems().cloned().collect();
        if reachable {
            problems.extend(self.markers.damaged.iter().map(|file| Problem::damaged_marker(file)));
        }
        Status {
            waiting_to_write: self.unsent.len() + self.photos_waiting(),
            folder: self.folder_state,
            folder_says: self.folder_says.clone(),
            no_local_copy: self.local.replica.refusal().map(str::to_owned),
            read_only: self.local.is_read_only(),
            problems,
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
    pub fn refresh(&mut self, changed: &[PathBuf]) -> Result<ChangedRecords, Error> {
        let was = self.folder_state;
        self.look_at_folder();
        if self.folder_state.is_out_of_reach() {
            return Ok(ChangedRecords::default());
        }
        let back = was.is_out_of_reach();
        let mut changes = ChangedRecords::default();
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
}

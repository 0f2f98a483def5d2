//! Whether the folder is the right one: joining the journal that lies there, beginning one, and knowing it again.

use std::collections::BTreeSet;
use std::path::Path;

use super::append::{SHELF, WARPS};
use super::disk::{NodeKind, list_below};
use super::files::{FileReading, read_file};
use super::index::walk;
use super::marker::{self, DEVICES, Marker, Markers};
use super::progress::ProgressReporter;
use super::status::FolderState;
use crate::error::Error;
use crate::format::ids::random_text;
use crate::journal::{ChangedRecords, Journal};

impl Journal {
    /// First look at the folder; begins a journal where that is wanted and possible, and gives whether it did.
    pub(crate) fn find_folder(&mut self, create: bool) -> Result<bool, Error> {
        if self.local.about.journals.is_empty() {
            self.join(create)
        } else {
            self.look_at_folder();
            Ok(false)
        }
    }

    /// Joins the journal that lies in the folder, or begins one.
    fn join(&mut self, create: bool) -> Result<bool, Error> {
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
            if !self.local.is_read_only() {
                self.local.keep_about()?;
            }
            return Ok(false);
        }
        let names = self.disk.list(&self.folder).map_err(Error::io("cannot read", &self.folder))?;
        let visible = names.iter().any(|(name, _)| !name.as_encoded_bytes().starts_with(b"."));
        if visible {
            let ours = [WARPS, SHELF, DEVICES].iter().any(|dir| self.folder.join(dir).is_dir());
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
        self.local.keep_about()?;
        Ok(true)
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
                settle(self, FolderState::from_error(&error));
                self.folder_says = Some(error.to_string());
                return;
            }
        };
        let here = markers.journals();
        let own = self.folder.join(DEVICES).join(marker::file_name(self.device()));
        let known = &mut self.local.about.journals;
        if here.is_empty() {
            let right = markers.damaged.contains(&own);
            settle(
                self,
                match right {
                    true => FolderState::Ok,
                    false if self.holds_a_log() => FolderState::Unmarked,
                    false => FolderState::Missing,
                },
            );
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
        if self.folder_state.is_out_of_reach() {
            self.markers = Markers::default();
        } else {
            self.markers = markers;
        }
    }

    /// Whether anything lies where the journal puts its files. In an empty mount point nothing does.
    fn holds_a_log(&self) -> bool {
        let is_filled =
            |name| list_below(self.disk.as_ref(), &self.folder.join(name)).is_ok_and(|names| !names.is_empty());
        [WARPS, SHELF].into_iter().any(is_filled)
    }

    /// Marks a folder as this journal's again, where all devices' markers have gone and a person says that it is the right
    /// one; then reads it, and writes what waited.
    ///
    /// # Errors
    /// [`Error::NotMarked`] when there are markers, when the folder is not there, or when no entry in it is known to this
    /// device; [`Error::ReadOnly`], and [`Error::Io`] when the marker cannot be written.
    pub fn mark_folder_again(&mut self) -> Result<ChangedRecords, Error> {
        if self.local.is_read_only() {
            return Err(Error::ReadOnly);
        }
        self.look_at_folder();
        let not = |folder: &Path, why: &str| Error::NotMarked { folder: folder.to_owned(), why: why.to_owned() };
        match self.folder_state {
            FolderState::Unmarked => {}
            FolderState::Missing => return Err(not(&self.folder, "no log lies there; check that its disk is there")),
            FolderState::Wrong => {
                return Err(not(&self.folder, "it is marked as another log; choose the right folder"));
            }
            _ => return Err(not(&self.folder, "its markers are there; nothing needs to be done")),
        }
        let disk = self.disk.as_ref();
        let files = walk(disk, &self.folder, &self.folder, &ProgressReporter::default()).files;
        let is_ours = files.iter().any(|file| match disk.stat(file).map(|stat| read_file(disk, file, stat)) {
            Ok(FileReading::Read(seen, _)) => seen.keys.iter().any(|key| self.state.contains(*key)),
            _ => false,
        });
        if !is_ours {
            return Err(not(&self.folder, "this device knows no entry that lies there; it may be another log"));
        }
        self.leave_marker().map_err(Error::io("cannot write in", &self.folder))?;
        self.refresh(&[])
    }

    /// The same before each save, with no marker read again where nothing says that one changed.
    pub(crate) fn look_at_folder_again(&mut self) {
        if !self.markers.stand(self.disk.as_ref(), &self.folder, self.device()) {
            self.look_at_folder();
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
        let path = dir.join(marker::file_name(&device));
        self.replace(&path, &marker.render())?;
        self.markers.damaged.retain(|damaged| *damaged != path);
        self.markers.sound.retain(|other| other.device != device);
        self.markers.sound.push(marker);
        Ok(())
    }
}

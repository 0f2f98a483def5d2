//! Keeping entries: first among what waits on this device, then in the folder.

use std::io;
use std::sync::Arc;

use super::outbox::{REFUSED, SENT};
use crate::error::Error;
use crate::format::entry::Entry;
use crate::journal::{ChangedRecords, Journal};

impl Journal {
    /// Puts entries among what waits, then sends what waits; `are_apart` when they belong together and go into several files.
    pub(crate) fn keep(&mut self, entries: Vec<Arc<Entry>>, are_apart: bool) -> Result<ChangedRecords, Error> {
        self.clear_refused();
        let kept = self.local.outbox.add(&entries);
        if kept.is_err() {
            self.local.fall_behind();
        }
        // They reach the folder file by file. When the power fails or the folder refuses between two of these, the rest must be
        // known here: else some would be in the folder, and nothing could bring the others, or take those back.
        let kept = if are_apart { Ok(self.sync_apart(kept)?) } else { kept };
        self.unsent.extend(entries.iter().cloned());
        self.look_at_folder_again();
        self.send_waiting();
        let mut failure = None;
        let is_new = |waiting: &Arc<Entry>| entries.iter().any(|entry| entry.key() == waiting.key());
        // What waited before is safe here already.
        if !are_apart && self.unsent.iter().any(is_new) {
            let was_taken = kept.is_ok();
            if let Err(source) = kept.and_then(|()| self.local.outbox.sync()) {
                // What is neither in the folder nor safe on this device was not saved, and is not shown as if it were.
                self.unsent.retain(|waiting| !is_new(waiting));
                failure = Some((source, was_taken));
            }
        }
        let mut changes = ChangedRecords::default();
        let mut new = Vec::new();
        for entry in &entries {
            if (failure.is_none() || self.index.holds(entry.key())) && self.add(Arc::clone(entry)) {
                changes.note(entry);
                new.push(Arc::clone(entry));
            }
        }
        // The replica knows them before they stop waiting: own entries that it does not know are taken for a
        // copy's.
        self.local.remember(&new);
        match failure {
            Some((source, was_taken)) => Err(self.not_safe(&entries, source, was_taken)),
            None => {
                self.settle_unsent();
                Ok(changes)
            }
        }
    }

    /// Why entries are not safe, which this device's own disk refused too; `was_taken` when it took their lines, and refused later.
    fn not_safe(&mut self, entries: &[Arc<Entry>], source: io::Error, was_taken: bool) -> Error {
        let is_cleared = self.refuse(was_taken);
        let folder = self.folder.clone();
        let folder_says = self.folder_says.clone().unwrap_or_else(|| "it is not there".to_owned());
        let local = self.local.dir.clone();
        if entries.iter().all(|entry| self.index.holds(entry.key())) {
            return Error::Unconfirmed { folder, folder_says };
        }
        if is_cleared {
            Error::NowhereToWrite { folder, folder_says, local, source }
        } else {
            Error::Uncertain { local, source }
        }
    }

    /// What goes into several files is safe on this device before the first of them is written, or none of it is kept.
    fn sync_apart(&mut self, kept: io::Result<()>) -> Result<(), Error> {
        let was_taken = kept.is_ok();
        kept.and_then(|()| self.local.outbox.sync()).map_err(|source| {
            let is_cleared = self.refuse(was_taken);
            let local = self.local.dir.clone();
            if is_cleared { Error::NotKeptTogether { local, source } } else { Error::Uncertain { local, source } }
        })
    }

    /// Clears away what was noted of entries that are refused, as it must not come in later; whether it is certain that it will not.
    fn refuse(&mut self, was_taken: bool) -> bool {
        // Lines that this disk was given whole may be on it already: that they are settled must be as safe as they.
        let cleared = self.local.outbox.set(&self.unsent, REFUSED);
        let cleared = cleared.and_then(|()| if was_taken { self.local.outbox.sync() } else { Ok(()) });
        // Lines of which it took only some are passed over at the next start, unless it was no more than the end that is wanting.
        let is_cleared = cleared.is_ok() || !was_taken && self.local.outbox.waits_only(&self.unsent);
        self.uncleared = !is_cleared;
        is_cleared
    }

    /// Tries again to clear away what was refused, so that it does not come in beside what is entered in its place.
    pub(crate) fn clear_refused(&mut self) {
        if self.uncleared {
            self.refuse(true);
        }
    }

    /// Sends what waits into the folder, which was just looked at, and completes this device's own files.
    pub(crate) fn send(&mut self) {
        self.clear_refused();
        let waited = !self.unsent.is_empty();
        self.send_waiting();
        if waited {
            self.settle_unsent();
        }
    }

    fn settle_unsent(&self) {
        // If the disk refuses, the entries are found to be in the folder at the next start.
        let _ = self.local.outbox.set(&self.unsent, SENT);
    }
}

//! The usual save: this device's last file of a place is as this device wrote it last, and entries are put at its end. What is
//! otherwise is left to [`Journal::save`], which looks at all that lies there.

use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use sha2::{Digest, Sha256};

use crate::disk::NodeKind;
use crate::entry::Entry;
use crate::ids::Place;
use crate::index::FileSeen;
use crate::journal::Journal;
use crate::reading::FILE_MAX_BYTES;
use crate::save::own_number;
use crate::segment::{self, SEGMENT_MAX_BYTES, TAIL};

impl Journal {
    /// Puts entries at the end of this device's last file of a place; `false`, and nothing done, unless the bytes of that file
    /// are those that this device wrote, and leave room. Others of its files need not be looked for: none is written.
    pub(crate) fn grow(&mut self, place: &Place, dir: &Path, new: &[Arc<Entry>]) -> io::Result<bool> {
        let lines: Vec<&Arc<Entry>> = new.iter().filter(|entry| !self.index.holds(entry.key())).collect();
        let Some((path, seen)) = self.last_known(place, dir) else { return Ok(false) };
        let added: u64 = lines.iter().map(|entry| entry.line().len() as u64 + 2).sum();
        let fits = seen.stat.bytes + added <= SEGMENT_MAX_BYTES as u64;
        // What lay in files and does not any more is to be written with it.
        if lines.is_empty() || !fits || self.lost {
            return Ok(false);
        }
        let mut old = Vec::new();
        let read = self.disk.read_unless_long(path, FILE_MAX_BYTES, &mut old);
        if read.is_ok_and(|stat| stat.kind != NodeKind::File) {
            return Ok(false);
        }
        let Some(kept) = old.strip_suffix(TAIL) else { return Ok(false) };
        // What stays of the file is digested once, to know it again and for what it becomes.
        let digested = Sha256::new().chain_update(kept);
        if seen.digest != Some(digested.clone().chain_update(TAIL).finalize().into()) {
            return Ok(false);
        }
        let Some(bytes) = segment::extend(&old, false, lines.iter().map(|entry| entry.line())) else {
            return Ok(false);
        };
        let digest = digested.chain_update(&bytes[kept.len()..]).finalize().into();
        let path = path.clone();
        let confirmed = self.put(&path, &bytes)?;
        self.index.grow(&path, self.disk.stat(&path)?, digest, lines.iter().map(|entry| entry.key()));
        confirmed.map(|()| true)
    }

    /// This device's file with the highest number in a place's directory, by what is known, if it is as it was written.
    fn last_known(&self, place: &Place, dir: &Path) -> Option<(&PathBuf, &FileSeen)> {
        let device = self.device();
        let own =
            |path: &Path| (path.parent() == Some(dir)).then(|| own_number(device, path.file_name()?.to_str()?))?;
        let files = self.index.files_of(place).filter_map(|(path, seen)| Some((own(path)?, path, seen)));
        let (number, path, seen) = files.max_by_key(|(number, _, _)| *number)?;
        let head = seen.head.as_ref()?;
        let sound = seen.as_written && !seen.untouchable && !seen.keys.is_empty();
        (sound && head.device == *device && head.segment == number).then_some((path, seen))
    }
}

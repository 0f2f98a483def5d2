//! The marker each device leaves in the folder: its name, and proof that this is the right folder.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

use serde::{Deserialize, Serialize};

use super::disk::{Disk, NodeKind, Stat, SystemDisk, list_below};
use crate::format::ids::DeviceId;
use crate::format::segment::{FORMAT, SCHEMA};

/// The directory of the markers.
pub(crate) const DEVICES: &str = "devices";
const MARKER_MAX_BYTES: u64 = 64 << 10;
/// What was changed more lately than this may change once more without a change of its time: sticks count in two seconds.
const TIMES_TELL_AFTER: Duration = Duration::from_secs(4);

/// A device's marker, `devices/<device>.json`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Marker {
    /// Always `fellmark`.
    pub format: String,
    /// The version of the format.
    pub schema: u32,
    /// The journal's random id: the same on all its devices, so that another folder is not taken for this one.
    pub journal: String,
    /// The device.
    pub device: DeviceId,
    /// The name a person gave it.
    pub name: String,
}

impl Marker {
    pub(crate) fn new(journal: &str, device: &DeviceId, name: &str) -> Self {
        Self {
            format: FORMAT.to_owned(),
            schema: SCHEMA,
            journal: journal.to_owned(),
            device: device.clone(),
            name: name.to_owned(),
        }
    }

    pub(crate) fn read(bytes: &[u8]) -> Option<Self> {
        let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
        serde_json::from_slice::<Self>(bytes).ok().filter(|marker| marker.format == FORMAT)
    }

    pub(crate) fn render(&self) -> Vec<u8> {
        let mut bytes = serde_json::to_vec(self).unwrap_or_default();
        bytes.push(b'\n');
        bytes
    }
}

/// The id of the journal that lies in a folder; `None` when there is none, more than one, or it cannot be read.
#[must_use]
pub fn journal_in(folder: &Path) -> Option<String> {
    let journals = Markers::read(&SystemDisk, folder).ok()?.journals();
    let mut journals = journals.into_iter();
    journals.next().filter(|_| journals.next().is_none())
}

/// What a device's marker is called.
pub(crate) fn file_name(device: &DeviceId) -> String {
    format!("{device}.json")
}

/// What the directory of markers holds.
#[derive(Debug, Default)]
pub(crate) struct Markers {
    /// Every marker that could be read, whatever its file is called.
    pub(crate) sound: Vec<Marker>,
    /// Names of files that are no marker.
    pub(crate) damaged: Vec<PathBuf>,
    /// What the directory and its files were when they were read; not those changed too lately to see by their times whether they still are.
    seen: Vec<(PathBuf, Stat)>,
}

impl Markers {
    pub(crate) fn read(disk: &dyn Disk, folder: &Path) -> std::io::Result<Self> {
        let dir = folder.join(DEVICES);
        let now = SystemTime::now();
        // Before its names are, so that what comes meanwhile changes it.
        let dir_was = disk.stat(&dir).ok().filter(|stat| stat.kind == NodeKind::Dir);
        let mut seen = Vec::new();
        let names = match list_below(disk, &dir) {
            Ok(names) => names,
            Err(error) if error.kind() == std::io::ErrorKind::NotFound => return Ok(Self::default()),
            Err(error) => return Err(error),
        };
        let mut markers = Self::default();
        for (name, kind) in names {
            if kind != NodeKind::File || name.as_encoded_bytes().starts_with(b".") {
                continue;
            }
            let path = dir.join(name);
            // Looked at before it is read, so that a change meanwhile is noticed later.
            seen.extend(disk.stat(&path).ok().map(|stat| (path.clone(), stat)));
            match Marker::read(&disk.read(&path, MARKER_MAX_BYTES).unwrap_or_default()) {
                Some(marker) => markers.sound.push(marker),
                None => markers.damaged.push(path),
            }
        }
        seen.extend(dir_was.map(|stat| (dir, stat)));
        let age = |stat: &Stat| now.duration_since(stat.changed?).ok();
        seen.retain(|(_, stat)| age(stat).is_some_and(|age| age >= TIMES_TELL_AFTER));
        markers.seen = seen;
        markers.sound.sort_by(|a, b| a.device.cmp(&b.device));
        markers.damaged.sort();
        Ok(markers)
    }

    pub(crate) fn journals(&self) -> BTreeSet<String> {
        self.sound.iter().map(|marker| marker.journal.clone()).collect()
    }

    /// Whether the directory's names are those that were read, and this device's marker is, by sizes and times. Then the folder
    /// is the one that it was, though another's marker may have been changed in its place.
    pub(crate) fn stand(&self, disk: &dyn Disk, folder: &Path, device: &DeviceId) -> bool {
        let dir = folder.join(DEVICES);
        let own = dir.join(file_name(device));
        self.of(device).is_some()
            && [dir, own].iter().all(|path| {
                let seen = self.seen.iter().find(|(seen, _)| seen == path);
                seen.is_some_and(|(_, seen)| disk.stat(path).is_ok_and(|stat| stat == *seen))
            })
    }

    pub(crate) fn of(&self, device: &DeviceId) -> Option<&Marker> {
        self.sound.iter().find(|marker| marker.device == *device)
    }
}

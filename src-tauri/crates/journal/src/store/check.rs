//! What is wrong in a folder, found without opening it.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use super::disk::{Disk, SystemDisk};
use super::files::{FileReading, read_file};
use super::index::{PHOTOS, walk};
use super::marker::{DEVICES, Markers};
use super::progress::ProgressReporter;
use super::status::{Problem, ProblemKind};
use crate::entry_set::EntrySet;
use crate::format::ids::{Kind, Place};
use crate::journal::Journal;
use crate::photos::{self, store::PhotosFound};

impl Journal {
    /// What is wrong in a folder, found by reading alone: markers, files of entries, and every stored photograph. Needs
    /// nothing of this device's own.
    #[must_use]
    pub fn check(folder: &Path) -> Vec<Problem> {
        let disk = SystemDisk;
        let mut problems = check_markers(&disk, folder);
        let walk = walk(&disk, folder, folder, &ProgressReporter::default());
        problems.extend(walk.not_followed);
        let mut state = EntrySet::new();
        let mut dirs: BTreeMap<Place, BTreeSet<PathBuf>> = BTreeMap::new();
        for path in walk.files {
            let Ok(stat) = disk.stat(&path) else { continue };
            if let FileReading::Read(seen, entries) = read_file(&disk, &path, stat) {
                problems.extend(seen.problems);
                entries.into_iter().for_each(|entry| _ = state.insert(entry));
                for place in seen.places {
                    dirs.entry(place).or_default().extend(path.parent().map(|dir| dir.join(PHOTOS)));
                }
            }
        }
        let mut found = PhotosFound::default();
        for dir in &walk.photo_dirs {
            problems.extend(found.look_at(&disk, dir));
        }
        problems.extend(missing_photos(&state, &dirs, &found));
        problems
    }
}

fn check_markers(disk: &dyn Disk, folder: &Path) -> Vec<Problem> {
    let problem = |file: PathBuf, kind: ProblemKind| Problem { file, line: None, kind };
    let markers = match Markers::read(disk, folder) {
        Ok(markers) => markers,
        Err(error) => {
            return vec![problem(folder.join(DEVICES), ProblemKind::MarkersUnreadable(error.to_string()))];
        }
    };
    let mut problems: Vec<Problem> = markers.damaged.iter().map(|file| Problem::damaged_marker(file)).collect();
    if markers.sound.is_empty() {
        problems.push(problem(folder.to_owned(), ProblemKind::NoMarker));
    } else if markers.journals().len() > 1 {
        problems.push(problem(folder.join(DEVICES), ProblemKind::TwoJournals));
    }
    problems
}

/// Photographs that a record names and that lie nowhere with its warp, whole.
fn missing_photos(state: &EntrySet, dirs: &BTreeMap<Place, BTreeSet<PathBuf>>, found: &PhotosFound) -> Vec<Problem> {
    let mut problems = Vec::new();
    for record in state.of_kind(&Kind::PHOTO).filter(|record| record.is_visible()) {
        let Some(hash) = record.get(photos::HASH_FIELD).and_then(|hash| hash.as_str()) else { continue };
        let Some(dirs) = dirs.get(&record.place) else { continue };
        if dirs.iter().any(|dir| found.holds(dir, hash)) {
            continue;
        }
        let Some(dir) = dirs.first() else { continue };
        let file = dir.join(format!("{hash}.jpg"));
        // One that is there and damaged is reported as that.
        if found.is_damaged(&file) {
            continue;
        }
        problems.push(Problem { file, line: None, kind: ProblemKind::PhotoMissing });
    }
    problems
}

impl Problem {
    pub(crate) fn damaged_marker(file: &Path) -> Self {
        Self { file: file.to_owned(), line: None, kind: ProblemKind::MarkerDamaged }
    }
}

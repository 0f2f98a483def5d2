//! Which files the folder holds and which entries each of them, so that only what changed is read again.

use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::path::{Path, PathBuf};

use crate::disk::{Disk, NodeKind, Stat};
use crate::ids::{ByBits, Key, Place};
use crate::marker::DEVICES;
use crate::segment::Head;
use crate::status::Problem;
use crate::threads;

/// How deep directories are followed.
const DEPTH_MAX: usize = 8;
/// The directory of a warp's photographs.
pub(crate) const PHOTOS: &str = "photos";
const IMAGES: [&str; 9] = ["jpg", "jpeg", "png", "webp", "heic", "heif", "gif", "tif", "tiff"];

/// What is known of one file.
#[derive(Debug, Clone)]
pub(crate) struct FileSeen {
    pub(crate) stat: Stat,
    /// Of an own file's bytes, once they were looked at for a save.
    pub(crate) digest: Option<[u8; 32]>,
    pub(crate) head: Option<Head>,
    pub(crate) as_written: bool,
    /// It holds lines that this version must not throw away, though it cannot use them.
    pub(crate) untouchable: bool,
    pub(crate) keys: Vec<Key>,
    pub(crate) places: BTreeSet<Place>,
    pub(crate) problems: Vec<Problem>,
}

impl FileSeen {
    /// The place of all its entries, if they have one.
    pub(crate) fn only_place(&self) -> Option<Place> {
        self.places.first().filter(|_| self.places.len() == 1).cloned()
    }
}

/// The folder's files.
#[derive(Debug, Default)]
pub(crate) struct Index {
    pub(crate) files: BTreeMap<PathBuf, FileSeen>,
    /// Problems of names that are not read: links, pipes, devices.
    pub(crate) strange: BTreeMap<PathBuf, Problem>,
    /// Temporary files that lay there when all of the folder was looked at last.
    pub(crate) temps: Vec<PathBuf>,
    /// In how many files each entry lies.
    present: HashMap<Key, u32, ByBits>,
    /// The files that hold entries of a place.
    by_place: BTreeMap<Place, BTreeSet<PathBuf>>,
}

impl Index {
    pub(crate) fn holds(&self, key: Key) -> bool {
        self.present.contains_key(&key)
    }

    pub(crate) fn distinct(&self) -> usize {
        self.present.len()
    }

    /// Puts many files in at once.
    pub(crate) fn put_all(&mut self, files: Vec<(PathBuf, Box<FileSeen>)>) {
        if !self.files.is_empty() {
            for (file, seen) in files {
                self.put(file, *seen);
            }
            return;
        }
        self.present.reserve(files.iter().map(|(_, seen)| seen.keys.len()).sum());
        let mut by_place: HashMap<&Place, BTreeSet<PathBuf>> = HashMap::new();
        for (file, seen) in &files {
            for key in &seen.keys {
                *self.present.entry(*key).or_insert(0) += 1;
            }
            for place in &seen.places {
                by_place.entry(place).or_default().insert(file.clone());
            }
        }
        self.by_place = by_place.into_iter().map(|(place, files)| (place.clone(), files)).collect();
        self.files = files.into_iter().map(|(file, seen)| (file, *seen)).collect();
    }

    /// The files that hold entries of a place, by name, with what is known of them.
    pub(crate) fn files_of(&self, place: &Place) -> impl Iterator<Item = (&PathBuf, &FileSeen)> {
        self.by_place.get(place).into_iter().flatten().filter_map(|file| self.files.get_key_value(file))
    }

    fn forget_places(&mut self, path: &Path, seen: &FileSeen) {
        for place in &seen.places {
            if let Some(files) = self.by_place.get_mut(place) {
                files.remove(path);
            }
        }
    }

    /// Puts a file's newest reading in; `true` when entries it held before are in no file any more.
    pub(crate) fn put(&mut self, path: PathBuf, seen: FileSeen) -> bool {
        for key in &seen.keys {
            *self.present.entry(*key).or_insert(0) += 1;
        }
        let mut lost = false;
        if let Some(before) = self.files.remove(&path) {
            self.forget_places(&path, &before);
            lost = self.release(&before.keys);
        }
        for place in &seen.places {
            match self.by_place.get_mut(place) {
                Some(files) => _ = files.insert(path.clone()),
                None => _ = self.by_place.insert(place.clone(), BTreeSet::from([path.clone()])),
            }
        }
        self.files.insert(path, seen);
        lost
    }

    /// Takes a file or all files of a directory out; `true` when entries are in no file any more.
    pub(crate) fn take_out(&mut self, path: &Path) -> bool {
        let gone: Vec<PathBuf> = self.files.keys().filter(|file| file.starts_with(path)).cloned().collect();
        self.strange.retain(|file, _| !file.starts_with(path));
        let mut lost = false;
        for file in gone {
            if let Some(seen) = self.files.remove(&file) {
                self.forget_places(&file, &seen);
                lost |= self.release(&seen.keys);
            }
        }
        lost
    }

    fn release(&mut self, keys: &[Key]) -> bool {
        let mut lost = false;
        for key in keys {
            if let Some(count) = self.present.get_mut(key) {
                *count -= 1;
                if *count == 0 {
                    self.present.remove(key);
                    lost = true;
                }
            }
        }
        lost
    }

    pub(crate) fn problems(&self) -> impl Iterator<Item = &Problem> {
        self.strange.values().chain(self.files.values().flat_map(|seen| &seen.problems))
    }
}

/// The beginning and end of the names of temporary files.
pub(crate) const TEMP_PREFIX: &str = ".fellmark-";
pub(crate) const TEMP_SUFFIX: &str = ".tmp";

/// What a walk through a directory found.
#[derive(Debug, Default)]
pub(crate) struct Walk {
    /// Files that may hold entries.
    pub(crate) files: Vec<PathBuf>,
    /// Names that are not followed.
    pub(crate) strange: Vec<Problem>,
    /// Temporary files of a save that did not end.
    pub(crate) temps: Vec<PathBuf>,
}

/// Fewer directories than this are listed one after the other.
const DIRS_FOR_THREADS: usize = 32;

/// Finds the files under `start` that may hold entries. Links are not followed, hidden names are passed over
/// (synchronisers keep their own business under such names), and so are photographs.
pub(crate) fn walk(disk: &dyn Disk, folder: &Path, start: &Path) -> Walk {
    let devices = folder.join(DEVICES);
    let mut found = Walk::default();
    let mut dirs = vec![start.to_owned()];
    let depth = start.strip_prefix(folder).map_or(0, |below| below.components().count());
    for _ in depth..=DEPTH_MAX {
        dirs.retain(|dir| *dir != devices);
        let listed = threads::each(&dirs, DIRS_FOR_THREADS, DIRS_FOR_THREADS / 2, |dir| list(disk, dir));
        dirs.clear();
        for (walk, below) in listed {
            found.files.extend(walk.files);
            found.strange.extend(walk.strange);
            found.temps.extend(walk.temps);
            dirs.extend(below);
        }
    }
    found
}

/// What lies in one directory, and the directories in it.
fn list(disk: &dyn Disk, dir: &Path) -> (Walk, Vec<PathBuf>) {
    let mut found = Walk::default();
    let mut below = Vec::new();
    let names = match disk.list(dir) {
        Ok(names) => names,
        Err(error) => {
            if error.kind() != std::io::ErrorKind::NotFound {
                found.strange.push(unreadable(dir, &error));
            }
            return (found, below);
        }
    };
    for (name, kind) in names {
        let path = dir.join(&name);
        let text = name.to_string_lossy();
        if text.starts_with('.') {
            if text.starts_with(TEMP_PREFIX) && text.ends_with(TEMP_SUFFIX) && kind == NodeKind::File {
                found.temps.push(path);
            }
            continue;
        }
        match kind {
            NodeKind::Dir if text == PHOTOS => {}
            NodeKind::Dir => below.push(path),
            NodeKind::File if is_image(&path) => {}
            NodeKind::File => found.files.push(path),
            NodeKind::Placeholder => {}
            NodeKind::Other => {
                if text.to_ascii_lowercase().contains(".json") {
                    found.strange.push(Problem {
                        file: path,
                        line: None,
                        what: "This is a link, a pipe or a device, no plain file; it is not followed.".to_owned(),
                        do_what: "Put the file itself here, if it belongs to the log.".to_owned(),
                    });
                }
            }
        }
    }
    found.files.sort_unstable();
    below.sort_unstable();
    (found, below)
}

fn is_image(path: &Path) -> bool {
    path.extension().and_then(|end| end.to_str()).is_some_and(|end| IMAGES.iter().any(|i| end.eq_ignore_ascii_case(i)))
}

pub(crate) fn unreadable(path: &Path, error: &std::io::Error) -> Problem {
    Problem {
        file: path.to_owned(),
        line: None,
        what: format!("It cannot be read: {error}. What is known of it is shown from this device."),
        do_what: "Check the disk, and who may read the file.".to_owned(),
    }
}

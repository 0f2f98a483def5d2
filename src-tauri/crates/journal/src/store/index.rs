//! Which files the folder holds and which entries each of them, so that only what changed is read again.

use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::path::{Path, PathBuf};

use foldhash::fast::RandomState;
use rayon::prelude::*;

use super::disk::{Disk, NodeKind, Stat};
use super::marker::DEVICES;
use super::progress::ProgressReporter;
use super::status::{Problem, ProblemKind};
use crate::format::ids::{Key, Place};
use crate::format::segment::Head;

/// How deep directories are followed.
const DEPTH_MAX: usize = 8;
/// The directory of a warp's photographs.
pub(crate) const PHOTOS: &str = "photos";
const IMAGES: [&str; 9] = ["jpg", "jpeg", "png", "webp", "heic", "heif", "gif", "tif", "tiff"];

/// What is known of one file.
#[derive(Debug, Clone)]
pub(crate) struct FileSeen {
    pub(crate) stat: Stat,
    pub(crate) head: Option<Head>,
    pub(crate) as_written: bool,
    /// It holds lines that this version must not throw away, though it cannot use them.
    pub(crate) untouchable: bool,
    pub(crate) keys: Vec<Key>,
    pub(crate) places: BTreeSet<Place>,
    pub(crate) problems: Vec<Problem>,
}

/// The folder's files.
#[derive(Debug, Default)]
pub(crate) struct Index {
    pub(crate) files: BTreeMap<PathBuf, FileSeen>,
    /// Problems of names that are not read: links, pipes, devices.
    pub(crate) not_followed: BTreeMap<PathBuf, Problem>,
    /// Temporary files that lay there when all of the folder was looked at last.
    pub(crate) temps: Vec<PathBuf>,
    /// In how many files each entry lies.
    copies: HashMap<Key, u32, RandomState>,
}

impl Index {
    /// Whether an entry lies in any file.
    pub(crate) fn holds(&self, key: Key) -> bool {
        self.copies.contains_key(&key)
    }

    /// How many entries lie in the files, each counted once.
    pub(crate) fn distinct(&self) -> usize {
        self.copies.len()
    }

    /// The files that hold entries of a place, by name, with what is known of them.
    pub(crate) fn files_of(&self, place: &Place) -> impl Iterator<Item = (&PathBuf, &FileSeen)> {
        self.files.iter().filter(|(_, seen)| seen.places.contains(place))
    }

    /// Puts a file's newest reading in; `true` when entries it held before are in no file any more.
    pub(crate) fn put(&mut self, path: PathBuf, seen: FileSeen) -> bool {
        for key in &seen.keys {
            *self.copies.entry(*key).or_insert(0) += 1;
        }
        let before = self.files.insert(path, seen);
        before.is_some_and(|before| self.forget_keys(&before.keys))
    }

    /// Takes a file or all files of a directory out; `true` when entries are in no file any more.
    pub(crate) fn forget(&mut self, path: &Path) -> bool {
        self.not_followed.retain(|file, _| !file.starts_with(path));
        let gone: Vec<PathBuf> = self.files.keys().filter(|file| file.starts_with(path)).cloned().collect();
        let mut lost = false;
        for seen in gone.iter().filter_map(|file| self.files.remove(file)).collect::<Vec<_>>() {
            lost |= self.forget_keys(&seen.keys);
        }
        lost
    }

    fn forget_keys(&mut self, keys: &[Key]) -> bool {
        let mut lost = false;
        for key in keys {
            if let Some(count) = self.copies.get_mut(key) {
                *count -= 1;
                if *count == 0 {
                    self.copies.remove(key);
                    lost = true;
                }
            }
        }
        lost
    }

    pub(crate) fn problems(&self) -> impl Iterator<Item = &Problem> {
        self.not_followed.values().chain(self.files.values().flat_map(|seen| &seen.problems))
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
    /// Directories of photographs.
    pub(crate) photo_dirs: Vec<PathBuf>,
    /// Names that are not followed.
    pub(crate) not_followed: Vec<Problem>,
    /// Temporary files of a save that did not end.
    pub(crate) temps: Vec<PathBuf>,
    /// Directories to look into next.
    below: Vec<PathBuf>,
}

/// Finds the files under `start` that may hold entries. Links are not followed, hidden names are passed over
/// (synchronisers keep their own business under such names), and so are photographs.
pub(crate) fn walk(disk: &dyn Disk, folder: &Path, start: &Path, progress: &ProgressReporter) -> Walk {
    let devices = folder.join(DEVICES);
    let mut found = Walk { below: vec![start.to_owned()], ..Walk::default() };
    let depth = start.strip_prefix(folder).map_or(0, |below| below.components().count());
    for _ in depth..=DEPTH_MAX {
        let dirs: Vec<PathBuf> = std::mem::take(&mut found.below).into_iter().filter(|dir| *dir != devices).collect();
        let listed: Vec<Walk> = dirs.par_iter().map(|dir| progress.step(0, None, || list(disk, dir))).collect();
        for walk in listed {
            found.files.extend(walk.files);
            found.photo_dirs.extend(walk.photo_dirs);
            found.not_followed.extend(walk.not_followed);
            found.temps.extend(walk.temps);
            found.below.extend(walk.below);
        }
    }
    found
}

/// What lies in one directory.
fn list(disk: &dyn Disk, dir: &Path) -> Walk {
    let mut found = Walk::default();
    let mut names = match disk.list(dir) {
        Ok(names) => names,
        Err(error) => {
            if error.kind() != std::io::ErrorKind::NotFound {
                found.not_followed.push(unreadable(dir, &error));
            }
            return found;
        }
    };
    names.sort_unstable_by(|(one, _), (other, _)| one.cmp(other));
    for (name, kind) in names {
        let text = name.to_string_lossy();
        let path = dir.join(&name);
        if text.starts_with('.') {
            if text.starts_with(TEMP_PREFIX) && text.ends_with(TEMP_SUFFIX) && kind == NodeKind::File {
                found.temps.push(path);
            }
            continue;
        }
        match kind {
            NodeKind::Dir if text == PHOTOS => found.photo_dirs.push(path),
            NodeKind::Dir => {
                if text.to_ascii_lowercase().contains(".json") {
                    found.not_followed.push(Problem {
                        file: path.clone(),
                        line: None,
                        kind: ProblemKind::DirectoryForFile,
                    });
                }
                found.below.push(path);
            }
            NodeKind::File if is_image(&text) => {}
            NodeKind::File => found.files.push(path),
            NodeKind::Placeholder => {}
            NodeKind::Other => found.not_followed.push(not_followed(path)),
        }
    }
    found
}

/// A name that stands for something else than a plain file or directory.
pub(crate) fn not_followed(file: PathBuf) -> Problem {
    Problem { file, line: None, kind: ProblemKind::NotFollowed }
}

fn is_image(name: &str) -> bool {
    name.rsplit_once('.').is_some_and(|(_, end)| IMAGES.iter().any(|image| end.eq_ignore_ascii_case(image)))
}

pub(crate) fn unreadable(path: &Path, error: &std::io::Error) -> Problem {
    Problem { file: path.to_owned(), line: None, kind: ProblemKind::Unreadable(error.to_string()) }
}

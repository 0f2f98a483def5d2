//! Which files the folder holds and which entries each of them, so that only what changed is read again.

use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::path::{Path, PathBuf};
use std::sync::{Arc, OnceLock};

use crate::disk::{Disk, NodeKind, Stat};
use crate::ids::{ByBits, Key, Place};
use crate::marker::DEVICES;
use crate::segment::Head;
use crate::sound::Mark;
use crate::status::Problem;
use crate::threads;
use crate::told::Telling;

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
    /// Of its bytes, where that was made at the start.
    pub(crate) mark: Option<Mark>,
    pub(crate) head: Option<Head>,
    pub(crate) as_written: bool,
    /// It holds lines that this version must not throw away, though it cannot use them.
    pub(crate) untouchable: bool,
    pub(crate) keys: Arc<[Key]>,
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
    /// How many entries lie in them, each counted once, where that is known without looking for each.
    distinct: Option<usize>,
    whereabouts: OnceLock<Whereabouts>,
}

/// Where entries are found. Worked out when it is asked for first: that takes a while in a large folder, and one who only
/// looks never asks.
#[derive(Debug, Default)]
struct Whereabouts {
    /// In how many files each entry lies.
    present: HashMap<Key, u32, ByBits>,
    /// The files that hold entries of a place.
    by_place: BTreeMap<Place, BTreeSet<PathBuf>>,
}

impl Whereabouts {
    fn of(files: &BTreeMap<PathBuf, FileSeen>) -> Self {
        let mut found = Self::default();
        found.present.reserve(files.values().map(|seen| seen.keys.len()).sum());
        files.iter().for_each(|(path, seen)| found.put(path, seen));
        found
    }

    fn put(&mut self, path: &Path, seen: &FileSeen) {
        self.replace(path, None, Some(seen));
    }

    /// Puts what a file holds in the place of what it held; `true` when entries are in no file any more. What stands first in
    /// both is not looked at: most often a file has only grown.
    fn replace(&mut self, path: &Path, before: Option<&FileSeen>, after: Option<&FileSeen>) -> bool {
        let keys = |seen: Option<&FileSeen>| seen.map(|seen| Arc::clone(&seen.keys)).unwrap_or_default();
        let (old, new) = (keys(before), keys(after));
        let same = if new.starts_with(&old) { old.len() } else { 0 };
        for key in &new[same..] {
            *self.present.entry(*key).or_insert(0) += 1;
        }
        let mut lost = false;
        for key in &old[same..] {
            if let Some(count) = self.present.get_mut(key) {
                *count -= 1;
                if *count == 0 {
                    self.present.remove(key);
                    lost = true;
                }
            }
        }
        for place in before.into_iter().flat_map(|seen| &seen.places) {
            if let Some(files) = self.by_place.get_mut(place) {
                files.remove(path);
            }
        }
        for place in after.into_iter().flat_map(|seen| &seen.places) {
            match self.by_place.get_mut(place) {
                Some(files) => _ = files.insert(path.to_owned()),
                None => _ = self.by_place.insert(place.clone(), BTreeSet::from([path.to_owned()])),
            }
        }
        lost
    }
}

impl Index {
    fn whereabouts(&self) -> &Whereabouts {
        self.whereabouts.get_or_init(|| Whereabouts::of(&self.files))
    }

    pub(crate) fn holds(&self, key: Key) -> bool {
        self.whereabouts().present.contains_key(&key)
    }

    pub(crate) fn distinct(&self) -> usize {
        self.distinct.unwrap_or_else(|| self.whereabouts().present.len())
    }

    /// Puts all files of a folder in, which hold so many entries, each counted once.
    pub(crate) fn begin(&mut self, files: Vec<(PathBuf, FileSeen)>, distinct: usize) {
        self.files = files.into_iter().collect();
        self.distinct = Some(distinct);
        self.whereabouts.take();
    }

    /// The files that hold entries of a place, by name, with what is known of them.
    pub(crate) fn files_of(&self, place: &Place) -> impl Iterator<Item = (&PathBuf, &FileSeen)> {
        self.whereabouts().by_place.get(place).into_iter().flatten().filter_map(|file| self.files.get_key_value(file))
    }

    /// Puts a file's newest reading in; `true` when entries it held before are in no file any more.
    pub(crate) fn put(&mut self, path: PathBuf, seen: FileSeen) -> bool {
        let before = self.files.get(&path).cloned();
        let lost = self.change(|found| found.replace(&path, before.as_ref(), Some(&seen)));
        self.files.insert(path, seen);
        lost
    }

    /// Puts in that a file holds further entries of the place that its others are of, and in none before.
    pub(crate) fn grow(&mut self, path: &Path, stat: Stat, digest: [u8; 32], keys: impl Iterator<Item = Key> + Clone) {
        self.change(|found| keys.clone().for_each(|key| *found.present.entry(key).or_insert(0) += 1));
        if let Some(seen) = self.files.get_mut(path) {
            seen.keys = seen.keys.iter().copied().chain(keys).collect();
            (seen.stat, seen.digest, seen.mark) = (stat, Some(digest), None);
        }
    }

    /// Takes a file or all files of a directory out; `true` when entries are in no file any more.
    pub(crate) fn take_out(&mut self, path: &Path) -> bool {
        self.strange.retain(|file, _| !file.starts_with(path));
        let gone: Vec<PathBuf> = self.files.keys().filter(|file| file.starts_with(path)).cloned().collect();
        let mut lost = false;
        for file in gone {
            let before = self.files.get(&file).cloned();
            lost |= self.change(|found| found.replace(&file, before.as_ref(), None));
            self.files.remove(&file);
        }
        lost
    }

    /// How many entries stand first in a file, before and now.
    pub(crate) fn stood_before(&self, path: &Path, now: &FileSeen) -> usize {
        let before = self.files.get(path).filter(|before| now.keys.starts_with(&before.keys));
        before.map_or(0, |before| before.keys.len())
    }

    /// Changes what entries are found by, which must be done before the files themselves change.
    fn change<R>(&mut self, how: impl FnOnce(&mut Whereabouts) -> R) -> R {
        let mut found = self.whereabouts.take().unwrap_or_else(|| Whereabouts::of(&self.files));
        let done = how(&mut found);
        self.whereabouts = OnceLock::from(found);
        self.distinct = None;
        done
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
pub(crate) fn walk(disk: &dyn Disk, folder: &Path, start: &Path, telling: &Telling) -> Walk {
    let devices = folder.join(DEVICES);
    let mut found = Walk::default();
    let mut dirs = vec![start.to_owned()];
    let depth = start.strip_prefix(folder).map_or(0, |below| below.components().count());
    for _ in depth..=DEPTH_MAX {
        dirs.retain(|dir| *dir != devices);
        let listed =
            threads::each(&dirs, DIRS_FOR_THREADS, DIRS_FOR_THREADS / 2, |dir| telling.looking(|| list(disk, dir)));
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
    let mut names = match disk.list(dir) {
        Ok(names) => names,
        Err(error) => {
            if error.kind() != std::io::ErrorKind::NotFound {
                found.strange.push(unreadable(dir, &error));
            }
            return (found, below);
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
            NodeKind::Dir if text == PHOTOS => {}
            NodeKind::Dir => below.push(path),
            NodeKind::File if is_image(&text) => {}
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
    (found, below)
}

fn is_image(name: &str) -> bool {
    name.rsplit_once('.').is_some_and(|(_, end)| IMAGES.iter().any(|image| end.eq_ignore_ascii_case(image)))
}

pub(crate) fn unreadable(path: &Path, error: &std::io::Error) -> Problem {
    Problem {
        file: path.to_owned(),
        line: None,
        what: format!("It cannot be read: {error}. What is known of it is shown from this device."),
        do_what: "Check the disk, and who may read the file.".to_owned(),
    }
}

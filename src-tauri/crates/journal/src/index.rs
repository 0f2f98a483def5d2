//! Which files the folder holds and which entries each of them, so that only what changed is read again.

use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::clock::At;
use crate::disk::{Disk, NodeKind, Stat};
use crate::entry::Entry;
use crate::ids::{ByBits, DeviceId, Key, Place};
use crate::marker::{DEVICES, Marker};
use crate::segment::{Head, Segment};
use crate::status::{Problem, problems_of};
use crate::threads;

/// Most bytes that are read of one file. The journal's own files end at 256 KiB.
pub const FILE_MAX_BYTES: u64 = 32 << 20;
/// How deep directories are followed.
const DEPTH_MAX: usize = 8;
/// The directory of a warp's photographs.
pub(crate) const PHOTOS: &str = "photos";
const SNIFF_BYTES: u64 = 4096;
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

    /// Makes room for many entries more.
    pub(crate) fn expect(&mut self, entries: usize) {
        self.present.reserve(entries);
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
        let listed = threads::each(&dirs, DIRS_FOR_THREADS, |dir| list(disk, dir));
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

/// Fewer files than this are read one after the other.
const FILES_FOR_THREADS: usize = 64;

/// A file's reading.
pub(crate) enum Reading {
    /// It is as it was when it was read last, or is no plain file now.
    Same,
    /// What it is cannot be told.
    Unseen(std::io::Error),
    /// It is none of the journal's.
    NotOurs,
    /// What it holds.
    Read(Box<FileSeen>, Vec<Arc<Entry>>, Times),
}

/// When the entries of a file were written.
#[derive(Debug, Default)]
pub(crate) struct Times {
    /// The latest of each device.
    pub(crate) by: Vec<(DeviceId, At)>,
    /// The latest that is a time.
    pub(crate) latest: Option<At>,
}

impl Times {
    pub(crate) fn of(entries: &[Arc<Entry>]) -> Self {
        let mut times = Self::default();
        // The latest stand last, most often.
        for entry in entries.iter().rev() {
            let at = entry.at();
            match times.by.iter_mut().find(|(device, _)| device == entry.by()) {
                Some((_, last)) if *last >= *at => {}
                Some((_, last)) => *last = at.clone(),
                None => times.by.push((entry.by().clone(), at.clone())),
            }
            if times.latest.as_ref().is_none_or(|latest| at > latest) && at.time().is_some() {
                times.latest = Some(at.clone());
            }
        }
        times
    }
}

/// Reads the files that changed, many of them on several threads; the answer is in the order of the question. With
/// `whole` the entries keep the texts of their files.
pub(crate) fn read_files(disk: &dyn Disk, index: &Index, files: Vec<PathBuf>, whole: bool) -> Vec<(PathBuf, Reading)> {
    let read_one = |file: &PathBuf| match disk.stat(file) {
        Ok(stat) if stat.kind != NodeKind::File || index.files.get(file).is_some_and(|seen| seen.stat == stat) => {
            Reading::Same
        }
        Ok(stat) => read_file(disk, file, stat, whole),
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => Reading::Same,
        Err(error) => Reading::Unseen(error),
    };
    let readings = threads::each(&files, FILES_FOR_THREADS, read_one);
    files.into_iter().zip(readings).collect()
}

/// Reads one file that was just looked at.
pub(crate) fn read_file(disk: &dyn Disk, path: &Path, stat: Stat, whole: bool) -> Reading {
    let blank = |problems: Vec<Problem>| {
        let seen = FileSeen {
            stat,
            digest: None,
            head: None,
            as_written: false,
            untouchable: true,
            keys: Vec::new(),
            places: BTreeSet::new(),
            problems,
        };
        Reading::Read(Box::new(seen), Vec::new(), Times::default())
    };
    let named_so = path.file_name().is_some_and(|name| contains_json(name.as_encoded_bytes()));
    if !named_so {
        match disk.read_found(path, &stat, SNIFF_BYTES) {
            Ok(start) if Segment::default().is_ours(&start) => {}
            _ => return Reading::NotOurs,
        }
    }
    let bytes = match disk.read_found(path, &stat, FILE_MAX_BYTES) {
        Ok(bytes) => bytes,
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => return Reading::NotOurs,
        Err(error) => return blank(vec![unreadable(path, &error)]),
    };
    let capped = stat.bytes > FILE_MAX_BYTES;
    let (bytes, found) = if whole {
        match String::from_utf8(bytes) {
            Ok(text) => {
                let text = Arc::new(text);
                let found = seen_in(path, stat, text.as_bytes(), Segment::read_text(&text));
                (None, found.ok_or(text))
            }
            Err(error) => (Some(error.into_bytes()), Err(Arc::default())),
        }
    } else {
        (Some(bytes), Err(Arc::default()))
    };
    let found = match (&bytes, found) {
        (Some(bytes), _) => seen_of(path, stat, bytes).ok_or_else(|| Marker::read(bytes).is_some()),
        (None, found) => found.map_err(|text| Marker::read(text.as_bytes()).is_some()),
    };
    let (mut seen, entries) = match found {
        Ok(found) => found,
        Err(is_marker) if is_marker || !named_so => return Reading::NotOurs,
        Err(_) => {
            return blank(vec![Problem {
                file: path.to_owned(),
                line: None,
                what: "This is no file of the log, or it is damaged beyond recognition; it is left alone.".to_owned(),
                do_what: "If it is yours, keep it elsewhere; what it held is shown from this device.".to_owned(),
            }]);
        }
    };
    if capped {
        seen.untouchable = true;
        seen.problems = vec![Problem {
            file: path.to_owned(),
            line: None,
            what: format!(
                "The file is {} MB long; only its first {} MB are read.",
                stat.bytes >> 20,
                FILE_MAX_BYTES >> 20
            ),
            do_what: "Fellmark writes no such file; take it out of the folder.".to_owned(),
        }];
    }
    let times = Times::of(&entries);
    Reading::Read(Box::new(seen), entries, times)
}

fn contains_json(name: &[u8]) -> bool {
    name.windows(5).any(|part| part.eq_ignore_ascii_case(b".json"))
}

/// What a file's bytes hold. `None` when it is none of the journal's.
pub(crate) fn seen_of(path: &Path, stat: Stat, bytes: &[u8]) -> Option<(FileSeen, Vec<Arc<Entry>>)> {
    seen_in(path, stat, bytes, Segment::read(bytes))
}

fn seen_in(path: &Path, stat: Stat, bytes: &[u8], segment: Segment) -> Option<(FileSeen, Vec<Arc<Entry>>)> {
    use crate::entry::Refusal;
    use crate::segment::{SCHEMA, Wrong};
    let ours = segment.is_ours(bytes) || bytes.is_empty() || bytes.iter().all(|b| *b == 0);
    if !ours || (segment.entries.is_empty() && Marker::read(bytes).is_some()) {
        return None;
    }
    let untouchable = segment.head.as_ref().is_some_and(|head| head.schema > SCHEMA)
        || segment.refused_more > 0
        || segment
            .refused
            .iter()
            .any(|(_, wrong)| matches!(wrong, Wrong::Entry(Refusal::Meaning | Refusal::Long) | Wrong::Marker));
    let mut places = BTreeSet::new();
    let mut last = None;
    for entry in &segment.entries {
        // Nearly always all of them are of one place.
        if last != Some(entry.place()) {
            last = Some(entry.place());
            places.insert(entry.place().clone());
        }
    }
    let seen = FileSeen {
        stat,
        digest: None,
        as_written: segment.as_written,
        untouchable,
        keys: segment.entries.iter().map(Entry::key).collect(),
        places,
        problems: problems_of(path, bytes.len(), &segment),
        head: segment.head,
    };
    Some((seen, segment.entries.into_iter().map(Arc::new).collect()))
}

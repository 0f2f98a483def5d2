//! A folder, and devices that open it.
#![allow(clippy::unwrap_used, clippy::panic)]

pub mod faulty_disk;
pub mod mount;

use std::path::{Path, PathBuf};

use fellmark_journal::{EntryDraft, Journal, Kind, Options, Place, RecordId};
use serde_json::{Map, Value, json};

/// A journal's folder in a temporary directory, and beside it the local data of each device that opens it.
pub struct SharedFolder {
    root: tempfile::TempDir,
}

impl SharedFolder {
    /// An empty one.
    #[allow(clippy::new_without_default)]
    pub fn new() -> Self {
        Self { root: tempfile::tempdir().unwrap() }
    }

    /// The temporary directory that holds everything.
    pub fn root(&self) -> &Path {
        self.root.path()
    }

    /// The journal's folder.
    pub fn folder(&self) -> PathBuf {
        self.root().join("log")
    }

    /// Where a device keeps its own data.
    pub fn local(&self, device: &str) -> PathBuf {
        self.root().join("local").join(device)
    }

    /// How a device of this name opens the folder, which is made if need be.
    pub fn options(&self, device: &str) -> Options {
        Options::new(self.folder(), self.local(device), device).create()
    }

    /// The journal as a device of this name opens it.
    pub fn open(&self, device: &str) -> Journal {
        Journal::open(self.options(device)).unwrap()
    }

    /// All files of the folder that are not hidden, relative and sorted.
    pub fn files(&self) -> Vec<String> {
        let mut files: Vec<String> = all_files(&self.folder())
            .iter()
            .filter(|file| !file.file_name().unwrap().to_string_lossy().starts_with('.'))
            .map(|file| file.strip_prefix(self.folder()).unwrap().to_string_lossy().into_owned())
            .collect();
        files.sort();
        files
    }

    /// The files that hold entries.
    pub fn entry_files(&self) -> Vec<PathBuf> {
        self.files().iter().filter(|file| !file.starts_with("devices")).map(|file| self.folder().join(file)).collect()
    }
}

/// All files below a directory, sorted.
pub fn all_files(dir: &Path) -> Vec<PathBuf> {
    let mut files = Vec::new();
    for item in std::fs::read_dir(dir).into_iter().flatten().flatten() {
        let kind = item.file_type().unwrap();
        if kind.is_dir() {
            files.extend(all_files(&item.path()));
        } else {
            files.push(item.path());
        }
    }
    files.sort();
    files
}

/// The fields of an entry, from an object.
pub fn fields(value: Value) -> Map<String, Value> {
    match value {
        Value::Object(map) => map,
        other => panic!("no object: {other}"),
    }
}

/// Writes an invented warp.
pub fn begin_warp(journal: &mut Journal, name: &str) -> RecordId {
    let id = RecordId::new();
    let set = fields(json!({"name": name, "wound_mm": 2750, "waste_mm": 500}));
    journal.write(vec![EntryDraft::new(Place::warp(&id), id.clone(), Kind::WARP, set)]).unwrap();
    id
}

/// Writes a sitting on this warp.
pub fn log_sitting(journal: &mut Journal, warp: &RecordId, minutes: u32, picks: u32) -> RecordId {
    let id = RecordId::new();
    let set = fields(json!({"minutes": minutes, "picks": picks}));
    journal.write(vec![EntryDraft::new(Place::warp(warp), id.clone(), Kind::SITTING, set)]).unwrap();
    id
}

/// Copies all files of a directory, over those that are there.
pub fn copy_dir(from: &Path, to: &Path) {
    std::fs::create_dir_all(to).unwrap();
    for file in all_files(from) {
        let target = to.join(file.strip_prefix(from).unwrap());
        std::fs::create_dir_all(target.parent().unwrap()).unwrap();
        std::fs::copy(file, target).unwrap();
    }
}

/// Every file of a directory with its bytes.
pub fn contents(dir: &Path) -> std::collections::BTreeMap<PathBuf, Vec<u8>> {
    all_files(dir)
        .into_iter()
        .map(|file| (file.strip_prefix(dir).unwrap().to_owned(), std::fs::read(&file).unwrap()))
        .collect()
}

/// A photograph as a camera might make it, as JPEG.
pub fn picture(width: u32, height: u32) -> Vec<u8> {
    let picture = image::RgbImage::from_fn(width, height, |x, y| image::Rgb([(x * 5) as u8, (y * 7) as u8, 90]));
    let mut bytes = std::io::Cursor::new(Vec::new());
    picture.write_to(&mut bytes, image::ImageFormat::Jpeg).unwrap();
    bytes.into_inner()
}

//! A folder, and devices that open it.
#![allow(dead_code)]

use std::path::{Path, PathBuf};

use fellmark_journal::{Draft, Journal, Kind, Options, Place, RecordId};
use serde_json::{Map, Value, json};

pub struct Bench {
    root: tempfile::TempDir,
}

impl Bench {
    pub fn new() -> Self {
        Self { root: tempfile::tempdir().unwrap() }
    }

    pub fn root(&self) -> &Path {
        self.root.path()
    }

    pub fn folder(&self) -> PathBuf {
        self.root().join("log")
    }

    pub fn local(&self, device: &str) -> PathBuf {
        self.root().join("local").join(device)
    }

    pub fn options(&self, device: &str) -> Options {
        Options::new(self.folder(), self.local(device), device).create()
    }

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

pub fn fields(value: Value) -> Map<String, Value> {
    match value {
        Value::Object(map) => map,
        other => panic!("no object: {other}"),
    }
}

pub fn begin_warp(journal: &mut Journal, name: &str) -> RecordId {
    let id = RecordId::new();
    let set = fields(json!({"name": name, "wound_mm": 2750, "waste_mm": 500}));
    journal.write(vec![Draft::new(Place::warp(&id), id.clone(), Kind::WARP, set)]).unwrap();
    id
}

pub fn log_sitting(journal: &mut Journal, warp: &RecordId, minutes: u32, picks: u32) -> RecordId {
    let id = RecordId::new();
    let set = fields(json!({"minutes": minutes, "picks": picks}));
    journal.write(vec![Draft::new(Place::warp(warp), id.clone(), Kind::SITTING, set)]).unwrap();
    id
}

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

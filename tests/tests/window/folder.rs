//! The content of a journal's folder, read as any program could read it.

use std::fs;
use std::path::{Path, PathBuf};

use serde_json::Value;

/// Every file below the folder.
pub fn files(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    let Ok(entries) = fs::read_dir(folder) else { return found };
    for entry in entries.flatten() {
        let path = entry.path();
        if path.is_dir() { found.extend(files(&path)) } else { found.push(path) }
    }
    found.sort();
    found
}

/// Every entry of every file that is whole JSON, in the order of files and lines.
pub fn entries(folder: &Path) -> Vec<Value> {
    files(folder)
        .iter()
        .filter(|file| file.extension().is_some_and(|ending| ending == "json"))
        .filter_map(|file| serde_json::from_slice::<Value>(&fs::read(file).ok()?).ok())
        .filter_map(|file| file.get("entries")?.as_array().cloned())
        .flatten()
        .collect()
}

/// The fields that entries of this kind set, in order.
pub fn written_fields(folder: &Path, kind: &str) -> Vec<Value> {
    entries(folder).into_iter().filter(|entry| entry["kind"] == kind).map(|entry| entry["set"].clone()).collect()
}

//! Names the sources that a warp's summary is made by, so that a memo another version left is known as such.

use std::collections::hash_map::DefaultHasher;
use std::fs;
use std::hash::{Hash, Hasher};
use std::io;
use std::path::{Path, PathBuf};

/// What a summary is made by: these crates, and the versions of all others.
const SOURCES: [&str; 5] = ["src", "../cloth/src", "../journal/src", "../projection/src", "../../../Cargo.lock"];

fn main() -> io::Result<()> {
    let mut hasher = DefaultHasher::new();
    for source in SOURCES {
        println!("cargo::rerun-if-changed={source}");
        for file in files(Path::new(source))? {
            file.hash(&mut hasher);
            fs::read(&file)?.hash(&mut hasher);
        }
    }
    println!("cargo::rustc-env=FELLMARK_SOURCES={}", hasher.finish());
    Ok(())
}

/// A file, or all files below a directory, in the order of their names.
fn files(path: &Path) -> io::Result<Vec<PathBuf>> {
    if !path.is_dir() {
        return Ok(vec![path.to_owned()]);
    }
    let mut inside: Vec<PathBuf> = fs::read_dir(path)?.map(|item| Ok(item?.path())).collect::<io::Result<_>>()?;
    inside.sort();
    let mut all = Vec::new();
    for path in inside {
        all.extend(files(&path)?);
    }
    Ok(all)
}

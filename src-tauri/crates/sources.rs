//! Names the sources that a memo is made by, so that one that another version left is known as such. For build scripts.

use std::collections::hash_map::DefaultHasher;
use std::fs;
use std::hash::{Hash, Hasher};
use std::io;
use std::path::{Path, PathBuf};

/// Tells the crate that is being built the number of these sources, as `FELLMARK_SOURCES`.
pub(crate) fn name(sources: &[&str]) -> io::Result<()> {
    let mut hasher = DefaultHasher::new();
    for source in sources {
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

//! Writing an exported file: whole or not at all, and never over another file unasked.

use std::io::{self, Write};
use std::path::{Path, PathBuf};

use tempfile::NamedTempFile;

/// What is done where a file of that name is there already.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ExistingFile {
    /// It stays, and nothing is written.
    Refuse,
    /// It is replaced: the person agreed.
    Replace,
    /// It stays, and the new file gets a number behind its name.
    NumberNewFile,
}

/// Most numbers that are tried.
const MOST_NUMBERS: u32 = 10_000;

/// Writes a file, and gives the path it has.
///
/// # Errors
/// [`io::ErrorKind::AlreadyExists`] where a file is there and is to stay; else what the system says. Nothing is left behind.
pub fn save_file(path: &Path, bytes: &[u8], existing: ExistingFile) -> io::Result<PathBuf> {
    let folder = path.parent().filter(|parent| !parent.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut file = new_file(folder)?;
    file.write_all(bytes)?;
    file.as_file().sync_all()?;
    match existing {
        ExistingFile::Replace => file.persist(path)?,
        ExistingFile::Refuse => file.persist_noclobber(path)?,
        ExistingFile::NumberNewFile => return persist_numbered(file, path),
    };
    Ok(path.to_owned())
}

/// A temporary file with the permissions that a new file of this account has.
fn new_file(folder: &Path) -> io::Result<NamedTempFile> {
    let mut builder = tempfile::Builder::new();
    builder.prefix(".fellmark-").suffix(".tmp");
    #[cfg(unix)]
    builder.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666));
    builder.tempfile_in(folder)
}

fn persist_numbered(mut file: NamedTempFile, path: &Path) -> io::Result<PathBuf> {
    for number in 1..=MOST_NUMBERS {
        let path = if number == 1 { path.to_owned() } else { numbered(path, number) };
        match file.persist_noclobber(&path) {
            Ok(_) => return Ok(path),
            Err(error) if error.error.kind() == io::ErrorKind::AlreadyExists => file = error.file,
            Err(error) => return Err(error.error),
        }
    }
    Err(io::ErrorKind::AlreadyExists.into())
}

/// `sheet.html` with the number 2 is `sheet-2.html`.
fn numbered(path: &Path, number: u32) -> PathBuf {
    let mut name = path.file_stem().unwrap_or_default().to_owned();
    name.push(format!("-{number}"));
    if let Some(ending) = path.extension() {
        name.push(".");
        name.push(ending);
    }
    path.with_file_name(name)
}

#[cfg(test)]
mod tests {
    use std::fs;
    use std::io;

    use super::{ExistingFile, save_file};

    #[test]
    fn a_file_is_replaced_only_when_that_is_agreed() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("sheet.html");
        assert_eq!(save_file(&path, b"one", ExistingFile::Refuse).unwrap(), path);
        let error = save_file(&path, b"two", ExistingFile::Refuse).unwrap_err();
        assert_eq!((error.kind(), fs::read(&path).unwrap()), (io::ErrorKind::AlreadyExists, b"one".to_vec()));
        let other = save_file(&path, b"two", ExistingFile::NumberNewFile).unwrap();
        assert_eq!(other, folder.path().join("sheet-2.html"));
        assert_eq!(
            save_file(&path, b"three", ExistingFile::NumberNewFile).unwrap(),
            folder.path().join("sheet-3.html")
        );
        save_file(&path, b"four", ExistingFile::Replace).unwrap();
        assert_eq!((fs::read(&path).unwrap(), fs::read(other).unwrap()), (b"four".to_vec(), b"two".to_vec()));
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 3);
    }

    #[test]
    fn a_failed_write_leaves_nothing() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("taken");
        fs::create_dir(&path).unwrap();
        assert!(save_file(&path, b"one", ExistingFile::Replace).is_err());
        assert!(save_file(&folder.path().join("missing/one"), b"one", ExistingFile::Refuse).is_err());
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
    }

    #[cfg(unix)]
    #[test]
    fn others_may_read_it_as_any_new_file() {
        use std::os::unix::fs::PermissionsExt;
        let folder = tempfile::tempdir().unwrap();
        fs::write(folder.path().join("usual"), "").unwrap();
        let mode = |name: &str| fs::metadata(folder.path().join(name)).unwrap().permissions().mode();
        save_file(&folder.path().join("saved"), b"", ExistingFile::Refuse).unwrap();
        assert_eq!(mode("saved"), mode("usual"));
    }
}

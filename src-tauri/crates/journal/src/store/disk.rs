//! The few file operations the journal uses, as a seam where tests can cut a save at every one of them.

use std::ffi::OsString;
use std::fmt::Debug;
use std::fs::{self, File, OpenOptions};
use std::io::{self, Read, Write};
use std::path::Path;
use std::time::SystemTime;

/// What a name in a directory stands for. Links are never followed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NodeKind {
    /// A plain file.
    File,
    /// A directory.
    Dir,
    /// A link, a pipe, a device: nothing the journal touches.
    Other,
    /// A file whose bytes a cloud client has not fetched: looking would fetch it.
    Placeholder,
}

/// What is known of a name without reading it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stat {
    /// What it is.
    pub kind: NodeKind,
    /// Its length in bytes.
    pub bytes: u64,
    /// When it was last changed.
    pub changed: Option<SystemTime>,
}

/// A file being written.
pub trait DiskFile: Send {
    /// Writes all bytes at the end.
    ///
    /// # Errors
    /// What the system says.
    fn write(&mut self, bytes: &[u8]) -> io::Result<()>;
    /// Returns when the bytes are on the disk.
    ///
    /// # Errors
    /// What the system says.
    fn sync(&mut self) -> io::Result<()>;
}

/// File operations.
///
/// # Errors
/// Each method gives what the system says.
#[allow(clippy::missing_errors_doc, reason = "said once above")]
pub trait Disk: Send + Sync + Debug {
    /// What a path stands for; links are not followed.
    fn stat(&self, path: &Path) -> io::Result<Stat>;
    /// The names in a directory.
    fn list(&self, dir: &Path) -> io::Result<Vec<(OsString, NodeKind)>>;
    /// At most `most` bytes of a plain file.
    fn read(&self, path: &Path, most: u64) -> io::Result<Vec<u8>>;
    /// Makes one directory.
    fn create_dir(&self, dir: &Path) -> io::Result<()>;
    /// Makes a new file; an error when the name is taken.
    fn create_new(&self, path: &Path) -> io::Result<Box<dyn DiskFile>>;
    /// Opens a file to write at its end, making it if need be.
    fn append(&self, path: &Path) -> io::Result<Box<dyn DiskFile>>;
    /// Makes a file empty.
    fn empty(&self, path: &Path) -> io::Result<()>;
    /// Gives a file another name, replacing what had it.
    fn rename(&self, from: &Path, to: &Path) -> io::Result<()>;
    /// Removes a file.
    fn remove(&self, path: &Path) -> io::Result<()>;
    /// Returns when the names in a directory are on the disk.
    fn sync_dir(&self, dir: &Path) -> io::Result<()>;
}

/// The system's own files.
#[derive(Debug, Clone, Copy, Default)]
pub struct SystemDisk;

struct SystemFile(File);

impl DiskFile for SystemFile {
    fn write(&mut self, bytes: &[u8]) -> io::Result<()> {
        self.0.write_all(bytes)
    }
    fn sync(&mut self) -> io::Result<()> {
        self.0.sync_all()
    }
}

impl Disk for SystemDisk {
    fn stat(&self, path: &Path) -> io::Result<Stat> {
        let meta = fs::symlink_metadata(path)?;
        Ok(Stat { kind: kind_of(&meta), bytes: meta.len(), changed: meta.modified().ok() })
    }

    fn list(&self, dir: &Path) -> io::Result<Vec<(OsString, NodeKind)>> {
        fs::read_dir(dir)?
            .map(|item| {
                let item = item?;
                let kind = item.file_type()?;
                let kind = if kind.is_dir() {
                    NodeKind::Dir
                } else if kind.is_file() {
                    NodeKind::File
                } else {
                    NodeKind::Other
                };
                Ok((item.file_name(), kind))
            })
            .collect()
    }

    fn read(&self, path: &Path, most: u64) -> io::Result<Vec<u8>> {
        // Looked at before it is opened: opening a pipe would wait for ever.
        let stat = self.stat(path)?;
        if stat.kind != NodeKind::File {
            return Err(io::Error::new(io::ErrorKind::InvalidInput, "not a plain file"));
        }
        let mut bytes = Vec::with_capacity(usize::try_from(stat.bytes.min(most)).unwrap_or(0));
        File::open(path)?.take(most).read_to_end(&mut bytes)?;
        Ok(bytes)
    }

    fn create_dir(&self, dir: &Path) -> io::Result<()> {
        fs::create_dir(dir)
    }

    fn create_new(&self, path: &Path) -> io::Result<Box<dyn DiskFile>> {
        let file = OpenOptions::new().write(true).create_new(true).open(path)?;
        Ok(Box::new(SystemFile(file)))
    }

    fn append(&self, path: &Path) -> io::Result<Box<dyn DiskFile>> {
        let file = OpenOptions::new().append(true).create(true).open(path)?;
        Ok(Box::new(SystemFile(file)))
    }

    fn empty(&self, path: &Path) -> io::Result<()> {
        OpenOptions::new().write(true).open(path)?.set_len(0)
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        fs::rename(from, to)
    }

    fn remove(&self, path: &Path) -> io::Result<()> {
        fs::remove_file(path)
    }

    fn sync_dir(&self, dir: &Path) -> io::Result<()> {
        // Only Unix lets a directory be opened and synced; elsewhere renaming is as safe as it gets.
        #[cfg(unix)]
        File::open(dir)?.sync_all()?;
        #[cfg(not(unix))]
        let _ = dir;
        Ok(())
    }
}

fn kind_of(meta: &fs::Metadata) -> NodeKind {
    if meta.is_dir() {
        NodeKind::Dir
    } else if !meta.is_file() {
        NodeKind::Other
    } else if is_placeholder(meta) {
        NodeKind::Placeholder
    } else {
        NodeKind::File
    }
}

#[cfg(target_os = "macos")]
fn is_placeholder(meta: &fs::Metadata) -> bool {
    const SF_DATALESS: u32 = 0x4000_0000;
    std::os::macos::fs::MetadataExt::st_flags(meta) & SF_DATALESS != 0
}

#[cfg(windows)]
fn is_placeholder(meta: &fs::Metadata) -> bool {
    const OFFLINE_OR_RECALL: u32 = 0x0000_1000 | 0x0004_0000 | 0x0040_0000;
    std::os::windows::fs::MetadataExt::file_attributes(meta) & OFFLINE_OR_RECALL != 0
}

#[cfg(not(any(target_os = "macos", windows)))]
fn is_placeholder(_: &fs::Metadata) -> bool {
    false
}

/// The names in a directory below the chosen folder. What stands in its place, such as a link that leads out of the
/// folder, is refused.
pub(crate) fn list_below(disk: &dyn Disk, dir: &Path) -> io::Result<Vec<(OsString, NodeKind)>> {
    if disk.stat(dir)?.kind != NodeKind::Dir {
        return Err(no_directory(dir));
    }
    disk.list(dir)
}

/// A name in the folder stands for something else than a directory.
pub(crate) fn no_directory(dir: &Path) -> io::Error {
    let name = dir.file_name().unwrap_or_default().to_string_lossy();
    io::Error::other(format!(
        "“{name}” in the folder is a link or a file, no directory; put the directory itself there"
    ))
}

/// Makes a directory that only this account may enter, and closes one that an earlier version left open: this device's own data hold
/// the same notes as a folder that may be private.
///
/// # Errors
/// What the system says.
pub fn private_dir(dir: &Path) -> std::io::Result<()> {
    let mut builder = std::fs::DirBuilder::new();
    builder.recursive(true);
    #[cfg(unix)]
    {
        use std::os::unix::fs::{DirBuilderExt, PermissionsExt};
        builder.mode(0o700).create(dir)?;
        let permissions = std::fs::metadata(dir)?.permissions();
        if permissions.mode() & 0o077 != 0 {
            std::fs::set_permissions(dir, PermissionsExt::from_mode(0o700))?;
        }
        Ok(())
    }
    #[cfg(not(unix))]
    builder.create(dir)
}

/// Writes bytes under a name so that the name always holds either what it held before or all of the bytes:
/// temporary file beside it, sync, rename, sync of the directory.
pub(crate) fn replace(disk: &dyn Disk, path: &Path, temp: &Path, bytes: &[u8]) -> io::Result<()> {
    let written = (|| {
        let mut file = disk.create_new(temp)?;
        file.write(bytes)?;
        file.sync()
    })();
    if let Err(error) = written.and_then(|()| disk.rename(temp, path)) {
        // Leaves no litter where it can be helped; a left-over is swept a day later.
        let _ = disk.remove(temp);
        return Err(error);
    }
    match path.parent() {
        Some(dir) => disk.sync_dir(dir),
        None => Ok(()),
    }
}

//! The few file operations the journal uses, as a seam where tests can cut a save at every one of them.

use std::ffi::OsString;
use std::fmt::Debug;
use std::fs::{self, File, OpenOptions};
use std::io::{self, Read, Seek, SeekFrom, Write};
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
    /// The same for a plain file that was just looked at.
    fn read_found(&self, path: &Path, stat: &Stat, most: u64) -> io::Result<Vec<u8>> {
        let _ = stat;
        self.read(path, most)
    }
    /// Looks at a name, and if it is a plain file of at most `most` bytes, puts its bytes behind `bytes`.
    fn read_unless_long(&self, path: &Path, most: u64, bytes: &mut Vec<u8>) -> io::Result<Stat> {
        let stat = self.stat(path)?;
        if stat.kind == NodeKind::File && stat.bytes <= most {
            bytes.extend_from_slice(&self.read_found(path, &stat, most)?);
        }
        Ok(stat)
    }
    /// At most `most` bytes of a plain file from a place in it on; none behind its end.
    fn read_from(&self, path: &Path, from: u64, most: u64) -> io::Result<Vec<u8>> {
        let mut bytes = self.read(path, from.saturating_add(most))?;
        bytes.drain(..usize::try_from(from).unwrap_or(usize::MAX).min(bytes.len()));
        Ok(bytes)
    }
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
        self.read_found(path, &stat, most)
    }

    fn read_found(&self, path: &Path, stat: &Stat, most: u64) -> io::Result<Vec<u8>> {
        let mut file = File::open(path)?.take(most);
        let mut bytes = vec![0; usize::try_from(stat.bytes.min(most)).unwrap_or(0) + 1];
        let mut filled = 0;
        // Most often one read brings all of it, and the room left over shows that no more came.
        while filled < bytes.len() {
            match file.read(&mut bytes[filled..]) {
                Ok(0) => break,
                Ok(count) => {
                    filled += count;
                    if filled as u64 == stat.bytes {
                        break;
                    }
                }
                Err(error) if error.kind() == io::ErrorKind::Interrupted => {}
                Err(error) => return Err(error),
            }
        }
        let grew = filled == bytes.len();
        bytes.truncate(filled);
        if grew {
            file.read_to_end(&mut bytes)?;
        }
        Ok(bytes)
    }

    #[cfg(unix)]
    fn read_unless_long(&self, path: &Path, most: u64, bytes: &mut Vec<u8>) -> io::Result<Stat> {
        use std::os::unix::fs::OpenOptionsExt;
        // A pipe is opened without waiting for its other end, a link not at all; and what is looked at is what is read.
        let opened = OpenOptions::new().read(true).custom_flags(libc::O_NONBLOCK | libc::O_NOFOLLOW).open(path);
        let Ok(file) = opened else { return self.stat(path).and_then(|stat| refused_or(stat, opened)) };
        let meta = file.metadata()?;
        let stat = Stat { kind: kind_of(&meta), bytes: meta.len(), changed: meta.modified().ok() };
        if stat.kind == NodeKind::File && stat.bytes <= most {
            // One read brings all of it, into room that nobody has to clear before.
            bytes.reserve(usize::try_from(stat.bytes).unwrap_or(0));
            file.take(stat.bytes).read_to_end(bytes)?;
        }
        Ok(stat)
    }

    fn read_from(&self, path: &Path, from: u64, most: u64) -> io::Result<Vec<u8>> {
        if self.stat(path)?.kind != NodeKind::File {
            return Err(io::Error::new(io::ErrorKind::InvalidInput, "not a plain file"));
        }
        let mut file = File::open(path)?;
        file.seek(SeekFrom::Start(from))?;
        let mut bytes = Vec::new();
        file.take(most).read_to_end(&mut bytes)?;
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

/// What is no plain file need not be opened.
#[cfg(unix)]
fn refused_or(stat: Stat, opened: io::Result<File>) -> io::Result<Stat> {
    if stat.kind == NodeKind::File { opened.map(|_| stat) } else { Ok(stat) }
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

//! The sitting that runs now: every tap is kept at once on this device, until it becomes an entry.

use std::fs::{File, OpenOptions};
use std::io::{Read, Write};
use std::path::{Path, PathBuf};
use std::sync::mpsc::{self, Sender};
use std::thread::JoinHandle;

use serde_json::Value;

use crate::error::Error;
use crate::store::disk::private_dir;

const NAME: &str = "running.lines";
/// Most bytes that are read back: some 400,000 taps.
const MAX_BYTES: u64 = 64 << 20;

/// A log of small values, only ever added to, and emptied when the sitting has become an entry. A value survives
/// a kill as soon as [`RunningLog::append`] returns, and a power cut a moment later.
#[derive(Debug)]
pub struct RunningLog {
    path: PathBuf,
    file: File,
    sync: Option<Sender<()>>,
    thread: Option<JoinHandle<()>>,
}

impl RunningLog {
    /// Opens the log in this device's own data, making it if need be.
    ///
    /// # Errors
    /// [`Error::Io`] when it cannot be made or opened.
    pub fn open(local: &Path) -> Result<Self, Error> {
        private_dir(local).map_err(Error::io("cannot make the directory", local))?;
        let path = local.join(NAME);
        let mut file = OpenOptions::new()
            .read(true)
            .append(true)
            .create(true)
            .open(&path)
            .map_err(Error::io("cannot open", &path))?;
        close_torn_line(&mut file).map_err(Error::io("cannot write", &path))?;
        let syncing = file.try_clone().map_err(Error::io("cannot open", &path))?;
        let (sync, asked) = mpsc::channel::<()>();
        let thread = std::thread::spawn(move || {
            while asked.recv().is_ok() {
                // Taps that came meanwhile are on the disk with the same sync.
                while asked.try_recv().is_ok() {}
                let _ = syncing.sync_data();
            }
        });
        Ok(Self { path, file, sync: Some(sync), thread: Some(thread) })
    }

    /// Adds a value. It survives a kill when this returns; the sync to the disk follows on a thread of its own,
    /// so that a tap never waits for the disk.
    ///
    /// # Errors
    /// [`Error::Io`] when it cannot be written.
    pub fn append(&mut self, value: &Value) -> Result<(), Error> {
        let mut line = value.to_string().into_bytes();
        line.push(b'\n');
        self.file.write_all(&line).map_err(Error::io("cannot write", &self.path))?;
        if let Some(sync) = &self.sync {
            let _ = sync.send(());
        }
        Ok(())
    }

    /// All values, in order. A last line that was torn is passed over, and so is any that is no JSON.
    ///
    /// # Errors
    /// [`Error::Io`] when it cannot be read.
    pub fn read_all(&self) -> Result<Vec<Value>, Error> {
        let mut bytes = Vec::new();
        File::open(&self.path)
            .and_then(|file| file.take(MAX_BYTES).read_to_end(&mut bytes))
            .map_err(Error::io("cannot read", &self.path))?;
        let whole = bytes.iter().rposition(|b| *b == b'\n').map_or(0, |end| end + 1);
        Ok(bytes[..whole].split(|b| *b == b'\n').filter_map(|line| serde_json::from_slice(line).ok()).collect())
    }

    /// Empties the log.
    ///
    /// # Errors
    /// [`Error::Io`] when it cannot be emptied.
    pub fn clear(&mut self) -> Result<(), Error> {
        self.file.set_len(0).map_err(Error::io("cannot empty", &self.path))?;
        if let Some(sync) = &self.sync {
            let _ = sync.send(());
        }
        Ok(())
    }
}

impl Drop for RunningLog {
    fn drop(&mut self) {
        self.sync.take();
        if let Some(thread) = self.thread.take() {
            let _ = thread.join();
        }
    }
}

/// Ends a line that a power cut left open, so that the next value does not run into it.
fn close_torn_line(file: &mut File) -> std::io::Result<()> {
    use std::io::{Seek, SeekFrom};
    if file.metadata()?.len() == 0 {
        return Ok(());
    }
    file.seek(SeekFrom::End(-1))?;
    let mut last = [0u8];
    file.read_exact(&mut last)?;
    if last[0] == b'\n' { Ok(()) } else { file.write_all(b"\n") }
}

//! File operations that can be cut, refused or recorded one by one.
#![allow(missing_docs, clippy::unwrap_used, clippy::panic)] // The names are those of the operations.

use std::ffi::OsString;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex};

use fellmark_journal::{Disk, DiskFile, NodeKind, Stat, SystemDisk};

/// What a changing operation did.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Op {
    CreateDir(PathBuf),
    CreateNew(PathBuf),
    Write(PathBuf, Vec<u8>),
    Sync(PathBuf),
    Empty(PathBuf),
    Rename(PathBuf, PathBuf),
    Remove(PathBuf),
    SyncDir(PathBuf),
}

type Refuses = Box<dyn Fn(&Path, bool) -> Option<io::ErrorKind> + Send>;

#[derive(Default)]
struct Plan {
    /// Changing operations since the count was last set to zero.
    count: usize,
    /// The process dies in this operation, halfway through if it is a write.
    die_at: Option<usize>,
    dead: bool,
    /// This operation fails once.
    fail_at: Option<(usize, io::ErrorKind)>,
    /// Paths that are refused: read (`false`) or changed (`true`).
    refuses: Option<Refuses>,
    /// Files whose bytes cannot be read.
    unreadable: Vec<PathBuf>,
    /// Files that a cloud client keeps elsewhere: reading one of them fails the test.
    placeholders: Vec<PathBuf>,
    reads: Vec<PathBuf>,
    log: Vec<Op>,
}

#[derive(Clone, Default)]
pub struct FaultyDisk {
    plan: Arc<Mutex<Plan>>,
}

impl std::fmt::Debug for FaultyDisk {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("FaultyDisk")
    }
}

fn died() -> io::Error {
    io::Error::other("the process has died")
}

impl FaultyDisk {
    pub fn new() -> Self {
        Self::default()
    }

    pub fn disk(&self) -> Arc<dyn Disk> {
        Arc::new(self.clone())
    }

    /// From now on the process dies in operation `at`, counted from 0.
    pub fn die_at(&self, at: usize) {
        let mut plan = self.plan.lock().unwrap();
        (plan.count, plan.die_at) = (0, Some(at));
    }

    /// From now on operation `at` fails, once.
    pub fn fail_at(&self, at: usize, kind: io::ErrorKind) {
        let mut plan = self.plan.lock().unwrap();
        (plan.count, plan.fail_at) = (0, Some((at, kind)));
    }

    /// From now on paths are refused as instructed; `true` asks whether one may be changed.
    pub fn refuse(&self, refuses: impl Fn(&Path, bool) -> Option<io::ErrorKind> + Send + 'static) {
        self.plan.lock().unwrap().refuses = Some(Box::new(refuses));
    }

    pub fn is_unreadable(&self, path: &Path) {
        self.plan.lock().unwrap().unreadable.push(path.to_owned());
    }

    pub fn is_placeholder(&self, path: &Path) {
        self.plan.lock().unwrap().placeholders.push(path.to_owned());
    }

    pub fn allow_all(&self) {
        self.plan.lock().unwrap().refuses = None;
    }

    pub fn is_dead(&self) -> bool {
        self.plan.lock().unwrap().dead
    }

    /// Changing operations since the last `die_at` or `fail_at`.
    pub fn count(&self) -> usize {
        self.plan.lock().unwrap().count
    }

    pub fn take_log(&self) -> Vec<Op> {
        std::mem::take(&mut self.plan.lock().unwrap().log)
    }

    /// Files read since the last call.
    pub fn take_reads(&self) -> Vec<PathBuf> {
        std::mem::take(&mut self.plan.lock().unwrap().reads)
    }

    fn look(&self, path: &Path) -> io::Result<()> {
        let plan = self.plan.lock().unwrap();
        if plan.dead {
            return Err(died());
        }
        match plan.refuses.as_ref().and_then(|refuses| refuses(path, false)) {
            Some(kind) => Err(kind.into()),
            None => Ok(()),
        }
    }

    /// Whether to go on with a changing operation; `Ok(false)` means: halfway, then die.
    fn change(&self, op: Op) -> io::Result<bool> {
        let mut plan = self.plan.lock().unwrap();
        let path = match &op {
            Op::CreateDir(p) | Op::CreateNew(p) | Op::Write(p, _) | Op::Sync(p) | Op::Empty(p) => p,
            Op::Rename(_, p) | Op::Remove(p) | Op::SyncDir(p) => p,
        };
        if plan.dead {
            return Err(died());
        }
        // The shadow is synced on a thread of its own, at no fixed moment: it is not counted.
        if matches!(&op, Op::Sync(path) if path.ends_with("shadow.lines")) {
            return Ok(true);
        }
        if let Some(kind) = plan.refuses.as_ref().and_then(|refuses| refuses(path, true)) {
            return Err(kind.into());
        }
        let at = plan.count;
        plan.count += 1;
        if plan.die_at == Some(at) {
            plan.dead = true;
            return Ok(false);
        }
        if let Some((_, kind)) = plan.fail_at.filter(|(fail_at, _)| *fail_at == at) {
            return Err(kind.into());
        }
        plan.log.push(op);
        Ok(true)
    }

    fn whole(&self, op: Op, act: impl FnOnce() -> io::Result<()>) -> io::Result<()> {
        if self.change(op)? { act() } else { Err(died()) }
    }
}

struct FaultyFile {
    path: PathBuf,
    file: Box<dyn DiskFile>,
    disk: FaultyDisk,
}

impl DiskFile for FaultyFile {
    fn write(&mut self, bytes: &[u8]) -> io::Result<()> {
        if self.disk.change(Op::Write(self.path.clone(), bytes.to_vec()))? {
            return self.file.write(bytes);
        }
        self.file.write(&bytes[..bytes.len() / 2])?;
        Err(died())
    }
    fn sync(&mut self) -> io::Result<()> {
        if self.disk.change(Op::Sync(self.path.clone()))? { self.file.sync() } else { Err(died()) }
    }
}

impl Disk for FaultyDisk {
    fn stat(&self, path: &Path) -> io::Result<Stat> {
        self.look(path)?;
        let stat = SystemDisk.stat(path)?;
        let placeholder = self.plan.lock().unwrap().placeholders.iter().any(|other| other == path);
        Ok(if placeholder { Stat { kind: NodeKind::Placeholder, ..stat } } else { stat })
    }
    fn list(&self, dir: &Path) -> io::Result<Vec<(OsString, NodeKind)>> {
        self.look(dir)?;
        SystemDisk.list(dir)
    }
    fn read(&self, path: &Path, most: u64) -> io::Result<Vec<u8>> {
        self.look(path)?;
        let placeholder = self.plan.lock().unwrap().placeholders.iter().any(|other| other == path);
        assert!(!placeholder, "{} was read", path.display());
        self.plan.lock().unwrap().reads.push(path.to_owned());
        if self.plan.lock().unwrap().unreadable.iter().any(|other| other == path) {
            return Err(io::Error::from_raw_os_error(5));
        }
        SystemDisk.read(path, most)
    }
    fn create_dir(&self, dir: &Path) -> io::Result<()> {
        self.whole(Op::CreateDir(dir.to_owned()), || SystemDisk.create_dir(dir))
    }
    fn create_new(&self, path: &Path) -> io::Result<Box<dyn DiskFile>> {
        if !self.change(Op::CreateNew(path.to_owned()))? {
            return Err(died());
        }
        let file = SystemDisk.create_new(path)?;
        Ok(Box::new(FaultyFile { path: path.to_owned(), file, disk: self.clone() }))
    }
    fn append(&self, path: &Path) -> io::Result<Box<dyn DiskFile>> {
        self.look(path)?;
        let file = SystemDisk.append(path)?;
        Ok(Box::new(FaultyFile { path: path.to_owned(), file, disk: self.clone() }))
    }
    fn empty(&self, path: &Path) -> io::Result<()> {
        self.whole(Op::Empty(path.to_owned()), || SystemDisk.empty(path))
    }
    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        self.whole(Op::Rename(from.to_owned(), to.to_owned()), || SystemDisk.rename(from, to))
    }
    fn remove(&self, path: &Path) -> io::Result<()> {
        self.whole(Op::Remove(path.to_owned()), || SystemDisk.remove(path))
    }
    fn sync_dir(&self, dir: &Path) -> io::Result<()> {
        self.whole(Op::SyncDir(dir.to_owned()), || SystemDisk.sync_dir(dir))
    }
}

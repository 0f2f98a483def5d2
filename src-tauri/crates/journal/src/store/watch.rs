//! Watching the folder: something changed, look there again.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{self, Receiver, RecvTimeoutError};
use std::time::{Duration, Instant};

use notify::{Config, Event, EventKind, PollWatcher, RecommendedWatcher, RecursiveMode, Watcher as _};

use crate::error::Error;

/// Changes are reported when nothing more has come for this long …
const QUIET: Duration = Duration::from_millis(200);
/// … or when the first has waited this long.
const LONGEST: Duration = Duration::from_secs(1);
/// How often a folder that cannot report changes is looked at.
const POLL: Duration = Duration::from_secs(5);
/// More paths than this are reported as "all of it".
const PATHS_MAX: usize = 500;

/// Watches a folder until it is dropped.
pub struct Watcher {
    inner: Option<Inner>,
    thread: Option<std::thread::JoinHandle<()>>,
    polls: bool,
}

#[allow(dead_code, reason = "held for what dropping it does")]
enum Inner {
    Told(RecommendedWatcher),
    Polled(PollWatcher),
}

impl Watcher {
    /// Whether the folder is looked at every few seconds, because its file system does not report changes.
    #[must_use]
    pub fn polls(&self) -> bool {
        self.polls
    }
}

impl std::fmt::Debug for Watcher {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Watcher").field("polls", &self.polls).finish_non_exhaustive()
    }
}

impl Drop for Watcher {
    fn drop(&mut self) {
        self.inner.take();
        if let Some(thread) = self.thread.take()
            && thread.thread().id() != std::thread::current().id()
        {
            let _ = thread.join();
        }
    }
}

/// Watches a folder and all below it. `on_change` is called, on a thread of its own, with the paths that changed,
/// gathered for a moment; with none when the system lost count: then all is to be looked at.
///
/// # Errors
/// [`Error::Watch`] when the folder can neither be watched nor looked at.
pub fn watch(folder: &Path, on_change: impl Fn(Vec<PathBuf>) + Send + 'static) -> Result<Watcher, Error> {
    let (sender, receiver) = mpsc::channel::<notify::Result<Event>>();
    let failed = |error: notify::Error| Error::Watch { folder: folder.to_owned(), why: error.to_string() };
    let mut inner = None;
    if !is_on_network(folder) {
        let sender = sender.clone();
        let started = RecommendedWatcher::new(move |event| drop(sender.send(event)), Config::default())
            .and_then(|mut watcher| watcher.watch(folder, RecursiveMode::Recursive).map(|()| watcher));
        // At the system's limit of watches the folder is looked at instead.
        inner = started.ok().map(Inner::Told);
    }
    let (inner, polls) = match inner {
        Some(inner) => (inner, false),
        None => {
            let config = Config::default().with_poll_interval(POLL);
            let mut watcher = PollWatcher::new(move |event| drop(sender.send(event)), config).map_err(failed)?;
            watcher.watch(folder, RecursiveMode::Recursive).map_err(failed)?;
            (Inner::Polled(watcher), true)
        }
    };
    let thread = std::thread::spawn(move || gather(&receiver, on_change));
    Ok(Watcher { inner: Some(inner), thread: Some(thread), polls })
}

/// What a run of events amounts to.
#[derive(Default)]
struct Gathered {
    paths: BTreeSet<PathBuf>,
    all: bool,
}

impl Gathered {
    fn take(&mut self, event: notify::Result<Event>) {
        match event {
            Ok(event) if event.need_rescan() => self.all = true,
            Ok(event) if matches!(event.kind, EventKind::Access(_)) => {}
            Ok(event) => self.paths.extend(event.paths.into_iter().filter(|path| !is_hidden(path))),
            Err(_) => self.all = true,
        }
        self.all |= self.paths.len() > PATHS_MAX;
    }

    fn is_empty(&self) -> bool {
        !self.all && self.paths.is_empty()
    }

    fn into_paths(self) -> Vec<PathBuf> {
        if self.all { Vec::new() } else { self.paths.into_iter().collect() }
    }
}

fn gather(receiver: &Receiver<notify::Result<Event>>, on_change: impl Fn(Vec<PathBuf>)) {
    while let Ok(first) = receiver.recv() {
        let mut gathered = Gathered::default();
        gathered.take(first);
        let began = Instant::now();
        let ended = loop {
            if began.elapsed() >= LONGEST {
                break false;
            }
            match receiver.recv_timeout(QUIET) {
                Ok(event) => gathered.take(event),
                Err(RecvTimeoutError::Timeout) => break false,
                Err(RecvTimeoutError::Disconnected) => break true,
            }
        };
        if !gathered.is_empty() {
            on_change(gathered.into_paths());
        }
        if ended {
            return;
        }
    }
}

fn is_hidden(path: &Path) -> bool {
    path.file_name().is_some_and(|name| name.as_encoded_bytes().starts_with(b"."))
}

/// Whether the folder lies on a file system that does not report what other machines change.
#[cfg(target_os = "linux")]
fn is_on_network(folder: &Path) -> bool {
    const TYPES: [&str; 12] = [
        "nfs",
        "nfs4",
        "cifs",
        "smb3",
        "smbfs",
        "9p",
        "afs",
        "ceph",
        "fuse.sshfs",
        "fuse.rclone",
        "fuse.davfs",
        "virtiofs",
    ];
    let Ok(folder) = folder.canonicalize() else { return false };
    let Ok(mounts) = std::fs::read_to_string("/proc/self/mountinfo") else { return false };
    // "36 35 98:0 / /mount/point rw,noatime shared:1 - type source options"; the longest mount point that
    // holds the folder is its own.
    let mut best: Option<(usize, bool)> = None;
    for line in mounts.lines() {
        let Some((before, after)) = line.split_once(" - ") else { continue };
        let Some(point) = before.split(' ').nth(4) else { continue };
        let point = point.replace("\\040", " ");
        let Some(kind) = after.split(' ').next() else { continue };
        if folder.starts_with(&point) && best.is_none_or(|(length, _)| point.len() >= length) {
            best = Some((point.len(), TYPES.contains(&kind)));
        }
    }
    best.is_some_and(|(_, network)| network)
}

#[cfg(not(target_os = "linux"))]
fn is_on_network(_: &Path) -> bool {
    false
}

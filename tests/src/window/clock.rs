//! A clock that a test sets forward while the window stands: libfaketime answers the program when it asks for the time of day. How
//! long something takes is not touched, nor are WebKit's own processes.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use tempfile::TempDir;

/// A clock that goes right until it is set forward.
pub struct Clock {
    dir: TempDir,
    minutes: std::cell::Cell<u32>,
}

impl Clock {
    /// The machine's time.
    #[allow(clippy::new_without_default)]
    pub fn new() -> Self {
        let dir = tempfile::tempdir().expect("a temporary folder can be made");
        let clock = Self { dir, minutes: std::cell::Cell::new(0) };
        clock.forward(0);
        clock
    }

    pub(super) fn file(&self) -> PathBuf {
        self.dir.path().join("clock")
    }

    /// So many minutes go by at once.
    pub fn forward(&self, minutes: u32) {
        self.minutes.set(self.minutes.get() + minutes);
        // In one step: the program may read it at any moment.
        let next = self.dir.path().join("next");
        fs::write(&next, format!("+{}m\n", self.minutes.get())).expect("a temporary folder can be written");
        fs::rename(next, self.file()).expect("a temporary folder can be written");
    }
}

/// Has a command and what it starts ask this clock.
pub(super) fn surround(command: &mut Command, file: &Path) {
    command
        .env("LD_PRELOAD", faketime_library())
        .env("FAKETIME_TIMESTAMP_FILE", file)
        .env("FAKETIME_NO_CACHE", "1")
        .env("FAKETIME_DONT_FAKE_MONOTONIC", "1")
        .env("FAKETIME_ONLY_CMDS", "fellmark");
}

/// The library that answers a program when it asks for the time of day.
pub fn faketime_library() -> PathBuf {
    let folders = fs::read_dir("/usr/lib").expect("/usr/lib can be read").flatten().map(|entry| entry.path());
    let mut found = folders.map(|folder| folder.join("faketime/libfaketime.so.1")).filter(|path| path.is_file());
    found.next().expect("libfaketime is installed")
}

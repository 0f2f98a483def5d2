//! The command line, driven from outside on a day that is given.
#![allow(clippy::expect_used, clippy::panic)]

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use chrono::NaiveDate;
use serde_json::Value;
use tempfile::TempDir;

use crate::window::{command_line, faketime_library};

/// The day on which tests run the programs, unless they say another.
#[must_use]
pub fn today() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 11, 25).expect("a day of the calendar")
}

/// A device with a home, data and a copy of the folder of its own.
pub struct CommandLineDevice {
    home: TempDir,
    name: String,
    folder: PathBuf,
    today: Option<NaiveDate>,
    clock: Option<String>,
    time_zone: Option<&'static str>,
}

impl CommandLineDevice {
    /// A device of this name, on [`today`].
    #[must_use]
    pub fn new(name: &str) -> Self {
        let home = tempfile::tempdir().expect("a temporary folder can be made");
        let folder = home.path().join("folder");
        Self { home, name: name.to_owned(), folder, today: Some(today()), clock: None, time_zone: None }
    }

    /// A device of this name that uses this folder.
    #[must_use]
    pub fn on(name: &str, folder: &Path) -> Self {
        Self { folder: folder.to_owned(), ..Self::new(name) }
    }

    /// Its home directory.
    #[must_use]
    pub fn home(&self) -> &Path {
        self.home.path()
    }

    /// Its copy of the folder.
    #[must_use]
    pub fn folder(&self) -> PathBuf {
        self.folder.clone()
    }

    /// From now on the program asks this day's date, or the machine's where there is none.
    pub fn set_today(&mut self, today: Option<NaiveDate>) {
        self.today = today;
    }

    /// From now on the program's clock shows this time: `+2d`, or `@2026-11-25 23:50:00`, as faketime reads it.
    pub fn set_clock(&mut self, clock: Option<&str>) {
        self.clock = clock.map(str::to_owned);
    }

    /// From now on the program is in this time zone: `Europe/Berlin`.
    pub fn set_time_zone(&mut self, zone: &'static str) {
        self.time_zone = Some(zone);
    }

    /// The program with these arguments, to be started.
    #[must_use]
    pub fn command(&self, arguments: &[&str]) -> Command {
        let mut command = Command::new(command_line());
        command.arg("--folder").arg(self.folder()).args(["--create-folder", "--device", &self.name]);
        if let Some(today) = self.today {
            command.args(["--today", &today.to_string()]);
        }
        command
            .args(arguments)
            .env("HOME", self.home())
            .env("XDG_DATA_HOME", self.home().join("data"))
            .env("LC_ALL", "en_GB.UTF-8")
            .env_remove("FELLMARK_FOLDER");
        if let Some(clock) = &self.clock {
            command.env("LD_PRELOAD", faketime_library()).env("FAKETIME", clock);
        }
        if let Some(zone) = self.time_zone {
            command.env("TZ", zone);
        }
        command
    }

    /// Runs the program.
    #[must_use]
    pub fn run(&self, arguments: &[&str]) -> Output {
        self.command(arguments).output().expect("fell starts")
    }

    /// What it answers to a program; a command that fails fails the test.
    pub fn json(&self, arguments: &[&str]) -> Value {
        let output = self.run(&[&["--json"], arguments].concat());
        assert!(output.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
        serde_json::from_slice(&output.stdout).expect("fell writes JSON")
    }

    /// What it answers to a person; a command that fails fails the test.
    pub fn text(&self, arguments: &[&str]) -> String {
        let output = self.run(arguments);
        assert!(output.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
        String::from_utf8(output.stdout).expect("fell writes UTF-8")
    }

    /// What it says when it ends with this code.
    pub fn refused(&self, arguments: &[&str], code: i32) -> String {
        let output = self.run(arguments);
        assert_eq!(output.status.code(), Some(code), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
        String::from_utf8(output.stderr).expect("fell writes UTF-8")
    }
}

/// Runs `fell` on the folder below a home, on [`today`].
#[must_use]
pub fn run(home: &Path, arguments: &[&str]) -> Output {
    let folder = home.join("folder");
    run_with(home, &["--folder", &folder.to_string_lossy()], arguments)
}

/// Runs `fell` with these options, which name the folder, on [`today`].
#[must_use]
pub fn run_with(home: &Path, options: &[&str], arguments: &[&str]) -> Output {
    Command::new(command_line())
        .args(options)
        .args(["--create-folder", "--today", &today().to_string()])
        .args(arguments)
        .env("HOME", home)
        .env("XDG_DATA_HOME", home.join("data"))
        .env("LC_ALL", "en_GB.UTF-8")
        .env_remove("FELLMARK_FOLDER")
        .output()
        .expect("fell starts")
}

/// What it answers to a program; a command that fails fails the test.
pub fn json_of(home: &Path, arguments: &[&str]) -> Value {
    let output = run(home, &[&["--json"], arguments].concat());
    assert!(output.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    serde_json::from_slice(&output.stdout).expect("fell writes JSON")
}

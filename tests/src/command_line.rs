//! The command line, driven from outside on a day that is given.
#![allow(clippy::expect_used, clippy::panic)]

use std::path::Path;
use std::process::{Command, Output};

use serde_json::Value;

use crate::window::command_line;

/// Runs `fell` on the folder below a home, on 25 November 2026.
#[must_use]
pub fn run(home: &Path, arguments: &[&str]) -> Output {
    Command::new(command_line())
        .arg("--folder")
        .arg(home.join("folder"))
        .args(["--today", "2026-11-25"])
        .args(arguments)
        .env("HOME", home)
        .env("XDG_DATA_HOME", home.join("data"))
        .env("LC_ALL", "en_GB.UTF-8")
        .env_remove("FELLMARK_FOLDER")
        .output()
        .expect("fell starts")
}

/// What it tells a program; a deed that fails fails the test.
pub fn told(home: &Path, arguments: &[&str]) -> Value {
    let output = run(home, &[&["--json"], arguments].concat());
    assert!(output.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    serde_json::from_slice(&output.stdout).expect("fell tells JSON")
}

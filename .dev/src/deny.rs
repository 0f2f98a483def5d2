//! Licences, sources and bans of all libraries, by `cargo deny`.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use crate::step::{self, StepResult};

const VERSION: &str = "0.20.2";

/// Checks every library against `.cargo/deny.toml`; known vulnerabilities too, where their database can be fetched.
pub fn check() -> StepResult {
    let program = program()?;
    let deny = |words: &[&str]| {
        let mut deny = Command::new(&program);
        deny.current_dir(step::top()).args(words).stdin(Stdio::null());
        deny
    };
    step::run(&mut deny(&["--log-level", "error", "check", "bans", "licenses", "sources"]))?;
    let fetched = deny(&["--log-level", "off", "fetch", "db"]).stderr(Stdio::null()).status();
    if fetched.is_ok_and(|status| status.success()) {
        step::run(&mut deny(&["--log-level", "error", "check", "--disable-fetch", "advisories"]))
    } else {
        println!("NOT CHECKED: known vulnerabilities; the RustSec database cannot be fetched from here.");
        Ok(())
    }
}

/// The program: one that is installed, else one built once into `target/tools`, which takes three minutes on two cores.
fn program() -> Result<PathBuf, String> {
    let is_right = |program: &Path| {
        let answer = Command::new(program).arg("--version").stderr(Stdio::null()).output();
        answer.is_ok_and(|answer| String::from_utf8_lossy(&answer.stdout).trim_end().ends_with(VERSION))
    };
    let installed = PathBuf::from("cargo-deny");
    if is_right(&installed) {
        return Ok(installed);
    }
    let tools = step::target().join("tools");
    let built = tools.join("bin/cargo-deny");
    if !is_right(&built) {
        let mut install = Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
        install.args(["install", "cargo-deny", "--version", VERSION, "--locked", "--quiet", "--root"]);
        step::run(install.arg(&tools).env("CARGO_TARGET_DIR", tools.join("build")))?;
    }
    Ok(built)
}

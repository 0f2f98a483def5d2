//! Running other programs, each failure reported in a sentence.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// What a command of this program ends with: nothing, or why it could not be done.
pub type StepResult = Result<(), String>;

/// The repository's top folder.
pub fn top() -> PathBuf {
    let own = Path::new(env!("CARGO_MANIFEST_DIR"));
    own.parent().unwrap_or(own).to_owned()
}

/// Where cargo builds.
pub fn target() -> PathBuf {
    std::env::var_os("CARGO_TARGET_DIR").map_or_else(|| top().join("target"), |set| top().join(set))
}

/// The cargo that started this program, in the repository's top folder, with its arguments.
///
/// In a continuous-integration run the lock file must already be right.
pub fn cargo(command: &str, words: &[&str]) -> Command {
    let mut cargo = Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    cargo.current_dir(top()).arg(command);
    if std::env::var_os("CI").is_some() && command != "fmt" {
        cargo.arg("--locked");
    }
    cargo.args(words).stdin(Stdio::null());
    cargo
}

/// Runs a program to its end.
pub fn run(command: &mut Command) -> StepResult {
    let name = written(command);
    let status = command.status().map_err(|error| format!("{name} could not be started: {error}"))?;
    if status.success() { Ok(()) } else { Err(format!("{name} failed ({status})")) }
}

/// The command as one would type it.
pub fn written(command: &Command) -> String {
    let mut line = Path::new(command.get_program()).file_name().unwrap_or_default().to_string_lossy().into_owned();
    for word in command.get_args() {
        line.push(' ');
        line.push_str(&word.to_string_lossy());
    }
    line
}

/// Whether a program of this name is on the path.
pub fn on_path(program: &str) -> bool {
    std::env::var_os("PATH").is_some_and(|path| std::env::split_paths(&path).any(|dir| dir.join(program).is_file()))
}

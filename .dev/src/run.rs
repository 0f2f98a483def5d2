//! The main job: the window.

use crate::setup::{self, Purpose};
use crate::step::{self, StepResult};

const NO_DISPLAY: &str = "
This machine has no display, so the window cannot be shown here. It was built all the same.
What works without a display:
  ./dev pictures                            drives the real window out of sight and writes docs/pictures
  cargo run --release -p fellmark-cli -- help    the command line `fell`: the same log and the same three answers
";

/// Builds and opens the window, on a folder if one is given.
pub fn run(words: &[String]) -> StepResult {
    setup::setup(Purpose::Window)?;
    let seen = |name| std::env::var_os(name).is_some_and(|value| !value.is_empty());
    if cfg!(target_os = "linux") && !seen("DISPLAY") && !seen("WAYLAND_DISPLAY") {
        step::run(&mut step::cargo("build", &["--release", "-p", "fellmark"]))?;
        println!("{NO_DISPLAY}");
        return Ok(());
    }
    let mut cargo = step::cargo("run", &["--release", "-p", "fellmark", "--"]);
    // A folder is meant from where the weaver stands, not from the repository's top.
    if let Some(folder) = words.first() {
        cargo.arg("--folder").arg(std::path::absolute(folder).unwrap_or_else(|_| folder.into()));
    }
    step::run(&mut cargo)
}

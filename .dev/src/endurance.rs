//! What takes long and runs on demand: a long day at the loom, and kills at random moments.

use crate::bench;
use crate::setup::{self, Purpose};
use crate::step::{self, StepResult};

/// A long day at the loom at speed, in the window of the release program.
pub fn soak(words: &[String]) -> StepResult {
    setup::setup(Purpose::Tests)?;
    let program = bench::build(None)?;
    step::run(&mut step::cargo("build", &["--workspace", "--bins"]))?;
    let hours = words.first().map_or("8", String::as_str);
    let mut soak = step::cargo("run", &["--workspace", "--bin", "soak", "--", hours]);
    step::run(soak.arg(program).env("FELLMARK_BUILT", "yes"))
}

/// Kills a writing process at random moments and looks for what it had acknowledged.
pub fn kills(words: &[String]) -> StepResult {
    let mut kills = step::cargo("run", &["--release", "-p", "fellmark-tests", "--bin", "kills", "--"]);
    step::run(kills.args(words))
}

//! Every check and test, in one order, with nothing compiled twice.

use std::io::{BufRead, BufReader};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use crate::deny;
use crate::setup::{self, Purpose};
use crate::step::{self, StepResult};

/// All of it. Quick checks come first; `--workspace` everywhere keeps the dependencies' features, and so their builds, the same.
pub fn test() -> StepResult {
    let mut times = Times::default();
    times.step("set-up", || setup::setup(Purpose::Tests))?;
    times.step("format", || step::run(&mut step::cargo("fmt", &["--all", "--check"])))?;
    times.step("interface", interface)?;
    times.step("dependencies", deny::check)?;
    times.step("clippy", || {
        step::run(&mut step::cargo("clippy", &["--workspace", "--all-targets", "--", "-D", "warnings"]))
    })?;
    times.step("documentation", || {
        step::run(step::cargo("doc", &["--workspace", "--no-deps"]).env("RUSTDOCFLAGS", "-D warnings"))
    })?;
    times.step("build", build)?;
    let mut sum = Sum::default();
    let outcome = times.step("tests", || {
        let mut cargo = step::cargo("test", &["--workspace", "--no-fail-fast"]);
        counted(cargo.env("FELLMARK_BUILT", "yes"), &mut sum)
    });
    println!("\n{}", times.written());
    println!("{} passed, {} failed", sum.passed, sum.failed);
    outcome?;
    if sum.passed == 0 { Err("no test ran".to_owned()) } else { Ok(()) }
}

/// The format and the types of the interface. Its checkers are installed anew only when their lock file is newer.
fn interface() -> StepResult {
    let folder = step::top().join("tests/ui");
    let changed = |name: &str| folder.join(name).metadata().and_then(|data| data.modified()).ok();
    let npm = |words: &[&str]| {
        let mut npm = Command::new("npm");
        npm.current_dir(&folder).args(words).stdin(Stdio::null());
        npm
    };
    if changed("node_modules/.package-lock.json") < changed("package-lock.json") {
        step::run(&mut npm(&["ci", "--loglevel=error"]))?;
    }
    step::run(&mut npm(&["run", "--silent", "check"]))
}

/// Builds the programs beside the tests, with the tests' own features, for the tests that drive programs.
pub fn build() -> StepResult {
    step::run(&mut step::cargo("build", &["--workspace", "--bins", "--tests"]))
}

/// Runs the tests, shows what they print, and adds up their closing lines.
fn counted(command: &mut Command, sum: &mut Sum) -> StepResult {
    let name = step::written(command);
    let reported = |error: std::io::Error| format!("{name}: {error}");
    let mut child = command.stdout(Stdio::piped()).spawn().map_err(reported)?;
    if let Some(printed) = child.stdout.take() {
        for line in BufReader::new(printed).split(b'\n') {
            let line = String::from_utf8_lossy(&line.map_err(reported)?).into_owned();
            println!("{line}");
            sum.add(&line);
        }
    }
    let status = child.wait().map_err(reported)?;
    if status.success() { Ok(()) } else { Err(format!("{name} failed ({status})")) }
}

#[derive(Default)]
struct Sum {
    passed: u64,
    failed: u64,
}

impl Sum {
    /// Takes in a line like `test result: ok. 12 passed; 0 failed; …`.
    fn add(&mut self, line: &str) {
        let Some(result) = line.strip_prefix("test result: ") else {
            return;
        };
        for part in result.split(['.', ';']) {
            let mut words = part.split_whitespace();
            let count = words.next().and_then(|word| word.parse::<u64>().ok());
            match (count, words.next()) {
                (Some(count), Some("passed")) => self.passed += count,
                (Some(count), Some("failed")) => self.failed += count,
                _ => {}
            }
        }
    }
}

#[derive(Default)]
struct Times(Vec<(&'static str, Duration)>);

impl Times {
    fn step(&mut self, name: &'static str, work: impl FnOnce() -> StepResult) -> StepResult {
        println!("== {name}");
        let start = Instant::now();
        let outcome = work();
        self.0.push((name, start.elapsed()));
        outcome
    }

    fn written(&self) -> String {
        let total: Duration = self.0.iter().map(|(_, time)| *time).sum();
        let steps: Vec<String> = self.0.iter().map(|(name, time)| format!("{name} {} s", time.as_secs())).collect();
        format!("{}; {} s in all", steps.join(", "), total.as_secs())
    }
}

#[cfg(test)]
mod tests {
    use super::Sum;

    #[test]
    fn closing_lines_are_added_up() {
        let mut sum = Sum::default();
        sum.add("test result: ok. 12 passed; 0 failed; 0 ignored; 0 measured; 0 filtered out; finished in 0.04s");
        sum.add("test result: FAILED. 3 passed; 2 failed; 0 ignored; 0 measured; 1 filtered out; finished in 1.20s");
        sum.add("running 4 tests");
        assert_eq!((sum.passed, sum.failed), (15, 2));
    }
}

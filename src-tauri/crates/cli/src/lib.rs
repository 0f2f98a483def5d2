//! The command line: the same log as in the window, through the same session.

mod args;
mod commands;
mod output;

use std::process::ExitCode;

use clap::{CommandFactory, Parser};

use crate::args::Args;
use crate::output::Outcome;

/// Runs the command that the program's arguments name, and gives its exit code.
#[must_use]
pub fn run_with_arguments() -> ExitCode {
    let args = match Args::try_parse() {
        Ok(args) => args,
        Err(error) => {
            let asked_for_help = !error.use_stderr();
            // Where standard output is closed there is nobody to report to.
            let _ = error.print();
            return if asked_for_help { ExitCode::SUCCESS } else { Outcome::BadInput.code() };
        }
    };
    let json = args.json;
    match commands::run(args) {
        Ok(output) => output.print(json),
        Err(failure) => failure.print(json),
    }
}

/// The arguments of the program, for its manual page and the completions of shells.
#[must_use]
pub fn arguments() -> clap::Command {
    Args::command()
}

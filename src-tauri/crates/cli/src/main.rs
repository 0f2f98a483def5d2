//! The command line: the same log as in the window, through the same crates.

mod arguments;
mod deeds;
mod plan;
mod say;
mod words;

use std::process::ExitCode;

use clap::Parser;

use crate::say::Outcome;
use crate::words::Words;

fn main() -> ExitCode {
    let words = match Words::try_parse() {
        Ok(words) => words,
        Err(error) => {
            let asked_for_help = !error.use_stderr();
            // Where standard output is closed there is nobody to tell.
            let _ = error.print();
            return if asked_for_help { ExitCode::SUCCESS } else { Outcome::BadInput.code() };
        }
    };
    let json = words.json;
    match deeds::run(words) {
        Ok(said) => said.print(json),
        Err(failure) => failure.print(json),
    }
}

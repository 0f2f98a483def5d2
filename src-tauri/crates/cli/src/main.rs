//! The program `fell`.

use std::process::ExitCode;

fn main() -> ExitCode {
    fellmark_cli::run_with_arguments()
}

//! The program that opens the window.

#![cfg_attr(not(debug_assertions), windows_subsystem = "windows")]

use std::process::ExitCode;

fn main() -> ExitCode {
    fellmark_window::run_with_arguments()
}

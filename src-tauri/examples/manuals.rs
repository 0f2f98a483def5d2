//! Writes the manual pages of both programs and the shell completions of `fell`, for packages: `manuals FOLDER`.

use std::error::Error;
use std::fs;
use std::path::{Path, PathBuf};

use clap::Command;
use clap_complete::Shell;

fn main() -> Result<(), Box<dyn Error>> {
    let folder = PathBuf::from(std::env::args_os().nth(1).ok_or("Name the folder to write to.")?);
    fs::create_dir_all(&folder)?;
    write_pages(fellmark_window::arguments(), &folder)?;
    write_pages(fellmark_cli::arguments(), &folder)?;
    let mut fell = fellmark_cli::arguments();
    for shell in [Shell::Bash, Shell::Zsh, Shell::Fish] {
        clap_complete::generate_to(shell, &mut fell, "fell", &folder)?;
    }
    Ok(())
}

/// Writes the program's page, and one for each of its commands.
fn write_pages(program: Command, folder: &Path) -> Result<(), Box<dyn Error>> {
    clap_mangen::generate_to(program, folder)?;
    Ok(())
}

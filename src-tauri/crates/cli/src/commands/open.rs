//! Opening the folder.

use std::io::IsTerminal;
use std::path::{Path, PathBuf};

use fellmark_journal::Error;
use fellmark_model::display_format::DisplayFormat;
use fellmark_model::display_text::display_text;
use fellmark_session::{DeviceClock, OpenOptions, Session};
use sha2::{Digest, Sha256};

use crate::args::{Args, Command};
use crate::output::{Failure, Output};

/// Where this device keeps its own data for this folder.
fn local_folder(args: &Args) -> Result<PathBuf, Failure> {
    if let Some(local) = &args.local {
        return Ok(local.clone());
    }
    let Some(directories) = directories::ProjectDirs::from("", "", "fellmark") else {
        return Err(Failure::folder(
            "This account has no home folder to keep a device's data in. Give one with --local.",
        ));
    };
    let folder = args.folder.canonicalize().or_else(|_| std::path::absolute(&args.folder));
    let folder = folder.unwrap_or_else(|_| args.folder.clone());
    let mut hash = Sha256::new();
    hash.update(args.device.as_bytes());
    hash.update([0]);
    hash.update(folder.as_os_str().as_encoded_bytes());
    let digest = hash.finalize();
    let name: String = digest.iter().take(8).map(|byte| format!("{byte:02x}")).collect();
    Ok(directories.data_local_dir().join("command-line").join(name))
}

/// How the reader's locale and the arguments write figures.
fn format(args: &Args) -> DisplayFormat {
    let locale = args.locale.clone().or_else(|| {
        ["LC_ALL", "LC_TIME", "LANG"].iter().find_map(|name| std::env::var(name).ok().filter(|tag| !tag.is_empty()))
    });
    locale.map(|tag| DisplayFormat::of_locale(&tag)).unwrap_or_default()
}

fn clock(args: &Args) -> DeviceClock {
    args.today.map_or_else(DeviceClock::default, DeviceClock::on)
}

/// The answer to a plan that needs no log, where there is none; `None` for every other command.
fn plan_without_log(args: &mut Args) -> Option<Result<Output, Failure>> {
    let (mut format, today) = (format(args), clock(args).today());
    if let Some(units) = args.units {
        format = format.in_units(units.into());
    }
    if let Some(weights) = args.weights {
        format = format.with_weights(weights.into());
    }
    match &mut args.command {
        Command::Plan { figures, why, begin: false, save: false }
            if figures.copy.is_none() && figures.saved.is_none() =>
        {
            Some(super::plan::plan_without_log(std::mem::take(figures), *why, &format, today))
        }
        _ => None,
    }
}

/// What the arguments are carried out on.
pub enum Opened {
    /// The folder's log.
    Log(Box<Session>),
    /// There is no log, and none is needed: the answer.
    Answer(Output),
}

/// Whether the person at the terminal wants a missing folder to be made; nobody is asked where there is none.
fn is_wanted(folder: &Path) -> bool {
    if !std::io::stdin().is_terminal() || !std::io::stderr().is_terminal() {
        return false;
    }
    eprint!("There is no folder {} yet. Create it? [y/N] ", display_text(&folder.display().to_string()));
    let mut answer = String::new();
    let read = std::io::stdin().read_line(&mut answer);
    read.is_ok() && ["y", "yes"].contains(&answer.trim().to_lowercase().as_str())
}

/// Opens the folder the arguments name. A command that begins something makes a missing one, after a question; a plan needs none.
pub fn open(args: &mut Args) -> Result<Opened, Failure> {
    let create = match &args.command {
        Command::Begin { .. }
        | Command::Plan { begin: true, .. }
        | Command::Plan { save: true, .. }
        | Command::Sample => true,
        // A whole log is restored into a folder that is empty or missing.
        Command::Import { file, preview: false, .. } => file.extension().is_some_and(|ending| ending == "json"),
        _ => false,
    };
    if create && !args.folder.exists() {
        if !args.create_folder && !is_wanted(&args.folder) {
            return Err(Failure::folder(format!(
                "There is no folder {} yet. Create it with --create-folder, or check the path.",
                args.folder.display()
            )));
        }
        std::fs::create_dir_all(&args.folder).map_err(|error| {
            Failure::folder(format!("The folder {} cannot be made: {error}.", args.folder.display()))
        })?;
    }
    let options = OpenOptions {
        folder: args.folder.clone(),
        local: local_folder(args)?,
        device: args.device.clone(),
        create,
        interactive: false,
        locale: format(args),
        units: args.units.map(Into::into),
        weights: args.weights.map(Into::into),
        clock: clock(args),
    };
    match Session::open(options) {
        Ok(session) => Ok(Opened::Log(Box::new(session))),
        Err(error) => match plan_without_log(args).filter(|_| matches!(error, Error::NotAJournal { .. })) {
            Some(answer) => answer.map(Opened::Answer),
            None => Err(Failure::folder(error.to_string())),
        },
    }
}

//! Opening the folder.

use std::path::PathBuf;

use fellmark_model::display_format::DisplayFormat;
use fellmark_session::{DeviceClock, OpenOptions, Session};
use sha2::{Digest, Sha256};

use crate::args::{Args, Command};
use crate::output::Failure;

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

/// Opens the folder the arguments name. A command that begins something makes a missing one.
pub fn open(args: &Args) -> Result<Session, Failure> {
    let create = matches!(
        args.command,
        Command::Begin { .. } | Command::Plan { begin: true, .. } | Command::Plan { save: true, .. } | Command::Sample
    );
    if create && !args.folder.exists() {
        std::fs::create_dir_all(&args.folder).map_err(|error| {
            Failure::folder(format!("The folder {} cannot be made: {error}.", args.folder.display()))
        })?;
    }
    let locale = args.locale.clone().or_else(|| {
        ["LC_ALL", "LC_TIME", "LANG"].iter().find_map(|name| std::env::var(name).ok().filter(|tag| !tag.is_empty()))
    });
    let options = OpenOptions {
        folder: args.folder.clone(),
        local: local_folder(args)?,
        device: args.device.clone(),
        create,
        interactive: false,
        locale: locale.map(|tag| DisplayFormat::of_locale(&tag)).unwrap_or_default(),
        units: args.units.map(Into::into),
        clock: args.today.map_or_else(DeviceClock::default, DeviceClock::on),
    };
    Session::open(options).map_err(|error| Failure::folder(error.to_string()))
}

//! Choosing a folder, opening and letting go of it; the example; this device.

use std::path::{Path, PathBuf};

use fellmark_answers::model::display_format::Units;
use fellmark_answers::present::messages::error_view;
use fellmark_answers::present::view::{AppView, UserError};
use fellmark_answers::session::example;
use fellmark_journal::{Error, Journal, Options, RecordId, RunningLog, journal_in, watch};

use crate::choice::Known;
use crate::machine::proposed_name;
use crate::reading::{FolderReading, OneReading};

use super::plan::typed_plan;
use super::{Open, Session, is_stopped, memo, today, unopened};

impl Session {
    /// Opens a folder she chose; an empty one becomes a journal.
    pub fn choose(&mut self, folder: &Path) -> Result<AppView, UserError> {
        if folder.as_os_str().is_empty() {
            return Err(UserError::at("path", "No folder is given. Type its whole path."));
        }
        if !folder.is_absolute() {
            return Err(UserError::at(
                "path",
                "This is not a whole path. Type it from the root of the disk, or choose the folder.",
            ));
        }
        let had_one = self.open.is_some();
        match self.open(folder, true) {
            Ok(()) => {}
            // The choice of folder tells it: it was asked for, or the folder that was open is not any more.
            Err(trouble) if self.open.is_none() && (had_one || is_stopped(&trouble)) => {
                self.unopened = Some(unopened(folder, trouble));
            }
            Err(trouble) if is_stopped(&trouble) => return Err(trouble),
            Err(trouble) => return Err(UserError { field: Some("path".into()), ..trouble }),
        }
        Ok(self.view())
    }

    pub(super) fn open(&mut self, folder: &Path, create: bool) -> Result<(), UserError> {
        let folder = std::path::absolute(folder).unwrap_or_else(|_| folder.to_owned());
        if create && !folder.exists() {
            std::fs::create_dir_all(&folder).map_err(|error| {
                UserError::new(format!("The folder {} cannot be made: {error}. Choose another one.", folder.display()))
            })?;
        }
        let name = self.local_for(&folder, create);
        let local = self.data.join("journals").join(&name);
        if self.open.as_ref().is_some_and(|open| open.local == name) {
            // The same journal again: its lock is ours.
            self.close();
        }
        let device = self.choice.device.clone().unwrap_or_else(proposed_name);
        let reading = self.reading.as_ref().map(FolderReading::begin);
        let options = || {
            let mut options = Options::new(&folder, &local, &device);
            options.create = create;
            options.progress = reading.as_ref().map(OneReading::listener);
            options
        };
        let journal = match open_patiently(options) {
            // A second window on this device may still look; the folder's line says so.
            Err(Error::InUse { .. }) => Journal::open(options().read_only()),
            other => other,
        };
        if let Err(Error::Stopped { .. }) = journal {
            // What this device has for it by now is found again.
            self.know(&folder, &name);
            self.keep_choice();
        }
        let journal = journal?;
        let alone = !journal.status().read_only;
        let taps = if alone { Some(RunningLog::open(&local)?) } else { None };
        let reckonings = memo::brought_up(&local, journal.state(), alone);
        let watcher = self.on_change.clone().and_then(|tell| watch(&folder, move |paths| tell(paths)).ok());
        let typed = typed_plan(&local);
        let mut open =
            Open { local: name.clone(), journal, reckonings, taps, running: None, watcher, shown: None, typed };
        open.shown = self.choice.warp.as_deref().and_then(|text| text.parse().ok());
        open.resume();
        self.close();
        self.open = Some(open);
        self.know(&folder, &name);
        self.choice.folder = Some(folder);
        self.unopened = None;
        self.keep_choice();
        Ok(())
    }

    /// Name of this device's own data for a folder. Where she chooses a folder, it is known by the journal it holds, so that one
    /// that was moved is known again; where the folder chosen last is opened, by its path, so that another journal found there
    /// is noticed.
    fn local_for(&self, folder: &Path, chosen: bool) -> String {
        let holds = journal_in(folder);
        let by_journal = || self.choice.known.iter().find(|known| Some(&known.journal) == holds.as_ref());
        let by_path = || self.choice.known.iter().find(|known| known.path == folder);
        let known = match (chosen, &holds) {
            (true, Some(_)) => by_journal(),
            (true, None) => by_path(),
            (false, _) => by_path().or_else(by_journal),
        };
        known.map_or_else(|| RecordId::new().to_string(), |known| known.local.clone())
    }

    /// Remembers which journal lies where.
    fn know(&mut self, folder: &Path, local: &str) {
        let Some(journal) = journal_in(folder) else { return };
        let known = &mut self.choice.known;
        known.retain(|known| known.local != local);
        known.push(Known { journal, path: folder.to_owned(), local: local.to_owned() });
    }

    pub(super) fn close(&mut self) {
        if let Some(mut open) = self.open.take()
            && let Some(watcher) = open.watcher.take()
        {
            // Dropping it waits for its thread, which may wait for this workshop: so on a thread of its own.
            std::thread::spawn(move || drop(watcher));
        }
    }

    pub(super) fn keep_choice(&self) {
        // Without it the next start asks for the folder again; nothing is lost.
        let _ = self.choice.keep(&self.data.join("choice.json"));
    }

    fn example_folder(&self) -> PathBuf {
        self.data.join("example")
    }

    /// Opens a fresh invented example.
    pub fn open_sample(&mut self) -> Result<AppView, UserError> {
        let folder = self.example_folder();
        self.clear_example()?;
        std::fs::create_dir_all(&folder)
            .map_err(|error| UserError::new(format!("The example cannot be made in {}: {error}.", folder.display())))?;
        {
            // The example is another device's work, so that undo starts with what she does herself.
            let maker = self.data.join("example-maker");
            let mut journal = Journal::open(Options::new(&folder, &maker, "example").create())?;
            example::fill(&mut journal, today()).map_err(|error| error_view(error, &self.locale))?;
        }
        let _ = std::fs::remove_dir_all(self.data.join("example-maker"));
        self.open(&folder, true)?;
        Ok(self.view())
    }

    fn clear_example(&mut self) -> Result<(), UserError> {
        let folder = self.example_folder();
        if self.open.as_ref().is_some_and(|open| open.journal.folder() == folder) {
            self.close();
        }
        if folder.exists() {
            let local = self.local_for(&folder, true);
            std::fs::remove_dir_all(&folder).map_err(|error| {
                UserError::new(format!("The old example in {} cannot be removed: {error}.", folder.display()))
            })?;
            let _ = std::fs::remove_dir_all(self.data.join("journals").join(&local));
            self.choice.known.retain(|known| known.local != local);
        }
        Ok(())
    }

    /// Lets the folder go; an example is gone with it.
    pub fn leave(&mut self) -> Result<AppView, UserError> {
        let folder = self.open.as_ref().map(|open| open.journal.folder().to_owned());
        self.close();
        if folder == Some(self.example_folder()) {
            self.clear_example()?;
        }
        self.choice.folder = None;
        self.unopened = None;
        self.choice.warp = None;
        self.keep_choice();
        Ok(self.view())
    }

    /// Chooses the units.
    pub fn set_units(&mut self, units: &str) -> Result<AppView, UserError> {
        let units = Units::from_word(units).ok_or_else(|| UserError::at("units", "Units are metric or imperial."))?;
        self.write(|pen| pen.set_units(units))?;
        Ok(self.view())
    }

    /// Names this device.
    pub fn set_device_name(&mut self, name: &str) -> Result<AppView, UserError> {
        let name = name.trim();
        if name.is_empty() {
            return Err(UserError::at(
                "name",
                "Give this device a name you will know it by, such as \u{201c}laptop\u{201d}.",
            ));
        }
        self.choice.device = Some(name.chars().take(60).collect());
        self.keep_choice();
        if let Some(folder) = self.open.as_ref().map(|open| open.journal.folder().to_owned()) {
            // The journal reads the name when it is opened; the lock goes with the old one.
            self.close();
            if let Err(trouble) = self.open(&folder, false) {
                self.unopened = Some(unopened(&folder, trouble));
            }
        }
        Ok(self.view())
    }

    /// Puts entries that vanished from the folder into it again.
    pub fn write_back(&mut self) -> Result<AppView, UserError> {
        self.opened()?.journal.write_back()?;
        Ok(self.view())
    }
}

/// Opens a journal; while another program holds it, for about a second again and again: one that was just ended may need a moment
/// to let go.
fn open_patiently(options: impl Fn() -> Options) -> Result<Journal, Error> {
    const TRIES: u32 = 10;
    const BETWEEN: std::time::Duration = std::time::Duration::from_millis(100);
    for _ in 1..TRIES {
        match Journal::open(options()) {
            Err(Error::InUse { .. }) => std::thread::sleep(BETWEEN),
            other => return other,
        }
    }
    Journal::open(options())
}

//! What a window needs besides an open folder: choosing, opening and closing folders, watching them, the sample, and what this device
//! remembers between starts.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use fellmark_journal::{Error, Journal, Options, RecordId, Watcher, journal_in, watch};
use fellmark_model::display_format::DisplayFormat;
use fellmark_model::error::STOPPED;
use fellmark_model::messages;
use fellmark_present::messages::error_view;
use fellmark_present::overview::format_view;
use fellmark_present::pick_sequence;
use fellmark_present::understood::understand;
use fellmark_present::view::{AppView, ErrorView, PickSequenceForm, PickSequenceView, Understood, Unopened};

use crate::device_name::proposed_name;
use crate::folder_progress::OneReading;
use crate::settings::{KnownJournal, Settings};
use crate::{DeviceClock, FolderProgress, OpenOptions, Session, error_at, record_id, sample, shown_error};

/// The field of the error that names a folder which does not exist.
pub const MISSING_FOLDER: &str = "missing_folder";

/// A path with `~` at its beginning written out as the account's home.
#[must_use]
pub fn in_home(path: &Path) -> PathBuf {
    let home = || directories::BaseDirs::new().map(|directories| directories.home_dir().to_owned());
    match path.strip_prefix("~") {
        Ok(rest) => home()
            .map_or_else(|| path.to_owned(), |home| if rest.as_os_str().is_empty() { home } else { home.join(rest) }),
        Err(_) => path.to_owned(),
    }
}

/// Called with the paths that changed in the folder; with none when all is to be read again.
type OnChange = Arc<dyn Fn(Vec<PathBuf>) + Send + Sync>;

/// The open folder of a window, and its name among this device's own data.
struct OpenFolder {
    session: Session,
    /// Name of this device's own data for it.
    local: String,
    watcher: Option<Watcher>,
}

/// What a window holds.
pub struct Workspace {
    /// This device's own data, never synced.
    data: PathBuf,
    settings: Settings,
    locale: DisplayFormat,
    clock: DeviceClock,
    open: Option<OpenFolder>,
    on_change: Option<OnChange>,
    /// Reported to while a folder is read.
    progress: Option<FolderProgress>,
    /// The folder that was to be opened and is not, and why.
    unopened: Option<Unopened>,
}

fn is_stopped(error: &ErrorView) -> bool {
    error.field.as_deref() == Some(STOPPED)
}

fn unopened(folder: &Path, error: ErrorView) -> Unopened {
    Unopened { path: folder.display().to_string(), stopped: is_stopped(&error), sentence: error.sentence }
}

impl Workspace {
    /// A workspace without a folder, with what this device remembers.
    ///
    /// # Errors
    /// The account has no home folder.
    pub fn new() -> Result<Self, ErrorView> {
        let directories = directories::ProjectDirs::from("", "", "fellmark")
            .ok_or_else(|| shown_error(messages::no_home_folder()))?;
        Ok(Self::at(directories.data_local_dir()))
    }

    /// The same with this device's own data in a given folder.
    #[must_use]
    pub fn at(data: &Path) -> Self {
        Self {
            data: data.to_owned(),
            settings: Settings::load(&data.join("choice.json")),
            locale: DisplayFormat::default(),
            clock: DeviceClock::default(),
            open: None,
            on_change: None,
            progress: None,
            unopened: None,
        }
    }

    /// Says what is called when something changes in the open folder.
    pub fn on_change(&mut self, changed: impl Fn(Vec<PathBuf>) + Send + Sync + 'static) {
        self.on_change = Some(Arc::new(changed));
    }

    /// Says where the reading of a folder is reported.
    pub fn report_progress_to(&mut self, progress: FolderProgress) {
        self.progress = Some(progress);
    }

    /// Opens the folder that was given, else the one chosen last.
    pub fn start(&mut self, folder: Option<PathBuf>, device: Option<String>) {
        if let Some(device) = device {
            self.settings.device = Some(device);
        }
        let given = folder.is_some();
        if let Some(folder) = folder.or_else(|| self.settings.folder.clone())
            && let Err(error) = self.open(&folder, given)
        {
            self.unopened = Some(unopened(&folder, error));
        }
    }

    /// Sets the locale figures are written by.
    pub fn set_locale(&mut self, tag: &str) {
        self.locale = DisplayFormat::of_locale(tag);
        if let Some(open) = &mut self.open {
            open.session.set_locale(self.locale);
        }
    }

    /// The open folder.
    ///
    /// # Errors
    /// None is open.
    pub fn session(&mut self) -> Result<&mut Session, ErrorView> {
        match &mut self.open {
            Some(open) => Ok(&mut open.session),
            None => Err(shown_error(messages::no_folder_open())),
        }
    }

    /// The open folder, if one is open, for what only reads.
    #[must_use]
    pub fn open_session(&self) -> Option<&Session> {
        self.open.as_ref().map(|open| &open.session)
    }

    /// Everything the window shows.
    pub fn view(&mut self) -> AppView {
        let device = self.device();
        match &mut self.open {
            Some(open) => open.session.view(),
            None => AppView {
                today: self.clock.today().to_string(),
                folder: None,
                unopened: self.unopened.clone(),
                loom: None,
                warps: Vec::new(),
                plans: Vec::new(),
                running: None,
                undo: None,
                format: format_view(&self.locale),
                device,
            },
        }
    }

    fn format(&self) -> DisplayFormat {
        self.open_session().map_or(self.locale, Session::format)
    }

    /// What a typed measure is understood as; `what` says which kind of measure it is.
    #[must_use]
    pub fn interpret(&self, what: &str, text: &str) -> Understood {
        understand(what, text, &self.format(), self.clock.today())
    }

    /// Reads and draws a sequence while it is typed.
    #[must_use]
    pub fn draw_sequence(&self, form: &PickSequenceForm) -> PickSequenceView {
        pick_sequence::view(form, &self.format())
    }

    /// This device's name.
    fn device(&self) -> String {
        self.settings.device.clone().unwrap_or_else(proposed_name)
    }

    /// Takes in what changed in the folder; the new view, or nothing when no folder is open.
    pub fn refresh(&mut self, changed: &[PathBuf]) -> Option<AppView> {
        self.open.as_mut()?.session.refresh(changed);
        Some(self.view())
    }

    /// Shows another warp, and remembers it for the next start.
    ///
    /// # Errors
    /// No folder is open.
    pub fn show_warp(&mut self, warp: RecordId) -> Result<(), ErrorView> {
        self.settings.warp = Some(warp.to_string());
        self.session()?.show_warp(warp);
        self.save_settings();
        Ok(())
    }

    /// Opens a folder that was chosen; an empty one becomes a journal. `~` at its beginning is the account's home. A missing folder
    /// is made only where that was asked for.
    ///
    /// # Errors
    /// The path is not whole, or the folder cannot be opened. Where there is no such folder, the error's field is
    /// [`MISSING_FOLDER`]: it can be asked whether to make it.
    pub fn choose(&mut self, folder: &Path, make_missing: bool) -> Result<(), ErrorView> {
        if folder.as_os_str().is_empty() {
            return Err(error_at("path", messages::no_folder_given()));
        }
        let folder = &in_home(folder);
        if !folder.is_absolute() {
            return Err(error_at("path", messages::path_not_whole()));
        }
        if !folder.exists() {
            if !make_missing {
                return Err(error_at(MISSING_FOLDER, messages::folder_missing(folder.display().to_string())));
            }
            std::fs::create_dir_all(folder).map_err(|error| {
                error_at("path", messages::folder_not_made(folder.display().to_string(), error.to_string()))
            })?;
        }
        let had_one = self.open.is_some();
        match self.open(folder, true) {
            Ok(()) => Ok(()),
            // The screen for choosing a folder says it: stopping was asked for, or the folder that was open is not any more.
            Err(error) if self.open.is_none() && (had_one || is_stopped(&error)) => {
                self.unopened = Some(unopened(folder, error));
                Ok(())
            }
            Err(error) if is_stopped(&error) => Err(error),
            Err(error) => Err(ErrorView { field: Some("path".into()), ..error }),
        }
    }

    fn open(&mut self, folder: &Path, create: bool) -> Result<(), ErrorView> {
        let folder = std::path::absolute(in_home(folder)).unwrap_or_else(|_| folder.to_owned());
        if create && !folder.exists() {
            return Err(shown_error(messages::folder_missing(folder.display().to_string())));
        }
        let name = self.local_name(&folder, create);
        if self.open.as_ref().is_some_and(|open| open.local == name) {
            // The same journal again: its lock is ours.
            self.close();
        }
        let reading = self.progress.as_ref().map(FolderProgress::begin);
        let options = OpenOptions {
            folder: folder.clone(),
            local: self.data.join("journals").join(&name),
            device: self.device(),
            create,
            interactive: true,
            locale: self.locale,
            units: None,
            weights: None,
            clock: self.clock,
        };
        let opened = Session::open_reporting(options, || reading.as_ref().map(OneReading::listener));
        if let Err(Error::Stopped { .. }) = opened {
            // What this device has for it by now is found again.
            self.remember_journal(&folder, &name);
            self.save_settings();
        }
        let mut session = opened?;
        if session.shown.is_none() {
            session.shown = self.settings.warp.as_deref().and_then(|text| text.parse().ok());
        }
        let watcher = self.on_change.clone().and_then(|changed| watch(&folder, move |paths| changed(paths)).ok());
        self.close();
        self.open = Some(OpenFolder { session, local: name.clone(), watcher });
        self.remember_journal(&folder, &name);
        self.settings.folder = Some(folder);
        self.unopened = None;
        self.save_settings();
        Ok(())
    }

    /// Name of this device's own data for a folder. Where the folder was chosen, it is known by the journal in it, so that one that
    /// was moved is known again; where the folder chosen last is opened, by its path, so that another journal found there is
    /// noticed.
    fn local_name(&self, folder: &Path, chosen: bool) -> String {
        let journal = journal_in(folder);
        let by_journal = || self.settings.known.iter().find(|known| Some(&known.journal) == journal.as_ref());
        let by_path = || self.settings.known.iter().find(|known| known.path == folder);
        let known = match (chosen, &journal) {
            (true, Some(_)) => by_journal(),
            (true, None) => by_path(),
            (false, _) => by_path().or_else(by_journal),
        };
        known.map_or_else(|| RecordId::new().to_string(), |known| known.local.clone())
    }

    /// Remembers which journal is where.
    fn remember_journal(&mut self, folder: &Path, local: &str) {
        let Some(journal) = journal_in(folder) else { return };
        let known = &mut self.settings.known;
        known.retain(|known| known.local != local);
        known.push(KnownJournal { journal, path: folder.to_owned(), local: local.to_owned() });
    }

    fn close(&mut self) {
        if let Some(mut open) = self.open.take()
            && let Some(watcher) = open.watcher.take()
        {
            // Dropping it waits for its thread, which may wait for this workspace: so on a thread of its own.
            std::thread::spawn(move || drop(watcher));
        }
    }

    fn save_settings(&self) {
        // Without them the next start asks for the folder again; nothing is lost.
        let _ = self.settings.save(&self.data.join("choice.json"));
    }

    fn sample_folder(&self) -> PathBuf {
        self.data.join("example")
    }

    /// Opens a fresh sample.
    ///
    /// # Errors
    /// It cannot be written on this device.
    pub fn open_sample(&mut self) -> Result<(), ErrorView> {
        let folder = self.sample_folder();
        self.remove_sample()?;
        std::fs::create_dir_all(&folder)
            .map_err(|error| shown_error(messages::sample_not_made(folder.display().to_string(), error.to_string())))?;
        {
            // The sample is another device's work, so that undo begins with what is done in it.
            let maker = self.data.join("example-maker");
            let mut journal = Journal::open(Options::new(&folder, &maker, "example").create())?;
            sample::fill(&mut journal, self.clock.today()).map_err(|error| error_view(error, &self.locale))?;
        }
        let _ = std::fs::remove_dir_all(self.data.join("example-maker"));
        self.open(&folder, true)
    }

    fn remove_sample(&mut self) -> Result<(), ErrorView> {
        let folder = self.sample_folder();
        if self.open_session().is_some_and(|session| session.folder() == folder) {
            self.close();
        }
        if folder.exists() {
            let local = self.local_name(&folder, true);
            std::fs::remove_dir_all(&folder).map_err(|error| {
                shown_error(messages::sample_not_removed(folder.display().to_string(), error.to_string()))
            })?;
            let _ = std::fs::remove_dir_all(self.data.join("journals").join(&local));
            self.settings.known.retain(|known| known.local != local);
        }
        Ok(())
    }

    /// Closes the folder; a sample is removed.
    ///
    /// # Errors
    /// The sample cannot be removed.
    pub fn close_folder(&mut self) -> Result<(), ErrorView> {
        let folder = self.open_session().map(|session| session.folder().to_owned());
        self.close();
        if folder == Some(self.sample_folder()) {
            self.remove_sample()?;
        }
        self.settings.folder = None;
        self.unopened = None;
        self.settings.warp = None;
        self.save_settings();
        Ok(())
    }

    /// Names this device.
    ///
    /// # Errors
    /// The name is empty.
    pub fn set_device_name(&mut self, name: &str) -> Result<(), ErrorView> {
        let name = name.trim();
        if name.is_empty() {
            return Err(error_at("name", messages::device_without_name()));
        }
        self.settings.device = Some(name.chars().take(60).collect());
        self.save_settings();
        if let Some(folder) = self.open_session().map(|session| session.folder().to_owned()) {
            // The journal reads the name when it is opened; the lock goes with the old one.
            self.close();
            if let Err(error) = self.open(&folder, false) {
                self.unopened = Some(unopened(&folder, error));
            }
        }
        Ok(())
    }

    /// Begins a warp and shows it.
    ///
    /// # Errors
    /// As for the command, and when no folder is open.
    pub fn begin_and_show(
        &mut self,
        begin: impl FnOnce(&mut Session) -> Result<RecordId, ErrorView>,
    ) -> Result<(), ErrorView> {
        let warp = begin(self.session()?)?;
        self.show_warp(warp)
    }

    /// Shows the warp of this id.
    ///
    /// # Errors
    /// The text is no id, or no folder is open.
    pub fn show(&mut self, warp: &str) -> Result<(), ErrorView> {
        self.show_warp(record_id(warp)?)
    }
}

#[cfg(test)]
mod tests;

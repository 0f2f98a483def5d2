//! What the window works with: the open journal, the sitting that is going on, and what this device remembers.
//!
//! Every method that changes something gives the whole new [`AppView`]. Nothing is computed here: figures and sentences come from
//! the answers.

mod folder;
mod log;
mod loom;
mod memo;
mod notes;
mod off;
mod pace;
mod plan;
mod sitting;
mod tables;
#[cfg(test)]
mod tests;
mod warp;

pub use notes::SavedMeasurement;

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::{SystemTime, UNIX_EPOCH};

use chrono::{Local, NaiveDate};
use fellmark_answers::model::display_format::DisplayFormat;
use fellmark_answers::model::running::Running;
use fellmark_answers::model::{
    self,
    commands::{Commands, chosen_units},
};
use fellmark_answers::present::desk::{self, Presenter, RunningSitting};
use fellmark_answers::present::messages::error_view;
use fellmark_answers::present::plan::saved_plans;
use fellmark_answers::present::trouble::{STOPPED, sentence};
use fellmark_answers::present::undo;
use fellmark_answers::present::view::{AppView, PlanForm, Unopened, UserError, WarpState};
use fellmark_answers::reports::reckoned::ReportCache;
use fellmark_journal::{Journal, Key, RecordId, RunningLog, Watcher};

use crate::choice::Choice;
use crate::reading::FolderReading;

/// Told with the paths that changed in the folder; with none when all is to be looked at.
type OnChange = Arc<dyn Fn(Vec<PathBuf>) + Send + Sync>;

/// The open folder.
struct Open {
    /// Name of this device's own data for it.
    local: String,
    journal: Journal,
    /// What its warps amount to, each reckoned again only when its own entries change.
    reckonings: ReportCache,
    taps: Option<RunningLog>,
    running: Option<(Running, RunningSitting)>,
    watcher: Option<Watcher>,
    shown: Option<RecordId>,
    /// The plan as it was typed last on this device, and the kept plan it came from.
    typed: Option<(PlanForm, String)>,
}

/// The workshop.
pub struct Session {
    /// This device's own data, never synced.
    data: PathBuf,
    choice: Choice,
    locale: DisplayFormat,
    open: Option<Open>,
    on_change: Option<OnChange>,
    /// Told of while a folder is read.
    reading: Option<FolderReading>,
    /// The folder that was to be opened and is not, and why.
    unopened: Option<Unopened>,
}

/// A sitting that was kept.
#[derive(serde::Serialize)]
pub struct SavedSitting {
    /// Everything the window shows.
    pub view: AppView,
    /// Its record id.
    pub sitting: String,
    /// Tape and picks side by side, in sentences.
    pub messages: Vec<String>,
}

/// Milliseconds since 1970.
pub fn now_ms() -> i64 {
    let since = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default();
    i64::try_from(since.as_millis()).unwrap_or(i64::MAX)
}

fn today() -> NaiveDate {
    Local::now().date_naive()
}

fn id(text: &str) -> Result<RecordId, UserError> {
    text.parse().map_err(|error: fellmark_journal::IdError| UserError::new(sentence(&error.to_string())))
}

fn is_stopped(trouble: &UserError) -> bool {
    trouble.field.as_deref() == Some(STOPPED)
}

fn unopened(folder: &Path, trouble: UserError) -> Unopened {
    Unopened { path: folder.display().to_string(), stopped: is_stopped(&trouble), sentence: trouble.sentence }
}

fn keys(seen: &[String]) -> Vec<Key> {
    seen.iter().filter_map(|key| key.parse().ok()).collect()
}

impl Session {
    /// An empty workshop with what this device remembers.
    ///
    /// # Errors
    /// The account has no home folder.
    pub fn new() -> Result<Self, UserError> {
        let directories = directories::ProjectDirs::from("", "", "fellmark").ok_or_else(|| {
            UserError::new("This account has no home folder, so nothing can be remembered on this device.")
        })?;
        let data = directories.data_local_dir().to_owned();
        let choice = Choice::read(&data.join("choice.json"));
        Ok(Self {
            data,
            choice,
            locale: DisplayFormat::default(),
            open: None,
            on_change: None,
            reading: None,
            unopened: None,
        })
    }

    /// Says whom to tell when something changes in the folder.
    pub fn on_change(&mut self, tell: impl Fn(Vec<PathBuf>) + Send + Sync + 'static) {
        self.on_change = Some(Arc::new(tell));
    }

    /// Says what is told of a folder while it is read.
    pub fn on_reading(&mut self, reading: FolderReading) {
        self.reading = Some(reading);
    }

    /// Opens the folder that was given, else the one chosen last.
    pub fn begin(&mut self, folder: Option<PathBuf>, device: Option<String>) {
        if let Some(device) = device {
            self.choice.device = Some(device);
        }
        let given = folder.is_some();
        if let Some(folder) = folder.or_else(|| self.choice.folder.clone())
            && let Err(trouble) = self.open(&folder, given)
        {
            self.unopened = Some(unopened(&folder, trouble));
        }
    }

    /// Sets how figures are written by the reader's locale, and gives the view.
    pub fn view_for(&mut self, locale: &str) -> AppView {
        self.locale = DisplayFormat::of_locale(locale);
        self.view()
    }

    fn format(&self) -> DisplayFormat {
        let units = self.open.as_ref().and_then(|open| chosen_units(open.journal.state()));
        units.map_or(self.locale, |units| self.locale.in_units(units))
    }

    /// Everything the window shows.
    pub fn view(&mut self) -> AppView {
        let (format, today) = (self.format(), today());
        let device = self.choice.device.clone().unwrap_or_else(crate::machine::proposed_name);
        let Some(Open { journal, reckonings, running, shown, typed, .. }) = &mut self.open else {
            return AppView {
                today: today.to_string(),
                folder: None,
                unopened: self.unopened.clone(),
                loom: None,
                warps: Vec::new(),
                plans: Vec::new(),
                running: None,
                undo: None,
                format: desk::format_view(&format),
                device,
            };
        };
        let mut presenter = Presenter::new(journal, reckonings, &format, today);
        let warps = presenter.warp_lines();
        let known = |id: &RecordId| warps.iter().any(|line| line.id == id.as_str() && line.state != WarpState::Removed);
        let shown = shown.clone().filter(known).or_else(|| {
            let first = warps.iter().find(|line| line.state != WarpState::Removed)?;
            first.id.parse().ok()
        });
        let running_on = |id: &RecordId| running.as_ref().map(|(running, _)| running).filter(|one| one.warp == *id);
        AppView {
            today: today.to_string(),
            folder: Some(presenter.folder(&Local)),
            unopened: None,
            loom: shown.and_then(|id| presenter.loom(&id, running_on(&id))),
            warps,
            plans: saved_plans(journal.state(), typed.as_ref()),
            running: running.as_ref().map(|(running, under)| under.view(running, now_ms())),
            undo: undo::words(journal),
            format: desk::format_view(&format),
            device,
        }
    }

    /// When the sitting that is going on counts as paused if nothing more is tapped, in milliseconds since 1970; nothing when none
    /// is going on.
    pub fn pauses_at_ms(&self) -> Option<i64> {
        Some(self.open.as_ref()?.running.as_ref()?.0.pauses_at_ms())
    }

    /// Takes in what changed in the folder; the new view, or nothing when no folder is open.
    pub fn folder_changed(&mut self, changed: &[PathBuf]) -> Option<AppView> {
        let open = self.open.as_mut()?;
        // What goes wrong with single files is in the folder's line.
        let _ = open.journal.refresh(changed);
        if let Some((running, under)) = &mut open.running
            && let Some(now) = RunningSitting::new(&open.journal, running)
        {
            *under = now;
        }
        Some(self.view())
    }

    fn opened(&mut self) -> Result<&mut Open, UserError> {
        self.open.as_mut().ok_or_else(|| UserError::new("No folder is open. Choose one first."))
    }

    /// Does something with the pen, then gives what it gave.
    fn write<T>(
        &mut self,
        deed: impl FnOnce(&mut Commands<'_>) -> Result<T, model::UserError>,
    ) -> Result<T, UserError> {
        self.write_knowing(|pen, _| deed(pen))
    }

    /// The same for what rests on other warps too.
    fn write_knowing<T>(
        &mut self,
        deed: impl FnOnce(&mut Commands<'_>, &mut ReportCache) -> Result<T, model::UserError>,
    ) -> Result<T, UserError> {
        let format = self.format();
        let open = self.opened()?;
        let mut pen = Commands { format, today: today(), journal: &mut open.journal };
        let done = deed(&mut pen, &mut open.reckonings).map_err(|error| error_view(error, &format))?;
        if let Some((running, under)) = &mut open.running
            && let Some(now) = RunningSitting::new(&open.journal, running)
        {
            *under = now;
        }
        Ok(done)
    }
}

impl Open {
    /// Takes up a sitting that was going on when the program ended; one that has been logged already is forgotten.
    fn resume(&mut self) {
        let Some(taps) = &mut self.taps else { return };
        let Some(running) = taps.read_all().ok().and_then(|lines| Running::from_lines(&lines)) else { return };
        if self.journal.state().record(&running.sitting).is_some() {
            // Were it not cleared, it would be looked at again at the next start, and passed over again.
            let _ = taps.clear();
            return;
        }
        self.shown = Some(running.warp.clone());
        self.running = RunningSitting::new(&self.journal, &running).map(|under| (running, under));
    }
}

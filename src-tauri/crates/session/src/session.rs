//! The open folder.

use std::path::{Path, PathBuf};

use chrono::Local;
use fellmark_journal::{EntrySet, Error, Journal, Options, ReadProgressListener, RecordId, RunningLog};
use fellmark_model as model;
use fellmark_model::commands::{Commands, chosen_units, chosen_weights};
use fellmark_model::display_format::{DisplayFormat, Units};
use fellmark_model::running::Running;
use fellmark_present::messages::error_view;
use fellmark_present::overview::{self, Presenter, RunningSitting};
use fellmark_present::plan::saved_plans;
use fellmark_present::undo;
use fellmark_present::view::{AppView, ErrorView, PlanForm, WarpState};
use fellmark_reports::report_cache::ReportCache;

use crate::typed_plan::typed_plan;
use crate::{DeviceClock, sample};

/// How a folder is opened.
pub struct OpenOptions {
    /// The folder.
    pub folder: PathBuf,
    /// This device's own data for it, never synced.
    pub local: PathBuf,
    /// This device's name.
    pub device: String,
    /// Whether an empty folder becomes a log.
    pub create: bool,
    /// Whether someone weaves in front of it: a running sitting is resumed, a program that is just ending is waited for, and beside
    /// a second window the folder is opened for reading only.
    pub interactive: bool,
    /// How the reader's locale writes figures.
    pub locale: DisplayFormat,
    /// Units for this run; else those chosen in the folder, else the locale's.
    pub units: Option<Units>,
    /// Units of weights for this run; else those of `units`, else those chosen in the folder.
    pub weights: Option<Units>,
    /// The clock.
    pub clock: DeviceClock,
}

/// An open folder, the sitting that is going on, and one cached report for each warp.
pub struct Session {
    pub(crate) journal: Journal,
    pub(crate) reports: ReportCache,
    /// The log of the running sitting; none where the folder is open for reading only, and on the command line.
    pub(crate) taps: Option<RunningLog>,
    pub(crate) running: Option<(Running, RunningSitting)>,
    /// The warp that is shown.
    pub(crate) shown: Option<RecordId>,
    /// The plan as it was typed last on this device, and the saved plan it came from.
    pub(crate) typed_plan: Option<(PlanForm, String)>,
    pub(crate) local: PathBuf,
    pub(crate) clock: DeviceClock,
    device: String,
    locale: DisplayFormat,
    units: Option<Units>,
    weights: Option<Units>,
}

impl Session {
    /// Opens a folder.
    ///
    /// # Errors
    /// The folder cannot be used, or another program has it.
    pub fn open(options: OpenOptions) -> Result<Self, Error> {
        Self::open_reporting(options, || None)
    }

    /// Opens a folder; `progress` makes, for each attempt, a listener that receives how far the reading is and may stop it.
    pub(crate) fn open_reporting(
        options: OpenOptions,
        progress: impl Fn() -> Option<ReadProgressListener>,
    ) -> Result<Self, Error> {
        let OpenOptions { folder, local, device, create, interactive, locale, units, weights, clock } = options;
        let journal_options = || {
            let mut options = Options::new(&folder, &local, &device);
            options.create = create;
            options.progress = progress();
            options
        };
        let journal =
            if interactive { open_beside_others(journal_options)? } else { Journal::open(journal_options())? };
        let writes = interactive && !journal.status().read_only;
        let taps = if writes { Some(RunningLog::open(&local)?) } else { None };
        let mut session = Self {
            reports: ReportCache::new(),
            taps,
            running: None,
            shown: None,
            typed_plan: if interactive { typed_plan(&local) } else { None },
            journal,
            local,
            clock,
            device,
            locale,
            units,
            weights,
        };
        if interactive {
            session.reports.refresh(session.journal.state());
            session.resume();
        }
        Ok(session)
    }

    /// Takes up a sitting that was going on when the program ended; one that has been logged already is forgotten.
    fn resume(&mut self) {
        let Some(taps) = &mut self.taps else { return };
        let Some(running) = taps.read_all().ok().and_then(|lines| Running::from_lines(&lines)) else { return };
        if self.journal.state().record(&running.sitting).is_some() {
            // Were it not cleared, every later start would read it and pass over it again.
            let _ = taps.clear();
            return;
        }
        self.shown = Some(running.warp.clone());
        self.running = RunningSitting::new(&self.journal, &self.reports, &running).map(|sitting| (running, sitting));
    }

    /// The journal, for what only reads.
    #[must_use]
    pub fn journal(&self) -> &Journal {
        &self.journal
    }

    /// The merged records.
    #[must_use]
    pub fn state(&self) -> &EntrySet {
        self.journal.state()
    }

    /// The folder.
    #[must_use]
    pub fn folder(&self) -> &Path {
        self.journal.folder()
    }

    /// The clock.
    #[must_use]
    pub fn clock(&self) -> DeviceClock {
        self.clock
    }

    /// How figures are written: the reader's locale, in the units of this run, else in those chosen in the folder.
    #[must_use]
    pub fn format(&self) -> DisplayFormat {
        let units = self.units.or_else(|| chosen_units(self.state()));
        let format = units.map_or(self.locale, |units| self.locale.in_units(units));
        let of_folder = || if self.units.is_none() { chosen_weights(self.state()) } else { None };
        let weights = self.weights.or_else(of_folder);
        weights.map_or(format, |weights| format.with_weights(weights))
    }

    /// Changes the reader's locale.
    pub fn set_locale(&mut self, locale: DisplayFormat) {
        self.locale = locale;
    }

    /// A presenter of the cached reports, for one answer.
    pub fn with_presenter<T>(&mut self, ask: impl FnOnce(&mut Presenter<'_>) -> T) -> T {
        let (format, today) = (self.format(), self.clock.today());
        ask(&mut Presenter::new(&self.journal, &mut self.reports, &format, today))
    }

    /// Everything a window shows of an open folder.
    pub fn view(&mut self) -> AppView {
        let (format, today) = (self.format(), self.clock.today());
        let Self { journal, reports, running, shown, typed_plan, .. } = self;
        let mut presenter = Presenter::new(journal, reports, &format, today);
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
            plans: saved_plans(journal.state(), typed_plan.as_ref()),
            running: running.as_ref().map(|(running, sitting)| sitting.view(running, self.clock.now_ms(), &format)),
            undo: undo::words(journal),
            format: overview::format_view(&format),
            device: self.device.clone(),
        }
    }

    /// Takes in what changed in the folder: the paths that changed, or all of it when none is given.
    pub fn refresh(&mut self, changed: &[PathBuf]) {
        // What goes wrong with single files is in the folder's line.
        let _ = self.journal.refresh(changed);
        self.refresh_running();
    }

    /// Puts entries that vanished from the folder into it again.
    ///
    /// # Errors
    /// The folder cannot take them.
    pub fn write_back(&mut self) -> Result<(), ErrorView> {
        self.journal.write_back()?;
        Ok(())
    }

    /// Marks the folder as this journal's again, after all its markers are gone; then writes what waits.
    ///
    /// # Errors
    /// The folder cannot take it.
    pub fn mark_folder_again(&mut self) -> Result<(), Error> {
        self.journal.mark_folder_again()?;
        Ok(())
    }

    /// Fills an empty folder with the invented sample.
    ///
    /// # Errors
    /// It cannot be written.
    pub fn fill_with_sample(&mut self) -> Result<(), ErrorView> {
        let (format, today) = (self.format(), self.clock.today());
        sample::fill(&mut self.journal, today).map_err(|error| error_view(error, &format))
    }

    fn refresh_running(&mut self) {
        if let Some((running, sitting)) = &mut self.running
            && let Some(now) = RunningSitting::new(&self.journal, &self.reports, running)
        {
            *sitting = now;
        }
    }

    /// Carries out one command.
    pub(crate) fn run<T>(
        &mut self,
        command: impl FnOnce(&mut Commands<'_>) -> Result<T, model::UserError>,
    ) -> Result<T, ErrorView> {
        self.run_with_reports(|commands, _| command(commands))
    }

    /// Carries out one command that also reads the reports of other warps.
    pub(crate) fn run_with_reports<T>(
        &mut self,
        command: impl FnOnce(&mut Commands<'_>, &mut ReportCache) -> Result<T, model::UserError>,
    ) -> Result<T, ErrorView> {
        let format = self.format();
        let mut commands = Commands { format, today: self.clock.today(), journal: &mut self.journal };
        let done = command(&mut commands, &mut self.reports).map_err(|error| error_view(error, &format))?;
        self.refresh_running();
        Ok(done)
    }
}

/// Opens a journal. While another program holds it, tries for about a second: one that was just ended may need a moment to let go.
/// After that a second window may still read; the folder's line says so.
fn open_beside_others(options: impl Fn() -> Options) -> Result<Journal, Error> {
    const TRIES: u32 = 10;
    const BETWEEN: std::time::Duration = std::time::Duration::from_millis(100);
    for _ in 0..TRIES {
        match Journal::open(options()) {
            Err(Error::InUse { .. }) => std::thread::sleep(BETWEEN),
            other => return other,
        }
    }
    Journal::open(options().read_only())
}

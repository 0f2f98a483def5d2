//! What the window works with: the open journal, the sitting that is going on, and what this device remembers.
//!
//! Every method that changes something gives the whole new [`Desk`]. Nothing is computed here: figures and sentences come from
//! the answers.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::{SystemTime, UNIX_EPOCH};

use chrono::{Local, NaiveDate};
use fellmark_answers::desk::{self, UnderTheTaps};
use fellmark_answers::example;
use fellmark_answers::manner::{Manner, Units};
use fellmark_answers::measures::understand;
use fellmark_answers::pen::{Pen, chosen_units};
use fellmark_answers::running::{Running, Tap};
use fellmark_answers::trouble::sentence;
use fellmark_answers::undo;
use fellmark_answers::view::{Desk, GettingUp, RunningView, SittingForm, Trouble, Understood, WarpForm, WarpState};
use fellmark_journal::{Journal, Key, Options, RecordId, RunningLog, Watcher, journal_in, watch};

use crate::choice::{Choice, Known};

/// Told with the paths that changed in the folder; with none when all is to be looked at.
type OnChange = Arc<dyn Fn(Vec<PathBuf>) + Send + Sync>;

/// The open folder.
struct Open {
    /// Name of this device's own data for it.
    local: String,
    journal: Journal,
    taps: Option<RunningLog>,
    running: Option<(Running, UnderTheTaps)>,
    watcher: Option<Watcher>,
    shown: Option<RecordId>,
}

/// The workshop.
pub struct Workshop {
    /// This device's own data, never synced.
    data: PathBuf,
    choice: Choice,
    locale: Manner,
    open: Option<Open>,
    on_change: Option<OnChange>,
    /// Why the folder chosen last could not be opened.
    could_not_open: Option<String>,
}

fn now_ms() -> i64 {
    let since = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default();
    i64::try_from(since.as_millis()).unwrap_or(i64::MAX)
}

fn today() -> NaiveDate {
    Local::now().date_naive()
}

fn id(text: &str) -> Result<RecordId, Trouble> {
    text.parse().map_err(|error: fellmark_journal::IdError| Trouble::new(sentence(&error.to_string())))
}

fn keys(seen: &[String]) -> Vec<Key> {
    seen.iter().filter_map(|key| key.parse().ok()).collect()
}

impl Workshop {
    /// An empty workshop with what this device remembers.
    ///
    /// # Errors
    /// The account has no home folder.
    pub fn new() -> Result<Self, Trouble> {
        let directories = directories::ProjectDirs::from("", "", "fellmark").ok_or_else(|| {
            Trouble::new("This account has no home folder, so nothing can be remembered on this device.")
        })?;
        let data = directories.data_local_dir().to_owned();
        let choice = Choice::read(&data.join("choice.json"));
        Ok(Self { data, choice, locale: Manner::default(), open: None, on_change: None, could_not_open: None })
    }

    /// Says whom to tell when something changes in the folder.
    pub fn on_change(&mut self, tell: impl Fn(Vec<PathBuf>) + Send + Sync + 'static) {
        self.on_change = Some(Arc::new(tell));
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
            self.could_not_open = Some(trouble.sentence);
        }
    }

    /// Sets how figures are written by the reader's locale, and gives the desk.
    pub fn look(&mut self, locale: &str) -> Result<Desk, Trouble> {
        self.locale = Manner::of_locale(locale);
        match self.could_not_open.take() {
            Some(why) => Err(Trouble::new(why)),
            None => Ok(self.desk()),
        }
    }

    fn manner(&self) -> Manner {
        let units = self.open.as_ref().and_then(|open| chosen_units(open.journal.state()));
        units.map_or(self.locale, |units| self.locale.in_units(units))
    }

    /// Everything the window shows.
    pub fn desk(&self) -> Desk {
        let (manner, today) = (self.manner(), today());
        let Some(open) = &self.open else {
            return Desk {
                today: today.to_string(),
                folder: None,
                loom: None,
                warps: Vec::new(),
                running: None,
                undo: None,
                manner: desk::manner_view(&manner),
            };
        };
        let warps = desk::warp_lines(&open.journal, &manner, today);
        let known = |id: &RecordId| warps.iter().any(|line| line.id == id.as_str() && line.state != WarpState::Removed);
        let shown = open.shown.clone().filter(known).or_else(|| {
            let first = warps.iter().find(|line| line.state != WarpState::Removed)?;
            first.id.parse().ok()
        });
        let running_on = |id: &RecordId| open.running.as_ref().filter(|(running, _)| running.warp == *id);
        let picks = |id: &RecordId| running_on(id).map_or(0, |(running, _)| running.picks);
        Desk {
            today: today.to_string(),
            folder: Some(desk::folder(&open.journal, &manner, today, &Local)),
            loom: shown.and_then(|id| desk::loom(&open.journal, &id, picks(&id), &manner, today)),
            warps,
            running: open.running.as_ref().map(|(running, under)| under.view(running, now_ms())),
            undo: undo::undoable(open.journal.state(), open.journal.device()).map(|found| found.what),
            manner: desk::manner_view(&manner),
        }
    }

    /// Takes in what changed in the folder; the new desk, or nothing when no folder is open.
    pub fn folder_changed(&mut self, changed: &[PathBuf]) -> Option<Desk> {
        let open = self.open.as_mut()?;
        // What goes wrong with single files is in the folder's line.
        let _ = open.journal.refresh(changed);
        if let Some((running, under)) = &mut open.running
            && let Some(now) = UnderTheTaps::new(&open.journal, &running.warp)
        {
            *under = now;
        }
        Some(self.desk())
    }

    /// Opens a folder she chose; an empty one becomes a journal.
    pub fn choose(&mut self, folder: &Path) -> Result<Desk, Trouble> {
        if folder.as_os_str().is_empty() {
            return Err(Trouble::at("path", "No folder is given. Type its whole path."));
        }
        self.open(folder, true).map_err(|trouble| Trouble { field: Some("path".into()), ..trouble })?;
        Ok(self.desk())
    }

    fn open(&mut self, folder: &Path, create: bool) -> Result<(), Trouble> {
        let folder = std::path::absolute(folder).unwrap_or_else(|_| folder.to_owned());
        if create && !folder.exists() {
            std::fs::create_dir_all(&folder).map_err(|error| {
                Trouble::new(format!("The folder {} cannot be made: {error}. Choose another one.", folder.display()))
            })?;
        }
        let name = self.local_for(&folder, create);
        let local = self.data.join("journals").join(&name);
        if self.open.as_ref().is_some_and(|open| open.local == name) {
            // The same journal again: its lock is ours.
            self.close();
        }
        let device = self.choice.device.clone().unwrap_or_else(device_name);
        let mut options = Options::new(&folder, &local, &device);
        options.create = create;
        let opened = Journal::open(options);
        let journal = match opened {
            Err(fellmark_journal::Error::InUse { .. }) => {
                // A second window on this device may still look.
                Journal::open(Options::new(&folder, &local, &device).read_only())?
            }
            other => other?,
        };
        let taps = if journal.status().read_only { None } else { Some(RunningLog::open(&local)?) };
        let watcher = self.on_change.clone().and_then(|tell| watch(&folder, move |paths| tell(paths)).ok());
        let mut open = Open { local: name.clone(), journal, taps, running: None, watcher, shown: None };
        open.shown = self.choice.warp.as_deref().and_then(|text| text.parse().ok());
        open.resume();
        self.close();
        self.open = Some(open);
        self.know(&folder, &name);
        self.choice.folder = Some(folder);
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

    fn close(&mut self) {
        if let Some(mut open) = self.open.take()
            && let Some(watcher) = open.watcher.take()
        {
            // Dropping it waits for its thread, which may wait for this workshop: so on a thread of its own.
            std::thread::spawn(move || drop(watcher));
        }
    }

    fn keep_choice(&self) {
        // Without it the next start asks for the folder again; nothing is lost.
        let _ = self.choice.keep(&self.data.join("choice.json"));
    }

    fn example_folder(&self) -> PathBuf {
        self.data.join("example")
    }

    /// Opens a fresh invented example.
    pub fn begin_example(&mut self) -> Result<Desk, Trouble> {
        let folder = self.example_folder();
        self.clear_example()?;
        std::fs::create_dir_all(&folder)
            .map_err(|error| Trouble::new(format!("The example cannot be made in {}: {error}.", folder.display())))?;
        {
            // The example is another device's work, so that undo starts with what she does herself.
            let maker = self.data.join("example-maker");
            let mut journal = Journal::open(Options::new(&folder, &maker, "example").create())?;
            example::fill(&mut journal, today())?;
        }
        let _ = std::fs::remove_dir_all(self.data.join("example-maker"));
        self.open(&folder, true)?;
        Ok(self.desk())
    }

    fn clear_example(&mut self) -> Result<(), Trouble> {
        let folder = self.example_folder();
        if self.open.as_ref().is_some_and(|open| open.journal.folder() == folder) {
            self.close();
        }
        if folder.exists() {
            let local = self.local_for(&folder, true);
            std::fs::remove_dir_all(&folder).map_err(|error| {
                Trouble::new(format!("The old example in {} cannot be removed: {error}.", folder.display()))
            })?;
            let _ = std::fs::remove_dir_all(self.data.join("journals").join(&local));
            self.choice.known.retain(|known| known.local != local);
        }
        Ok(())
    }

    /// Lets the folder go; an example is gone with it.
    pub fn leave(&mut self) -> Result<Desk, Trouble> {
        let folder = self.open.as_ref().map(|open| open.journal.folder().to_owned());
        self.close();
        if folder == Some(self.example_folder()) {
            self.clear_example()?;
        }
        self.choice.folder = None;
        self.choice.warp = None;
        self.keep_choice();
        Ok(self.desk())
    }

    fn opened(&mut self) -> Result<&mut Open, Trouble> {
        self.open.as_mut().ok_or_else(|| Trouble::new("No folder is open. Choose one first."))
    }

    /// Does something with the pen, then gives what it gave.
    fn write<T>(&mut self, deed: impl FnOnce(&mut Pen<'_>) -> Result<T, Trouble>) -> Result<T, Trouble> {
        let manner = self.manner();
        let open = self.opened()?;
        let done = deed(&mut Pen { manner, today: today(), journal: &mut open.journal })?;
        if let Some((running, under)) = &mut open.running
            && let Some(now) = UnderTheTaps::new(&open.journal, &running.warp)
        {
            *under = now;
        }
        Ok(done)
    }

    /// Shows another warp.
    pub fn show(&mut self, warp: &str) -> Result<Desk, Trouble> {
        let warp_id = id(warp)?;
        self.opened()?.shown = Some(warp_id);
        self.choice.warp = Some(warp.to_owned());
        self.keep_choice();
        Ok(self.desk())
    }

    /// Begins a warp and shows it.
    pub fn begin_warp(&mut self, form: &WarpForm) -> Result<Desk, Trouble> {
        let warp = self.write(|pen| pen.begin_warp(form))?;
        self.show(warp.as_str())
    }

    /// Changes a warp.
    pub fn change_warp(&mut self, warp: &str, form: &WarpForm, seen: &[String]) -> Result<Desk, Trouble> {
        let warp = id(warp)?;
        self.write(|pen| pen.change_warp(&warp, form, &keys(seen)))?;
        Ok(self.desk())
    }

    /// Puts a warp aside, takes it up, or notes that it is cut off.
    pub fn set_state(&mut self, warp: &str, state: &str) -> Result<Desk, Trouble> {
        let warp = id(warp)?;
        let state = match state {
            "on_the_loom" => WarpState::OnTheLoom,
            "resting" => WarpState::Resting,
            "off_the_loom" => WarpState::OffTheLoom,
            other => return Err(Trouble::new(format!("A warp cannot be \u{201c}{other}\u{201d}."))),
        };
        self.write(|pen| pen.set_state(&warp, state))?;
        Ok(self.desk())
    }

    /// Removes a record.
    pub fn remove(&mut self, record: &str) -> Result<Desk, Trouble> {
        let record = id(record)?;
        self.write(|pen| pen.remove(&record))?;
        Ok(self.desk())
    }

    /// Restores a record.
    pub fn restore(&mut self, record: &str) -> Result<Desk, Trouble> {
        let record = id(record)?;
        self.write(|pen| pen.restore(&record))?;
        Ok(self.desk())
    }

    /// Takes a pick, or takes one back. The first one begins the sitting.
    pub fn tap(&mut self, by: i64) -> Result<RunningView, Trouble> {
        if by != 1 && by != -1 {
            return Err(Trouble::new("A tap is one pick, or one pick back."));
        }
        let shown = self.desk_warp();
        let open = self.opened()?;
        let Some(taps) = &mut open.taps else {
            return Err(Trouble::new(
                "Another Fellmark window on this device has this folder; weave there, or close it and open this one again.",
            ));
        };
        let (warp, sitting) = match &open.running {
            Some((running, _)) => (running.warp.clone(), running.sitting.clone()),
            None => {
                let warp = shown.ok_or_else(|| Trouble::new("No warp is on the loom. Begin one first."))?;
                (warp, RecordId::new())
            }
        };
        let tap = Tap { sitting, warp, by, at_ms: now_ms(), local: Local::now().format("%Y-%m-%dT%H:%M").to_string() };
        let line = serde_json::to_value(&tap).map_err(|error| Trouble::new(sentence(&error.to_string())))?;
        taps.append(&line)?;
        match &mut open.running {
            Some((running, _)) => running.add(&tap),
            None => {
                let under = UnderTheTaps::new(&open.journal, &tap.warp)
                    .ok_or_else(|| Trouble::new("This warp is not known here any more. Choose another one."))?;
                open.running = Some((Running::begun(&tap), under));
            }
        }
        let (running, under) =
            open.running.as_ref().ok_or_else(|| Trouble::new("The sitting could not be begun. Try again."))?;
        Ok(under.view(running, now_ms()))
    }

    /// The warp that is shown, if it is on the loom.
    fn desk_warp(&self) -> Option<RecordId> {
        let open = self.open.as_ref()?;
        let lines = desk::warp_lines(&open.journal, &self.manner(), today());
        let on = |id: &str| lines.iter().any(|line| line.id == id && line.state == WarpState::OnTheLoom);
        match &open.shown {
            Some(shown) if on(shown.as_str()) => Some(shown.clone()),
            _ => lines.iter().find(|line| line.state == WarpState::OnTheLoom).and_then(|line| line.id.parse().ok()),
        }
    }

    /// What getting up starts from.
    pub fn getting_up(&mut self) -> Result<GettingUp, Trouble> {
        let open = self.opened()?;
        let Some((running, _)) = &open.running else {
            return Err(Trouble::new("No sitting is going on."));
        };
        Ok(running.getting_up(now_ms()))
    }

    /// Logs the sitting that is going on; its id and the desk.
    pub fn get_up(&mut self, form: &SittingForm) -> Result<(Desk, String), Trouble> {
        let open = self.opened()?;
        let Some((running, _)) = &open.running else {
            return Err(Trouble::new("No sitting is going on."));
        };
        let (warp, sitting) = (running.warp.clone(), running.sitting.clone());
        let logged = self.write(|pen| pen.log_sitting(&warp, form, Some(sitting)))?;
        let open = self.opened()?;
        open.running = None;
        if let Some(taps) = &mut open.taps {
            taps.clear()?;
        }
        Ok((self.desk(), logged.to_string()))
    }

    /// Logs a sitting afterwards; its id and the desk.
    pub fn log_sitting(&mut self, warp: &str, form: &SittingForm) -> Result<(Desk, String), Trouble> {
        let warp = id(warp)?;
        let logged = self.write(|pen| pen.log_sitting(&warp, form, None))?;
        Ok((self.desk(), logged.to_string()))
    }

    /// Corrects a sitting.
    pub fn correct_sitting(&mut self, sitting: &str, form: &SittingForm, seen: &[String]) -> Result<Desk, Trouble> {
        let sitting = id(sitting)?;
        self.write(|pen| pen.correct_sitting(&sitting, form, &keys(seen)))?;
        Ok(self.desk())
    }

    /// Keeps a photo with a sitting.
    pub fn add_photo(&mut self, sitting: &str, bytes: &[u8]) -> Result<Desk, Trouble> {
        let sitting = id(sitting)?;
        self.write(|pen| pen.add_photo(&sitting, bytes))?;
        Ok(self.desk())
    }

    /// Picks one of two answers.
    pub fn settle(&mut self, record: &str, field: &str, key: &str) -> Result<Desk, Trouble> {
        let record = id(record)?;
        self.write(|pen| pen.settle(&record, field, key))?;
        Ok(self.desk())
    }

    /// Takes back what was done last.
    pub fn undo(&mut self) -> Result<Desk, Trouble> {
        self.write(|pen| pen.undo())?;
        Ok(self.desk())
    }

    /// What a typed measure is understood as.
    pub fn understand(&self, what: &str, text: &str) -> Understood {
        understand(what, text, &self.manner(), today())
    }

    /// Chooses the units.
    pub fn set_units(&mut self, units: &str) -> Result<Desk, Trouble> {
        let units = Units::from_word(units).ok_or_else(|| Trouble::at("units", "Units are metric or imperial."))?;
        self.write(|pen| pen.set_units(units))?;
        Ok(self.desk())
    }

    /// Names this device.
    pub fn set_device_name(&mut self, name: &str) -> Result<Desk, Trouble> {
        let name = name.trim();
        if name.is_empty() {
            return Err(Trouble::at(
                "name",
                "Give this device a name you will know it by, such as \u{201c}laptop\u{201d}.",
            ));
        }
        self.choice.device = Some(name.chars().take(60).collect());
        self.keep_choice();
        if let Some(folder) = self.open.as_ref().map(|open| open.journal.folder().to_owned()) {
            // The journal reads the name when it is opened; the lock goes with the old one.
            self.close();
            self.open(&folder, false)?;
        }
        Ok(self.desk())
    }

    /// Puts entries that vanished from the folder into it again.
    pub fn write_back(&mut self) -> Result<Desk, Trouble> {
        self.opened()?.journal.write_back()?;
        Ok(self.desk())
    }

    /// A small copy of a photo.
    pub fn small_photo(&self, warp: &RecordId, hash: &str, long_side_px: u32) -> Option<Vec<u8>> {
        self.open.as_ref()?.journal.thumbnail(warp, hash, long_side_px).ok()
    }

    /// Where a photo lies.
    pub fn photo_path(&self, warp: &RecordId, hash: &str) -> Option<PathBuf> {
        self.open.as_ref()?.journal.photo_path(warp, hash).ok()
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
        self.running = UnderTheTaps::new(&self.journal, &running.warp).map(|under| (running, under));
    }
}

/// What this device is called before she names it: the machine's name, else a plain word.
fn device_name() -> String {
    let name = std::fs::read_to_string("/etc/hostname").unwrap_or_default();
    let name = name.trim();
    if name.is_empty() { "this device".into() } else { name.chars().take(60).collect() }
}

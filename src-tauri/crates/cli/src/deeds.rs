//! The deeds: each opens the log, does one thing through the same pen as the window, and says what came of it.

mod find;
mod lists;
pub mod loom;
mod off;
mod plan;
mod tables;

use std::path::{Path, PathBuf};

use chrono::NaiveDate;
use fellmark_answers::model;
use fellmark_answers::model::commands::{Commands, chosen_units};
use fellmark_answers::model::display_format::{DisplayFormat, Units};
use fellmark_answers::present::export;
use fellmark_answers::present::messages::error_view;
use fellmark_answers::present::view::{SittingForm, UserError, WarpForm, WarpState};
use fellmark_answers::reports::reconcile;
use fellmark_answers::session::example;
use fellmark_journal::{Journal, Options};
use serde_json::{Value, json};
use sha2::{Digest, Sha256};

use self::off::StepChange;
use crate::arguments::argument_of;
use crate::say::{Failure, Outcome, Said};
use crate::words::{Deed, ExportWhat, UnitWord, Words};

/// The open log and how to speak.
struct Desk {
    journal: Journal,
    format: DisplayFormat,
    today: NaiveDate,
}

/// Does what was asked.
pub fn run(words: Words) -> Result<Said, Failure> {
    if matches!(words.deed, Deed::Check) {
        return check(&words.folder);
    }
    let mut desk = Desk::open(&words)?;
    let mut said = desk.run(words.deed)?;
    let status = desk.journal.status();
    if let Some(why) = &status.no_local_copy
        && said.outcome == Outcome::Done
    {
        said.outcome = Outcome::Attention;
        said.text.push_str(&format!(
            "\nWhat is written lies in the folder alone: this device's own disk took no copy of it ({why}). Free some space there."
        ));
        if let Value::Object(members) = &mut said.json {
            members.insert("no_local_copy".into(), json!(why));
        }
    }
    let waiting = status.waiting_to_write;
    if waiting > 0 && said.outcome != Outcome::NoFolder {
        said.outcome = Outcome::Attention;
        let sentence = status.folder.sentence().unwrap_or("The folder cannot take them now.");
        let why = status.folder_says.unwrap_or_else(|| sentence.to_owned());
        said.text.push_str(&format!(
            "\n{waiting} entries wait on this device. {why} They are written by the next command that can."
        ));
        if let Value::Object(members) = &mut said.json {
            members.insert("waiting".into(), json!(waiting));
        }
    }
    Ok(said)
}

fn check(folder: &Path) -> Result<Said, Failure> {
    if !folder.is_dir() {
        return Err(Failure::folder(format!("{} is no folder that can be read. Check the path.", folder.display())));
    }
    let problems = Journal::check(folder);
    let text = if problems.is_empty() {
        "Nothing is wrong with this folder.".to_owned()
    } else {
        let lines = problems.iter().map(|problem| match problem.line {
            Some(line) => format!("{}, line {line}: {} {}", problem.file.display(), problem.what, problem.do_what),
            None => format!("{}: {} {}", problem.file.display(), problem.what, problem.do_what),
        });
        lines.collect::<Vec<_>>().join("\n")
    };
    let json = json!({ "problems": problems.iter().map(|problem| json!({
        "file": problem.file, "line": problem.line, "what": problem.what, "advice": problem.do_what,
    })).collect::<Vec<_>>() });
    let outcome = if problems.is_empty() { Outcome::Done } else { Outcome::Attention };
    Ok(Said::new(text, json, outcome))
}

/// Where this device keeps its own data for this folder.
fn local_for(words: &Words) -> Result<PathBuf, Failure> {
    if let Some(local) = &words.local {
        return Ok(local.clone());
    }
    let Some(directories) = directories::ProjectDirs::from("", "", "fellmark") else {
        return Err(Failure::folder(
            "This account has no home folder to keep a device's data in. Give one with --local.",
        ));
    };
    let folder = words.folder.canonicalize().or_else(|_| std::path::absolute(&words.folder));
    let folder = folder.unwrap_or_else(|_| words.folder.clone());
    let mut hash = Sha256::new();
    hash.update(words.device.as_bytes());
    hash.update([0]);
    hash.update(folder.as_os_str().as_encoded_bytes());
    let digest = hash.finalize();
    let name: String = digest.iter().take(8).map(|byte| format!("{byte:02x}")).collect();
    Ok(directories.data_local_dir().join("command-line").join(name))
}

/// Makes a failure of what the log refused, with its sentence in this format and the argument it belongs to.
fn refused(format: DisplayFormat) -> impl Fn(model::UserError) -> Failure {
    move |error| input(error_view(error, &format))
}

fn input(trouble: UserError) -> Failure {
    let field = trouble.field.as_deref().map(argument_of);
    Failure::input(UserError { field, ..trouble })
}

impl Desk {
    fn open(words: &Words) -> Result<Self, Failure> {
        let begins = matches!(
            words.deed,
            Deed::Begin { .. } | Deed::Plan { begin: true, .. } | Deed::Plan { keep: true, .. } | Deed::Example
        );
        let mut options = Options::new(&words.folder, local_for(words)?, &words.device);
        options.create = begins;
        if begins && !words.folder.exists() {
            std::fs::create_dir_all(&words.folder).map_err(|error| {
                Failure::folder(format!("The folder {} cannot be made: {error}.", words.folder.display()))
            })?;
        }
        let journal = Journal::open(options).map_err(|error| Failure::folder(error.to_string()))?;
        let locale = words.locale.clone().or_else(|| {
            ["LC_ALL", "LC_TIME", "LANG"].iter().find_map(|name| std::env::var(name).ok().filter(|tag| !tag.is_empty()))
        });
        let mut format = locale.map(|tag| DisplayFormat::of_locale(&tag)).unwrap_or_default();
        let units = words.units.map(|word| match word {
            UnitWord::Metric => Units::Metric,
            UnitWord::Imperial => Units::Imperial,
        });
        if let Some(units) = units.or_else(|| chosen_units(journal.state())) {
            format = format.in_units(units);
        }
        let today = words.today.unwrap_or_else(|| chrono::Local::now().date_naive());
        Ok(Self { journal, format, today })
    }

    fn pen(&mut self) -> Commands<'_> {
        Commands { format: self.format, today: self.today, journal: &mut self.journal }
    }

    fn run(&mut self, deed: Deed) -> Result<Said, Failure> {
        match deed {
            Deed::Begin { name, figures } => {
                let mut form = WarpForm { name, ..WarpForm::default() };
                figures.over(&mut form);
                let warp = self.pen().begin_warp(&form).map_err(refused(self.format))?;
                Ok(Said::done(format!("Begun: {} ({warp})", form.name.trim()), json!({ "warp": warp })))
            }
            Deed::Change { warp, name, figures } => {
                let log = self.find_warp(&warp)?;
                let mut form =
                    fellmark_answers::present::fill_forms::show_warp_form(&log.warp, log.wefts.first(), &self.format);
                figures.over(&mut form);
                if let Some(name) = name {
                    form.name = name;
                }
                self.pen().change_warp(&log.warp.id, &form, &[]).map_err(refused(self.format))?;
                Ok(Said::done("Changed.", json!({ "warp": log.warp.id })))
            }
            Deed::Plan { figures, why, begin, keep } => self.plan(*figures, why, begin, keep),
            Deed::Plans => Ok(self.plans()),
            Deed::Log { warp, sitting, photo } => {
                let log = self.find_warp(&warp)?;
                let mut form = SittingForm::default();
                sitting.over(&mut form);
                let pictures = read_pictures(&photo)?;
                let told = reconcile::of_form(&log, &form, None, &self.format, self.today);
                let sitting = self.pen().log_sitting(&log.warp.id, &form, None).map_err(refused(self.format))?;
                let mut photos = Vec::new();
                for bytes in &pictures {
                    photos.push(self.pen().add_photo(&sitting, bytes).map_err(refused(self.format))?);
                }
                Ok(Said::done(
                    std::iter::once(format!("Logged: {sitting}")).chain(told.clone()).collect::<Vec<_>>().join("\n"),
                    json!({ "sitting": sitting, "warp": log.warp.id, "photos": photos, "told": told }),
                ))
            }
            Deed::Correct { sitting, figures } => {
                let (log, index) = self.find_sitting(&sitting)?;
                let held = &log.sittings[index];
                let mut form = fellmark_answers::present::fill_forms::show_sitting_form(held, &self.format);
                figures.over(&mut form);
                self.pen().correct_sitting(&held.id, &form, &[]).map_err(refused(self.format))?;
                Ok(Said::done("Corrected.", json!({ "sitting": held.id })))
            }
            Deed::Photo { sitting, file } => {
                let (log, index) = self.find_sitting(&sitting)?;
                let pictures = read_pictures(std::slice::from_ref(&file))?;
                let mut photos = Vec::new();
                for bytes in &pictures {
                    photos.push(self.pen().add_photo(&log.sittings[index].id, bytes).map_err(refused(self.format))?);
                }
                Ok(Said::done("Kept.", json!({ "sitting": log.sittings[index].id, "photos": photos })))
            }
            Deed::Remove { record } => {
                let id = self.find_record(&record)?;
                self.pen().remove(&id).map_err(refused(self.format))?;
                Ok(Said::done("Removed; `restore` brings it back.", json!({ "record": id })))
            }
            Deed::Restore { record } => {
                let id = self.find_record(&record)?;
                self.pen().restore(&id).map_err(refused(self.format))?;
                Ok(Said::done("Restored.", json!({ "record": id })))
            }
            Deed::Rest { warp } => self.set_state(&warp, WarpState::Resting, "Put aside."),
            Deed::TakeUp { warp } => self.set_state(&warp, WarpState::OnTheLoom, "Taken up again."),
            Deed::CutOff { warp, figures } => self.cut_off(&warp, figures),
            Deed::Import { file, list, warp, look } => self.import(&file, list.as_deref(), warp.as_deref(), look),
            Deed::Pace { split, within, picture, to } => {
                self.pace(split.as_deref(), within.as_deref(), picture, to.as_deref())
            }
            Deed::CameOut { warp } => self.came_out(&warp),
            Deed::Step { warp, step, on, not, drop, rename, add } => {
                let change = match (not, drop, add, rename) {
                    (true, ..) => StepChange::Untick,
                    (_, true, ..) => StepChange::Drop,
                    (_, _, true, _) => StepChange::Add,
                    (.., Some(name)) => StepChange::Rename(name),
                    _ => StepChange::Tick,
                };
                self.step(&warp, &step, on.as_deref(), change)
            }
            Deed::Place { warp, place, when } => self.place(&warp, place, &when),
            Deed::Note { warp, note, when } => self.note(&warp, *note, &when),
            Deed::Noted { warp } => self.noted(&warp),
            Deed::Yarns { warp } => self.yarns(&warp),
            Deed::AddYarn { warp, figures } => self.add_yarn(&warp, figures),
            Deed::ChangeYarn { warp, yarn, figures } => self.change_yarn(&warp, &yarn, figures),
            Deed::Draw { warp } => self.draw(&warp),
            Deed::Stretch { minutes } => self.stretch(&minutes),
            Deed::Answers { warp, why, all } => self.answers(warp.as_deref(), why, all),
            Deed::Warps => Ok(self.warps()),
            Deed::Sittings { warp, removed } => self.sittings(&warp, removed),
            Deed::Settle { record: Some(record), field: Some(field), key: Some(key) } => {
                let id = self.find_record(&record)?;
                self.pen().settle(&id, &field, &key).map_err(refused(self.format))?;
                Ok(Said::done("Settled.", json!({ "record": id, "field": field })))
            }
            Deed::Settle { .. } => Ok(self.to_settle()),
            Deed::Undo => {
                let found = self.pen().undo().map_err(refused(self.format))?;
                let undone = found.map(|found| fellmark_answers::present::undo::undone(&found, &self.journal));
                let text = undone.as_ref().map_or_else(
                    || "There is nothing of this device to take back.".to_owned(),
                    |undone| {
                        let note = undone.note.iter().map(|note| format!("\n{note}"));
                        format!("Taken back: {}.{}", undone.what, note.collect::<String>())
                    },
                );
                let (what, note) = undone.map(|undone| (undone.what, undone.note)).unzip();
                Ok(Said::done(text, json!({ "undone": what, "note": note.flatten() })))
            }
            Deed::Devices => Ok(self.devices()),
            Deed::WriteBack => {
                self.journal.write_back().map_err(|error| input(error.into()))?;
                let status = self.journal.status();
                Ok(Said::done(
                    "Written back.",
                    json!({ "waiting": status.waiting_to_write, "vanished": status.vanished }),
                ))
            }
            Deed::MarkFolder { confirm: _ } => {
                self.journal.mark_folder_again().map_err(|error| Failure::folder(error.to_string()))?;
                Ok(Said::done("Marked again.", json!({ "waiting": self.journal.status().waiting_to_write })))
            }
            Deed::Export { what, warp, to } => self.export(what, warp.as_deref(), to.as_deref()),
            Deed::Units { units } => {
                let units = if units == UnitWord::Metric { Units::Metric } else { Units::Imperial };
                self.pen().set_units(units).map_err(refused(self.format))?;
                Ok(Said::done(format!("Units: {}.", units.word()), json!({ "units": units.word() })))
            }
            Deed::Example => {
                if model::warp_logs(self.journal.state()).values().next().is_some() {
                    return Err(Failure::folder(
                        "This folder already holds a log. The invented example needs an empty folder of its own.",
                    ));
                }
                let (today, journal) = (self.today, &mut self.journal);
                example::fill(journal, today).map_err(refused(self.format))?;
                Ok(Said::done("Filled with an invented example.", json!({ "example": true })))
            }
            Deed::Check => check(self.journal.folder()),
        }
    }

    fn set_state(&mut self, warp: &str, state: WarpState, text: &str) -> Result<Said, Failure> {
        let id = self.find_warp(warp)?.warp.id;
        self.pen().set_state(&id, state).map_err(refused(self.format))?;
        Ok(Said::done(text, json!({ "warp": id })))
    }

    fn export(&self, what: ExportWhat, warp: Option<&str>, to: Option<&Path>) -> Result<Said, Failure> {
        let only = warp.map(|warp| self.find_warp(warp)).transpose()?.map(|log| log.warp.id);
        let state = self.journal.state();
        let made = match what {
            ExportWhat::Sittings => export::sittings_csv(state, only.as_ref()),
            ExportWhat::Warps => export::warps_csv(state, only.as_ref()),
            ExportWhat::Everything => Ok(format!("{:#}", export::everything(state, only.as_ref()))),
            other => return self.take_out(other.word(), warp, to),
        };
        let made = made.map_err(Failure::input)?;
        match to {
            None if what == ExportWhat::Everything => {
                let json = export::everything(state, only.as_ref());
                Ok(Said::exact(made, json))
            }
            None => Ok(Said::exact(made.clone(), json!({ "csv": made }))),
            Some(file) => {
                std::fs::write(file, &made)
                    .map_err(|error| Failure::folder(format!("{} cannot be written: {error}.", file.display())))?;
                Ok(Said::done(format!("Written to {}.", file.display()), json!({ "file": file })))
            }
        }
    }
}

fn read_pictures(files: &[PathBuf]) -> Result<Vec<Vec<u8>>, Failure> {
    let read = files.iter().map(|file| {
        std::fs::read(file).map_err(|error| {
            Failure::input(UserError::at("--photo", format!("{} cannot be read: {error}.", file.display())))
        })
    });
    read.collect()
}

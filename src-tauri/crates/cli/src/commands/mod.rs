//! The commands: each opens the session the window opens too, does one thing, and gives what is printed.

mod check;
mod find;
mod lists;
mod measurements;
mod off_loom;
mod open;
mod plan;
mod records;
mod sittings;
mod transfer;
mod warps;

use chrono::NaiveDate;
use fellmark_model::display_format::DisplayFormat;
use fellmark_present::view::{ErrorView, WarpState};
use fellmark_session::Session;
use serde_json::{Value, json};

use self::off_loom::StepChange;
use self::open::Opened;
use self::transfer::Target;
use crate::args::{Args, Command, UnitArg, argument_of};
use crate::output::{Failure, Outcome, Output};

/// Runs a command on an open session.
struct Runner {
    session: Session,
}

/// Does what the arguments say.
pub fn run(mut args: Args) -> Result<Output, Failure> {
    args.folder = fellmark_session::in_home(&args.folder);
    if matches!(args.command, Command::Check) {
        return check::check(&args.folder);
    }
    let mut runner = match open::open(&mut args)? {
        Opened::Log(session) => Runner { session: *session },
        Opened::Answer(output) => return Ok(output),
    };
    let mut output = runner.run(args.command, args.weights)?;
    let status = runner.session.journal().status();
    if let Some(why) = &status.no_local_copy
        && output.outcome != Outcome::NoFolder
    {
        output.outcome = Outcome::Attention;
        output.text.push_str(&format!(
            "\nWhat is written lies in the folder alone: this device's own disk took no copy of it ({why}). Free some space there."
        ));
        if let Value::Object(members) = &mut output.json {
            members.insert("no_local_copy".into(), json!(why));
        }
    }
    let waiting = status.waiting_to_write;
    if waiting > 0 && output.outcome != Outcome::NoFolder {
        output.outcome = Outcome::Attention;
        let sentence = fellmark_present::folder_words::folder_sentence(status.folder)
            .unwrap_or("The folder cannot take them now.");
        let why = status.folder_says.unwrap_or_else(|| sentence.to_owned());
        output.text.push_str(&format!(
            "\n{waiting} entries wait on this device. {why} They are written by the next command that can."
        ));
        if let Value::Object(members) = &mut output.json {
            members.insert("waiting".into(), json!(waiting));
        }
    }
    Ok(output)
}

/// The failure of a command that was refused; it names the argument instead of the form's field.
fn refused(error: ErrorView) -> Failure {
    let field = error.field.as_deref().map(argument_of);
    Failure::input(ErrorView { field, ..error })
}

impl Runner {
    fn format(&self) -> DisplayFormat {
        self.session.format()
    }

    fn today(&self) -> NaiveDate {
        self.session.clock().today()
    }

    fn run(&mut self, command: Command, weights: Option<UnitArg>) -> Result<Output, Failure> {
        match command {
            Command::Begin { name, figures } => self.begin(name, figures),
            Command::Change { warp, name, figures } => self.change(&warp, name, figures),
            Command::Plan { figures, why, begin, save } => self.plan(*figures, why, begin, save),
            Command::Plans => Ok(self.plans()),
            Command::Log { warp, sitting, photo } => self.log(&warp, sitting, &photo),
            Command::Correct { sitting, figures } => self.correct(&sitting, figures),
            Command::Photo { sitting, file } => self.photo(&sitting, file),
            Command::Remove { record } => self.remove(&record),
            Command::Restore { record } => self.restore(&record),
            Command::SetAside { warp } => self.set_warp_state(&warp, WarpState::Resting, "Put aside."),
            Command::Resume { warp } => self.set_warp_state(&warp, WarpState::OnTheLoom, "Taken up again."),
            Command::CutOff { warp, figures } => self.cut_off(&warp, figures),
            Command::Import { file, list, warp, preview } => {
                self.import(&file, list.as_deref(), warp.as_deref(), preview)
            }
            Command::Pace { split, within, picture, to, overwrite } => {
                let target = to.as_deref().map(|path| Target { path, overwrite });
                self.pace(split.as_deref(), within.as_deref(), picture, target)
            }
            Command::Results { warp } => self.results(&warp),
            Command::Step { warp, step, on, not_done, remove, rename, add } => {
                let change = match (not_done, remove, add, rename) {
                    (true, ..) => StepChange::Untick,
                    (_, true, ..) => StepChange::Remove,
                    (_, _, true, _) => StepChange::Add,
                    (.., Some(name)) => StepChange::Rename(name),
                    _ => StepChange::Tick,
                };
                self.step(&warp, &step, on.as_deref(), change)
            }
            Command::Place { warp, place, when } => self.place(&warp, place, &when),
            Command::Measure { warp, measured, when } => self.measure(&warp, *measured, &when),
            Command::Measurements { warp } => self.measurements(&warp),
            Command::Yarns { warp } => self.yarns(&warp),
            Command::AddYarn { warp, figures } => self.add_yarn(&warp, figures),
            Command::ChangeYarn { warp, yarn, figures } => self.change_yarn(&warp, &yarn, figures),
            Command::Draw { warp } => self.draw(&warp),
            Command::Stretch { minutes } => self.stretch(&minutes),
            Command::Answers { warp, why, all } => self.answers(warp.as_deref(), why, all),
            Command::Warps => Ok(self.warps()),
            Command::Sittings { warp, removed } => self.sittings(&warp, removed),
            Command::Resolve { record: Some(record), field: Some(field), key: Some(key) } => {
                self.resolve(&record, &field, &key)
            }
            Command::Resolve { .. } => Ok(self.conflicts()),
            Command::Undo => self.undo(),
            Command::Devices => Ok(self.devices()),
            Command::WriteBack => self.write_back(),
            Command::MarkFolder { confirm: _ } => self.mark_folder(),
            Command::Export { what, warp, to, overwrite } => {
                let target = to.as_deref().map(|path| Target { path, overwrite });
                self.export(what, warp.as_deref(), target)
            }
            Command::Units { units } => self.units(units, weights),
            Command::Sample => self.sample(),
            Command::Check => check::check(self.session.folder()),
        }
    }
}

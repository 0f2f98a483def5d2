//! The folder and how it is doing.

use crate::folder_words::{folder_sentence, problem_advice, problem_sentence};
use chrono::{DateTime, NaiveDate, TimeZone, Utc};
use fellmark_journal::FolderState;

use super::Presenter;
use crate::dates::DateText;
use crate::view::{DeviceLine, FolderView, ProblemLine};
use fellmark_model::display_format::DisplayFormat;

/// Most problems that are listed; the rest are counted.
const MOST_PROBLEMS: usize = 50;

/// The folder and how it is doing.
pub(super) fn view(presenter: &Presenter<'_>, zone: &impl TimeZone) -> FolderView {
    let (journal, format, today) = (presenter.journal, presenter.format, presenter.today);
    let status = journal.status();
    let this = journal.device();
    let devices = super::devices(journal);
    let local_day = |at: DateTime<Utc>| at.with_timezone(zone).date_naive();
    let lines = devices
        .iter()
        .map(|device| DeviceLine {
            name: device.name.clone(),
            this_one: &device.id == this,
            last_wrote: match device.last_wrote {
                Some(at) => format!("last wrote {}", on_day(local_day(at), format, today)),
                None => "has not written yet".into(),
            },
        })
        .collect();
    let name = devices.iter().find(|device| &device.id == this).map_or_else(String::new, |device| device.name.clone());
    let questions: usize = presenter.report_cache.summaries().map(|one| one.questions).sum();
    let mut parts = Vec::new();
    if status.read_only {
        parts.push("another Fellmark on this device has this folder open, so this one only shows it".to_owned());
    }
    if let Some(says) = &status.folder_says {
        parts.push(says.trim_end_matches('.').to_owned());
    }
    if status.folder == FolderState::Unmarked
        && let Some(sentence) = folder_sentence(status.folder)
    {
        parts.push(sentence.trim_end_matches('.').to_owned());
    }
    if status.waiting_to_write > 0 {
        parts.push(format!(
            "{} to be written when the folder can take them",
            count(status.waiting_to_write, "entry waits", "entries wait")
        ));
    }
    if let Some(says) = &status.no_local_copy {
        parts.push(format!(
            "what is written lies in the folder alone: this device's own disk took no copy of it ({says})"
        ));
    }
    if status.vanished > 0 {
        parts.push(format!(
            "{} from the folder and kept here",
            count(status.vanished, "entry vanished", "entries vanished")
        ));
    }
    if questions > 0 {
        parts.push(count(questions, "field with two answers to settle", "fields with two answers to settle"));
    }
    if !status.problems.is_empty() {
        parts.push(count(status.problems.len(), "file needs a look", "files need a look"));
    }
    let attention = !parts.is_empty() || status.folder != FolderState::Ok;
    if parts.is_empty() {
        parts.push("all here".into());
        let other = devices
            .iter()
            .filter(|device| &device.id != this)
            .filter_map(|device| device.last_wrote.map(|at| (at, device)));
        if let Some((at, device)) = other.max_by_key(|(at, _)| *at) {
            parts.push(format!("{} last wrote {}", device.name, on_day(local_day(at), format, today)));
        }
    }
    let problems = status.problems.iter().take(MOST_PROBLEMS).map(|problem| ProblemLine {
        file: match problem.line {
            Some(line) => format!("{}, line {line}", problem.file.display()),
            None => problem.file.display().to_string(),
        },
        what: problem_sentence(&problem.kind),
        advice: problem_advice(&problem.kind).to_owned(),
    });
    let mut line = parts.join("; ");
    if let Some(first) = line.chars().next() {
        line.replace_range(..first.len_utf8(), &first.to_uppercase().to_string());
    }
    FolderView {
        path: journal.folder().display().to_string(),
        device: name,
        example: fellmark_model::commands::is_example(journal.state()),
        stretch_minutes: crate::running_sitting::stretch_minutes(journal.state()),
        line: line + ".",
        attention,
        waiting: status.waiting_to_write,
        unmarked: status.folder == FolderState::Unmarked && !status.read_only,
        devices: lines,
        problems: problems.collect(),
    }
}

fn count(n: usize, one: &str, many: &str) -> String {
    if n == 1 { format!("1 {one}") } else { format!("{n} {many}") }
}

/// "today", "yesterday", "on Tuesday 24 November".
fn on_day(day: NaiveDate, format: &DisplayFormat, today: NaiveDate) -> String {
    match (today - day).num_days() {
        0 | 1 => format.spoken_day(day, today),
        _ => format!("on {}", format.weekday_date(day, today)),
    }
}

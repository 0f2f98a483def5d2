//! Everything at a glance: the views of warps, sittings and the folder, made from the journal's state.

use std::collections::BTreeMap;

use chrono::{DateTime, NaiveDate, TimeZone, Utc};
use fellmark_journal::{FolderState, Journal, Presence, Record, RecordId};
use serde_json::Value;

use crate::fields::{self, kind};
use crate::forms::{picks_in_units, show_sitting_form, show_warp_form};
use crate::manner::{Manner, Units};
use crate::measures::{show_length, show_mass, show_minutes};
use crate::model::{self, Sitting, Warp, WarpLog};
use crate::progress::Progress;
use crate::running::Running;
use crate::view::{
    DeviceLine, Figures, FolderView, LoomView, MannerView, OneAnswer, PhotoView, ProblemLine, SittingLine, StripPhoto,
    ToSettle, WarpLine, WarpState,
};
use crate::when::History;
use crate::{at_loom, came_out, finishing, notes, picture, reach, sequence, weft_reach, when, where_am_i};

/// Most problems that are listed; the rest are counted.
const MOST_PROBLEMS: usize = 50;

/// How figures are written, for the interface.
#[must_use]
pub fn manner_view(manner: &Manner) -> MannerView {
    let (units, length_unit, mass_unit, density_unit) = match manner.units {
        Units::Metric => ("metric", "cm", "g", "picks per 10\u{a0}cm"),
        Units::Imperial => ("imperial", "in", "oz", "picks per inch"),
    };
    MannerView {
        units: units.into(),
        length_unit: length_unit.into(),
        mass_unit: mass_unit.into(),
        density_unit: density_unit.into(),
    }
}

/// Every warp that is off the loom, as history for the others.
fn history(logs: &BTreeMap<RecordId, WarpLog>, than: &RecordId) -> History {
    let off = || logs.values().filter(|log| log.warp.state == WarpState::OffTheLoom && log.warp.id != *than);
    History {
        earlier: off().map(|log| when::as_earlier(log, &Progress::of(log, 0))).collect(),
        finishing: finishing::history(off()),
    }
}

pub use crate::at_loom::UnderTheTaps;

/// One warp with its three answers while a sitting on it is going on.
#[must_use]
pub fn loom_while(
    journal: &Journal,
    warp: &RecordId,
    running: Option<&Running>,
    manner: &Manner,
    today: NaiveDate,
) -> Option<LoomView> {
    let logs = model::warp_logs(journal.state());
    let mut log = logs.get(warp)?.clone();
    log.running = running.map(|running| running.sitting.clone());
    let picks = running.map_or(0, |running| running.picks);
    Some(loom_of(journal, &log, &logs, picks, manner, today))
}

/// One warp with its three answers; `running_picks` are those of a sitting that is going on.
#[must_use]
pub fn loom(
    journal: &Journal,
    warp: &RecordId,
    running_picks: i64,
    manner: &Manner,
    today: NaiveDate,
) -> Option<LoomView> {
    let logs = model::warp_logs(journal.state());
    let log = logs.get(warp)?;
    Some(loom_of(journal, log, &logs, running_picks, manner, today))
}

fn loom_of(
    journal: &Journal,
    log: &WarpLog,
    logs: &BTreeMap<RecordId, WarpLog>,
    running_picks: i64,
    manner: &Manner,
    today: NaiveDate,
) -> LoomView {
    let progress = Progress::of(log, running_picks);
    let mut figures = Figures::default();
    let place = sequence::place(log, &progress);
    let where_am_i = where_am_i::answer(log, &progress, place.as_ref(), manner, today, &mut figures);
    let warp_reach = reach::warp_answer(log, &progress, manner, &mut figures);
    let weft_reach = weft_reach::weft_answer(log, &progress, manner, &mut figures);
    let when = when::answer(log, &progress, &history(logs, &log.warp.id), manner, today, &mut figures);
    let devices = device_names(journal);
    let photos = photos_by_sitting(journal, log);
    let photo_of = |index: usize| {
        let sitting = log.sittings.get(index)?;
        photos.get(&sitting.id)?.iter().find(|photo| !photo.missing).map(|photo| photo.small.clone())
    };
    let picture = picture::draw(log, &progress, &photo_of, manner, today);
    let line = |sitting: &Sitting| sitting_line(sitting, &devices, &photos, manner, today);
    LoomView {
        id: log.warp.id.to_string(),
        name: log.warp.name.clone(),
        state: log.warp.state,
        where_am_i,
        warp_reach,
        weft_reach,
        when: when.answer,
        figures,
        place,
        picture,
        days: when.days,
        sittings: log.sittings.iter().rev().map(line).collect(),
        yarns: notes::yarn_views(log, &progress, manner),
        moments: notes::moment_lines(log, manner, today),
        strip: strip(log, &progress, &photos, manner, today),
        picks_per_tap: log.warp.picks_per_tap,
        around: if log.running.is_none() { at_loom::first_presses(log) } else { Vec::new() },
        removed: log.removed.iter().rev().map(line).collect(),
        to_settle: to_settle(journal, log, manner, today),
        form: show_warp_form(&log.warp, log.wefts.first(), manner),
        seen: log.warp.seen.iter().map(ToString::to_string).collect(),
        cautions: cautions(&log.warp),
        off: came_out::view(log, &progress, logs.values(), manner, today),
    }
}

/// The cautions that matter for a warp.
fn cautions(warp: &Warp) -> Vec<String> {
    let mut cautions = Vec::new();
    if warp.for_child {
        cautions.push(
            "For a young child: scarves, cords and fringes can strangle. A closed cowl without ties or long fringe is safer, \
             never for sleep or play. Follow the product-safety rules where it will be worn."
                .to_owned(),
        );
    }
    if warp.state == WarpState::OffTheLoom {
        cautions.push(
            "Wet finishing: hot water and steam scald. Test the heat first, and keep children and animals away."
                .to_owned(),
        );
    }
    cautions
}

/// Picks that one press counts on a warp.
#[must_use]
pub fn picks_per_tap(journal: &Journal, warp: &RecordId) -> i64 {
    model::warp_log(journal.state(), warp).map_or(1, |log| log.warp.picks_per_tap)
}

/// Every warp as a line, those on the loom first, then the latest begun.
#[must_use]
pub fn warp_lines(journal: &Journal, manner: &Manner, today: NaiveDate) -> Vec<WarpLine> {
    let logs = model::warp_logs(journal.state());
    let mut shown: Vec<&WarpLog> = logs.values().collect();
    let rank = |state: WarpState| match state {
        WarpState::OnTheLoom => 0,
        WarpState::Resting => 1,
        WarpState::OffTheLoom => 2,
        WarpState::Removed => 3,
    };
    shown.sort_by(|a, b| {
        let key = |log: &WarpLog| (rank(log.warp.state), std::cmp::Reverse(log.warp.begun_on), log.warp.id.clone());
        key(a).cmp(&key(b))
    });
    shown.into_iter().map(|log| warp_line(log, &logs, manner, today)).collect()
}

fn warp_line(log: &WarpLog, logs: &BTreeMap<RecordId, WarpLog>, manner: &Manner, today: NaiveDate) -> WarpLine {
    let progress = Progress::of(log, 0);
    let about = if progress.rough { "about " } else { "" };
    let woven = match (progress.woven, progress.wanted_mm) {
        (Some(_), Some(wanted)) => {
            format!("{about}{} of {} woven", show_length(progress.woven_mm(), manner), show_length(wanted, manner))
        }
        (Some(_), None) => format!("{about}{} woven", show_length(progress.woven_mm(), manner)),
        (None, _) => format!("{} picks woven", progress.picks),
    };
    let line = match log.warp.state {
        WarpState::OnTheLoom => {
            let mut figures = Figures::default();
            let told = when::answer(log, &progress, &history(logs, &log.warp.id), manner, today, &mut figures);
            format!("{woven}. {}", told.answer.headline)
        }
        WarpState::Resting => format!("{woven}; resting"),
        WarpState::OffTheLoom => {
            let stands = came_out::line(log, manner, today);
            let sittings = if log.sittings.len() == 1 {
                "1 sitting".to_owned()
            } else {
                format!("{} sittings", log.sittings.len())
            };
            let minutes =
                if progress.minutes > 0.0 { format!(", {}", show_minutes(progress.minutes)) } else { String::new() };
            format!("{} woven in {sittings}{minutes}. {stands}", show_length(progress.woven_mm(), manner))
        }
        WarpState::Removed => "removed".into(),
    };
    WarpLine {
        id: log.warp.id.to_string(),
        name: log.warp.name.clone(),
        state: log.warp.state,
        line,
        share: progress.share(),
        to_settle: log.to_settle.len(),
    }
}

fn device_names(journal: &Journal) -> BTreeMap<String, String> {
    journal.devices().into_iter().map(|device| (device.id.to_string(), device.name)).collect()
}

fn name_of<'a>(device: &'a str, names: &'a BTreeMap<String, String>) -> &'a str {
    names.get(device).map_or(device, String::as_str)
}

/// Address of a stored photo, as the window's photo scheme takes it.
fn photo_address(warp: &RecordId, hash: &str, size: &str) -> String {
    format!("photo://localhost/{warp}.{hash}.{size}")
}

fn photos_by_sitting(journal: &Journal, log: &WarpLog) -> BTreeMap<RecordId, Vec<PhotoView>> {
    let stored = journal.photos(&log.warp.id);
    let mut by_sitting: BTreeMap<RecordId, Vec<PhotoView>> = BTreeMap::new();
    for photo in &log.photos {
        let Some(sitting) = &photo.sitting else { continue };
        let missing = !stored.contains(&photo.hash);
        let view = PhotoView {
            id: photo.id.to_string(),
            small: photo_address(&log.warp.id, &photo.hash, "small"),
            large: photo_address(&log.warp.id, &photo.hash, "large"),
            text: if missing { "a photo that has not arrived yet".into() } else { "photo of this sitting".into() },
            missing,
        };
        by_sitting.entry(sitting.clone()).or_default().push(view);
    }
    by_sitting
}

fn sitting_line(
    sitting: &Sitting,
    devices: &BTreeMap<String, String>,
    photos: &BTreeMap<RecordId, Vec<PhotoView>>,
    manner: &Manner,
    today: NaiveDate,
) -> SittingLine {
    SittingLine {
        id: sitting.id.to_string(),
        day: manner.weekday_date(sitting.on, today),
        line: sitting_words(sitting, manner),
        note: sitting.note.clone(),
        device: name_of(&sitting.by, devices).to_owned(),
        photos: photos.get(&sitting.id).cloned().unwrap_or_default(),
        contested: sitting.contested,
        form: show_sitting_form(sitting, manner),
        seen: sitting.seen.iter().map(ToString::to_string).collect(),
    }
}

/// The photos over time, the earliest first.
fn strip(
    log: &WarpLog,
    progress: &Progress,
    photos: &BTreeMap<RecordId, Vec<PhotoView>>,
    manner: &Manner,
    today: NaiveDate,
) -> Vec<StripPhoto> {
    let mut strip = Vec::new();
    for (index, sitting) in log.sittings.iter().enumerate() {
        let cloth = progress.stretches.get(index).map(|(_, to)| show_length(*to, manner)).unwrap_or_default();
        let about = if sitting.rough { "about " } else { "" };
        for photo in photos.get(&sitting.id).into_iter().flatten() {
            strip.push(StripPhoto {
                id: photo.id.clone(),
                sitting: sitting.id.to_string(),
                day: manner.date(sitting.on, today),
                cloth: format!("{about}{cloth}"),
                small: photo.small.clone(),
                large: photo.large.clone(),
                text: format!("{}, {about}{cloth} woven", manner.weekday_date(sitting.on, today)),
                missing: photo.missing,
            });
        }
    }
    strip
}

/// "42 min, 118 picks, 41 cm from the start"; rough figures each with an "about".
fn sitting_words(sitting: &Sitting, manner: &Manner) -> String {
    let mut parts = Vec::new();
    let about = if sitting.rough { "about " } else { "" };
    if let Some(minutes) = sitting.minutes {
        parts.push(format!("{about}{}", show_minutes(minutes)));
    }
    match sitting.picks {
        Some(1) => parts.push(format!("{about}1 pick")),
        Some(picks) if picks < 0 => parts.push(format!("{about}{} picks unwoven", -picks)),
        Some(picks) => parts.push(format!("{about}{picks} picks")),
        None => {}
    }
    if let Some(tape) = sitting.tape {
        let from = if tape.from_mark { "from the mark" } else { "from the start" };
        let relaxed = if tape.relaxed { ", relaxed" } else { "" };
        parts.push(format!("{about}{} {from}{relaxed}", show_length(tape.mm, manner)));
    }
    if let Some(mass) = sitting.weft_left_g {
        parts.push(format!("{about}{} of weft left", show_mass(mass, manner)));
    }
    if sitting.pick_begun {
        parts.push("got up within a pick".into());
    }
    if sitting.mark_set {
        parts.push("mark set".into());
    }
    if sitting.rough {
        parts.push("rough figures".into());
    }
    if parts.is_empty() { "only a note".into() } else { parts.join(", ") }
}

/// The fields of a warp and of what belongs to it that hold two answers.
#[must_use]
pub fn to_settle(journal: &Journal, log: &WarpLog, manner: &Manner, today: NaiveDate) -> Vec<ToSettle> {
    let devices = device_names(journal);
    let mut all = Vec::new();
    for record in &log.to_settle {
        let whose = whose(record, log, manner, today);
        if record.presence == Presence::RemovedHereEditedThere {
            all.push(ToSettle {
                record: record.id.to_string(),
                field: fellmark_journal::GONE.into(),
                what: format!("{whose}: removed on one device, changed on another"),
                answers: Vec::new(),
            });
        }
        for (field, answers) in record.unsettled().filter(|(field, _)| *field != fields::ACT) {
            let used = record.get(field);
            all.push(ToSettle {
                record: record.id.to_string(),
                field: field.to_owned(),
                what: format!("{whose}: {}", field_words(field)),
                answers: answers
                    .iter()
                    .map(|answer| OneAnswer {
                        key: answer.key.to_string(),
                        value: value_words(field, &answer.value, manner, today),
                        device: name_of(answer.by.as_str(), &devices).to_owned(),
                        in_use: Some(&answer.value) == used,
                    })
                    .collect(),
            });
        }
    }
    all
}

fn whose(record: &Record, log: &WarpLog, manner: &Manner, today: NaiveDate) -> String {
    match record.kind.as_str() {
        kind::SITTING => {
            let sitting = log.sittings.iter().find(|sitting| sitting.id == record.id);
            sitting.map_or_else(|| "a sitting".into(), |sitting| manner.weekday_date(sitting.on, today))
        }
        kind::WEFT => "the weft".into(),
        kind::PLACE => "a place in the sequence".into(),
        kind::READING => "a measure".into(),
        kind::WEIGHING => "a weighing".into(),
        kind::JOIN => "a yarn taken up".into(),
        kind::PHOTO => "a photo".into(),
        _ => log.warp.name.clone(),
    }
}

/// A field in words: the journal's name without its unit.
fn field_words(field: &str) -> String {
    let plain = field.strip_suffix("_mm").or_else(|| field.strip_suffix("_g")).unwrap_or(field);
    plain.replace('_', " ")
}

fn value_words(field: &str, value: &Value, manner: &Manner, today: NaiveDate) -> String {
    match value {
        Value::Null => "nothing".into(),
        Value::Bool(true) => "yes".into(),
        Value::Bool(false) => "no".into(),
        Value::Number(number) => {
            let number = number.as_f64().unwrap_or(0.0);
            if field.ends_with("_mm") {
                show_length(number, manner)
            } else if field.ends_with("_g") {
                show_mass(number, manner)
            } else if field == fields::sitting::MINUTES {
                show_minutes(number)
            } else if field == fields::warp::PICKS_PER_10CM {
                manner.number(picks_in_units(number, manner.units), 2)
            } else {
                manner.number(number, 2)
            }
        }
        Value::String(text) => {
            text.parse::<NaiveDate>().map_or_else(|_| text.replace('_', " "), |day| manner.weekday_date(day, today))
        }
        Value::Array(items) => items.iter().filter_map(Value::as_str).collect::<Vec<_>>().join("; "),
        Value::Object(_) => "something this version does not know".into(),
    }
}

/// The folder and how it is doing.
#[must_use]
pub fn folder(journal: &Journal, manner: &Manner, today: NaiveDate, zone: &impl TimeZone) -> FolderView {
    let status = journal.status();
    let this = journal.device();
    let devices = journal.devices();
    let local_day = |at: DateTime<Utc>| at.with_timezone(zone).date_naive();
    let lines = devices
        .iter()
        .map(|device| DeviceLine {
            name: device.name.clone(),
            this_one: &device.id == this,
            last_wrote: match device.last_wrote {
                Some(at) => format!("last wrote {}", on_day(local_day(at), manner, today)),
                None => "has not written yet".into(),
            },
        })
        .collect();
    let name = devices.iter().find(|device| &device.id == this).map_or_else(String::new, |device| device.name.clone());
    let questions: usize =
        model::warp_logs(journal.state()).values().map(|log| to_settle(journal, log, manner, today).len()).sum();
    let mut parts = Vec::new();
    if status.read_only {
        parts.push("another Fellmark on this device has this folder open, so this one only shows it".to_owned());
    }
    if let Some(says) = &status.folder_says {
        parts.push(says.trim_end_matches('.').to_owned());
    }
    if status.waiting_to_write > 0 {
        parts.push(format!(
            "{} to be written when the folder can take them",
            count(status.waiting_to_write, "entry waits", "entries wait")
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
            parts.push(format!("{} last wrote {}", device.name, on_day(local_day(at), manner, today)));
        }
    }
    let problems = status.problems.iter().take(MOST_PROBLEMS).map(|problem| ProblemLine {
        file: match problem.line {
            Some(line) => format!("{}, line {line}", problem.file.display()),
            None => problem.file.display().to_string(),
        },
        what: problem.what.clone(),
        advice: problem.do_what.clone(),
    });
    let mut line = parts.join("; ");
    if let Some(first) = line.chars().next() {
        line.replace_range(..first.len_utf8(), &first.to_uppercase().to_string());
    }
    FolderView {
        path: journal.folder().display().to_string(),
        device: name,
        example: crate::pen::is_example(journal.state()),
        stretch_minutes: crate::at_loom::stretch_minutes(journal.state()),
        line: line + ".",
        attention,
        waiting: status.waiting_to_write,
        devices: lines,
        problems: problems.collect(),
    }
}

fn count(n: usize, one: &str, many: &str) -> String {
    if n == 1 { format!("1 {one}") } else { format!("{n} {many}") }
}

/// "today", "yesterday", "on Tuesday 24 November".
fn on_day(day: NaiveDate, manner: &Manner, today: NaiveDate) -> String {
    match (today - day).num_days() {
        0 | 1 => manner.spoken_day(day, today),
        _ => format!("on {}", manner.weekday_date(day, today)),
    }
}

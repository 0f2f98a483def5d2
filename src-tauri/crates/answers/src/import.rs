//! Bringing tables in: sittings and old warps from CSV. Everything is read first; what comes in is written as one action, so that it
//! is all there or not at all, and undo takes it back as a whole.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;
use fellmark_journal::{Draft, Kind, Place, RecordId, State};
use serde_json::{Value, json};

use crate::fields::{self, kind, sitting};
use crate::forms::FieldMap;
use crate::manner::Manner;
use crate::measures::{Reader, show_length, show_mass, show_yarn};
use crate::model::{self, WarpLog};
use crate::pen::Pen;
use crate::tables::{self, Column, Holds, LISTS, List, read_exact, short, word, yes_no};
use crate::view::{ImportColumn, ImportField, ImportForm, ImportRefused, ImportView, Trouble};
use crate::wanted;

/// More rows than this are refused: a lifetime of weaving has fewer.
const MOST_ROWS: usize = 20_000;
/// Rows shown before anything is written.
const SHOWN: usize = 8;
/// Refused rows that are listed; the rest are counted.
const REFUSED_LISTED: usize = 200;
/// Columns that are no field of a list.
const NONE: &str = "-";
const WARP: &str = "warp";
const WARP_ID: &str = "warp_id";
const ID: &str = "id";

/// Text of a file: UTF-8, else as older spreadsheets write it (Windows-1252 without its curly signs).
#[must_use]
pub fn decode(bytes: &[u8]) -> String {
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    String::from_utf8(bytes.to_vec()).unwrap_or_else(|_| bytes.iter().map(|byte| char::from(*byte)).collect())
}

/// What a table was read as.
struct Read {
    view: ImportView,
    drafts: Vec<Draft>,
}

/// Hears how many rows are done, of how many, and says whether to go on.
pub type Heed<'a> = &'a mut dyn FnMut(usize, usize) -> bool;

/// Field of the trouble that says she stopped it.
pub const STOPPED: &str = "stopped";
/// Rows between two tellings.
const TOLD_EVERY: usize = 50;

fn told(heed: Heed<'_>, done: usize, of: usize) -> Result<(), Trouble> {
    if heed(done, of) { Ok(()) } else { Err(Trouble::at(STOPPED, "Stopped. Nothing was brought in.")) }
}

/// What would come in, before anything is written.
///
/// # Errors
/// The text is no table, or she stopped it.
pub fn preview(
    state: &State,
    form: &ImportForm,
    manner: &Manner,
    today: NaiveDate,
    heed: Heed<'_>,
) -> Result<ImportView, Trouble> {
    read(state, form, manner, today, heed).map(|read| read.view)
}

impl Pen<'_> {
    /// Brings a table in as one action; how many rows came in, and the refused ones. It can be stopped until all rows are read:
    /// only then they are written, all at once.
    ///
    /// # Errors
    /// The text is no table, no row of it can be taken, she stopped it, or it could not be written.
    pub fn bring_in(&mut self, form: &ImportForm, heed: Heed<'_>) -> Result<ImportView, Trouble> {
        let read = read(self.journal.state(), form, &self.manner, self.today, heed)?;
        if read.drafts.is_empty() {
            let why = read.view.refused.first().map_or_else(
                || "The table has no rows.".to_owned(),
                |first| format!("No row can be taken. Line {}: {}", first.line, first.why),
            );
            return Err(Trouble::at("text", why));
        }
        self.act(read.drafts)?;
        Ok(ImportView { line: read.view.line.replace("would be brought in", "were brought in"), ..read.view })
    }
}

fn delimiter(first_line: &str) -> u8 {
    let count = |sign: char| first_line.matches(sign).count();
    [(b',', count(',')), (b';', count(';')), (b'\t', count('\t'))]
        .into_iter()
        .max_by_key(|(_, n)| *n)
        .filter(|(_, n)| *n > 0)
        .map_or(b',', |(sign, _)| sign)
}

fn plain(heading: &str) -> String {
    heading.trim().trim_start_matches('\u{feff}').to_lowercase()
}

fn guess_list(headings: &[String]) -> &'static List {
    let has = |names: &[&str]| headings.iter().any(|heading| names.contains(&plain(heading).as_str()));
    let fits = |list: &List| {
        let known = list.columns.iter().filter(|column| {
            has(&[column.field]) || headings.iter().any(|heading| column.also.contains(&plain(heading).as_str()))
        });
        (usize::from(has(&[list.id]) && list.id != WARP_ID) * 100) + known.count()
    };
    // The first of those that fit equally well.
    LISTS.iter().rev().filter(|list| list.comes_in).max_by_key(|list| fits(list)).unwrap_or(&LISTS[0])
}

/// What a heading means in a list: the journal's own name first, else one that people give.
fn guess_field(list: &List, heading: &str, taken: &BTreeSet<String>) -> String {
    let heading = plain(heading);
    let free = |field: &str| !taken.contains(field);
    let own = [(list.id, ID), (WARP_ID, if list.kind == kind::WARP { ID } else { WARP_ID })];
    if let Some((_, field)) = own.into_iter().find(|(name, field)| *name == heading && free(field)) {
        return field.to_owned();
    }
    let exact = list.columns.iter().find(|column| column.field == heading && free(column.field));
    let found = exact
        .or_else(|| list.columns.iter().find(|column| plain(column.label) == heading && free(column.field)))
        .or_else(|| list.columns.iter().find(|column| column.also.contains(&heading.as_str()) && free(column.field)));
    if list.kind != kind::WARP
        && found.is_none()
        && ["warp", "project", "piece"].contains(&heading.as_str())
        && free(WARP)
    {
        return WARP.to_owned();
    }
    found.map_or(NONE, |column| column.field).to_owned()
}

fn fields_of(list: &List) -> Vec<ImportField> {
    let field = |field: &str, label: &str| ImportField { field: field.into(), label: label.into() };
    let mut all = vec![field(NONE, "not taken")];
    if list.kind != kind::WARP {
        all.push(field(WARP, "Name of the warp"));
        all.push(field(WARP_ID, "Id of the warp"));
    }
    all.push(field(ID, "Id of the row"));
    all.extend(list.columns.iter().map(|column| field(column.field, column.label)));
    all
}

fn read(state: &State, form: &ImportForm, manner: &Manner, today: NaiveDate, heed: Heed<'_>) -> Result<Read, Trouble> {
    let text = form.text.trim_start_matches('\u{feff}');
    let first_line = text.lines().next().unwrap_or_default();
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(delimiter(first_line))
        .flexible(true)
        .has_headers(false)
        .from_reader(text.as_bytes());
    let no_table = || Trouble::at("text", "This is no table: give a CSV file whose first line names its columns.");
    let mut rows = Vec::new();
    for record in reader.records() {
        let record = record.map_err(|_| no_table())?;
        let line = record.position().map_or(0, |position| position.line() as usize);
        let cells: Vec<String> = record.iter().map(str::to_owned).collect();
        if cells.iter().any(|cell| !cell.trim().is_empty()) {
            rows.push((line, cells));
        }
        if rows.len() > MOST_ROWS + 1 {
            return Err(Trouble::at(
                "text",
                format!("More than {MOST_ROWS} rows are not taken at once. Split the table."),
            ));
        }
    }
    if rows.is_empty() {
        return Err(no_table());
    }
    let (_, headings) = rows.remove(0);
    let list = match form.list.as_str() {
        "" => guess_list(&headings),
        name => tables::list(name)
            .ok_or_else(|| Trouble::at("list", format!("There is no list called {}.", short(name))))?,
    };
    if !list.comes_in {
        return Err(Trouble::at(
            "list",
            format!("A table of {} cannot be brought in: add the pictures themselves to their sittings.", list.name),
        ));
    }
    let mut taken = BTreeSet::new();
    let mut columns = Vec::new();
    for (index, heading) in headings.iter().enumerate() {
        let field = match form.columns.get(index) {
            Some(field) if !field.is_empty() => field.clone(),
            _ => guess_field(list, heading, &taken),
        };
        if field != NONE && !taken.insert(field.clone()) {
            return Err(Trouble::at(
                "columns",
                format!(
                    "Two columns are taken for the same field; choose another one for \u{201c}{}\u{201d}.",
                    short(heading)
                ),
            ));
        }
        let sample = rows.iter().filter_map(|(_, cells)| cells.get(index)).find(|cell| !cell.trim().is_empty());
        columns.push(ImportColumn {
            heading: heading.clone(),
            sample: sample.map(|text| short(text)).unwrap_or_default(),
            field,
        });
    }
    let mut room = Room::new(state, list, form, &columns, manner, today);
    let (mut drafts, mut refused, mut shown) = (Vec::new(), Vec::new(), Vec::new());
    for (done, (line, cells)) in rows.iter().enumerate() {
        if done % TOLD_EVERY == 0 {
            told(heed, done, rows.len())?;
        }
        match room.row(cells) {
            Ok((draft, cells)) => {
                if shown.len() < SHOWN {
                    shown.push(cells);
                }
                drafts.push(draft);
            }
            Err(why) => refused.push(ImportRefused { line: *line, why }),
        }
    }
    told(heed, rows.len(), rows.len())?;
    let needs_warp =
        list.kind != kind::WARP && !taken.contains(WARP) && !taken.contains(WARP_ID) && form.warp.is_empty();
    let noun = |n: usize| if n == 1 { list.name.strip_suffix('s').unwrap_or(list.name) } else { list.name };
    let rows_refused = if refused.len() == 1 { "1 row" } else { &format!("{} rows", refused.len()) };
    let line = format!("{} {} would be brought in, {rows_refused} refused.", drafts.len(), noun(drafts.len()));
    refused.truncate(REFUSED_LISTED);
    let view = ImportView {
        list: list.name.into(),
        columns,
        fields: fields_of(list),
        good: drafts.len(),
        line,
        shown,
        refused,
        needs_warp,
    };
    Ok(Read { view, drafts })
}

/// What rows are read against.
struct Room<'a> {
    state: &'a State,
    list: &'static List,
    columns: &'a [ImportColumn],
    warp: Option<RecordId>,
    by_name: BTreeMap<String, Vec<RecordId>>,
    logs: BTreeMap<RecordId, WarpLog>,
    ids: BTreeSet<RecordId>,
    same: BTreeSet<String>,
    manner: &'a Manner,
    today: NaiveDate,
}

impl<'a> Room<'a> {
    fn new(
        state: &'a State,
        list: &'static List,
        form: &ImportForm,
        columns: &'a [ImportColumn],
        manner: &'a Manner,
        today: NaiveDate,
    ) -> Self {
        let logs = model::warp_logs(state);
        let mut by_name: BTreeMap<String, Vec<RecordId>> = BTreeMap::new();
        for log in logs.values() {
            by_name.entry(plain(&log.warp.name)).or_default().push(log.warp.id.clone());
        }
        let mut same = BTreeSet::new();
        for record in state.records().filter(|record| record.kind.as_str() == list.kind && record.is_visible()) {
            let set: FieldMap =
                record.fields.iter().map(|(name, field)| (name.clone(), field.used().clone())).collect();
            same.insert(likeness(list, record.place.warp_id(), &set));
        }
        Self {
            state,
            list,
            columns,
            warp: form.warp.parse().ok(),
            by_name,
            logs,
            ids: BTreeSet::new(),
            same,
            manner,
            today,
        }
    }

    /// The entry of a row, and its cells as they were understood.
    fn row(&mut self, cells: &[String]) -> Result<(Draft, Vec<String>), String> {
        let mut set = FieldMap::new();
        let (mut warp_id, mut warp_name, mut id) = (None, None, None);
        let mut shown = Vec::new();
        for (column, text) in self.columns.iter().zip(cells.iter().map(String::as_str).chain(std::iter::repeat(""))) {
            match column.field.as_str() {
                NONE => continue,
                WARP => warp_name = Some(text.trim()).filter(|text| !text.is_empty()),
                WARP_ID => warp_id = parsed(text)?,
                ID => id = parsed(text)?,
                field => {
                    let Some(of) = self.list.columns.iter().find(|of| of.field == field) else {
                        return Err(format!("There is no field called {}.", short(field)));
                    };
                    // A heading with its unit says how the figures are written; one without may stand over hers.
                    let has_unit = ["_mm", "_g", "_percent", "_10cm"].iter().any(|unit| field.ends_with(unit));
                    let value = match plain(&column.heading) == field {
                        true if has_unit => read_exact(of, text),
                        true => read_exact(of, text).or_else(|_| self.read_as_typed(of, text)),
                        false => self.read_as_typed(of, text),
                    };
                    let value = value.map_err(|why| format!("{}: {why}", of.label))?;
                    shown.push(self.understood(of, &value).unwrap_or_else(|| text.trim().to_owned()));
                    if !value.is_null() {
                        set.insert(field.to_owned(), value);
                    }
                    continue;
                }
            }
            shown.push(text.trim().to_owned());
        }
        if let Some(missing) = self.list.needs.iter().find(|field| !set.contains_key(**field)) {
            let label = self.list.columns.iter().find(|of| of.field == *missing).map_or(*missing, |of| of.label);
            return Err(format!("{label} is missing."));
        }
        self.sensible(&set)?;
        self.known(&set)?;
        let place = self.place(warp_id, warp_name, &mut id)?;
        if let Some(id) = &id
            && (self.state.record(id).is_some() || !self.ids.insert(id.clone()))
        {
            return Err("It is here already, under the same id.".into());
        }
        let id = id.unwrap_or_else(RecordId::new);
        let warp = place.warp_id().filter(|_| self.list.kind != kind::WARP);
        if !self.same.insert(likeness(self.list, warp, &set)) {
            return Err("The same is here already.".into());
        }
        if self.list.kind == kind::SITTING && set.contains_key(sitting::MEASURED_MM) {
            set.entry(sitting::MEASURED_FROM).or_insert(json!("start"));
            set.entry(sitting::MEASURED_TENSION).or_insert(json!("tight"));
        }
        let kind = Kind::fixed(self.list.kind);
        Ok((Draft::new(place, id, kind, set), shown))
    }

    fn place(
        &self,
        warp_id: Option<RecordId>,
        warp_name: Option<&str>,
        id: &mut Option<RecordId>,
    ) -> Result<Place, String> {
        if self.list.kind == kind::WARP {
            return Ok(Place::warp(id.get_or_insert_with(RecordId::new)));
        }
        if let Some(warp) = warp_id.filter(|warp| self.logs.contains_key(warp)) {
            return Ok(Place::warp(&warp));
        }
        if let Some(name) = warp_name {
            return match self.by_name.get(&plain(name)).map(Vec::as_slice) {
                Some([one]) => Ok(Place::warp(one)),
                Some(_) => Err(format!("Several warps are called \u{201c}{}\u{201d}; give their ids.", short(name))),
                None => Err(format!(
                    "No warp is called \u{201c}{}\u{201d} here. Bring the warps in first, or begin it.",
                    short(name)
                )),
            };
        }
        self.warp
            .clone()
            .filter(|warp| self.logs.contains_key(warp))
            .map(|warp| Place::warp(&warp))
            .ok_or_else(|| "It names no warp. Choose the warp these rows belong to.".into())
    }

    /// A cell as people write it, in her units and her order of day and month.
    fn read_as_typed(&self, of: &Column, text: &str) -> Result<Value, String> {
        let text = text.trim();
        if text.is_empty() {
            return Ok(Value::Null);
        }
        let read = Reader { manner: self.manner, today: self.today };
        let field = if of.field == fields::weft::START_LENGTH_MM { "weft_length" } else { of.field };
        let told = match of.holds {
            Holds::Text => return Ok(json!(text)),
            Holds::Word(words) => return word(words, text),
            Holds::YesNo => return yes_no(text),
            Holds::Lines => return read_exact(of, text),
            Holds::Measures => wanted::read(&read, field, "the length", text).map(|lengths| json!(lengths)),
            Holds::Day => return self.day(text),
            Holds::Time => read.time(field, text).map(|time| json!(time)),
            Holds::Length => read.length_or_zero(field, "the length", text).map(|mm| json!(mm)),
            Holds::Mass => read.mass_or_zero(field, "the weight", text).map(|grams| json!(grams)),
            Holds::Minutes => read.minutes(field, text).map(|minutes| json!(minutes)),
            Holds::Density => read.density(field, text).map(|density| json!(density)),
            Holds::Number => read.number(field, "the figure", text).map(|number| json!(number)),
            Holds::Whole => read.whole_between(field, "the figure", text, -100_000, 100_000).map(|whole| json!(whole)),
        };
        told.map_err(|trouble| trouble.sentence)
    }

    /// What can be misread, as it was understood: a day with its month in words, a measure with its unit.
    fn understood(&self, of: &Column, value: &Value) -> Option<String> {
        match of.holds {
            // No year is today's, so that it is always named.
            Holds::Day => Some(self.manner.date(value.as_str()?.parse().ok()?, NaiveDate::MIN)),
            Holds::Length if of.field == fields::weft::START_LENGTH_MM => {
                Some(show_yarn(value.as_f64()? / 1000.0, self.manner))
            }
            Holds::Length => Some(show_length(value.as_f64()?, self.manner)),
            Holds::Mass => Some(show_mass(value.as_f64()?, self.manner)),
            _ => None,
        }
    }

    /// Year first, or with points day first, or with strokes in her own order unless it can only be the other.
    fn day(&self, text: &str) -> Result<Value, String> {
        let parts: Vec<&str> = text.split(['-', '.', '/']).map(str::trim).filter(|part| !part.is_empty()).collect();
        let number = |index: usize| parts.get(index).and_then(|part| part.parse::<u32>().ok());
        let wrong = || format!("\u{201c}{}\u{201d} is no day; write it as 2026-03-09.", short(text));
        let (Some(first), Some(second), Some(third), 3) = (number(0), number(1), number(2), parts.len()) else {
            return Err(wrong());
        };
        let (year, month, day) = if first > 31 {
            (first, second, third)
        } else if text.contains('/') && second <= 12 && (first > 12 || !self.manner.month_first) {
            (third, second, first)
        } else if text.contains('/') {
            (third, first, second)
        } else {
            (third, second, first)
        };
        if !(1900..=2200).contains(&year) {
            return Err(wrong());
        }
        NaiveDate::from_ymd_opt(year as i32, month, day).map(|day| json!(day)).ok_or_else(wrong)
    }

    /// A yarn that a row names has to be here. A sitting need not be: what was noted in one that was removed stands so in the log.
    fn known(&self, set: &FieldMap) -> Result<(), String> {
        let Some(id) = set.get(fields::weighing::WEFT).and_then(Value::as_str) else { return Ok(()) };
        let record = id.parse().ok().and_then(|id| self.state.record(&id));
        if record.is_some_and(|record| record.kind.as_str() == kind::WEFT) {
            return Ok(());
        }
        Err(format!("There is no yarn here with the id {}. Bring the yarns in first.", short(id)))
    }

    /// What no form would take either.
    fn sensible(&self, set: &FieldMap) -> Result<(), String> {
        for (field, value) in set {
            let number = value.as_f64();
            let below_zero = number.is_some_and(|number| number < 0.0);
            if below_zero && (field.ends_with("_mm") || field.ends_with("_g") || field == sitting::MINUTES) {
                return Err(format!("{} cannot be less than nothing.", field.replace('_', " ")));
            }
            if field == sitting::MINUTES && number.is_some_and(|minutes| minutes > 24.0 * 60.0) {
                return Err("A sitting longer than a day cannot be meant.".into());
            }
            let read = Reader { manner: self.manner, today: self.today };
            if field == sitting::STARTED && read.time(field, value.as_str().unwrap_or_default()).is_err() {
                return Err("The time it began is no time of day; write it as 19:30.".into());
            }
        }
        let says = |field: &&String| {
            ![sitting::ON, sitting::STARTED, sitting::ROUGH, sitting::MARK_SET].contains(&field.as_str())
        };
        if self.list.kind == kind::SITTING && !set.keys().any(|field| says(&field)) {
            return Err("Nothing is said about this sitting: picks, minutes, a length, weft left or a note.".into());
        }
        Ok(())
    }
}

fn parsed(text: &str) -> Result<Option<RecordId>, String> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(None);
    }
    text.parse().map(Some).map_err(|_| format!("\u{201c}{}\u{201d} is no id. Leave it empty.", short(text)))
}

/// What two rows that are the same have in common: everything of a sitting, the name and beginning of a warp.
fn likeness(list: &List, warp: Option<&RecordId>, set: &FieldMap) -> String {
    let compared: Vec<&str> = match list.kind {
        kind::WARP => vec![fields::warp::NAME, fields::warp::BEGUN_ON],
        _ => list.columns.iter().map(|column| column.field).collect(),
    };
    // A sitting's measure is from the start and tight unless it says otherwise; a no and nothing are the same.
    let value = |field: &str| match set.get(field) {
        None | Some(Value::Null | Value::Bool(false)) => String::new(),
        Some(_) if field == sitting::MEASURED_FROM || field == sitting::MEASURED_TENSION => String::new(),
        Some(Value::Number(number)) => number.as_f64().map(|number| format!("{number:.3}")).unwrap_or_default(),
        Some(other) => other.to_string(),
    };
    let warp = if list.kind == kind::WARP { None } else { warp };
    let values = compared.into_iter().map(value);
    [warp.map(ToString::to_string).unwrap_or_default()].into_iter().chain(values).collect::<Vec<_>>().join("\u{1f}")
}

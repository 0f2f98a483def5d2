//! Bringing tables in: sittings and old warps from CSV. Everything is read first; what comes in is written as one action, so that it
//! is all there or not at all, and undo takes it back as a whole.

mod headings;
mod room;

use std::collections::BTreeSet;

use chrono::NaiveDate;
use fellmark_journal::{Draft, State};

use crate::model::commands::Commands;
use crate::model::display_format::DisplayFormat;
pub use crate::model::error::STOPPED;
use crate::model::fields::kind;
use crate::model::forms::ImportForm;
use crate::model::tables::{self, Column, LISTS, List, short};
use crate::model::{Message, UserError, messages};
use crate::present::messages::text;
use crate::present::view::{ImportColumn, ImportField, ImportRefused, ImportView};
use crate::reports::reckoned::ReportCache;
use room::Room;

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
    /// Line and reason of the first row that was refused.
    first_refused: Option<(usize, Message)>,
}

/// Hears how many rows are done, of how many, and says whether to go on.
pub type Heed<'a> = &'a mut dyn FnMut(usize, usize) -> bool;

/// Rows between two tellings.
const TOLD_EVERY: usize = 50;

fn told(heed: Heed<'_>, done: usize, of: usize) -> Result<(), UserError> {
    if heed(done, of) { Ok(()) } else { Err(UserError::at(STOPPED, messages::import_stopped())) }
}

/// What would come in, before anything is written.
///
/// # Errors
/// The text is no table, or she stopped it.
pub fn preview(
    state: &State,
    warps: &mut ReportCache,
    form: &ImportForm,
    format: &DisplayFormat,
    today: NaiveDate,
    heed: Heed<'_>,
) -> Result<ImportView, UserError> {
    read(state, warps, form, format, today, heed).map(|read| read.view)
}

impl Commands<'_> {
    /// Brings a table in as one action; how many rows came in, and the refused ones. It can be stopped until all rows are read:
    /// only then they are written, all at once.
    ///
    /// # Errors
    /// The text is no table, no row of it can be taken, she stopped it, or it could not be written.
    pub fn bring_in(
        &mut self,
        warps: &mut ReportCache,
        form: &ImportForm,
        heed: Heed<'_>,
    ) -> Result<ImportView, UserError> {
        let read = read(self.journal.state(), warps, form, &self.format, self.today, heed)?;
        if read.drafts.is_empty() {
            let message = match read.first_refused {
                Some((line, why)) => messages::no_row_taken(i64::try_from(line).unwrap_or(i64::MAX), why),
                None => messages::table_without_rows(),
            };
            return Err(UserError::at("text", message));
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
    let has = |name: &str| headings.iter().any(|heading| plain(heading) == name);
    let names: Vec<Vec<String>> = headings.iter().map(|heading| headings::names(heading)).collect();
    let fits = |list: &List| {
        let goes_by = |name: &String, column: &Column| column.field == name || column.also.contains(&name.as_str());
        let known = |column: &&Column| names.iter().flatten().any(|name| goes_by(name, column));
        (usize::from(has(list.id) && list.id != WARP_ID) * 100) + list.columns.iter().filter(known).count()
    };
    // The first of those that fit equally well.
    LISTS.iter().rev().filter(|list| list.comes_in).max_by_key(|list| fits(list)).unwrap_or(&LISTS[0])
}

/// What a heading means in a list: the journal's own name first, else one that people give.
fn guess_field(list: &List, heading: &str, taken: &BTreeSet<String>) -> String {
    let names = headings::names(heading);
    let heading = plain(heading);
    let free = |field: &str| !taken.contains(field);
    let own = [(list.id, ID), (WARP_ID, if list.kind == kind::WARP { ID } else { WARP_ID })];
    if let Some((_, field)) = own.into_iter().find(|(name, field)| *name == heading && free(field)) {
        return field.to_owned();
    }
    let found = names.iter().find_map(|name| {
        let free = || list.columns.iter().filter(|column| free(column.field));
        let exact = free().find(|column| column.field == name);
        exact
            .or_else(|| free().find(|column| plain(column.label) == *name))
            .or_else(|| free().find(|column| column.also.contains(&name.as_str())))
    });
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

fn read(
    state: &State,
    warps: &mut ReportCache,
    form: &ImportForm,
    format: &DisplayFormat,
    today: NaiveDate,
    heed: Heed<'_>,
) -> Result<Read, UserError> {
    let table = form.text.trim_start_matches('\u{feff}');
    let first_line = table.lines().next().unwrap_or_default();
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(delimiter(first_line))
        .flexible(true)
        .has_headers(false)
        .from_reader(table.as_bytes());
    let no_table = || UserError::at("text", messages::no_table());
    let mut rows = Vec::new();
    for record in reader.records() {
        let record = record.map_err(|_| no_table())?;
        let line = record.position().map_or(0, |position| position.line() as usize);
        let cells: Vec<String> = record.iter().map(str::to_owned).collect();
        if cells.iter().any(|cell| !cell.trim().is_empty()) {
            rows.push((line, cells));
        }
        if rows.len() > MOST_ROWS + 1 {
            return Err(UserError::at("text", messages::too_many_rows(MOST_ROWS as i64)));
        }
    }
    if rows.is_empty() {
        return Err(no_table());
    }
    let (_, headings) = rows.remove(0);
    let list = match form.list.as_str() {
        "" => guess_list(&headings),
        name => tables::list(name).ok_or_else(|| UserError::at("list", messages::unknown_list(short(name))))?,
    };
    if !list.comes_in {
        return Err(UserError::at("list", messages::list_is_not_imported(list.name)));
    }
    let mut taken = BTreeSet::new();
    let mut columns = Vec::new();
    for (index, heading) in headings.iter().enumerate() {
        let field = match form.columns.get(index) {
            Some(field) if !field.is_empty() => field.clone(),
            _ => guess_field(list, heading, &taken),
        };
        if field != NONE && !taken.insert(field.clone()) {
            return Err(UserError::at("columns", messages::field_taken_twice(short(heading))));
        }
        let sample = rows.iter().filter_map(|(_, cells)| cells.get(index)).find(|cell| !cell.trim().is_empty());
        columns.push(ImportColumn {
            heading: heading.clone(),
            sample: sample.map(|text| short(text)).unwrap_or_default(),
            field,
        });
    }
    warps.bring_up(state);
    let mut room = Room::new(state, warps, list, form, &columns, format, today);
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
            Err(why) => refused.push((*line, why)),
        }
    }
    told(heed, rows.len(), rows.len())?;
    let needs_warp =
        list.kind != kind::WARP && !taken.contains(WARP) && !taken.contains(WARP_ID) && form.warp.is_empty();
    let noun = |n: usize| if n == 1 { list.name.strip_suffix('s').unwrap_or(list.name) } else { list.name };
    let rows_refused = if refused.len() == 1 { "1 row" } else { &format!("{} rows", refused.len()) };
    let line = format!("{} {} would be brought in, {rows_refused} refused.", drafts.len(), noun(drafts.len()));
    let first_refused = refused.first().cloned();
    let refused = refused.into_iter().take(REFUSED_LISTED);
    let refused = refused.map(|(line, why)| ImportRefused { line, why: text(&why, format) }).collect();
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
    Ok(Read { view, drafts, first_refused })
}

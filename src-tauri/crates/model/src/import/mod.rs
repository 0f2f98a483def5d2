//! Importing tables: sittings and old warps from CSV. Everything is read first; what comes in is written as one action, so that it
//! is all there or not at all, and undo takes it back as a whole.

mod everything;
mod headings;
mod row_resolver;

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;
use fellmark_journal::{EntryDraft, EntrySet, RecordId};
use serde_json::Value;

use crate::display_format::DisplayFormat;
pub use crate::error::STOPPED;
use crate::fields::kind;
use crate::forms::ImportForm;
use crate::tables::{self, Column, LISTS, List, short};
use crate::{Message, UserError, messages};
pub use everything::{MOST_BYTES_OF_EVERYTHING, is_everything, read_everything};
use row_resolver::RowResolver;

/// More rows than this are refused: a lifetime of weaving has fewer.
const MOST_ROWS: usize = 20_000;
/// More columns than this are refused: the longest list has a tenth of them.
const MOST_COLUMNS: usize = 256;
/// A longer text is refused, in bytes: that many rows are shorter.
pub const MOST_BYTES: usize = 16 << 20;
/// Rows shown before anything is written.
const SHOWN: usize = 8;
/// Columns that are no field of a list.
pub const NONE: &str = "-";
/// Column with the name of the warp a row belongs to.
pub const WARP: &str = "warp";
/// Column with the id of the warp a row belongs to.
pub const WARP_ID: &str = "warp_id";
/// Column with the id of the row's own record.
pub const ID: &str = "id";

/// Text of a file: UTF-8, else as older spreadsheets write it (Windows-1252 without its curly signs).
#[must_use]
pub fn decode(bytes: &[u8]) -> String {
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    String::from_utf8(bytes.to_vec()).unwrap_or_else(|_| bytes.iter().map(|byte| char::from(*byte)).collect())
}

/// The warps of the journal by their names, to which rows may belong.
#[derive(Clone, Debug, Default)]
pub struct KnownWarps {
    by_name: BTreeMap<String, Vec<RecordId>>,
    ids: BTreeSet<RecordId>,
}

impl<'a> FromIterator<(&'a RecordId, &'a str)> for KnownWarps {
    fn from_iter<I: IntoIterator<Item = (&'a RecordId, &'a str)>>(warps: I) -> Self {
        let mut known = Self::default();
        for (id, name) in warps {
            known.by_name.entry(plain(name)).or_default().push(id.clone());
            known.ids.insert(id.clone());
        }
        known
    }
}

/// What a column is called where it is shown, so that a heading that says the same is understood.
pub type ColumnLabels = fn(&List, &Column) -> &'static str;

/// A column of a table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TableColumn {
    /// Its heading.
    pub heading: String,
    /// The first cell with something in it.
    pub sample: String,
    /// The field it is taken for; [`NONE`] where it is not taken.
    pub field: String,
}

/// A cell as it was read.
#[derive(Clone, Debug, PartialEq)]
pub struct UnderstoodCell {
    /// What stands in it.
    pub typed: String,
    /// The column it was read for and the value it gave, where it is a field of the record.
    pub understood: Option<(&'static Column, Value)>,
    /// Whether it says that the warp is off the loom, and since when.
    pub ends_warp: bool,
}

/// What a table was read as.
pub struct ImportedTable {
    /// The list it is.
    pub list: &'static List,
    /// Its columns.
    pub columns: Vec<TableColumn>,
    /// The first rows as they were understood: cells in the order of the columns that are taken.
    pub shown: Vec<Vec<UnderstoodCell>>,
    /// The entries of the rows that can be taken.
    pub drafts: Vec<EntryDraft>,
    /// Line and reason of each row that is refused.
    pub refused: Vec<(usize, Message)>,
    /// Whether a warp has to be chosen for the rows.
    pub needs_warp: bool,
}

/// Is given how many rows are done, of how many, and says whether to go on.
pub type OnProgress<'a> = &'a mut dyn FnMut(usize, usize) -> bool;

/// Rows between two reports of progress.
const ROWS_BETWEEN_REPORTS: usize = 50;

fn report(on_progress: OnProgress<'_>, done: usize, of: usize) -> Result<(), UserError> {
    if on_progress(done, of) { Ok(()) } else { Err(UserError::at(STOPPED, messages::import_stopped())) }
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
fn guess_field(list: &List, labels: ColumnLabels, heading: &str, taken: &BTreeSet<String>) -> String {
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
            .or_else(|| free().find(|column| plain(labels(list, column)) == *name))
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

/// Reads a table; nothing is written.
///
/// # Errors
/// The text is no table, or it was stopped.
pub fn read(
    state: &EntrySet,
    warps: &KnownWarps,
    labels: ColumnLabels,
    form: &ImportForm,
    format: &DisplayFormat,
    today: NaiveDate,
    on_progress: OnProgress<'_>,
) -> Result<ImportedTable, UserError> {
    let table = form.text.trim_start_matches('\u{feff}');
    if table.len() > MOST_BYTES {
        return Err(UserError::at("text", messages::table_too_long((MOST_BYTES >> 20) as i64)));
    }
    // Pictures and other programs' own files have bytes that no table has.
    if table.contains(|letter: char| letter.is_control() && !matches!(letter, '\t' | '\n' | '\r')) {
        return Err(UserError::at("text", messages::no_table()));
    }
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
        if record.len() > MOST_COLUMNS {
            return Err(UserError::at("text", messages::too_many_columns(MOST_COLUMNS as i64)));
        }
        let line = record.position().map_or(0, |position| position.line() as usize);
        let cells: Vec<String> = record.iter().map(|cell| tables::unguarded(cell).to_owned()).collect();
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
            _ => guess_field(list, labels, heading, &taken),
        };
        if field != NONE && !taken.insert(field.clone()) {
            return Err(UserError::at("columns", messages::field_taken_twice(short(heading))));
        }
        let sample = rows.iter().filter_map(|(_, cells)| cells.get(index)).find(|cell| !cell.trim().is_empty());
        columns.push(TableColumn {
            heading: heading.clone(),
            sample: sample.map(|text| short(text)).unwrap_or_default(),
            field,
        });
    }
    let mut rows_read = RowResolver::new(state, warps, list, form, &columns, format, today);
    let (mut drafts, mut refused, mut shown) = (Vec::new(), Vec::new(), Vec::new());
    for (done, (line, cells)) in rows.iter().enumerate() {
        if done % ROWS_BETWEEN_REPORTS == 0 {
            report(on_progress, done, rows.len())?;
        }
        match rows_read.row(cells) {
            Ok((draft, cells)) => {
                if shown.len() < SHOWN {
                    shown.push(cells);
                }
                drafts.push(draft);
            }
            Err(why) => refused.push((*line, why)),
        }
    }
    report(on_progress, rows.len(), rows.len())?;
    let needs_warp =
        list.kind != kind::WARP && !taken.contains(WARP) && !taken.contains(WARP_ID) && form.warp.is_empty();
    Ok(ImportedTable { list, columns, shown, drafts, refused, needs_warp })
}

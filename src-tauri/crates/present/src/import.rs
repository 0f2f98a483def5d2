//! Importing tables: what a table would bring, and what it brought.

use chrono::NaiveDate;
use fellmark_journal::EntrySet;
use serde_json::Value;

use crate::column_labels::column_label;
use crate::dates::DateText;
use crate::figures::{show_density, show_length, show_mass, show_minutes, show_yarn};
use crate::messages::text;
use crate::view::{ImportColumn, ImportField, ImportRefused, ImportView};
use fellmark_model::UserError;
use fellmark_model::commands::Commands;
use fellmark_model::display_format::DisplayFormat;
pub use fellmark_model::error::STOPPED;
use fellmark_model::fields::{self, kind};
use fellmark_model::forms::ImportForm;
use fellmark_model::import::{self, ID, ImportedTable, KnownWarps, NONE, UnderstoodCell, WARP, WARP_ID};
pub use fellmark_model::import::{MOST_BYTES_OF_EVERYTHING, OnProgress, decode};
use fellmark_model::tables::{Column, ColumnType, List};
use fellmark_reports::report_cache::ReportCache;

/// Refused rows that are listed; the rest are counted.
const REFUSED_LISTED: usize = 200;

/// What would be imported, before anything is written.
///
/// # Errors
/// The text is no table, or it was stopped.
pub fn preview(
    state: &EntrySet,
    warps: &mut ReportCache,
    form: &ImportForm,
    format: &DisplayFormat,
    today: NaiveDate,
    on_progress: OnProgress<'_>,
) -> Result<ImportView, UserError> {
    if import::is_everything(&form.text) {
        let count = import::read_everything(state, &form.text)?.len();
        return Ok(whole_log(count, "can be restored"));
    }
    let table = import::read(state, &known_warps(state, warps), column_label, form, format, today, on_progress)?;
    Ok(view(table, "would be brought in", format))
}

/// Imports a table as one action; how many rows came in, and the refused ones.
///
/// # Errors
/// As [`Commands::import`].
pub fn import_table(
    commands: &mut Commands<'_>,
    warps: &mut ReportCache,
    form: &ImportForm,
    on_progress: OnProgress<'_>,
) -> Result<ImportView, UserError> {
    if import::is_everything(&form.text) {
        return Ok(whole_log(commands.import_everything(&form.text)?, "restored"));
    }
    let known = known_warps(commands.journal.state(), warps);
    let table = commands.import(&known, column_label, form, on_progress)?;
    Ok(view(table, "were brought in", &commands.format))
}

/// What a whole log brought or would bring.
fn whole_log(entries: usize, verb: &str) -> ImportView {
    ImportView {
        list: "everything".into(),
        columns: Vec::new(),
        fields: Vec::new(),
        good: entries,
        line: format!("The whole log: {entries} {} {verb}.", if entries == 1 { "record" } else { "records" }),
        shown: Vec::new(),
        refused: Vec::new(),
        needs_warp: false,
    }
}

fn known_warps(state: &EntrySet, warps: &mut ReportCache) -> KnownWarps {
    warps.refresh(state);
    warps.summaries().map(|warp| (&warp.id, warp.name.as_str())).collect()
}

fn view(table: ImportedTable, verb: &str, format: &DisplayFormat) -> ImportView {
    let list = table.list;
    let good = table.drafts.len();
    let noun = if good == 1 { list.name.strip_suffix('s').unwrap_or(list.name) } else { list.name };
    let rows_refused =
        if table.refused.len() == 1 { "1 row".to_owned() } else { format!("{} rows", table.refused.len()) };
    let refused = table.refused.iter().take(REFUSED_LISTED);
    let columns = table.columns.into_iter();
    ImportView {
        list: list.name.into(),
        columns: columns
            .map(|one| ImportColumn { heading: one.heading, sample: one.sample, field: one.field })
            .collect(),
        fields: fields_of(list),
        good,
        line: format!("{good} {noun} {verb}, {rows_refused} refused."),
        shown: table.shown.iter().map(|row| row.iter().map(|cell| cell_text(cell, format)).collect()).collect(),
        refused: refused.map(|(line, why)| ImportRefused { line: *line, why: text(why, format) }).collect(),
        needs_warp: table.needs_warp,
    }
}

/// A cell as it was understood.
fn cell_text(cell: &UnderstoodCell, format: &DisplayFormat) -> String {
    let understood = cell.understood.as_ref().and_then(|(column, value)| value_text(column, value, format));
    let text = understood.unwrap_or_else(|| cell.typed.clone());
    if cell.ends_warp { format!("off the loom, {text}") } else { text }
}

/// What can be misread, as it was understood: a day with its month in words, a measure with its unit.
fn value_text(column: &Column, value: &Value, format: &DisplayFormat) -> Option<String> {
    match column.column_type {
        // No year is today's, so that it is always named.
        ColumnType::Day => Some(format.date(value.as_str()?.parse().ok()?, NaiveDate::MIN)),
        ColumnType::Length if column.field == fields::weft::START_LENGTH_MM => {
            Some(show_yarn(value.as_f64()? / 1000.0, format))
        }
        ColumnType::Length => Some(show_length(value.as_f64()?, format)),
        ColumnType::Mass => Some(show_mass(value.as_f64()?, format)),
        ColumnType::Minutes => Some(show_minutes(value.as_f64()?)),
        ColumnType::Density => Some(show_density(value.as_f64()?, format)),
        _ => None,
    }
}

fn fields_of(list: &List) -> Vec<ImportField> {
    let field = |field: &str, label: &str| ImportField { field: field.into(), label: label.into() };
    let mut all = vec![field(NONE, "not taken")];
    if list.kind != kind::WARP {
        all.push(field(WARP, "Name of the warp"));
        all.push(field(WARP_ID, "Id of the warp"));
    }
    all.push(field(ID, "Id of the row"));
    all.extend(list.columns.iter().map(|column| field(column.field, column_label(list, column))));
    all
}

//! Taking the log out: CSV for spreadsheets, JSON for programs. Figures are metric with their unit in the column's name, and
//! dates `YYYY-MM-DD`, whatever the screen shows: a table that is taken out is read by programs.

use std::collections::BTreeMap;

use fellmark_journal::{EntrySet, Field, GONE, Presence, Record, RecordId};
use serde_json::{Map, Value, json};

use crate::view::ErrorView;
use fellmark_model::display_text::display_text;
use fellmark_model::fields::{self, kind};
use fellmark_model::tables::{self, List, guarded};
use fellmark_model::{Warp, WarpState, warp};

/// A table as CSV, in which no text runs as a formula and none turns the order of what stands beside it.
///
/// # Errors
/// It could not be made.
pub(crate) fn table(header: &[&str], rows: impl Iterator<Item = Vec<String>>) -> Result<String, ErrorView> {
    let broken = |error: &dyn std::fmt::Display| ErrorView::new(format!("The table could not be made: {error}."));
    let mut writer = csv::Writer::from_writer(Vec::new());
    let header: Vec<String> = header.iter().map(|heading| guarded(display_text(heading))).collect();
    writer.write_record(header).map_err(|error| broken(&error))?;
    for row in rows {
        writer
            .write_record(row.into_iter().map(|cell| guarded(display_text(&cell))))
            .map_err(|error| broken(&error))?;
    }
    let bytes = writer.into_inner().map_err(|error| broken(&error))?;
    String::from_utf8(bytes).map_err(|error| broken(&error))
}

/// Every sitting that was not removed, as CSV.
///
/// # Errors
/// The table could not be made.
pub fn sittings_csv(state: &EntrySet, only: Option<&RecordId>) -> Result<String, ErrorView> {
    list_csv(state, "sittings", only)
}

/// Every warp that was not removed, as CSV.
///
/// # Errors
/// The table could not be made.
pub fn warps_csv(state: &EntrySet, only: Option<&RecordId>) -> Result<String, ErrorView> {
    list_csv(state, "warps", only)
}

/// One of the lists of [`fellmark_model::tables::LISTS`], as CSV.
///
/// # Errors
/// There is no such list, or the table could not be made.
pub fn list_csv(state: &EntrySet, name: &str, only: Option<&RecordId>) -> Result<String, ErrorView> {
    let list = tables::list(name).ok_or_else(|| ErrorView::new(format!("There is no list called {name}.")))?;
    csv_of(state, list, only)
}

fn cell(value: Option<&Value>) -> String {
    match value {
        None | Some(Value::Null) => String::new(),
        Some(Value::String(text)) => text.clone(),
        Some(Value::Bool(yes)) => if *yes { "yes" } else { "no" }.into(),
        Some(Value::Array(items)) => items.iter().map(|item| cell(Some(item))).collect::<Vec<_>>().join("\n"),
        Some(other) => other.to_string(),
    }
}

/// Every record of a kind that was not removed, as CSV: first the columns of its list, then whatever else it holds.
///
/// # Errors
/// The table could not be made.
fn csv_of(state: &EntrySet, list: &List, only: Option<&RecordId>) -> Result<String, ErrorView> {
    let known: Vec<&str> = list.columns.iter().map(|column| column.field).collect();
    let warps: BTreeMap<&RecordId, Warp> = match only {
        Some(id) => warp(state, id).map(|warp| (id, warp)).into_iter().collect(),
        None => state.warp_ids().filter_map(|id| Some((id, warp(state, id)?))).collect(),
    };
    let of_record = |record: &Record| warps.get(record.place.warp_id()?);
    let records: Vec<&Record> = records(state, only)
        .filter(|record| record.kind.as_str() == list.kind && record.presence != Presence::Gone)
        .filter(|record| of_record(record).is_none_or(|warp| warp.state != WarpState::Removed))
        .collect();
    let mut others: Vec<&str> = records
        .iter()
        .flat_map(|record| record.fields.keys())
        .filter(|field| !known.contains(field) && *field != fields::ACT && *field != GONE)
        .collect();
    others.sort_unstable();
    others.dedup();
    let of_warp = list.kind == kind::WARP;
    let mut header: Vec<&str> = if of_warp { vec!["warp_id"] } else { vec!["warp", "warp_id", list.id] };
    header.extend(known.iter().chain(&others));
    header.push("device");
    let rows = records.iter().map(|record| {
        let mut row = Vec::with_capacity(header.len());
        if !of_warp {
            row.push(of_record(record).map(|warp| warp.name.clone()).unwrap_or_default());
            row.push(record.place.warp_id().map(ToString::to_string).unwrap_or_default());
        }
        row.push(record.id.to_string());
        row.extend(known.iter().chain(&others).map(|field| cell(record.get(field))));
        row.push(record.by.to_string());
        row
    });
    table(&header, rows)
}

/// All records by id, or those of one warp, for which nothing else is read.
pub(crate) fn records<'a>(
    state: &'a EntrySet,
    only: Option<&'a RecordId>,
) -> Box<dyn Iterator<Item = &'a Record> + 'a> {
    match only {
        Some(warp) => Box::new(state.of_warp(warp)),
        None => Box::new(state.records()),
    }
}

/// Every record with its fields, removed ones and fields with two answers included: the state of the journal, the same on every
/// device that holds the same entries.
#[must_use]
pub fn everything(state: &EntrySet, only: Option<&RecordId>) -> Value {
    let records = records(state, only).map(|record| {
        let mut fields = Map::new();
        let mut conflicts = Map::new();
        for (name, field) in record.fields.iter() {
            fields.insert(name.to_owned(), field.used().clone());
            if let Field::Conflict(values) = field {
                let values = values.iter().map(|one| json!({ "value": one.value, "by": one.by, "key": one.key }));
                conflicts.insert(name.to_owned(), values.collect());
            }
        }
        json!({
            "id": record.id,
            "kind": record.kind,
            "warp": record.place.warp_id(),
            "presence": match record.presence {
                Presence::Here => "here",
                Presence::Gone => "gone",
                Presence::RemovedHereEditedThere => "removed_here_edited_there",
            },
            "fields": fields,
            "conflicts": conflicts,
        })
    });
    json!({ "records": records.collect::<Vec<_>>() })
}

#[cfg(test)]
mod tests {
    use super::*;
    use fellmark_model::fields::sitting;
    use fellmark_model::tables::{list, read_exact};

    #[test]
    fn what_was_written_whole_comes_back_whole() {
        let of = |field: &str| list("sittings").unwrap().columns.iter().find(|column| column.field == field).unwrap();
        for value in [json!(42), json!(42.0), json!(0.1), json!(-3)] {
            assert_eq!(read_exact(of(sitting::MINUTES), &cell(Some(&value))), Ok(value));
        }
        for value in [json!(true), json!(false)] {
            assert_eq!(read_exact(of(sitting::ROUGH), &cell(Some(&value))), Ok(value));
        }
        assert!(read_exact(of(sitting::PICKS), "1.5").is_err() && read_exact(of(sitting::ROUGH), "perhaps").is_err());
    }
}

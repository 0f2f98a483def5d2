//! Taking the log out: CSV for spreadsheets, JSON for programs. Figures are metric with their unit in the column's name, and
//! dates `YYYY-MM-DD`, whatever the screen shows: a table that is taken out is read by programs.

use fellmark_journal::{Field, Presence, Record, RecordId, State};
use serde_json::{Map, Value, json};

use crate::model::tables;
use crate::present::view::UserError;

/// A table as CSV.
///
/// # Errors
/// It could not be made.
pub(crate) fn table(header: &[&str], rows: impl Iterator<Item = Vec<String>>) -> Result<String, UserError> {
    let broken = |error: &dyn std::fmt::Display| UserError::new(format!("The table could not be made: {error}."));
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(header).map_err(|error| broken(&error))?;
    for row in rows {
        writer.write_record(row).map_err(|error| broken(&error))?;
    }
    let bytes = writer.into_inner().map_err(|error| broken(&error))?;
    String::from_utf8(bytes).map_err(|error| broken(&error))
}

/// Every sitting that was not removed, as CSV.
///
/// # Errors
/// The table could not be made.
pub fn sittings_csv(state: &State, only: Option<&RecordId>) -> Result<String, UserError> {
    list_csv(state, "sittings", only)
}

/// Every warp that was not removed, as CSV.
///
/// # Errors
/// The table could not be made.
pub fn warps_csv(state: &State, only: Option<&RecordId>) -> Result<String, UserError> {
    list_csv(state, "warps", only)
}

/// One of the lists of [`crate::model::tables::LISTS`], as CSV.
///
/// # Errors
/// There is no such list, or the table could not be made.
pub fn list_csv(state: &State, name: &str, only: Option<&RecordId>) -> Result<String, UserError> {
    let list = tables::list(name).ok_or_else(|| UserError::new(format!("There is no list called {name}.")))?;
    tables::csv_of(state, list, only)
}

/// All records by id, or those of one warp, for which nothing else is read.
pub(crate) fn records<'a>(state: &'a State, only: Option<&'a RecordId>) -> Box<dyn Iterator<Item = &'a Record> + 'a> {
    match only {
        Some(warp) => Box::new(state.of_warp(warp)),
        None => Box::new(state.records()),
    }
}

/// Every record with its fields, removed ones and fields with two answers included: the state of the journal, the same on every
/// device that holds the same entries.
#[must_use]
pub fn everything(state: &State, only: Option<&RecordId>) -> Value {
    let records = records(state, only).map(|record| {
        let mut fields = Map::new();
        let mut two_answers = Map::new();
        for (name, field) in &record.fields {
            fields.insert(name.clone(), field.used().clone());
            if let Field::Two { answers, .. } = field {
                let values =
                    answers.iter().map(|answer| json!({ "value": answer.value, "by": answer.by, "key": answer.key }));
                two_answers.insert(name.clone(), values.collect());
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
            "two_answers": two_answers,
        })
    });
    json!({ "records": records.collect::<Vec<_>>() })
}

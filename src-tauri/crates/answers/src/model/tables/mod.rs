//! The lists that are taken out as CSV and brought in again: which columns each has, and what a column holds. In a table that is
//! taken out a heading is the journal's name of the field, with its unit, so that it comes back to the last bit.

mod lists;

use std::collections::BTreeMap;

use fellmark_journal::{GONE, Presence, Record, RecordId, State};
use serde_json::{Value, json};

use crate::model::WarpState;
use crate::model::fields::{self, kind};
use crate::model::{Message, Warp, messages, warp};
use crate::present::view::UserError;
pub use lists::LISTS;

use Holds::{Day, Density, Length, Lines, Mass, Measures, Minutes, Number, Text, Time, Whole, Word, YesNo};

/// What a column holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Holds {
    /// Any text.
    Text,
    /// One of these words.
    Word(&'static [&'static str]),
    /// A day.
    Day,
    /// A time of day.
    Time,
    /// A length; exact in millimetres.
    Length,
    /// A weight; exact in grams.
    Mass,
    /// Minutes.
    Minutes,
    /// A pick density; exact per 10 cm.
    Density,
    /// A number.
    Number,
    /// A whole number.
    Whole,
    /// Yes or no.
    YesNo,
    /// Several texts, one to a line.
    Lines,
    /// Several lengths, one to a line; exact in millimetres.
    Measures,
}

/// A column.
#[derive(Clone, Copy, Debug)]
pub struct Column {
    /// The journal's name of the field, which is the heading.
    pub field: &'static str,
    /// In words.
    pub label: &'static str,
    /// What it holds.
    pub holds: Holds,
    /// Other headings people give it, in small letters.
    pub also: &'static [&'static str],
}

/// A list.
#[derive(Clone, Copy, Debug)]
pub struct List {
    /// Its name: `sittings`.
    pub name: &'static str,
    /// The kind of its records.
    pub kind: &'static str,
    /// Heading of the record's own id.
    pub id: &'static str,
    /// Its columns.
    pub columns: &'static [Column],
    /// Fields without which a row says nothing.
    pub needs: &'static [&'static str],
    /// Whether it can be brought in: a row that is nothing without a file beside it cannot.
    pub comes_in: bool,
}

/// The list of this name.
#[must_use]
pub fn list(name: &str) -> Option<&'static List> {
    LISTS.iter().find(|list| list.name == name)
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
pub fn csv_of(state: &State, list: &List, only: Option<&RecordId>) -> Result<String, UserError> {
    let known: Vec<&str> = list.columns.iter().map(|column| column.field).collect();
    let warps: BTreeMap<&RecordId, Warp> = match only {
        Some(id) => warp(state, id).map(|warp| (id, warp)).into_iter().collect(),
        None => state.warp_ids().filter_map(|id| Some((id, warp(state, id)?))).collect(),
    };
    let of_record = |record: &Record| warps.get(record.place.warp_id()?);
    let records: Vec<&Record> = crate::present::export::records(state, only)
        .filter(|record| record.kind.as_str() == list.kind && record.presence != Presence::Gone)
        .filter(|record| of_record(record).is_none_or(|warp| warp.state != WarpState::Removed))
        .collect();
    let mut others: Vec<&str> = records
        .iter()
        .flat_map(|record| record.fields.keys().map(String::as_str))
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
    crate::present::export::table(&header, rows)
}

/// Reads a cell that was taken out: the unit is in the heading, the decimal mark is a point.
///
/// # Errors
/// What is wrong, as a sentence.
pub fn read_exact(column: &Column, text: &str) -> Result<Value, Message> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(Value::Null);
    }
    // A figure that was written whole stays whole: 42 and 42.0 are two writings.
    let number = |text: &str| {
        let number = text.parse::<f64>().ok().filter(|number| number.is_finite());
        let number = number.ok_or_else(|| messages::no_number(short(text)))?;
        let whole = text.bytes().all(|b| b.is_ascii_digit() || b == b'-') && number.abs() < 9.0e15;
        Ok::<_, Message>(if whole { json!(number as i64) } else { json!(number) })
    };
    match column.holds {
        Text | Time => Ok(json!(text)),
        Word(words) => word(words, text),
        Day => text
            .parse::<chrono::NaiveDate>()
            .map(|day| json!(day))
            .map_err(|_| messages::unreadable_day_of_row(short(text))),
        Length | Mass | Minutes | Density | Number => number(text),
        Whole => text.parse::<i64>().map(|whole| json!(whole)).map_err(|_| messages::no_whole_number(short(text))),
        YesNo => yes_no(text),
        Measures => text.split_whitespace().map(number).collect::<Result<Vec<_>, _>>().map(|all| json!(all)),
        Lines => Ok(json!(text.lines().map(str::trim).filter(|line| !line.is_empty()).collect::<Vec<_>>())),
    }
}

/// A word of a column; spaces and capitals do not matter.
///
/// # Errors
/// It is none of the words.
pub fn word(words: &[&str], text: &str) -> Result<Value, Message> {
    let plain = text.trim().to_lowercase().replace([' ', '-'], "_");
    words
        .iter()
        .find(|word| **word == plain)
        .map(|word| json!(word))
        .ok_or_else(|| messages::word_not_one_of(short(text), words.iter().map(|word| (*word).to_owned()).collect()))
}

/// A yes or a no.
///
/// # Errors
/// It is neither.
pub fn yes_no(text: &str) -> Result<Value, Message> {
    match text.trim().to_lowercase().as_str() {
        "yes" | "y" | "true" | "1" | "x" => Ok(json!(true)),
        "no" | "n" | "false" | "0" => Ok(json!(false)),
        _ => Err(messages::neither_yes_nor_no(short(text))),
    }
}

pub use crate::model::measures::shortened as short;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::fields::sitting;

    /// A field that has no column would go out under its name, and not come in again.
    #[test]
    fn every_field_of_a_list_has_a_column() {
        let text = include_str!("../fields.rs");
        let of = |module: &str| -> Vec<&str> {
            let from = text.split(&format!("pub mod {module} {{")).nth(1).unwrap();
            let inside = from.split("\n}").next().unwrap();
            inside.lines().filter(|line| line.contains("pub const")).filter_map(|line| line.split('"').nth(1)).collect()
        };
        for (name, modules) in [
            ("sittings", vec!["sitting"]),
            ("warps", vec!["warp", "off"]),
            ("wefts", vec!["weft"]),
            ("finishing", vec!["finishing"]),
            ("plans", vec!["plan"]),
            ("readings", vec!["moment", "reading"]),
            ("weighings", vec!["moment", "weighing"]),
            ("joins", vec!["moment"]),
            ("places", vec!["moment", "place"]),
            ("photos", vec!["photo"]),
        ] {
            let list = list(name).unwrap_or_else(|| panic!("no list {name}"));
            for field in modules.into_iter().flat_map(of) {
                assert!(list.columns.iter().any(|column| column.field == field), "{name} lacks {field}");
            }
        }
        assert_eq!(LISTS.len(), 10);
    }

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

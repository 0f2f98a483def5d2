//! The lists that are taken out as CSV and brought in again: which columns each has, and what a column holds. In a table that is
//! taken out a heading is the journal's name of the field, with its unit, so that it comes back to the last bit.

mod formula;
mod lists;

use serde_json::{Value, json};

use crate::{Message, messages};
pub use formula::{guarded, unguarded};
pub use lists::LISTS;

use ColumnType::{Day, Density, Length, Lines, Mass, Measures, Minutes, Number, Text, Time, Whole, Word, YesNo};

/// The type of the values of a column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ColumnType {
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
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Column {
    /// The journal's name of the field, which is the heading.
    pub field: &'static str,
    /// The type of its values.
    pub column_type: ColumnType,
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
    match column.column_type {
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

pub use crate::measures::shortened as short;

#[cfg(test)]
mod tests {
    use super::*;
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
}

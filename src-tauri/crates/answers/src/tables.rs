//! The lists that are taken out as CSV and brought in again: which columns each has, and what a column holds. In a table that is
//! taken out a heading is the journal's name of the field, with its unit, so that it comes back to the last bit.

use fellmark_journal::{GONE, Presence, RecordId, State};
use serde_json::{Value, json};

use crate::fields::{self, finishing, kind, off, sitting, warp, weft};
use crate::view::Trouble;

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
}

const fn column(field: &'static str, label: &'static str, holds: Holds, also: &'static [&'static str]) -> Column {
    Column { field, label, holds, also }
}

use Holds::{Day, Density, Length, Lines, Mass, Minutes, Number, Text, Time, Whole, Word, YesNo};

const SITTINGS: &[Column] = &[
    column(sitting::ON, "Day", Day, &["date", "day", "datum", "when"]),
    column(sitting::STARTED, "Began at", Time, &["start", "began", "time"]),
    column(sitting::MINUTES, "Minutes", Minutes, &["min", "mins", "duration", "time spent"]),
    column(sitting::PICKS, "Picks", Whole, &["rows", "shots", "pick"]),
    column(sitting::MEASURED_MM, "Measured length", Length, &["length", "measured", "woven"]),
    column(sitting::MEASURED_FROM, "Measured from", Word(&["start", "mark"]), &[]),
    column(sitting::MEASURED_TENSION, "Tight or relaxed", Word(&["tight", "relaxed"]), &["tension"]),
    column(sitting::MARK_SET, "Mark set", YesNo, &["mark"]),
    column(sitting::WEFT_LEFT_G, "Weft left", Mass, &["weft left", "weft", "yarn left"]),
    column(sitting::PICK_BEGUN, "A pick begun and not beaten", YesNo, &[]),
    column(sitting::ROUGH, "Rough figures", YesNo, &["rough"]),
    column(sitting::NOTE, "Note", Text, &["notes", "comment", "remarks"]),
];

const WARPS: &[Column] = &[
    column(warp::NAME, "Name", Text, &["warp", "project", "title", "piece"]),
    column(warp::STATE, "Where it is", Word(&["on_the_loom", "resting", "off_the_loom"]), &["status"]),
    column(warp::STATE_ON, "Since", Day, &["finished on", "finished", "cut off", "end"]),
    column(warp::BEGUN_ON, "Begun on", Day, &["begun", "started", "start", "date"]),
    column(warp::WOUND_MM, "Warp wound", Length, &["warp length", "wound"]),
    column(warp::WASTE_MM, "Loom waste", Length, &["waste"]),
    column(warp::WANTED_MM, "Length wanted", Length, &["wanted", "length", "finished length"]),
    column(warp::WANTED_STATE, "Which length that is", Word(&["finished", "off_loom", "under_tension"]), &[]),
    column(warp::PIECES, "Pieces", Whole, &["pieces"]),
    column(warp::FRINGE_MM, "Fringe", Length, &["fringe"]),
    column(warp::FRINGE_FROM_WASTE, "Fringe out of the waste", YesNo, &[]),
    column(warp::SHRINKAGE_PERCENT, "Length lost, per cent", Number, &["shrinkage"]),
    column(warp::PICKS_PER_10CM, "Picks per length", Density, &["ppi", "picks per inch", "picks per 10 cm"]),
    column(warp::WARP_PER_100_CLOTH, "Warp that 100 of cloth uses", Number, &["take-up"]),
    column(warp::REED_WIDTH_MM, "Width in the reed", Length, &["width", "reed width"]),
    column(warp::WEFT_ALLOWANCE_PERCENT, "Allowance for a pick, per cent", Number, &["allowance"]),
    column(warp::WEAVE, "How it is woven", Word(&["plain", "pick_up"]), &["weave"]),
    column(warp::OPENING_ROWS, "Opening border", Lines, &[]),
    column(warp::REPEAT_ROWS, "Repeat", Lines, &["repeat"]),
    column(warp::BALANCE_ROWS, "Balance", Lines, &[]),
    column(warp::CLOSING_ROWS, "Closing border", Lines, &[]),
    column(warp::PICKS_PER_TAP, "Picks for one press", Whole, &[]),
    column(warp::STICK_EDGE_ENDS, "Stick: ends down at each edge", Whole, &[]),
    column(warp::STICK_UP_ENDS, "Stick: ends up", Whole, &[]),
    column(warp::STICK_DOWN_ENDS, "Stick: ends down", Whole, &[]),
    column(warp::GIFT_ON, "Gift day", Day, &["gift", "due", "deadline"]),
    column(warp::DAYS_A_WEEK, "Days a week", Number, &[]),
    column(warp::AWAY_FROM, "Away from", Day, &[]),
    column(warp::AWAY_UNTIL, "Away until", Day, &[]),
    column(warp::EVERY_DAY_FROM, "Every day from", Day, &[]),
    column(warp::EVERY_DAY_UNTIL, "Every day until", Day, &[]),
    column(warp::FOR_CHILD, "For a young child", YesNo, &[]),
    column(off::FRONT_MM, "Cut off in front", Length, &[]),
    column(off::THRUMS_MM, "Thrums", Length, &["thrums"]),
    column(off::OFF_LOOM_MM, "Length off the loom", Length, &["off loom"]),
    column(off::FELL_WIDTH_MM, "Width at the fell", Length, &[]),
    column(off::OFF_LOOM_WIDTH_MM, "Width off the loom", Length, &[]),
    column(off::WEFT_OVER_G, "Weft left over", Mass, &[]),
    column(off::FINISHED_MM, "Length after the wash", Length, &["washed length"]),
    column(off::FINISHED_WIDTH_MM, "Width after the wash", Length, &["washed width"]),
    column(off::FINISHED_MASS_G, "Weight after the wash", Mass, &["weight"]),
    column(warp::NOTE, "Note", Text, &["notes", "comment", "remarks"]),
];

const WEFTS: &[Column] = &[
    column(weft::NAME, "Yarn", Text, &["yarn", "name"]),
    column(weft::START_MASS_G, "Weight at the start", Mass, &["weight", "mass"]),
    column(weft::START_LENGTH_MM, "Length at the start", Length, &["length"]),
];

const FINISHING: &[Column] = &[
    column(finishing::NAME, "Step", Text, &["step"]),
    column(finishing::POSITION, "Place among the steps", Whole, &[]),
    column(finishing::DONE_ON, "Done on", Day, &["date", "done"]),
];

/// The lists that go out and come in.
pub const LISTS: &[List] = &[
    List { name: "sittings", kind: kind::SITTING, id: "sitting_id", columns: SITTINGS, needs: &[sitting::ON] },
    List { name: "warps", kind: kind::WARP, id: "warp_id", columns: WARPS, needs: &[warp::NAME] },
    List { name: "wefts", kind: kind::WEFT, id: "weft_id", columns: WEFTS, needs: &[weft::NAME] },
    List { name: "finishing", kind: kind::FINISHING, id: "step_id", columns: FINISHING, needs: &[finishing::NAME] },
];

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
        Some(Value::Array(items)) => items.iter().filter_map(Value::as_str).collect::<Vec<_>>().join("\n"),
        Some(other) => other.to_string(),
    }
}

/// Every record of a kind that was not removed, as CSV: first the columns of its list, then whatever else it holds.
///
/// # Errors
/// The table could not be made.
pub fn csv_of(state: &State, list: &List, only: Option<&RecordId>) -> Result<String, Trouble> {
    let known: Vec<&str> = list.columns.iter().map(|column| column.field).collect();
    let logs = crate::model::warp_logs(state);
    let records: Vec<_> = state
        .records()
        .filter(|record| record.kind.as_str() == list.kind && record.presence != Presence::Gone)
        .filter(|record| only.is_none_or(|id| record.place.warp_id() == Some(id)))
        .filter(|record| {
            let warp = record.place.warp_id().and_then(|id| logs.get(id));
            warp.is_none_or(|log| log.warp.state != crate::view::WarpState::Removed)
        })
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
        let warp = record.place.warp_id();
        let mut row = Vec::with_capacity(header.len());
        if !of_warp {
            row.push(warp.and_then(|id| logs.get(id)).map(|log| log.warp.name.clone()).unwrap_or_default());
            row.push(warp.map(ToString::to_string).unwrap_or_default());
        }
        row.push(record.id.to_string());
        row.extend(known.iter().chain(&others).map(|field| cell(record.get(field))));
        row.push(record.by.to_string());
        row
    });
    crate::export::table(&header, rows)
}

/// Reads a cell that was taken out: the unit is in the heading, the decimal mark is a point.
///
/// # Errors
/// What is wrong, as a sentence.
pub fn read_exact(column: &Column, text: &str) -> Result<Value, String> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(Value::Null);
    }
    let number = || {
        text.parse::<f64>()
            .ok()
            .filter(|number| number.is_finite())
            .ok_or_else(|| format!("\u{201c}{}\u{201d} is no number.", short(text)))
    };
    match column.holds {
        Text | Time => Ok(json!(text)),
        Word(words) => word(words, text),
        Day => text
            .parse::<chrono::NaiveDate>()
            .map(|day| json!(day))
            .map_err(|_| format!("\u{201c}{}\u{201d} is no day; write it as 2026-03-09.", short(text))),
        Length | Mass | Minutes | Density | Number => number().map(|number| {
            // A figure that was written whole stays whole: 42 and 42.0 are two writings.
            if text.bytes().all(|b| b.is_ascii_digit() || b == b'-') && number.abs() < 9.0e15 {
                json!(number as i64)
            } else {
                json!(number)
            }
        }),
        Whole => text
            .parse::<i64>()
            .map(|whole| json!(whole))
            .map_err(|_| format!("\u{201c}{}\u{201d} is no whole number.", short(text))),
        YesNo => yes_no(text),
        Lines => Ok(json!(text.lines().map(str::trim).filter(|line| !line.is_empty()).collect::<Vec<_>>())),
    }
}

/// A word of a column; spaces and capitals do not matter.
///
/// # Errors
/// It is none of the words.
pub fn word(words: &[&str], text: &str) -> Result<Value, String> {
    let plain = text.trim().to_lowercase().replace([' ', '-'], "_");
    words
        .iter()
        .find(|word| **word == plain)
        .map(|word| json!(word))
        .ok_or_else(|| format!("\u{201c}{}\u{201d} is not one of {}.", short(text), words.join(", ")))
}

/// A yes or a no.
///
/// # Errors
/// It is neither.
pub fn yes_no(text: &str) -> Result<Value, String> {
    match text.trim().to_lowercase().as_str() {
        "yes" | "y" | "true" | "1" | "x" => Ok(json!(true)),
        "no" | "n" | "false" | "0" => Ok(json!(false)),
        _ => Err(format!("\u{201c}{}\u{201d} is neither yes nor no.", short(text))),
    }
}

/// The beginning of a text, for a sentence.
#[must_use]
pub fn short(text: &str) -> String {
    text.chars().take(40).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

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

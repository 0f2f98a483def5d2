//! Headings as people write them: with a unit behind, and with "date" before or after what happened.

use super::plain;
use crate::tables::ColumnType;

/// What columns of one sort can be headed with, and how a cell is to say so.
struct HeadingUnits {
    fits: fn(ColumnType) -> bool,
    /// Words in a heading, and the unit that the reader of measures knows.
    words: &'static [(&'static str, &'static str)],
}

const UNITS: [HeadingUnits; 4] = [
    HeadingUnits {
        fits: |column_type| matches!(column_type, ColumnType::Minutes),
        words: &[
            ("h", "h"),
            ("hr", "h"),
            ("hrs", "h"),
            ("hour", "h"),
            ("hours", "h"),
            ("min", "min"),
            ("mins", "min"),
            ("minutes", "min"),
        ],
    },
    HeadingUnits {
        fits: |column_type| matches!(column_type, ColumnType::Length),
        words: &[
            ("mm", "mm"),
            ("cm", "cm"),
            ("m", "m"),
            ("metres", "m"),
            ("meters", "m"),
            ("in", "in"),
            ("inch", "in"),
            ("inches", "in"),
            ("ft", "ft"),
            ("feet", "ft"),
            ("yd", "yd"),
            ("yds", "yd"),
            ("yards", "yd"),
        ],
    },
    HeadingUnits {
        fits: |column_type| matches!(column_type, ColumnType::Mass),
        words: &[("g", "g"), ("grams", "g"), ("kg", "kg"), ("oz", "oz"), ("ounces", "oz"), ("lb", "lb")],
    },
    HeadingUnits {
        fits: |column_type| matches!(column_type, ColumnType::Density),
        words: &[
            ("ppi", "per inch"),
            ("epi", "per inch"),
            ("picks per inch", "per inch"),
            ("ends per inch", "per inch"),
            ("per inch", "per inch"),
            ("picks per cm", "per cm"),
            ("ends per cm", "per cm"),
            ("per cm", "per cm"),
            ("picks per 10 cm", "per 10 cm"),
            ("ends per 10 cm", "per 10 cm"),
            ("per 10 cm", "per 10 cm"),
        ],
    },
];

/// A heading and the unit behind it: `length (cm)`, `length, cm`, `length_cm`, `length in cm`, `length cm`.
fn split(heading: &str) -> Option<(String, String)> {
    let heading = plain(heading).replace('_', " ");
    let bracketed = heading.strip_suffix([')', ']']).and_then(|rest| rest.rsplit_once(['(', '[']));
    let parts = bracketed.or_else(|| heading.rsplit_once(',')).or_else(|| heading.rsplit_once(' '));
    let (what, unit) = parts?;
    let what = what.trim();
    let what = what.strip_suffix(" in").unwrap_or(what);
    let is_unit = UNITS.iter().flat_map(|units| units.words).any(|(word, _)| *word == unit.trim());
    (is_unit && !what.is_empty()).then(|| (what.to_owned(), unit.trim().to_owned()))
}

/// The names a heading may go by, the likeliest first.
pub(super) fn names(heading: &str) -> Vec<String> {
    let whole = plain(heading);
    let spaced = whole.replace('_', " ");
    let mut names = vec![whole, spaced];
    if let Some((what, unit)) = split(heading) {
        // "Time (h)" is no time of day.
        if UNITS[0].words.iter().any(|(word, _)| *word == unit) {
            names.push(unit);
        }
        names.push(what);
    }
    for name in names.clone() {
        let bare = [name.strip_prefix("date "), name.strip_suffix(" date"), name.strip_suffix(" on")];
        names.extend(bare.into_iter().flatten().map(|bare| bare.trim().to_owned()).filter(|bare| !bare.is_empty()));
    }
    names
}

/// A cell with the unit of its heading, where it is a bare figure and the column holds such measures.
pub(super) fn with_unit(heading: &str, column_type: ColumnType, cell: &str) -> Option<String> {
    let is_bare = cell.chars().any(|c| c.is_ascii_digit())
        && cell.chars().all(|c| c.is_numeric() || c.is_whitespace() || "+-.,'\u{2019}/\u{2044}".contains(c));
    if !is_bare {
        return None;
    }
    let units = UNITS.iter().find(|units| (units.fits)(column_type))?;
    let unit_of = |text: &str| units.words.iter().find(|(word, _)| *word == text).map(|(_, unit)| *unit);
    let unit = unit_of(&plain(heading)).or_else(|| unit_of(&split(heading)?.1))?;
    Some(format!("{cell} {unit}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_heading_is_known_with_its_unit_and_with_its_date() {
        for (heading, name) in [
            ("Reed width (in)", "reed width"),
            ("Reed_width_cm", "reed width"),
            ("Length, cm", "length"),
            ("Length in cm", "length"),
            ("Weight [g]", "weight"),
            ("Time (h)", "h"),
            ("Date begun", "begun"),
            ("Finish date", "finish"),
            ("finished on", "finished"),
            ("Date", "date"),
        ] {
            assert!(names(heading).contains(&name.to_owned()), "{heading}: {:?}", names(heading));
        }
        assert_eq!(names("Notes"), ["notes", "notes"]);
        // What is in brackets is a unit only where it is one.
        assert!(!names("Picks (both)").contains(&"picks".to_owned()));
    }

    #[test]
    fn a_bare_figure_takes_the_unit_of_its_heading() {
        for (heading, column_type, cell, reported) in [
            ("Hours", ColumnType::Minutes, "1.5", Some("1.5 h")),
            ("Time (h)", ColumnType::Minutes, "2", Some("2 h")),
            ("Hours", ColumnType::Minutes, "1:30", None),
            ("Hours", ColumnType::Minutes, "90 min", None),
            ("Length (cm)", ColumnType::Length, "41,5", Some("41,5 cm")),
            ("Width (in)", ColumnType::Length, "12 1/2", Some("12 1/2 in")),
            ("Width (in)", ColumnType::Length, "30 cm", None),
            ("Width", ColumnType::Length, "30", None),
            ("PPI", ColumnType::Density, "8", Some("8 per inch")),
            ("Picks (per 10 cm)", ColumnType::Density, "32", Some("32 per 10 cm")),
            ("Length (cm)", ColumnType::Text, "30", None),
            ("Length (cm)", ColumnType::Mass, "30", None),
            ("Length (cm)", ColumnType::Length, "", None),
        ] {
            assert_eq!(with_unit(heading, column_type, cell).as_deref(), reported, "{heading} {cell}");
        }
    }
}

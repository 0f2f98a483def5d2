//! Keeps spreadsheets from running text as a formula.
//!
//! A cell whose text begins with one of a few signs is run as a formula by spreadsheet programs (Open Worldwide Application Security
//! Project, "CSV Injection"). Such text is written with an apostrophe before it, which spreadsheets take for "this is text"; reading
//! a table takes the apostrophe away again.

/// What a formula begins with; the full-width forms are run as well.
const SIGNS: [char; 10] = ['=', '+', '-', '@', '\t', '\r', '＝', '＋', '－', '＠'];

fn begins_formula(text: &str) -> bool {
    text.starts_with(SIGNS) && text.parse::<f64>().is_err()
}

/// The text of a cell as it is written: harmless in a spreadsheet. Figures stay as they are.
#[must_use]
pub fn guarded(text: String) -> String {
    if begins_formula(text.trim_start_matches('\'')) { format!("'{text}") } else { text }
}

/// The text of a cell that [`guarded`] wrote.
#[must_use]
pub fn unguarded(text: &str) -> &str {
    match text.strip_prefix('\'') {
        Some(rest) if begins_formula(rest.trim_start_matches('\'')) => rest,
        _ => text,
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::{guarded, unguarded};

    #[test]
    fn formulas_become_text_and_figures_stay() {
        for formula in ["=1+1", "+49 30 1", "-x", "@SUM(A1)", "\t=1", "=cmd|' /C calc'!A0", "'=1+1", "＝1+1"] {
            assert_eq!(guarded(formula.to_owned()), format!("'{formula}"));
        }
        for plain in ["-3", "+4.5", "-0.1e3", "green = grass", "'quoted'", "", "2026-03-09"] {
            assert_eq!(guarded(plain.to_owned()), plain);
        }
    }

    proptest! {
        #[test]
        fn what_is_written_reads_as_the_same(text in "['=+@a1. \\t-]{0,6}") {
            let written = guarded(text.clone());
            prop_assert_eq!(unguarded(&written), text);
        }
    }
}

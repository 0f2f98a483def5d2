//! Bringing tables in.

use serde::Serialize;
#[cfg(test)]
use ts_rs::TS;

pub use fellmark_model::forms::ImportForm;

/// What would come in, before anything is written.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct ImportView {
    /// The list it is.
    pub list: String,
    /// What each column is taken for.
    pub columns: Vec<ImportColumn>,
    /// What a column can be.
    pub fields: Vec<ImportField>,
    /// Rows that would come in.
    #[cfg_attr(test, ts(type = "number"))]
    pub good: usize,
    /// "118 sittings would be brought in, 2 rows refused."
    pub line: String,
    /// The first rows as they were understood: cells in the order of the columns that are taken.
    pub shown: Vec<Vec<String>>,
    /// Rows that are refused, and why.
    pub refused: Vec<ImportRefused>,
    /// Whether rows need a warp to be chosen.
    pub needs_warp: bool,
}

/// One column of the table.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct ImportColumn {
    /// Its heading.
    pub heading: String,
    /// A value from it.
    pub sample: String,
    /// The field it is taken for; `-` for none.
    pub field: String,
}

/// What a column can be.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct ImportField {
    /// Its name.
    pub field: String,
    /// In words.
    pub label: String,
}

/// A row that is refused.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct ImportRefused {
    /// Line of the file, the heading being line 1.
    #[cfg_attr(test, ts(type = "number"))]
    pub line: usize,
    /// Why.
    pub why: String,
}

#[cfg(test)]
pub(super) fn declarations() -> Vec<String> {
    super::declare!(ImportForm, ImportView, ImportColumn, ImportField, ImportRefused)
}

//! A table that is imported, and what its columns are.

use serde::{Deserialize, Serialize};
#[cfg(any(test, feature = "typescript"))]
use ts_rs::TS;

/// A table to bring in, and what its columns are.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
#[cfg_attr(any(test, feature = "typescript"), derive(TS))]
pub struct ImportForm {
    /// The table's text.
    pub text: String,
    /// The list: `sittings`, `warps`, `wefts` or `finishing`; empty is guessed from the headings.
    pub list: String,
    /// The field of each column as `ImportField::field` names it, `-` for none; empty is guessed from the headings.
    pub columns: Vec<String>,
    /// The warp that rows without one belong to: record id.
    pub warp: String,
}

//! A place in the pick sequence, as it is chosen.

use serde::{Deserialize, Serialize};
#[cfg(any(test, feature = "typescript"))]
use ts_rs::TS;

/// A place in the sequence as the weaver chooses it: the row that comes next. Empty members are the first.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
#[cfg_attr(any(test, feature = "typescript"), derive(TS))]
pub struct PlaceForm {
    /// Which piece, from 1.
    pub piece: String,
    /// `opening`, `repeat`, `balance` or `closing`.
    pub section: String,
    /// Which repeat, from 1; in balance and closing border how many were woven.
    pub repeat: String,
    /// Which row of the section, from 1.
    pub row: String,
}

//! What is typed, and what was understood.

use serde::Serialize;
#[cfg(test)]
use ts_rs::TS;

pub use fellmark_model::forms::{SittingForm, WarpForm};

/// What a typed measure was understood as.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct Understood {
    /// "184.2 cm", or empty when nothing was typed.
    pub shown: String,
    /// The day that was meant, as year-month-day; nothing where no day is asked for or none can be read.
    pub day: Option<String>,
    /// What is wrong with it, as a sentence.
    pub trouble: Option<String>,
}

/// Why something could not be done: a sentence, and the form's field it belongs to.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct ErrorView {
    /// Member of the form, or nothing.
    pub field: Option<String>,
    /// What happened and what to do.
    pub sentence: String,
    /// Whether a disk refused it, and not what was typed.
    #[serde(skip)]
    pub is_of_storage: bool,
}

#[cfg(test)]
pub(super) fn declarations() -> Vec<String> {
    super::declare!(WarpForm, SittingForm, Understood, ErrorView)
}

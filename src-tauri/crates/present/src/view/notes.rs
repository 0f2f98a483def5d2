//! What is noted at single moments: readings, weighings, yarns taken up; the yarns' ledgers; photos over time.

use serde::Serialize;
#[cfg(test)]
use ts_rs::TS;

pub use fellmark_model::forms::{ReadingForm, YarnForm, YarnLeftForm};

/// A weft yarn's ledger.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct YarnView {
    /// Record id.
    pub id: String,
    /// Its name.
    pub name: String,
    /// "96 g at first, 42 g left; 62 cm woven with it".
    pub line: String,
    /// How far it goes on: "good for some 70 cm more"; empty when it is not known.
    pub reach: String,
    /// That about half of it is gone.
    pub half: Option<String>,
    /// Share of it that is left, 0 to 1.
    pub share_left: Option<f64>,
    /// Whether it is the one being woven.
    pub in_use: bool,
    /// What its empty shuttle weighs: "28 g"; empty when it is not known.
    pub tare: String,
    /// The form as it would be shown to change it.
    pub form: YarnForm,
    /// What a change answers: hand it back unchanged.
    pub seen: Vec<String>,
}

/// Something that was noted, to be read and removed.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct MomentLine {
    /// Record id.
    pub record: String,
    /// "Tuesday 3 November".
    pub day: String,
    /// "41 cm from the start; the mark moved to the fell".
    pub line: String,
}

/// A photo in the strip over time, the earliest first.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct StripPhoto {
    /// Record id of the photo.
    pub id: String,
    /// Record id of its sitting.
    pub sitting: String,
    /// "3 Nov".
    pub day: String,
    /// "62 cm", the cloth by the end of that sitting.
    pub cloth: String,
    /// Address of the small picture.
    pub small: String,
    /// Address of the stored picture.
    pub large: String,
    /// What a screen reader says.
    pub text: String,
    /// Whether the picture's file has not arrived yet.
    pub missing: bool,
}

#[cfg(test)]
pub(super) fn declarations() -> Vec<String> {
    super::declare!(ReadingForm, YarnLeftForm, YarnForm, YarnView, MomentLine, StripPhoto)
}

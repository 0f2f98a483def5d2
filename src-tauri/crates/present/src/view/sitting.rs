//! Sittings and their photos, as they are listed.

use serde::Serialize;
#[cfg(test)]
use ts_rs::TS;

use super::forms::SittingForm;

/// A sitting in a list.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct SittingLine {
    /// Record id.
    pub id: String,
    /// "Tuesday 3 November".
    pub day: String,
    /// "42 min, 118 picks, 41 cm measured".
    pub line: String,
    /// The weaver's note.
    pub note: Option<String>,
    /// Which device wrote it first.
    pub device: String,
    /// Its photos.
    pub photos: Vec<PhotoView>,
    /// Removed on one device and edited on another: it stays.
    pub contested: bool,
    /// The form as it would be shown to correct it.
    pub form: SittingForm,
    /// What a correction answers: hand it back unchanged.
    pub seen: Vec<String>,
}

/// A photo of a sitting.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct PhotoView {
    /// Record id.
    pub id: String,
    /// Address of the small picture.
    pub small: String,
    /// Address of the stored picture.
    pub large: String,
    /// What a screen reader says.
    pub text: String,
    /// Whether the picture's file has not arrived yet.
    pub missing: bool,
}

/// What getting up starts from: the form with what is known filled in, and what to ask about.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct FinishForm {
    /// Minutes and picks as counted.
    pub form: SittingForm,
    /// "The timer ran for 9 hours; 55 minutes are more likely." Nothing when all is plain.
    pub question: Option<String>,
    /// Minutes since the first pick by the clock, where the weaver may have woven on without counting.
    pub by_the_clock: Option<String>,
}

#[cfg(test)]
pub(super) fn declarations() -> Vec<String> {
    super::declare!(SittingLine, PhotoView, FinishForm)
}

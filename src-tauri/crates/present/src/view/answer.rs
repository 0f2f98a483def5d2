//! What several views share: an answer in words, how it stands, and where a warp is.

use serde::Serialize;
#[cfg(test)]
use ts_rs::TS;

pub use fellmark_model::WarpState;

/// An answer in words, with the calculation behind "why?".
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct Answer {
    /// The sentence that is read first.
    pub headline: String,
    /// Sentences below it.
    pub more: Vec<String>,
    /// The calculation, line by line, with the weaver's own numbers.
    pub why: Vec<String>,
    /// How it stands.
    pub standing: Standing,
}

/// What an answer shows large, and one short line below it. Empty where the headline itself is shown large.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct GlanceView {
    /// A figure, or a day.
    pub figure: String,
    /// One short sentence.
    pub line: String,
}

/// How an answer stands; never shown by colour alone.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
#[cfg_attr(test, derive(TS))]
pub enum Standing {
    /// It reaches, it will be in time.
    Well,
    /// It may or may not.
    Close,
    /// It will not.
    Short,
    /// Not enough is known to say.
    #[default]
    Open,
}

#[cfg(test)]
pub(super) fn declarations() -> Vec<String> {
    super::declare!(Answer, GlanceView, Standing, WarpState)
}

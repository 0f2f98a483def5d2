//! Pace: what each warp took, and how pace goes with length, with time and between short and long.

use serde::Serialize;
#[cfg(test)]
use ts_rs::TS;

/// Everything on pace.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct PaceView {
    /// What each warp took, the latest begun first.
    pub rows: Vec<PaceRow>,
    /// What the figures count, in a sentence or two.
    pub counted: Vec<String>,
    /// Pictures, each with what it says.
    pub charts: Vec<ChartView>,
    /// The length that parts short from long, as it stands in the field.
    pub split: String,
    /// What is wrong with the length that was typed.
    pub split_trouble: Option<String>,
    /// Warps that can be looked at over their own time: record id and name.
    pub within: Vec<PaceChoice>,
    /// The one that is shown.
    pub within_shown: Option<String>,
}

/// A warp to choose.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct PaceChoice {
    /// Record id.
    pub id: String,
    /// Its name.
    pub name: String,
}

/// What one warp took. Figures are words; empty where unknown.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct PaceRow {
    /// Record id.
    pub id: String,
    /// Its number in the pictures.
    pub number: String,
    /// Its name.
    pub name: String,
    /// "finished", "off the loom", "on the loom", "resting".
    pub state: String,
    /// Length woven, under tension.
    pub length: String,
    /// Hours at the loom.
    pub hours: String,
    /// Sittings.
    pub sittings: String,
    /// Days from the first pick to finished; to today while it is not.
    pub days: String,
    /// Picks an hour.
    pub picks_per_hour: String,
    /// Length an hour.
    pub length_per_hour: String,
    /// Hours for a metre, or for a yard.
    pub hours_per_length: String,
}

/// A picture with what it says.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct ChartView {
    /// What it is for saving: `length`, `within`, `split`.
    pub what: String,
    /// Its title.
    pub title: String,
    /// What it says, in words that do not say more than the figures do.
    pub sentences: Vec<String>,
    /// The picture as SVG, drawn in classes that follow the page; empty where there is nothing to draw.
    pub svg: String,
    /// The same as a table: names of the columns, then the rows.
    pub columns: Vec<String>,
    /// Rows of the table.
    pub rows: Vec<Vec<String>>,
}

#[cfg(test)]
pub(super) fn declarations() -> Vec<String> {
    super::declare!(PaceView, PaceChoice, PaceRow, ChartView)
}

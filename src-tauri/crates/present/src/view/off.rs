//! What came of a warp: measures, finishing steps, planned and actual figures, and what was learnt.

use serde::Serialize;
#[cfg(test)]
use ts_rs::TS;

pub use fellmark_model::forms::OffForm;

/// What came of a warp.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct OffView {
    /// Where finishing stands: "Finished on Tuesday 3 November." Nothing while it is on the loom.
    pub line: String,
    /// Steps between the last pick and the finished piece, in order.
    pub steps: Vec<StepView>,
    /// Planned and actual figures.
    pub planned_and_actual: Vec<PlannedAndActualRow>,
    /// What is not measured yet and would teach something, as sentences.
    pub missing: Vec<String>,
    /// What all finished warps teach for one like this.
    pub learned: Vec<LearnedLine>,
    /// The form of what came off the loom, filled from what is known.
    pub form: OffForm,
}

/// A finishing step.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct StepView {
    /// Record id.
    pub id: String,
    /// What is done.
    pub name: String,
    /// Day it was done, `YYYY-MM-DD`.
    pub done_on: Option<String>,
    /// "Tuesday 3 November"; empty while it is not done.
    pub done: String,
}

/// One figure, planned and actual.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct PlannedAndActualRow {
    /// What it is.
    pub what: String,
    /// As planned; empty where nothing was.
    pub planned: String,
    /// As measured; empty where it was not.
    pub actual: String,
    /// The difference in words; empty where there is none.
    pub difference: String,
}

/// A figure learnt, as it is offered.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct LearnedLine {
    /// What it is: "Take-up".
    pub what: String,
    /// "100 cm of cloth uses 111 cm of warp, give or take 2".
    pub sentence: String,
    /// "from 3 warps, 2 of them like this one".
    pub behind: String,
    /// Member of the warp's form it would fill, if any.
    pub field: Option<String>,
    /// What it would be filled with.
    pub value: String,
}

#[cfg(test)]
pub(super) fn declarations() -> Vec<String> {
    super::declare!(OffView, StepView, PlannedAndActualRow, LearnedLine, OffForm)
}

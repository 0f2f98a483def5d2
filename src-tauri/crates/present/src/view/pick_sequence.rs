//! A pick sequence being written, and the cloth it makes.

use serde::Serialize;
#[cfg(test)]
use ts_rs::TS;

pub use fellmark_model::forms::PickSequenceForm;

/// What a sequence comes to.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct PickSequenceView {
    /// What is wrong with a field, each beside its own.
    pub errors: Vec<super::ErrorView>,
    /// "4 picks of opening border, 4 to a repeat, 3 of balance, 4 of closing border."
    pub counts: String,
    /// The cloth; nothing when it cannot be drawn.
    pub cloth: Option<ClothView>,
    /// Two picks in one shed, and floats that are long: each a sentence.
    pub warnings: Vec<String>,
    /// What else is worth knowing: the longest float, the side of the shuttle.
    pub notes: Vec<String>,
    /// The opening border mirrored, to close with; empty when there is none.
    pub mirrored: String,
    /// Sequences to start from.
    pub examples: Vec<PickSequenceExample>,
}

/// Cloth as it would look: weft over and under each end.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct ClothView {
    /// Ends across.
    #[cfg_attr(test, ts(type = "number"))]
    pub ends: usize,
    /// Picks in order of weaving, the first at the bottom.
    pub rows: Vec<ClothRow>,
    /// How high a pick is drawn against the width of an end.
    pub pick_per_end: f64,
    /// The whole of it in a sentence, for a screen reader.
    pub text: String,
}

/// One pick.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct ClothRow {
    /// For each end `1` where it lies over the weft, `0` where the weft lies over it.
    pub up: String,
    /// `opening`, `repeat`, `balance` or `closing`.
    pub section: String,
    /// What is done: "heddle up".
    pub words: String,
    /// Floats on the face that are long, as first and last end from 0.
    pub long: Vec<[u32; 2]>,
}

/// A sequence to start from, under a generic name.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct PickSequenceExample {
    /// Its name.
    pub name: String,
    /// Rows of the opening border, one to a line.
    pub opening: String,
    /// Rows of the repeat.
    pub repeat: String,
    /// Rows of the balance.
    pub balance: String,
    /// Rows of the closing border.
    pub closing: String,
}

#[cfg(test)]
pub(super) fn declarations() -> Vec<String> {
    super::declare!(PickSequenceForm, PickSequenceView, ClothView, ClothRow, PickSequenceExample)
}

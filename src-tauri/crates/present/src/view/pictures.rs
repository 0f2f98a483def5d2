//! What is drawn: the warp to scale, and the days to the end.

use serde::Serialize;
#[cfg(test)]
use ts_rs::TS;

/// The warp to scale, from the cloth beam to the back beam. All positions are millimetres of warp from its front end.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct WarpPicture {
    /// The whole warp; when it falls short, what would be needed.
    pub whole_mm: f64,
    /// Where the fell lies.
    pub fell_mm: f64,
    /// What is reported of it: "the fell, after 41 cm of cloth".
    pub fell_label: String,
    /// Stretches in order, without gaps.
    pub bands: Vec<Band>,
    /// Marks and pins.
    pub marks: Vec<PictureMark>,
    /// The whole picture in a sentence, for a screen reader.
    pub text: String,
}

/// A stretch of the warp picture.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct Band {
    /// What it is.
    pub kind: BandKind,
    /// Where it begins.
    pub from_mm: f64,
    /// Where it ends.
    pub to_mm: f64,
    /// What is written at it: "14 cm woven, Tuesday 3 November".
    pub label: String,
    /// The sitting that wove it.
    pub sitting: Option<String>,
    /// Address of its photo's small picture.
    pub photo: Option<String>,
}

/// Kinds of stretches in the warp picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
#[cfg_attr(test, derive(TS))]
pub enum BandKind {
    /// Waste in front: the knots.
    FrontWaste,
    /// Cloth that is woven.
    Woven,
    /// Cloth still to weave.
    ToWeave,
    /// Fringe or gap between pieces.
    Fringe,
    /// Warp to spare.
    Spare,
    /// Waste behind.
    BackWaste,
    /// Warp that is missing.
    Missing,
}

/// A mark on the warp picture.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct PictureMark {
    /// Where it is.
    pub at_mm: f64,
    /// What it is.
    pub label: String,
}

/// The finish date as a picture over time.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct DaysPicture {
    /// First day drawn.
    pub from: String,
    /// Days drawn.
    #[cfg_attr(test, ts(type = "number"))]
    pub days: i64,
    /// Which day of the picture today is, from 0.
    #[cfg_attr(test, ts(type = "number"))]
    pub today: i64,
    /// Woven so far at the end of days on which something changed.
    pub woven: Vec<DayPoint>,
    /// The fan from today on, day by day.
    pub fan: Vec<FanPoint>,
    /// The gift day, as a day of the picture.
    #[cfg_attr(test, ts(type = "number | null"))]
    pub gift: Option<i64>,
    /// Days worth naming below the picture, as day of the picture and words.
    pub ticks: Vec<DayTick>,
    /// The whole picture in a sentence.
    pub text: String,
}

/// How much was woven by the end of a day.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct DayPoint {
    /// Day of the picture, from 0.
    #[cfg_attr(test, ts(type = "number"))]
    pub day: i64,
    /// Share of the whole.
    pub share: f64,
}

/// How far the cloth likely is by the end of a coming day.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct FanPoint {
    /// Day of the picture, from 0.
    #[cfg_attr(test, ts(type = "number"))]
    pub day: i64,
    /// Share of the whole woven by then: less one time in ten.
    pub low: f64,
    /// As often less as more.
    pub likely: f64,
    /// More one time in ten.
    pub high: f64,
}

/// A day named below the picture.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct DayTick {
    /// Day of the picture.
    #[cfg_attr(test, ts(type = "number"))]
    pub day: i64,
    /// What is written.
    pub label: String,
}

#[cfg(test)]
pub(super) fn declarations() -> Vec<String> {
    super::declare!(WarpPicture, Band, BandKind, PictureMark, DaysPicture, DayPoint, FanPoint, DayTick)
}

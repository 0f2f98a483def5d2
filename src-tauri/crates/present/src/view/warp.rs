//! One warp with its three answers, and the sitting that is going on.

use serde::Serialize;
#[cfg(test)]
use ts_rs::TS;

pub use fellmark_model::forms::PlaceForm;

use super::answer::{Answer, GlanceView, WarpState};
use super::forms::WarpForm;
use super::notes::{MomentLine, StripPhoto, YarnView};
use super::off::OffView;
use super::pictures::{DaysPicture, WarpPicture};
use super::sitting::SittingLine;

/// One warp with its three answers.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct LoomView {
    /// Record id.
    pub id: String,
    /// Its name.
    pub name: String,
    /// Where it is.
    pub state: WarpState,
    /// Where am I: picks, cloth, place in the repeat.
    pub progress: Answer,
    /// Will the warp reach.
    pub warp_reach: Answer,
    /// Will the weft last; an answer that says what is missing when no weft is known.
    pub weft_reach: Answer,
    /// When will it be done.
    pub finish_date: Answer,
    /// How far it is, at a glance.
    pub progress_glance: GlanceView,
    /// When it will be done, at a glance.
    pub finish_date_glance: GlanceView,
    /// The same as plain figures, for programs.
    pub figures: Figures,
    /// The place in the pick sequence, when one is written down.
    pub place: Option<PlaceView>,
    /// "74 cm to go": cloth still to weave of the piece at the fell.
    pub to_go: Option<String>,
    /// The warp to scale.
    pub picture: WarpPicture,
    /// Day by day: what was woven, and the fan to the end; nothing when there is no date.
    pub days: Option<DaysPicture>,
    /// Every sitting, the latest first; removed ones are left out.
    pub sittings: Vec<SittingLine>,
    /// The weft yarns' ledgers.
    pub yarns: Vec<YarnView>,
    /// What was noted between and within sittings, the latest first.
    pub moments: Vec<MomentLine>,
    /// The photos over time, the earliest first.
    pub strip: Vec<StripPhoto>,
    /// Picks that one press counts.
    #[cfg_attr(test, ts(type = "number"))]
    pub picks_per_tap: i64,
    /// What the first presses of a sitting would show.
    pub press_previews: Vec<PressView>,
    /// Sittings that were removed, to restore.
    pub removed: Vec<SittingLine>,
    /// Fields into which two devices wrote different values.
    pub conflicts: Vec<ConflictView>,
    /// The form as it would be shown to change the warp.
    pub form: WarpForm,
    /// What a change of the warp answers: hand it back unchanged.
    pub seen: Vec<String>,
    /// Cautions that matter for this warp as it stands, each shown until it was read for this warp.
    pub cautions: Vec<CautionView>,
    /// What came of it.
    pub off: OffView,
}

/// A caution.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct CautionView {
    /// What it is about, in every language.
    pub id: String,
    /// What to do.
    pub sentence: String,
    /// Where it comes from.
    pub source: String,
}

/// The three answers as figures. Lengths are of cloth under tension unless the name says otherwise; nothing where unknown.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct Figures {
    /// Net picks woven, the running sitting included.
    #[cfg_attr(test, ts(type = "number"))]
    pub picks: i64,
    /// Cloth woven.
    pub woven_mm: f64,
    /// Half-width of what is uncertain about it (80 %).
    pub woven_give_or_take_mm: f64,
    /// Cloth to be woven in all, gaps and fringes not counted.
    pub wanted_mm: f64,
    /// Cloth still to weave.
    pub to_weave_mm: f64,
    /// Picks still to weave.
    #[cfg_attr(test, ts(type = "number"))]
    pub to_weave_picks: i64,
    /// Picks per 10 cm that the calculation uses.
    pub picks_per_10cm: f64,
    /// Usable warp left.
    pub warp_left_mm: Option<f64>,
    /// Longest cloth that can still be woven: low, likely, high (80 %).
    pub cloth_possible_mm: Option<[f64; 3]>,
    /// Chance that the warp reaches.
    pub warp_chance: Option<f64>,
    /// Weft left, in metres of yarn: low, likely, high (80 %).
    pub weft_left_m: Option<[f64; 3]>,
    /// Weft still needed in metres.
    pub weft_needed_m: Option<f64>,
    /// Chance that the weft lasts.
    pub weft_chance: Option<f64>,
    /// Day off the loom, likely.
    pub off_loom_likely: Option<String>,
    /// Day off the loom: earliest and latest of four times in five.
    pub off_loom_span: Option<[String; 2]>,
    /// Day finished, likely.
    pub finished_likely: Option<String>,
    /// Day finished: earliest and latest of four times in five.
    pub finished_span: Option<[String; 2]>,
    /// The gift day.
    pub gift_on: Option<String>,
    /// Chance that it is finished by the gift day.
    pub gift_chance: Option<f64>,
    /// Hours at the loom: low, likely, high (nine in ten); only before the first sitting of a weaver without finished warps.
    pub hours: Option<[f64; 3]>,
    /// Before that sitting, what makes the gift day four times in five: days a week and minutes on each.
    pub gift_ways: Vec<[f64; 2]>,
    /// Minutes at the loom in all.
    pub minutes: f64,
}

/// Where the weaver is in the pick sequence.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct PlaceView {
    /// The last pick beaten, in words; nothing before the first.
    pub last: Option<String>,
    /// The next pick in large words: "heddle down, stick forward and on edge".
    pub next: String,
    /// The pick after that; nothing at the end.
    pub then: Option<String>,
    /// "pick 3 of 4 in the repeat; repeat 18".
    pub place: String,
    /// What is left of the section: "2 picks left".
    pub left: String,
    /// "piece 2 of 4"; nothing on a warp of one piece.
    pub piece: Option<String>,
    /// That the next pick would lie in the same shed as the last one.
    pub warning: Option<String>,
    /// That there is room for little more: where to go on, as a button.
    pub due: Option<PlaceDue>,
    /// Whether the next pick was begun and is not beaten.
    pub begun: bool,
    /// Which row of the section comes next, from 1.
    #[cfg_attr(test, ts(type = "number"))]
    pub row: usize,
    /// Rows in the section.
    #[cfg_attr(test, ts(type = "number"))]
    pub rows: usize,
    /// Heddle position of the next pick: `up`, `down`, `rest`; nothing for other looms.
    pub heddle: Option<String>,
    /// Stick position of the next pick: `back`, `forward`, `edge`; nothing without a stick.
    pub stick: Option<String>,
}

/// Where the sequence goes on when a section should end.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct PlaceDue {
    /// Why: "There is cloth left for this repeat and the borders."
    pub sentence: String,
    /// What the button says: "Begin the balance".
    pub words: String,
    /// Where it leads.
    pub to: PlaceForm,
}

/// The places there are to choose from.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct Places {
    /// Where the weaver is now.
    pub now: PlaceForm,
    /// Pieces on the warp.
    pub pieces: u32,
    /// The sections that have rows.
    pub sections: Vec<PlaceSection>,
}

/// A section of the sequence with its rows.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct PlaceSection {
    /// `opening`, `repeat`, `balance` or `closing`.
    pub section: String,
    /// "Opening border".
    pub name: String,
    /// Its rows in words.
    pub rows: Vec<String>,
}

/// The running sitting.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct RunningView {
    /// The warp it is on.
    pub warp: String,
    /// The record id the sitting will have.
    pub sitting: String,
    /// How many taps it is made of: of two views of one sitting the one with more is the newer.
    pub taps: u32,
    /// Net picks of this sitting.
    #[cfg_attr(test, ts(type = "number"))]
    pub picks: i64,
    /// Net picks of the warp, this sitting included.
    #[cfg_attr(test, ts(type = "number"))]
    pub picks_in_all: i64,
    /// Minutes at work, long pauses left out.
    pub minutes: f64,
    /// "since 19:42".
    pub since: String,
    /// Whether the timer stands still: paused by hand, or because nothing happened for long.
    pub paused: bool,
    /// Whether it is paused by hand.
    pub held: bool,
    /// "74 cm to go": cloth still to weave of the piece at the fell.
    pub to_go: Option<String>,
    /// The place in the pick sequence.
    pub place: Option<PlaceView>,
    /// Picks that one press counts.
    #[cfg_attr(test, ts(type = "number"))]
    pub picks_per_tap: i64,
    /// Whether a pick is begun and not beaten.
    pub begun: bool,
    /// StatedAvailability once when a stretch is due.
    pub stretch: Option<String>,
    /// StatedAvailability once when half of the yarn on the shuttle is gone.
    pub half: Option<String>,
    /// What the next presses would show, and the last ones taken back, so that none waits for an answer to be shown.
    pub press_previews: Vec<PressView>,
}

/// What a press or two from here would show.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct PressView {
    /// Net picks of the sitting by then.
    #[cfg_attr(test, ts(type = "number"))]
    pub picks: i64,
    /// Net picks of the warp by then, the sitting included.
    #[cfg_attr(test, ts(type = "number"))]
    pub picks_in_all: i64,
    /// "74 cm to go": cloth still to weave of the piece at the fell by then.
    pub to_go: Option<String>,
    /// The place in the pick sequence by then.
    pub place: Option<PlaceView>,
}

/// A field into which two devices wrote different values.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct ConflictView {
    /// The record.
    pub record: String,
    /// The field as the format names it.
    pub field: String,
    /// "Tuesday 3 November: picks".
    pub what: String,
    /// The answers to pick from.
    pub answers: Vec<ConflictingValue>,
}

/// One of two answers.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct ConflictingValue {
    /// Names the answer when settling.
    pub key: String,
    /// The value as the weaver would write it.
    pub value: String,
    /// Which device wrote it.
    pub device: String,
    /// Whether figures use this one for now.
    pub in_use: bool,
}

#[cfg(test)]
pub(super) fn declarations() -> Vec<String> {
    super::declare!(
        LoomView,
        Figures,
        PlaceView,
        PlaceDue,
        PlaceForm,
        Places,
        PlaceSection,
        RunningView,
        PressView,
        ConflictView,
        ConflictingValue,
        CautionView
    )
}

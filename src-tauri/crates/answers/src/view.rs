//! What the interface and the command line show: plain data with every sentence and figure ready made.
//!
//! These types cross the boundary to the window as JSON; their TypeScript form is kept in `ui/types.d.ts` by a test. Dates are
//! `YYYY-MM-DD`. Members ending in `_mm` are millimetres, `_g` grams, `share` runs from 0 to 1.

use serde::Serialize;
#[cfg(test)]
use ts_rs::TS;

/// Everything the window shows, made anew after each change.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct Desk {
    /// Today, as the device's calendar has it.
    pub today: String,
    /// Where the journal lies, or nothing yet.
    pub folder: Option<FolderView>,
    /// The warp being looked at.
    pub loom: Option<LoomView>,
    /// Every warp, the ones on the loom first, then the latest begun.
    pub warps: Vec<WarpLine>,
    /// The sitting that is going on, kept through a crash.
    pub running: Option<RunningView>,
    /// What "undo" would take back, as a sentence; nothing when there is nothing to take back.
    pub undo: Option<String>,
    /// How figures are written.
    pub manner: MannerView,
}

/// How figures are written on this device.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct MannerView {
    /// `metric` or `imperial`.
    pub units: String,
    /// Unit a bare length is read in, as it is written behind a figure: `cm` or `in`.
    pub length_unit: String,
    /// Unit a bare weight is read in: `g` or `oz`.
    pub mass_unit: String,
    /// How pick density is named: `picks per 10 cm` or `picks per inch`.
    pub density_unit: String,
}

/// The sync folder and how it is doing.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct FolderView {
    /// The folder's path as text.
    pub path: String,
    /// This device's name.
    pub device: String,
    /// Whether these are the invented data of the example.
    pub example: bool,
    /// One quiet line: "all here; the phone last wrote on Tuesday".
    pub line: String,
    /// Whether the line asks for attention.
    pub attention: bool,
    /// Entries that wait on this device because the folder cannot take them now.
    #[cfg_attr(test, ts(type = "number"))]
    pub waiting: usize,
    /// The devices that wrote here.
    pub devices: Vec<DeviceLine>,
    /// What is wrong with files in the folder.
    pub problems: Vec<ProblemLine>,
}

/// One device that wrote into the folder.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct DeviceLine {
    /// Name given to it.
    pub name: String,
    /// Whether it is this one.
    pub this_one: bool,
    /// "last wrote on Tuesday 24 November".
    pub last_wrote: String,
}

/// Something wrong with a file.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct ProblemLine {
    /// The file, relative to the folder.
    pub file: String,
    /// What is wrong, in a sentence.
    pub what: String,
    /// What to do about it.
    pub advice: String,
}

/// A warp in a list.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct WarpLine {
    /// Record id.
    pub id: String,
    /// Its name.
    pub name: String,
    /// Where it is.
    pub state: WarpState,
    /// One line: "62 of 180 cm woven; likely Saturday 12 December".
    pub line: String,
    /// Woven share of what is wanted.
    pub share: f64,
    /// Fields of it or of its sittings that hold two answers.
    #[cfg_attr(test, ts(type = "number"))]
    pub to_settle: usize,
}

/// Where a warp is in its life.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
#[cfg_attr(test, derive(TS))]
pub enum WarpState {
    /// Being woven.
    OnTheLoom,
    /// On a loom but put aside.
    Resting,
    /// Cut off.
    OffTheLoom,
    /// Removed; it can be restored.
    Removed,
}

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
    pub where_am_i: Answer,
    /// Will the warp reach.
    pub warp_reach: Answer,
    /// Will the weft last; an answer that says what is missing when no weft is known.
    pub weft_reach: Answer,
    /// When will it be done.
    pub when: Answer,
    /// The same as plain figures, for programs.
    pub figures: Figures,
    /// The place in the pick sequence, when one is written down.
    pub place: Option<PlaceView>,
    /// The warp to scale.
    pub picture: WarpPicture,
    /// Day by day: what was woven, and the fan to the end; nothing when there is no date.
    pub days: Option<DaysPicture>,
    /// Every sitting, the latest first; removed ones are left out.
    pub sittings: Vec<SittingLine>,
    /// Sittings that were removed, to restore.
    pub removed: Vec<SittingLine>,
    /// Fields with two answers.
    pub to_settle: Vec<ToSettle>,
    /// The form as it would be shown to change the warp.
    pub form: WarpForm,
    /// What a change of the warp answers: hand it back unchanged.
    pub seen: Vec<String>,
    /// Cautions that matter for this warp, shown once.
    pub cautions: Vec<String>,
}

/// An answer in words, with its reckoning behind "why?".
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct Answer {
    /// The sentence that is read first.
    pub headline: String,
    /// Sentences below it.
    pub more: Vec<String>,
    /// The reckoning, line by line, with her own numbers.
    pub why: Vec<String>,
    /// How it stands.
    pub standing: Standing,
}

/// How an answer stands; never told by colour alone.
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
    /// Picks per 10 cm that the reckoning uses.
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
    /// Minutes at the loom in all.
    pub minutes: f64,
}

/// Where she is in the pick sequence.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct PlaceView {
    /// The last pick beaten, in words; nothing before the first.
    pub last: Option<String>,
    /// The next pick in large words: "heddle down, stick forward and on edge".
    pub next: String,
    /// "pick 3 of 4 in the repeat; repeat 18".
    pub place: String,
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

/// The warp to scale, from the cloth beam to the back beam. All positions are millimetres of warp from its front end.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct WarpPicture {
    /// The whole warp; when it falls short, what would be needed.
    pub whole_mm: f64,
    /// Where the fell lies.
    pub fell_mm: f64,
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
    /// What is written at it: "14 cm, Tuesday 3 November".
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
    /// Her note.
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

/// A field with two answers.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct ToSettle {
    /// The record.
    pub record: String,
    /// The field as the format names it.
    pub field: String,
    /// "Tuesday 3 November: picks".
    pub what: String,
    /// The answers to pick from.
    pub answers: Vec<OneAnswer>,
}

/// One of two answers.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct OneAnswer {
    /// Names the answer when settling.
    pub key: String,
    /// The value as she would write it.
    pub value: String,
    /// Which device wrote it.
    pub device: String,
    /// Whether figures use this one for now.
    pub in_use: bool,
}

/// The running sitting.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct RunningView {
    /// The warp it is on.
    pub warp: String,
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
    /// Whether the timer stands still because nothing happened for long.
    pub paused: bool,
    /// The place in the pick sequence.
    pub place: Option<PlaceView>,
    /// Said once when a stretch is due.
    pub stretch: Option<String>,
}

/// The warp as typed into the form. Every figure is text as she writes it; empty means not known.
#[derive(Clone, Debug, Default, PartialEq, Serialize, serde::Deserialize)]
#[serde(default, deny_unknown_fields)]
#[cfg_attr(test, derive(TS))]
pub struct WarpForm {
    /// Name of the warp.
    pub name: String,
    /// Day it was begun, `YYYY-MM-DD`; empty is today.
    pub begun_on: String,
    /// Length of warp wound.
    pub wound: String,
    /// Loom waste, front and back together.
    pub waste: String,
    /// Length wanted of each piece.
    pub wanted: String,
    /// What length that is: `finished`, `off_loom` or `under_tension`; empty is finished.
    pub wanted_state: String,
    /// Loss of length from the loom to finished, in per cent.
    pub shrinkage_percent: String,
    /// How many pieces; empty is one.
    pub pieces: String,
    /// Fringe left unwoven at each end of each piece; empty is none.
    pub fringe: String,
    /// Whether the fringes at the two ends of the warp come out of the loom waste.
    pub fringe_from_waste: bool,
    /// Picks per 10 cm or per inch, as the units go.
    pub picks: String,
    /// Warp that 100 units of cloth under tension use: "110".
    pub warp_per_100: String,
    /// Width in the reed.
    pub reed_width: String,
    /// What is added to the reed width for one pick, in per cent.
    pub weft_allowance_percent: String,
    /// Name of the weft yarn.
    pub weft_name: String,
    /// Weight of weft at the start.
    pub weft_mass: String,
    /// Length of weft at the start.
    pub weft_length: String,
    /// How it is woven: `plain`, `pick_up` or empty.
    pub weave: String,
    /// Rows of the opening border, one to a line.
    pub opening: String,
    /// Rows of the repeat, one to a line.
    pub repeat: String,
    /// Rows that balance the last repeat.
    pub balance: String,
    /// Rows of the closing border.
    pub closing: String,
    /// Day of the gift, `YYYY-MM-DD`.
    pub gift_on: String,
    /// About how many days a week she weaves.
    pub days_a_week: String,
    /// Whether it is for a young child.
    pub for_child: bool,
    /// A note.
    pub note: String,
}

/// A sitting as typed into the form. Every figure is text as she writes it; empty means not known.
#[derive(Clone, Debug, Default, PartialEq, Serialize, serde::Deserialize)]
#[serde(default, deny_unknown_fields)]
#[cfg_attr(test, derive(TS))]
pub struct SittingForm {
    /// The day, `YYYY-MM-DD`; empty is today.
    pub on: String,
    /// Time it began, `HH:MM`.
    pub started: String,
    /// Minutes at the loom.
    pub minutes: String,
    /// Picks woven; negative when more was unwoven.
    pub picks: String,
    /// Measured length.
    pub measured: String,
    /// Where the tape started: `start` or `mark`; empty is start.
    pub measured_from: String,
    /// `tight` or `relaxed`; empty is tight.
    pub measured_tension: String,
    /// Whether a mark was set at the fell.
    pub mark_set: bool,
    /// Weft left on the scale.
    pub weft_left: String,
    /// A note.
    pub note: String,
    /// Whether the figures are rough.
    pub rough: bool,
}

/// What a typed measure was understood as.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct Understood {
    /// "184.2 cm", or empty when nothing was typed.
    pub shown: String,
    /// What is wrong with it, as a sentence.
    pub trouble: Option<String>,
}

/// Why something could not be done: a sentence, and the form's field it belongs to.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct Trouble {
    /// Member of the form, or nothing.
    pub field: Option<String>,
    /// What happened and what to do.
    pub sentence: String,
}

/// What getting up starts from: the form with what is known filled in, and what to ask about.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct GettingUp {
    /// Minutes and picks as counted.
    pub form: SittingForm,
    /// "The timer ran for 9 hours; 55 minutes are more likely." Nothing when all is plain.
    pub question: Option<String>,
}

#[cfg(test)]
mod tests {
    use super::*;

    macro_rules! declarations {
        ($($name:ident),+ $(,)?) => {
            [$(format!("export {}", <$name as TS>::decl(&ts_rs::Config::default()))),+].join("\n\n")
        };
    }

    /// `FELLMARK_BLESS=1` writes the file anew.
    #[test]
    fn the_interface_has_the_types_as_they_are() {
        let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../../ui/types.d.ts");
        let made = format!(
            "// Made from src-tauri/crates/answers/src/view.rs by its test; do not edit.\n\n{}\n",
            declarations!(
                Desk,
                MannerView,
                FolderView,
                DeviceLine,
                ProblemLine,
                WarpLine,
                WarpState,
                LoomView,
                Answer,
                Standing,
                Figures,
                PlaceView,
                WarpPicture,
                Band,
                BandKind,
                PictureMark,
                DaysPicture,
                DayPoint,
                FanPoint,
                DayTick,
                SittingLine,
                PhotoView,
                ToSettle,
                OneAnswer,
                RunningView,
                WarpForm,
                SittingForm,
                Understood,
                Trouble,
                GettingUp,
            )
        );
        if std::env::var_os("FELLMARK_BLESS").is_some() {
            std::fs::write(&path, &made).unwrap();
        }
        let kept = std::fs::read_to_string(&path).unwrap_or_default();
        assert!(kept == made, "ui/types.d.ts is out of date: run the tests of this crate with FELLMARK_BLESS=1");
    }
}

//! Everything at a glance: warps, devices, the folder.

use serde::Serialize;
#[cfg(test)]
use ts_rs::TS;

use super::answer::WarpState;
use super::plan::PlanKept;
use super::warp::{LoomView, RunningView};

/// Everything the window shows, made anew after each change.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct AppView {
    /// Today, as the device's calendar has it.
    pub today: String,
    /// Where the journal lies, or nothing yet.
    pub folder: Option<FolderView>,
    /// While there is none: the folder that was to be opened and is not.
    pub unopened: Option<Unopened>,
    /// The warp being looked at.
    pub loom: Option<LoomView>,
    /// Every warp, the ones on the loom first, then the latest begun.
    pub warps: Vec<WarpLine>,
    /// Plans that were not begun, the latest last.
    pub plans: Vec<PlanKept>,
    /// The sitting that is going on, kept through a crash.
    pub running: Option<RunningView>,
    /// What "undo" would take back, as a sentence; nothing when there is nothing to take back.
    pub undo: Option<String>,
    /// How figures are written.
    pub format: FormatView,
    /// What this device is called, or would be before the weaver names it.
    pub device: String,
}

/// A folder that was to be opened and is not.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct Unopened {
    /// Its path as text.
    pub path: String,
    /// Why not.
    pub sentence: String,
    /// Whether the weaver stopped its reading, which is no error.
    pub stopped: bool,
}

/// How figures are written on this device.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(TS))]
pub struct FormatView {
    /// `metric` or `imperial`.
    pub units: String,
    /// `metric` or `imperial`, of weights.
    pub weights: String,
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
    /// Minutes without a pause after which a stretch is suggested; nothing when it never is.
    pub stretch_minutes: Option<f64>,
    /// One quiet line: "all here; the phone last wrote on Tuesday".
    pub line: String,
    /// Whether the line asks for attention.
    pub attention: bool,
    /// Entries that wait on this device because the folder cannot take them now.
    #[cfg_attr(test, ts(type = "number"))]
    pub waiting: usize,
    /// Whether the folder holds a log and all markers of devices have gone from it: it can be marked again.
    pub unmarked: bool,
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
    /// Number of fields of it or of its sittings into which two devices wrote different values.
    #[cfg_attr(test, ts(type = "number"))]
    pub conflicts: usize,
}

#[cfg(test)]
pub(super) fn declarations() -> Vec<String> {
    super::declare!(AppView, Unopened, FormatView, FolderView, DeviceLine, ProblemLine, WarpLine)
}

//! The arguments of the command line.

mod figures;
mod fill;
mod loom;
mod plan;

use std::path::PathBuf;

use chrono::NaiveDate;
use clap::{Parser, Subcommand, ValueEnum};
use fellmark_model::display_format::Units;

pub use self::figures::{OffArgs, RowArgs, SittingArgs, TapeArgs, WarpArgs, YesNo};
pub use self::fill::argument_of;
pub use self::loom::{MeasurementArgs, PlaceArgs, WhenArgs, YarnArgs};
pub use self::plan::{PlanArgs, plan_argument};

/// Fellmark on the command line: the same log as in the window, for scripts and for machines without a display.
///
/// Measures are taken as people write them: 185, "185 cm", 1.85m, "72 1/2 in". A bare figure is in the units chosen.
/// A warp is named by its id, by the beginning of its id, or by its name.
///
/// Exit codes: 0 done; 1 done, and something needs attention (problems found by `check`, entries that wait because the folder
/// cannot take them); 2 something typed cannot be understood; 3 nothing of that name or id; 4 the folder cannot be used.
#[derive(Debug, Parser)]
#[command(name = "fell", version, verbatim_doc_comment, max_term_width = 100)]
pub struct Args {
    /// The folder the log lies in.
    #[arg(long, global = true, env = "FELLMARK_FOLDER", default_value = ".")]
    pub folder: PathBuf,

    /// Create the folder if it is missing, without a question.
    #[arg(long, global = true)]
    pub create_folder: bool,

    /// The name of this device; each name is a writer of its own.
    #[arg(long, global = true, default_value = "command-line")]
    pub device: String,

    /// Where this device keeps what is never synced; made from folder and device when not given.
    #[arg(long, global = true)]
    pub local: Option<PathBuf>,

    /// The day to take as today, YYYY-MM-DD.
    #[arg(long, global = true)]
    pub today: Option<NaiveDate>,

    /// Answer as JSON.
    #[arg(long, global = true)]
    pub json: bool,

    /// Units of bare figures and of answers; else those chosen in the folder, else the locale's.
    #[arg(long, global = true)]
    pub units: Option<UnitArg>,

    /// Units of weights, where they are others than those of lengths.
    #[arg(long, global = true)]
    pub weights: Option<UnitArg>,

    /// Locale for dates and the decimal mark, such as de-DE; else the environment's.
    #[arg(long, global = true)]
    pub locale: Option<String>,

    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

/// Units.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum UnitArg {
    /// Centimetres, metres, grams, picks per 10 cm.
    Metric,
    /// Inches, yards, ounces, picks per inch.
    Imperial,
}

impl From<UnitArg> for Units {
    fn from(units: UnitArg) -> Self {
        match units {
            UnitArg::Metric => Self::Metric,
            UnitArg::Imperial => Self::Imperial,
        }
    }
}

/// What can be done.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Begin a warp. A folder that is empty becomes a log; a missing one is created after a question, or with --create-folder.
    Begin {
        /// Name of the warp.
        name: String,
        /// Its figures.
        #[command(flatten)]
        figures: WarpArgs,
    },
    /// Change figures of a warp; what is not given stays. An empty value ("") takes a figure away.
    Change {
        /// The warp.
        warp: String,
        /// A new name.
        #[arg(long)]
        name: Option<String>,
        /// Its figures.
        #[command(flatten)]
        figures: WarpArgs,
    },
    /// Plan a warp, from the wish or from the yarn; writes nothing unless it is begun.
    Plan {
        /// Its figures.
        #[command(flatten)]
        figures: Box<PlanArgs>,
        /// With the calculation behind each figure.
        #[arg(long)]
        why: bool,
        /// Begin the warp it makes; a saved plan it starts from is no longer listed then.
        #[arg(long, conflicts_with = "save")]
        begin: bool,
        /// Save it for later, over the saved plan it starts from.
        #[arg(long)]
        save: bool,
    },
    /// List the plans that were saved and not begun.
    Plans,
    /// Log a sitting.
    Log {
        /// The warp.
        warp: String,
        /// What it was.
        #[command(flatten)]
        sitting: SittingArgs,
        /// Picture files to keep with it.
        #[arg(long)]
        photo: Vec<PathBuf>,
    },
    /// Correct a sitting; what is not given stays. An empty value ("") takes a figure away.
    Correct {
        /// The sitting's id.
        sitting: String,
        /// What it was.
        #[command(flatten)]
        figures: SittingArgs,
    },
    /// Keep a picture with a sitting.
    Photo {
        /// The sitting's id.
        sitting: String,
        /// The picture file; the original stays where it is.
        file: PathBuf,
    },
    /// Remove a sitting, a warp or a photo; it can be restored.
    Remove {
        /// Its id.
        record: String,
    },
    /// Restore what was removed.
    Restore {
        /// Its id.
        record: String,
    },
    /// Put a warp aside.
    SetAside {
        /// The warp.
        warp: String,
    },
    /// Go on with a warp that was put aside.
    Resume {
        /// The warp.
        warp: String,
    },
    /// Note that a warp is cut off, with what is true now; again later with what was measured after the wash. Lengths are of all
    /// pieces together, without fringe.
    CutOff {
        /// The warp.
        warp: String,
        /// What was measured.
        #[command(flatten)]
        figures: OffArgs,
    },
    /// Import a table from a CSV file, as one action: sittings, warps, wefts or finishing steps. Rows that cannot be taken are
    /// listed with the reason.
    Import {
        /// The file: a table whose first line names the columns, or the JSON file that `export everything` writes.
        file: PathBuf,
        /// Which list it is; else guessed from the headings.
        #[arg(long, value_parser = ["sittings", "warps", "wefts", "finishing"])]
        list: Option<String>,
        /// The warp that rows without one belong to.
        #[arg(long)]
        warp: Option<String>,
        /// Only show what would come in.
        #[arg(long)]
        preview: bool,
    },
    /// What each warp took, and how pace goes with length and time.
    Pace {
        /// The length that parts short from long.
        #[arg(long, value_name = "LENGTH")]
        split: Option<String>,
        /// The warp that is looked at over its own time.
        #[arg(long, value_name = "WARP")]
        within: Option<String>,
        /// One of its pictures, as SVG: pace against length, short against long, or a warp over its own time.
        #[arg(long, value_name = "PICTURE")]
        picture: Option<PacePicture>,
        /// Write the picture to this file.
        #[arg(long, value_name = "FILE", requires = "picture")]
        to: Option<PathBuf>,
        /// Replace the file if it is there.
        #[arg(long, requires = "to")]
        overwrite: bool,
    },
    /// What was planned of a warp that is off the loom beside what it became, its finishing steps, and what was learned from finished warps.
    Results {
        /// The warp.
        warp: String,
    },
    /// Tick a finishing step of a warp, by its name or id.
    Step {
        /// The warp.
        warp: String,
        /// The step.
        step: String,
        /// The day it was done; today if not given.
        #[arg(long, value_name = "DAY")]
        on: Option<String>,
        /// It is not done after all.
        #[arg(long)]
        not_done: bool,
        /// Remove it from the list.
        #[arg(long, conflicts_with = "not_done")]
        remove: bool,
        /// Give it another name.
        #[arg(long, value_name = "NAME", conflicts_with_all = ["not_done", "remove"])]
        rename: Option<String>,
        /// Add a step of this name instead.
        #[arg(long, conflicts_with_all = ["not_done", "remove", "rename", "on"])]
        add: bool,
    },
    /// Without options the rows of a warp's sequence and where the weaver is; with them, says where the weaver is. No pick is lost or added.
    Place {
        /// The warp.
        warp: String,
        /// The row that comes next.
        #[command(flatten)]
        place: PlaceArgs,
        /// When.
        #[command(flatten)]
        when: WhenArgs,
    },
    /// Note a tape reading, a mark moved, a warp mark at the fell, weighings, a yarn taken up.
    Measure {
        /// The warp.
        warp: String,
        /// What.
        #[command(flatten)]
        measured: Box<MeasurementArgs>,
        /// When.
        #[command(flatten)]
        when: WhenArgs,
    },
    /// List what was noted between and within sittings.
    Measurements {
        /// The warp.
        warp: String,
    },
    /// List the weft yarns of a warp with their ledgers.
    Yarns {
        /// The warp.
        warp: String,
    },
    /// Add a weft yarn to a warp.
    AddYarn {
        /// The warp.
        warp: String,
        /// The yarn.
        #[command(flatten)]
        figures: YarnArgs,
    },
    /// Change a weft yarn; what is not given stays. An empty value ("") takes a figure away.
    ChangeYarn {
        /// The warp.
        warp: String,
        /// The yarn, by name or id.
        yarn: String,
        /// The yarn.
        #[command(flatten)]
        figures: YarnArgs,
    },
    /// Draw the cloth a warp's sequence makes, with its floats.
    Draw {
        /// The warp.
        warp: String,
    },
    /// After how many minutes without a pause a stretch is suggested, or "off".
    Stretch {
        /// Minutes.
        minutes: String,
    },
    /// The three answers: where am I, will it reach, when will it be done.
    Answers {
        /// The warp; without it every warp that is on the loom or rests.
        warp: Option<String>,
        /// With the calculation behind each.
        #[arg(long)]
        why: bool,
        /// Finished warps too.
        #[arg(long)]
        all: bool,
    },
    /// List the warps.
    Warps,
    /// List the sittings of a warp.
    Sittings {
        /// The warp.
        warp: String,
        /// Removed ones too.
        #[arg(long)]
        removed: bool,
    },
    /// List fields that devices gave different values at the same time, and what one removed and another changed; or choose:
    /// RECORD FIELD KEY as the list shows them.
    Resolve {
        /// The record.
        #[arg(requires_all = ["field", "key"])]
        record: Option<String>,
        /// The field.
        field: Option<String>,
        /// The value that holds.
        key: Option<String>,
    },
    /// Take back what this device did last.
    Undo,
    /// The devices that wrote here, and when.
    Devices,
    /// Look the folder over and list what is wrong; changes nothing.
    Check,
    /// Put entries that vanished from the folder, and entries that wait, into it again.
    WriteBack,
    /// Mark the folder again, after the markers by which devices know it (the files in `devices`) have all gone; then write
    /// what waits. For a folder that is not there, wait until it is back instead.
    MarkFolder {
        /// Says that this is the right folder, and not the place where its disk should be.
        #[arg(long, required = true)]
        confirm: bool,
    },
    /// Export the log.
    Export {
        /// What to export.
        what: ExportWhat,
        /// Limit it to one warp.
        #[arg(long)]
        warp: Option<String>,
        /// File to write; else it is printed. A file that is there stays, unless --overwrite is given.
        #[arg(long)]
        to: Option<PathBuf>,
        /// Replace the file if it is there.
        #[arg(long, requires = "to")]
        overwrite: bool,
    },
    /// Choose the units for every device on this folder.
    Units {
        /// The units.
        units: UnitArg,
    },
    /// Fill an empty folder with an invented sample.
    Sample,
}

/// What can be exported.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum ExportWhat {
    /// Sittings as CSV.
    Sittings,
    /// Warps as CSV.
    Warps,
    /// Weft yarns as CSV.
    Wefts,
    /// Finishing steps as CSV.
    Finishing,
    /// What was planned of warps beyond their own figures, as CSV.
    Plans,
    /// Tape readings and marks as CSV.
    Readings,
    /// Weighings of weft yarns as CSV.
    Weighings,
    /// Weft yarns taken up, as CSV.
    Joins,
    /// Places in the sequence that were said, as CSV.
    Places,
    /// Which photos there are, as CSV.
    Photos,
    /// What each warp took, as CSV.
    Pace,
    /// A warp's record sheet as a page with its pictures.
    Sheet,
    /// A picture of how far a warp is, as SVG.
    Progress,
    /// Everything as JSON: records with their fields.
    Everything,
}

impl ExportWhat {
    /// Its name.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Sittings => "sittings",
            Self::Warps => "warps",
            Self::Wefts => "wefts",
            Self::Finishing => "finishing",
            Self::Plans => "plans",
            Self::Readings => "readings",
            Self::Weighings => "weighings",
            Self::Joins => "joins",
            Self::Places => "places",
            Self::Photos => "photos",
            Self::Pace => "pace",
            Self::Sheet => "sheet",
            Self::Progress => "progress",
            Self::Everything => "everything",
        }
    }
}

/// The pictures of pace.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum PacePicture {
    /// Pace against length.
    Length,
    /// Short pieces against long ones.
    Split,
    /// A warp over its own time.
    Within,
}

impl PacePicture {
    /// The name it is exported under.
    pub fn word(self) -> &'static str {
        match self {
            Self::Length => "chart-length",
            Self::Split => "chart-split",
            Self::Within => "chart-within",
        }
    }
}

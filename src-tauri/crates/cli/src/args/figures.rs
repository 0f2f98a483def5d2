//! The figures that are given with the words: of a warp, of a sitting, of what came off the loom.

use clap::{Args, ValueEnum};

/// Figures of a warp.
#[derive(Debug, Default, Args)]
pub struct WarpArgs {
    /// Day it was begun, YYYY-MM-DD; today if not given.
    #[arg(long, value_name = "DAY")]
    pub begun: Option<String>,
    /// Length of warp wound.
    #[arg(long, value_name = "LENGTH")]
    pub wound: Option<String>,
    /// Loom waste, front and back together.
    #[arg(long, value_name = "LENGTH")]
    pub waste: Option<String>,
    /// Length wanted of each piece; where they are not alike, one after the other: "180, 15, 15 cm".
    #[arg(long, value_name = "LENGTH")]
    pub wanted: Option<String>,
    /// What length that is: finished, off_loom or under_tension.
    #[arg(long, value_name = "STATE")]
    pub wanted_state: Option<String>,
    /// Loss of length from the loom to finished, per cent.
    #[arg(long, value_name = "PERCENT")]
    pub shrinkage: Option<String>,
    /// What the yarn is made of, where no loss of length is known: cotton, linen, wool and so on.
    #[arg(long, value_name = "FIBRE", value_parser = ["cotton", "linen", "cottolin", "wool", "silk", "viscose", "acrylic"])]
    pub fibre: Option<String>,
    /// How it is finished: washed or fulled.
    #[arg(long, value_name = "FINISH", value_parser = ["washed", "fulled"])]
    pub finish: Option<String>,
    /// Number of pieces.
    #[arg(long, value_name = "NUMBER")]
    pub pieces: Option<String>,
    /// Fringe at each end of each piece.
    #[arg(long, value_name = "LENGTH")]
    pub fringe: Option<String>,
    /// The outermost fringes come out of the loom waste (yes or no).
    #[arg(long, value_name = "YES|NO")]
    pub fringe_from_waste: Option<YesNo>,
    /// Warp between two pieces besides their fringes.
    #[arg(long, value_name = "LENGTH")]
    pub gap: Option<String>,
    /// Picks per 10 cm or per inch as the units go, or with its unit: "8 ppi".
    #[arg(long, value_name = "DENSITY")]
    pub picks: Option<String>,
    /// Ends in the reed or heddle per 10 cm or per inch as the units go, or with its unit: "10 epi", "40/10".
    #[arg(long, value_name = "DENSITY")]
    pub sett: Option<String>,
    /// Shaft of each end over one repeat of the threading: "1 2 3 4" or "1-4".
    #[arg(long, value_name = "SHAFTS")]
    pub threading: Option<String>,
    /// What a numbered shed lifts: "1: 1 2"; once for each shed.
    #[arg(long = "shed-lift", value_name = "SHED: SHAFTS")]
    pub shed_lift: Vec<String>,
    /// How much warp 100 of cloth uses on the loom: 110 for a take-up of 10 in 100 of cloth.
    #[arg(long, value_name = "NUMBER")]
    pub warp_per_100: Option<String>,
    /// Width in the reed or heddle.
    #[arg(long, value_name = "LENGTH")]
    pub width: Option<String>,
    /// What one pick is longer than that width, per cent.
    #[arg(long, value_name = "PERCENT")]
    pub allowance: Option<String>,
    /// Name of the weft yarn.
    #[arg(long, value_name = "TEXT")]
    pub weft: Option<String>,
    /// Weight of weft at the start.
    #[arg(long, value_name = "MASS")]
    pub weft_mass: Option<String>,
    /// Length of weft at the start.
    #[arg(long, value_name = "LENGTH")]
    pub weft_length: Option<String>,
    /// How it is woven: plain or pick_up.
    #[arg(long, value_name = "WEAVE")]
    pub weave: Option<String>,
    /// Picks that one press counts: 1, or 2 for there and back.
    #[arg(long, value_name = "NUMBER")]
    pub picks_per_tap: Option<String>,
    /// Slot ends up in each group of the pick-up.
    #[arg(long, value_name = "NUMBER")]
    pub stick_up_ends: Option<String>,
    /// Slot ends down between groups.
    #[arg(long, value_name = "NUMBER")]
    pub stick_down_ends: Option<String>,
    /// Slot ends down at each edge.
    #[arg(long, value_name = "NUMBER")]
    pub stick_edge_ends: Option<String>,
    /// The pick sequence.
    #[command(flatten)]
    pub rows: RowArgs,
    /// Day of the gift, YYYY-MM-DD.
    #[arg(long, value_name = "DAY")]
    pub gift: Option<String>,
    /// About how many days a week you weave.
    #[arg(long, value_name = "NUMBER")]
    pub days_a_week: Option<String>,
    /// About how many minutes you weave on such a day: 45, 1:30.
    #[arg(long, value_name = "MINUTES")]
    pub minutes_a_day: Option<String>,
    /// The days of the week you weave on: "Sat, Sun" or weekends.
    #[arg(long, value_name = "DAYS")]
    pub weaving_days: Option<String>,
    /// First day you are away; today if only --away-until is given.
    #[arg(long, value_name = "DAY")]
    pub away_from: Option<String>,
    /// Last day you are away.
    #[arg(long, value_name = "DAY")]
    pub away_until: Option<String>,
    /// Last day of a stretch, from today on, on every day of which you will weave.
    #[arg(long, value_name = "DAY")]
    pub every_day_until: Option<String>,
    /// It is for a young child (yes or no).
    #[arg(long, value_name = "YES|NO")]
    pub for_child: Option<YesNo>,
    /// A note.
    #[arg(long, value_name = "TEXT")]
    pub note: Option<String>,
}

/// What came off the loom.
#[derive(Debug, Default, Args)]
pub struct OffArgs {
    /// The day it was cut off, YYYY-MM-DD; today if not given.
    #[arg(long, value_name = "DAY")]
    pub on: Option<String>,
    /// Cut off in front of the first pick, fringe included.
    #[arg(long, value_name = "LENGTH")]
    pub front: Option<String>,
    /// Thrums: behind the last pick, fringe included.
    #[arg(long, value_name = "LENGTH")]
    pub thrums: Option<String>,
    /// Length off the loom.
    #[arg(long, value_name = "LENGTH")]
    pub off_loom: Option<String>,
    /// Width at the fell, tight.
    #[arg(long, value_name = "LENGTH")]
    pub fell_width: Option<String>,
    /// Width off the loom.
    #[arg(long, value_name = "LENGTH")]
    pub off_loom_width: Option<String>,
    /// Weft left over.
    #[arg(long, value_name = "MASS")]
    pub weft_over: Option<String>,
    /// Length after the wash.
    #[arg(long, value_name = "LENGTH")]
    pub finished: Option<String>,
    /// Width after the wash.
    #[arg(long, value_name = "LENGTH")]
    pub finished_width: Option<String>,
    /// Weight after the wash.
    #[arg(long, value_name = "MASS")]
    pub finished_mass: Option<String>,
}

/// Yes or no.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum YesNo {
    /// Yes.
    Yes,
    /// No.
    No,
}

/// Figures of a sitting.
#[derive(Debug, Default, Args)]
pub struct SittingArgs {
    /// The day, YYYY-MM-DD, today or yesterday; today if not given.
    #[arg(long, value_name = "DAY")]
    pub on: Option<String>,
    /// Time it began, HH:MM.
    #[arg(long, value_name = "TIME")]
    pub at: Option<String>,
    /// Time at the loom: 42, 1:20, "1 h 20".
    #[arg(long, value_name = "MINUTES")]
    pub minutes: Option<String>,
    /// Picks woven; negative when more was unwoven.
    #[arg(long, value_name = "NUMBER", allow_hyphen_values = true)]
    pub picks: Option<String>,
    /// What was measured.
    #[command(flatten)]
    pub tape: TapeArgs,
    /// Weft left on the scale.
    #[arg(long, value_name = "MASS")]
    pub weft_left: Option<String>,
    /// A pick was begun and not beaten at the end (yes or no).
    #[arg(long, value_name = "YES|NO")]
    pub pick_begun: Option<YesNo>,
    /// A note.
    #[arg(long, value_name = "TEXT")]
    pub note: Option<String>,
    /// The figures are rough (yes or no).
    #[arg(long, value_name = "YES|NO")]
    pub rough: Option<YesNo>,
}

/// A look with the tape.
#[derive(Debug, Default, Args)]
pub struct TapeArgs {
    /// What the tape said.
    #[arg(long, value_name = "LENGTH")]
    pub measured: Option<String>,
    /// Where the tape started: start or mark; if not given, the last mark where one is set.
    #[arg(long, value_name = "WHERE")]
    pub from: Option<String>,
    /// tight or relaxed.
    #[arg(long, value_name = "HOW")]
    pub tension: Option<String>,
    /// A mark was set at the fell (yes or no).
    #[arg(long, value_name = "YES|NO")]
    pub mark_set: Option<YesNo>,
}

/// The rows of a pick sequence.
#[derive(Debug, Default, Args)]
pub struct RowArgs {
    /// A row of the opening border; once for each row.
    #[arg(long, value_name = "ROW")]
    pub opening_row: Vec<String>,
    /// A row of the repeat, such as "up" or "rest, stick on edge"; once for each row.
    #[arg(long, value_name = "ROW")]
    pub repeat_row: Vec<String>,
    /// A row that balances the last repeat; once for each row.
    #[arg(long, value_name = "ROW")]
    pub balance_row: Vec<String>,
    /// A row of the closing border; once for each row.
    #[arg(long, value_name = "ROW")]
    pub closing_row: Vec<String>,
}

//! The lists with their columns.

use super::ColumnType::{
    self, Day, Density, Length, Lines, Mass, Measures, Minutes, Number, Text, Time, Whole, Word, YesNo,
};
use super::{Column, List};
use crate::fields::{finishing, kind, moment, off, photo, place, plan, reading, sitting, warp, weft, weighing};

const fn column(
    field: &'static str,
    label: &'static str,
    column_type: ColumnType,
    also: &'static [&'static str],
) -> Column {
    Column { field, label, column_type, also }
}

const SITTINGS: &[Column] = &[
    column(sitting::ON, "Day", Day, &["date", "day", "datum", "when"]),
    column(sitting::STARTED, "Began at", Time, &["start", "began", "time"]),
    column(
        sitting::MINUTES,
        "Minutes",
        Minutes,
        &["min", "mins", "h", "hr", "hrs", "hour", "hours", "duration", "time spent"],
    ),
    column(sitting::PICKS, "Picks", Whole, &["rows", "shots", "pick"]),
    column(sitting::MEASURED_MM, "Measured length", Length, &["length", "measured", "woven"]),
    column(sitting::MEASURED_FROM, "Measured from", Word(&["start", "mark"]), &[]),
    column(sitting::MEASURED_TENSION, "Tight or relaxed", Word(&["tight", "relaxed"]), &["tension"]),
    column(sitting::MARK_SET, "Mark set", YesNo, &["mark"]),
    column(sitting::WEFT_LEFT_G, "Weft left", Mass, &["weft left", "weft", "yarn left"]),
    column(sitting::WEFT_TARE_G, "Taken off for the shuttle", Mass, &[]),
    column(sitting::PICK_BEGUN, "A pick begun and not beaten", YesNo, &[]),
    column(sitting::ROUGH, "Rough figures", YesNo, &["rough"]),
    column(sitting::NOTE, "Note", Text, &["notes", "comment", "remarks"]),
];

const WARPS: &[Column] = &[
    column(warp::NAME, "Name", Text, &["warp", "project", "title", "piece"]),
    column(warp::STATE, "Where it is", Word(&["on_the_loom", "resting", "off_the_loom"]), &["status"]),
    column(
        warp::STATE_ON,
        "Since",
        Day,
        &["finished on", "finished", "finish", "completed", "cut off", "off the loom", "end", "ended"],
    ),
    column(warp::BEGUN_ON, "Begun on", Day, &["begun", "started", "start", "date"]),
    column(warp::WOUND_MM, "Warp wound", Length, &["warp length", "wound"]),
    column(warp::WASTE_MM, "Loom waste", Length, &["waste"]),
    column(warp::WANTED_MM, "Length wanted", Length, &["wanted", "length", "finished length"]),
    column(warp::WANTED_EACH_MM, "Length wanted of each", Measures, &[]),
    column(warp::WANTED_STATE, "Which length that is", Word(&["finished", "off_loom", "under_tension"]), &[]),
    column(warp::PIECES, "Pieces", Whole, &["pieces"]),
    column(warp::FRINGE_MM, "Fringe", Length, &["fringe"]),
    column(warp::FRINGE_FROM_WASTE, "Fringe out of the waste", YesNo, &[]),
    column(warp::GAP_MM, "Warp between pieces", Length, &["gap"]),
    column(warp::SHRINKAGE_PERCENT, "Length lost, per cent", Number, &["shrinkage"]),
    column(warp::PICKS_PER_10CM, "Picks per length", Density, &["ppi", "picks per inch", "picks per 10 cm"]),
    column(warp::SETT_ENDS_PER_10CM, "Sett", Density, &["sett", "epi", "ends per inch", "ends per 10 cm"]),
    column(warp::WARP_PER_100_CLOTH, "Warp that 100 of cloth uses", Number, &["take-up"]),
    column(warp::REED_WIDTH_MM, "Width in the reed", Length, &["width", "reed width"]),
    column(warp::WEFT_ALLOWANCE_PERCENT, "Allowance for a pick, per cent", Number, &["allowance"]),
    column(warp::WEAVE, "How it is woven", Word(&["plain", "pick_up"]), &["weave"]),
    column(warp::OPENING_ROWS, "Opening border", Lines, &[]),
    column(warp::REPEAT_ROWS, "Repeat", Lines, &["repeat"]),
    column(warp::BALANCE_ROWS, "Balance", Lines, &[]),
    column(warp::CLOSING_ROWS, "Closing border", Lines, &[]),
    column(warp::THREADING, "Threading", Lines, &["threading"]),
    column(warp::SHED_LIFTS, "What each shed lifts", Lines, &[]),
    column(warp::PICKS_PER_TAP, "Picks for one press", Whole, &[]),
    column(warp::STICK_EDGE_ENDS, "Stick: ends down at each edge", Whole, &[]),
    column(warp::STICK_UP_ENDS, "Stick: ends up", Whole, &[]),
    column(warp::STICK_DOWN_ENDS, "Stick: ends down", Whole, &[]),
    column(warp::GIFT_ON, "Gift day", Day, &["gift", "due", "deadline"]),
    column(warp::DAYS_A_WEEK, "Days a week", Number, &[]),
    column(warp::MINUTES_A_DAY, "Minutes a day", Number, &[]),
    column(warp::WEAVING_DAYS, "Weaving days", Lines, &[]),
    column(warp::AWAY_FROM, "Away from", Day, &[]),
    column(warp::AWAY_UNTIL, "Away until", Day, &[]),
    column(warp::EVERY_DAY_FROM, "Every day from", Day, &[]),
    column(warp::EVERY_DAY_UNTIL, "Every day until", Day, &[]),
    column(warp::FOR_CHILD, "For a young child", YesNo, &[]),
    column(off::FRONT_MM, "Cut off in front", Length, &[]),
    column(off::THRUMS_MM, "Thrums", Length, &["thrums"]),
    column(off::OFF_LOOM_MM, "Length off the loom", Length, &["off loom"]),
    column(off::FELL_WIDTH_MM, "Width at the fell", Length, &[]),
    column(off::OFF_LOOM_WIDTH_MM, "Width off the loom", Length, &[]),
    column(off::WEFT_OVER_G, "Weft left over", Mass, &[]),
    column(off::FINISHED_MM, "Length after the wash", Length, &["washed length"]),
    column(off::FINISHED_WIDTH_MM, "Width after the wash", Length, &["washed width"]),
    column(off::FINISHED_MASS_G, "Weight after the wash", Mass, &["weight"]),
    column(warp::NOTE, "Note", Text, &["notes", "comment", "remarks"]),
];

const WEFTS: &[Column] = &[
    column(weft::NAME, "Yarn", Text, &["yarn", "name"]),
    column(weft::START_MASS_G, "Weight at the start", Mass, &["weight", "mass"]),
    column(weft::START_LENGTH_MM, "Length at the start", Length, &["length"]),
    column(weft::START_MASS_ROUGH, "Weight roughly known", YesNo, &[]),
    column(weft::START_LENGTH_ROUGH, "Length roughly known", YesNo, &[]),
    column(weft::TARE_G, "Weight of its empty shuttle", Mass, &["tare"]),
];

const FINISHING: &[Column] = &[
    column(finishing::NAME, "Step", Text, &["step"]),
    column(finishing::POSITION, "Place among the steps", Whole, &[]),
    column(finishing::DONE_ON, "Done on", Day, &["date", "done"]),
];

const PLANS: &[Column] = &[
    column(plan::FINISHED_LENGTHS_MM, "Finished lengths", Measures, &[]),
    column(plan::FINISHED_WIDTH_MM, "Finished width", Length, &[]),
    column(plan::ENDS, "Ends", Whole, &["ends"]),
    column(plan::SETT_ENDS_PER_10CM, "Sett", Density, &["sett"]),
    column(plan::EDGE, "Fringe or hem", Word(&["fringe", "hem"]), &[]),
    column(plan::EDGE_MM, "Length of that", Length, &[]),
    column(plan::WEAVE, "Weave", Text, &[]),
    column(plan::WARP_PER_100_OFF_LOOM, "Warp that 100 of cloth off the loom uses", Number, &[]),
    column(plan::RELEASE_PERCENT, "Length lost off tension, per cent", Number, &[]),
    column(plan::WASH_PERCENT, "Length lost in the wash, per cent", Number, &[]),
    column(plan::DRAW_IN_PERCENT, "Draw-in, per cent", Number, &["draw-in"]),
    column(plan::WIDTH_LOSS_PERCENT, "Width lost from the fell, per cent", Number, &[]),
    column(plan::WASTE_MM, "Loom waste alone", Length, &[]),
    column(plan::HEADER_MM, "Header", Length, &[]),
    column(plan::SAMPLE_MM, "Sample", Length, &[]),
    column(plan::GAP_MM, "Between pieces", Length, &[]),
    column(plan::WARP_TEX, "Number of the warp yarn, tex", Number, &[]),
    column(plan::WEFT_TEX, "Number of the weft yarn, tex", Number, &[]),
    column(plan::HOURS, "Hours reckoned", Number, &[]),
];

const MOMENT_ON: Column = column(moment::ON, "Day", Day, &["date", "day", "datum", "when"]);
const MOMENT_SITTING: Column = column(moment::SITTING, "Id of the sitting it was noted in or after", Text, &[]);
const PICKS_INTO: Column = column(moment::PICKS_INTO, "After so many picks of it", Whole, &[]);
const YARN: Column = column(weighing::WEFT, "Id of the yarn", Text, &[]);
const ROUGH: Column = column(sitting::ROUGH, "Rough figures", YesNo, &["rough"]);

const READINGS: &[Column] = &[
    MOMENT_ON,
    MOMENT_SITTING,
    PICKS_INTO,
    column(sitting::MEASURED_MM, "Measured length", Length, &[]),
    column(sitting::MEASURED_FROM, "Measured from", Word(&["start", "mark"]), &[]),
    column(sitting::MEASURED_TENSION, "Tight or relaxed", Word(&["tight", "relaxed"]), &[]),
    column(sitting::MARK_SET, "Mark moved to the fell", YesNo, &[]),
    column(reading::WARP_MARK_MM, "Warp mark at the fell", Length, &[]),
    ROUGH,
];

const WEIGHINGS: &[Column] = &[
    MOMENT_ON,
    MOMENT_SITTING,
    PICKS_INTO,
    YARN,
    column(weighing::LEFT_G, "Weight left", Mass, &[]),
    column(weighing::LEFT_MM, "Length left", Length, &[]),
    column(weighing::TARE_G, "Taken off for the shuttle", Mass, &[]),
    ROUGH,
];

const JOINS: &[Column] = &[MOMENT_ON, MOMENT_SITTING, PICKS_INTO, YARN];

const PLACES: &[Column] = &[
    MOMENT_ON,
    MOMENT_SITTING,
    PICKS_INTO,
    column(place::PIECE, "Piece", Whole, &[]),
    column(place::SECTION, "Part of the sequence", Word(&["opening", "repeat", "balance", "closing"]), &[]),
    column(place::REPEAT, "Repeat", Whole, &[]),
    column(place::ROW, "Row", Whole, &[]),
];

const PHOTOS: &[Column] = &[
    column(photo::SITTING, "Id of the sitting", Text, &[]),
    column(photo::TAKEN_AT, "Taken at", Text, &[]),
    column(photo::HASH, "Name of its file", Text, &[]),
];

const fn in_and_out(
    name: &'static str,
    kind: &'static str,
    id: &'static str,
    columns: &'static [Column],
    needs: &'static [&'static str],
) -> List {
    List { name, kind, id, columns, needs, comes_in: true }
}

/// The lists that go out; those that come in again as a table in the order in which they lean on each other.
pub const LISTS: &[List] = &[
    in_and_out("sittings", kind::SITTING, "sitting_id", SITTINGS, &[sitting::ON]),
    in_and_out("warps", kind::WARP, "warp_id", WARPS, &[warp::NAME]),
    in_and_out("wefts", kind::WEFT, "weft_id", WEFTS, &[weft::NAME]),
    in_and_out("finishing", kind::FINISHING, "step_id", FINISHING, &[finishing::NAME]),
    in_and_out("plans", kind::PLAN, "plan_id", PLANS, &[]),
    in_and_out("readings", kind::READING, "reading_id", READINGS, &[moment::ON]),
    in_and_out("weighings", kind::WEIGHING, "weighing_id", WEIGHINGS, &[moment::ON, weighing::WEFT]),
    in_and_out("joins", kind::JOIN, "join_id", JOINS, &[moment::ON, weighing::WEFT]),
    in_and_out("places", kind::PLACE, "place_id", PLACES, &[moment::ON, place::SECTION]),
    List { name: "photos", kind: kind::PHOTO, id: "photo_id", columns: PHOTOS, needs: &[], comes_in: false },
];

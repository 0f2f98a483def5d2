//! The lists with their columns.

use super::ColumnType::{
    self, Day, Density, Length, Lines, Mass, Measures, Minutes, Number, Text, Time, Whole, Word, YesNo,
};
use super::{Column, List};
use crate::fields::{finishing, kind, moment, off, photo, place, plan, reading, sitting, warp, weft, weighing};

const fn column(field: &'static str, column_type: ColumnType, also: &'static [&'static str]) -> Column {
    Column { field, column_type, also }
}

const SITTINGS: &[Column] = &[
    column(sitting::ON, Day, &["date", "day", "datum", "when"]),
    column(sitting::STARTED, Time, &["start", "began", "time"]),
    column(sitting::MINUTES, Minutes, &["min", "mins", "h", "hr", "hrs", "hour", "hours", "duration", "time spent"]),
    column(sitting::PICKS, Whole, &["rows", "shots", "pick"]),
    column(sitting::MEASURED_MM, Length, &["length", "measured", "woven"]),
    column(sitting::MEASURED_FROM, Word(&["start", "mark"]), &[]),
    column(sitting::MEASURED_TENSION, Word(&["tight", "relaxed"]), &["tension"]),
    column(sitting::MARK_SET, YesNo, &["mark"]),
    column(sitting::WEFT_LEFT_G, Mass, &["weft left", "weft", "yarn left"]),
    column(sitting::WEFT_TARE_G, Mass, &[]),
    column(sitting::PICK_BEGUN, YesNo, &[]),
    column(sitting::ROUGH, YesNo, &["rough"]),
    column(sitting::NOTE, Text, &["notes", "comment", "remarks"]),
];

const WARPS: &[Column] = &[
    column(warp::NAME, Text, &["warp", "project", "title", "piece"]),
    column(warp::STATE, Word(&["on_the_loom", "resting", "off_the_loom"]), &["status"]),
    column(
        warp::STATE_ON,
        Day,
        &["finished on", "finished", "finish", "completed", "cut off", "off the loom", "end", "ended"],
    ),
    column(warp::BEGUN_ON, Day, &["begun", "started", "start", "date"]),
    column(warp::WOUND_MM, Length, &["warp length", "wound"]),
    column(warp::WASTE_MM, Length, &["waste"]),
    column(warp::WANTED_MM, Length, &["wanted", "length", "finished length"]),
    column(warp::WANTED_EACH_MM, Measures, &[]),
    column(warp::WANTED_STATE, Word(&["finished", "off_loom", "under_tension"]), &[]),
    column(warp::PIECES, Whole, &["pieces"]),
    column(warp::FRINGE_MM, Length, &["fringe"]),
    column(warp::FRINGE_FROM_WASTE, YesNo, &[]),
    column(warp::GAP_MM, Length, &["gap"]),
    column(warp::SHRINKAGE_PERCENT, Number, &["shrinkage"]),
    column(warp::FIBRE, Word(&["cotton", "linen", "cottolin", "wool", "silk", "viscose", "acrylic"]), &["fiber"]),
    column(warp::FINISH, Word(&["fulled"]), &[]),
    column(warp::PICKS_PER_10CM, Density, &["ppi", "picks per inch", "picks per 10 cm"]),
    column(warp::SETT_ENDS_PER_10CM, Density, &["sett", "epi", "ends per inch", "ends per 10 cm"]),
    column(warp::WARP_PER_100_CLOTH, Number, &["take-up"]),
    column(warp::REED_WIDTH_MM, Length, &["width", "reed width"]),
    column(warp::WEFT_ALLOWANCE_PERCENT, Number, &["allowance"]),
    column(warp::WEAVE, Word(&["plain", "pick_up"]), &["weave"]),
    column(warp::OPENING_ROWS, Lines, &[]),
    column(warp::REPEAT_ROWS, Lines, &["repeat"]),
    column(warp::BALANCE_ROWS, Lines, &[]),
    column(warp::CLOSING_ROWS, Lines, &[]),
    column(warp::THREADING, Lines, &["threading"]),
    column(warp::SHED_LIFTS, Lines, &[]),
    column(warp::PICKS_PER_TAP, Whole, &[]),
    column(warp::STICK_EDGE_ENDS, Whole, &[]),
    column(warp::STICK_UP_ENDS, Whole, &[]),
    column(warp::STICK_DOWN_ENDS, Whole, &[]),
    column(warp::GIFT_ON, Day, &["gift", "due", "deadline"]),
    column(warp::DAYS_A_WEEK, Number, &[]),
    column(warp::MINUTES_A_DAY, Number, &[]),
    column(warp::WEAVING_DAYS, Lines, &[]),
    column(warp::AWAY_FROM, Day, &[]),
    column(warp::AWAY_UNTIL, Day, &[]),
    column(warp::EVERY_DAY_FROM, Day, &[]),
    column(warp::EVERY_DAY_UNTIL, Day, &[]),
    column(warp::FOR_CHILD, YesNo, &[]),
    column(off::FRONT_MM, Length, &[]),
    column(off::THRUMS_MM, Length, &["thrums"]),
    column(off::OFF_LOOM_MM, Length, &["off loom"]),
    column(off::FELL_WIDTH_MM, Length, &[]),
    column(off::OFF_LOOM_WIDTH_MM, Length, &[]),
    column(off::WEFT_OVER_G, Mass, &[]),
    column(off::FINISHED_MM, Length, &["washed length"]),
    column(off::FINISHED_WIDTH_MM, Length, &["washed width"]),
    column(off::FINISHED_MASS_G, Mass, &["weight"]),
    column(warp::NOTE, Text, &["notes", "comment", "remarks"]),
];

const WEFTS: &[Column] = &[
    column(weft::NAME, Text, &["yarn", "name"]),
    column(weft::START_MASS_G, Mass, &["weight", "mass"]),
    column(weft::START_LENGTH_MM, Length, &["length"]),
    column(weft::START_MASS_ROUGH, YesNo, &[]),
    column(weft::START_LENGTH_ROUGH, YesNo, &[]),
    column(weft::TARE_G, Mass, &["tare"]),
];

const FINISHING: &[Column] = &[
    column(finishing::NAME, Text, &["step"]),
    column(finishing::POSITION, Whole, &[]),
    column(finishing::DONE_ON, Day, &["date", "done"]),
];

const PLANS: &[Column] = &[
    column(plan::FINISHED_LENGTHS_MM, Measures, &[]),
    column(plan::FINISHED_WIDTH_MM, Length, &[]),
    column(plan::ENDS, Whole, &["ends"]),
    column(plan::SETT_ENDS_PER_10CM, Density, &["sett"]),
    column(plan::EDGE, Word(&["fringe", "hem"]), &[]),
    column(plan::EDGE_MM, Length, &[]),
    column(plan::FIBRE, Word(&["cotton", "linen", "cottolin", "wool", "silk", "viscose", "acrylic"]), &[]),
    column(plan::FINISH, Word(&["fulled"]), &[]),
    column(plan::WEAVE, Text, &[]),
    column(plan::WARP_PER_100_OFF_LOOM, Number, &[]),
    column(plan::RELEASE_PERCENT, Number, &[]),
    column(plan::WASH_PERCENT, Number, &[]),
    column(plan::DRAW_IN_PERCENT, Number, &["draw-in"]),
    column(plan::WIDTH_LOSS_PERCENT, Number, &[]),
    column(plan::WASTE_MM, Length, &[]),
    column(plan::HEADER_MM, Length, &[]),
    column(plan::SAMPLE_MM, Length, &[]),
    column(plan::GAP_MM, Length, &[]),
    column(plan::WARP_TEX, Number, &[]),
    column(plan::WEFT_TEX, Number, &[]),
    column(plan::HOURS, Number, &[]),
];

const MOMENT_ON: Column = column(moment::ON, Day, &["date", "day", "datum", "when"]);
const MOMENT_SITTING: Column = column(moment::SITTING, Text, &[]);
const PICKS_INTO: Column = column(moment::PICKS_INTO, Whole, &[]);
const YARN: Column = column(weighing::WEFT, Text, &[]);
const ROUGH: Column = column(sitting::ROUGH, YesNo, &["rough"]);

const READINGS: &[Column] = &[
    MOMENT_ON,
    MOMENT_SITTING,
    PICKS_INTO,
    column(sitting::MEASURED_MM, Length, &[]),
    column(sitting::MEASURED_FROM, Word(&["start", "mark"]), &[]),
    column(sitting::MEASURED_TENSION, Word(&["tight", "relaxed"]), &[]),
    column(sitting::MARK_SET, YesNo, &[]),
    column(reading::WARP_MARK_MM, Length, &[]),
    ROUGH,
];

const WEIGHINGS: &[Column] = &[
    MOMENT_ON,
    MOMENT_SITTING,
    PICKS_INTO,
    YARN,
    column(weighing::LEFT_G, Mass, &[]),
    column(weighing::LEFT_MM, Length, &[]),
    column(weighing::TARE_G, Mass, &[]),
    ROUGH,
];

const JOINS: &[Column] = &[MOMENT_ON, MOMENT_SITTING, PICKS_INTO, YARN];

const PLACES: &[Column] = &[
    MOMENT_ON,
    MOMENT_SITTING,
    PICKS_INTO,
    column(place::PIECE, Whole, &[]),
    column(place::SECTION, Word(&["opening", "repeat", "balance", "closing"]), &[]),
    column(place::REPEAT, Whole, &[]),
    column(place::ROW, Whole, &[]),
];

const PHOTOS: &[Column] =
    &[column(photo::SITTING, Text, &[]), column(photo::TAKEN_AT, Text, &[]), column(photo::HASH, Text, &[])];

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

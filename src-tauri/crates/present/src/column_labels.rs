//! What the columns of the tables are called.

use fellmark_model::fields::{
    finishing, kind, moment, off, photo, place, plan, reading, sitting, warp, weft, weighing,
};
use fellmark_model::tables::{Column, List, list};

/// A column of a list in words.
#[must_use]
pub(crate) fn column_label(list: &List, column: &Column) -> &'static str {
    label(list.kind, column.field).unwrap_or(column.field)
}

/// The same by the names of the list and the field; the field's own name where they are not known.
#[must_use]
pub(crate) fn label_of((name, field): (&'static str, &'static str)) -> &'static str {
    list(name).and_then(|list| label(list.kind, field)).unwrap_or(field)
}

fn label(kind: &str, field: &str) -> Option<&'static str> {
    Some(match kind {
        kind::SITTING => match field {
            sitting::ON => "Day",
            sitting::STARTED => "Began at",
            sitting::MINUTES => "Minutes",
            sitting::PICKS => "Picks",
            sitting::MEASURED_MM => "Measured length",
            sitting::MEASURED_FROM => "Measured from",
            sitting::MEASURED_TENSION => "Tight or relaxed",
            sitting::MARK_SET => "Mark set",
            sitting::WEFT_LEFT_G => "Weft left",
            sitting::WEFT_TARE_G => "Taken off for the shuttle",
            sitting::PICK_BEGUN => "A pick begun and not beaten",
            sitting::ROUGH => "Rough figures",
            sitting::NOTE => "Note",
            _ => return None,
        },
        kind::WARP => match field {
            warp::NAME => "Name",
            warp::STATE => "Where it is",
            warp::STATE_ON => "Since",
            warp::BEGUN_ON => "Begun on",
            warp::WOUND_MM => "Warp wound",
            warp::WASTE_MM => "Loom waste",
            warp::WANTED_MM => "Length wanted",
            warp::WANTED_EACH_MM => "Length wanted of each",
            warp::WANTED_STATE => "Which length that is",
            warp::PIECES => "Pieces",
            warp::FRINGE_MM => "Fringe",
            warp::FRINGE_FROM_WASTE => "Fringe out of the waste",
            warp::GAP_MM => "Warp between pieces",
            warp::SHRINKAGE_PERCENT => "Length lost, per cent",
            warp::FIBRE => "Fibre",
            warp::FINISH => "How it is finished",
            warp::PICKS_PER_10CM => "Picks per length",
            warp::SETT_ENDS_PER_10CM => "Sett",
            warp::WARP_PER_100_CLOTH => "Warp that 100 of cloth uses",
            warp::REED_WIDTH_MM => "Width in the reed",
            warp::WEFT_ALLOWANCE_PERCENT => "Allowance for a pick, per cent",
            warp::WEAVE => "How it is woven",
            warp::OPENING_ROWS => "Opening border",
            warp::REPEAT_ROWS => "Repeat",
            warp::BALANCE_ROWS => "Balance",
            warp::CLOSING_ROWS => "Closing border",
            warp::THREADING => "Threading",
            warp::SHED_LIFTS => "What each shed lifts",
            warp::PICKS_PER_TAP => "Picks for one press",
            warp::STICK_EDGE_ENDS => "Stick: ends down at each edge",
            warp::STICK_UP_ENDS => "Stick: ends up",
            warp::STICK_DOWN_ENDS => "Stick: ends down",
            warp::GIFT_ON => "Gift day",
            warp::DAYS_A_WEEK => "Days a week",
            warp::MINUTES_A_DAY => "Minutes a day",
            warp::WEAVING_DAYS => "Weaving days",
            warp::AWAY_FROM => "Away from",
            warp::AWAY_UNTIL => "Away until",
            warp::EVERY_DAY_FROM => "Every day from",
            warp::EVERY_DAY_UNTIL => "Every day until",
            warp::FOR_CHILD => "For a young child",
            off::FRONT_MM => "Cut off in front",
            off::THRUMS_MM => "Thrums",
            off::OFF_LOOM_MM => "Length off the loom",
            off::FELL_WIDTH_MM => "Width at the fell",
            off::OFF_LOOM_WIDTH_MM => "Width off the loom",
            off::WEFT_OVER_G => "Weft left over",
            off::FINISHED_MM => "Length after the wash",
            off::FINISHED_WIDTH_MM => "Width after the wash",
            off::FINISHED_MASS_G => "Weight after the wash",
            warp::NOTE => "Note",
            _ => return None,
        },
        kind::WEFT => match field {
            weft::NAME => "Yarn",
            weft::START_MASS_G => "Weight at the start",
            weft::START_LENGTH_MM => "Length at the start",
            weft::START_MASS_ROUGH => "Weight roughly known",
            weft::START_LENGTH_ROUGH => "Length roughly known",
            weft::TARE_G => "Weight of its empty shuttle",
            _ => return None,
        },
        kind::FINISHING => match field {
            finishing::NAME => "Step",
            finishing::POSITION => "Place among the steps",
            finishing::DONE_ON => "Done on",
            _ => return None,
        },
        kind::PLAN => match field {
            plan::FINISHED_LENGTHS_MM => "Finished lengths",
            plan::FINISHED_WIDTH_MM => "Finished width",
            plan::ENDS => "Ends",
            plan::SETT_ENDS_PER_10CM => "Sett",
            plan::EDGE => "Fringe or hem",
            plan::EDGE_MM => "Length of that",
            plan::FIBRE => "Fibre",
            plan::FINISH => "How it is finished",
            plan::WEAVE => "Weave",
            plan::WARP_PER_100_OFF_LOOM => "Warp that 100 of cloth off the loom uses",
            plan::RELEASE_PERCENT => "Length lost off tension, per cent",
            plan::WASH_PERCENT => "Length lost in the wash, per cent",
            plan::DRAW_IN_PERCENT => "Draw-in, per cent",
            plan::WIDTH_LOSS_PERCENT => "Width lost from the fell, per cent",
            plan::WASTE_MM => "Loom waste alone",
            plan::HEADER_MM => "Header",
            plan::SAMPLE_MM => "Sample",
            plan::GAP_MM => "Between pieces",
            plan::WARP_TEX => "Number of the warp yarn, tex",
            plan::WEFT_TEX => "Number of the weft yarn, tex",
            plan::HOURS => "Hours reckoned",
            _ => return None,
        },
        kind::READING => match field {
            moment::ON => "Day",
            moment::SITTING => "Id of the sitting it was noted in or after",
            moment::PICKS_INTO => "After so many picks of it",
            sitting::MEASURED_MM => "Measured length",
            sitting::MEASURED_FROM => "Measured from",
            sitting::MEASURED_TENSION => "Tight or relaxed",
            sitting::MARK_SET => "Mark moved to the fell",
            reading::WARP_MARK_MM => "Warp mark at the fell",
            sitting::ROUGH => "Rough figures",
            _ => return None,
        },
        kind::WEIGHING => match field {
            moment::ON => "Day",
            moment::SITTING => "Id of the sitting it was noted in or after",
            moment::PICKS_INTO => "After so many picks of it",
            weighing::WEFT => "Id of the yarn",
            weighing::LEFT_G => "Weight left",
            weighing::LEFT_MM => "Length left",
            weighing::TARE_G => "Taken off for the shuttle",
            sitting::ROUGH => "Rough figures",
            _ => return None,
        },
        kind::JOIN => match field {
            moment::ON => "Day",
            moment::SITTING => "Id of the sitting it was noted in or after",
            moment::PICKS_INTO => "After so many picks of it",
            weighing::WEFT => "Id of the yarn",
            _ => return None,
        },
        kind::PLACE => match field {
            moment::ON => "Day",
            moment::SITTING => "Id of the sitting it was noted in or after",
            moment::PICKS_INTO => "After so many picks of it",
            place::PIECE => "Piece",
            place::SECTION => "Part of the sequence",
            place::REPEAT => "Repeat",
            place::ROW => "Row",
            _ => return None,
        },
        kind::PHOTO => match field {
            photo::SITTING => "Id of the sitting",
            photo::TAKEN_AT => "Taken at",
            photo::HASH => "Name of its file",
            _ => return None,
        },
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use fellmark_model::tables::LISTS;

    use super::*;

    #[test]
    fn every_column_has_a_label() {
        for list in LISTS {
            for column in list.columns {
                assert!(label(list.kind, column.field).is_some(), "{} {}", list.name, column.field);
            }
        }
    }
}

//! Reading the place in the sequence that was chosen.

use fellmark_cloth::sequence::{Sequence, Where};

use super::rows::{Row, sequence};
use super::spot::spot_now;
use crate::fields;
use crate::forms::FieldMap;
use crate::forms::PlaceForm;
use crate::measures::Reader;
use crate::moments::Part;
use crate::{UserError, WarpLog, messages};

/// The rows of a section.
pub fn rows_of(sequence: &Sequence<Row>, part: Part) -> &[Row] {
    match part {
        Part::Opening => &sequence.opening,
        Part::Repeat => &sequence.repeat,
        Part::Balance => &sequence.balance,
        Part::Closing => &sequence.closing,
    }
}

/// A warp of this many millimetres is taken where none is given, and so many picks per millimetre where none are planned: more than
/// is woven by hand.
const LONGEST_WARP_MM: f64 = 20_000.0;
const CLOSEST_PICKS_PER_MM: f64 = 4.0;
/// Picks lie closer than planned by no more than this, as a ratio.
const CLOSER_THAN_PLANNED: f64 = 2.0;

/// Most repeats of so many rows that the whole warp can hold.
fn most_repeats(log: &WarpLog, rows: usize) -> i64 {
    let picks_per_mm =
        log.warp.picks_per_10cm.map_or(CLOSEST_PICKS_PER_MM, |per_10cm| per_10cm / 100.0 * CLOSER_THAN_PLANNED);
    let picks = log.warp.wound_mm.unwrap_or(LONGEST_WARP_MM) * picks_per_mm;
    // A few hundred thousand at most.
    #[allow(clippy::cast_possible_truncation, clippy::cast_precision_loss)]
    let most = (picks / rows.max(1) as f64).ceil() as i64;
    most.max(1)
}

/// Reads a place the weaver chose into the journal's fields.
///
/// # Errors
/// There is no sequence, or no such place in it.
pub fn read_place(
    form: &PlaceForm,
    log: &WarpLog,
    running_picks: i64,
    read: Reader<'_>,
) -> Result<FieldMap, UserError> {
    let Some(sequence) = sequence(&log.warp.rows) else {
        return Err(UserError::new(messages::no_sequence()));
    };
    let (spot, _) = spot_now(log, &sequence, running_picks);
    let part = match form.section.trim() {
        "" => Part::Repeat,
        word => Part::from_word(word).ok_or_else(|| UserError::at("section", messages::unknown_section(word)))?,
    };
    let rows = rows_of(&sequence, part).len();
    if rows == 0 {
        let message = match part {
            Part::Opening => messages::opening_without_rows(),
            Part::Repeat => messages::repeat_without_rows(),
            Part::Balance => messages::balance_without_rows(),
            Part::Closing => messages::closing_without_rows(),
        };
        return Err(UserError::at("section", message));
    }
    let pieces = i64::from(log.warp.pieces);
    let rows = i64::try_from(rows).unwrap_or(i64::MAX);
    let piece = read
        .whole_between("piece", messages::the_piece(), &form.piece, 1, pieces)?
        .unwrap_or(i64::from(spot.piece) + 1);
    let row = read.whole_between("row", messages::the_row(), &form.row, 1, rows)?.unwrap_or(1);
    let least = i64::from(part == Part::Repeat);
    let repeat = read.whole_between("repeat", messages::the_repeat(), &form.repeat, least, 1_000_000)?;
    let most = most_repeats(log, sequence.repeat.len());
    if let Some(typed) = repeat.filter(|typed| *typed > most) {
        return Err(UserError::at("repeat", messages::repeat_beyond_warp(typed, most)));
    }
    let woven = match spot.at(&sequence) {
        Where::Weaving(at) => at.repeat.or(spot.repeats).unwrap_or(0),
        Where::BeforeStart { .. } => 0,
        Where::Done { .. } => spot.repeats.unwrap_or(0),
    };
    let repeat = repeat.unwrap_or_else(|| i64::try_from(woven).unwrap_or(0) + least);
    let mut set = FieldMap::new();
    set.insert(fields::place::PIECE.into(), serde_json::json!(piece));
    set.insert(fields::place::SECTION.into(), serde_json::json!(part.word()));
    if part != Part::Opening {
        set.insert(fields::place::REPEAT.into(), serde_json::json!(repeat));
    }
    set.insert(fields::place::ROW.into(), serde_json::json!(row));
    Ok(set)
}

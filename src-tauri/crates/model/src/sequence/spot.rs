//! A spot in the sequences of a warp's pieces, and which one the weaver is at.

use fellmark_cloth::sequence::{Sequence, Where};

use super::rows::Row;
use crate::WarpLog;
use crate::moments::{Part, PlaceSaid, Timeline};

/// A spot in the sequences of a warp's pieces.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Spot {
    /// Which piece, from 0.
    pub piece: u32,
    /// Whole repeats of this piece, once the weaver went on to its balance or closing border.
    pub repeats: Option<u64>,
    /// Picks of this piece before the next one.
    pub index: i64,
}

impl Spot {
    /// Before the first pick.
    pub const START: Self = Self { piece: 0, repeats: None, index: 0 };

    /// The spot that was said.
    pub fn of(said: &PlaceSaid, sequence: &Sequence<Row>) -> Self {
        let rows = |rows: &[Row]| i64::try_from(rows.len()).unwrap_or(i64::MAX);
        let row = |of: &[Row]| i64::try_from(said.row).unwrap_or(0).min((rows(of) - 1).max(0));
        let repeat = i64::try_from(said.repeat).unwrap_or(0);
        let before = rows(&sequence.opening) + repeat * rows(&sequence.repeat);
        let (repeats, index) = match said.part {
            Part::Opening => (None, row(&sequence.opening)),
            Part::Repeat => (None, before + row(&sequence.repeat)),
            Part::Balance => (Some(said.repeat), before + row(&sequence.balance)),
            Part::Closing => (Some(said.repeat), before + rows(&sequence.balance) + row(&sequence.closing)),
        };
        Self { piece: said.piece, repeats, index }
    }

    /// Further on by so many picks; what goes beyond the end of a piece begins the next one.
    pub fn moved(self, picks: i64, sequence: &Sequence<Row>, pieces: u32) -> Self {
        let mut spot = Self { index: self.index.saturating_add(picks), ..self };
        while let Some(repeats) = spot.repeats
            && spot.piece + 1 < pieces
            && let Ok(whole) = i64::try_from(sequence.picks(repeats))
            && spot.index >= whole
        {
            spot = Self { piece: spot.piece + 1, repeats: None, index: spot.index - whole };
        }
        spot
    }

    /// Where in the sequence the spot is.
    pub fn at(self, sequence: &Sequence<Row>) -> Where<Row> {
        sequence.place(self.index, self.repeats)
    }
}

/// Where the weaver is, and the last pick beaten: after a section was begun on purpose that is the row woven before it.
pub fn spot_now(log: &WarpLog, sequence: &Sequence<Row>, running_picks: i64) -> (Spot, Option<Row>) {
    let course = Timeline::of(log, running_picks);
    let pieces = log.warp.pieces;
    let said: Vec<(&PlaceSaid, i64)> =
        log.moments.places.iter().filter_map(|said| Some((said, course.picks_since(&said.when)?))).collect();
    let spot_of = |which: Option<&(&PlaceSaid, i64)>, picks: i64| match which {
        Some((said, _)) => Spot::of(said, sequence).moved(picks, sequence, pieces),
        None => Spot::START.moved(picks, sequence, pieces),
    };
    let Some((last, earlier)) = said.split_last() else {
        let spot = spot_of(None, course.picks());
        return (spot, last_of(&spot.at(sequence)));
    };
    let (place, since) = *last;
    let spot = spot_of(Some(last), since);
    if since == 0 && place.row == 0 && place.part != Part::Repeat {
        let before = earlier.last();
        let picks = before.map_or_else(|| course.picks(), |(_, since)| *since);
        return (spot, last_of(&spot_of(before, picks).at(sequence)));
    }
    (spot, last_of(&spot.at(sequence)))
}

fn last_of(at: &Where<Row>) -> Option<Row> {
    match at {
        Where::Weaving(at) => at.last.clone(),
        Where::Done { last, .. } => last.clone(),
        Where::BeforeStart { .. } => None,
    }
}

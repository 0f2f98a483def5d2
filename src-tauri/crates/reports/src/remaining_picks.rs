//! How many picks the piece being woven still has room for, and what of its sequence fits into them.

use fellmark_cloth::sequence::Sequence;
use fellmark_cloth::state::{PicksIn, UnderTension, WovenLength};

use crate::progress::Progress;
use fellmark_model::moments::Part;
use fellmark_model::sequence::{Row, Spot};

/// Picks that the piece being woven still has room for, and what the sections of its sequence take.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RemainingPicks {
    picks: i64,
    repeat_picks: i64,
    balance_picks: i64,
    closing_picks: i64,
}

/// What should be woven next instead of another repeat.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DueNext {
    /// The balance or the closing border.
    Section(Part),
    /// The next piece: this one has neither.
    NextPiece,
}

impl RemainingPicks {
    /// Of the piece being woven; nothing where the length of the piece or the pick density is not known.
    pub fn in_piece(sequence: &Sequence<Row>, progress: &Progress, spot: Spot) -> Option<Self> {
        let end_of_piece = progress.piece_ends.end(spot.piece as usize).or(progress.piece_ends.whole())?;
        let left_mm = end_of_piece.mm() - progress.woven_mm();
        let left = WovenLength::from_mm(left_mm.max(0.0)).ok()?;
        let density = PicksIn::<UnderTension>::from_per_10cm(progress.picks_per_mm? * 100.0).ok()?;
        let count = |rows: &[Row]| i64::try_from(rows.len()).unwrap_or(i64::MAX);
        Some(Self {
            picks: density.threads_in(left).round() as i64,
            repeat_picks: count(&sequence.repeat),
            balance_picks: count(&sequence.balance),
            closing_picks: count(&sequence.closing),
        })
    }

    /// Picks left for repeats, balance and closing border set aside.
    fn for_repeats(self) -> i64 {
        self.picks - self.balance_picks - self.closing_picks
    }

    /// Whole repeats there is room for.
    pub fn repeats(self) -> Option<i64> {
        (self.repeat_picks > 0 && self.for_repeats() >= 0).then(|| self.for_repeats() / self.repeat_picks)
    }

    /// At the start of a repeat (`row` 0), what is due once another whole repeat would make the piece too long by more than
    /// leaving it out makes it too short.
    pub fn due_next(self, row: usize, is_last_piece: bool) -> Option<DueNext> {
        if row != 0 || self.for_repeats() * 2 >= self.repeat_picks {
            return None;
        }
        match (self.balance_picks > 0, self.closing_picks > 0) {
            (true, _) => Some(DueNext::Section(Part::Balance)),
            (false, true) => Some(DueNext::Section(Part::Closing)),
            (false, false) => (!is_last_piece).then_some(DueNext::NextPiece),
        }
    }
}

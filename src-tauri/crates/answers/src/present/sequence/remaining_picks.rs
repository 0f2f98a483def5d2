//! How much of a sequence the piece being woven still has room for.

use fellmark_cloth::sequence::Sequence;
use fellmark_cloth::state::{PicksIn, UnderTension, WovenLength};

use crate::model::forms::PlaceForm;
use crate::model::moments::Part;
use crate::model::sequence::{Row, Spot};
use crate::present::view::PlaceDue;
use crate::reports::progress::Progress;

/// How many picks the piece being woven still has room for, and what its sequence takes of them.
#[derive(Clone, Copy)]
pub(super) struct RemainingPicks {
    picks: i64,
    repeat: i64,
    balance: i64,
    closing: i64,
}

impl RemainingPicks {
    /// Of the piece being woven; nothing where the length wanted or the picks are not known.
    pub(super) fn in_piece(sequence: &Sequence<Row>, progress: &Progress, spot: Spot) -> Option<Self> {
        let end_of_piece = progress.piece_ends_mm.get(spot.piece as usize).or(progress.piece_ends_mm.last())?;
        let to_end_of_piece = end_of_piece - progress.woven_mm();
        let left = WovenLength::from_mm(to_end_of_piece.max(0.0)).ok()?;
        let rate = PicksIn::<UnderTension>::from_per_10cm(progress.picks_per_mm? * 100.0).ok()?;
        let count = |rows: &[Row]| i64::try_from(rows.len()).unwrap_or(i64::MAX);
        Some(Self {
            picks: rate.threads_in(left).round() as i64,
            repeat: count(&sequence.repeat),
            balance: count(&sequence.balance),
            closing: count(&sequence.closing),
        })
    }

    /// Whole repeats there is room for, balance and closing border set aside.
    pub(super) fn repeats(self) -> Option<i64> {
        let for_repeats = self.picks - self.balance - self.closing;
        (self.repeat > 0 && for_repeats >= 0).then(|| for_repeats / self.repeat)
    }

    /// At the start of a repeat: that another one would make the piece longer than wanted by more than leaving it out makes it
    /// shorter.
    pub(super) fn due(self, row: usize, piece: u32, pieces: u32, repeats_woven: u64) -> Option<PlaceDue> {
        let another = self.picks - self.balance - self.closing;
        if row != 0 || another * 2 >= self.repeat {
            return None;
        }
        let to = |part: Part, piece: u32, repeat: u64| PlaceForm {
            piece: (piece + 1).to_string(),
            section: part.word().into(),
            repeat: repeat.to_string(),
            row: "1".into(),
        };
        let (what, part) = match (self.balance > 0, self.closing > 0) {
            (true, _) => ("the balance", Part::Balance),
            (false, true) => ("the closing border", Part::Closing),
            (false, false) if piece + 1 < pieces => {
                return Some(PlaceDue {
                    sentence: "This piece is as long as wanted.".into(),
                    words: format!("Begin piece {}", piece + 2),
                    to: to(Part::Opening, piece + 1, 1),
                });
            }
            (false, false) => return None,
        };
        Some(PlaceDue {
            sentence: format!("Another whole repeat would be too long: {what} comes now."),
            words: format!("Begin {what}"),
            to: to(part, piece, repeats_woven),
        })
    }
}

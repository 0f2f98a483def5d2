//! Where each piece ends on the cloth.

use crate::quantity::Quantity;
use crate::state::WovenLength;

/// Where each piece of a warp ends: cloth under tension from the first pick, fringes and gaps not counted.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PieceEnds(Vec<WovenLength>);

/// The piece at a place of the cloth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PieceAt {
    /// Which piece, from 0.
    pub piece: usize,
    /// Where it begins.
    pub begin: WovenLength,
    /// Where it ends.
    pub end: WovenLength,
}

/// Pieces whose ends are off by less than this are alike, mm: less than a tape shows.
const ALIKE_WITHIN_MM: f64 = 0.5;

impl PieceEnds {
    /// Pieces of one length.
    pub fn alike(length: WovenLength, pieces: u32) -> Self {
        Self((1..=pieces).map(|nth| WovenLength::nearest(length.mm() * f64::from(nth))).collect())
    }

    /// Pieces of these lengths, in the order of weaving.
    pub fn of_lengths(lengths: impl IntoIterator<Item = WovenLength>) -> Self {
        let mut at = WovenLength::ZERO;
        let end = |length| {
            at = at + length;
            at
        };
        Self(lengths.into_iter().map(end).collect())
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// How many pieces there are.
    pub fn count(&self) -> usize {
        self.0.len()
    }

    /// The ends, in order.
    pub fn ends(&self) -> &[WovenLength] {
        &self.0
    }

    /// All cloth that is to be woven; `None` where there are no pieces.
    pub fn whole(&self) -> Option<WovenLength> {
        self.0.last().copied()
    }

    /// The end of a piece, from 0.
    pub fn end(&self, piece: usize) -> Option<WovenLength> {
        self.0.get(piece).copied()
    }

    /// Where a piece, from 0, begins.
    pub fn begin(&self, piece: usize) -> WovenLength {
        piece.checked_sub(1).and_then(|before| self.end(before)).unwrap_or(WovenLength::ZERO)
    }

    /// The piece at the fell after so much cloth. What is woven beyond the last piece belongs to it.
    pub fn piece_at(&self, woven: WovenLength) -> Option<PieceAt> {
        let last = self.0.len().checked_sub(1)?;
        let piece = self.0.iter().position(|end| woven < *end).unwrap_or(last);
        Some(PieceAt { piece, begin: self.begin(piece), end: self.end(piece)? })
    }

    /// How many pieces, from the first, so much cloth holds in full.
    pub fn full_pieces(&self, cloth: WovenLength) -> usize {
        self.0.iter().filter(|end| **end <= cloth).count()
    }

    /// Whether all pieces are as long as the first, to what a tape shows.
    pub fn are_alike(&self) -> bool {
        let Some(first) = self.0.first() else { return true };
        self.0.iter().zip(1_u32..).all(|(end, nth)| (end.mm() - first.mm() * f64::from(nth)).abs() < ALIKE_WITHIN_MM)
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn mm(mm: f64) -> WovenLength {
        WovenLength::from_mm(mm).unwrap()
    }

    #[test]
    fn the_piece_at_the_fell() {
        let ends = PieceEnds::of_lengths([mm(300.0), mm(200.0)]);
        let at = |woven| ends.piece_at(mm(woven)).map(|at| (at.piece, at.begin, at.end));
        assert_eq!(at(299.0), Some((0, mm(0.0), mm(300.0))));
        assert_eq!(at(300.0), Some((1, mm(300.0), mm(500.0))));
        assert_eq!(at(900.0), Some((1, mm(300.0), mm(500.0))), "what is woven beyond the last piece belongs to it");
        assert_eq!(PieceEnds::default().piece_at(mm(1.0)), None);
        assert_eq!((ends.whole(), ends.full_pieces(mm(499.0)), ends.are_alike()), (Some(mm(500.0)), 1, false));
    }

    #[test]
    fn pieces_of_one_length_are_alike() {
        let ends = PieceEnds::alike(mm(250.0), 3);
        assert_eq!(ends, PieceEnds::of_lengths([mm(250.0); 3]));
        assert!(ends.are_alike() && ends.count() == 3);
    }
}

//! Fringes and gaps: warp that is neither cloth nor loom waste.

use crate::quantity::Quantity;
use crate::state::WarpLength;

/// What is left unwoven at and between the pieces of a warp, all of them treated alike. Neither take-up nor shrinkage acts on it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unwoven {
    /// Pieces on the warp.
    pub pieces: u32,
    /// Fringe at each end of each piece.
    pub fringe: WarpLength,
    /// Between two pieces, besides their fringes.
    pub gap: WarpLength,
    /// Whether the outer two fringes are taken out of the loom waste.
    pub fringe_from_waste: bool,
}

impl Unwoven {
    /// Warp that becomes fringe and is not part of the loom waste already: two fringes to each piece, less what the waste holds of
    /// the outer two.
    pub fn fringes(&self, waste: WarpLength) -> WarpLength {
        let all = self.fringe.mm() * 2.0 * f64::from(self.pieces);
        let from_waste = if self.fringe_from_waste { (self.fringe.mm() * 2.0).min(waste.mm()) } else { 0.0 };
        WarpLength::nearest(all - from_waste)
    }

    /// Warp between pieces besides their fringes, all gaps together.
    pub fn gaps(&self) -> WarpLength {
        WarpLength::nearest(self.gap.mm() * f64::from(self.pieces.saturating_sub(1)))
    }

    /// Warp passed by between the first pick of the warp and the first pick of a piece (from 0) that became no cloth: of each piece
    /// before it two fringes and a gap.
    pub fn before_piece(&self, piece: usize) -> WarpLength {
        // Pieces on one warp are far fewer than 2⁵³.
        #[allow(clippy::cast_precision_loss)]
        let pieces = piece as f64;
        WarpLength::nearest(pieces * (2.0 * self.fringe.mm() + self.gap.mm()))
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn mm(mm: f64) -> WarpLength {
        WarpLength::from_mm(mm).unwrap()
    }

    #[test]
    fn fringes_and_gaps_of_two_pieces() {
        let unwoven = Unwoven { pieces: 2, fringe: mm(100.0), gap: mm(30.0), fringe_from_waste: false };
        assert_eq!((unwoven.fringes(mm(500.0)), unwoven.gaps()), (mm(400.0), mm(30.0)));
        assert_eq!((unwoven.before_piece(0), unwoven.before_piece(1)), (mm(0.0), mm(230.0)));
    }

    #[test]
    fn the_waste_gives_no_more_than_it_holds() {
        let unwoven = Unwoven { pieces: 1, fringe: mm(100.0), gap: mm(0.0), fringe_from_waste: true };
        assert_eq!(unwoven.fringes(mm(500.0)), mm(0.0));
        assert_eq!(unwoven.fringes(mm(150.0)), mm(50.0));
    }
}

//! From the pieces wanted to what to wind, and from what was wound to what is possible.

use super::changes::LengthChanges;
use super::loom_waste::LoomWaste;
use super::segment::{SegmentKind, WarpSegment};
use crate::error::Refused;
use crate::quantity::{LengthBalance, Quantity};
use crate::state::{Extent, FinishedLength, WarpLength, WovenLength};

/// What is at the beginning or the end of a piece.
#[derive(Debug, Clone, Copy, PartialEq, Default, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Edge {
    /// Nothing beyond the cloth.
    #[default]
    Plain,
    /// Unwoven ends of this length; neither take-up nor shrinkage act on them.
    Fringe(WarpLength),
    /// Cloth turned under, by its finished length (all turns together).
    Hem(FinishedLength),
}

/// One cloth of the warp, as it is wanted.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Piece {
    /// Its length when finished, between hems or fringes.
    #[serde(rename = "finished_mm")]
    pub finished: FinishedLength,
    /// Woven first.
    pub begin: Edge,
    /// Woven last.
    pub end: Edge,
}

impl Piece {
    /// A piece without hem or fringe.
    pub fn plain(finished: FinishedLength) -> Self {
        Self { finished, begin: Edge::Plain, end: Edge::Plain }
    }

    fn hems(&self) -> FinishedLength {
        [self.begin, self.end]
            .iter()
            .map(|edge| if let Edge::Hem(hem) = edge { *hem } else { FinishedLength::ZERO })
            .sum()
    }
}

/// What one warp is to hold.
#[derive(Debug, Clone, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct WarpLayout {
    /// Pieces in the order of weaving, of any sizes.
    pub pieces: Vec<Piece>,
    /// Between two pieces, besides their fringes.
    #[serde(rename = "gap_mm")]
    pub gap: WarpLength,
    /// Waste picks at the start.
    #[serde(rename = "header_mm")]
    pub header: WarpLength,
    /// A sample at the start.
    #[serde(rename = "sample_mm")]
    pub sample: WarpLength,
    /// Loom waste.
    pub waste: LoomWaste,
    /// What happens to length.
    pub changes: LengthChanges,
}

/// What a warp that was wound allows of a layout.
#[derive(Debug, Clone, PartialEq)]
pub struct PossiblePieces {
    /// What is over or short for the whole layout, in warp.
    pub balance: LengthBalance,
    /// How many pieces, from the first, come out in full.
    pub full_pieces: usize,
    /// The longest that the next piece after those can be, hems and fringes kept; `None` if all are in full or nothing
    /// of it is left.
    pub next_piece: Option<FinishedLength>,
    /// The longest that the last piece can be if all before it are in full; `None` if it is not reached.
    pub longest_last: Option<FinishedLength>,
    /// Every piece made longer or shorter in the same proportion so that all of the warp is used; `None` if what is not
    /// cloth already uses it up.
    pub stretched: Option<WarpLayout>,
}

/// Where the weaving stands among the pieces.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PiecePosition {
    /// The piece, from 0.
    pub piece: usize,
    /// Woven of it.
    pub done: WovenLength,
    /// Left of it; negative if the last piece is longer than wanted.
    pub left: LengthBalance,
    /// What the pieces after it take.
    pub after: WovenLength,
}

impl WarpLayout {
    /// The warp to wind, exactly; round it up with [`Extent::rounded_up_to`].
    /// # Errors
    /// If the sum leaves the limits.
    pub fn warp_needed(&self) -> Result<WarpLength, Refused> {
        let end = self.segments()?.last().map_or(0.0, |last| last.start.mm() + last.warp.mm());
        WarpLength::from_mm(end)
    }

    /// The warp in order. Stretches of nothing are left out, except tie-on and the unweavable end.
    /// # Errors
    /// If a length leaves the limits.
    pub fn segments(&self) -> Result<Vec<WarpSegment>, Refused> {
        let mut list = SegmentList { segments: Vec::new(), at_mm: 0.0, changes: self.changes };
        let last = self.pieces.len().saturating_sub(1);
        let front_fringe = match self.pieces.first().map(|piece| piece.begin) {
            Some(Edge::Fringe(fringe)) => fringe.min(self.waste.fringe_from_front).min(self.waste.front),
            _ => WarpLength::ZERO,
        };
        let back_fringe = match self.pieces.last().map(|piece| piece.end) {
            Some(Edge::Fringe(fringe)) => fringe.min(self.waste.fringe_from_back).min(self.waste.back),
            _ => WarpLength::ZERO,
        };
        let open = [(SegmentKind::Header, self.header), (SegmentKind::Sample, self.sample)];
        list.bare(SegmentKind::TieOn, None, self.waste.front.less(front_fringe), true)?;
        for (kind, warp) in open {
            list.bare(kind, None, warp, false)?;
        }
        for (i, piece) in self.pieces.iter().enumerate() {
            list.edge(i, piece.begin)?;
            list.cloth(SegmentKind::Cloth, i, piece.finished)?;
            list.edge(i, piece.end)?;
            if i < last {
                list.bare(SegmentKind::Gap, None, self.gap, false)?;
            }
        }
        list.bare(SegmentKind::Unweavable, None, self.waste.back.less(back_fringe), true)?;
        Ok(list.segments)
    }

    /// What is over (positive) or short of a warp that was wound.
    /// # Errors
    /// If a length leaves the limits.
    pub fn balance(&self, wound: WarpLength) -> Result<LengthBalance, Refused> {
        Ok(wound.minus(self.warp_needed()?))
    }

    /// What a warp that was wound allows.
    /// # Errors
    /// If a length leaves the limits.
    pub fn possible(&self, wound: WarpLength) -> Result<PossiblePieces, Refused> {
        let full_pieces = self.full_pieces(wound)?;
        let next_piece = match self.pieces.get(full_pieces) {
            Some(_) => self.longest_with(wound, full_pieces)?,
            None => None,
        };
        let longest_last = match self.pieces.len().checked_sub(1) {
            Some(last) if full_pieces >= last => self.longest_with(wound, last)?,
            _ => None,
        };
        Ok(PossiblePieces {
            balance: self.balance(wound)?,
            full_pieces,
            next_piece,
            longest_last,
            stretched: self.stretched_to(wound)?,
        })
    }

    /// How many pieces, from the first, a warp holds in full.
    fn full_pieces(&self, wound: WarpLength) -> Result<usize, Refused> {
        let mut full = 0;
        for n in 1..=self.pieces.len() {
            // A thousandth of a millimetre forgives rounding.
            if self.only_first(n).warp_needed()?.mm() > wound.mm() + 1e-3 {
                break;
            }
            full = n;
        }
        Ok(full)
    }

    /// The longest piece `index` can be, all before it in full and none after it; `None` if nothing is left for it.
    fn longest_with(&self, wound: WarpLength, index: usize) -> Result<Option<FinishedLength>, Refused> {
        let mut layout = self.only_first(index + 1);
        if let Some(piece) = layout.pieces.get_mut(index) {
            piece.finished = FinishedLength::ZERO;
        }
        let left = layout.balance(wound)?;
        if left.mm() <= 0.0 {
            return Ok(None);
        }
        self.changes.warp_to_finished().cloth_from(Extent::new(left.over())?).map(Some)
    }

    fn only_first(&self, n: usize) -> Self {
        Self { pieces: self.pieces.iter().take(n).copied().collect(), ..self.clone() }
    }

    /// The same layout with every piece made longer or shorter in one proportion, so that the warp is used up; hems,
    /// fringes and gaps stay. `None` if nothing is left for cloth, or there is no cloth to stretch.
    /// # Errors
    /// If a length leaves the limits.
    pub fn stretched_to(&self, wound: WarpLength) -> Result<Option<Self>, Refused> {
        let cloth: f64 = self.pieces.iter().map(|piece| piece.finished.mm()).sum();
        let used = cloth / self.changes.warp_to_finished().ratio();
        let fixed = self.warp_needed()?.mm() - used;
        if cloth <= 0.0 || wound.mm() <= fixed {
            return Ok(None);
        }
        let factor = (wound.mm() - fixed) / used;
        let mut layout = self.clone();
        for piece in &mut layout.pieces {
            piece.finished = piece.finished.times(factor)?;
        }
        Ok(Some(layout))
    }

    /// Warp that becomes no cloth: tie-on, header, sample, fringes, gaps and what can't be woven, without what a fringe
    /// takes out of the waste twice.
    /// # Errors
    /// If a length leaves the limits.
    pub fn not_cloth(&self) -> Result<WarpLength, Refused> {
        Ok(self.segments()?.iter().filter(|s| !s.kind.is_cloth()).map(|s| s.warp).sum())
    }

    /// Where a total of cloth woven under tension leads: the piece being woven, how much of it is done, how much is
    /// left, and what all pieces after it still take. Hems count with their piece. Past the last piece all is in the
    /// last.
    /// # Errors
    /// If there are no pieces, or a length leaves the limits.
    pub fn position(&self, woven: WovenLength) -> Result<PiecePosition, Refused> {
        let mut before = 0.0;
        let mut at = None;
        let mut after = 0.0;
        for piece in 0..self.pieces.len() {
            let wanted = self.woven_length(piece)?;
            if at.is_some() {
                after += wanted.mm();
                continue;
            }
            let is_last = piece + 1 == self.pieces.len();
            // A tenth of a millimetre short of the end is the end.
            if woven.mm() < before + wanted.mm() - 0.1 || is_last {
                at = Some((piece, woven.mm() - before, wanted));
            } else {
                before += wanted.mm();
            }
        }
        let (piece, done, wanted) = at.ok_or_else(|| Refused::DoesNotFit("there is no piece on this warp".into()))?;
        let done = WovenLength::from_mm(done.max(0.0))?;
        Ok(PiecePosition { piece, done, left: wanted.minus(done), after: WovenLength::from_mm(after)? })
    }

    /// Cloth to weave under tension for a piece, hems and all.
    /// # Errors
    /// If there is no such piece.
    pub fn woven_length(&self, index: usize) -> Result<WovenLength, Refused> {
        let piece = self.pieces.get(index).ok_or_else(|| Refused::DoesNotFit("there is no such piece".into()))?;
        self.changes.woven_to_finished().before(piece.finished + piece.hems())
    }
}

struct SegmentList {
    segments: Vec<WarpSegment>,
    at_mm: f64,
    changes: LengthChanges,
}

impl SegmentList {
    fn push(&mut self, segment: WarpSegment) -> Result<(), Refused> {
        self.at_mm += segment.warp.mm();
        // Refused here rather than held at the limit, so that no warp is reported shorter than it is.
        WarpLength::from_mm(self.at_mm)?;
        self.segments.push(segment);
        Ok(())
    }

    fn bare(&mut self, kind: SegmentKind, piece: Option<usize>, warp: WarpLength, keep: bool) -> Result<(), Refused> {
        if warp == WarpLength::ZERO && !keep {
            return Ok(());
        }
        let start = WarpLength::nearest(self.at_mm);
        self.push(WarpSegment { kind, piece, start, warp, woven: WovenLength::ZERO, finished: FinishedLength::ZERO })
    }

    fn cloth(&mut self, kind: SegmentKind, piece: usize, finished: FinishedLength) -> Result<(), Refused> {
        if finished == FinishedLength::ZERO {
            return Ok(());
        }
        let woven = self.changes.woven_to_finished().before(finished)?;
        let warp = self.changes.weaving.yarn_for(woven)?;
        let start = WarpLength::nearest(self.at_mm);
        self.push(WarpSegment { kind, piece: Some(piece), start, warp, woven, finished })
    }

    fn edge(&mut self, piece: usize, edge: Edge) -> Result<(), Refused> {
        match edge {
            Edge::Plain => Ok(()),
            Edge::Fringe(fringe) => self.bare(SegmentKind::Fringe, Some(piece), fringe, false),
            Edge::Hem(hem) => self.cloth(SegmentKind::Hem, piece, hem),
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::change::{WarpUse, WashLength};
    use crate::take_up::TakeUp;

    fn layout(finished_in: &[f64]) -> WarpLayout {
        WarpLayout {
            pieces: finished_in.iter().map(|l| Piece::plain(FinishedLength::from_inches(*l).unwrap())).collect(),
            gap: WarpLength::ZERO,
            header: WarpLength::ZERO,
            sample: WarpLength::ZERO,
            waste: LoomWaste::new(WarpLength::from_inches(8.0).unwrap(), WarpLength::from_inches(12.0).unwrap()),
            changes: LengthChanges::from_relaxed(
                WarpUse::from_take_up(TakeUp::from_percent(10.0).unwrap()),
                None,
                WashLength::from_shrinkage_percent(10.0).unwrap(),
            )
            .unwrap(),
        }
    }

    #[test]
    fn a_scarf_of_72_inches_needs_109() {
        // 72 in at 10 %/10 % and 20 in of waste: 109 in, where the rule of thumb has 92.
        assert!((layout(&[72.0]).warp_needed().unwrap().inches() - 108.888_888).abs() < 1e-5);
    }

    #[test]
    fn waste_counts_once() {
        let one = layout(&[72.0]).warp_needed().unwrap().inches() - 20.0;
        let two = layout(&[72.0, 72.0]).warp_needed().unwrap().inches() - 20.0;
        assert!((two - 2.0 * one).abs() < 1e-9);
    }

    #[test]
    fn fringe_may_come_out_of_the_waste() {
        let mut w = layout(&[72.0]);
        let six = WarpLength::from_inches(6.0).unwrap();
        let without = w.warp_needed().unwrap();
        w.pieces[0].begin = Edge::Fringe(six);
        w.pieces[0].end = Edge::Fringe(WarpLength::from_inches(14.0).unwrap());
        assert!((w.warp_needed().unwrap().minus(without).mm() / 25.4 - 20.0).abs() < 1e-9);
        w.waste = w.waste.fringe_may_use_it();
        // 8 in in front hold the 6; of the 14 behind, 12 come out of the waste.
        assert!((w.warp_needed().unwrap().minus(without).mm() / 25.4 - 2.0).abs() < 1e-9);
        let kinds: Vec<_> = w.segments().unwrap().iter().map(|s| s.kind).collect();
        use SegmentKind::{Cloth, Fringe, TieOn, Unweavable};
        assert_eq!(kinds, [TieOn, Fringe, Cloth, Fringe, Unweavable]);
    }

    #[test]
    fn what_was_wound_gives_the_layout_back() {
        let w = layout(&[30.0, 20.0, 25.0]);
        let wound = w.warp_needed().unwrap();
        let possible = w.possible(wound).unwrap();
        assert_eq!(possible.full_pieces, 3);
        assert_eq!(possible.next_piece, None);
        assert!((possible.longest_last.unwrap().inches() - 25.0).abs() < 1e-6);
        assert!((possible.stretched.unwrap().pieces[1].finished.inches() - 20.0).abs() < 1e-6);
    }

    #[test]
    fn a_short_warp_says_what_is_left_for_the_last() {
        let w = layout(&[30.0, 20.0]);
        let wound = WarpLength::from_inches(60.0).unwrap();
        let possible = w.possible(wound).unwrap();
        assert!(possible.balance.is_short());
        assert_eq!(possible.full_pieces, 1);
        assert!((possible.next_piece.unwrap().inches() - (40.0 * 0.81 - 30.0)).abs() < 1e-6);
        let none = w.possible(WarpLength::from_inches(10.0).unwrap()).unwrap();
        assert_eq!((none.full_pieces, none.next_piece, none.stretched), (0, None, None));
    }

    #[test]
    fn the_place_among_the_pieces() {
        let w = layout(&[27.0, 18.0]);
        // 30 and 20 in to weave at 10 % shrinkage.
        let at = |inches| w.position(WovenLength::from_inches(inches).unwrap()).unwrap();
        assert_eq!((at(0.0).piece, at(29.0).piece, at(30.0).piece, at(70.0).piece), (0, 0, 1, 1));
        assert!((at(29.0).left.over().inches() - 1.0).abs() < 1e-9 && (at(29.0).after.inches() - 20.0).abs() < 1e-9);
        assert!((at(35.0).done.inches() - 5.0).abs() < 1e-9);
        assert!(at(51.0).left.is_short());
        assert!(layout(&[]).position(WovenLength::ZERO).is_err());
        assert!((w.not_cloth().unwrap().inches() - 20.0).abs() < 1e-9);
    }

    #[test]
    fn hems_are_woven_and_segments_join() {
        let mut w = layout(&[20.0]);
        w.pieces[0].begin = Edge::Hem(FinishedLength::from_inches(2.0).unwrap());
        w.header = WarpLength::from_inches(1.0).unwrap();
        w.sample = WarpLength::from_inches(5.0).unwrap();
        assert!((w.woven_length(0).unwrap().inches() - 22.0 / 0.9).abs() < 1e-9);
        assert!(w.woven_length(1).is_err());
        let segments = w.segments().unwrap();
        for pair in segments.windows(2) {
            assert!((pair[0].start.mm() + pair[0].warp.mm() - pair[1].start.mm()).abs() < 1e-6);
        }
    }
}

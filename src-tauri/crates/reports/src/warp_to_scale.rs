//! The warp to scale, from the cloth beam to the back beam: what is cloth, what becomes cloth, and what is left or missing.

use fellmark_cloth::state::{WarpLength, WovenLength};
use fellmark_cloth::warp::LoomWaste;

use crate::progress::Progress;
use crate::reach::{NotCloth, warp_use_now};
use fellmark_model::{Warp, WarpLog};

/// Bands thinner than this are not worth drawing, millimetres.
const THINNEST_MM: f64 = 0.5;

/// A warp to scale. All positions are millimetres of warp from its front end.
#[derive(Clone, Debug, PartialEq)]
pub struct WarpToScale {
    /// Bands in order, without gaps.
    pub bands: Vec<WarpBand>,
    /// Where the fell is.
    pub fell_mm: f64,
    /// Marks set on the cloth.
    pub marks: Vec<MarkToScale>,
    /// Warp missing for all that is wanted.
    pub missing_mm: f64,
    /// Cloth under tension that could be woven beyond all that is wanted; negative where some is missing.
    pub spare_cloth_mm: f64,
    /// Loom waste, front and back together.
    pub waste_mm: f64,
}

impl WarpToScale {
    /// The whole warp; when it falls short, what would be needed.
    #[must_use]
    pub fn whole_mm(&self) -> f64 {
        self.bands.last().map_or(0.0, |last| last.to_mm)
    }
}

/// A stretch of the warp.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WarpBand {
    /// What it is.
    pub kind: WarpBandKind,
    /// Where it begins.
    pub from_mm: f64,
    /// Where it ends.
    pub to_mm: f64,
}

impl WarpBand {
    /// Its length in warp.
    #[must_use]
    pub fn length_mm(&self) -> f64 {
        self.to_mm - self.from_mm
    }
}

/// What a stretch of the warp is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WarpBandKind {
    /// Loom waste in front.
    FrontWaste,
    /// Fringe of a piece.
    Fringe,
    /// Between two pieces.
    Gap,
    /// Cloth that is woven.
    Woven {
        /// Index of the sitting in the log; one that is going on comes after them.
        sitting: usize,
        /// Cloth under tension, millimetres.
        cloth_mm: f64,
    },
    /// Cloth still to weave.
    ToWeave {
        /// The piece, from 0.
        piece: usize,
        /// Cloth under tension, millimetres.
        cloth_mm: f64,
    },
    /// Warp to spare.
    Spare,
    /// Loom waste behind.
    BackWaste,
    /// Warp that is missing.
    Missing,
}

/// A mark set on the cloth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MarkToScale {
    /// Where it is on the warp.
    pub at_mm: f64,
    /// Cloth under tension from the first pick to it, millimetres.
    pub cloth_mm: f64,
}

#[derive(Default)]
struct Bands {
    bands: Vec<WarpBand>,
    at_mm: f64,
}

impl Bands {
    /// Adds a band; whether it is long enough to be drawn.
    fn add(&mut self, kind: WarpBandKind, length_mm: f64) -> bool {
        if length_mm < THINNEST_MM {
            return false;
        }
        let from_mm = self.at_mm;
        self.at_mm += length_mm;
        self.bands.push(WarpBand { kind, from_mm, to_mm: self.at_mm });
        true
    }
}

/// The warp of a log to scale. Without a length wound it is as long as what is wanted needs.
#[must_use]
pub fn warp_to_scale(log: &WarpLog, progress: &Progress) -> WarpToScale {
    let warp = &log.warp;
    let warp_per_cloth = 1.0 / warp_use_now(warp, progress).ratio();
    let NotCloth { waste, fringes, gaps } = NotCloth::of_warp(warp);
    let ends = LoomWaste::from_total(waste).unwrap_or(LoomWaste::new(waste, WarpLength::ZERO));
    let wanted_mm = progress.wanted_mm.unwrap_or(0.0).max(progress.woven_mm());
    let needed_mm = waste.mm() + fringes.mm() + gaps.mm() + wanted_mm * warp_per_cloth;
    let wound_mm = warp.wound_mm.unwrap_or(needed_mm);

    let mut drawing = PieceDrawing {
        warp,
        progress,
        warp_per_cloth,
        // Cloth is drawn as far as the warp goes; what is beyond its end is drawn as missing.
        end_of_cloth_mm: (wound_mm - ends.back.mm()).max(ends.front.mm()),
        woven: woven_by_sitting(progress),
        bands: Bands::default(),
        fell_mm: 0.0,
        starts: Vec::new(),
    };
    drawing.bands.add(WarpBandKind::FrontWaste, ends.front.mm());
    drawing.fell_mm = drawing.bands.at_mm;
    drawing.pieces(wanted_mm);
    let PieceDrawing { mut bands, fell_mm, starts, .. } = drawing;
    let (missing_mm, spare_mm) = ((needed_mm - wound_mm).max(0.0), wound_mm - needed_mm);
    bands.add(WarpBandKind::Spare, spare_mm);
    bands.add(WarpBandKind::BackWaste, ends.back.mm());
    bands.add(WarpBandKind::Missing, missing_mm);
    let place_of = |cloth_mm: f64| {
        let piece = starts.iter().rfind(|start| start.cloth_mm < cloth_mm).or(starts.first());
        piece.map_or(ends.front.mm(), |start| start.at_mm + (cloth_mm - start.cloth_mm) * warp_per_cloth)
    };
    WarpToScale {
        bands: bands.bands,
        fell_mm,
        marks: progress.marks_mm.iter().map(|mm| MarkToScale { at_mm: place_of(*mm), cloth_mm: *mm }).collect(),
        missing_mm,
        spare_cloth_mm: spare_mm / warp_per_cloth,
        waste_mm: waste.mm(),
    }
}

/// Where a piece's cloth begins: in the cloth, and on the warp, where fringes and gaps are between.
struct PieceStart {
    cloth_mm: f64,
    at_mm: f64,
}

struct PieceDrawing<'a> {
    warp: &'a Warp,
    progress: &'a Progress,
    warp_per_cloth: f64,
    end_of_cloth_mm: f64,
    woven: Vec<WovenBy>,
    bands: Bands,
    fell_mm: f64,
    starts: Vec<PieceStart>,
}

impl PieceDrawing<'_> {
    fn room_mm(&self) -> f64 {
        self.end_of_cloth_mm - self.bands.at_mm
    }

    fn unwoven(&mut self, kind: WarpBandKind, length_mm: f64) {
        let room_mm = self.room_mm();
        self.bands.add(kind, length_mm.min(room_mm));
    }

    fn pieces(&mut self, wanted_mm: f64) {
        let last = self.progress.pieces.max(1) as usize - 1;
        let mut from_mm = 0.0;
        for piece in 0..=last {
            // What was woven beyond what is wanted belongs to the last piece.
            let end = if piece < last { self.progress.piece_ends.end(piece).map(WovenLength::mm) } else { None };
            let to_mm = end.unwrap_or(wanted_mm).max(from_mm);
            if !(piece == 0 && self.warp.fringe_from_waste) {
                self.unwoven(WarpBandKind::Fringe, self.warp.fringe_mm);
            }
            self.starts.push(PieceStart { cloth_mm: from_mm, at_mm: self.bands.at_mm });
            self.cloth(piece, from_mm, to_mm);
            if !(piece == last && self.warp.fringe_from_waste) {
                self.unwoven(WarpBandKind::Fringe, self.warp.fringe_mm);
            }
            if piece < last {
                self.unwoven(WarpBandKind::Gap, self.warp.gap_mm);
            }
            from_mm = to_mm;
        }
    }

    /// What is woven and what is to weave of a piece.
    fn cloth(&mut self, piece: usize, from_mm: f64, to_mm: f64) {
        for part in &self.woven {
            let cloth_mm = part.to_mm.min(to_mm) - part.from_mm.max(from_mm);
            if cloth_mm > 0.0 {
                let kind = WarpBandKind::Woven { sitting: part.sitting, cloth_mm };
                self.bands.add(kind, cloth_mm * self.warp_per_cloth);
                self.fell_mm = self.bands.at_mm;
            }
        }
        let left_mm = to_mm - self.progress.woven_mm().clamp(from_mm, to_mm);
        let drawn_mm = (left_mm * self.warp_per_cloth).min(self.room_mm().max(0.0));
        self.bands.add(WarpBandKind::ToWeave { piece, cloth_mm: drawn_mm / self.warp_per_cloth }, drawn_mm);
    }
}

/// A stretch of cloth and the sitting that wove it.
#[derive(Clone, Copy)]
struct WovenBy {
    from_mm: f64,
    to_mm: f64,
    sitting: usize,
}

/// Which sitting each stretch of cloth is from, what was unwoven taken out.
fn woven_by_sitting(progress: &Progress) -> Vec<WovenBy> {
    let mut cloth: Vec<WovenBy> = Vec::new();
    for (sitting, (from_mm, to_mm)) in progress.stretches.iter().copied().enumerate() {
        if to_mm > from_mm {
            cloth.push(WovenBy { from_mm, to_mm, sitting });
        } else {
            cloth.retain(|part| part.from_mm < to_mm);
            if let Some(last) = cloth.last_mut() {
                last.to_mm = last.to_mm.min(to_mm);
            }
        }
    }
    cloth
}

#[cfg(test)]
mod tests {
    use super::*;
    use fellmark_model::tests::{log, sitting};

    /// Two pieces of half a metre with fringes, 70 cm woven in two sittings, the mark at the fell.
    fn two_pieces() -> WarpToScale {
        let mut log = log();
        log.warp.pieces = 2;
        log.warp.wanted_mm = Some(500.0);
        log.warp.fringe_mm = 100.0;
        log.warp.wound_mm = Some(2600.0);
        log.warp.warp_per_100 = Some(110.0);
        log.sittings = vec![sitting(2, Some(160), Some(400.0)), sitting(3, Some(120), Some(700.0))];
        log.sittings[1].mark_set = true;
        warp_to_scale(&log, &Progress::of(&log, 0))
    }

    #[test]
    fn bands_join_and_the_fell_is_at_the_last_cloth() {
        let picture = two_pieces();
        for pair in picture.bands.windows(2) {
            assert!((pair[0].to_mm - pair[1].from_mm).abs() < 1e-9, "{pair:?}");
        }
        assert!((picture.whole_mm() - 2600.0).abs() < 0.5, "{}", picture.whole_mm());
        let last = picture.bands.iter().rfind(|band| matches!(band.kind, WarpBandKind::Woven { .. })).unwrap();
        assert!((last.to_mm - picture.fell_mm).abs() < 1e-9);
        let WarpBandKind::Woven { sitting, cloth_mm } = last.kind else { panic!("{last:?}") };
        assert!(sitting == 1 && (cloth_mm - 200.0).abs() < 1e-9, "{last:?}");
    }

    #[test]
    fn a_mark_is_at_its_cloth_beyond_the_fringes_between_pieces() {
        let picture = two_pieces();
        let [mark] = picture.marks.as_slice() else { panic!("{:?}", picture.marks) };
        assert!((mark.at_mm - picture.fell_mm).abs() < 1.0, "the mark at the fell: {} {}", mark.at_mm, picture.fell_mm);
    }
}

//! The warp of a plan, to scale.

use fellmark_cloth::warp::{SegmentKind, WarpSegment};

use crate::figures::show_length;
use crate::view::{Band, BandKind, WarpPicture};
use fellmark_model::display_format::DisplayFormat;
use fellmark_reports::plan::WarpLengths;

/// Bands thinner than this are not worth drawing.
const THINNEST_MM: f64 = 0.5;

struct PlanBands {
    bands: Vec<Band>,
    at_mm: f64,
}

impl PlanBands {
    fn add(&mut self, kind: BandKind, length_mm: f64, label: String) {
        let from_mm = self.at_mm;
        self.at_mm += length_mm;
        self.bands.push(Band { kind, from_mm, to_mm: self.at_mm, label, sitting: None, photo: None });
    }
}

/// The warp of the plan, to scale.
pub(super) fn picture(lengths: &WarpLengths, format: &DisplayFormat) -> WarpPicture {
    let several = lengths.wish.pieces.len() > 1;
    let mut fell_mm = None;
    let mut drawing = PlanBands { bands: Vec::new(), at_mm: 0.0 };
    for segment in lengths.segments.iter().filter(|segment| segment.warp.mm() >= THINNEST_MM) {
        let (kind, label) = band(segment, several, format);
        if kind == BandKind::ToWeave {
            fell_mm.get_or_insert(drawing.at_mm);
        }
        if kind == BandKind::BackWaste {
            let spare = lengths.wound.minus(lengths.exact).over().mm();
            if spare >= THINNEST_MM {
                drawing.add(BandKind::Spare, spare, format!("to spare, {}", show_length(spare, format)));
            }
        }
        drawing.add(kind, segment.warp.mm(), label);
    }
    let labels: Vec<&str> = drawing.bands.iter().map(|band| band.label.as_str()).collect();
    WarpPicture {
        whole_mm: drawing.at_mm,
        fell_mm: fell_mm.unwrap_or(0.0),
        fell_label: "the fell, where the first pick will lie".into(),
        text: format!("The planned warp to scale, {} long: {}.", show_length(drawing.at_mm, format), labels.join("; ")),
        bands: drawing.bands,
        marks: Vec::new(),
    }
}

fn band(segment: &WarpSegment, several: bool, format: &DisplayFormat) -> (BandKind, String) {
    let piece = match segment.piece {
        Some(index) if several => format!(" of piece {}", index + 1),
        _ => String::new(),
    };
    let warp = show_length(segment.warp.mm(), format);
    let woven = show_length(segment.woven.mm(), format);
    match segment.kind {
        SegmentKind::TieOn => (BandKind::FrontWaste, format!("loom waste in front, {warp}")),
        SegmentKind::Header => (BandKind::FrontWaste, format!("header, {warp}")),
        SegmentKind::Sample => (BandKind::FrontWaste, format!("sample, {warp}")),
        SegmentKind::Fringe => (BandKind::Fringe, format!("fringe{piece}, {warp}")),
        SegmentKind::Gap => (BandKind::Fringe, format!("gap, {warp}")),
        SegmentKind::Hem => (BandKind::ToWeave, format!("hem{piece}, {woven}")),
        SegmentKind::Cloth => (BandKind::ToWeave, format!("to weave{piece}, {woven} of cloth")),
        SegmentKind::Unweavable => (BandKind::BackWaste, format!("loom waste behind, {warp}")),
    }
}

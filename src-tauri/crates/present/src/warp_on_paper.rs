//! The warp to scale in black on white, for paper: each kind of stretch has a pattern of its own, so that no colour is needed.

use std::fmt::Write;

use crate::chart::escape;
use crate::palette::{PAPER, PRINT};
use crate::view::{Band, BandKind, WarpPicture};

const WIDE: f64 = 1000.0;
const TOP: f64 = 26.0;
const HIGH: f64 = 64.0;

/// The patterns that the kinds are filled with.
fn patterns() -> String {
    format!(
        "<defs>\
<pattern id=\"p-woven\" width=\"8\" height=\"8\" patternUnits=\"userSpaceOnUse\"><path d=\"M0 0H4V4H8V8H4V4H0Z\" fill=\"{PRINT}\"/></pattern>\
<pattern id=\"p-to-weave\" width=\"8\" height=\"8\" patternUnits=\"userSpaceOnUse\"><path d=\"M0 4H8\" stroke=\"{PRINT}\" stroke-width=\"1\"/></pattern>\
<pattern id=\"p-waste\" width=\"9\" height=\"9\" patternUnits=\"userSpaceOnUse\"><path d=\"M0 9L9 0\" stroke=\"{PRINT}\" stroke-width=\"1.2\"/></pattern>\
<pattern id=\"p-fringe\" width=\"6\" height=\"6\" patternUnits=\"userSpaceOnUse\"><circle cx=\"3\" cy=\"3\" r=\"1.1\"/></pattern></defs>"
    )
}

/// The kinds with their pattern and their name, in their order on the warp.
const KINDS: [(BandKind, &str, &str); 7] = [
    (BandKind::FrontWaste, "url(#p-waste)", "loom waste"),
    (BandKind::Woven, "url(#p-woven)", "woven"),
    (BandKind::ToWeave, "url(#p-to-weave)", "to weave"),
    (BandKind::Fringe, "url(#p-fringe)", "fringe or gap"),
    (BandKind::Spare, PAPER, "to spare"),
    (BandKind::BackWaste, "url(#p-waste)", "loom waste"),
    (BandKind::Missing, PAPER, "missing"),
];

fn look(kind: BandKind) -> (&'static str, &'static str) {
    KINDS.iter().find(|(one, ..)| *one == kind).map_or((PAPER, ""), |(_, fill, name)| (fill, name))
}

fn stretch(out: &mut String, band: &Band, scale: f64) {
    let (fill, _) = look(band.kind);
    // What is not there is only edged.
    let dashes =
        if matches!(band.kind, BandKind::Missing | BandKind::Spare) { " stroke-dasharray=\"5 4\"" } else { "" };
    let _ = write!(
        out,
        "<rect x=\"{:.1}\" y=\"{TOP}\" width=\"{:.1}\" height=\"{HIGH}\" fill=\"{fill}\" stroke=\"{PRINT}\" stroke-width=\"1\"{dashes}/>",
        band.from_mm * scale,
        (band.to_mm - band.from_mm) * scale
    );
}

/// The drawing with a key to its patterns; nothing where there is no warp to draw.
#[must_use]
pub fn svg(picture: &WarpPicture) -> String {
    if picture.whole_mm <= 0.0 || picture.bands.is_empty() {
        return String::new();
    }
    let scale = (WIDE - 4.0) / picture.whole_mm;
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"-2 0 {WIDE} {:.0}\" role=\"img\" aria-label=\"{}\" \
         font-family=\"Noto Sans, DejaVu Sans, sans-serif\" font-size=\"17\">{}",
        TOP + HIGH + 62.0,
        escape(&picture.text),
        patterns()
    );
    for band in &picture.bands {
        stretch(&mut out, band, scale);
    }
    for mark in &picture.marks {
        let x = mark.at_mm * scale;
        let _ = write!(out, "<path d=\"M{x:.1} {}v10\" stroke=\"{PRINT}\" stroke-width=\"2\"/>", TOP + HIGH);
    }
    let fell = picture.fell_mm * scale;
    // The word stays on the paper at either end.
    let (anchor, at) = if fell > WIDE / 2.0 { ("end", fell + 4.0) } else { ("start", fell - 4.0) };
    let _ = write!(
        out,
        "<path d=\"M{fell:.1} {}V{}\" stroke=\"{PRINT}\" stroke-width=\"4\"/>\
         <text x=\"{:.1}\" y=\"14\" text-anchor=\"{anchor}\">fell</text>",
        TOP - 8.0,
        TOP + HIGH + 4.0,
        at.clamp(0.0, WIDE - 8.0)
    );
    key(&mut out, picture);
    out.push_str("</svg>");
    out
}

/// Which pattern is what: of the kinds that are there, each once.
fn key(out: &mut String, picture: &WarpPicture) {
    let (mut x, y) = (0.0, TOP + HIGH + 34.0);
    let mut named: Vec<&str> = Vec::new();
    for (kind, fill, name) in KINDS {
        if named.contains(&name) || !picture.bands.iter().any(|band| band.kind == kind) {
            continue;
        }
        named.push(name);
        let _ = write!(
            out,
            "<rect x=\"{x:.0}\" y=\"{:.0}\" width=\"26\" height=\"18\" fill=\"{fill}\" stroke=\"{PRINT}\"/>\
             <text x=\"{:.0}\" y=\"{y:.0}\">{name}</text>",
            y - 15.0,
            x + 34.0
        );
        // Letters of this size are some nine wide.
        x += 34.0 + 9.5 * name.len() as f64 + 26.0;
    }
}

//! A picture of how far a piece is, to send to the one who gets it: its name, the cloth to scale, and the likely day.

use std::fmt::Write;

use crate::chart::escape;
use crate::palette::{INK, LINEN, MADDER, MADDER_CLOTH, MADDER_SHADE, SAFFRON, SHEET, WOOD, WOOD_DARK};
use crate::view::{BandKind, LoomView, WarpState};

/// Cloth shorter than wanted by less than this is as long as wanted: what a tape and a whole repeat leave open.
const NEARLY_ALL: f64 = 0.97;
const WIDE: f64 = 1080.0;
const HIGH: f64 = 720.0;
const EDGE: f64 = 72.0;
const SERIF: &str = "Palatino, Georgia, DejaVu Serif, serif";
const SANS: &str = "Noto Sans, DejaVu Sans, sans-serif";

/// Text broken into lines of at most so many letters.
fn lines(text: &str, letters: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        match lines.last_mut() {
            Some(line) if line.chars().count() + 1 + word.chars().count() <= letters => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.chars().take(letters).collect()),
        }
    }
    lines
}

/// The picture as SVG, with colours of its own.
#[must_use]
pub fn svg(view: &LoomView) -> String {
    let mut out = String::new();
    let _ = write!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {WIDE} {HIGH}\" width=\"{WIDE}\" height=\"{HIGH}\" role=\"img\" \
         aria-label=\"{}\">\
         <defs><pattern id=\"cloth\" width=\"16\" height=\"16\" patternUnits=\"userSpaceOnUse\"><rect width=\"16\" height=\"16\" \
         fill=\"{MADDER_CLOTH}\"/><path d=\"M0 0H8V8H16V16H8V8H0Z\" fill=\"{MADDER_SHADE}\"/><path d=\"M0 0H16M0 8H16M0 0V16M8 0V16\" stroke=\"{MADDER}\" \
         stroke-width=\"1\"/></pattern>\
         <pattern id=\"ends\" width=\"12\" height=\"12\" patternUnits=\"userSpaceOnUse\"><rect width=\"12\" height=\"12\" \
         fill=\"{SHEET}\"/><path d=\"M0 3H12M0 9H12\" stroke=\"{WOOD}\" stroke-width=\"1.5\"/></pattern></defs>\
         <rect width=\"{WIDE}\" height=\"{HIGH}\" fill=\"{LINEN}\"/>",
        escape(&view.name)
    );
    let title = lines(&view.name, 27);
    let mut y = if title.len() > 1 { 118.0 } else { 150.0 };
    for line in title.iter().take(2) {
        let _ = write!(
            out,
            "<text x=\"{EDGE}\" y=\"{y}\" font-family=\"{SERIF}\" font-size=\"56\" fill=\"{INK}\">{}</text>",
            escape(line)
        );
        y += 66.0;
    }
    let finished = view.state == WarpState::OffTheLoom;
    let pieces = pieces(view, finished);
    let woven: f64 = pieces.iter().map(|(woven, _)| woven).sum();
    let whole = pieces.iter().map(|(woven, left)| woven + left).sum::<f64>().max(1.0);
    draw(&mut out, &pieces, whole);
    let percent = if woven > 0.0 { (woven / whole * 100.0).floor().clamp(1.0, 100.0) } else { 0.0 };
    // Cut off early, it is not all woven.
    let share = view.figures.woven_mm / view.figures.wanted_mm.max(1.0);
    let first = match (finished, view.figures.wanted_mm > 0.0 && share < NEARLY_ALL) {
        (true, false) => "All of it is woven.".to_owned(),
        (true, true) => format!("Cut off with {:.0} per cent woven.", (share * 100.0).floor()),
        (false, _) => format!("{percent:.0} per cent is woven."),
    };
    let day =
        if view.off.line.starts_with("Finished") { view.off.line.clone() } else { view.finish_date.headline.clone() };
    let mut y = 540.0;
    for (text, size) in [(first, 40.0), (day, 40.0)] {
        for line in lines(&text, 46).iter().take(2) {
            let _ = write!(
                out,
                "<text x=\"{EDGE}\" y=\"{y}\" font-family=\"{SANS}\" font-size=\"{size}\" fill=\"{INK}\">{}</text>",
                escape(line)
            );
            y += 56.0;
        }
    }
    out.push_str("</svg>");
    out
}

/// The cloth alone, without waste: of each piece what is woven, and what is still to weave.
fn pieces(view: &LoomView, finished: bool) -> Vec<(f64, f64)> {
    let mut pieces: Vec<(f64, f64)> = Vec::new();
    let mut apart = true;
    for band in &view.picture.bands {
        let mm = band.to_mm - band.from_mm;
        let (woven, left) = match band.kind {
            BandKind::Woven => (mm, 0.0),
            BandKind::ToWeave | BandKind::Missing if !finished => (0.0, mm),
            BandKind::Fringe => {
                apart = true;
                continue;
            }
            _ => continue,
        };
        match pieces.last_mut() {
            Some(piece) if !apart => (piece.0, piece.1) = (piece.0 + woven, piece.1 + left),
            _ => pieces.push((woven, left)),
        }
        apart = false;
    }
    pieces
}

/// Room between two pieces, pixels.
const BETWEEN: f64 = 14.0;
const CLOTH_TOP: f64 = 262.0;
const CLOTH_HIGH: f64 = 190.0;

fn draw(out: &mut String, pieces: &[(f64, f64)], whole: f64) {
    let between = BETWEEN * pieces.len().saturating_sub(1) as f64;
    let scale = (WIDE - 2.0 * EDGE - between).max(1.0) / whole;
    let mut at = EDGE;
    let mut fell = EDGE;
    for (woven, left) in pieces {
        let (done, all) = (woven * scale, (woven + left) * scale);
        let _ = write!(
            out,
            "<rect x=\"{at:.1}\" y=\"{CLOTH_TOP}\" width=\"{all:.1}\" height=\"{CLOTH_HIGH}\" fill=\"url(#ends)\" stroke=\"{WOOD}\" \
             stroke-width=\"2\"/>"
        );
        if done > 0.0 {
            let _ = write!(
                out,
                "<rect x=\"{at:.1}\" y=\"{CLOTH_TOP}\" width=\"{done:.1}\" height=\"{CLOTH_HIGH}\" fill=\"url(#cloth)\" \
                 stroke=\"{WOOD_DARK}\" stroke-width=\"2\"/>"
            );
            fell = at + done;
        }
        at += all + BETWEEN;
    }
    let (top, foot) = (CLOTH_TOP - 14.0, CLOTH_TOP + CLOTH_HIGH + 14.0);
    let _ = write!(
        out,
        "<path d=\"M{fell:.1} {top}V{foot}\" stroke=\"{INK}\" stroke-width=\"9\"/><path d=\"M{fell:.1} {top}V{foot}\" \
         stroke=\"{SAFFRON}\" stroke-width=\"5\"/>"
    );
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_names_are_broken_between_words() {
        assert_eq!(lines("a long name of a warp", 8), ["a long", "name of", "a warp"]);
        assert_eq!(lines("", 8), Vec::<String>::new());
    }
}

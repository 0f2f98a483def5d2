//! A picture of how far a piece is, to send to the one who gets it: its name, the cloth to scale, and the likely day.

use std::fmt::Write;

use crate::chart::escape;
use crate::view::{BandKind, LoomView, WarpState};

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
         <defs><pattern id=\"cloth\" width=\"12\" height=\"12\" patternUnits=\"userSpaceOnUse\"><rect width=\"12\" height=\"12\" \
         fill=\"#b9603a\"/><path d=\"M3 0V12M9 0V12\" stroke=\"#9c4a28\" stroke-width=\"2\"/></pattern>\
         <pattern id=\"ends\" width=\"12\" height=\"12\" patternUnits=\"userSpaceOnUse\"><rect width=\"12\" height=\"12\" \
         fill=\"#fbf8f0\"/><path d=\"M0 3H12M0 9H12\" stroke=\"#8a6642\" stroke-width=\"1.5\"/></pattern></defs>\
         <rect width=\"{WIDE}\" height=\"{HIGH}\" fill=\"#f3eee2\"/>",
        escape(&view.name)
    );
    let mut y = 140.0;
    for line in lines(&view.name, 34).iter().take(2) {
        let _ = write!(
            out,
            "<text x=\"{EDGE}\" y=\"{y}\" font-family=\"{SERIF}\" font-size=\"56\" fill=\"#22302b\">{}</text>",
            escape(line)
        );
        y += 66.0;
    }
    // The cloth alone, without waste: what was woven, and what is still to weave.
    let bands = || view.picture.bands.iter();
    let of = |kinds: &[BandKind]| -> f64 {
        bands().filter(|band| kinds.contains(&band.kind)).map(|band| band.to_mm - band.from_mm).sum()
    };
    let woven = of(&[BandKind::Woven]);
    let finished = view.state == WarpState::OffTheLoom;
    let to_weave = if finished { 0.0 } else { of(&[BandKind::ToWeave, BandKind::Missing]) };
    let whole = (woven + to_weave).max(1.0);
    let span = WIDE - 2.0 * EDGE;
    let fell = EDGE + woven / whole * span;
    let _ = write!(
        out,
        "<rect x=\"{EDGE}\" y=\"300\" width=\"{span:.1}\" height=\"150\" fill=\"url(#ends)\" stroke=\"#8a6642\" stroke-width=\"2\"/>\
         <rect x=\"{EDGE}\" y=\"300\" width=\"{:.1}\" height=\"150\" fill=\"url(#cloth)\" stroke=\"#6b4d30\" stroke-width=\"2\"/>\
         <path d=\"M{fell:.1} 286V464\" stroke=\"#22302b\" stroke-width=\"9\"/><path d=\"M{fell:.1} 286V464\" stroke=\"#f2c14e\" \
         stroke-width=\"5\"/>",
        woven / whole * span
    );
    let percent = if woven > 0.0 { (woven / whole * 100.0).floor().clamp(1.0, 100.0) } else { 0.0 };
    let first = if finished { "All of it is woven.".to_owned() } else { format!("{percent:.0} per cent is woven.") };
    let day = if view.off.line.starts_with("Finished") { view.off.line.clone() } else { view.when.headline.clone() };
    let mut y = 540.0;
    for (text, size) in [(first, 40.0), (day, 40.0)] {
        for line in lines(&text, 46).iter().take(2) {
            let _ = write!(
                out,
                "<text x=\"{EDGE}\" y=\"{y}\" font-family=\"{SANS}\" font-size=\"{size}\" fill=\"#22302b\">{}</text>",
                escape(line)
            );
            y += 56.0;
        }
    }
    out.push_str("</svg>");
    out
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

//! Yarn numbers as labels and shops write them.

use super::number::{Scanner, unreadable};
use super::{DecimalMark, LengthUnit, MassUnit, length, mass};
use crate::error::Refused;
use crate::quantity::{Length, Mass, YarnNumber, YarnSystem};

/// What a system is called on labels.
const NAMES: &[(&str, YarnSystem)] = &[
    ("dtex", YarnSystem::Dtex),
    ("tex", YarnSystem::Tex),
    ("denier", YarnSystem::Denier),
    ("den", YarnSystem::Denier),
    ("nm", YarnSystem::MetricNm),
    ("metric", YarnSystem::MetricNm),
    ("worsted", YarnSystem::Worsted),
    ("nek", YarnSystem::Worsted),
    ("new", YarnSystem::Worsted),
    ("lea", YarnSystem::LinenLea),
    ("nel", YarnSystem::LinenLea),
    ("linen", YarnSystem::LinenLea),
    ("cotton", YarnSystem::EnglishCotton),
    ("nec", YarnSystem::EnglishCotton),
    ("ne", YarnSystem::EnglishCotton),
    ("cut", YarnSystem::WoollenCut),
    ("run", YarnSystem::AmericanRun),
    ("galashiels", YarnSystem::Galashiels),
    ("jute", YarnSystem::JuteSpyndle),
];

/// A yarn number: `30 tex`, `Nm 2/28`, `8/2 cotton`, `20 Ne`, `40 den`, `400 m/100 g`, `3360 yd/lb`, `109 yd in 50 g`.
/// Of two numbers with a slash the smaller is the strands; spun silk's is already the resultant count. A count without
/// a system is read in `default`.
///
/// # Errors
/// If the text names no yarn number, or no sane one.
pub fn yarn_number(text: &str, default: YarnSystem, mark: DecimalMark) -> Result<YarnNumber, Refused> {
    let refuse = |why: String| unreadable("a yarn number", text, why);
    let mut scan = Scanner::new(text).map_err(refuse)?;
    let clean = scan.rest_spaced();
    if let Some((length, mass)) = measured(&clean, mark) {
        return YarnNumber::from_measured(length, mass);
    }
    let mut numbers = Vec::new();
    let mut words: Vec<String> = Vec::new();
    let mut scan = Scanner::new(text).map_err(refuse)?;
    while !scan.at_end() {
        let word = scan.word();
        if !word.is_empty() {
            words.push(word);
        } else if scan.slash() {
            continue;
        } else {
            numbers.push(scan.plain_number(mark).map_err(refuse)?);
        }
    }
    let resultant = words.iter().any(|word| word == "silk");
    words.retain(|word| !matches!(word.as_str(), "silk" | "spun" | "r" | "ply" | "s"));
    let system = match (words.as_slice(), resultant) {
        ([], true) => YarnSystem::EnglishCotton,
        ([], false) => default,
        ([word], _) => NAMES
            .iter()
            .find(|(name, _)| name == word)
            .map(|(_, system)| *system)
            .ok_or_else(|| refuse(format!("\u{201c}{word}\u{201d} is no yarn system known here")))?,
        _ => return Err(refuse("one yarn system is expected".into())),
    };
    match numbers.as_slice() {
        [count] => YarnNumber::new(system, *count),
        [a, b] if resultant => YarnNumber::new(system, a.max(*b)),
        [a, b] => {
            let plies = a.min(*b);
            if plies.fract() != 0.0 || !(1.0..=64.0).contains(&plies) {
                return Err(refuse("the number of strands has to be whole".into()));
            }
            // Whole and at most 64.
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
            YarnNumber::plied(system, a.max(*b), plies as u32)
        }
        _ => Err(refuse("one count, or a count and the strands, is expected".into())),
    }
}

/// "400 m/100 g": a length, a separator, a mass; both with their units, a mass of one may be a bare unit.
fn measured(clean: &str, mark: DecimalMark) -> Option<(Length, Mass)> {
    for between in ["/", " per ", " in ", " = ", "="] {
        let Some((left, right)) = clean.rsplit_once(between) else { continue };
        let left = left.trim();
        if !left.ends_with(|c: char| c.is_alphabetic() || c == '.') {
            continue;
        }
        let right = right.trim();
        let right =
            if right.starts_with(|c: char| c.is_alphabetic()) { format!("1 {right}") } else { right.to_owned() };
        if !right.ends_with(|c: char| c.is_alphabetic() || c == '.') {
            continue;
        }
        if let (Ok(length), Ok(mass)) = (length(left, LengthUnit::M, mark), mass(&right, MassUnit::G, mark)) {
            return Some((length, mass));
        }
    }
    None
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn as_labels_have_it() {
        for (text, tex) in [
            ("30 tex", 30.0),
            ("tex 30", 30.0),
            ("Nm 2/28", 1000.0 / 14.0),
            ("28/2 Nm", 1000.0 / 14.0),
            ("8/2 cotton", 590.541_25 / 4.0),
            ("2/40 worsted", 885.811_87 / 20.0),
            ("spun silk 40/2", 590.541_25 / 40.0),
            ("20 Ne", 590.541_25 / 20.0),
            ("40 den", 40.0 / 9.0),
            ("400 m/100 g", 250.0),
            ("400m/100g", 250.0),
            ("400 m per 100 g", 250.0),
            ("3360 yd/lb", 496_054.65 / 3360.0),
            ("1,000 m / kg", 1000.0),
            ("100 m = 25 g", 250.0),
            ("14", 1000.0 / 14.0),
        ] {
            let mark = if text.starts_with("1,000") { DecimalMark::Comma } else { DecimalMark::Point };
            let got = yarn_number(text, YarnSystem::MetricNm, mark).unwrap().tex();
            let expected = if text.starts_with("1,000") { 1_000_000.0 } else { tex };
            assert!((got / expected - 1.0).abs() < 1e-7, "{text}: {got}");
        }
        assert!(
            (yarn_number("109 yd in 50 g", YarnSystem::Tex, DecimalMark::Point).unwrap().tex() - 501.7).abs() < 0.1
        );
    }

    #[test]
    fn nonsense_is_refused() {
        for text in ["", "thin", "0 Nm", "8/2/2", "8/2 moon", "8 tex nm", "5 m / 0 g", "/", "0/0 Nm", "\u{bd}/\u{bd}"] {
            assert!(yarn_number(text, YarnSystem::MetricNm, DecimalMark::Point).is_err(), "{text}");
        }
    }
}

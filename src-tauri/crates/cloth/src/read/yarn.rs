//! Yarn numbers as labels and shops write them.

use super::number::{Scanner, unreadable};
use super::{DecimalMark, LengthUnit, MassUnit, length, mass};
use crate::error::Refused;
use crate::fibre::Fibre;
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
    ("leas", YarnSystem::LinenLea),
    ("nel", YarnSystem::LinenLea),
    ("nec", YarnSystem::EnglishCotton),
    ("ne", YarnSystem::EnglishCotton),
    ("cut", YarnSystem::WoollenCut),
    ("run", YarnSystem::AmericanRun),
    ("skein", YarnSystem::YorkshireSkein),
    ("galashiels", YarnSystem::Galashiels),
    ("jute", YarnSystem::JuteSpyndle),
    ("ypp", YarnSystem::YardsPerPound),
];

/// Words on labels that say nothing about the number.
const BESIDES: &[&str] = &[
    "ply",
    "s",
    "yarn",
    "spun",
    "organic",
    "mercerised",
    "mercerized",
    "unmercerised",
    "unmercerized",
    "perle",
    "pearl",
    "combed",
    "carded",
    "superwash",
    "natural",
    "bleached",
    "unbleached",
    "undyed",
    "dyed",
    "warp",
    "weft",
];

/// How the system of a yarn number was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SystemFrom {
    /// It is written.
    Label,
    /// None is written; it is the usual one for the fibre that is.
    Fibre(Fibre),
    /// Neither is written: a bare number.
    Default,
}

/// A yarn number as it was read from a label.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct YarnLabel {
    /// How fine the yarn is, all strands together.
    pub number: YarnNumber,
    /// The system it was read in.
    pub system: YarnSystem,
    /// The count as written: of one strand, or of the whole yarn where `plies` is none. `None` where a length and a weight are
    /// written.
    pub count: Option<f64>,
    /// The strands as written.
    pub plies: Option<u32>,
    /// Whether the count is of the whole yarn although strands are named: "R 60 tex/2", spun silk.
    pub resultant: bool,
    /// How the system was found.
    pub system_from: SystemFrom,
}

/// A yarn number: `30 tex`, `Nm 2/28`, `8/2 cotton`, `20 Ne`, `40 den`, `400 m/100 g`, `3360 yd/lb`, `1700 ypp`, `109 yd in 50 g`,
/// `100 g in 400 m`, `R 60 tex/2`. As [`yarn_label`].
///
/// # Errors
/// As [`yarn_label`].
pub fn yarn_number(text: &str, default: YarnSystem, mark: DecimalMark) -> Result<YarnNumber, Refused> {
    yarn_label(text, default, mark).map(|label| label.number)
}

/// A yarn number with how it was understood. Of two numbers with a slash the smaller is the strands; the count of spun silk and of
/// a resultant number ("R 60 tex/2", ISO 1139) is that of the whole yarn. A number without system and fibre is read in `default`;
/// what [`crate::write::yarn_label`] writes reads back.
///
/// # Errors
/// If the text names no yarn number, or no sane one; if it is a count and strands whose system can't be told; or if a bare number
/// makes a yarn that nobody weaves with.
pub fn yarn_label(text: &str, default: YarnSystem, mark: DecimalMark) -> Result<YarnLabel, Refused> {
    let refuse = |why: String| unreadable("a yarn number", text, why);
    // Behind a colon, or a comma that is no decimal mark, the program says what the number comes to.
    let written = text.split_once(':').or_else(|| text.split_once(", ")).map_or(text, |(before, _)| before);
    let clean = Scanner::new(written).map_err(refuse)?.rest_spaced();
    if let Some((length, mass)) = measured(&clean, mark) {
        let number = YarnNumber::from_measured(length, mass)?;
        let system_from = SystemFrom::Label;
        return Ok(YarnLabel {
            number,
            system: YarnSystem::Tex,
            count: None,
            plies: None,
            resultant: false,
            system_from,
        });
    }
    let words = Words::scan(written, mark).map_err(refuse)?;
    let (system, system_from) = words.system(default).map_err(refuse)?;
    let label = |number, count, plies, resultant| YarnLabel {
        number,
        system,
        count: Some(count),
        plies,
        resultant,
        system_from,
    };
    let found = match words.numbers.as_slice() {
        [count] => label(YarnNumber::new(system, *count)?, *count, None, words.resultant),
        [a, b] => {
            let (count, plies) = (a.max(*b), a.min(*b));
            if plies.fract() != 0.0 || !(1.0..=64.0).contains(&plies) {
                return Err(refuse("the number of strands has to be whole".into()));
            }
            // Whole and at most 64.
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
            let plies = plies as u32;
            let number = if words.resultant || words.spun_silk(system) {
                YarnNumber::new(system, count)?
            } else {
                YarnNumber::plied(system, count, plies)?
            };
            label(number, count, Some(plies), words.resultant || words.spun_silk(system))
        }
        _ => return Err(refuse("one count, or a count and the strands, is expected".into())),
    };
    if system_from == SystemFrom::Default && found.plies.is_some() {
        let fraction = clean.replace(' ', "");
        return Err(refuse(format!(
            "the same numbers stand for different yarns; say which count it is, such as {fraction} cotton, {fraction} linen, \
             {fraction} worsted or {fraction} Nm"
        )));
    }
    if system_from == SystemFrom::Default && !found.number.is_usual() {
        return Err(refuse(format!(
            "as a bare number it would be yarn of {:.0} tex, which nobody weaves with; say which count it is",
            found.number.tex()
        )));
    }
    Ok(found)
}

/// The numbers and words of a label.
struct Words {
    numbers: Vec<f64>,
    systems: Vec<YarnSystem>,
    fibres: Vec<Fibre>,
    spun: bool,
    resultant: bool,
}

impl Words {
    fn scan(text: &str, mark: DecimalMark) -> Result<Self, String> {
        let mut scan = Scanner::new(text)?;
        let mut found =
            Self { numbers: Vec::new(), systems: Vec::new(), fibres: Vec::new(), spun: false, resultant: false };
        while !scan.at_end() {
            let word = scan.word();
            if word.is_empty() {
                if !scan.slash() {
                    found.numbers.push(scan.plain_number(mark)?);
                }
            } else if let Some((_, system)) = NAMES.iter().find(|(name, _)| *name == word) {
                if !found.systems.contains(system) {
                    found.systems.push(*system);
                }
            } else if let Some(fibre) = Fibre::from_word(&word) {
                if !found.fibres.contains(&fibre) {
                    found.fibres.push(fibre);
                }
            } else if word == "r" {
                found.resultant = true;
            } else if word == "x" {
                // "30 tex x 2": strands, as behind a slash.
            } else if BESIDES.contains(&word.as_str()) {
                found.spun |= word == "spun";
            } else {
                return Err(format!("\u{201c}{word}\u{201d} is no yarn system known here"));
            }
        }
        Ok(found)
    }

    fn system(&self, default: YarnSystem) -> Result<(YarnSystem, SystemFrom), String> {
        match (self.systems.as_slice(), self.fibres.as_slice()) {
            // "Ne" is said of linen and of worsted too, with their own hanks.
            ([YarnSystem::EnglishCotton, other] | [other, YarnSystem::EnglishCotton], _)
                if matches!(other, YarnSystem::LinenLea | YarnSystem::Worsted) =>
            {
                Ok((*other, SystemFrom::Label))
            }
            ([YarnSystem::EnglishCotton], [Fibre::Linen | Fibre::Cottolin]) => {
                Ok((YarnSystem::LinenLea, SystemFrom::Label))
            }
            ([YarnSystem::EnglishCotton], [Fibre::Wool]) => {
                Err("English counts of wool are worsted, cut, run or skein; say which".into())
            }
            ([system], _) => Ok((*system, SystemFrom::Label)),
            ([], [Fibre::Silk]) if self.spun => Ok((YarnSystem::EnglishCotton, SystemFrom::Fibre(Fibre::Silk))),
            ([], [fibre]) => match fibre.usual_system() {
                Some(system) => Ok((system, SystemFrom::Fibre(*fibre))),
                None => Err("this fibre is counted in more than one system; say Nm, worsted, tex or m/100 g".into()),
            },
            ([], []) => Ok((default, SystemFrom::Default)),
            ([], _) => {
                Err("a blend is counted in more than one system; say Nm, cotton count (Ne), lea, tex or m/100 g".into())
            }
            _ => Err("one yarn system is expected".into()),
        }
    }

    /// Spun silk in English hanks, whose count is that of the whole yarn.
    fn spun_silk(&self, system: YarnSystem) -> bool {
        self.spun && self.fibres.contains(&Fibre::Silk) && system == YarnSystem::EnglishCotton
    }
}

/// "400 m/100 g", "100 g in 400 m": a length and a mass; both with their units, one of a unit may be the bare unit.
fn measured(clean: &str, mark: DecimalMark) -> Option<(Length, Mass)> {
    let ends_in_unit = |text: &str| text.ends_with(|c: char| c.is_alphabetic() || c == '.' || c == '#');
    for between in ["/", " per ", " in ", " = ", "="] {
        let Some((left, right)) = clean.rsplit_once(between) else { continue };
        let (left, right) = (left.trim(), right.trim());
        let one = right.starts_with(|c: char| c.is_alphabetic());
        let right = if one { format!("1 {right}") } else { right.to_owned() };
        if !ends_in_unit(left) || !ends_in_unit(&right) {
            continue;
        }
        let read_length = |text: &str| length(text, LengthUnit::M, mark);
        let read_mass = |text: &str| mass(text, MassUnit::G, mark);
        if let (Ok(length), Ok(mass)) = (read_length(left), read_mass(&right)) {
            return Some((length, mass));
        }
        if let (Ok(mass), Ok(length)) = (read_mass(left), read_length(&right)) {
            return Some((length, mass));
        }
    }
    None
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn tex(text: &str) -> f64 {
        yarn_number(text, YarnSystem::MetresPer100g, DecimalMark::Point).unwrap().tex()
    }

    #[test]
    fn as_labels_have_it() {
        // tex = constant / count, times the strands; constants of ASTM D2260-03(2013) Table 1.
        for (text, expected) in [
            ("30 tex", 30.0),
            ("tex 30", 30.0),
            ("tex 30 x 2", 60.0),
            ("R 60 tex/2", 60.0),
            ("Nm 2/28", 1000.0 / 14.0),
            ("28/2 Nm", 1000.0 / 14.0),
            ("Nm 2/28 merino", 1000.0 / 14.0),
            ("8/2 cotton", 590.541_25 / 4.0),
            ("2/8 unmercerised cotton", 590.541_25 / 4.0),
            ("2/40 worsted", 885.811_87 / 20.0),
            ("spun silk 40/2", 590.541_25 / 40.0),
            ("60/2 Nm silk", 1000.0 / 30.0),
            ("20/2 silk", 100.0),
            ("8/2 tencel", 590.541_25 / 4.0),
            ("30/2 linen lea", 1_653.515_5 / 15.0),
            ("16/1 NeL", 1_653.515_5 / 16.0),
            ("Ne 16/1 linen", 1_653.515_5 / 16.0),
            ("16/2 linen", 1_653.515_5 / 8.0),
            ("20 Ne", 590.541_25 / 20.0),
            ("40 den", 40.0 / 9.0),
            ("400 m/100 g", 250.0),
            ("400m/100g", 250.0),
            ("400 m per 100 g", 250.0),
            ("100 g in 400 m", 250.0),
            ("50 g = 125 m", 400.0),
            ("3360 yd/lb", 496_054.65 / 3360.0),
            ("1700 ypp", 496_054.65 / 1700.0),
            ("6.8 m/g", 1000.0 / 6.8),
            ("100 m = 25 g", 250.0),
            ("400", 250.0),
        ] {
            assert!((tex(text) / expected - 1.0).abs() < 1e-7, "{text}: {}", tex(text));
        }
        assert!((tex("109 yd in 50 g") - 501.7).abs() < 0.1);
        let comma = yarn_number("1,000 m / kg", YarnSystem::MetricNm, DecimalMark::Comma).unwrap();
        assert!((comma.tex() - 1e6).abs() < 1e-3);
    }

    #[test]
    fn a_count_without_a_system_asks_for_it() {
        for (text, why) in [
            ("8/2", "8/2 cotton, 8/2 linen, 8/2 worsted or 8/2 Nm"),
            ("2/8", "say which count it is"),
            ("20/2", "say which count it is"),
            ("2/28 wool", "say Nm, worsted"),
            ("2/28 Ne wool", "worsted, cut, run or skein"),
            ("22/2 cotton linen", "a blend"),
            ("8", "12500 tex, which nobody weaves with"),
        ] {
            let refused = yarn_label(text, YarnSystem::MetresPer100g, DecimalMark::Point).unwrap_err().to_string();
            assert!(refused.contains(why), "{text}: {refused}");
        }
    }

    #[test]
    fn what_is_unusual_is_known_to_be() {
        let usual = |text| yarn_label(text, YarnSystem::MetresPer100g, DecimalMark::Point).unwrap().number.is_usual();
        for text in ["120/2 Nm silk", "8/2 cotton", "60 m/100 g", "200 m/kg"] {
            assert!(usual(text), "{text}");
        }
        for text in ["8 m/100 g", "30 dtex", "2 tex"] {
            assert!(!usual(text), "{text}");
        }
    }

    #[test]
    fn nonsense_is_refused() {
        for text in ["", "thin", "0 Nm", "8/2/2", "8/2 moon", "8 tex nm", "5 m / 0 g", "/", "0/0 Nm", "\u{bd}/\u{bd}"] {
            assert!(yarn_number(text, YarnSystem::MetricNm, DecimalMark::Point).is_err(), "{text}");
        }
    }
}

//! Measures as people write them: `72`, `72"`, `72 1/2 in`, `6'2"`, `1,85 m`, `14⅜`, `400 m/100 g`, `8/2 cotton`.
//!
//! Nothing here panics, whatever the text; what can't be understood is refused with a sentence that says why.

mod number;
mod yarn;

use number::Scanner;

use crate::error::Refused;
use crate::quantity::{Length, Mass, ThreadDensity};
pub use yarn::{SystemFrom, YarnLabel, yarn_label, yarn_number};

/// The sign between units and tenths, by the person's locale.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum DecimalMark {
    /// 1.85
    #[default]
    Point,
    /// 1,85
    Comma,
}

/// Units of length that are understood and shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LengthUnit {
    /// Millimetres.
    Mm,
    /// Centimetres.
    Cm,
    /// Metres.
    M,
    /// Inches.
    Inch,
    /// Feet (shown as feet and inches).
    Foot,
    /// Yards.
    Yard,
}

impl LengthUnit {
    /// One of it in millimetres.
    pub fn mm(self) -> f64 {
        match self {
            Self::Mm => 1.0,
            Self::Cm => 10.0,
            Self::M => 1000.0,
            Self::Inch => 25.4,
            Self::Foot => 304.8,
            Self::Yard => 914.4,
        }
    }

    fn from_word(word: &str) -> Option<Self> {
        Some(match word {
            "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => Self::Mm,
            "cm" | "centimetre" | "centimetres" | "centimeter" | "centimeters" => Self::Cm,
            "m" | "metre" | "metres" | "meter" | "meters" => Self::M,
            "\"" | "in" | "ins" | "inch" | "inches" => Self::Inch,
            "'" | "ft" | "foot" | "feet" => Self::Foot,
            "yd" | "yds" | "yard" | "yards" => Self::Yard,
            _ => return None,
        })
    }
}

/// Units of mass that are understood and shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum MassUnit {
    /// Grams.
    G,
    /// Kilograms.
    Kg,
    /// Ounces.
    Ounce,
    /// Pounds.
    Pound,
}

impl MassUnit {
    /// One of it in grams.
    pub fn g(self) -> f64 {
        match self {
            Self::G => 1.0,
            Self::Kg => 1000.0,
            Self::Ounce => 453.592_37 / 16.0,
            Self::Pound => 453.592_37,
        }
    }

    fn from_word(word: &str) -> Option<Self> {
        Some(match word {
            "g" | "gr" | "gm" | "gms" | "gram" | "grams" | "gramme" | "grammes" => Self::G,
            "kg" | "kgs" | "kilo" | "kilos" | "kilogram" | "kilograms" => Self::Kg,
            "oz" | "ozs" | "ounce" | "ounces" => Self::Ounce,
            "lb" | "lbs" | "pound" | "pounds" | "#" => Self::Pound,
            _ => return None,
        })
    }
}

/// Units of thread count that are understood and shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum DensityUnit {
    /// Per inch.
    PerInch,
    /// Per centimetre.
    PerCm,
    /// Per 10 cm.
    Per10Cm,
}

/// A length. A number without a unit is in `default`; after feet it is inches, after metres centimetres.
///
/// # Errors
/// If the text is no length, or no sane one.
pub fn length(text: &str, default: LengthUnit, mark: DecimalMark) -> Result<Length, Refused> {
    let refuse = |why: String| number::unreadable("a length", text, why);
    let mut scan = Scanner::new(text).map_err(refuse)?;
    let mut total = 0.0;
    let mut last: Option<LengthUnit> = None;
    loop {
        let value = scan.number(mark).map_err(refuse)?;
        let word = scan.word();
        let unit = match (word.as_str(), last) {
            ("", None) if scan.at_end() => default,
            ("", Some(LengthUnit::Foot)) if scan.at_end() => LengthUnit::Inch,
            ("", Some(LengthUnit::M)) if scan.at_end() => LengthUnit::Cm,
            ("", _) => return Err(refuse("the numbers need their units".into())),
            (word, _) => LengthUnit::from_word(word)
                .ok_or_else(|| refuse(format!("\u{201c}{word}\u{201d} is no unit of length known here")))?,
        };
        if last.is_some_and(|last| unit.mm() >= last.mm()) {
            return Err(refuse("the larger unit comes first".into()));
        }
        total += value * unit.mm();
        last = Some(unit);
        if scan.at_end() {
            return Length::from_mm(total);
        }
    }
}

/// A mass; several units in a row add, "1 lb 4 oz".
///
/// # Errors
/// If the text is no mass, or no sane one.
pub fn mass(text: &str, default: MassUnit, mark: DecimalMark) -> Result<Mass, Refused> {
    let refuse = |why: String| number::unreadable("a weight", text, why);
    let mut scan = Scanner::new(text).map_err(refuse)?;
    let mut total = 0.0;
    let mut last: Option<MassUnit> = None;
    loop {
        let value = scan.number(mark).map_err(refuse)?;
        let word = scan.word();
        let unit = match (word.as_str(), last) {
            ("", None) if scan.at_end() => default,
            ("", Some(MassUnit::Pound)) if scan.at_end() => MassUnit::Ounce,
            ("", _) => return Err(refuse("the numbers need their units".into())),
            (word, _) => MassUnit::from_word(word)
                .ok_or_else(|| refuse(format!("\u{201c}{word}\u{201d} is no unit of weight known here")))?,
        };
        if last.is_some_and(|last| unit.g() >= last.g()) {
            return Err(refuse("the larger unit comes first".into()));
        }
        total += value * unit.g();
        last = Some(unit);
        if scan.at_end() {
            return Mass::from_g(total);
        }
    }
}

/// A thread count: `10`, `10 epi`, `12 1/2 epi`, `10 ends per inch`, `12.5 dent`, `4 per cm`, `40/10` and `40/10 heddle` (metric
/// heddles and reeds). Dents are read as a rigid heddle's: its number is its ends per inch.
///
/// # Errors
/// If the text is no thread count, or no sane one.
pub fn density(text: &str, default: DensityUnit, mark: DecimalMark) -> Result<ThreadDensity, Refused> {
    let refuse = |why: String| number::unreadable("a thread count", text, why);
    let mut scan = Scanner::new(text).map_err(refuse)?;
    scan.skip_words(THREADS_ARE);
    let value = scan.mixed_number(mark).map_err(refuse)?;
    let rest = scan.rest_spaced();
    let named = rest.split([' ', '-', '.']).filter(|word| !word.is_empty());
    let words: Vec<&str> = named.filter(|word| !THREADS_ARE.contains(word)).collect();
    let unit = match words.concat().as_str() {
        "" if rest.contains("dent") => DensityUnit::PerInch,
        "" => default,
        "epi" | "ppi" | "wpi" | "dpi" | "tpi" | "perinch" | "perin" | "aninch" | "totheinch" | "/in" | "/inch"
        | "/\"" => DensityUnit::PerInch,
        "percm" | "/cm" | "epc" | "ppc" | "acm" => DensityUnit::PerCm,
        "per10cm" | "/10" | "/10cm" | "/dm" | "perdm" => DensityUnit::Per10Cm,
        _ => return Err(refuse("say per inch, per cm or per 10 cm".into())),
    };
    match unit {
        DensityUnit::PerInch => ThreadDensity::from_per_inch(value),
        DensityUnit::PerCm => ThreadDensity::from_per_cm(value),
        DensityUnit::Per10Cm => ThreadDensity::from_per_10cm(value),
    }
}

/// Words beside a thread count that say what the threads are, not over which length they are counted.
const THREADS_ARE: &[&str] =
    &["ends", "end", "picks", "pick", "threads", "wraps", "dents", "dent", "sett", "heddle", "reed", "rigid", "metric"];

/// Per cents, with or without the sign: `10`, `10 %`, `7,5%`, `-2.7`.
///
/// # Errors
/// If the text is no number, or beyond ±1000 %.
pub fn percent(text: &str, mark: DecimalMark) -> Result<f64, Refused> {
    let refuse = |why: String| number::unreadable("a share", text, why);
    let mut scan = Scanner::new(text).map_err(refuse)?;
    let negative = scan.minus();
    let value = scan.number(mark).map_err(refuse)?;
    match scan.rest_without_spaces().as_str() {
        "" | "%" | "percent" | "pc" => {}
        _ => return Err(refuse("only a number and % are expected".into())),
    }
    crate::error::share("a share", value / 100.0, 0.0, 10.0)?;
    Ok(if negative { -value } else { value })
}

/// A whole number of things: picks, ends, pieces; a minus is taken (picks unwoven).
///
/// # Errors
/// If the text is no whole number, or beyond ten million.
pub fn whole_number(text: &str) -> Result<i64, Refused> {
    let refuse = |why: String| number::unreadable("a whole number", text, why);
    let mut scan = Scanner::new(text).map_err(refuse)?;
    let negative = scan.minus();
    let value = scan.number(DecimalMark::Point).map_err(refuse)?;
    if !scan.at_end() {
        return Err(refuse("only a number is expected".into()));
    }
    if value.fract() != 0.0 {
        return Err(refuse("it has to be whole".into()));
    }
    if value > 1e7 {
        return Err(refuse("that is more than ten million".into()));
    }
    // Whole and at most ten million: exact.
    #[allow(clippy::cast_possible_truncation)]
    let whole = value as i64;
    Ok(if negative { -whole } else { whole })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn inches(text: &str) -> f64 {
        length(text, LengthUnit::Inch, DecimalMark::Point).unwrap().inches()
    }

    #[test]
    fn lengths_as_people_write_them() {
        for (text, expected) in [
            ("72", 72.0),
            ("72\"", 72.0),
            ("72\u{201d}", 72.0),
            ("72''", 72.0),
            ("72 1/2 in", 72.5),
            ("72-1/2\"", 72.5),
            ("6 ft", 72.0),
            ("6'2\"", 74.0),
            ("6\u{2032} 2\u{2033}", 74.0),
            ("6' 2", 74.0),
            ("6 ft 2 1/2 in", 74.5),
            ("6 ft. 2 in.", 74.0),
            ("14 3/8", 14.375),
            ("14\u{215c}", 14.375),
            ("14 \u{215c}\"", 14.375),
            ("\u{bd} in", 0.5),
            ("3/4", 0.75),
            ("14 3\u{2044}8", 14.375),
            ("2 yd", 72.0),
            ("2 yards 6 inches", 78.0),
            (".5", 0.5),
            ("72.", 72.0),
            ("5.375", 5.375),
        ] {
            assert!((inches(text) - expected).abs() < 1e-9, "{text}: {}", inches(text));
        }
        for (text, cm) in [
            ("1.85 m", 185.0),
            ("1,85 m", 185.0),
            ("185 cm", 185.0),
            ("1850mm", 185.0),
            ("1 m 85", 185.0),
            ("1 m 85 cm", 185.0),
            ("13.6cm", 13.6),
            ("1,234.5 mm", 123.45),
            ("1.234,5 mm", 123.45),
            ("\u{a0}185\u{202f}cm ", 185.0),
            ("185 CM", 185.0),
        ] {
            assert!((inches(text) * 2.54 - cm).abs() < 1e-9, "{text}");
        }
    }

    #[test]
    fn what_is_no_length_is_refused_with_a_reason() {
        for (text, why) in [
            ("", "nothing is written"),
            ("long", "a number is expected"),
            ("-5", "less than nothing"),
            ("6 2", "units"),
            ("6 in 2 ft", "larger unit comes first"),
            ("3/0", "nothing can be divided by zero"),
            ("5 parsecs", "no unit of length"),
            ("1.2.3.4", "more than one decimal mark"),
            ("1e9", "no unit of length"),
            ("9999999999999999999999", "too much to be meant"),
            ("1,850 m", "1850"),
            ("inf", "a number is expected"),
            ("NaN", "a number is expected"),
        ] {
            let error = length(text, LengthUnit::Inch, DecimalMark::Point).unwrap_err().to_string();
            assert!(error.contains(why), "{text}: {error}");
        }
        let long = "9".repeat(5000);
        assert!(length(&long, LengthUnit::Mm, DecimalMark::Point).unwrap_err().to_string().len() < 200);
    }

    #[test]
    fn a_comma_before_three_digits_is_decimal_only_where_that_is_the_custom() {
        assert!(length("1,850 m", LengthUnit::M, DecimalMark::Point).is_err());
        assert!((length("1,850 m", LengthUnit::M, DecimalMark::Comma).unwrap().m() - 1.85).abs() < 1e-12);
        assert!(length("1.850 m", LengthUnit::M, DecimalMark::Comma).is_err());
        assert!((length("0,125 m", LengthUnit::M, DecimalMark::Point).unwrap().m() - 0.125).abs() < 1e-12);
    }

    #[test]
    fn masses_densities_and_the_rest() {
        let g = |text| mass(text, MassUnit::G, DecimalMark::Point).unwrap().g();
        assert_eq!(g("118"), 118.0);
        assert_eq!(g("0,5 kg"), 500.0);
        assert!((g("1 lb 4 oz") - 453.592_37 * 1.25).abs() < 1e-9);
        assert!((g("3 1/2 oz") - 99.223_330_937_5).abs() < 1e-9);
        let d = |text| density(text, DensityUnit::PerInch, DecimalMark::Point).unwrap().per_inch();
        assert!((d("10") - 10.0).abs() < 1e-9 && (d("12.5 epi") - 12.5).abs() < 1e-9);
        assert!((d("40/10") - 10.16).abs() < 1e-9 && (d("40 per 10 cm") - 10.16).abs() < 1e-9);
        assert!((d("4/cm") - 10.16).abs() < 1e-9);
        for (text, per_inch) in [
            ("12 1/2 epi", 12.5),
            ("12\u{bd} epi", 12.5),
            ("12-1/2 epi", 12.5),
            ("10 ends per inch", 10.0),
            ("12.5 dent", 12.5),
            ("12.5-dent heddle", 12.5),
            ("10 dpi", 10.0),
            ("10 dents per inch", 10.0),
            ("40/10 heddle", 10.16),
            ("heddle 40/10", 10.16),
            ("40/10 rigid heddle", 10.16),
            ("24 wraps per inch", 24.0),
            ("4 ends per cm", 10.16),
        ] {
            assert!((d(text) - per_inch).abs() < 1e-9, "{text}: {}", d(text));
        }
        assert!(
            (density("12.5 dent", DensityUnit::Per10Cm, DecimalMark::Point).unwrap().per_inch() - 12.5).abs() < 1e-9
        );
        assert!(density("10 bananas per inch", DensityUnit::PerInch, DecimalMark::Point).is_err());
        assert!(density("0", DensityUnit::PerInch, DecimalMark::Point).is_err());
        assert_eq!(percent("-2,7 %", DecimalMark::Point).unwrap(), -2.7);
        assert_eq!(whole_number("-12").unwrap(), -12);
        assert_eq!(whole_number("1 1/2").unwrap_err().to_string().split(": ").last().unwrap(), "it has to be whole");
    }
}

//! Measures shown in the unit chosen, fractions of an inch as a tape has them.
//!
//! What is written here reads back through [`crate::read`] to within half of the last place shown.

use crate::quantity::{ClothWeight, Length, LengthBalance, Mass, ThreadDensity, YarnNumber, YarnSystem};
use crate::read::{DecimalMark, DensityUnit, LengthUnit, MassUnit, YarnLabel};

/// How finely inches are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum InchFraction {
    /// To the quarter.
    Quarter,
    /// To the eighth.
    Eighth,
    /// To the sixteenth, the finest of a sewing tape.
    #[default]
    Sixteenth,
    /// Decimal, two places.
    Decimal,
}

impl InchFraction {
    fn parts(self) -> Option<u64> {
        match self {
            Self::Quarter => Some(4),
            Self::Eighth => Some(8),
            Self::Sixteenth => Some(16),
            Self::Decimal => None,
        }
    }
}

/// How measures are to be shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize)]
pub struct Shown {
    /// The unit of length.
    pub unit: LengthUnit,
    /// Fractions of an inch.
    pub fraction: InchFraction,
    /// The decimal mark.
    pub mark: DecimalMark,
}

/// The measures a person lives with, where the unit follows from the size.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Measures {
    /// Centimetres, metres, grams, per 10 cm.
    #[default]
    Metric,
    /// Inches, yards, ounces, per inch.
    Imperial,
}

/// A number with at most so many decimals, trailing zeros left off. Never "-0".
pub fn number(value: f64, decimals: usize, mark: DecimalMark) -> String {
    let mut text = format!("{value:.decimals$}");
    if text.contains('.') {
        text.truncate(text.trim_end_matches('0').trim_end_matches('.').len());
    }
    if text == "-0" {
        text = "0".into();
    }
    if mark == DecimalMark::Comma { text.replace('.', ",") } else { text }
}

/// A length in the unit chosen: `1850 mm`, `185 cm`, `1.85 m`, `72 13/16 in`, `6 ft 13/16 in`, `2.023 yd`.
pub fn length(length: Length, shown: Shown) -> String {
    let mark = shown.mark;
    match shown.unit {
        LengthUnit::Mm => format!("{} mm", number(length.mm(), 0, mark)),
        LengthUnit::Cm => format!("{} cm", number(length.cm(), 1, mark)),
        LengthUnit::M => format!("{} m", number(length.m(), 3, mark)),
        LengthUnit::Yard => format!("{} yd", number(length.yards(), 3, mark)),
        LengthUnit::Inch => format!("{} in", inches(length.inches(), shown)),
        LengthUnit::Foot => {
            // Rounded first, so that 11.99 in does not become "12 in" under 5 ft.
            let parts = shown.fraction.parts().unwrap_or(100);
            // Precision enough for any loom: 10 000 km are 6·10⁹ sixteenths.
            #[allow(clippy::cast_precision_loss)]
            let rounded = (length.inches() * parts as f64).round() / parts as f64;
            let feet = (rounded / 12.0).floor();
            let rest = rounded - feet * 12.0;
            match (feet > 0.0, rest > 1e-9) {
                (true, false) => format!("{} ft", number(feet, 0, mark)),
                (true, true) => format!("{} ft {} in", number(feet, 0, mark), inches(rest, shown)),
                (false, _) => format!("{} in", inches(rest, shown)),
            }
        }
    }
}

fn inches(value: f64, shown: Shown) -> String {
    let Some(parts) = shown.fraction.parts() else { return number(value, 2, shown.mark) };
    // At most 6·10⁹, and not negative.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, clippy::cast_precision_loss)]
    let total = (value.max(0.0) * parts as f64).round() as u64;
    let (whole, mut above, mut below) = (total / parts, total % parts, parts);
    while above > 0 && above.is_multiple_of(2) {
        above /= 2;
        below /= 2;
    }
    match (whole, above) {
        (_, 0) => format!("{whole}"),
        (0, _) => format!("{above}/{below}"),
        _ => format!("{whole} {above}/{below}"),
    }
}

/// A length in the measures the weaver lives with: cm up to 10 m, then metres; inches up to 144, then yards.
pub fn length_in(value: Length, measures: Measures, mark: DecimalMark) -> String {
    let unit = match measures {
        Measures::Metric if value.m() < 10.0 => LengthUnit::Cm,
        Measures::Metric => LengthUnit::M,
        Measures::Imperial if value.inches() < 144.0 => LengthUnit::Inch,
        Measures::Imperial => LengthUnit::Yard,
    };
    length(value, Shown { unit, fraction: InchFraction::Eighth, mark })
}

/// What is over or short, in words: "12 cm over", "3 in short", "just enough".
pub fn balance(value: LengthBalance, measures: Measures, mark: DecimalMark) -> String {
    if value.over().mm() >= 0.5 {
        format!("{} over", length_in(value.over(), measures, mark))
    } else if value.short().mm() >= 0.5 {
        format!("{} short", length_in(value.short(), measures, mark))
    } else {
        "just enough".into()
    }
}

/// A mass: `118 g`, `1.25 kg`, `4.16 oz`, `1.25 lb`.
pub fn mass(mass: Mass, unit: MassUnit, mark: DecimalMark) -> String {
    match unit {
        MassUnit::G => format!("{} g", number(mass.g(), 1, mark)),
        MassUnit::Kg => format!("{} kg", number(mass.kg(), 3, mark)),
        MassUnit::Ounce => format!("{} oz", number(mass.ounces(), 2, mark)),
        MassUnit::Pound => format!("{} lb", number(mass.pounds(), 3, mark)),
    }
}

/// A thread count: `10 per inch`, `4 per cm`, `40 per 10 cm`.
pub fn density(density: ThreadDensity, unit: DensityUnit, mark: DecimalMark) -> String {
    match unit {
        DensityUnit::PerInch => format!("{} per inch", number(density.per_inch(), 2, mark)),
        DensityUnit::PerCm => format!("{} per cm", number(density.per_cm(), 2, mark)),
        DensityUnit::Per10Cm => format!("{} per 10 cm", number(density.per_10cm(), 1, mark)),
    }
}

/// A yarn number with the words that [`crate::read::yarn_number`] takes for its system; tex where it has none.
pub fn yarn_number(yarn: YarnNumber, system: YarnSystem, mark: DecimalMark) -> String {
    let decimals = match system {
        YarnSystem::Dtex | YarnSystem::Denier | YarnSystem::MetresPer100g | YarnSystem::YardsPerOunce => 1,
        YarnSystem::MetresPerKg | YarnSystem::YardsPerPound => 0,
        _ if system_words(system) == TEX => 2,
        _ => 3,
    };
    let count = if system_words(system) == TEX { yarn.tex() } else { yarn.count_in(system) };
    format!("{} {}", number(count, decimals, mark), system_words(system))
}

const TEX: &str = "tex";

/// The words that the reader takes for a system; tex where it has none.
fn system_words(system: YarnSystem) -> &'static str {
    match system {
        YarnSystem::Dtex => "dtex",
        YarnSystem::Denier => "den",
        YarnSystem::MetricNm => "Nm",
        YarnSystem::MetresPer100g => "m/100 g",
        YarnSystem::MetresPerKg => "m/kg",
        YarnSystem::YardsPerPound => "yd/lb",
        YarnSystem::YardsPerOunce => "yd/oz",
        YarnSystem::EnglishCotton => "cotton",
        YarnSystem::Worsted => "worsted",
        YarnSystem::LinenLea => "lea",
        YarnSystem::WoollenCut => "cut",
        YarnSystem::AmericanRun => "run",
        YarnSystem::YorkshireSkein => "skein",
        YarnSystem::Galashiels => "galashiels",
        YarnSystem::JuteSpyndle => "jute",
        _ => TEX,
    }
}

/// A yarn's label as it was understood, with what it comes to: `8/2 cotton: 148 tex, 6.8 m/g`. Reads back as the same yarn
/// through [`crate::read::yarn_label`], and each of the two figures behind the colon to within half of its last place.
pub fn yarn_label(label: &YarnLabel, measures: Measures, mark: DecimalMark) -> String {
    let yarn = label.number;
    let tex = number(yarn.tex(), places(yarn.tex()), mark);
    let length = match measures {
        Measures::Metric => {
            let per_g = yarn.count_in(YarnSystem::MetricNm);
            format!("{} m/g", number(per_g, places(per_g), mark))
        }
        Measures::Imperial => yarn_number(yarn, YarnSystem::YardsPerPound, mark),
    };
    let figures = format!("{tex} tex, {length}");
    let Some(count) = label.count else { return figures };
    let strands = label.plies.map_or_else(String::new, |plies| format!("/{plies}"));
    let count = number(count, 4, mark);
    let written = match (label.system, label.resultant, label.plies) {
        (YarnSystem::EnglishCotton, true, Some(_)) => format!("{count}{strands} spun silk"),
        (system, true, _) => format!("R {count}{strands} {}", system_words(system)),
        (system, false, _) => format!("{count}{strands} {}", system_words(system)),
    };
    format!("{written}: {figures}")
}

/// Decimals with which a figure is shown to two places or better.
fn places(value: f64) -> usize {
    match value {
        v if v >= 100.0 => 0,
        v if v >= 1.0 => 1,
        v if v >= 0.1 => 2,
        _ => 4,
    }
}

/// A cloth weight: `198 g/m²`, `5.84 oz/yd²`.
pub fn cloth_weight(weight: ClothWeight, measures: Measures, mark: DecimalMark) -> String {
    match measures {
        Measures::Metric => format!("{} g/m\u{b2}", number(weight.g_per_m2(), 0, mark)),
        Measures::Imperial => format!("{} oz/yd\u{b2}", number(weight.oz_per_yd2(), 2, mark)),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn shown(mm: f64, unit: LengthUnit) -> String {
        length(
            Length::from_mm(mm).unwrap(),
            Shown { unit, fraction: InchFraction::Sixteenth, mark: DecimalMark::Point },
        )
    }

    #[test]
    fn inches_as_a_tape_has_them() {
        assert_eq!(shown(14.375 * 25.4, LengthUnit::Inch), "14 3/8 in");
        assert_eq!(shown(0.5 * 25.4, LengthUnit::Inch), "1/2 in");
        assert_eq!(shown(72.0 * 25.4, LengthUnit::Foot), "6 ft");
        assert_eq!(shown(74.5 * 25.4, LengthUnit::Foot), "6 ft 2 1/2 in");
        assert_eq!(shown(11.99 * 25.4, LengthUnit::Foot), "1 ft");
        assert_eq!(shown(0.0, LengthUnit::Foot), "0 in");
    }

    #[test]
    fn a_label_is_echoed_with_what_it_comes_to() {
        use crate::read::yarn_label as read;
        for (text, metric, imperial) in [
            ("8/2 cotton", "8/2 cotton: 148 tex, 6.8 m/g", "8/2 cotton: 148 tex, 3360 yd/lb"),
            ("R60 tex/2", "R 60/2 tex: 60 tex, 16.7 m/g", "R 60/2 tex: 60 tex, 8268 yd/lb"),
            ("spun silk 40/2", "40/2 spun silk: 14.8 tex, 67.7 m/g", "40/2 spun silk: 14.8 tex, 33600 yd/lb"),
            ("2/28 Nm merino", "28/2 Nm: 71.4 tex, 14 m/g", "28/2 Nm: 71.4 tex, 6945 yd/lb"),
            ("400 m/100 g", "250 tex, 4 m/g", "250 tex, 1984 yd/lb"),
        ] {
            let label = read(text, YarnSystem::MetresPer100g, DecimalMark::Point).unwrap();
            assert_eq!(yarn_label(&label, Measures::Metric, DecimalMark::Point), metric);
            assert_eq!(yarn_label(&label, Measures::Imperial, DecimalMark::Point), imperial);
        }
    }

    #[test]
    fn metric_and_the_decimal_mark() {
        assert_eq!(shown(1850.0, LengthUnit::M), "1.85 m");
        assert_eq!(shown(1850.0, LengthUnit::Cm), "185 cm");
        let comma = Shown { unit: LengthUnit::M, fraction: InchFraction::Eighth, mark: DecimalMark::Comma };
        assert_eq!(length(Length::from_mm(1234.0).unwrap(), comma), "1,234 m");
        assert_eq!(number(-0.001, 1, DecimalMark::Point), "0");
        let mm = |mm| LengthBalance::from_mm(mm).unwrap();
        assert_eq!(balance(mm(-30.0), Measures::Metric, DecimalMark::Point), "3 cm short");
        assert_eq!(balance(mm(0.1), Measures::Metric, DecimalMark::Point), "just enough");
    }
}

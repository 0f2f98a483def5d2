//! Figures in words, with their units: lengths, weights, minutes, densities.

use fellmark_cloth::quantity::{Length, Mass};
use fellmark_cloth::write::{self, Measures};

use fellmark_model::display_format::{DisplayFormat, Units};
use fellmark_model::forms::picks_in_units;
use fellmark_model::piece_lengths;

use super::dates::DateText;
use super::declared::figures as messages;
use super::text;

/// A measure whose figure and unit never stand on two lines: its spaces do not break.
#[must_use]
pub fn bound(measure: &str) -> String {
    measure.replace(' ', "\u{a0}")
}

/// Sentences for what is no screen, a terminal or another program: the spaces within measures are plain ones again.
#[must_use]
pub fn loose(text: &str) -> String {
    text.replace('\u{a0}', " ")
}

/// The measures that lengths are written in.
fn measures(format: &DisplayFormat) -> Measures {
    match format.units {
        Units::Metric => Measures::Metric,
        Units::Imperial => Measures::Imperial,
    }
}

/// A length of cloth or warp, rounded as a tape is read: whole centimetres above one metre, else half centimetres; inches to
/// the quarter.
#[must_use]
pub fn show_length(mm: f64, format: &DisplayFormat) -> String {
    let magnitude = mm.abs();
    let rounded = match format.units {
        Units::Metric if magnitude >= 1000.0 => (magnitude / 10.0).round() * 10.0,
        Units::Metric => (magnitude / 5.0).round() * 5.0,
        Units::Imperial => (magnitude / 6.35).round() * 6.35,
    };
    let Ok(length) = Length::from_mm(rounded) else { return format.number(mm / 10.0, 0) + "\u{a0}cm" };
    let text = bound(&write::length_in(length, measures(format), format.mark()));
    if mm < 0.0 && rounded > 0.0 { format!("\u{2212}{text}") } else { text }
}

/// A length that the weaver measured, as she typed it: to the tenth of a millimetre, inches to the hundredth.
#[must_use]
pub fn show_measured(mm: f64, format: &DisplayFormat) -> String {
    match format.units {
        Units::Metric => format!("{}\u{a0}cm", format.number(mm / 10.0, 2)),
        Units::Imperial => format!("{}\u{a0}in", format.number(mm / 25.4, 2)),
    }
}

/// A length of yarn, in metres or yards without decimals.
#[must_use]
pub fn show_yarn(metres: f64, format: &DisplayFormat) -> String {
    match format.units {
        Units::Metric => format!("{}\u{a0}m", format.number(metres, 0)),
        Units::Imperial => format!("{}\u{a0}yd", format.number(metres / 0.9144, 0)),
    }
}

/// A weight.
#[must_use]
pub fn show_mass(grams: f64, format: &DisplayFormat) -> String {
    match Mass::from_g(grams) {
        Ok(mass) => bound(&write::mass(mass, format.mass_unit(), format.mark())),
        Err(_) => format!("{}\u{a0}g", format.number(grams, 0)),
    }
}

/// "about ", before a figure that was given roughly, as it is typed.
#[must_use]
pub fn about_words(rough: bool) -> &'static str {
    if rough { "about " } else { "" }
}

/// A figure, and that it was given roughly where it was: "about 30 g".
#[must_use]
pub fn roughly(is_rough: bool, figure: &str, format: &DisplayFormat) -> String {
    if is_rough { text(&messages::approximately(figure), format) } else { figure.to_owned() }
}

/// A length of cloth or warp within a sum: to the millimetre, since a sum of lengths as a tape is read need not add up.
#[must_use]
pub fn exact_length(mm: f64, format: &DisplayFormat) -> String {
    match format.units {
        Units::Metric => format!("{}\u{a0}cm", format.number(mm / 10.0, 1)),
        Units::Imperial => show_length(mm, format),
    }
}

/// "95 cm to 120 cm"; one length where both read the same. The middle one of the three is not shown.
#[must_use]
pub fn show_length_span([low, _, high]: [f64; 3], format: &DisplayFormat) -> String {
    let (low, high) = (show_length(low, format), show_length(high, format));
    if low == high { low } else { text(&messages::span_of_figures(low, high), format) }
}

/// Whether a length is none to a tape.
#[must_use]
pub fn reads_as_none(mm: f64, format: &DisplayFormat) -> bool {
    show_length(mm.abs(), format) == show_length(0.0, format)
}

/// Minutes as people say them: "42 min", "1 h 20 min".
#[must_use]
pub fn show_minutes(minutes: f64) -> String {
    let whole = minutes.round().max(0.0) as u64;
    match (whole / 60, whole % 60) {
        (0, rest) => format!("{rest}\u{a0}min"),
        (hours, 0) => format!("{hours}\u{a0}h"),
        (hours, rest) => format!("{hours}\u{a0}h\u{a0}{rest}\u{a0}min"),
    }
}

/// A pick density or a sett: "32 per 10 cm", "8 per inch".
#[must_use]
pub fn show_density(per_10cm: f64, format: &DisplayFormat) -> String {
    let figure = picks_in_units(per_10cm, format.units);
    let message = match format.units {
        Units::Metric => messages::per_10_cm(figure),
        Units::Imperial => messages::per_inch(figure),
    };
    text(&message, format)
}

/// The unit of a pick density in English: "picks per 10 cm", "picks per inch".
#[must_use]
pub fn picks_unit_words(units: Units) -> &'static str {
    match units {
        Units::Metric => "picks per 10\u{a0}cm",
        Units::Imperial => "picks per inch",
    }
}

/// The unit of a pick density: "picks per 10 cm", "picks per inch".
#[must_use]
pub fn picks_unit(format: &DisplayFormat) -> String {
    let message = match format.units {
        Units::Metric => messages::picks_per_10_cm(),
        Units::Imperial => messages::picks_per_inch(),
    };
    text(&message, format)
}

/// "180 cm", "180 cm and 2 pieces of 15 cm".
#[must_use]
pub fn show_piece_lengths(each_mm: &[f64], format: &DisplayFormat) -> String {
    let written = piece_lengths::runs(each_mm).into_iter().map(|(times, mm)| {
        let count = i64::try_from(times).unwrap_or(i64::MAX);
        if times == 1 { show_length(mm, format) } else { text(&messages::pieces_of_length(count, mm), format) }
    });
    format.and_list(&written.collect::<Vec<_>>())
}

#[cfg(test)]
mod tests {
    use super::*;
    use chrono::NaiveDate;
    use fellmark_model::measures::Reader;

    #[test]
    fn lengths_are_rounded_as_a_tape_is_read() {
        let metric = DisplayFormat::default();
        assert_eq!(show_length(412.3, &metric), "41\u{a0}cm");
        assert_eq!(show_length(1853.0, &metric), "185\u{a0}cm");
        assert_eq!(show_length(-120.0, &metric), "\u{2212}12\u{a0}cm");
        assert_eq!(show_length(1841.5, &metric.in_units(Units::Imperial)), "72\u{a0}1/2\u{a0}in");
    }

    #[test]
    fn a_figure_stays_with_its_unit_and_a_form_keeps_plain_spaces() {
        for units in [Units::Metric, Units::Imperial] {
            let format = DisplayFormat::default().in_units(units);
            let read = Reader { format: &format, today: NaiveDate::MIN };
            for reported in
                [show_length(1841.5, &format), show_yarn(240.0, &format), show_mass(85.0, &format), show_minutes(80.0)]
            {
                assert!(!reported.contains(' ') && reported.contains('\u{a0}'), "{reported:?}");
            }
            for typed in [
                read.show_length_for_form(1841.5),
                read.show_yarn_length_for_form(240_000.0),
                read.show_mass_for_form(85.0),
            ] {
                assert!(typed.contains(' ') && !typed.contains('\u{a0}'), "{typed:?}");
            }
        }
        assert_eq!(loose(&show_minutes(80.0)), "1 h 20 min");
    }

    #[test]
    fn pieces_that_are_alike_are_written_together() {
        let written = |each: &[f64]| loose(&show_piece_lengths(each, &DisplayFormat::default()));
        assert_eq!(written(&[1800.0, 150.0, 150.0]), "180 cm and 2 pieces of 15 cm");
        assert_eq!(written(&[600.0, 600.0]), "2 pieces of 60 cm");
    }
}

//! Lengths wanted on one warp: one for all pieces, or one for each: "180, 15, 15 cm", "180 cm; 2 × 15 cm".

use fellmark_cloth::read::DecimalMark;

use crate::display_format::DisplayFormat;
use crate::measures::Reader;
use crate::{Message, UserError, messages};

/// Most pieces on one warp.
pub const MOST_PIECES: usize = 200;
/// From so many alike in a row on, they are written as a multiple.
const WRITTEN_AS_MULTIPLE: usize = 3;

/// The parts of a list. A comma parts two lengths where a space follows it; without one it may be a decimal mark.
fn parts(text: &str, mark: DecimalMark) -> Vec<String> {
    let text = text.replace(" and ", ";").replace(['+', '\n', '&'], ";");
    let commas = text.matches(',').count();
    let letters: Vec<char> = text.chars().collect();
    let mut parts = vec![String::new()];
    for (at, letter) in letters.iter().enumerate() {
        let space_follows = letters.get(at + 1).is_none_or(|next| next.is_whitespace());
        let parting = match letter {
            ';' => true,
            ',' => space_follows || (mark == DecimalMark::Point && commas > 1),
            _ => false,
        };
        match parts.last_mut() {
            Some(last) if !parting => last.push(*letter),
            _ => parts.push(String::new()),
        }
    }
    parts.into_iter().map(|part| part.trim().to_owned()).filter(|part| !part.is_empty()).collect()
}

/// "2 × 15 cm" is fifteen centimetres twice.
fn multiple(part: &str) -> (usize, &str) {
    let digits = part.chars().take_while(char::is_ascii_digit).count();
    let Ok(times) = part[..digits].parse::<usize>() else { return (1, part) };
    let rest = part[digits..].trim_start();
    let sign = ["\u{d7}", "x ", "X ", "*", "of "].iter().find_map(|sign| rest.strip_prefix(sign));
    // "2x15": a figure follows the sign, so it is no unit.
    let close = ["x", "X"].iter().find_map(|sign| rest.strip_prefix(sign));
    let length = sign.or_else(|| close.filter(|length| length.starts_with(|c: char| c.is_ascii_digit())));
    length.map_or((1, part), |length| (times, length.trim_start()))
}

/// What follows the last figure of a length.
fn unit(part: &str) -> &str {
    part[part.trim_end_matches(|c: char| !c.is_numeric()).len()..].trim()
}

/// Reads the lengths wanted, one for each piece; one length for all of them is a list of one, and nothing typed is none.
///
/// # Errors
/// A part that is no length, or too many pieces.
pub fn read(read: &Reader<'_>, field: &str, what: &Message, text: &str) -> Result<Vec<f64>, UserError> {
    let parts = parts(text, read.format.mark());
    let mut lengths = Vec::new();
    for (at, part) in parts.iter().enumerate() {
        let (times, length) = multiple(part);
        // A bare figure is in the unit of the next one that has a unit, else of the last one before.
        let later = parts[at..].iter().map(|part| unit(part)).find(|unit| !unit.is_empty());
        let earlier = || parts[..at].iter().rev().map(|part| unit(part)).find(|unit| !unit.is_empty());
        let length = match later.or_else(earlier) {
            Some(unit_word) if unit(length).is_empty() => format!("{length} {unit_word}"),
            _ => length.to_owned(),
        };
        let Some(mm) = read.length(field, what.clone(), &length)? else { continue };
        if lengths.len() + times > MOST_PIECES {
            return Err(UserError::at(field, messages::too_many_pieces(MOST_PIECES as i64)));
        }
        lengths.extend(std::iter::repeat_n(mm, times));
    }
    Ok(lengths)
}

/// Lengths that are alike one after the other: how many, and how long, in millimetres.
#[must_use]
pub fn runs(each_mm: &[f64]) -> Vec<(usize, f64)> {
    let mut runs: Vec<(usize, f64)> = Vec::new();
    for mm in each_mm {
        match runs.last_mut() {
            Some((times, held)) if (*held - mm).abs() < 0.01 => *times += 1,
            _ => runs.push((1, *mm)),
        }
    }
    runs
}

/// The lengths as they are put back into a form.
#[must_use]
pub fn show(each_mm: &[f64], format: &DisplayFormat) -> String {
    let read = Reader { format, today: chrono::NaiveDate::MIN };
    let written = runs(each_mm).into_iter().map(|(times, mm)| {
        let length = read.show_length_for_form(mm);
        if times < WRITTEN_AS_MULTIPLE { vec![length; times].join("; ") } else { format!("{times} \u{d7} {length}") }
    });
    written.collect::<Vec<_>>().join("; ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::display_format::Units;

    fn cm(text: &str, format: &DisplayFormat) -> Vec<f64> {
        let reader = Reader { format, today: chrono::NaiveDate::MIN };
        let lengths = read(&reader, "wanted", &messages::the_wanted_length(), text).unwrap();
        lengths.into_iter().map(|mm| (mm * 100.0).round() / 1000.0).collect()
    }

    #[test]
    fn lists_of_lengths_as_people_write_them() {
        let english = DisplayFormat::default();
        for text in [
            "180, 15, 15 cm",
            "180,15,15",
            "180 cm; 15; 15",
            "180 cm, 2 x 15 cm",
            "1.8 m; 2\u{d7}15 cm",
            "180 and 15 and 15",
            "180 + 2 of 15 cm",
            "180 cm\n15 cm\n15 cm",
        ] {
            assert_eq!(cm(text, &english), [180.0, 15.0, 15.0], "{text}");
        }
        assert_eq!(cm("180", &english), [180.0]);
        assert_eq!(cm("3 x 60", &english), [60.0; 3]);
        assert_eq!(cm("  ", &english), Vec::<f64>::new());
        assert_eq!(cm("72 1/2, 6 in", &english), [184.15, 15.24]);
        let german = DisplayFormat::of_locale("de-DE");
        assert_eq!(cm("1,85 m", &german), [185.0]);
        assert_eq!(cm("180,5; 15,5 cm", &german), [180.5, 15.5]);
        assert_eq!(cm("180,5, 15 cm", &german), [180.5, 15.0]);
    }

    #[test]
    fn what_is_no_length_is_refused_and_a_form_reads_back_what_it_shows() {
        let format = DisplayFormat::default();
        let reader = Reader { format: &format, today: chrono::NaiveDate::MIN };
        for text in ["180, long", "180, 0 cm", "500 x 15 cm", "180 cm, 15 parsecs"] {
            let refused = read(&reader, "wanted", &messages::the_wanted_length(), text).unwrap_err();
            assert_eq!(refused.field.as_deref(), Some("wanted"), "{text}");
        }
        for units in [Units::Metric, Units::Imperial] {
            let format = format.in_units(units);
            for each in [vec![1800.0, 150.0, 150.0], vec![600.0, 600.0, 600.0, 400.0], vec![1234.5]] {
                let reader = Reader { format: &format, today: chrono::NaiveDate::MIN };
                let again = read(&reader, "wanted", &messages::the_wanted_length(), &show(&each, &format)).unwrap();
                assert_eq!(again.len(), each.len(), "{}", show(&each, &format));
                assert!(again.iter().zip(&each).all(|(a, b)| (a - b).abs() < 0.8), "{again:?}");
            }
        }
    }
}

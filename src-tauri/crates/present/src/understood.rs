//! What is typed into a field, as it was understood: shown beside the field while it is typed.

use chrono::NaiveDate;
use fellmark_cloth::fibre::Fibre;
use fellmark_cloth::read::{SystemFrom, YarnLabel};
use fellmark_cloth::write::{self, Measures};

use crate::dates::DateText;
use crate::figures::{about_words, bound, picks_unit_words, show_mass, show_minutes, show_yarn};
use crate::messages::text as text_of;
use crate::view::Understood;
use fellmark_model::approximate;
use fellmark_model::display_format::{DisplayFormat, Units};
use fellmark_model::forms::picks_in_units;
use fellmark_model::measures::Reader;
use fellmark_model::moments::YarnLeft;
use fellmark_model::piece_lengths;
use fellmark_model::yarn_left::parse_yarn_left;
use fellmark_model::{UserError, messages};

/// What a typed measure is understood as, in the chosen units.
#[must_use]
pub fn understand(what: &str, text: &str, format: &DisplayFormat, today: NaiveDate) -> Understood {
    let read = Reader { format, today };
    // Where a figure may be given roughly, what is understood says that it was.
    let plain = what.strip_prefix("rough_");
    let parsed = plain.map(|_| approximate::parse(text, format.language));
    let about = parsed.as_ref().is_some_and(|parsed| parsed.rough);
    let (what, text) = (plain.unwrap_or(what), parsed.as_ref().map_or(text, |parsed| &*parsed.figure));
    let shown = match what {
        "mass" => {
            read.mass_or_zero(what, messages::the_weight(), text).map(|mass| mass.map(|mass| show_mass(mass, format)))
        }
        "minutes" => read.minutes(what, text).map(|minutes| minutes.map(show_minutes)),
        "picks" => {
            read.whole_between(what, messages::the_picks(), text, -100_000, 100_000).map(|n| n.map(|n| n.to_string()))
        }
        "density" | "sett" | "wraps" => read
            .density(what, text)
            .map(|density| density.map(|per_10cm| density_in_both_units(what, per_10cm, format))),
        "yarn_number" => read.yarn_label(what, text).map(|label| label.map(|label| yarn_label_words(&label, format))),
        "percent" => read
            .number(what, messages::the_figure(), text)
            .map(|n| n.map(|n| format!("{}\u{a0}%", format.number(n, 1)))),
        "yarn_length" => read
            .length_or_zero("weft_length", messages::the_length(), text)
            .map(|mm| mm.map(|mm| show_yarn(mm / 1000.0, format))),
        "lengths" => {
            piece_lengths::read(&read, what, &messages::the_wanted_length(), text).map(|each| match each.as_slice() {
                [] => None,
                [mm] => Some(both_units(*mm, format)),
                _ => Some(crate::figures::show_piece_lengths(&each, format)),
            })
        }
        "yarn_left" if text.trim().is_empty() => Ok(None),
        "yarn_left" => understand_left(text, read).map(Some),
        "date" => read.day(what, text).map(|day| day.map(|day| format.weekday_date(day, today))),
        _ => read.length_or_zero(what, messages::the_length(), text).map(|mm| mm.map(|mm| both_units(mm, format))),
    };
    let day =
        if what.starts_with("date") { read.day(what, text).ok().flatten().map(|day| day.to_string()) } else { None };
    match shown {
        Ok(shown) => {
            let shown = shown.filter(|shown| !shown.is_empty()).map(|shown| format!("{}{shown}", about_words(about)));
            Understood { shown: shown.unwrap_or_default(), day, trouble: None }
        }
        Err(error) => {
            let sentence = text_of(&error.message, format);
            Understood { shown: String::new(), day, trouble: Some(sentence) }
        }
    }
}

/// A length in the chosen unit, and in the other one where that helps to catch a slip.
fn both_units(mm: f64, format: &DisplayFormat) -> String {
    let exact = |units: Units| {
        let format = format.in_units(units);
        Reader { format: &format, today: NaiveDate::MIN }.show_length_for_form(mm)
    };
    let other = if format.units == Units::Metric { Units::Imperial } else { Units::Metric };
    format!("{} ({})", bound(&exact(format.units)), bound(&exact(other)))
}

/// A thread count in the chosen unit, and in the other one where that helps to catch a slip.
fn density_in_both_units(what: &str, per_10cm: f64, format: &DisplayFormat) -> String {
    let threads = match what {
        "sett" => "ends",
        "wraps" => "wraps",
        _ => "picks",
    };
    let in_units = |units| format.number(picks_in_units(per_10cm, units), 2);
    let words = picks_unit_words(format.units).replace("picks", threads);
    let (other, other_words) = match format.units {
        Units::Metric => (Units::Imperial, "per inch"),
        Units::Imperial => (Units::Metric, "per 10\u{a0}cm"),
    };
    format!("{} {words} ({} {other_words})", in_units(format.units), in_units(other))
}

/// "8/2 cotton: 148 tex, 6.8 m/g", and the fibre where the system follows from it and labels have others too.
fn yarn_label_words(label: &YarnLabel, format: &DisplayFormat) -> String {
    let measures = if format.units == Units::Metric { Measures::Metric } else { Measures::Imperial };
    let words = write::yarn_label(label, measures, format.mark());
    match label.system_from {
        SystemFrom::Fibre(Fibre::Silk) => {
            format!("{words} (the usual count of silk; write spun silk for English hanks)")
        }
        SystemFrom::Fibre(Fibre::Cellulose) => format!("{words} (counted as cotton, as usual for this fibre)"),
        SystemFrom::Fibre(Fibre::Cottolin) => format!("{words} (counted in leas, as usual for cottolin)"),
        _ => words,
    }
}

/// What is understood of what is typed as left of a yarn: by weight or by length.
///
/// # Errors
/// It is neither.
fn understand_left(text: &str, read: Reader<'_>) -> Result<String, UserError> {
    let (text, said) = approximate::on_shuttle(text);
    let (found, _) = parse_yarn_left("left", text, false, None, read)?;
    let amount = match found.left {
        YarnLeft::Mass(grams) => show_mass(grams, read.format),
        YarnLeft::Length(mm) => show_yarn(mm / 1000.0, read.format),
    };
    Ok(format!("{}{amount}{}", about_words(found.rough), if said { ", the shuttle with it" } else { "" }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figures::show_length;

    #[test]
    fn a_measure_that_cannot_be_read_says_what_to_write() {
        let format = DisplayFormat::default();
        let understood = understand("length", "7 bananas", &format, NaiveDate::MIN);
        assert!(understood.trouble.is_some_and(|sentence| sentence.contains("185 cm")));
        assert_eq!(
            understand("length", "72 1/2 in", &format, NaiveDate::MIN).shown,
            "184.2\u{a0}cm (72\u{a0}1/2\u{a0}in)"
        );
        assert_eq!(
            understand("length", "", &format, NaiveDate::MIN),
            Understood { shown: String::new(), day: None, trouble: None }
        );
    }

    #[test]
    fn a_day_understood_shows_which_it_is_in_one_order_for_all() {
        let today = NaiveDate::from_ymd_opt(2026, 11, 25).unwrap();
        for (text, month_first, day) in [
            ("24.12.2026", false, Some("2026-12-24")),
            ("12/24/2026", true, Some("2026-12-24")),
            ("3/4/2026", true, Some("2026-03-04")),
            ("3/4/2026", false, Some("2026-04-03")),
            ("yesterday", false, Some("2026-11-24")),
            ("", false, None),
            ("31.2.2026", false, None),
        ] {
            let format = DisplayFormat { month_first, ..DisplayFormat::default() };
            assert_eq!(understand("date", text, &format, today).day.as_deref(), day, "{text}");
        }
        assert_eq!(understand("length", "2026-12-24", &DisplayFormat::default(), today).day, None);
    }

    #[test]
    fn what_is_copied_from_the_screen_is_understood() {
        for units in [Units::Metric, Units::Imperial] {
            let format = DisplayFormat::default().in_units(units);
            for (what, shown) in [
                ("length", show_length(1841.5, &format)),
                ("length", show_yarn(240.0, &format)),
                ("mass", show_mass(85.0, &format)),
                ("minutes", show_minutes(80.0)),
            ] {
                assert_eq!(understand(what, &shown, &format, NaiveDate::MIN).trouble, None, "{shown:?}");
            }
        }
    }
}

//! Measures read, and written back into a form.

use super::*;

#[test]
fn minutes_are_read_as_people_write_them() {
    for (text, minutes) in [
        ("42", 42.0),
        ("1:20", 80.0),
        ("1 h 20", 80.0),
        ("1h20min", 80.0),
        ("1.5 h", 90.0),
        ("1,5 hours", 90.0),
        ("90 min", 90.0),
        ("90m", 90.0),
    ] {
        assert_eq!(read_minutes(text), Some(minutes), "{text}");
    }
    for text in ["h", "1:75", "-5", "1 x", "1 hop", "abc", "1e9", "inf", "1 h 20 x", ":"] {
        assert_eq!(read_minutes(text), None, "{text}");
    }
}

#[test]
fn a_form_takes_back_what_it_shows() {
    for units in [Units::Metric, Units::Imperial] {
        for decimal_mark in ['.', ','] {
            let format = DisplayFormat { decimal_mark, ..DisplayFormat::default() }.in_units(units);
            let read = Reader { format: &format, today: NaiveDate::MIN };
            for mm in [5.0, 184.15, 1851.3, 2540.0, 12_345.6] {
                let again =
                    read.length("wound", messages::the_warp_wound(), &read.show_length_for_form(mm)).unwrap().unwrap();
                assert!((again - mm).abs() < 0.8, "{mm} came back as {again} in {units:?} {decimal_mark}");
            }
        }
    }
}

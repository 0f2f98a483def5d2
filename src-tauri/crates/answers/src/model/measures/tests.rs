//! Measures read and shown.

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
            let format = DisplayFormat { units, decimal_mark, month_first: false };
            let read = Reader { format: &format, today: NaiveDate::MIN };
            for mm in [5.0, 184.15, 1851.3, 2540.0, 12_345.6] {
                let again =
                    read.length("wound", messages::the_warp_wound(), &read.show_length_for_form(mm)).unwrap().unwrap();
                assert!((again - mm).abs() < 0.8, "{mm} came back as {again} in {units:?} {decimal_mark}");
            }
        }
    }
}

#[test]
fn a_figure_stays_with_its_unit_and_a_form_keeps_plain_spaces() {
    for units in [Units::Metric, Units::Imperial] {
        let format = DisplayFormat::default().in_units(units);
        let read = Reader { format: &format, today: NaiveDate::MIN };
        for told in
            [show_length(1841.5, &format), show_yarn(240.0, &format), show_mass(85.0, &format), show_minutes(80.0)]
        {
            assert!(!told.contains(' ') && told.contains('\u{a0}'), "{told:?}");
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
fn lengths_are_rounded_as_a_tape_is_read() {
    let metric = DisplayFormat::default();
    assert_eq!(show_length(412.3, &metric), "41\u{a0}cm");
    assert_eq!(show_length(1853.0, &metric), "185\u{a0}cm");
    assert_eq!(show_length(-120.0, &metric), "\u{2212}12\u{a0}cm");
    assert_eq!(show_length(1841.5, &metric.in_units(Units::Imperial)), "72\u{a0}1/2\u{a0}in");
}

//! The shift between two groups against a reference statistics library.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

use fellmark_projection::shift;

type ShiftCase<'a> = (&'a [f64], &'a [f64], f64, Option<(f64, f64, f64)>);

/// scipy 1.17.1: median by `numpy.median` over all differences; ends by turning `scipy.stats.mannwhitneyu(y - s, x,
/// method='exact')` round: the shifts s with a p-value above 1 − confidence. `None`: every shift is kept.
const CASES: [ShiftCase<'static>; 10] = [
    (&[2.1, 2.6, 3.0, 2.4], &[3.1, 2.9, 3.6, 4.2, 3.3], 0.8, Some((0.85, 0.5, 1.2))),
    (&[2.1, 2.6, 3.0, 2.4], &[3.1, 2.9, 3.6, 4.2, 3.3], 0.95, Some((0.85, 0.1, 1.8))),
    (&[5.2, 4.1, 6.3], &[4.4, 5.9, 7.7], 0.8, Some((0.7, -0.8, 2.5))),
    (&[5.2, 4.1, 6.3], &[4.4, 5.9, 7.7], 0.95, None),
    (&SEVEN, &EIGHT, 0.8, Some((0.27, 0.06, 0.5))),
    (&SEVEN, &EIGHT, 0.95, Some((0.27, -0.11, 0.67))),
    (&[0.9, 1.2, 3.5], &[2.2, 2.8], 0.8, Some((1.15, -1.3, 1.9))),
    (&[0.9, 1.2, 3.5], &[2.2, 2.8], 0.95, None),
    (&MANY, &OTHERS, 0.8, Some((0.7785, 0.245, 1.304))),
    (&MANY, &OTHERS, 0.95, Some((0.7785, 0.03, 1.461))),
];
const SEVEN: [f64; 7] = [1.31, 1.52, 1.18, 1.94, 1.6, 1.43, 1.77];
const EIGHT: [f64; 8] = [1.37, 1.81, 2.2, 1.66, 1.98, 2.41, 1.71, 1.49];
const MANY: [f64; 22] = [
    2.201, 1.9, 1.718, 2.27, 1.682, 2.812, 2.323, 2.167, 0.989, 0.69, 1.041, 2.385, 2.145, 0.869, 2.373, 1.395, 1.397,
    3.381, 2.074, 2.274, 2.289, 0.858,
];
const OTHERS: [f64; 17] = [
    2.73, 6.29, 1.271, 3.42, 3.595, 3.569, 1.763, 1.994, 1.282, 2.313, 4.428, 1.642, 0.715, 2.438, 3.606, 2.104, 5.198,
];

#[test]
fn the_shift_and_its_interval_agree_with_the_reference() {
    for (first, second, confidence, expected) in CASES {
        let found = shift(first, second, confidence);
        match expected {
            None => assert_eq!(found, None, "{first:?} {second:?} {confidence}"),
            Some((by, low, high)) => {
                let found = found.unwrap_or_else(|| panic!("nothing for {first:?} {second:?} {confidence}"));
                for (ours, reference) in [(found.by, by), (found.low, low), (found.high, high)] {
                    assert!((ours - reference).abs() < 1e-9, "{found:?}, reference {expected:?} at {confidence}");
                }
            }
        }
    }
}

#[test]
fn turning_the_groups_round_turns_the_shift_round() {
    let one = shift(&SEVEN, &EIGHT, 0.8).unwrap();
    let other = shift(&EIGHT, &SEVEN, 0.8).unwrap();
    assert!((one.by + other.by).abs() < 1e-12 && (one.low + other.high).abs() < 1e-12);
    assert!(one.is_clear() && !shift(&SEVEN, &EIGHT, 0.95).unwrap().is_clear());
}

#[test]
fn too_few_or_no_values_tell_nothing() {
    assert_eq!(shift(&[], &[1.0, 2.0], 0.8), None);
    assert_eq!(shift(&[1.0], &[2.0, 3.0], 0.8), None);
    assert_eq!(shift(&[f64::NAN, 1.0], &[2.0, f64::INFINITY], 0.8), None);
}

#[test]
fn the_normal_stand_in_meets_the_counted_one_where_they_change_over() {
    let values = |n: usize, step: f64| (0..n).map(|i| i as f64 * step).collect::<Vec<f64>>();
    let (counted, stood_in) =
        (shift(&values(40, 1.01), &values(40, 1.3), 0.8), shift(&values(41, 1.01), &values(40, 1.3), 0.8));
    let width = |one: Option<fellmark_projection::Shift>| one.map(|shift| shift.high - shift.low).unwrap();
    assert!((width(counted) / width(stood_in) - 1.0).abs() < 0.05);
}

//! Tape and counts against each other, sitting by sitting.
#![allow(clippy::unwrap_used, clippy::panic)]
use super::*;
use crate::state::RelaxedLength;

fn inches(l: f64) -> WovenLength {
    WovenLength::from_inches(l).unwrap()
}

fn sitting(picks: i64, tape: Option<TapeReading>) -> Observation {
    Observation { picks: PickCount::Counted(picks), tape }
}

fn ten() -> Option<PicksIn<UnderTension>> {
    Some(PicksIn::from_per_inch(10.0).unwrap())
}

#[test]
fn a_rough_reading_is_known_the_less() {
    let of = |tape| {
        let woven = cloth_woven(&[sitting(100, Some(tape))], None, None, &MeasurementErrors::default()).unwrap();
        (woven.total.likely, woven.total.standard_deviation())
    };
    let (exact, rough) = (of(TapeReading::Total(inches(40.0))), of(TapeReading::ApproximateTotal(inches(40.0))));
    assert_eq!(exact.0, rough.0);
    // A tenth of forty inches, one time in three.
    assert!((rough.1 - exact.1.hypot(101.6)).abs() < 1e-9, "{exact:?} {rough:?}");
}

#[test]
fn the_tape_wins_and_counts_fill_in() {
    let log = [sitting(100, None), sitting(100, Some(TapeReading::Total(inches(18.0)))), sitting(50, None)];
    let w = cloth_woven(&log, ten(), None, &MeasurementErrors::default()).unwrap();
    // 200 picks in 18 in, so 50 more are 4.5 in.
    assert!((w.total.likely.inches() - 22.5).abs() < 1e-9);
    assert_eq!(w.picks, Some(250));
    assert!((w.rate.unwrap().density().per_inch() - 200.0 / 18.0).abs() < 1e-9);
    assert!(w.discrepancies.is_empty());
}

#[test]
fn every_sitting_has_its_length() {
    let unknown = Observation { picks: PickCount::Unknown, tape: Some(TapeReading::Total(inches(30.0))) };
    let log = [
        sitting(50, None),
        sitting(150, Some(TapeReading::Total(inches(18.0)))),
        sitting(50, None),
        unknown,
        sitting(-20, None),
    ];
    let w = cloth_woven(&log, ten(), None, &MeasurementErrors::default()).unwrap();
    let after: Vec<f64> = w.after_each.iter().map(|l| (l.inches() * 100.0).round() / 100.0).collect();
    // 200 picks in 18 in: 4.5 and 13.5; then 50 at that rate and the rest of the tape; then 1.8 in unwoven.
    assert_eq!(after, [4.5, 18.0, 22.5, 30.0, 28.2]);
    assert!((w.total.likely.mm() - w.after_each[4].mm()).abs() < 1e-9);
}

#[test]
fn unweaving_takes_away() {
    let log = [sitting(100, Some(TapeReading::Total(inches(10.0)))), sitting(-30, None)];
    let w = cloth_woven(&log, ten(), None, &MeasurementErrors::default()).unwrap();
    assert!((w.total.likely.inches() - 7.0).abs() < 1e-9);
    let log = [sitting(20, None), sitting(-50, None)];
    assert_eq!(cloth_woven(&log, ten(), None, &MeasurementErrors::default()).unwrap().total.likely, WovenLength::ZERO);
}

#[test]
fn a_whole_interval_missed_is_said() {
    // Pins every 20 in said 205 in where the cloth was 225 in (a weaver's account, 2013): one pin too few.
    let tape = TapeReading::FromMarks { marks: 10, apart: inches(20.0), from_last: inches(5.0) };
    let log = [sitting(1100, Some(TapeReading::Total(inches(110.0)))), sitting(1150, Some(tape))];
    let w = cloth_woven(&log, ten(), None, &MeasurementErrors::default()).unwrap();
    let [Discrepancy::MissedInterval(missed)] = w.discrepancies.as_slice() else { panic!("{:?}", w.discrepancies) };
    assert_eq!(missed.intervals, 1);
    assert!((missed.by_counts.inches() - 225.0).abs() < 1e-6);
    // The tape still wins.
    assert!((w.total.likely.inches() - 205.0).abs() < 1e-9);
}

#[test]
fn a_sitting_left_out_is_said_but_a_wrong_plan_is_not() {
    let first = sitting(100, Some(TapeReading::Total(inches(5.0))));
    assert!(cloth_woven(&[first], ten(), None, &MeasurementErrors::default()).unwrap().discrepancies.is_empty());
    let log = [first, sitting(100, Some(TapeReading::Total(inches(20.0))))];
    let w = cloth_woven(&log, ten(), None, &MeasurementErrors::default()).unwrap();
    assert!(matches!(w.discrepancies.as_slice(), [Discrepancy::Apart { observation: 1, .. }]));
}

#[test]
fn a_reading_that_shrank_is_said() {
    let log =
        [sitting(100, Some(TapeReading::Total(inches(10.0)))), sitting(10, Some(TapeReading::Total(inches(8.0))))];
    let w = cloth_woven(&log, ten(), None, &MeasurementErrors::default()).unwrap();
    assert!(matches!(w.discrepancies.as_slice(), [Discrepancy::Shrunk { observation: 1, .. }]));
}

#[test]
fn sittings_without_picks_are_owned_up_to() {
    let log =
        [sitting(100, Some(TapeReading::Total(inches(10.0)))), Observation { picks: PickCount::Unknown, tape: None }];
    let w = cloth_woven(&log, None, None, &MeasurementErrors::default()).unwrap();
    assert_eq!((w.picks, w.discrepancies.as_slice()), (None, [Discrepancy::Uncounted { sittings: 1 }].as_slice()));
    assert!(cloth_woven(&[sitting(5, None)], None, None, &MeasurementErrors::default()).is_err());
    assert_eq!(cloth_woven(&[], None, None, &MeasurementErrors::default()).unwrap().total.likely, WovenLength::ZERO);
}

#[test]
fn relaxed_readings_are_stretched_back_and_less_sure() {
    let relaxed = RelaxedLength::from_inches(9.0).unwrap();
    let log = [sitting(100, Some(TapeReading::RelaxedTotal(relaxed)))];
    let release = Release::from_ratio(0.9).unwrap();
    let known = cloth_woven(&log, ten(), Some(release), &MeasurementErrors::default()).unwrap();
    assert!((known.total.likely.inches() - 10.0).abs() < 1e-9);
    let unknown = cloth_woven(&log, ten(), None, &MeasurementErrors::default()).unwrap();
    assert!(unknown.total.standard_deviation() > known.total.standard_deviation());
}

#[test]
fn picks_to_weave_are_whole_and_a_planned_rate_is_known_the_less() {
    let woven = Estimate::even(WovenLength::from_mm(100.0).unwrap(), 0.0);
    let rate = PicksIn::from_per_10cm(40.0).unwrap();
    let of = |wanted_mm, measured| {
        picks_to_weave(WovenLength::from_mm(wanted_mm).unwrap(), &woven, rate, measured, &MeasurementErrors::default())
    };
    assert_eq!((of(350.0, true).picks, of(350.1, true).picks, of(50.0, true).picks), (100.0, 101.0, -20.0));
    assert!((of(350.0, true).deviation - 5.0).abs() < 1e-9 && (of(350.0, false).deviation - 12.0).abs() < 1e-9);
}

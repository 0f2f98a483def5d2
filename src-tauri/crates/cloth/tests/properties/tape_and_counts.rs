//! Tape and counts reconciled, whatever was written down: no panic, no nonsense.

use fellmark_cloth::measurement_errors::MeasurementErrors;
use fellmark_cloth::span::Coverage;
use fellmark_cloth::state::{PicksIn, RelaxedLength, WovenLength};
use fellmark_cloth::tape_and_counts::{Discrepancy, Observation, PickCount, TapeReading, cloth_woven, drift};
use proptest::prelude::*;

fn picks() -> impl Strategy<Value = PickCount> {
    prop_oneof![
        4 => (-200i64..800).prop_map(PickCount::Counted),
        1 => (0i64..800).prop_map(PickCount::Guessed),
        1 => Just(PickCount::Unknown),
        1 => any::<i64>().prop_map(PickCount::Counted),
    ]
}

fn tape_reading() -> impl Strategy<Value = Option<TapeReading>> {
    let woven = || (0.0..4000.0f64).prop_map(|mm| WovenLength::from_mm(mm).unwrap());
    prop_oneof![
        3 => Just(None),
        2 => woven().prop_map(|l| Some(TapeReading::Total(l))),
        1 => woven().prop_map(|l| Some(TapeReading::SinceLast(l))),
        1 => (0.0..4000.0f64).prop_map(|mm| Some(TapeReading::RelaxedTotal(RelaxedLength::from_mm(mm).unwrap()))),
        1 => (0u32..12, woven(), woven()).prop_map(|(marks, apart, from_last)| Some(TapeReading::FromMarks { marks, apart, from_last })),
    ]
}

fn log() -> impl Strategy<Value = Vec<Observation>> {
    prop::collection::vec(
        (picks(), tape_reading()).prop_map(|(picks, tape_reading)| Observation { picks, tape: tape_reading }),
        0..12,
    )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 3000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_log_is_answered_or_refused(log in log(), planned in prop::option::of(5.0..120.0f64)) {
        let planned = planned.map(|n| PicksIn::from_per_10cm(n).unwrap());
        let Ok(w) = cloth_woven(&log, planned, None, &MeasurementErrors::default()) else { return Ok(()) };
        let span = w.total.span(Coverage::FOUR_IN_FIVE);
        prop_assert!(span.low <= span.likely && span.likely <= span.high);
        prop_assert!(w.total.standard_deviation().is_finite());
        prop_assert_eq!(w.after_each.len(), log.len());
        // The tape wins: after a reading the total is what was read.
        for reading in &w.readings {
            prop_assert_eq!(w.after_each[reading.observation], reading.total.likely);
        }
        for discrepancy in &w.discrepancies {
            match discrepancy {
                Discrepancy::MissedInterval(missed) => prop_assert!(missed.observation < log.len() && missed.intervals != 0),
                Discrepancy::Apart { observation, by_tape, by_counts } => {
                    prop_assert!(*observation < log.len() && by_tape != by_counts);
                }
                Discrepancy::Shrunk { observation, before, now } => {
                    prop_assert!(*observation < log.len() && now < before);
                }
                Discrepancy::Uncounted { sittings } => prop_assert!((1..=log.len()).contains(sittings)),
            }
        }
        let _ = drift(&w.intervals);
        prop_assert_eq!(w.picks.is_none(), log.iter().any(|o| o.picks == PickCount::Unknown));
    }

    #[test]
    fn a_log_is_stored_and_read(log in log()) {
        let text = serde_json::to_string(&log).unwrap();
        let back: Vec<Observation> = serde_json::from_str(&text).unwrap();
        prop_assert_eq!(back.len(), log.len());
        for (a, b) in log.iter().zip(&back) {
            prop_assert_eq!(a.picks, b.picks);
            prop_assert_eq!(a.tape.is_some(), b.tape.is_some());
        }
    }
}

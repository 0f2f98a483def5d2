//! What is told of the loom, whatever was written down: no panic, no nonsense.

use fellmark_cloth::left::{Habits, Observation, Picks, Taken, drift, woven};
use fellmark_cloth::read::{DecimalMark, DensityUnit};
use fellmark_cloth::span::Coverage;
use fellmark_cloth::state::{PicksIn, RelaxedLength, WovenLength};
use fellmark_cloth::write::Measures;
use proptest::prelude::*;

fn picks() -> impl Strategy<Value = Picks> {
    prop_oneof![
        4 => (-200i64..800).prop_map(Picks::Counted),
        1 => (0i64..800).prop_map(Picks::Guessed),
        1 => Just(Picks::Unknown),
        1 => any::<i64>().prop_map(Picks::Counted),
    ]
}

fn taken() -> impl Strategy<Value = Option<Taken>> {
    let woven = || (0.0..4000.0f64).prop_map(|mm| WovenLength::from_mm(mm).unwrap());
    prop_oneof![
        3 => Just(None),
        2 => woven().prop_map(|l| Some(Taken::Total(l))),
        1 => woven().prop_map(|l| Some(Taken::SinceLast(l))),
        1 => (0.0..4000.0f64).prop_map(|mm| Some(Taken::RelaxedTotal(RelaxedLength::from_mm(mm).unwrap()))),
        1 => (0u32..12, woven(), woven()).prop_map(|(marks, apart, from_last)| Some(Taken::FromMarks { marks, apart, from_last })),
    ]
}

fn log() -> impl Strategy<Value = Vec<Observation>> {
    prop::collection::vec((picks(), taken()).prop_map(|(picks, taken)| Observation { picks, taken }), 0..12)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 3000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_log_is_told_or_refused(log in log(), planned in prop::option::of(5.0..120.0f64)) {
        let planned = planned.map(|n| PicksIn::from_per_10cm(n).unwrap());
        let Ok(w) = woven(&log, planned, None, &Habits::default()) else { return Ok(()) };
        let span = w.total.span(Coverage::FOUR_IN_FIVE);
        prop_assert!(span.low <= span.likely && span.likely <= span.high);
        prop_assert!(w.total.standard_deviation().is_finite());
        prop_assert_eq!(w.after_each.len(), log.len());
        // The tape wins: after a reading the total is what was read.
        for reading in &w.readings {
            prop_assert_eq!(w.after_each[reading.observation], reading.total.likely);
        }
        for noticed in &w.noticed {
            prop_assert!(!noticed.in_words(Measures::Imperial, DecimalMark::Point).is_empty());
        }
        let _ = drift(&w.intervals).in_words(DensityUnit::PerInch, DecimalMark::Comma);
        prop_assert_eq!(w.picks.is_none(), log.iter().any(|o| o.picks == Picks::Unknown));
    }

    #[test]
    fn a_log_is_stored_and_read(log in log()) {
        let text = serde_json::to_string(&log).unwrap();
        let back: Vec<Observation> = serde_json::from_str(&text).unwrap();
        prop_assert_eq!(back.len(), log.len());
        for (a, b) in log.iter().zip(&back) {
            prop_assert_eq!(a.picks, b.picks);
            prop_assert_eq!(a.taken.is_some(), b.taken.is_some());
        }
    }
}

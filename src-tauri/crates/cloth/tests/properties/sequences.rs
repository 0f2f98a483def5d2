//! Places in sequences, pick-ups and floats, whatever the rows.

use std::collections::{BTreeMap, BTreeSet};

use fellmark_cloth::sequence::{Drawdown, NumberedSheds, PickUpAcross, Sequence, Shed, Side, Where, same_sheds};
use fellmark_cloth::state::{ThreadsIn, UnderTension};
use proptest::prelude::*;

fn rows() -> impl Strategy<Value = Vec<Shed>> {
    prop::collection::vec((1u16..5).prop_map(Shed), 0..9)
}

fn sequence() -> impl Strategy<Value = Sequence<Shed>> {
    (rows(), rows(), rows(), rows()).prop_map(|(opening, repeat, balance, closing)| Sequence {
        opening,
        repeat,
        balance,
        closing,
    })
}

/// Shafts 1 to 4 straight over, sheds 1 to 4 lifting any shafts.
fn draft() -> impl Strategy<Value = NumberedSheds> {
    (1usize..20, prop::collection::vec(prop::collection::btree_set(1u16..5, 0..4), 4)).prop_map(|(ends, lifts)| {
        let lifts: BTreeMap<Shed, BTreeSet<u16>> = (1..5).map(Shed).zip(lifts).collect();
        NumberedSheds { threading: (0..ends).map(|end| end as u16 % 4 + 1).collect(), lifts }
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1500, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn the_place_is_the_row_written_out(sequence in sequence(), repeats in 0u64..6, net in -3i64..90) {
        let written = sequence.written_out(repeats).unwrap();
        prop_assert_eq!(written.len() as u64, sequence.picks(repeats));
        match sequence.place(net, Some(repeats)) {
            Where::BeforeStart { picks } => prop_assert_eq!(-(picks as i64), net),
            Where::Weaving(place) => {
                prop_assert_eq!(place.next, written[net as usize]);
                prop_assert_eq!(place.last, (net as usize).checked_sub(1).map(|i| written[i]));
                prop_assert!(place.row < place.rows);
            }
            Where::Done { beyond, last } => {
                prop_assert_eq!(net as u64, written.len() as u64 + beyond);
                prop_assert_eq!(last, written.last().copied());
            }
        }
    }

    #[test]
    fn fitting_leaves_less_than_a_repeat(sequence in sequence(), mm in 0.0..3000.0f64, per_cm in 1.0..20.0f64) {
        let rate = ThreadsIn::from_per_10cm(per_cm * 10.0).unwrap();
        let length = fellmark_cloth::state::WovenLength::from_mm(mm).unwrap();
        if let Ok(fitted) = sequence.fitted(length, rate) {
            prop_assert!(fitted.remaining < sequence.repeat.len() as u64);
            prop_assert_eq!(fitted.to_opening + fitted.to_closing, fitted.remaining);
            prop_assert!(fitted.to_closing - fitted.to_opening <= 1);
            prop_assert!(fitted.length.mm() <= mm + 1e-3);
            prop_assert_eq!(fitted.picks, sequence.picks(fitted.repeats));
        }
    }

    #[test]
    fn a_pick_up_is_balanced(slots in 0usize..300, up in 1usize..6, down in 1usize..6, edge in 0usize..8) {
        let Ok(fitting) = PickUpAcross::fitted(slots, up, down, edge) else { return Ok(()) };
        for (pick_up, ends) in [(fitting.exact, slots..slots + 1), (fitting.with_fewer, 0..slots), (fitting.with_more, slots + 1..1000)] {
            let Some(p) = pick_up else { continue };
            prop_assert!(ends.contains(&p.slot_ends()) && p.edge_down >= edge && p.groups >= 1);
            prop_assert_eq!(p.slot_ends(), 2 * p.edge_down + p.groups * up + (p.groups - 1) * down);
            let charge = p.charge();
            let mirrored: Vec<bool> = charge.iter().rev().copied().collect();
            prop_assert_eq!(charge.iter().filter(|up| **up).count(), p.groups * up);
            prop_assert_eq!(charge, mirrored);
        }
        prop_assert!(fitting.exact.is_some() || fitting.with_more.is_some());
    }

    #[test]
    fn floats_are_what_the_drawing_shows(draft in draft(), rows in prop::collection::vec((1u16..5).prop_map(Shed), 1..9)) {
        let drawn = Drawdown::once(&draft, &rows).unwrap();
        let floats = drawn.floats(ThreadsIn::<_, UnderTension>::from_per_inch(10.0).unwrap(), ThreadsIn::from_per_inch(10.0).unwrap()).unwrap();
        for float in &floats {
            let up = |i: usize| if float.kind.is_weft() { drawn.rows()[float.thread][i] } else { drawn.rows()[i][float.thread] };
            prop_assert!(float.over >= 2);
            for i in float.from..float.from + float.over {
                prop_assert_eq!(up(i), up(float.from));
            }
            prop_assert!((float.length.inches() - float.over as f64 / 10.0).abs() < 1e-9);
        }
        // Crossings in floats and single crossings make up every row.
        for (pick, row) in drawn.rows().iter().enumerate() {
            let in_floats: usize = floats.iter().filter(|f| f.kind.is_weft() && f.thread == pick).map(|f| f.over).sum();
            let singles = (0..row.len()).filter(|i| {
                let differs = |j: Option<usize>| j.and_then(|j| row.get(j)).is_none_or(|v| *v != row[*i]);
                differs(i.checked_sub(1)) && differs(Some(i + 1))
            }).count();
            prop_assert_eq!(in_floats + singles, row.len());
        }
    }

    #[test]
    fn picks_in_one_shed_are_all_found(draft in draft(), sequence in sequence()) {
        let found = same_sheds(&sequence, &draft).unwrap();
        let written = sequence.written_out(2).unwrap();
        let raised = |shed: &Shed| draft.lifts[shed].intersection(&draft.threading.iter().copied().collect()).copied().collect::<Vec<_>>();
        let expected: Vec<usize> =
            (1..written.len()).filter(|i| raised(&written[*i]) == raised(&written[*i - 1])).collect();
        prop_assert_eq!(found.iter().map(|f| f.pick).collect::<Vec<_>>(), expected);
    }

    #[test]
    fn the_shuttle_goes_to_and_fro(a in -1000i64..1000, b in -1000i64..1000) {
        prop_assert_eq!(Side::Left.after(a).after(b), Side::Left.after(a + b));
        prop_assert_eq!(Side::Right.after(a).after(-a), Side::Right);
    }
}

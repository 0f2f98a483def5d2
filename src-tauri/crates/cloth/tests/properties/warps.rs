//! Wish to warp to possible gives the wish back; more warp never makes less cloth.

use fellmark_cloth::change::{Release, WarpUse, WashLength};
use fellmark_cloth::quantity::Quantity;
use fellmark_cloth::state::{FinishedLength, UnderTension, WarpLength, WovenLength};
use fellmark_cloth::warp::{Edge, LengthChanges, LoomWaste, Piece, SegmentKind, WarpLayout};
use proptest::prelude::*;

fn edge() -> impl Strategy<Value = Edge> {
    prop_oneof![
        Just(Edge::Plain),
        (10.0..300.0f64).prop_map(|mm| Edge::Fringe(WarpLength::from_mm(mm).unwrap())),
        (5.0..80.0f64).prop_map(|mm| Edge::Hem(FinishedLength::from_mm(mm).unwrap())),
    ]
}

fn piece() -> impl Strategy<Value = Piece> {
    (100.0..2500.0f64, edge(), edge()).prop_map(|(mm, begin, end)| Piece {
        finished: FinishedLength::from_mm(mm).unwrap(),
        begin,
        end,
    })
}

fn changes() -> impl Strategy<Value = LengthChanges> {
    // Take-up from −3 % (a stretched warp) to 25 %, release to −30 %, wash to −35 %, and a little growth.
    (0.75..1.03f64, 0.7..1.02f64, 0.65..1.03f64).prop_map(|(weaving, release, wash)| LengthChanges {
        weaving: WarpUse::from_ratio(weaving).unwrap(),
        release: Release::from_ratio(release).unwrap(),
        wash: WashLength::from_ratio(wash).unwrap(),
    })
}

fn wish() -> impl Strategy<Value = WarpLayout> {
    let mm = |most: f64| (0.0..most).prop_map(|mm| WarpLength::from_mm(mm).unwrap());
    (
        prop::collection::vec(piece(), 1..6),
        mm(200.0),
        mm(60.0),
        mm(400.0),
        mm(500.0),
        mm(700.0),
        any::<bool>(),
        changes(),
    )
        .prop_map(|(pieces, gap, header, sample, front, back, shared, changes)| {
            let waste = LoomWaste::new(front, back);
            let waste = if shared { waste.fringe_may_use_it() } else { waste };
            WarpLayout { pieces, gap, header, sample, waste, changes }
        })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1500, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn the_wish_comes_back(wish in wish()) {
        let wound = wish.warp_needed().unwrap();
        let possible = wish.possible(wound).unwrap();
        prop_assert!(possible.balance.mm().abs() < 1e-6);
        prop_assert_eq!(possible.full_pieces, wish.pieces.len());
        let last = wish.pieces.last().unwrap().finished;
        prop_assert!((possible.longest_last.unwrap().mm() - last.mm()).abs() < 1e-6);
        let stretched = possible.stretched.unwrap();
        for (a, b) in wish.pieces.iter().zip(&stretched.pieces) {
            prop_assert!((a.finished.mm() - b.finished.mm()).abs() < 1e-6);
        }
    }

    #[test]
    fn more_warp_never_makes_less_cloth(wish in wish(), less in 0.0..9000.0f64, more in 0.0..3000.0f64) {
        let a = wish.possible(WarpLength::from_mm(less).unwrap()).unwrap();
        let b = wish.possible(WarpLength::from_mm(less + more).unwrap()).unwrap();
        prop_assert!(b.full_pieces >= a.full_pieces);
        prop_assert!(b.balance >= a.balance);
        let cloth = |stretched: &Option<WarpLayout>| {
            stretched.as_ref().map_or(0.0, |w| w.pieces.iter().map(|p| p.finished.mm()).sum::<f64>())
        };
        prop_assert!(cloth(&b.stretched) >= cloth(&a.stretched) - 1e-9);
        if b.full_pieces == a.full_pieces {
            let next = |p: &fellmark_cloth::warp::PossiblePieces| p.next_piece.map_or(0.0, |l| l.mm());
            prop_assert!(next(&b) >= next(&a) - 1e-9);
        }
    }

    #[test]
    fn segments_are_whole_and_in_order(wish in wish()) {
        let segments = wish.segments().unwrap();
        prop_assert_eq!(segments[0].kind, SegmentKind::TieOn);
        prop_assert_eq!(segments.last().unwrap().kind, SegmentKind::Unweavable);
        let mut at = 0.0;
        for s in &segments {
            prop_assert!((s.start.mm() - at).abs() < 1e-6);
            at += s.warp.mm();
            prop_assert_eq!(s.kind.is_cloth(), s.woven != WovenLength::ZERO);
        }
        prop_assert!((at - wish.warp_needed().unwrap().mm()).abs() < 1e-6);
        for index in 0..wish.pieces.len() {
            let woven: f64 = segments.iter().filter(|s| s.piece == Some(index)).map(|s| s.woven.mm()).sum();
            prop_assert!((woven - wish.woven_length(index).unwrap().mm()).abs() < 1e-6);
        }
    }

    #[test]
    fn every_change_goes_back(wish in wish(), mm in 1.0..5000.0f64) {
        let finished = FinishedLength::from_mm(mm).unwrap();
        let c = wish.changes;
        let woven = c.woven_to_finished().before(finished).unwrap();
        let warp = c.weaving.yarn_for(woven).unwrap();
        let back = c.wash.after(c.release.after(c.weaving.cloth_from(warp).unwrap()).unwrap()).unwrap();
        prop_assert!((back.mm() - mm).abs() < 1e-9 * mm);
        let crimp = c.weaving.crimp();
        prop_assert!((crimp.take_up().crimp().percent() - crimp.percent()).abs() < 1e-9);
        prop_assert!((WarpUse::<UnderTension>::from_take_up(c.weaving.take_up()).raw() - c.weaving.raw()).abs() < 1e-12);
    }

    #[test]
    fn a_stored_wish_comes_back(wish in wish()) {
        let text = serde_json::to_string(&wish).unwrap();
        let back = serde_json::from_str::<WarpLayout>(&text).unwrap();
        // To the last bit but one: that is how the JSON library reads numbers unless told otherwise.
        prop_assert!((back.warp_needed().unwrap().mm() - wish.warp_needed().unwrap().mm()).abs() < 1e-9);
        prop_assert_eq!(back.segments().unwrap().len(), wish.segments().unwrap().len());
    }
}

//! From the yarn to the piece: what is promised uses no more than there is.

use fellmark_cloth::change::{Allowance, DrawIn, Release, WarpUse, WashLength};
use fellmark_cloth::quantity::Length;
use fellmark_cloth::sizes_from_yarn::{Limit, SizePlan, Yarn};
use fellmark_cloth::span::{Coverage, Estimate};
use fellmark_cloth::state::{EndsIn, FinishedWidth, PicksIn, WarpLength};
use fellmark_cloth::warp::LengthChanges;
use fellmark_cloth::weft::{pick_from_reed, picks, weft_yarn};
use proptest::prelude::*;

fn plan() -> impl Strategy<Value = SizePlan> {
    (
        20.0..120.0f64,
        20.0..120.0f64,
        0.8..1.02f64,
        0.8..1.0f64,
        0.8..1.0f64,
        0.7..1.0f64,
        0.0..15.0f64,
        0.0..1200.0f64,
        1u32..4,
    )
        .prop_map(|(sett, ppi, weaving, release, wash, width, allowance, waste, pieces)| SizePlan {
            sett: EndsIn::from_per_10cm(sett).unwrap(),
            extra_ends: 2,
            picks: PicksIn::from_per_10cm(ppi).unwrap(),
            changes: LengthChanges {
                weaving: WarpUse::from_ratio(weaving).unwrap(),
                release: Release::from_ratio(release).unwrap(),
                wash: WashLength::from_ratio(wash).unwrap(),
            },
            draw_in: DrawIn::from_ratio(width).unwrap(),
            pick_allowance: Allowance::from_percent(allowance).unwrap(),
            not_cloth: WarpLength::from_mm(waste).unwrap(),
            weft_reserve: Length::from_m(1.0).unwrap(),
            pieces,
        })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 800, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_size_uses_what_there_is(plan in plan(), width in 40.0..900.0f64, warp in 50.0..2000.0f64, weft in 50.0..2000.0f64) {
        let m = |m: f64| Length::from_m(m).unwrap();
        let yarn = Yarn::Separate { warp: Estimate::exact(m(warp)), weft: Estimate::exact(m(weft)) };
        let size = plan.size_at(&yarn, FinishedWidth::from_mm(width).unwrap(), Coverage::default()).unwrap();
        if size.length.likely.mm() < 1.0 {
            return Ok(());
        }
        // Forwards again, by the relations themselves.
        let finished = size.length.likely.times(f64::from(plan.pieces)).unwrap();
        let woven = plan.changes.woven_to_finished().before(finished).unwrap();
        let needed = plan.changes.weaving.yarn_for(woven).unwrap() + plan.not_cloth;
        let warp_used = fellmark_cloth::warp::warp_yarn(size.ends, needed).unwrap();
        let pick = pick_from_reed(size.reed, plan.pick_allowance).unwrap();
        let weft_used = weft_yarn(picks(plan.picks, woven), pick).unwrap() + plan.weft_reserve;
        prop_assert!(warp_used.m() <= warp + 1e-3 && weft_used.m() <= weft + 1e-3);
        match size.limit {
            Limit::Warp => prop_assert!((warp_used.m() - warp).abs() < 1e-3),
            Limit::Weft => prop_assert!((weft_used.m() - weft).abs() < 1e-3),
            Limit::Both => prop_assert!(false),
        }
        prop_assert!((size.warp.mm() - needed.mm()).abs() < 1e-3);
        prop_assert!((size.weft_yarn_left.m() - (weft - weft_used.m())).abs() < 1e-3);
    }

    #[test]
    fn more_yarn_never_makes_less(plan in plan(), width in 40.0..900.0f64, warp in 50.0..2000.0f64, more in 0.0..500.0f64) {
        let at = |warp: f64| {
            let yarn = Yarn::Shared(Estimate::factor(Length::from_m(warp).unwrap(), 0.08));
            plan.size_at(&yarn, FinishedWidth::from_mm(width).unwrap(), Coverage::default()).unwrap().length
        };
        let (a, b) = (at(warp), at(warp + more));
        prop_assert!(b.low.mm() >= a.low.mm() - 1e-6 && b.likely.mm() >= a.likely.mm() - 1e-6);
        prop_assert!(a.low <= a.likely && a.likely <= a.high);
    }
}

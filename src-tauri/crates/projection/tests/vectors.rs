//! The whole chain from sittings to chances against a reckoning of the same method in another language.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

use chrono::{Days, NaiveDate};
use fellmark_projection::{EarlierWarp, Question, Sitting, project};

fn today() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 5, 4).unwrap()
}

fn ago(days: u64, picks: f64) -> Sitting {
    Sitting::plain(today() - Days::new(days), None, picks)
}

/// A warp whose last sitting was `end` days ago, with `gaps` before one another, latest first; 100, 110, 120, 100 …
/// picks after the first 100.
fn warp(end: u64, gaps: &[u64]) -> EarlierWarp {
    let mut days = end;
    let mut sittings = vec![ago(days, 100.0)];
    for (index, gap) in gaps.iter().enumerate() {
        days += gap;
        sittings.push(ago(days, 100.0 + 10.0 * (index % 3) as f64));
    }
    EarlierWarp { sittings }
}

fn scarf() -> Vec<Sitting> {
    let evenings =
        [(35, 130.0), (30, 150.0), (26, 120.0), (20, 160.0), (14, 140.0), (9, 125.0), (5, 138.0), (0, 135.0)];
    evenings.map(|(days, picks)| ago(days, picks)).to_vec()
}

/// Days ahead at which the chance to be off the loom is compared.
const AHEAD: [u64; 6] = [3, 7, 14, 30, 60, 120];

/// Python 3.11 with numpy 2.4.6 and scipy 1.17.1: the method written down a second time, with their logarithm,
/// exponential and normal distribution.
#[test]
fn chances_agree_with_a_second_reckoning() {
    let cases = [
        (
            scarf(),
            620.0,
            Vec::new(),
            [
                0.013_595_711_553_132_567,
                0.103_120_801_545_971_75,
                0.316_314_339_147_111_93,
                0.662_171_802_295_754_8,
                0.889_972_564_172_429_9,
                0.980_761_853_316_283_2,
            ],
        ),
        (
            scarf()[..4].to_vec(),
            1100.0,
            vec![warp(60, &[1, 4, 16, 4, 1, 16, 16, 1, 4, 4, 16, 1]), warp(200, &[3, 3, 5, 2, 9, 4, 3, 7])],
            [
                2.720_087_176_660_883_8e-8,
                2.064_012_905_195_435_4e-5,
                0.002_077_368_907_730_522_5,
                0.072_074_605_458_662_41,
                0.445_538_804_243_264_64,
                0.870_739_535_182_346_1,
            ],
        ),
        (
            vec![ago(4, 210.0), ago(1, 90.0)],
            900.0,
            vec![warp(40, &[1; 12])],
            [
                0.013_594_746_789_153_95,
                0.117_658_079_915_028_3,
                0.362_986_927_104_556_1,
                0.716_893_339_030_406_4,
                0.922_742_690_367_901_6,
                0.988_977_304_606_922_5,
            ],
        ),
    ];
    for (index, (sittings, left, earlier, chances)) in cases.into_iter().enumerate() {
        let mut question = Question::new(today(), left);
        question.sittings = sittings;
        question.earlier = earlier;
        let off_loom = project(&question).unwrap().off_loom;
        for (days, chance) in AHEAD.into_iter().zip(chances) {
            let ours = off_loom.chance_by(today() + Days::new(days));
            assert!((ours - chance).abs() < 1e-11, "case {index}, {days} days: {ours} against {chance}");
        }
    }
}

#[test]
fn earlier_gaps_count_by_the_time_they_cover() {
    // Forty gaps of a day, and forty of a week, before the first sitting. Her usual gap lies between her own and
    // six days; by hand: (3.5·6 + h·gap) / (3.5 + h) with h = 40 / (1 + 40 / (40·gap + 1)).
    for (gap, usual) in [(1, 1.736_937_873_667_793), (7, 6.909_127_674_202_288_5)] {
        let mut question = Question::new(today(), 1000.0);
        question.earlier = vec![warp(5, &[gap; 40])];
        let between = project(&question).unwrap().reasons.days_between;
        assert!((between - usual).abs() < 1e-9, "{gap}: {between} against {usual}");
    }
}

#[test]
fn the_early_half_is_the_slimmer_and_the_halves_meet() {
    let mut question = Question::new(today(), 20_000.0);
    question.sittings = scarf();
    // Far ahead a day is a small step, and whole weeks weigh the same whatever the weekday.
    let off_loom = project(&question).unwrap().off_loom;
    let days = |p: f64| ((off_loom.day_at(p).unwrap() - today()).num_days() as f64).ln();
    let (early, late) = (days(0.5) - days(0.1), days(0.9) - days(0.5));
    assert!((early / late - 0.95).abs() < 0.01, "{early} {late}");
    let middle = off_loom.day_at(0.5).unwrap();
    assert!((off_loom.chance_by(middle) - 0.5).abs() < 0.01);
}

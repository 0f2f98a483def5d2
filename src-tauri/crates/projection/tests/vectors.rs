//! The whole chain from sittings to chances against the same method implemented in another language.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

use chrono::{Days, NaiveDate};
use fellmark_projection::{EarlierWarp, Question, WovenStretch, project};

fn today() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 5, 4).unwrap()
}

fn ago(days: u64, picks: f64) -> WovenStretch {
    WovenStretch::plain(today() - Days::new(days), None, picks)
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

fn scarf() -> Vec<WovenStretch> {
    let evenings =
        [(35, 130.0), (30, 150.0), (26, 120.0), (20, 160.0), (14, 140.0), (9, 125.0), (5, 138.0), (0, 135.0)];
    evenings.map(|(days, picks)| ago(days, picks)).to_vec()
}

/// Days ahead at which the chance to be off the loom is compared.
const AHEAD: [u64; 6] = [3, 7, 14, 30, 60, 120];

/// Python 3.11 with numpy 2.4.6 and scipy 1.17.1: the method written down a second time, with their logarithm,
/// exponential and normal distribution.
#[test]
fn chances_agree_with_a_second_implementation() {
    let cases = [
        (
            scarf(),
            620.0,
            Vec::new(),
            [
                0.007_747_686_231_881_239,
                0.076_059_713_906_771_08,
                0.271_002_302_559_140_04,
                0.630_659_556_259_842_4,
                0.880_794_663_582_217,
                0.980_365_212_016_912_4,
            ],
        ),
        (
            scarf()[..4].to_vec(),
            1100.0,
            vec![warp(60, &[1, 4, 16, 4, 1, 16, 16, 1, 4, 4, 16, 1]), warp(200, &[3, 3, 5, 2, 9, 4, 3, 7])],
            [
                1.328_550_469_915_607_8e-11,
                2.327_293_908_523_937_4e-7,
                0.000_200_268_580_357_373_46,
                0.033_567_625_752_843_08,
                0.412_312_541_138_065_37,
                0.906_806_442_470_182_5,
            ],
        ),
        (
            vec![ago(4, 210.0), ago(1, 90.0)],
            900.0,
            vec![warp(40, &[1; 12])],
            [
                0.002_815_081_470_514_555,
                0.050_174_256_019_851_91,
                0.235_065_146_304_068_38,
                0.622_543_864_449_592_9,
                0.894_040_517_553_993_4,
                0.986_157_598_227_610_8,
            ],
        ),
        // Six evenings running, after three warps woven about once a week.
        (
            (0..6).map(|days| ago(days, 120.0)).collect(),
            1500.0,
            vec![warp(60, &[6, 9, 4, 12, 8, 7]), warp(200, &[5, 11, 6, 7, 9]), warp(320, &[8, 8, 3, 10])],
            [
                1.121_864_593_968_055_4e-9,
                1.983_350_145_636_542e-5,
                0.007_147_057_993_307_865,
                0.299_006_410_268_030_5,
                0.882_684_844_054_856_7,
                0.998_219_137_242_307_9,
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
    // Forty gaps of a day, and forty of a week, before the first sitting. The usual gap is between those and
    // six days; by hand: (3.5·6 + h·gap) / (3.5 + h) with h = 40 / (1 + 40 / (40·gap + 1)).
    for (gap, usual) in [(1, 1.736_937_873_667_793), (7, 6.909_127_674_202_288_5)] {
        let mut question = Question::new(today(), 1000.0);
        question.earlier = vec![warp(5, &[gap; 40])];
        let between = project(&question).unwrap().reasons.days_between;
        assert!((between - usual).abs() < 1e-9, "{gap}: {between} against {usual}");
    }
}

#[test]
fn the_early_half_is_narrower_and_the_halves_meet() {
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

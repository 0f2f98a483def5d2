//! Own ln, exp, normal distribution and robust slope against values of other programs.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

use fellmark_projection::math::{exp, ln, normal_cdf, normal_quantile};
use fellmark_projection::theil_sen;
use proptest::prelude::*;

/// Chance below z, from the z-table of math.com ("Standard Normal Probabilities", read as a web page), to the five
/// decimals printed there.
const PRINTED: [(f64, f64); 10] = [
    (-3.80, 0.00007),
    (-3.50, 0.00023),
    (-3.10, 0.00097),
    (-3.00, 0.00135),
    (-2.90, 0.00187),
    (-2.80, 0.00256),
    (-2.75, 0.00298),
    (-2.50, 0.00621),
    (-2.41, 0.00798),
    (-2.30, 0.01072),
];

/// scipy 1.17.1, `scipy.stats.norm.ppf`.
const QUANTILES: [(f64, f64); 8] = [
    (0.0001, -3.719_016_485_455_680_4),
    (0.01, -2.326_347_874_040_840_8),
    (0.05, -1.644_853_626_951_472_9),
    (0.1, -1.281_551_565_544_600_4),
    (0.25, -0.674_489_750_196_081_7),
    (0.75, 0.674_489_750_196_081_7),
    (0.975, 1.959_963_984_540_054),
    (0.999, 3.090_232_306_167_813),
];

#[test]
fn the_normal_distribution_agrees_with_the_printed_table() {
    for (z, below) in PRINTED {
        assert!((normal_cdf(z) - below).abs() <= 0.000_005, "z = {z}: {}", normal_cdf(z));
        assert!((1.0 - normal_cdf(-z) - below).abs() <= 0.000_005, "z = {}", -z);
    }
}

#[test]
fn quantiles_agree_with_another_program() {
    for (p, z) in QUANTILES {
        assert!((normal_quantile(p) - z).abs() < 1e-12 * z.abs(), "p = {p}: {} against {z}", normal_quantile(p));
    }
}

proptest! {
    #[test]
    fn ln_exp_and_the_normal_agree_with_libm(x in -700.0..700.0_f64, z in -37.0..37.0_f64) {
        let e = exp(x);
        prop_assert!((e / libm::exp(x) - 1.0).abs() < 4e-16 * (1.0 + x.abs() / 100.0), "exp {x}: {e}");
        prop_assert!((ln(e) - libm::log(e)).abs() <= 4e-16 * x.abs().max(1.0), "ln {e}");
        let tail = libm::erfc(-z / std::f64::consts::SQRT_2) / 2.0;
        prop_assert!((normal_cdf(z) - tail).abs() <= 1e-12 * tail.min(1.0) + 1e-300, "Φ({z}): {} {tail}", normal_cdf(z));
    }

    #[test]
    fn the_quantile_undoes_the_distribution(p in 1e-9..1.0_f64) {
        prop_assert!((normal_cdf(normal_quantile(p)) - p).abs() < 1e-13);
    }
}

#[test]
fn the_edges_of_ln_and_exp_are_those_of_libm() {
    for x in [0.0, 1.0, 5e-324, f64::MIN_POSITIVE, f64::MAX, f64::INFINITY] {
        assert!((ln(x) - libm::log(x)).abs() <= 1e-13 || ln(x) == libm::log(x), "ln {x}: {}", ln(x));
    }
    assert!(ln(-1.0).is_nan() && ln(f64::NAN).is_nan() && exp(f64::NAN).is_nan());
    assert_eq!((exp(-800.0), exp(710.0), exp(0.0)), (0.0, f64::INFINITY, 1.0));
    assert!(normal_cdf(-40.0) == 0.0 && normal_cdf(40.0) == 1.0 && normal_cdf(f64::NAN).is_nan());
}

/// The same bits on every platform: no operation is used that IEEE 754 leaves open. Values of this program itself,
/// kept so that a change of compiler or processor that moved a bit would be seen.
#[test]
fn the_bits_stay() {
    let bits = [exp(1.25), ln(17.5), normal_cdf(-0.8), normal_cdf(3.7), normal_quantile(0.9)].map(f64::to_bits);
    assert_eq!(bits, KEPT_BITS);
}
const KEPT_BITS: [u64; 5] = [
    4_615_041_972_421_327_600,
    4_613_627_522_210_424_138,
    4_596_800_915_443_468_328,
    4_607_181_447_826_338_369,
    4_608_450_414_325_689_655,
];

/// scipy 1.17.1, `scipy.stats.theilslopes(y, x, alpha)`: slope, intercept, low, high.
#[test]
fn the_robust_slope_agrees_with_another_program() {
    let uneven: Vec<(f64, f64)> = [48.0, 72.0, 60.0, 95.0, 120.0, 33.0, 80.0, 60.0]
        .into_iter()
        .zip([260.0, 240.0, 255.0, 221.0, 190.0, 300.0, 238.0, 249.0])
        .collect();
    // Many ties, without whose correction the interval would be 0.3 to 2.5.
    let tied: Vec<(f64, f64)> = [1.0, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0, 2.0, 2.0, 2.0, 2.0, 3.0, 3.0, 3.0]
        .into_iter()
        .zip([10.8, 9.6, 17.9, 11.8, 10.6, 10.7, 10.0, 10.5, 11.8, 13.6, 12.1, 15.8, 13.5, 13.9])
        .collect();
    let outlier: Vec<(f64, f64)> =
        (1..=10).map(f64::from).zip([2.1, 3.9, 6.2, 7.8, 30.0, 12.1, 13.8, 16.2, 18.0, 20.1]).collect();
    let cases = [
        (uneven.clone(), 0.90, [-0.983_333_333_333_333_3, 309.4, -1.264_367_816_091_954, -0.826_086_956_521_739_1]),
        (uneven, 0.95, [-0.983_333_333_333_333_3, 309.4, -1.274_193_548_387_096_8, -0.8]),
        (tied, 0.90, [1.6, 9.4, 0.85, 2.2]),
        (outlier, 0.80, [2.0, 1.949_999_999_999_999_3, 1.966_666_666_666_666_6, 2.05]),
    ];
    for (points, confidence, want) in cases {
        let slope = theil_sen(&points, confidence).unwrap();
        let got = [slope.per_unit, slope.intercept, slope.low, slope.high];
        for (got, want) in got.into_iter().zip(want) {
            assert!((got - want).abs() < 1e-12 * want.abs(), "{got} against {want}");
        }
    }
}

#[test]
fn too_few_points_tell_nothing() {
    assert_eq!(theil_sen(&[(1.0, 2.0), (2.0, 3.0), (3.0, 4.0)], 0.9), None);
    assert_eq!(theil_sen(&[(1.0, 2.0); 6], 0.9), None);
    assert_eq!(theil_sen(&[(1.0, 2.0), (2.0, f64::NAN), (3.0, 4.0), (4.0, 5.0)], 0.9), None);
}

//! Logarithm, exponential and the normal distribution from the four operations and the square root alone.
//!
//! The platform's own `ln` and `exp` may differ in the last bit from one system to the next. IEEE 754 fixes
//! `+ - * /` and `sqrt` to the bit, so what is built from them gives the same day on every device.

const LN_2_HIGH: f64 = 6.931_471_803_691_238e-1;
const LN_2_LOW: f64 = 1.908_214_929_270_587_7e-10;
const INVERSE_SQRT_TWO_PI: f64 = 0.398_942_280_401_432_7;

/// e to the power `x`. Zero below −708, infinity above 709.
#[must_use]
pub fn exp(x: f64) -> f64 {
    if x.is_nan() {
        return x;
    }
    if x > 709.0 {
        return f64::INFINITY;
    }
    if x < -708.0 {
        return 0.0;
    }
    let halves = x * std::f64::consts::LOG2_E;
    let k = (if halves >= 0.0 { halves + 0.5 } else { halves - 0.5 }) as i64;
    let r = (x - k as f64 * LN_2_HIGH) - k as f64 * LN_2_LOW;
    // Taylor's series in Horner's form; |r| <= ln 2 / 2, so the term after the last is below 1e-18.
    let mut sum = 1.0;
    let mut n = 15.0;
    while n >= 1.0 {
        sum = 1.0 + sum * r / n;
        n -= 1.0;
    }
    sum * f64::from_bits(((1023 + k) as u64) << 52)
}

/// Natural logarithm of `x`. Minus infinity at zero, NaN below it.
#[must_use]
pub fn ln(x: f64) -> f64 {
    if x.is_nan() || x < 0.0 {
        return f64::NAN;
    }
    if x == 0.0 {
        return f64::NEG_INFINITY;
    }
    if x.is_infinite() {
        return x;
    }
    // Subnormal numbers are lifted into the normal range first.
    let (x, lifted) = if x < f64::MIN_POSITIVE { (x * 18_014_398_509_481_984.0, -54) } else { (x, 0) };
    let bits = x.to_bits();
    let mut k = ((bits >> 52) & 0x7ff) as i64 - 1023;
    let mut m = f64::from_bits((bits & 0x000f_ffff_ffff_ffff) | (1023 << 52));
    if m > std::f64::consts::SQRT_2 {
        m *= 0.5;
        k += 1;
    }
    k += lifted;
    // ln m = 2 artanh((m - 1) / (m + 1)); the argument is below 0.1716 in size.
    let s = (m - 1.0) / (m + 1.0);
    let s2 = s * s;
    let mut sum = 0.0;
    let mut n = 23.0;
    while n >= 1.0 {
        sum = sum * s2 + 1.0 / n;
        n -= 2.0;
    }
    k as f64 * LN_2_HIGH + (2.0 * s * sum + k as f64 * LN_2_LOW)
}

/// The normal density at `z` standard deviations.
#[must_use]
pub fn normal_density(z: f64) -> f64 {
    INVERSE_SQRT_TWO_PI * exp(-0.5 * z * z)
}

/// The chance that a standard normal value is at most `z`.
///
/// Abramowitz & Stegun 26.2.11 (series) near the middle, 26.2.14 (continued fraction) in the tails.
#[must_use]
pub fn normal_cdf(z: f64) -> f64 {
    if z.is_nan() {
        return z;
    }
    let size = z.abs();
    if size > 38.0 {
        return if z > 0.0 { 1.0 } else { 0.0 };
    }
    if size < 3.0 {
        let z2 = z * z;
        let mut term = z;
        let mut sum = z;
        let mut n = 3.0;
        while term.abs() > 1e-18 && n < 200.0 {
            term *= z2 / n;
            sum += term;
            n += 2.0;
        }
        return 0.5 + normal_density(z) * sum;
    }
    let mut fraction = size;
    let mut n = 60.0;
    while n >= 1.0 {
        fraction = size + n / fraction;
        n -= 1.0;
    }
    let tail = normal_density(size) / fraction;
    if z > 0.0 { 1.0 - tail } else { tail }
}

/// The number of standard deviations below which a standard normal value lies with chance `p`.
///
/// Abramowitz & Stegun 26.2.23, then refined by Newton's method on [`normal_cdf`]. `p` is held to
/// 1e-12 … 1 − 1e-12.
#[must_use]
pub fn normal_quantile(p: f64) -> f64 {
    if p.is_nan() {
        return p;
    }
    let p = p.clamp(1e-12, 1.0 - 1e-12);
    if p == 0.5 {
        return 0.0;
    }
    let upper = p > 0.5;
    let tail = if upper { 1.0 - p } else { p };
    let t = (-2.0 * ln(tail)).sqrt();
    let mut z =
        t - (2.515_517 + t * (0.802_853 + t * 0.010_328)) / (1.0 + t * (1.432_788 + t * (0.189_269 + t * 0.001_308)));
    // On the lower tail, where no digits are lost by taking from one.
    for _ in 0..4 {
        z += (normal_cdf(-z) - tail) / normal_density(z);
    }
    if upper { z } else { -z }
}

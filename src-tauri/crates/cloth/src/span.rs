//! How well a figure is known: an estimate with its spread, and the span drawn from it with the share of cases that it
//! claims to hold.

use crate::error::{Limits, Refused};
use crate::quantity::Quantity;

/// Which share of cases a span claims to hold, the rest falling half below and half above.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, serde::Serialize, serde::Deserialize)]
#[serde(try_from = "f64", into = "f64")]
pub struct Coverage(f64);

impl Coverage {
    /// Four times in five: what Fellmark shows unless asked.
    pub const FOUR_IN_FIVE: Self = Self(0.8);
    /// Nineteen times in twenty.
    pub const NINETEEN_IN_TWENTY: Self = Self(0.95);

    /// A share between 0.01 and 0.9999.
    /// # Errors
    /// Outside of these.
    pub fn from_share(share: f64) -> Result<Self, Refused> {
        Limits { what: "a coverage", unit: "as a share", least: 0.01, most: 0.9999, zero: false }.take(share).map(Self)
    }
    /// The share.
    pub fn share(self) -> f64 {
        self.0
    }
}

impl Default for Coverage {
    fn default() -> Self {
        Self::FOUR_IN_FIVE
    }
}

impl TryFrom<f64> for Coverage {
    type Error = Refused;
    fn try_from(share: f64) -> Result<Self, Refused> {
        Self::from_share(share)
    }
}

impl From<Coverage> for f64 {
    fn from(value: Coverage) -> f64 {
        value.0
    }
}

/// From low to high around what is likely, and how often it claims to hold.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Span<Q> {
    /// The lower bound.
    pub low: Q,
    /// The middle: as likely to be more as to be less.
    pub likely: Q,
    /// The upper bound.
    pub high: Q,
    /// The share of cases in which the truth lies between `low` and `high`.
    pub coverage: Coverage,
}

impl<Q: Quantity> Span<Q> {
    /// Whether a value lies within, bounds included.
    pub fn holds(&self, value: Q) -> bool {
        self.low <= value && value <= self.high
    }
}

/// How the spread of an estimate lies around what is likely.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Spread {
    /// Normal: a standard deviation in the unit of the quantity.
    Even(f64),
    /// Log-normal: a standard deviation of the logarithm, for what can be off by a factor but not below zero.
    Factor(f64),
}

/// A figure that is known to within a spread.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Estimate<Q> {
    /// The median.
    pub likely: Q,
    /// One standard deviation.
    pub spread: Spread,
}

impl<Q: Quantity> Estimate<Q> {
    /// Known exactly, as far as it matters.
    pub fn exact(likely: Q) -> Self {
        Self { likely, spread: Spread::Even(0.0) }
    }

    /// Within a standard deviation in the quantity's own unit; a negative or missing one counts as none.
    pub fn even(likely: Q, standard_deviation: f64) -> Self {
        Self { likely, spread: Spread::Even(sane(standard_deviation)) }
    }

    /// Within a factor: a standard deviation of the logarithm (0.1 is about ten per cent).
    pub fn factor(likely: Q, standard_deviation: f64) -> Self {
        Self { likely, spread: Spread::Factor(sane(standard_deviation).min(5.0)) }
    }

    /// From a range that someone names, "18 to 22 inches", read as a span that holds four times in five.
    pub fn from_range(low: Q, high: Q) -> Self {
        let (a, b) = (low.raw(), high.raw());
        Self::even(Q::nearest((a + b) / 2.0), (b - a).abs() / 2.0 / FOUR_IN_FIVE_Z)
    }

    /// The standard deviation in the quantity's unit, near what is likely.
    pub fn standard_deviation(&self) -> f64 {
        match self.spread {
            Spread::Even(sd) => sd,
            Spread::Factor(sd) => sd * self.likely.raw().abs(),
        }
    }

    /// The value that is not exceeded with a probability.
    pub fn quantile(&self, probability: f64) -> Q {
        Q::nearest(self.raw_quantile(probability))
    }

    fn raw_quantile(&self, probability: f64) -> f64 {
        let middle = self.likely.raw();
        match self.spread {
            Spread::Even(0.0) | Spread::Factor(0.0) => middle,
            Spread::Even(sd) => middle + sd * normal_quantile(probability),
            Spread::Factor(sd) => middle * (sd * normal_quantile(probability)).exp(),
        }
    }

    /// The span that claims a coverage.
    pub fn span(&self, coverage: Coverage) -> Span<Q> {
        let tail = (1.0 - coverage.share()) / 2.0;
        Span { low: self.quantile(tail), likely: self.likely, high: self.quantile(1.0 - tail), coverage }
    }

    /// The probability that the truth is at least `needed`, 0 to 1.
    pub fn chance_of_at_least(&self, needed: Q) -> f64 {
        let (middle, needed) = (self.likely.raw(), needed.raw());
        match self.spread {
            Spread::Even(sd) if sd > 0.0 => normal((middle - needed) / sd),
            Spread::Factor(sd) if sd > 0.0 && middle > 0.0 => {
                if needed <= 0.0 {
                    1.0
                } else {
                    normal((middle / needed).ln() / sd)
                }
            }
            _ => f64::from(u8::from(middle >= needed)),
        }
    }

    /// Two independent ways of knowing the same thing, each counting by how well it knows (inverse variance).
    #[must_use]
    pub fn combined_with(&self, other: &Self) -> Self {
        let (a, b) = (self.standard_deviation().powi(2), other.standard_deviation().powi(2));
        if a == 0.0 {
            return *self;
        }
        if b == 0.0 {
            return *other;
        }
        let middle = (self.likely.raw() * b + other.likely.raw() * a) / (a + b);
        Self::even(Q::nearest(middle), (a * b / (a + b)).sqrt())
    }
}

fn sane(standard_deviation: f64) -> f64 {
    if standard_deviation.is_finite() { standard_deviation.max(0.0) } else { 0.0 }
}

/// Half the width of a span that holds four times in five, in standard deviations: the 0.9 quantile of the standard normal
/// distribution.
pub const FOUR_IN_FIVE_Z: f64 = 1.281_551_565_544_600_4;

/// The standard normal distribution function: Abramowitz and Stegun 7.1.26 would give seven digits; this is the
/// continued fraction and series of erfc, good to twelve.
pub(crate) fn normal(z: f64) -> f64 {
    if z.is_nan() {
        return 0.5;
    }
    let x = z.abs();
    if x > 38.0 {
        return if z > 0.0 { 1.0 } else { 0.0 };
    }
    let density = (-x * x / 2.0).exp() / (2.0 * std::f64::consts::PI).sqrt();
    let upper = if x < 3.0 {
        // Φ(x) = ½ + φ(x)·(x + x³/3 + x⁵/(3·5) + …)
        let (mut term, mut sum, mut k) = (x, x, 1.0);
        while term > 1e-17 * sum && k < 400.0 {
            k += 2.0;
            term *= x * x / k;
            sum += term;
        }
        0.5 - density * sum
    } else {
        // φ(x) / (x + 1/(x + 2/(x + 3/(x + …))))
        let mut below = x;
        for k in (1..=60).rev() {
            below = x + f64::from(k) / below;
        }
        density / below
    };
    if z > 0.0 { 1.0 - upper } else { upper }
}

/// Its inverse, by bisection on [`normal`]; probabilities are held within 10⁻⁹ of 0 and 1.
pub(crate) fn normal_quantile(probability: f64) -> f64 {
    let p = if probability.is_nan() { 0.5 } else { probability.clamp(1e-9, 1.0 - 1e-9) };
    let (mut low, mut high) = (-7.0, 7.0);
    for _ in 0..60 {
        let middle = (low + high) / 2.0;
        if normal(middle) < p { low = middle } else { high = middle }
    }
    (low + high) / 2.0
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::state::WovenLength;

    #[test]
    fn the_normal_distribution_as_tables_have_it() {
        // Values of Φ from any table: Φ(1) = 0.841 344 746, Φ(1.96) = 0.975 002 105, Φ(4) = 0.999 968 329.
        for (z, p) in [(0.0, 0.5), (1.0, 0.841_344_746), (1.96, 0.975_002_105), (-1.0, 0.158_655_254)] {
            assert!((normal(z) - p).abs() < 1e-9, "{z}");
        }
        assert!((normal(4.0) - 0.999_968_329).abs() < 1e-9);
        assert!((normal_quantile(0.9) - FOUR_IN_FIVE_Z).abs() < 1e-9);
        assert!((normal(2.999_999) - normal(3.000_001)).abs() < 1e-7);
    }

    #[test]
    fn spans_and_chances_agree() {
        let estimate = Estimate::even(WovenLength::from_cm(100.0).unwrap(), 100.0);
        let span = estimate.span(Coverage::FOUR_IN_FIVE);
        assert!((span.low.mm() - 871.8).abs() < 0.1 && (span.high.mm() - 1128.2).abs() < 0.1);
        assert!((estimate.chance_of_at_least(span.low) - 0.9).abs() < 1e-9);
        assert!((estimate.chance_of_at_least(estimate.likely) - 0.5).abs() < 1e-12);
        assert!(span.holds(estimate.likely) && !span.holds(WovenLength::ZERO));
    }

    #[test]
    fn two_ways_of_knowing_are_better_than_one() {
        let a = Estimate::even(WovenLength::from_cm(100.0).unwrap(), 30.0);
        let b = Estimate::even(WovenLength::from_cm(110.0).unwrap(), 10.0);
        let both = a.combined_with(&b);
        assert!((both.likely.cm() - 109.0).abs() < 1e-9);
        assert!(both.standard_deviation() < 10.0);
    }

    #[test]
    fn a_range_holds_four_times_in_five() {
        let (low, high) = (WovenLength::from_cm(18.0).unwrap(), WovenLength::from_cm(22.0).unwrap());
        let span = Estimate::from_range(low, high).span(Coverage::FOUR_IN_FIVE);
        assert!((span.low.cm() - 18.0).abs() < 1e-6 && (span.high.cm() - 22.0).abs() < 1e-6);
    }
}

//! How close threads lie.

use super::quantity;
use crate::error::{Limits, Refused};
use crate::quantity::Length;
use crate::quantity::length::MM_PER_INCH;

quantity! {
    /// Threads per length, ends or picks; threads per centimetre inside (serde: per cm). Between 0.01 and 1000 per cm.
    /// Which threads, and in which state of the cloth, is said by [`crate::state::ThreadsIn`].
    ThreadDensity, per_cm, Limits { what: "a thread count", unit: "per cm", least: 0.01, most: 1000.0, zero: false }
}

/// Threads per inch of a number of threads per 10 cm: an inch is 25.4 mm by definition (international yard and pound agreement,
/// 1959).
#[must_use]
pub fn per_10cm_to_per_inch(per_10cm: f64) -> f64 {
    per_10cm * MM_PER_INCH / 100.0
}

impl ThreadDensity {
    /// Threads per inch: EPI, PPI, the number of a rigid heddle.
    /// # Errors
    /// If zero, negative, no number, or beyond the limits of the type.
    pub fn from_per_inch(n: f64) -> Result<Self, Refused> {
        Self::take(n / 2.54)
    }
    /// Threads per centimetre.
    /// # Errors
    /// As [`Self::from_per_inch`].
    pub fn from_per_cm(n: f64) -> Result<Self, Refused> {
        Self::take(n)
    }
    /// Threads per 10 cm, the metric custom.
    /// # Errors
    /// As [`Self::from_per_inch`].
    pub fn from_per_10cm(n: f64) -> Result<Self, Refused> {
        Self::take(n / 10.0)
    }
    /// So many threads counted over a length (a quarter inch, a yard, 37 inches).
    /// # Errors
    /// As [`Self::from_per_inch`], or if the length is nothing.
    pub fn from_counted(threads: f64, over: Length) -> Result<Self, Refused> {
        Self::take(super::divide("the length counted over", threads, over.cm())?)
    }
    /// Threads per inch.
    pub fn per_inch(self) -> f64 {
        self.0 * 2.54
    }
    /// Threads per centimetre.
    pub fn per_cm(self) -> f64 {
        self.0
    }
    /// Threads per 10 cm.
    pub fn per_10cm(self) -> f64 {
        self.0 * 10.0
    }
    /// How many threads lie in a length, not rounded.
    pub fn threads_in(self, length: Length) -> f64 {
        self.0 * length.cm()
    }
    /// The length that so many threads take up.
    /// # Errors
    /// If `threads` is negative, no number, or the length leaves the limits.
    pub fn length_of(self, threads: f64) -> Result<Length, Refused> {
        Length::from_cm(threads / self.0)
    }
    /// From the middle of one thread to the middle of the next.
    pub fn spacing(self) -> Length {
        super::Quantity::nearest(10.0 / self.0)
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn units_agree() {
        let d = ThreadDensity::from_per_inch(10.0).unwrap();
        assert!((d.per_10cm() - 39.370_078_740_157_48).abs() < 1e-9);
        assert!((ThreadDensity::from_per_10cm(40.0).unwrap().per_inch() - 10.16).abs() < 1e-12);
        let yard = Length::from_yards(1.0).unwrap();
        assert!((ThreadDensity::from_counted(360.0, yard).unwrap().per_inch() - 10.0).abs() < 1e-12);
        assert!((d.spacing().mm() - 2.54).abs() < 1e-12);
        assert!(ThreadDensity::from_per_inch(0.0).is_err());
        assert!(ThreadDensity::from_counted(3.0, Length::ZERO).is_err());
    }
}

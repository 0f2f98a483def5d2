//! Lengths, and the signed difference of two.

use super::{additive, quantity};
use crate::error::{Limits, Refused};

pub(crate) const MM_PER_INCH: f64 = 25.4;

quantity! {
    /// A length of anything, zero or more; millimetres inside (serde: mm). At most 10 000 km, which is more yarn
    /// than a mill order. What kind of length it is, is said by [`crate::state::Extent`].
    Length, mm, Limits { what: "a length", unit: "mm", least: 0.0, most: 1e10, zero: true }
}
additive!(Length);

impl Length {
    /// No length.
    pub const ZERO: Self = Self(0.0);

    /// Millimetres.
    /// # Errors
    /// If negative, no number, or beyond the limits of the type.
    pub fn from_mm(mm: f64) -> Result<Self, Refused> {
        Self::take(mm)
    }
    /// Centimetres.
    /// # Errors
    /// As [`Self::from_mm`].
    pub fn from_cm(cm: f64) -> Result<Self, Refused> {
        Self::take(cm * 10.0)
    }
    /// Metres.
    /// # Errors
    /// As [`Self::from_mm`].
    pub fn from_m(m: f64) -> Result<Self, Refused> {
        Self::take(m * 1000.0)
    }
    /// Inches of exactly 25.4 mm.
    /// # Errors
    /// As [`Self::from_mm`].
    pub fn from_inches(inches: f64) -> Result<Self, Refused> {
        Self::take(inches * MM_PER_INCH)
    }
    /// Feet of 12 inches.
    /// # Errors
    /// As [`Self::from_mm`].
    pub fn from_feet(feet: f64) -> Result<Self, Refused> {
        Self::take(feet * 12.0 * MM_PER_INCH)
    }
    /// Yards of 36 inches (0.9144 m).
    /// # Errors
    /// As [`Self::from_mm`].
    pub fn from_yards(yards: f64) -> Result<Self, Refused> {
        Self::take(yards * 36.0 * MM_PER_INCH)
    }
    /// In millimetres.
    pub fn mm(self) -> f64 {
        self.0
    }
    /// In centimetres.
    pub fn cm(self) -> f64 {
        self.0 / 10.0
    }
    /// In metres.
    pub fn m(self) -> f64 {
        self.0 / 1000.0
    }
    /// In inches.
    pub fn inches(self) -> f64 {
        self.0 / MM_PER_INCH
    }
    /// In yards.
    pub fn yards(self) -> f64 {
        self.0 / (36.0 * MM_PER_INCH)
    }
    /// This less `other`, with its sign: over (positive) or short (negative).
    pub fn minus(self, other: Self) -> LengthBalance {
        LengthBalance(self.0 - other.0)
    }
    /// This less `other`, nothing if `other` is more.
    #[must_use]
    pub fn less(self, other: Self) -> Self {
        Self((self.0 - other.0).max(0.0))
    }
}

/// What is over (positive) or short (negative); millimetres inside (serde: mm). Never clamped to zero.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, serde::Serialize, serde::Deserialize)]
#[serde(try_from = "f64", into = "f64")]
pub struct LengthBalance(f64);

impl LengthBalance {
    const LIMITS: Limits = Limits { what: "a difference of lengths", unit: "mm", least: -1e10, most: 1e10, zero: true };

    /// Millimetres, either sign.
    /// # Errors
    /// If no number or beyond 10 000 km.
    pub fn from_mm(mm: f64) -> Result<Self, Refused> {
        Self::LIMITS.take(mm).map(Self)
    }
    /// In millimetres, negative if short.
    pub fn mm(self) -> f64 {
        self.0
    }
    /// What is over; nothing if short.
    pub fn over(self) -> Length {
        Length(self.0.max(0.0))
    }
    /// What is missing, as a positive length; nothing if there is enough.
    pub fn short(self) -> Length {
        Length((-self.0).max(0.0))
    }
    /// Whether something is missing.
    pub fn is_short(self) -> bool {
        self.0 < 0.0
    }
}

impl TryFrom<f64> for LengthBalance {
    type Error = Refused;
    fn try_from(value: f64) -> Result<Self, Refused> {
        Self::from_mm(value)
    }
}

impl From<LengthBalance> for f64 {
    fn from(value: LengthBalance) -> f64 {
        value.0
    }
}

impl super::Quantity for LengthBalance {
    fn raw(self) -> f64 {
        self.0
    }
    fn nearest(raw: f64) -> Self {
        if raw.is_nan() { Self(Self::LIMITS.least) } else { Self(raw.clamp(Self::LIMITS.least, Self::LIMITS.most)) }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn refuses_what_is_no_length() {
        assert_eq!(Length::from_mm(f64::NAN).unwrap_err().to_string(), "a length has to be a number");
        assert_eq!(Length::from_m(f64::INFINITY).unwrap_err().to_string(), "a length can't be endless");
        assert_eq!(Length::from_inches(-1.0).unwrap_err().to_string(), "a length can't be less than nothing");
        assert!(Length::from_m(1e12).unwrap_err().to_string().contains("too much to be meant"));
        assert_eq!(Length::from_mm(-0.0).unwrap(), Length::ZERO);
    }

    #[test]
    fn a_yard_is_36_inches() {
        assert_eq!(Length::from_yards(1.0).unwrap().mm(), 914.4);
        assert!((Length::from_feet(6.0).unwrap().inches() - 72.0).abs() < 1e-12);
    }

    #[test]
    fn a_shortage_keeps_its_sign() {
        let b = Length::from_m(1.0).unwrap().minus(Length::from_m(1.5).unwrap());
        assert!(b.is_short());
        assert_eq!(b.mm(), -500.0);
        assert_eq!(b.short().cm(), 50.0);
        assert_eq!(b.over(), Length::ZERO);
    }
}

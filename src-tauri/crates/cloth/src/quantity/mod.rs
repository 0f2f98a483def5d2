//! Quantities that carry their unit: one value inside, any unit at the door.
//!
//! Every type here is finite and within limits from the moment it exists; what cannot be meant is refused with a
//! sentence ([`Refused`]). With serde each is one number in the unit named in its documentation; reading a stored
//! number goes through the same door.

mod areal;
mod density;
mod length;
mod mass;
mod yarn_number;

pub use areal::{ClothWeight, FibreDensity, SpecificVolume};
pub use density::{ThreadDensity, per_10cm_to_per_inch};
pub use length::{Length, LengthBalance};
pub use mass::{Mass, waste_percent};
pub use yarn_number::{YarnNumber, YarnSystem, balance_yarn_number, fold, folded_with, unfold};

use crate::error::Refused;

/// What spans and estimates need of a quantity: a plain number in its own unit, and the way back.
pub trait Quantity: Copy + PartialOrd + std::fmt::Debug {
    /// The number in the type's own unit.
    fn raw(self) -> f64;
    /// The nearest value of this type to `raw`; NaN becomes the least value.
    fn nearest(raw: f64) -> Self;
}

/// Writes the parts that every non-negative quantity has in common.
macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident, $raw:ident, $limits:expr) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd, serde::Serialize, serde::Deserialize)]
        #[serde(try_from = "f64", into = "f64")]
        pub struct $name(f64);

        impl $name {
            pub(crate) const LIMITS: $crate::error::Limits = $limits;

            fn take(value: f64) -> Result<Self, $crate::error::Refused> {
                Self::LIMITS.take(value).map(Self)
            }

            /// This many times as much.
            ///
            /// # Errors
            /// If the product is outside what the type takes, or `factor` is no number.
            pub fn times(self, factor: f64) -> Result<Self, $crate::error::Refused> {
                Self::take(self.0 * factor)
            }

            /// How many times `other` goes into this; `None` if `other` is nothing.
            pub fn per(self, other: Self) -> Option<f64> {
                (other.0 != 0.0).then(|| self.0 / other.0)
            }

            /// The smaller of the two.
            #[must_use]
            pub fn min(self, other: Self) -> Self {
                if other.0 < self.0 { other } else { self }
            }

            /// The larger of the two.
            #[must_use]
            pub fn max(self, other: Self) -> Self {
                if other.0 > self.0 { other } else { self }
            }
        }

        impl TryFrom<f64> for $name {
            type Error = $crate::error::Refused;
            fn try_from(value: f64) -> Result<Self, Self::Error> {
                Self::take(value)
            }
        }

        impl From<$name> for f64 {
            fn from(value: $name) -> f64 {
                value.0
            }
        }

        impl $crate::quantity::Quantity for $name {
            fn raw(self) -> f64 {
                self.0
            }
            fn nearest(raw: f64) -> Self {
                let limits = Self::LIMITS;
                let least = if limits.zero { 0.0 } else { limits.least };
                if raw.is_nan() { Self(least) } else { Self(raw.clamp(least, limits.most)) }
            }
        }
    };
}
pub(crate) use quantity;

/// The sum of what can be added, held at the largest value the type takes.
macro_rules! additive {
    ($name:ident) => {
        impl std::ops::Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                $crate::quantity::Quantity::nearest(self.0 + other.0)
            }
        }

        impl std::iter::Sum for $name {
            fn sum<I: Iterator<Item = Self>>(items: I) -> Self {
                items.fold(Self::ZERO, |total, item| total + item)
            }
        }
    };
}
pub(crate) use additive;

/// A division whose divisor may be zero.
pub(crate) fn divide(what: &'static str, of: f64, by: f64) -> Result<f64, Refused> {
    if by == 0.0 { Err(Refused::Zero { what }) } else { Ok(of / by) }
}

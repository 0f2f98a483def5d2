//! Mass.

use super::{additive, quantity};
use crate::error::{Limits, Refused};

pub(crate) const G_PER_POUND: f64 = 453.592_37;

quantity! {
    /// A mass, zero or more; grams inside (serde: g). At most 100 t, since handbook sums run to mill orders.
    Mass, g, Limits { what: "a weight", unit: "g", least: 0.0, most: 1e8, zero: true }
}
additive!(Mass);

impl Mass {
    /// Nothing.
    pub const ZERO: Self = Self(0.0);

    /// Grams.
    /// # Errors
    /// If negative, no number, or beyond the limits of the type.
    pub fn from_g(g: f64) -> Result<Self, Refused> {
        Self::take(g)
    }
    /// Kilograms.
    /// # Errors
    /// As [`Self::from_g`].
    pub fn from_kg(kg: f64) -> Result<Self, Refused> {
        Self::take(kg * 1000.0)
    }
    /// Avoirdupois pounds of 453.592 37 g.
    /// # Errors
    /// As [`Self::from_g`].
    pub fn from_pounds(lb: f64) -> Result<Self, Refused> {
        Self::take(lb * G_PER_POUND)
    }
    /// Avoirdupois ounces, 16 to the pound.
    /// # Errors
    /// As [`Self::from_g`].
    pub fn from_ounces(oz: f64) -> Result<Self, Refused> {
        Self::take(oz * G_PER_POUND / 16.0)
    }
    /// Grains, 7000 to the pound.
    /// # Errors
    /// As [`Self::from_g`].
    pub fn from_grains(grains: f64) -> Result<Self, Refused> {
        Self::take(grains * G_PER_POUND / 7000.0)
    }
    /// In grams.
    pub fn g(self) -> f64 {
        self.0
    }
    /// In kilograms.
    pub fn kg(self) -> f64 {
        self.0 / 1000.0
    }
    /// In pounds.
    pub fn pounds(self) -> f64 {
        self.0 / G_PER_POUND
    }
    /// In ounces.
    pub fn ounces(self) -> f64 {
        self.0 * 16.0 / G_PER_POUND
    }
    /// In grains.
    pub fn grains(self) -> f64 {
        self.0 * 7000.0 / G_PER_POUND
    }
    /// This less `other`, nothing if `other` is more.
    #[must_use]
    pub fn less(self, other: Self) -> Self {
        Self((self.0 - other.0).max(0.0))
    }
}

/// What was wasted as a share of what was used up, in per cent (Brooks, *Cotton Manufacturing*, 1892: 100 × waste ÷
/// yarn used).
///
/// # Errors
/// If nothing was used, or more was wasted than used.
pub fn waste_percent(used: Mass, wasted: Mass) -> Result<f64, Refused> {
    if wasted > used {
        return Err(Refused::DoesNotFit("more can't be wasted than was used".into()));
    }
    super::divide("the yarn used", 100.0 * wasted.0, used.0)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn pounds_ounces_and_grains_agree() {
        let lb = Mass::from_pounds(1.0).unwrap();
        assert!((lb.ounces() - 16.0).abs() < 1e-12 && (lb.grains() - 7000.0).abs() < 1e-9);
        assert!((Mass::from_ounces(16.0).unwrap().g() - lb.g()).abs() < 1e-9);
        assert!((Mass::from_grains(7000.0).unwrap().g() - lb.g()).abs() < 1e-9);
    }

    #[test]
    fn waste_is_a_share_of_what_was_used() {
        let g = |x| Mass::from_g(x).unwrap();
        assert_eq!(waste_percent(g(200.0), g(3.0)).unwrap(), 1.5);
        assert!(waste_percent(g(0.0), g(0.0)).is_err());
        assert!(waste_percent(g(1.0), g(2.0)).is_err());
    }
}

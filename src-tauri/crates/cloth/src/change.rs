//! From one state to the next: take-up and crimp, draw-in, shrinkage, each with one definition.
//!
//! A [`ExtentChange`] holds the ratio after ÷ before and, in its type, *which two lengths were compared*. From it every
//! customary figure is read off, each with its denominator:
//!
//! | figure | definition | share of |
//! | --- | --- | --- |
//! | [`TakeUp`](crate::take_up::TakeUp) | (yarn − cloth) ÷ yarn | the yarn, straightened (ASTM D3883-04(2020) §4) |
//! | [`Crimp`](crate::take_up::Crimp) | (yarn − cloth) ÷ cloth | the length in the cloth |
//! | shrinkage | (before − after) ÷ before | before; positive when smaller, as weavers say it |
//! | dimensional change | (after − before) ÷ before | before; negative when smaller (ISO 5077, AATCC 135) |
//! | draw-in | (reed − cloth) ÷ reed | the width in the reed |
//!
//! Stages multiply ([`ExtentChange::then`]); per cents never add. Take-up can be negative, since a warp stretches under
//! tension (−2.7 % seen): nothing here is clamped to zero.

use std::marker::PhantomData;

use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::error::{Refused, share};
use crate::quantity::{Length, Quantity};
use crate::state::{
    Across, Along, Axis, Extent, Finished, InReed, MeasuredState, OffLoom, Straight, ThreadsIn, UnderTension,
};

/// Least and most that a change can be: to a twentieth, or to twenty times.
pub(crate) const LEAST_RATIO: f64 = 0.05;
pub(crate) const MOST_RATIO: f64 = 20.0;

/// What becomes of an extent on the way from state `A` to state `B`, along one axis.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct ExtentChange<D, A, B> {
    ratio: f64,
    of: PhantomData<(D, A, B)>,
}

/// Warp against cloth in state `S`: "100 cm of cloth uses 110 cm of warp". Its crimp is the *u* of what is left on the loom.
pub type WarpUse<S> = ExtentChange<Along, Straight, S>;
/// Weft against the width of the cloth in state `S`: "a pick across 50 cm of cloth uses 54 cm of weft".
pub type WeftUse<S> = ExtentChange<Across, Straight, S>;
/// What happens on release of tension, lengthwise.
pub type Release = ExtentChange<Along, UnderTension, OffLoom>;
/// What the wash does, lengthwise.
pub type WashLength = ExtentChange<Along, OffLoom, Finished>;
/// What the wash does across.
pub type WashWidth = ExtentChange<Across, OffLoom, Finished>;
/// How much narrower than the reed the cloth is in state `S`.
pub type DrawIn<S> = ExtentChange<Across, InReed, S>;

impl<D: Axis, A: MeasuredState, B: MeasuredState> ExtentChange<D, A, B> {
    /// Nothing changes.
    pub const NONE: Self = Self { ratio: 1.0, of: PhantomData };

    /// After ÷ before.
    /// # Errors
    /// If no number, or outside a twentieth to twenty times.
    pub fn from_ratio(ratio: f64) -> Result<Self, Refused> {
        share("a change of size", ratio, LEAST_RATIO, MOST_RATIO)?;
        Ok(Self { ratio, of: PhantomData })
    }

    /// The two lengths as measured.
    /// # Errors
    /// If one is nothing, or they differ more than twentyfold.
    pub fn between(before: Extent<D, A>, after: Extent<D, B>) -> Result<Self, Refused> {
        Self::from_ratio(crate::quantity::divide("the size before", after.mm(), before.mm())?)
    }

    /// Shrinkage as weavers say it, in per cent of before, positive when smaller.
    /// # Errors
    /// If no number, or outside −1900 % to 95 %.
    pub fn from_shrinkage_percent(percent: f64) -> Result<Self, Refused> {
        share("a shrinkage", percent / 100.0, 1.0 - MOST_RATIO, 1.0 - LEAST_RATIO)?;
        Self::from_ratio(1.0 - percent / 100.0)
    }

    /// Dimensional change as the standards say it, in per cent of before, negative when smaller.
    /// # Errors
    /// If no number, or outside −95 % to 1900 %.
    pub fn from_dimensional_change_percent(percent: f64) -> Result<Self, Refused> {
        Self::from_shrinkage_percent(-percent)
    }

    /// After ÷ before.
    pub fn ratio(self) -> f64 {
        self.ratio
    }
    /// (before − after) ÷ before in per cent: positive when smaller.
    pub fn shrinkage_percent(self) -> f64 {
        (1.0 - self.ratio) * 100.0
    }
    /// (after − before) ÷ before in per cent: negative when smaller (ISO 5077).
    pub fn dimensional_change_percent(self) -> f64 {
        (self.ratio - 1.0) * 100.0
    }
    /// What becomes of it.
    /// # Errors
    /// If the result leaves the limits of its type.
    pub fn after(self, before: Extent<D, A>) -> Result<Extent<D, B>, Refused> {
        Extent::from_mm(before.mm() * self.ratio)
    }
    /// What it takes to end with `after`: after ÷ ratio, never after × (1 + shrinkage).
    /// # Errors
    /// If the result leaves the limits of its type.
    pub fn before(self, after: Extent<D, B>) -> Result<Extent<D, A>, Refused> {
        Extent::from_mm(after.mm() / self.ratio)
    }
    /// This stage and the next: the ratios multiply.
    /// # Errors
    /// If both together leave the limits.
    pub fn then<C: MeasuredState>(self, next: ExtentChange<D, B, C>) -> Result<ExtentChange<D, A, C>, Refused> {
        ExtentChange::from_ratio(self.ratio * next.ratio)
    }
    /// The stage after `first` that makes both together this.
    /// # Errors
    /// If that leaves the limits.
    pub fn rest_after<C: MeasuredState>(self, first: ExtentChange<D, A, C>) -> Result<ExtentChange<D, C, B>, Refused> {
        ExtentChange::from_ratio(self.ratio / first.ratio)
    }
    /// Threads stay, their density does not: divided by the ratio.
    /// # Errors
    /// If the result leaves the limits.
    pub fn density_after(self, before: ThreadsIn<D, A>) -> Result<ThreadsIn<D, B>, Refused> {
        Ok(ThreadsIn::new(before.density().times(1.0 / self.ratio)?))
    }
    /// The density it takes to end with `after`.
    /// # Errors
    /// If the result leaves the limits.
    pub fn density_before(self, after: ThreadsIn<D, B>) -> Result<ThreadsIn<D, A>, Refused> {
        Ok(ThreadsIn::new(after.density().times(self.ratio)?))
    }

    pub(crate) fn nearest(ratio: f64) -> Self {
        let ratio = if ratio.is_nan() { 1.0 } else { ratio.clamp(LEAST_RATIO, MOST_RATIO) };
        Self { ratio, of: PhantomData }
    }
}

#[derive(Serialize, Deserialize)]
struct Stored {
    axis: String,
    from: String,
    to: String,
    ratio: f64,
}

impl<D: Axis, A: MeasuredState, B: MeasuredState> Serialize for ExtentChange<D, A, B> {
    fn serialize<T: Serializer>(&self, to: T) -> Result<T::Ok, T::Error> {
        Stored { axis: D::WORD.into(), from: A::NAME.into(), to: B::NAME.into(), ratio: self.ratio }.serialize(to)
    }
}

impl<'de, D: Axis, A: MeasuredState, B: MeasuredState> Deserialize<'de> for ExtentChange<D, A, B> {
    fn deserialize<T: Deserializer<'de>>(from: T) -> Result<Self, T::Error> {
        use serde::de::Error;
        let stored = Stored::deserialize(from)?;
        if stored.axis != D::WORD || stored.from != A::NAME || stored.to != B::NAME {
            return Err(T::Error::custom(format!(
                "this compares {} {} with {}, not {} {} with {}",
                stored.axis,
                stored.from,
                stored.to,
                D::WORD,
                A::NAME,
                B::NAME
            )));
        }
        Self::from_ratio(stored.ratio).map_err(T::Error::custom)
    }
}

/// An allowance that a weaver names and adds: so many per cent *of the length it is added to*. Not a take-up; adding it
/// to a finished size falls short of what take-up and shrinkage eat (2.8 % at 10 %/10 %).
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(try_from = "f64", into = "f64")]
pub struct Allowance(f64);

impl Allowance {
    /// Nothing added.
    pub const NONE: Self = Self(0.0);
    /// Per cent added (negative takes away).
    /// # Errors
    /// If no number, or outside −90 % to 900 %.
    pub fn from_percent(percent: f64) -> Result<Self, Refused> {
        share("an allowance", percent / 100.0, -0.9, 9.0).map(Self)
    }
    /// Per cent added.
    pub fn percent(self) -> f64 {
        self.0 * 100.0
    }
    /// length × (1 + allowance).
    /// # Errors
    /// If the result leaves the limits.
    pub fn added_to(self, length: Length) -> Result<Length, Refused> {
        length.times(1.0 + self.0)
    }
    /// length ÷ (1 + allowance): what a length with the allowance in it was without.
    /// # Errors
    /// If the result leaves the limits.
    pub fn taken_off(self, length: Length) -> Result<Length, Refused> {
        length.times(1.0 / (1.0 + self.0))
    }
}

impl TryFrom<f64> for Allowance {
    type Error = Refused;
    fn try_from(share: f64) -> Result<Self, Refused> {
        Self::from_percent(share * 100.0)
    }
}

impl From<Allowance> for f64 {
    fn from(value: Allowance) -> f64 {
        value.0
    }
}

impl<D: Axis, A: MeasuredState, B: MeasuredState> Quantity for ExtentChange<D, A, B> {
    fn raw(self) -> f64 {
        self.ratio
    }
    fn nearest(raw: f64) -> Self {
        Self::nearest(raw)
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::state::FinishedLength;

    #[test]
    fn woven_is_finished_divided() {
        let wash = WashLength::from_shrinkage_percent(20.0).unwrap();
        assert!((wash.before(FinishedLength::from_m(1.0).unwrap()).unwrap().m() - 1.25).abs() < 1e-12);
        assert_eq!(wash.dimensional_change_percent(), -wash.shrinkage_percent());
    }

    #[test]
    fn stages_multiply_and_divide() {
        let release = Release::from_ratio(0.9).unwrap();
        let wash = WashLength::from_ratio(0.8).unwrap();
        let both = release.then(wash).unwrap();
        assert!((both.ratio() - 0.72).abs() < 1e-12);
        assert!((both.rest_after(release).unwrap().ratio() - 0.8).abs() < 1e-12);
    }

    #[test]
    fn a_stored_change_says_what_it_compares() {
        let text = serde_json::to_string(&WashLength::from_ratio(0.9).unwrap()).unwrap();
        assert_eq!(text, r#"{"axis":"length","from":"off_loom","to":"finished","ratio":0.9}"#);
        assert!(serde_json::from_str::<WashLength>(&text).is_ok());
        assert!(serde_json::from_str::<WashWidth>(&text).is_err());
        assert!(serde_json::from_str::<Release>(&text).is_err());
    }

    #[test]
    fn picks_stay_their_density_does_not() {
        let wash = WashLength::from_ratio(0.8).unwrap();
        let before = ThreadsIn::from_per_inch(10.0).unwrap();
        assert!((wash.density_after(before).unwrap().density().per_inch() - 12.5).abs() < 1e-12);
    }
}

//! The state a length, a width or a thread count belongs to, kept in its type.
//!
//! The same cloth is one length under tension on the loom, another off the loom, a third after the wash; yarn
//! drawn out straight is longer than all three (as a rule: a warp stretches, so cloth under tension can be longer
//! than the warp it took). None of these can be added to, or compared with, another here; a
//! [`ExtentChange`](crate::change::ExtentChange) leads from one to the next.

use std::fmt::Debug;
use std::marker::PhantomData;

use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::error::{Limits, Refused};
use crate::quantity::{Length, LengthBalance, Quantity, ThreadDensity};

/// Along the warp or across it.
pub trait Axis: Copy + Debug + PartialEq + PartialOrd + 'static {
    /// "length" or "width".
    const WORD: &'static str;
    /// The most that is taken, in mm.
    const MOST_MM: f64;
}

/// In which state something was measured.
pub trait MeasuredState: Copy + Debug + PartialEq + PartialOrd + 'static {
    /// The name it has in stored data.
    const NAME: &'static str;
    /// As said in a sentence after the length: "under tension".
    const WORDS: &'static str;
}

macro_rules! marker {
    ($($(#[$doc:meta])* $name:ident: $of:ident { $($body:tt)* })*) => {$(
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name;
        impl $of for $name { $($body)* }
    )*};
}

marker! {
    /// Along the warp; up to 10 km, a mill beam.
    Along: Axis { const WORD: &'static str = "length"; const MOST_MM: f64 = 1e7; }
    /// Across the warp; up to 20 m, more than any loom is wide.
    Across: Axis { const WORD: &'static str = "width"; const MOST_MM: f64 = 2e4; }
    /// The yarn itself, straight: a warp end as wound, a pick drawn out of the cloth.
    Straight: MeasuredState { const NAME: &'static str = "straight"; const WORDS: &'static str = "of straight yarn"; }
    /// Spread in the reed or the rigid heddle (widths only).
    InReed: MeasuredState { const NAME: &'static str = "in_reed"; const WORDS: &'static str = "in the reed"; }
    /// On the loom, at the fell, under tension.
    UnderTension: MeasuredState { const NAME: &'static str = "under_tension"; const WORDS: &'static str = "under tension"; }
    /// Off tension, not yet washed.
    OffLoom: MeasuredState { const NAME: &'static str = "off_loom"; const WORDS: &'static str = "off the loom"; }
    /// After wet finishing.
    Finished: MeasuredState { const NAME: &'static str = "finished"; const WORDS: &'static str = "finished"; }
}

/// A length or width in one state, zero or more (serde: mm).
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Extent<D, S> {
    length: Length,
    of: PhantomData<(D, S)>,
}

/// Warp as wound: the length of its ends.
pub type WarpLength = Extent<Along, Straight>;
/// Cloth on the loom under tension.
pub type WovenLength = Extent<Along, UnderTension>;
/// Cloth off the loom, unwashed.
pub type RelaxedLength = Extent<Along, OffLoom>;
/// Cloth after the wash.
pub type FinishedLength = Extent<Along, Finished>;
/// Width of the warp in the reed.
pub type ReedWidth = Extent<Across, InReed>;
/// Width of the cloth at the fell, under tension.
pub type FellWidth = Extent<Across, UnderTension>;
/// Width off the loom, unwashed.
pub type RelaxedWidth = Extent<Across, OffLoom>;
/// Width after the wash.
pub type FinishedWidth = Extent<Across, Finished>;
/// Yarn in one pick.
pub type PickLength = Extent<Across, Straight>;

impl<D: Axis, S: MeasuredState> Extent<D, S> {
    /// Nothing yet.
    pub const ZERO: Self = Self { length: Length::ZERO, of: PhantomData };
    const LIMITS: Limits = Limits { what: D::WORD, unit: "mm", least: 0.0, most: D::MOST_MM, zero: true };

    /// A measured length, said to be of this axis and state.
    ///
    /// # Errors
    /// Above 10 km of length or 20 m of width.
    pub fn new(length: Length) -> Result<Self, Refused> {
        Self::LIMITS.take(length.mm())?;
        Ok(Self { length, of: PhantomData })
    }

    /// Millimetres.
    /// # Errors
    /// If negative, no number, or above the limits.
    pub fn from_mm(mm: f64) -> Result<Self, Refused> {
        Self::new(Length::from_mm(Self::LIMITS.take(mm)?)?)
    }
    /// Centimetres.
    /// # Errors
    /// As [`Self::from_mm`].
    pub fn from_cm(cm: f64) -> Result<Self, Refused> {
        Self::new(Length::from_cm(cm)?)
    }
    /// Metres.
    /// # Errors
    /// As [`Self::from_mm`].
    pub fn from_m(m: f64) -> Result<Self, Refused> {
        Self::new(Length::from_m(m)?)
    }
    /// Inches.
    /// # Errors
    /// As [`Self::from_mm`].
    pub fn from_inches(inches: f64) -> Result<Self, Refused> {
        Self::new(Length::from_inches(inches)?)
    }
    /// Yards.
    /// # Errors
    /// As [`Self::from_mm`].
    pub fn from_yards(yards: f64) -> Result<Self, Refused> {
        Self::new(Length::from_yards(yards)?)
    }

    /// The bare length, for showing; its state is no longer known to the compiler.
    pub fn length(self) -> Length {
        self.length
    }
    /// In millimetres.
    pub fn mm(self) -> f64 {
        self.length.mm()
    }
    /// In centimetres.
    pub fn cm(self) -> f64 {
        self.length.cm()
    }
    /// In metres.
    pub fn m(self) -> f64 {
        self.length.m()
    }
    /// In inches.
    pub fn inches(self) -> f64 {
        self.length.inches()
    }
    /// In yards.
    pub fn yards(self) -> f64 {
        self.length.yards()
    }
    /// This many times as long.
    /// # Errors
    /// If the product leaves the limits or `factor` is no number.
    pub fn times(self, factor: f64) -> Result<Self, Refused> {
        Self::new(self.length.times(factor)?)
    }
    /// This less `other`, with its sign.
    pub fn minus(self, other: Self) -> LengthBalance {
        self.length.minus(other.length)
    }
    /// This less `other`, nothing if `other` is more.
    #[must_use]
    pub fn less(self, other: Self) -> Self {
        Self::nearest(self.mm() - other.mm())
    }
    /// The smaller of the two.
    #[must_use]
    pub fn min(self, other: Self) -> Self {
        if other.mm() < self.mm() { other } else { self }
    }
    /// The larger of the two.
    #[must_use]
    pub fn max(self, other: Self) -> Self {
        if other.mm() > self.mm() { other } else { self }
    }
    /// Rounded up to a whole number of steps: a warp is never wound short.
    /// A hair's breadth over a step (a millionth of it) does not count.
    /// # Errors
    /// If the step is nothing.
    pub fn rounded_up_to(self, step: Length) -> Result<Self, Refused> {
        let steps = crate::quantity::divide("the step to round up to", self.mm(), step.mm())?;
        Self::from_mm((steps - 1e-6).ceil().max(0.0) * step.mm())
    }
}

impl<D: Axis, S: MeasuredState> std::ops::Add for Extent<D, S> {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::nearest(self.mm() + other.mm())
    }
}

impl<D: Axis, S: MeasuredState> std::iter::Sum for Extent<D, S> {
    fn sum<I: Iterator<Item = Self>>(items: I) -> Self {
        items.fold(Self::ZERO, |total, item| total + item)
    }
}

impl<D: Axis, S: MeasuredState> Quantity for Extent<D, S> {
    fn raw(self) -> f64 {
        self.mm()
    }
    fn nearest(raw: f64) -> Self {
        let mm = if raw.is_nan() { 0.0 } else { raw.clamp(0.0, D::MOST_MM) };
        Self { length: Length::nearest(mm), of: PhantomData }
    }
}

impl<D: Axis, S: MeasuredState> Serialize for Extent<D, S> {
    fn serialize<T: Serializer>(&self, to: T) -> Result<T::Ok, T::Error> {
        to.serialize_f64(self.mm())
    }
}

impl<'de, D: Axis, S: MeasuredState> Deserialize<'de> for Extent<D, S> {
    fn deserialize<T: Deserializer<'de>>(from: T) -> Result<Self, T::Error> {
        Self::from_mm(f64::deserialize(from)?).map_err(serde::de::Error::custom)
    }
}

/// How close threads lie along an axis, in one state of the cloth. Picks are conserved when cloth changes its
/// length, picks per inch are not.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct ThreadsIn<D, S> {
    density: ThreadDensity,
    of: PhantomData<(D, S)>,
}

/// Picks per length, counted along the warp in state `S`.
pub type PicksIn<S> = ThreadsIn<Along, S>;
/// Ends per width, counted across in state `S`.
pub type EndsIn<S> = ThreadsIn<Across, S>;

impl<D: Axis, S: MeasuredState> ThreadsIn<D, S> {
    /// A counted density, said to be of this axis and state.
    pub fn new(density: ThreadDensity) -> Self {
        Self { density, of: PhantomData }
    }
    /// Per inch.
    /// # Errors
    /// If zero, negative, no number, or absurd.
    pub fn from_per_inch(n: f64) -> Result<Self, Refused> {
        ThreadDensity::from_per_inch(n).map(Self::new)
    }
    /// Per 10 cm.
    /// # Errors
    /// If zero, negative, no number, or absurd.
    pub fn from_per_10cm(n: f64) -> Result<Self, Refused> {
        ThreadDensity::from_per_10cm(n).map(Self::new)
    }
    /// Several stretches counted and measured in one state: the sum of the threads over the sum of the lengths, never
    /// the mean of the rates.
    /// # Errors
    /// If nothing was measured.
    pub fn from_counts(counts: &[(f64, Extent<D, S>)]) -> Result<Self, Refused> {
        let threads: f64 = counts.iter().map(|(threads, _)| threads).sum();
        let length: Extent<D, S> = counts.iter().map(|(_, length)| *length).sum();
        ThreadDensity::from_counted(threads, length.length()).map(Self::new)
    }
    /// The bare density, for showing.
    pub fn density(self) -> ThreadDensity {
        self.density
    }
    /// How many threads lie in an extent of the same state, not rounded.
    pub fn threads_in(self, extent: Extent<D, S>) -> f64 {
        self.density.threads_in(extent.length())
    }
    /// The extent that so many threads take up in this state.
    /// # Errors
    /// If `threads` is negative, no number, or the extent leaves the limits.
    pub fn extent_of(self, threads: f64) -> Result<Extent<D, S>, Refused> {
        Extent::new(self.density.length_of(threads)?)
    }
}

impl<S: MeasuredState> PicksIn<S> {
    /// Picks in a millimetre.
    pub fn picks_per_mm(self) -> f64 {
        self.density.per_cm() / 10.0
    }
}

impl<D: Axis, S: MeasuredState> Serialize for ThreadsIn<D, S> {
    fn serialize<T: Serializer>(&self, to: T) -> Result<T::Ok, T::Error> {
        self.density.serialize(to)
    }
}

impl<'de, D: Axis, S: MeasuredState> Deserialize<'de> for ThreadsIn<D, S> {
    fn deserialize<T: Deserializer<'de>>(from: T) -> Result<Self, T::Error> {
        ThreadDensity::deserialize(from).map(Self::new)
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn rounding_goes_up() {
        let step = Length::from_yards(0.25).unwrap();
        let up = |inches| WarpLength::from_inches(inches).unwrap().rounded_up_to(step).unwrap().inches();
        assert!((up(109.0) - 117.0).abs() < 1e-9);
        assert!((up(108.0) - 108.0).abs() < 1e-9);
        assert_eq!(up(0.0), 0.0);
        assert!(WarpLength::from_m(1.0).unwrap().rounded_up_to(Length::ZERO).is_err());
    }

    #[test]
    fn absurd_widths_are_refused() {
        assert!(ReedWidth::from_m(30.0).is_err());
        assert!(WovenLength::from_m(30_000.0).is_err());
        assert!(serde_json::from_str::<WovenLength>("-3").is_err());
        assert_eq!(serde_json::from_str::<WovenLength>("30.5").unwrap().mm(), 30.5);
    }

    #[test]
    fn rates_are_sums_divided() {
        // Derived from the definition: 160 picks in 15 in, not the mean of 10 and 12.
        let l = |inches| WovenLength::from_inches(inches).unwrap();
        let ppi = PicksIn::from_counts(&[(100.0, l(10.0)), (60.0, l(5.0))]).unwrap();
        assert!((ppi.density().per_inch() - 160.0 / 15.0).abs() < 1e-9);
        assert!(PicksIn::<UnderTension>::from_counts(&[]).is_err());
    }
}

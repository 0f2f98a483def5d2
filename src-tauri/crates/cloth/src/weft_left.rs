//! Weft left, by its length and by the scale.
//!
//! Better than theory is what this cloth used: grams per length woven, from weighings. A kitchen scale reads to ±1 g,
//! and that is carried through: ±1 g on 20 g used is ±5 %.

use crate::error::Refused;
use crate::measurement_errors::MeasurementErrors;
use crate::quantity::{Length, Mass, Quantity, YarnNumber};
use crate::span::{Estimate, Spread};
use crate::state::{PickLength, PicksIn, UnderTension, WovenLength};

/// A weighing of the weft yarn, shuttle or tube and all.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct ScaleReading {
    /// What the scale showed.
    #[serde(rename = "shown_g")]
    pub shown: Mass,
    /// The empty shuttle, tube or bowl.
    #[serde(rename = "tare_g")]
    pub tare: Mass,
    /// Whether it was given as about so much.
    #[serde(default)]
    pub rough: bool,
}

impl ScaleReading {
    /// The yarn alone.
    /// # Errors
    /// If the empty shuttle weighs more than the full one.
    pub fn yarn(&self) -> Result<Mass, Refused> {
        if self.tare > self.shown {
            return Err(Refused::DoesNotFit("the empty shuttle can't weigh more than with yarn on it".into()));
        }
        Ok(self.shown.less(self.tare))
    }

    /// Standard deviation of the yarn's weight, grams.
    fn deviation(&self, errors: &MeasurementErrors) -> f64 {
        let about = if self.rough { self.shown.less(self.tare).g() * errors.about_share } else { 0.0 };
        scale_deviation(errors).hypot(about)
    }
}

/// What the weft left is still good for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeftLeft {
    /// By mass, where it was weighed or the yarn number is known.
    pub mass: Option<Estimate<Mass>>,
    /// By length, where the yarn number is known.
    pub yarn: Option<Estimate<Length>>,
    /// Cloth still possible with it, under tension.
    pub cloth: Estimate<WovenLength>,
    /// Picks still possible, likely; `None` if no rate of picks is known.
    pub picks: Option<f64>,
}

/// Standard deviation of a reading that is anywhere within ±`scale_g`.
fn scale_deviation(errors: &MeasurementErrors) -> f64 {
    errors.scale_g / 3f64.sqrt()
}

/// Weft used per length woven, from two weighings and the cloth between them: grams per metre of cloth under tension.
/// # Errors
/// If nothing was woven between, or the yarn grew heavier.
pub fn weft_per_length(before: Mass, after: Mass, woven: WovenLength) -> Result<f64, Refused> {
    if after > before {
        return Err(Refused::DoesNotFit("the yarn weighs more than before: was it a different one?".into()));
    }
    crate::quantity::divide("the cloth woven between the weighings", before.g() - after.g(), woven.m())
}

/// Cloth that the weft left still makes if it goes on as it did: left × woven ÷ used, the exact relation without
/// spreads.
/// # Errors
/// If nothing was used, or the result leaves the limits.
pub fn cloth_by_scale(used: Mass, woven: WovenLength, left: Mass) -> Result<WovenLength, Refused> {
    woven.times(crate::quantity::divide("the weft used", left.g(), used.g())?)
}

/// Weft left by the scale: what two weighings show this cloth to use, applied to what is left. `reserve` is set aside
/// for hemstitching and joins.
///
/// # Errors
/// If nothing was used or woven between the weighings.
pub fn weft_left_by_scale(
    before: ScaleReading,
    now: ScaleReading,
    woven_between: &Estimate<WovenLength>,
    reserve: Mass,
    rate: Option<PicksIn<UnderTension>>,
    errors: &MeasurementErrors,
) -> Result<WeftLeft, Refused> {
    let (start, left) = (before.yarn()?, now.yarn()?);
    let used = start.g() - left.g();
    weft_per_length(start, left, woven_between.likely)?;
    if used <= 0.0 {
        return Err(Refused::DoesNotFit(
            "too little was used between the weighings to tell how much this cloth takes".into(),
        ));
    }
    let usable = left.less(reserve);
    let cloth = cloth_by_scale(start.less(left), woven_between.likely, usable)?;
    // ln L = ln(left − reserve) + ln(woven) − ln(start − left), the reading `now` in two of them.
    let sd = now.deviation(errors);
    let of_now = 1.0 / usable.g().max(sd) + 1.0 / used;
    let variance = (sd * of_now).powi(2)
        + (before.deviation(errors) / used).powi(2)
        + (woven_between.standard_deviation() / woven_between.likely.mm()).powi(2)
        + errors.wander_variance(cloth, woven_between.likely);
    Ok(WeftLeft {
        mass: Some(Estimate::even(left, sd)),
        yarn: None,
        cloth: Estimate::factor(cloth, variance.sqrt()),
        picks: rate.map(|rate| rate.threads_in(cloth).floor()),
    })
}

/// Weft left by its length: picks × the length of a pick, both as estimates. `left` is what is known of the yarn left,
/// a measured length or a mass over the label's yarn number (see [`length_from_label`]).
///
/// # Errors
/// If a pick has no length.
pub fn weft_left_by_length(
    left: &Estimate<Length>,
    yarn: Option<YarnNumber>,
    pick: PickLength,
    rate: PicksIn<UnderTension>,
    reserve: Length,
    errors: &MeasurementErrors,
) -> Result<WeftLeft, Refused> {
    let usable = left.likely.less(reserve);
    let picks = crate::weft::picks_from_yarn(usable, pick)?;
    let cloth = rate.extent_of(picks)?;
    let left_share = if usable == Length::ZERO { 0.0 } else { left.standard_deviation() / usable.mm() };
    let spread = left_share.hypot(errors.pick_share).hypot(errors.rate_share);
    Ok(WeftLeft {
        mass: match yarn {
            Some(yarn) => Some(Estimate { likely: yarn.mass_of(left.likely)?, spread: Spread::Factor(relative(left)) }),
            None => None,
        },
        yarn: Some(*left),
        cloth: Estimate::factor(cloth, spread),
        picks: Some(picks.floor()),
    })
}

fn relative<Q: Quantity>(estimate: &Estimate<Q>) -> f64 {
    let likely = estimate.likely.raw();
    if likely > 0.0 { estimate.standard_deviation() / likely } else { 0.0 }
}

/// A yarn's length from its mass and a label's number: the scale's and the label's errors together.
/// # Errors
/// If the length is absurd.
pub fn length_from_label(
    mass: Mass,
    yarn: YarnNumber,
    errors: &MeasurementErrors,
) -> Result<Estimate<Length>, Refused> {
    let length = yarn.length_of(mass)?;
    let scale = if mass == Mass::ZERO { 0.0 } else { scale_deviation(errors) / mass.g() };
    Ok(Estimate::factor(length, scale.hypot(errors.label_share)))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::span::Coverage;

    fn reading(g: f64) -> ScaleReading {
        ScaleReading { shown: Mass::from_g(g + 30.0).unwrap(), tare: Mass::from_g(30.0).unwrap(), rough: false }
    }

    fn by_scale(before: f64, now: f64, woven_cm: f64) -> Result<WeftLeft, Refused> {
        let woven = Estimate::exact(WovenLength::from_cm(woven_cm).unwrap());
        weft_left_by_scale(reading(before), reading(now), &woven, Mass::ZERO, None, &MeasurementErrors::default())
    }

    #[test]
    fn forty_used_on_half_a_metre_leaves_as_much_cloth_for_forty() {
        let left = by_scale(80.0, 40.0, 50.0).unwrap();
        assert!((left.cloth.likely.cm() - 50.0).abs() < 1e-9);
    }

    #[test]
    fn a_rough_weighing_is_known_the_less() {
        let woven = Estimate::exact(WovenLength::from_cm(50.0).unwrap());
        let deviation = |rough| {
            let now = ScaleReading { rough, ..reading(40.0) };
            let left = weft_left_by_scale(reading(80.0), now, &woven, Mass::ZERO, None, &MeasurementErrors::default())
                .unwrap();
            (left.cloth.likely, left.cloth.standard_deviation(), left.mass.unwrap().standard_deviation())
        };
        let (exact, about) = (deviation(false), deviation(true));
        assert_eq!(exact.0, about.0);
        // A tenth of the yarn's 40 g, not of the shuttle with it, in both places where the reading stands.
        assert!((about.2.powi(2) - exact.2.powi(2) - 16.0).abs() < 1e-9, "{exact:?} {about:?}");
        assert!(about.1 > 2.0 * exact.1, "{exact:?} {about:?}");
    }

    #[test]
    fn little_used_is_little_known() {
        let wide = by_scale(80.0, 77.0, 4.0).unwrap().cloth.span(Coverage::FOUR_IN_FIVE);
        let narrow = by_scale(80.0, 40.0, 50.0).unwrap().cloth.span(Coverage::FOUR_IN_FIVE);
        assert!(wide.high.mm() / wide.low.mm() > 1.5 * narrow.high.mm() / narrow.low.mm());
        assert!(by_scale(80.0, 80.0, 4.0).is_err());
        assert!(by_scale(80.0, 81.0, 4.0).is_err());
        assert!(by_scale(80.0, 70.0, 0.0).is_err());
        let heavy = ScaleReading { shown: Mass::ZERO, tare: Mass::from_g(1.0).unwrap(), rough: false };
        assert!(heavy.yarn().is_err());
    }

    #[test]
    fn the_reserve_is_not_woven() {
        let woven = Estimate::exact(WovenLength::from_cm(50.0).unwrap());
        let reserve = Mass::from_g(4.0).unwrap();
        let left =
            weft_left_by_scale(reading(80.0), reading(40.0), &woven, reserve, None, &MeasurementErrors::default())
                .unwrap();
        assert!((left.cloth.likely.cm() - 45.0).abs() < 1e-9);
    }

    #[test]
    fn by_length_goes_by_picks() {
        let left = Estimate::exact(Length::from_m(30.0).unwrap());
        let pick = PickLength::from_cm(30.0).unwrap();
        let rate = PicksIn::from_per_10cm(40.0).unwrap();
        let by = weft_left_by_length(&left, None, pick, rate, Length::ZERO, &MeasurementErrors::default()).unwrap();
        assert_eq!(by.picks, Some(100.0));
        assert!((by.cloth.likely.cm() - 25.0).abs() < 1e-9);
    }
}

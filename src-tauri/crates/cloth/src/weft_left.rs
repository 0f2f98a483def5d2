//! Weft left, by its length and by the scale.
//!
//! Better than theory is what this cloth used: grams per length woven, from weighings. A kitchen scale reads to ±1 g,
//! and that is carried through: ±1 g on 20 g used is ±5 %.

use crate::error::Refused;
use crate::measurement_errors::MeasurementErrors;
use crate::quantity::{Length, LengthBalance, Mass, Quantity, YarnNumber};
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

impl WeftLeft {
    /// The same after so much more was woven with it: that much less is possible, known as well as before. `rate` gives the picks.
    #[must_use]
    pub fn after_weaving(self, woven: WovenLength, rate: Option<PicksIn<UnderTension>>) -> Self {
        if woven == WovenLength::ZERO {
            return self;
        }
        let cloth = self.cloth.likely.less(woven);
        Self {
            cloth: Estimate::even(cloth, self.cloth.standard_deviation()),
            picks: rate.map(|rate| rate.threads_in(cloth).floor()),
            ..self
        }
    }
}

/// Cloth between two weighings below which they do not tell what a cloth takes, mm: the scale's error would be all there is.
/// Judgement, no source.
pub const LEAST_CLOTH_BETWEEN_WEIGHINGS_MM: f64 = 10.0;

/// From this share of a yarn left down it is half gone; and from the second share up there is still time to mirror a sequence.
/// Judgement, no source.
const HALF_GONE: (f64, f64) = (0.42, 0.55);

/// Whether about half of a yarn is gone, by the share of it that is left (0 to 1).
pub fn is_half_gone(share_left: f64) -> bool {
    (HALF_GONE.0..=HALF_GONE.1).contains(&share_left)
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

/// A yarn whose length was known once, after some picks of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct YarnAfterPicks {
    /// What the picks took.
    pub used: Length,
    /// What is left, nothing at the least.
    pub left: Estimate<Length>,
}

/// What is left of a yarn that was `known` to be so long before so many picks of it: the known length as well as a label gives it
/// (or as something given as about so much, if `approximate`), what was used as well as a pick is known.
/// # Errors
/// If the picks are negative, or what they take is absurd.
pub fn yarn_after_picks(
    known: Length,
    approximate: bool,
    picks: f64,
    pick: PickLength,
    errors: &MeasurementErrors,
) -> Result<YarnAfterPicks, Refused> {
    let used = crate::weft::weft_yarn(picks, pick)?;
    let about = if approximate { errors.about_share } else { 0.0 };
    let share = errors.label_share.hypot(about);
    let deviation = (known.mm() * share).hypot(used.mm() * errors.pick_share);
    Ok(YarnAfterPicks { used, left: Estimate::even(known.less(used), deviation) })
}

/// The cloth that a weighed yarn makes if the cloth takes as much of it by weight as it took of another yarn (`g_per_m`, grams per
/// metre woven under tension, see [`weft_per_length`]), give or take [`MeasurementErrors::other_yarn_share`].
/// # Errors
/// If the other yarn weighed nothing, or the cloth leaves the limits.
pub fn weft_left_as_other_yarn(
    weighed: ScaleReading,
    g_per_m: f64,
    errors: &MeasurementErrors,
) -> Result<WeftLeft, Refused> {
    let yarn = weighed.yarn()?;
    let about = if weighed.rough { errors.about_share } else { 0.0 };
    let cloth = WovenLength::from_m(crate::quantity::divide("what the other yarn took", yarn.g(), g_per_m)?)?;
    Ok(WeftLeft {
        mass: Some(Estimate::even(yarn, errors.scale_g.hypot(yarn.g() * about))),
        yarn: None,
        cloth: Estimate::factor(cloth, errors.other_yarn_share.hypot(about)),
        picks: None,
    })
}

/// Share of a yarn left by the scale, 0 to 1: (last weighing − what was woven since × `g_per_m`) ÷ first weighing.
pub fn share_left_by_scale(start: Mass, last: Mass, woven_since: LengthBalance, g_per_m: f64) -> f64 {
    ((last.g() - woven_since.mm() / 1000.0 * g_per_m) / start.g()).clamp(0.0, 1.0)
}

/// What several yarns are good for one after the other: the sum. A single yarn keeps its own spread; several are taken to be known
/// independently of each other, though the pick they share is not.
/// # Errors
/// If the sum leaves the limits.
pub fn cloth_of_yarns(yarns: &[Estimate<WovenLength>]) -> Result<Option<Estimate<WovenLength>>, Refused> {
    match yarns {
        [] => Ok(None),
        [one] => Ok(Some(*one)),
        several => {
            let sum = several.iter().map(|one| one.likely.mm()).sum();
            let variance: f64 = several.iter().map(|one| one.standard_deviation().powi(2)).sum();
            Ok(Some(Estimate::even(WovenLength::from_mm(sum)?, variance.sqrt())))
        }
    }
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

    #[test]
    fn what_was_woven_since_is_no_longer_possible() {
        let left = by_scale(80.0, 40.0, 50.0).unwrap();
        let rate = PicksIn::from_per_10cm(40.0).ok();
        let later = left.after_weaving(WovenLength::from_cm(10.0).unwrap(), rate);
        assert!((later.cloth.likely.cm() - 40.0).abs() < 1e-9);
        assert_eq!(later.cloth.standard_deviation(), left.cloth.standard_deviation());
        assert_eq!(later.picks, Some(160.0));
        assert_eq!(left.after_weaving(WovenLength::ZERO, rate), left);
    }

    #[test]
    fn picks_take_their_yarn() {
        let pick = PickLength::from_cm(22.0).unwrap();
        let errors = MeasurementErrors::default();
        let after =
            |approximate| yarn_after_picks(Length::from_m(100.0).unwrap(), approximate, 100.0, pick, &errors).unwrap();
        assert!((after(false).used.m() - 22.0).abs() < 1e-9 && (after(false).left.likely.m() - 78.0).abs() < 1e-9);
        assert!(after(true).left.standard_deviation() > after(false).left.standard_deviation());
        let all = yarn_after_picks(Length::from_m(1.0).unwrap(), false, 100.0, pick, &errors).unwrap();
        assert_eq!(all.left.likely, Length::ZERO);
    }

    #[test]
    fn another_yarn_shows_how_far_a_weight_goes() {
        // 100 g to the metre: 60 g are 60 cm.
        let weighed = ScaleReading { shown: Mass::from_g(60.0).unwrap(), tare: Mass::ZERO, rough: false };
        let left = weft_left_as_other_yarn(weighed, 100.0, &MeasurementErrors::default()).unwrap();
        assert!((left.cloth.likely.cm() - 60.0).abs() < 1e-9);
        assert!(weft_left_as_other_yarn(weighed, 0.0, &MeasurementErrors::default()).is_err());
    }

    #[test]
    fn half_gone_by_the_scale() {
        let g = |g| Mass::from_g(g).unwrap();
        let share =
            |last, since_mm| share_left_by_scale(g(90.0), g(last), LengthBalance::from_mm(since_mm).unwrap(), 100.0);
        assert!((share(65.0, 200.0) - 0.5).abs() < 1e-9 && is_half_gone(share(65.0, 200.0)));
        assert!(!is_half_gone(share(65.0, 0.0)));
        assert_eq!(share(5.0, 100.0), 0.0);
    }

    #[test]
    fn several_yarns_add_up() {
        let cm = |cm, deviation| Estimate::even(WovenLength::from_cm(cm).unwrap(), deviation);
        let both = cloth_of_yarns(&[cm(30.0, 30.0), cm(20.0, 40.0)]).unwrap().unwrap();
        assert!((both.likely.cm() - 50.0).abs() < 1e-9 && (both.standard_deviation() - 50.0).abs() < 1e-9);
        assert_eq!(cloth_of_yarns(&[]).unwrap(), None);
    }
}

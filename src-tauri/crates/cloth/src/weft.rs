//! Weft: how much a pick takes, how much a length of cloth takes.
//!
//! A pick is *either* the width in the reed with an allowance the weaver names, *or* the width of the cloth with the
//! crimp measured on that width. The types keep the two apart, since reed width and crimp together count draw-in twice.

use crate::change::{Allowance, DrawIn, WeftUse};
use crate::error::Refused;
use crate::quantity::{Length, Mass, YarnNumber};
use crate::state::{Extent, MeasuredState, PickLength, PicksIn, ReedWidth, WovenLength};

/// Widths of cloth that a hemstitching tail takes at one end of a piece (three to four; common practice, no source).
pub const HEMSTITCH_WIDTHS: f64 = 4.0;

/// What a pick is longer than the width in the reed where nothing is given, per cent (common practice, no source).
pub const USUAL_PICK_ALLOWANCE_PERCENT: f64 = 10.0;

/// A pick calculated from the width in the reed and an allowance (often 10 %; common practice, no source).
/// # Errors
/// If the result leaves the limits.
pub fn pick_from_reed(reed: ReedWidth, allowance: Allowance) -> Result<PickLength, Refused> {
    PickLength::new(allowance.added_to(reed.length())?)
}

/// A pick calculated from a width of cloth and the crimp measured on that width, both in one state.
/// # Errors
/// If the result leaves the limits.
pub fn pick_from_cloth<S: MeasuredState>(
    width: Extent<crate::state::Across, S>,
    crimp: WeftUse<S>,
) -> Result<PickLength, Refused> {
    crimp.yarn_for(width)
}

/// The allowance over the width in the reed that goes with a weft use known against a width of cloth: (1 + crimp) ×
/// cloth width ÷ reed width − 1, so that draw-in counts once.
/// # Errors
/// If the result is no allowance that can be meant.
pub fn allowance_over_reed<S: MeasuredState>(weft_use: WeftUse<S>, draw_in: DrawIn<S>) -> Result<Allowance, Refused> {
    let pick_per_reed = (1.0 + weft_use.crimp().percent() / 100.0) * draw_in.ratio();
    Allowance::from_percent((pick_per_reed - 1.0) * 100.0)
}

/// Mass of weft per metre of pick as measured in the reed, g/m, over several warps: sums divided, so that a large warp
/// counts more than a small one. Each warp is the weft it used by the scale, its picks and its width in the reed; `None`
/// where nothing was woven or weighed.
pub fn weft_g_per_reed_metre(warps: impl IntoIterator<Item = (Mass, u64, ReedWidth)>) -> Option<f64> {
    let (grams, metres) = warps.into_iter().fold((0.0, 0.0), |(grams, metres), (weft, picks, reed)| {
        (grams + weft.g(), metres + picks as f64 * reed.mm() / 1000.0)
    });
    (metres > 0.0 && grams > 0.0).then(|| grams / metres)
}

/// The weft that so many picks take by the scale: the inverse of [`weft_g_per_reed_metre`].
/// # Errors
/// If the product is absurd.
pub fn weft_mass_by_scale(g_per_reed_metre: f64, picks: f64, reed: ReedWidth) -> Result<Mass, Refused> {
    Mass::from_g(g_per_reed_metre * picks * reed.mm() / 1000.0)
}

/// Picks in a length of cloth, both in one state, not rounded.
pub fn picks<S: MeasuredState>(density: PicksIn<S>, length: Extent<crate::state::Along, S>) -> f64 {
    density.threads_in(length)
}

/// Picks as they are woven: whole ones, and none too few. What a division leaves beyond the last place (a millionth) is no pick.
pub fn whole_picks(picks: f64) -> f64 {
    (picks - 1e-6).ceil()
}

/// Weft in so many picks.
/// # Errors
/// If the picks are negative or the product absurd.
pub fn weft_yarn(picks: f64, pick: PickLength) -> Result<Length, Refused> {
    pick.length().times(picks)
}

/// Picks that a length of weft makes, not rounded: round down for a promise.
/// # Errors
/// If a pick has no length.
pub fn picks_from_yarn(weft: Length, pick: PickLength) -> Result<f64, Refused> {
    crate::quantity::divide("the length of a pick", weft.mm(), pick.mm())
}

/// Picks that a mass of weft makes: "85 g on the cone".
/// # Errors
/// If a pick has no length, or the yarn is absurdly long.
pub fn picks_from_mass(weft: Mass, yarn: YarnNumber, pick: PickLength) -> Result<f64, Refused> {
    picks_from_yarn(yarn.length_of(weft)?, pick)
}

/// Weft to set aside for hemstitching: so many widths of the cloth (three to four; common practice, no source) at each
/// end.
/// # Errors
/// If the product leaves the limits.
pub fn hemstitch_reserve(width: ReedWidth, widths: f64, ends: u32) -> Result<Length, Refused> {
    width.length().times(widths * f64::from(ends))
}

/// Woven length from marks set at a fixed distance and what was measured from the last of them.
/// # Errors
/// If the sum leaves the limits.
pub fn from_marks(marks: u32, apart: WovenLength, from_last: WovenLength) -> Result<WovenLength, Refused> {
    WovenLength::new(apart.length().times(f64::from(marks))? + from_last.length())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::state::FinishedWidth;
    use crate::take_up::Crimp;

    #[test]
    fn two_ways_to_a_pick_agree_and_never_mix() {
        let reed = pick_from_reed(ReedWidth::from_inches(20.0).unwrap(), Allowance::NONE).unwrap();
        let crimp = WeftUse::from_crimp(Crimp::from_percent(100.0 * 3.0 / 17.0).unwrap());
        let cloth = pick_from_cloth(FinishedWidth::from_inches(17.0).unwrap(), crimp).unwrap();
        assert!((reed.inches() - cloth.inches()).abs() < 1e-9);
    }

    #[test]
    fn an_allowance_over_the_reed_gives_the_same_pick_as_the_cloth() {
        // 20 in in the reed, 17 finished, a pick of 22: 29.4 % over the cloth, 10 % over the reed.
        let reed = ReedWidth::from_inches(20.0).unwrap();
        let finished = FinishedWidth::from_inches(17.0).unwrap();
        let weft_use = WeftUse::cloth_uses(finished, PickLength::from_inches(22.0).unwrap()).unwrap();
        let allowance = allowance_over_reed(weft_use, DrawIn::between(reed, finished).unwrap()).unwrap();
        assert!((allowance.percent() - 10.0).abs() < 1e-9);
    }

    #[test]
    fn weft_by_the_scale_divides_sums() {
        let warp = |g, picks, cm| (Mass::from_g(g).unwrap(), picks, ReedWidth::from_cm(cm).unwrap());
        // 100 m of picks of 30 g and 300 m of 120 g: 150 g in 400 m.
        let per_metre = weft_g_per_reed_metre([warp(30.0, 500, 20.0), warp(120.0, 1000, 30.0)]).unwrap();
        assert!((per_metre - 0.375).abs() < 1e-12);
        let mass = weft_mass_by_scale(per_metre, 1000.0, ReedWidth::from_cm(40.0).unwrap()).unwrap();
        assert!((mass.g() - 150.0).abs() < 1e-9);
        assert_eq!(weft_g_per_reed_metre([]), None);
    }

    #[test]
    fn yarn_and_picks_are_inverse() {
        let pick = PickLength::from_cm(30.0).unwrap();
        assert!((picks_from_yarn(weft_yarn(500.0, pick).unwrap(), pick).unwrap() - 500.0).abs() < 1e-9);
        assert!(picks_from_yarn(Length::ZERO, PickLength::ZERO).is_err());
        assert!(weft_yarn(-1.0, pick).is_err());
    }
}

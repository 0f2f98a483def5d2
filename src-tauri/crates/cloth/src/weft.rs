//! Weft: how much a pick takes, how much a length of cloth takes.
//!
//! A pick is *either* the width in the reed with an allowance the weaver names, *or* the width of the cloth with the
//! crimp measured on that width. The types keep the two apart, since reed width and crimp together count draw-in twice.

use crate::change::{Allowance, WeftUse};
use crate::error::Refused;
use crate::quantity::{Length, Mass, YarnNumber};
use crate::state::{Extent, PickLength, PicksIn, ReedWidth, State, WovenLength};

/// A pick reckoned from the width in the reed and an allowance (often 10 %; common practice, no source).
/// # Errors
/// If the result leaves the limits.
pub fn pick_from_reed(reed: ReedWidth, allowance: Allowance) -> Result<PickLength, Refused> {
    PickLength::new(allowance.added_to(reed.length())?)
}

/// A pick reckoned from a width of cloth and the crimp measured on that width, both in one state.
/// # Errors
/// If the result leaves the limits.
pub fn pick_from_cloth<S: State>(
    width: Extent<crate::state::Across, S>,
    crimp: WeftUse<S>,
) -> Result<PickLength, Refused> {
    crimp.yarn_for(width)
}

/// Picks in a length of cloth, both in one state, not rounded.
pub fn picks<S: State>(density: PicksIn<S>, length: Extent<crate::state::Along, S>) -> f64 {
    density.threads_in(length)
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
    use crate::change::Crimp;
    use crate::state::FinishedWidth;

    #[test]
    fn two_ways_to_a_pick_agree_and_never_mix() {
        let reed = pick_from_reed(ReedWidth::from_inches(20.0).unwrap(), Allowance::NONE).unwrap();
        let crimp = WeftUse::from_crimp(Crimp::from_percent(100.0 * 3.0 / 17.0).unwrap());
        let cloth = pick_from_cloth(FinishedWidth::from_inches(17.0).unwrap(), crimp).unwrap();
        assert!((reed.inches() - cloth.inches()).abs() < 1e-9);
    }

    #[test]
    fn yarn_and_picks_are_inverse() {
        let pick = PickLength::from_cm(30.0).unwrap();
        assert!((picks_from_yarn(weft_yarn(500.0, pick).unwrap(), pick).unwrap() - 500.0).abs() < 1e-9);
        assert!(picks_from_yarn(Length::ZERO, PickLength::ZERO).is_err());
        assert!(weft_yarn(-1.0, pick).is_err());
    }
}

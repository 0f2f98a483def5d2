//! Ways of calculating a warp that are common beside the exact one, to be shown next to it and never instead of it.

use crate::change::Allowance;
use crate::error::Refused;
use crate::quantity::Length;
use crate::state::{FinishedLength, WarpLength};

/// Finished length and so much at each end (10 in by common practice, no source). Covers waste only and leaves nothing
/// for take-up and shrinkage: 72 in → 92 in, against 109 in exact at 10 %/10 % and 20 in of waste.
/// # Errors
/// If the sum leaves the limits.
pub fn warp_by_rule_of_thumb(finished: FinishedLength, at_each_end: Length) -> Result<WarpLength, Refused> {
    WarpLength::new(finished.length() + at_each_end + at_each_end)
}

/// L(1+s)(1+T) + W: per cents multiplied upwards, as many hand-outs do. Short by 2 % of the cloth at 10 %/10 %.
/// # Errors
/// If the sum leaves the limits.
pub fn warp_by_multiplying_percents(
    finished: FinishedLength,
    shrinkage: Allowance,
    take_up: Allowance,
    waste: Length,
) -> Result<WarpLength, Refused> {
    WarpLength::new(take_up.added_to(shrinkage.added_to(finished.length())?)? + waste)
}

/// L(1+s+T) + W: per cents added. Short by 2.8 % of the cloth at 10 %/10 %, by 8.2 % at 15 %/20 %.
/// # Errors
/// If the sum leaves the limits.
pub fn warp_by_adding_percents(
    finished: FinishedLength,
    shrinkage: Allowance,
    take_up: Allowance,
    waste: Length,
) -> Result<WarpLength, Refused> {
    let both = Allowance::from_percent(shrinkage.percent() + take_up.percent())?;
    WarpLength::new(both.added_to(finished.length())? + waste)
}

/// Stretches of warp as they are named, each counted so many times, and the waste once: "4 towels of 34 in, 13 in of
/// take-up, 31 in of waste".
/// # Errors
/// If the sum leaves the limits.
pub fn warp_from_stretches(stretches: &[(u32, Length)], waste: Length) -> Result<WarpLength, Refused> {
    let mut total = waste;
    for (times, stretch) in stretches {
        total = total + stretch.times(f64::from(*times))?;
    }
    WarpLength::new(total)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::change::{WarpUse, WashLength};
    use crate::take_up::TakeUp;

    #[test]
    fn adding_falls_short_of_dividing() {
        // 2.8 % at 10 %/10 % and 8.2 % at 15 %/20 %, the shares of the exact length that are missing.
        for (take_up, shrinkage, short) in [(10.0, 10.0, 2.8), (15.0, 20.0, 8.2)] {
            let finished = FinishedLength::from_m(1.0).unwrap();
            let relaxed = WashLength::from_shrinkage_percent(shrinkage).unwrap().before(finished).unwrap();
            let exact = WarpUse::from_take_up(TakeUp::from_percent(take_up).unwrap()).yarn_for(relaxed).unwrap();
            let percent = |p| Allowance::from_percent(p).unwrap();
            let added = warp_by_adding_percents(finished, percent(shrinkage), percent(take_up), Length::ZERO).unwrap();
            let missing = (1.0 - added.mm() / exact.mm()) * 100.0;
            assert!((missing - short).abs() < 0.05, "{missing}");
        }
    }
}

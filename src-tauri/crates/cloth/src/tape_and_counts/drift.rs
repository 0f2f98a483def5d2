//! Picks per inch that wander: ±8 % from stretch to stretch is usual, a creep (13, 14, 15) is what to notice.

use crate::state::{PicksIn, UnderTension, WovenLength};

/// Picks and cloth between two readings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct IntervalRate {
    /// Net picks.
    pub picks: f64,
    /// Cloth, under tension.
    pub length: WovenLength,
    /// How well the length is known, in mm.
    pub length_deviation_mm: f64,
}

impl IntervalRate {
    /// Picks per length.
    pub fn rate(&self) -> Option<PicksIn<UnderTension>> {
        PicksIn::from_counts(&[(self.picks, self.length)]).ok()
    }
}

/// What the rates between readings show.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Drift {
    /// Within what is usual, or too little measured to tell.
    Usual,
    /// The last stretches went the same way, one after the other, and it adds up.
    Creeping {
        /// Where it began.
        from: PicksIn<UnderTension>,
        /// Where it is.
        to: PicksIn<UnderTension>,
        /// Over how many stretches.
        stretches: usize,
    },
    /// The last stretch is off the earlier ones by more than is usual.
    Jumped {
        /// The earlier stretches together.
        from: PicksIn<UnderTension>,
        /// The last one.
        to: PicksIn<UnderTension>,
    },
}

/// More than this from stretch to stretch is not usual: 11 to 13 picks are accepted where 12 are meant (Petrini 2023;
/// no data set was found).
const USUAL: f64 = 0.08;

/// Looks at the rates in order, the newest last. A creep is three stretches or more, each closer (or each wider) than
/// the one before, that together moved by more than 8 %; measuring errors are allowed for.
pub fn drift(intervals: &[IntervalRate]) -> Drift {
    let rates: Vec<(f64, f64, PicksIn<UnderTension>)> = intervals
        .iter()
        .filter_map(|interval| {
            let rate = interval.rate()?;
            let share = interval.length_deviation_mm / interval.length.mm();
            Some((rate.density().per_cm(), share, rate))
        })
        .collect();
    let Some(&(last, last_share, to)) = rates.last() else { return Drift::Usual };
    for direction in [1.0, -1.0] {
        let run = rates.windows(2).rev().take_while(|pair| (pair[1].0 - pair[0].0) * direction > 0.0).count() + 1;
        if run >= 3
            && let Some(&(first, first_share, from)) = rates.get(rates.len() - run)
        {
            let moved = (last / first - 1.0).abs();
            if moved > USUAL.max(2.0 * first_share.hypot(last_share)) {
                return Drift::Creeping { from, to, stretches: run };
            }
        }
    }
    let earlier: Vec<_> = intervals.iter().take(intervals.len() - 1).map(|i| (i.picks, i.length)).collect();
    if let Ok(from) = PicksIn::from_counts(&earlier) {
        let moved = (last / from.density().per_cm() - 1.0).abs();
        if moved > USUAL + 2.0 * last_share {
            return Drift::Jumped { from, to };
        }
    }
    Drift::Usual
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic)]
    use super::*;

    fn stretches(ppi: &[f64]) -> Vec<IntervalRate> {
        let length = WovenLength::from_inches(10.0).unwrap();
        ppi.iter().map(|n| IntervalRate { picks: n * 10.0, length, length_deviation_mm: 3.0 }).collect()
    }

    #[test]
    fn a_creep_is_noticed_and_the_usual_is_not() {
        let Drift::Creeping { from, to, stretches: 3 } = drift(&stretches(&[13.0, 14.0, 15.0])) else { panic!() };
        assert!((from.density().per_inch() - 13.0).abs() < 1e-9 && (to.density().per_inch() - 15.0).abs() < 1e-9);
        assert!(matches!(drift(&stretches(&[12.0, 15.0, 14.0, 13.0])), Drift::Creeping { .. }));
        // A target of 12 with 11 to 13 accepted.
        assert_eq!(drift(&stretches(&[12.0, 12.5, 11.8, 12.4, 12.1])), Drift::Usual);
        assert_eq!(drift(&[]), Drift::Usual);
        assert_eq!(drift(&stretches(&[12.0])), Drift::Usual);
    }

    #[test]
    fn a_jump_is_noticed() {
        assert!(matches!(drift(&stretches(&[12.0, 12.2, 15.0])), Drift::Creeping { .. } | Drift::Jumped { .. }));
        assert!(matches!(drift(&stretches(&[12.0, 11.8, 12.1, 15.0])), Drift::Jumped { .. } | Drift::Creeping { .. }));
    }
}

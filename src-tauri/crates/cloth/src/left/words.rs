//! What was noticed, as sentences.

use super::{Drift, Noticed};
use crate::read::{DecimalMark, DensityUnit};
use crate::state::WovenLength;
use crate::write::{self, Measures};

impl Noticed {
    /// A sentence for her, in the measures she lives with.
    pub fn in_words(&self, measures: Measures, mark: DecimalMark) -> String {
        let shown = |length: WovenLength| write::length_in(length.length(), measures, mark);
        match self {
            Self::MissedInterval(missed) => {
                let (n, apart) = (missed.intervals.unsigned_abs(), shown(missed.apart));
                let times = if n == 1 { "one mark".to_owned() } else { format!("{n} marks") };
                let more = if missed.intervals > 0 { "too few" } else { "too many" };
                format!(
                    "The tape says {} and the picks say {}: that is near {times} {more}, at {apart} apart. The tape is \
                     used until you say otherwise.",
                    shown(missed.by_tape),
                    shown(missed.by_counts)
                )
            }
            Self::Apart { by_tape, by_counts, .. } => format!(
                "The tape says {} and the picks say {}. The tape is used; was a sitting left out or counted twice?",
                shown(*by_tape),
                shown(*by_counts)
            ),
            Self::Shrunk { before, now, .. } => format!(
                "It measures {} now and measured {} before, and nothing was unwoven. The new reading is used; was the \
                 tension off?",
                shown(*now),
                shown(*before)
            ),
            Self::Uncounted { sittings: 1 } => {
                "One sitting since the last measure has no picks, so its cloth is missing here.".into()
            }
            Self::Uncounted { sittings } => {
                format!("{sittings} sittings since the last measure have no picks, so their cloth is missing here.")
            }
        }
    }
}

impl Drift {
    /// A sentence for her, `None` if the rates are as usual.
    pub fn in_words(&self, unit: DensityUnit, mark: DecimalMark) -> Option<String> {
        let shown = |rate: crate::state::PicksIn<_>| write::density(rate.density(), unit, mark);
        match self {
            Self::Usual => None,
            Self::Creeping { from, to, stretches } => {
                let way = if to > from { "closer" } else { "wider" };
                Some(format!(
                    "Your picks have been getting {way} over the last {stretches} stretches, from {} to {}.",
                    shown(*from),
                    shown(*to)
                ))
            }
            Self::Jumped { from, to } => {
                Some(format!("Your last stretch has {} where you had {} before.", shown(*to), shown(*from)))
            }
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::left::Missed;
    use crate::state::PicksIn;

    #[test]
    fn sentences_carry_her_numbers() {
        let inches = |n| WovenLength::from_inches(n).unwrap();
        let missed = Noticed::MissedInterval(Missed {
            observation: 1,
            intervals: 1,
            apart: inches(20.0),
            by_tape: inches(85.0),
            by_counts: inches(105.0),
        });
        assert_eq!(
            missed.in_words(Measures::Imperial, DecimalMark::Point),
            "The tape says 85 in and the picks say 105 in: that is near one mark too few, at 20 in apart. The tape is used \
             until you say otherwise."
        );
        let rate = |n| PicksIn::from_per_inch(n).unwrap();
        let creep = Drift::Creeping { from: rate(13.0), to: rate(15.0), stretches: 3 };
        assert_eq!(
            creep.in_words(DensityUnit::PerInch, DecimalMark::Point).unwrap(),
            "Your picks have been getting closer over the last 3 stretches, from 13 per inch to 15 per inch."
        );
        assert_eq!(Drift::Usual.in_words(DensityUnit::PerInch, DecimalMark::Point), None);
    }
}

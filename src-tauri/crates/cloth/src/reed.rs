//! Reeds and rigid heddles: how they are numbered, and how many ends that makes.

use crate::change::Allowance;
use crate::error::Refused;
use crate::quantity::{Length, ThreadDensity};
use crate::state::{EndsIn, InReed, ReedWidth};

/// How a reed is numbered: so many groups of so many dents over a length. The older English systems after Taylor 1909,
/// ch. XII and Brooks 1892, "Other reeds"; those marked so are from memory.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ReedSystem {
    /// Dents per inch. A rigid heddle's number is its *ends* per inch: one in each slot and hole.
    PerInch,
    /// Dents per centimetre.
    PerCm,
    /// Dents per 10 cm: "40/10".
    Per10Cm,
    /// Dents on 2 inches, so that at two in a dent the number is the ends per inch: Stockport.
    Stockport,
    /// Beers of 40 ends in 36 inches: Bradford ("sett"). Counts ends, at two in a dent 20 dents to the beer.
    Bradford,
    /// Splits (dents) on 37 inches: Scotch.
    Scotch,
    /// Beers of 20 dents on 24¼ inches: Bolton. From memory.
    Bolton,
    /// Beers of 20 dents on 45 inches: Blackburn. From memory.
    Blackburn,
    /// Beers of 20 dents on 34 inches: Preston. From memory.
    Preston,
    /// Dents on 36 inches: silk reeds. From memory.
    PerYard,
    /// Any other: `dents` for each unit of the number, over `over`.
    Other {
        /// Dents that one unit of the number stands for.
        dents: f64,
        /// The length they lie in.
        over: Length,
    },
}

impl ReedSystem {
    /// Dents per length of a reed so numbered, exactly.
    /// # Errors
    /// If the number is zero, negative, no number, or absurd.
    pub fn dents(self, number: f64) -> Result<ThreadDensity, Refused> {
        let (dents, over) = match self {
            Self::PerInch => return ThreadDensity::from_per_inch(number),
            Self::PerCm => return ThreadDensity::from_per_cm(number),
            Self::Per10Cm => return ThreadDensity::from_per_10cm(number),
            Self::Stockport => (1.0, Length::from_inches(2.0)?),
            // 40 ends of two in a dent.
            Self::Bradford => (20.0, Length::from_inches(36.0)?),
            Self::Scotch => (1.0, Length::from_inches(37.0)?),
            Self::Bolton => (20.0, Length::from_inches(24.25)?),
            Self::Blackburn => (20.0, Length::from_inches(45.0)?),
            Self::Preston => (20.0, Length::from_inches(34.0)?),
            Self::PerYard => (1.0, Length::from_inches(36.0)?),
            Self::Other { dents, over } => (dents, over),
        };
        ThreadDensity::from_counted(number * dents, over)
    }

    /// The number that a reed of this density has in the system.
    /// # Errors
    /// If the system is of one's own making and counts nothing.
    pub fn number(self, dents: ThreadDensity) -> Result<f64, Refused> {
        dents.per(self.dents(1.0)?).ok_or(Refused::Zero { what: "the dents counted" })
    }

    /// Ends per length at so many ends in a dent: the sett in the reed.
    /// # Errors
    /// As [`Self::dents`].
    pub fn sett(self, number: f64, ends_per_dent: f64) -> Result<EndsIn<InReed>, Refused> {
        Ok(EndsIn::new(self.dents(number)?.times(ends_per_dent)?))
    }
}

/// A metric rigid heddle's ends per inch: 40/10 is 10.16, though sold as 10. Keep the label beside it.
/// # Errors
/// If the number is zero, negative, no number, or absurd.
pub fn metric_heddle(ends_per_10cm: f64) -> Result<EndsIn<InReed>, Refused> {
    EndsIn::from_per_10cm(ends_per_10cm)
}

/// Whether a hand loom is warped so closely: from 1.5 to 40 ends per cm, 4 to 100 per inch (common practice, no source).
pub fn is_usual_sett(sett: EndsIn<InReed>) -> bool {
    (1.5..=40.0).contains(&sett.density().per_cm())
}

/// Ends across a width, rounded to whole ends.
/// # Errors
/// If there are more than ten million.
pub fn ends(width: ReedWidth, sett: EndsIn<InReed>) -> Result<u32, Refused> {
    whole(sett.threads_in(width))
}

/// Ends across a width when the reed is sleyed so many to a dent: dents rounded to whole ones *first*.
/// # Errors
/// If there are more than ten million.
pub fn ends_by_dents(width: ReedWidth, dents: ThreadDensity, ends_per_dent: u32) -> Result<u32, Refused> {
    let dents = whole(dents.threads_in(width.length()))?;
    whole(f64::from(dents) * f64::from(ends_per_dent))
}

/// Ends for a cloth width with a named allowance on the width, rounded to whole ends.
/// # Errors
/// As [`ends`], or if the width leaves the limits.
pub fn ends_with_allowance(width: Length, allowance: Allowance, sett: EndsIn<InReed>) -> Result<u32, Refused> {
    ends(ReedWidth::new(allowance.added_to(width)?)?, sett)
}

/// The width in the reed that so many ends take.
/// # Errors
/// If the width leaves the limits.
pub fn width_of(ends: u32, sett: EndsIn<InReed>) -> Result<ReedWidth, Refused> {
    sett.extent_of(f64::from(ends))
}

/// Rounded to the nearest whole; halves up.
pub(crate) fn whole(value: f64) -> Result<u32, Refused> {
    // A product of decimals can come out a hair below the half it is meant to be.
    let rounded = (value + 0.5 + 1e-9).floor();
    if (0.0..=1e7).contains(&rounded) {
        // Whole, not negative, at most ten million.
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        Ok(rounded as u32)
    } else {
        Err(Refused::TooMuch { what: "a number of threads", value: rounded, most: 1e7, unit: "threads" })
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn metric_heddles_exactly() {
        // 20/10, 30/10, 40/10 and 50/10 are 5.08, 7.62, 10.16 and 12.7 to the inch.
        for (label, epi) in [(20.0, 5.08), (30.0, 7.62), (40.0, 10.16), (50.0, 12.7)] {
            assert!((metric_heddle(label).unwrap().density().per_inch() - epi).abs() < 1e-12);
        }
    }

    #[test]
    fn a_reed_has_its_number_back() {
        for system in [ReedSystem::Stockport, ReedSystem::Bradford, ReedSystem::Scotch, ReedSystem::Bolton] {
            let dents = system.dents(60.0).unwrap();
            assert!((system.number(dents).unwrap() - 60.0).abs() < 1e-9);
        }
        let nothing = ReedSystem::Other { dents: 0.0, over: Length::from_mm(10.0).unwrap() };
        assert!(nothing.dents(5.0).is_err() && nothing.number(ThreadDensity::from_per_cm(1.0).unwrap()).is_err());
    }

    #[test]
    fn dents_are_whole_before_ends() {
        let dents = ThreadDensity::from_per_inch(5.0).unwrap();
        let width = ReedWidth::from_inches(10.3).unwrap();
        assert_eq!(ends_by_dents(width, dents, 3).unwrap(), 156);
        assert_eq!(ends(width, EndsIn::new(dents.times(3.0).unwrap())).unwrap(), 155);
    }
}

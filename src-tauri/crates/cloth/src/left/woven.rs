//! Cloth woven: tape readings and pick counts reconciled. The tape wins; counts fill in between and after.

use super::{Habits, drift::IntervalRate};
use crate::change::Release;
use crate::error::Refused;
use crate::quantity::Quantity;
use crate::span::Estimate;
use crate::state::{PicksIn, RelaxedLength, UnderTension, WovenLength};

/// Picks of a sitting, net of what was unwoven: negative if more was taken out than put in.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Picks {
    /// Counted one by one.
    Counted(i64),
    /// Given from memory.
    Guessed(i64),
    /// Not known: only a tape can tell what was woven here.
    Unknown,
}

impl Picks {
    pub(super) fn net(self) -> Option<f64> {
        match self {
            // Sittings hold thousands of picks; 2⁵³ is far.
            #[allow(clippy::cast_precision_loss)]
            Self::Counted(n) | Self::Guessed(n) => Some(n as f64),
            Self::Unknown => None,
        }
    }
}

/// How cloth was measured. All lengths from where counting began (the first pick).
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Taken {
    /// All of it under tension, from the first pick.
    #[serde(rename = "total_mm")]
    Total(WovenLength),
    /// All of it, tension let off.
    #[serde(rename = "relaxed_total_mm")]
    RelaxedTotal(RelaxedLength),
    /// All of it under tension, given as about so much.
    #[serde(rename = "rough_total_mm")]
    RoughTotal(WovenLength),
    /// All of it, tension let off, given as about so much.
    #[serde(rename = "rough_relaxed_total_mm")]
    RoughRelaxedTotal(RelaxedLength),
    /// From the last of several marks set at a fixed distance.
    FromMarks {
        /// How many marks, the first one interval from the first pick.
        marks: u32,
        /// From mark to mark.
        #[serde(rename = "apart_mm")]
        apart: WovenLength,
        /// From the last mark to the fell.
        #[serde(rename = "from_last_mm")]
        from_last: WovenLength,
    },
    /// What was woven since the last reading.
    #[serde(rename = "since_last_mm")]
    SinceLast(WovenLength),
}

/// A reading as it is used: a total under tension.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// Which observation it came from.
    pub observation: usize,
    /// The total and how well it is known.
    pub total: Estimate<WovenLength>,
    /// Net picks up to it, `None` if a sitting before it has none.
    pub picks: Option<f64>,
}

/// One sitting, or one look with the tape: picks first, then the reading at its end.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Observation {
    /// Picks woven, net.
    pub picks: Picks,
    /// What was measured at its end.
    pub taken: Option<Taken>,
}

/// Tape and counts apart by near a whole interval: a mark, or a turn of the tape, counted once too often or too rarely.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Missed {
    /// The observation whose reading it is.
    pub observation: usize,
    /// Intervals that the counts see and the tape doesn't; negative if the tape has more.
    pub intervals: i64,
    /// The interval.
    pub apart: WovenLength,
    /// By the tape; still used.
    pub by_tape: WovenLength,
    /// By the counts alone.
    pub by_counts: WovenLength,
}

/// Something about the figures that she should be told.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Noticed {
    /// Near a whole interval missed.
    MissedInterval(Missed),
    /// Tape and counts apart by more than their spreads explain.
    Apart {
        /// The observation whose reading it is.
        observation: usize,
        /// By the tape; used.
        by_tape: WovenLength,
        /// By the counts alone.
        by_counts: WovenLength,
    },
    /// A reading is less than the one before although nothing was unwoven.
    Shrunk {
        /// The observation whose reading it is.
        observation: usize,
        /// The one before.
        before: WovenLength,
        /// This one.
        now: WovenLength,
    },
    /// Sittings since the last reading have no picks: what they wove is missing from the total.
    Uncounted {
        /// How many.
        sittings: usize,
    },
}

/// Cloth woven so far.
#[derive(Debug, Clone, PartialEq)]
pub struct Woven {
    /// The total under tension, from the first pick.
    pub total: Estimate<WovenLength>,
    /// The total after each observation, in order: counts filled in between the readings.
    pub after_each: Vec<WovenLength>,
    /// Net picks, `None` if some sitting has none.
    pub picks: Option<i64>,
    /// The rate of picks to go on with.
    pub rate: Option<PicksIn<UnderTension>>,
    /// The readings used, in order.
    pub readings: Vec<Reading>,
    /// Rates between readings, for [`super::drift`].
    pub intervals: Vec<IntervalRate>,
    /// What she should be told.
    pub noticed: Vec<Noticed>,
}

/// Reconciles readings and counts, in the order given.
///
/// `planned` is the rate of picks used until something is measured; `release` turns relaxed readings into lengths under
/// tension (none known: taken as they are, with a wider spread).
///
/// # Errors
/// If a total leaves the limits. Nothing recorded at all is no error: nothing is woven.
pub fn woven(
    observations: &[Observation],
    planned: Option<PicksIn<UnderTension>>,
    release: Option<Release>,
    habits: &Habits,
) -> Result<Woven, Refused> {
    let mut walk = Walk::default();
    for (i, observation) in observations.iter().enumerate() {
        walk.picks(observation.picks, habits);
        let Some(taken) = observation.taken else { continue };
        let total = walk.total_of(taken, release, habits)?;
        walk.compare(i, taken, total, planned, habits)?;
        walk.settle(i, total);
    }
    walk.finish(observations, planned, habits)
}

#[derive(Default)]
struct Walk {
    /// Net picks so far; `None` once one is unknown.
    picks: Known,
    /// Since the last reading.
    since: Known,
    /// Something was unwoven since the last reading.
    unwoven: bool,
    uncounted: usize,
    readings: Vec<Reading>,
    intervals: Vec<IntervalRate>,
    noticed: Vec<Noticed>,
}

#[derive(Clone, Copy, Default)]
struct Known {
    picks: f64,
    variance: f64,
    missing: bool,
}

impl Known {
    fn add(&mut self, picks: Picks, habits: &Habits) {
        match picks.net() {
            Some(net) => {
                self.picks += net;
                let share = if matches!(picks, Picks::Guessed(_)) { habits.guess_share } else { habits.count_share };
                self.variance += (net * share).powi(2);
            }
            None => self.missing = true,
        }
    }
}

impl Walk {
    fn picks(&mut self, picks: Picks, habits: &Habits) {
        self.picks.add(picks, habits);
        self.since.add(picks, habits);
        self.unwoven |= picks.net().is_some_and(|net| net < 0.0);
        self.uncounted += usize::from(picks == Picks::Unknown);
    }

    fn last_mm(&self) -> f64 {
        self.readings.last().map_or(0.0, |reading| reading.total.likely.mm())
    }

    fn last_variance(&self) -> f64 {
        self.readings.last().map_or(0.0, |reading| reading.total.standard_deviation().powi(2))
    }

    /// The reading as a total under tension.
    fn total_of(
        &self,
        taken: Taken,
        release: Option<Release>,
        habits: &Habits,
    ) -> Result<Estimate<WovenLength>, Refused> {
        let tape = |mm: f64| (habits.tape_mm.powi(2) + (mm * habits.tape_share).powi(2)).sqrt();
        let rough = |exact: Taken| {
            let total = self.total_of(exact, release, habits)?;
            let mm = total.likely.mm();
            Ok::<_, Refused>(Estimate::even(total.likely, total.standard_deviation().hypot(mm * habits.about_share)))
        };
        Ok(match taken {
            Taken::RoughTotal(total) => rough(Taken::Total(total))?,
            Taken::RoughRelaxedTotal(total) => rough(Taken::RelaxedTotal(total))?,
            Taken::Total(total) => Estimate::even(total, tape(total.mm())),
            Taken::RelaxedTotal(relaxed) => {
                let total = release.unwrap_or(Release::NONE).before(relaxed)?;
                // An unknown release is a tenth off one time in three (−10 %, −13 %, once −30 % seen).
                let share = if release.is_some() { habits.relaxed_share } else { 0.1 };
                Estimate::even(total, tape(total.mm()).hypot(total.mm() * share))
            }
            Taken::FromMarks { marks, apart, from_last } => {
                let total = crate::weft::from_marks(marks, apart, from_last)?;
                let each = tape(apart.mm());
                Estimate::even(total, (f64::from(marks) * each * each + tape(from_last.mm()).powi(2)).sqrt())
            }
            Taken::SinceLast(more) => {
                let total = WovenLength::from_mm(self.last_mm() + more.mm())?;
                Estimate::even(total, tape(more.mm()).hypot(self.last_variance().sqrt()))
            }
        })
    }

    /// The rate from all intervals so far, sums divided, and the plan where there are none.
    fn rate(&self, planned: Option<PicksIn<UnderTension>>) -> Option<PicksIn<UnderTension>> {
        let counts: Vec<_> = self.intervals.iter().map(|i| (i.picks, i.length)).collect();
        PicksIn::from_counts(&counts).ok().or(planned)
    }

    /// What an error of the last reading does to a length filled in by counts: the rate came of that reading too.
    fn amplified(&self, filled_mm: f64) -> f64 {
        let behind: WovenLength = self.intervals.iter().map(|interval| interval.length).sum();
        if behind == WovenLength::ZERO { 1.0 } else { 1.0 + filled_mm / behind.mm() }
    }

    /// The spread of a length that counts alone tell, as a variance in mm².
    fn filled_variance(&self, mm: f64, picks: &Known, habits: &Habits) -> f64 {
        let rate_variance = if self.intervals.is_empty() {
            habits.planned_rate_share.powi(2)
        } else {
            let behind = self.intervals.iter().map(|interval| interval.length).sum();
            habits.wander_variance(WovenLength::nearest(mm.abs()), behind)
        };
        let count_share = if picks.picks == 0.0 { 0.0 } else { picks.variance.sqrt() / picks.picks.abs() };
        mm * mm * (rate_variance + count_share * count_share)
    }

    /// Notices where tape and counts don't agree, before the reading is taken as true.
    fn compare(
        &mut self,
        observation: usize,
        taken: Taken,
        total: Estimate<WovenLength>,
        planned: Option<PicksIn<UnderTension>>,
        habits: &Habits,
    ) -> Result<(), Refused> {
        let tape_mm = total.likely.mm();
        let before = self.last_mm();
        let slack = 3.0 * total.standard_deviation().hypot(self.last_variance().sqrt());
        if !self.unwoven && tape_mm + slack < before {
            self.noticed.push(Noticed::Shrunk { observation, before: WovenLength::nearest(before), now: total.likely });
            return Ok(());
        }
        let (false, Some(rate)) = (self.since.missing, self.rate(planned)) else { return Ok(()) };
        let filled = self.since.picks / rate.density().per_cm() * 10.0;
        let by_counts = before + filled;
        let before_variance = self.last_variance() * self.amplified(filled).powi(2);
        let spread =
            (total.standard_deviation().powi(2) + before_variance + self.filled_variance(filled, &self.since, habits))
                .sqrt();
        let apart_by = by_counts - tape_mm;
        let counts = WovenLength::from_mm(by_counts.max(0.0))?;
        if let Taken::FromMarks { apart, .. } = taken
            && apart.mm() > 0.0
        {
            let times = (apart_by / apart.mm()).round();
            let off = (apart_by - times * apart.mm()).abs();
            // Near a whole interval, and the rest is what counting explains; the interval itself is not.
            if times != 0.0
                && off < (0.35 * apart.mm()).min(2.5 * spread).max(0.1 * apart.mm())
                && apart_by.abs() > spread
            {
                // At most a few hundred intervals fit on a warp.
                #[allow(clippy::cast_possible_truncation)]
                let intervals = times.clamp(-1e6, 1e6) as i64;
                self.noticed.push(Noticed::MissedInterval(Missed {
                    observation,
                    intervals,
                    apart,
                    by_tape: total.likely,
                    by_counts: counts,
                }));
                return Ok(());
            }
        }
        // Against a plan alone, it is the plan that was off.
        if !self.intervals.is_empty() && apart_by.abs() > 3.0 * spread {
            self.noticed.push(Noticed::Apart { observation, by_tape: total.likely, by_counts: counts });
        }
        Ok(())
    }

    /// Takes the reading: from here on the total is what the tape says.
    fn settle(&mut self, observation: usize, total: Estimate<WovenLength>) {
        let length = total.likely.mm() - self.last_mm();
        // A rate from a stretch too short to measure says nothing; one woven and unwoven neither.
        if !self.since.missing && length >= 20.0 && self.since.picks >= 4.0 {
            self.intervals.push(IntervalRate {
                picks: self.since.picks,
                length: WovenLength::nearest(length),
                length_deviation_mm: total.standard_deviation().min(length),
            });
        }
        self.readings.push(Reading { observation, total, picks: (!self.picks.missing).then_some(self.picks.picks) });
        self.since = Known::default();
        self.unwoven = false;
        self.uncounted = 0;
    }

    fn finish(
        mut self,
        observations: &[Observation],
        planned: Option<PicksIn<UnderTension>>,
        habits: &Habits,
    ) -> Result<Woven, Refused> {
        let rate = self.rate(planned);
        let (mut mm, mut variance) = (self.last_mm(), self.last_variance());
        if self.since.picks != 0.0 && rate.is_none() {
            return Err(Refused::DoesNotFit(
                "picks can't be turned into a length before something is measured or a rate is planned".into(),
            ));
        }
        if let Some(rate) = rate {
            let filled = self.since.picks / rate.density().per_cm() * 10.0;
            mm += filled;
            variance = variance * self.amplified(filled).powi(2) + self.filled_variance(filled, &self.since, habits);
        }
        if self.uncounted > 0 {
            self.noticed.push(Noticed::Uncounted { sittings: self.uncounted });
        }
        let picks = observations.iter().try_fold(0i64, |sum, observation| match observation.picks {
            Picks::Counted(n) | Picks::Guessed(n) => Some(sum.saturating_add(n)),
            Picks::Unknown => None,
        });
        Ok(Woven {
            total: Estimate::even(WovenLength::from_mm(mm.max(0.0))?, variance.sqrt()),
            after_each: super::fill::after_each(observations, &self.readings, rate),
            picks,
            rate,
            readings: self.readings,
            intervals: self.intervals,
            noticed: self.noticed,
        })
    }
}

#[cfg(test)]
mod tests;

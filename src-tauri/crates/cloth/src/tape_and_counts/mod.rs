//! Cloth woven: tape readings and pick counts reconciled. The tape wins; counts fill in between and after.

mod drift;
mod observation;
mod share_out;

pub use drift::{Drift, IntervalRate, drift};
pub use observation::{Discrepancy, MissedInterval, Observation, PickCount, TapeReading, UsedReading};
pub use share_out::cloth_after_each;

use crate::change::Release;
use crate::error::Refused;
use crate::measurement_errors::MeasurementErrors;
use crate::quantity::Quantity;
use crate::span::Estimate;
use crate::state::{PicksIn, UnderTension, WovenLength};

/// Cloth of which a rate of picks is known by itself, millimetres; a rate from less says little. Threads are counted over 10 cm where
/// there are fewer than 10 to the centimetre (ISO 7211-2, from memory).
const FULL_EVIDENCE_MM: f64 = 100.0;

/// Cloth woven so far.
#[derive(Debug, Clone, PartialEq)]
pub struct ClothWoven {
    /// The total under tension, from the first pick.
    pub total: Estimate<WovenLength>,
    /// The total after each observation, in order: counts filled in between the readings.
    pub after_each: Vec<WovenLength>,
    /// Net picks, `None` if some sitting has none.
    pub picks: Option<i64>,
    /// The rate of picks to go on with.
    pub rate: Option<PicksIn<UnderTension>>,
    /// The readings used, in order.
    pub readings: Vec<UsedReading>,
    /// Rates between readings, for [`drift()`].
    pub intervals: Vec<IntervalRate>,
    /// Where tape and counts do not agree.
    pub discrepancies: Vec<Discrepancy>,
}

impl ClothWoven {
    /// Whether enough of this cloth was measured that its rate of picks is its own, and not mostly the plan's.
    pub fn is_rate_measured(&self) -> bool {
        let measured: WovenLength = self.intervals.iter().map(|interval| interval.length).sum();
        measured.mm() >= FULL_EVIDENCE_MM
    }
}

/// Reconciles readings and counts, in the order given.
///
/// `planned` is the rate of picks used until something is measured; `release` turns relaxed readings into lengths under
/// tension (none known: taken as they are, with a wider spread).
///
/// # Errors
/// If a total leaves the limits. Nothing recorded at all is no error: nothing is woven.
pub fn cloth_woven(
    observations: &[Observation],
    planned: Option<PicksIn<UnderTension>>,
    release: Option<Release>,
    errors: &MeasurementErrors,
) -> Result<ClothWoven, Refused> {
    let mut reconciliation = Reconciliation::default();
    for (i, observation) in observations.iter().enumerate() {
        reconciliation.picks(observation.picks, errors);
        let Some(tape) = observation.tape else { continue };
        let total = reconciliation.total_of(tape, release, errors)?;
        reconciliation.compare(i, tape, total, planned, errors)?;
        reconciliation.accept(i, total);
    }
    reconciliation.finish(observations, planned, errors)
}

/// Picks in the cloth still to weave.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PicksToWeave {
    /// Whole picks; negative when more was woven than is wanted.
    pub picks: f64,
    /// Standard deviation of that number.
    pub deviation: f64,
}

/// Picks that are still to be woven to reach `wanted`, at `rate`. What is uncertain about the cloth woven and about the rate goes into
/// the spread; the rate is better known where it was `measured` on this cloth than where it was planned.
pub fn picks_to_weave(
    wanted: WovenLength,
    woven: &Estimate<WovenLength>,
    rate: PicksIn<UnderTension>,
    measured: bool,
    errors: &MeasurementErrors,
) -> PicksToWeave {
    let picks_per_mm = rate.picks_per_mm();
    let to_weave_mm = wanted.minus(woven.likely).mm();
    let rate_share = if measured { errors.rate_share } else { errors.planned_rate_share };
    let of_rate = to_weave_mm.max(0.0) * picks_per_mm * rate_share;
    PicksToWeave {
        picks: crate::weft::whole_picks(to_weave_mm * picks_per_mm),
        deviation: (woven.standard_deviation() * picks_per_mm).hypot(of_rate),
    }
}

#[derive(Default)]
struct Reconciliation {
    /// Net picks so far; `None` once one is unknown.
    picks: CountedPicks,
    /// Since the last reading.
    since: CountedPicks,
    /// Something was unwoven since the last reading.
    unwoven: bool,
    uncounted: usize,
    readings: Vec<UsedReading>,
    intervals: Vec<IntervalRate>,
    discrepancies: Vec<Discrepancy>,
}

#[derive(Clone, Copy, Default)]
struct CountedPicks {
    picks: f64,
    variance: f64,
    missing: bool,
}

impl CountedPicks {
    fn add(&mut self, picks: PickCount, errors: &MeasurementErrors) {
        match picks.net() {
            Some(net) => {
                self.picks += net;
                let share =
                    if matches!(picks, PickCount::Guessed(_)) { errors.guess_share } else { errors.count_share };
                self.variance += (net * share).powi(2);
            }
            None => self.missing = true,
        }
    }
}

impl Reconciliation {
    fn picks(&mut self, picks: PickCount, errors: &MeasurementErrors) {
        self.picks.add(picks, errors);
        self.since.add(picks, errors);
        self.unwoven |= picks.net().is_some_and(|net| net < 0.0);
        self.uncounted += usize::from(picks == PickCount::Unknown);
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
        tape: TapeReading,
        release: Option<Release>,
        errors: &MeasurementErrors,
    ) -> Result<Estimate<WovenLength>, Refused> {
        let tape_deviation = |mm: f64| (errors.tape_mm.powi(2) + (mm * errors.tape_share).powi(2)).sqrt();
        let rough = |exact: TapeReading| {
            let total = self.total_of(exact, release, errors)?;
            let mm = total.likely.mm();
            Ok::<_, Refused>(Estimate::even(total.likely, total.standard_deviation().hypot(mm * errors.about_share)))
        };
        Ok(match tape {
            TapeReading::ApproximateTotal(total) => rough(TapeReading::Total(total))?,
            TapeReading::ApproximateRelaxedTotal(total) => rough(TapeReading::RelaxedTotal(total))?,
            TapeReading::Total(total) => Estimate::even(total, tape_deviation(total.mm())),
            TapeReading::RelaxedTotal(relaxed) => {
                let total = release.unwrap_or(Release::NONE).before(relaxed)?;
                // An unknown release is a tenth off one time in three (−10 %, −13 %, once −30 % seen).
                let share = if release.is_some() { errors.relaxed_share } else { 0.1 };
                Estimate::even(total, tape_deviation(total.mm()).hypot(total.mm() * share))
            }
            TapeReading::FromMarks { marks, apart, from_last } => {
                let total = crate::weft::from_marks(marks, apart, from_last)?;
                let each = tape_deviation(apart.mm());
                Estimate::even(total, (f64::from(marks) * each * each + tape_deviation(from_last.mm()).powi(2)).sqrt())
            }
            TapeReading::SinceLast(more) => {
                let total = WovenLength::from_mm(self.last_mm() + more.mm())?;
                Estimate::even(total, tape_deviation(more.mm()).hypot(self.last_variance().sqrt()))
            }
        })
    }

    /// The rate from all intervals so far, sums divided, and the plan where there are none. Less than [`FULL_EVIDENCE_MM`] is filled
    /// up with cloth as planned.
    fn rate(&self, planned: Option<PicksIn<UnderTension>>) -> Option<PicksIn<UnderTension>> {
        let mut counts: Vec<_> = self.intervals.iter().map(|i| (i.picks, i.length)).collect();
        let measured_mm: f64 = counts.iter().map(|(_, length)| length.mm()).sum();
        if let Some(planned) = planned.filter(|_| measured_mm < FULL_EVIDENCE_MM) {
            let rest = WovenLength::nearest(FULL_EVIDENCE_MM - measured_mm);
            counts.push((planned.threads_in(rest), rest));
        }
        PicksIn::from_counts(&counts).ok().or(planned)
    }

    /// What an error of the last reading does to a length filled in by counts: the rate came of that reading too.
    fn amplified(&self, filled_mm: f64) -> f64 {
        let behind: WovenLength = self.intervals.iter().map(|interval| interval.length).sum();
        if behind == WovenLength::ZERO { 1.0 } else { 1.0 + filled_mm / behind.mm() }
    }

    /// The spread of a length that counts alone tell, as a variance in mm².
    fn filled_variance(&self, mm: f64, picks: &CountedPicks, errors: &MeasurementErrors) -> f64 {
        let rate_variance = if self.intervals.is_empty() {
            errors.planned_rate_share.powi(2)
        } else {
            let behind = self.intervals.iter().map(|interval| interval.length).sum();
            errors.wander_variance(WovenLength::nearest(mm.abs()), behind)
        };
        let count_share = if picks.picks == 0.0 { 0.0 } else { picks.variance.sqrt() / picks.picks.abs() };
        mm * mm * (rate_variance + count_share * count_share)
    }

    /// Notices where tape and counts don't agree, before the reading is taken as true.
    fn compare(
        &mut self,
        observation: usize,
        tape: TapeReading,
        total: Estimate<WovenLength>,
        planned: Option<PicksIn<UnderTension>>,
        errors: &MeasurementErrors,
    ) -> Result<(), Refused> {
        let tape_mm = total.likely.mm();
        let before = self.last_mm();
        let slack = 3.0 * total.standard_deviation().hypot(self.last_variance().sqrt());
        if !self.unwoven && tape_mm + slack < before {
            self.discrepancies.push(Discrepancy::Shrunk {
                observation,
                before: WovenLength::nearest(before),
                now: total.likely,
            });
            return Ok(());
        }
        let (false, Some(rate)) = (self.since.missing, self.rate(planned)) else { return Ok(()) };
        let filled = self.since.picks / rate.density().per_cm() * 10.0;
        let by_counts = before + filled;
        let before_variance = self.last_variance() * self.amplified(filled).powi(2);
        let spread =
            (total.standard_deviation().powi(2) + before_variance + self.filled_variance(filled, &self.since, errors))
                .sqrt();
        let apart_by = by_counts - tape_mm;
        let counts = WovenLength::from_mm(by_counts.max(0.0))?;
        if let TapeReading::FromMarks { apart, .. } = tape
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
                self.discrepancies.push(Discrepancy::MissedInterval(MissedInterval {
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
            self.discrepancies.push(Discrepancy::Apart { observation, by_tape: total.likely, by_counts: counts });
        }
        Ok(())
    }

    /// Takes the reading: from here on the total is what the tape says.
    fn accept(&mut self, observation: usize, total: Estimate<WovenLength>) {
        let length = total.likely.mm() - self.last_mm();
        // A rate from a stretch too short to measure says nothing; one woven and unwoven neither.
        if !self.since.missing && length >= 20.0 && self.since.picks >= 4.0 {
            self.intervals.push(IntervalRate {
                picks: self.since.picks,
                length: WovenLength::nearest(length),
                length_deviation_mm: total.standard_deviation().min(length),
            });
        }
        self.readings.push(UsedReading {
            observation,
            total,
            picks: (!self.picks.missing).then_some(self.picks.picks),
        });
        self.since = CountedPicks::default();
        self.unwoven = false;
        self.uncounted = 0;
    }

    fn finish(
        mut self,
        observations: &[Observation],
        planned: Option<PicksIn<UnderTension>>,
        errors: &MeasurementErrors,
    ) -> Result<ClothWoven, Refused> {
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
            variance = variance * self.amplified(filled).powi(2) + self.filled_variance(filled, &self.since, errors);
        }
        if self.uncounted > 0 {
            self.discrepancies.push(Discrepancy::Uncounted { sittings: self.uncounted });
        }
        let picks = observations.iter().try_fold(0i64, |sum, observation| match observation.picks {
            PickCount::Counted(n) | PickCount::Guessed(n) => Some(sum.saturating_add(n)),
            PickCount::Unknown => None,
        });
        Ok(ClothWoven {
            total: Estimate::even(WovenLength::from_mm(mm.max(0.0))?, variance.sqrt()),
            after_each: cloth_after_each(observations, &self.readings, rate),
            picks,
            rate,
            readings: self.readings,
            intervals: self.intervals,
            discrepancies: self.discrepancies,
        })
    }
}

#[cfg(test)]
mod tests;

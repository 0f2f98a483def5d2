//! Pace × what is left: how many usual days the rest of a warp takes, as a log-normal distribution whose early half is narrower.
//!
//! Every number below was chosen on development cases of three populations; `tests/tests/projection/RESULTS.md` shows how
//! it does.

use chrono::NaiveDate;

use crate::cleaning::WeavingDays;
use crate::math;
use crate::question::Availability;

/// Days between weaving days before anything is known of the weaver.
const USUAL_GAP_DAYS: f64 = 6.0;
const USUAL_GAP_WEIGHT: f64 = 3.5;
/// Gaps the weaver's usual one counts for against those of this warp; as many again for each so many earlier ones.
const GAP_WEIGHT: f64 = 2.5;
const GAP_WEIGHT_PER_EARLIER: f64 = 2.0;
const MOST_EARLIER_GAPS: f64 = 40.0;
/// Earlier gaps of this many days count half, longer ones more: ten gaps within a fortnight show one
/// phase, ten within a year many, and it is the change from one to the next that makes the rest of a warp late.
const HALF_COUNTED_GAP_DAYS: f64 = 1.0;
/// A longer gap counts as this many days for pace: that was not slow weaving but no weaving.
const LONGEST_GAP_DAYS: f64 = 22.0;
/// Weaving days a prior amount counts for: from the plan, from earlier warps.
const PLAN_AMOUNT_WEIGHT: f64 = 1.5;
const EARLIER_AMOUNT_WEIGHT: f64 = 7.5;
/// The plan's amount is taken no farther than this many times from that of the weaver's own sittings.
const PLAN_AMOUNT_FARTHEST: f64 = 4.0;
/// 0.5^(1/14): what was woven a fortnight ago counts half.
const DECAY: f64 = 0.951_695_153_010_619_6;
const LN_DECAY: f64 = -std::f64::consts::LN_2 / 14.0;
/// Days of usual weaving mixed into the recent rate.
const RATE_WEIGHT_DAYS: f64 = 50.0;
/// The wait before the next sitting, in sittings.
const WAIT_SITTINGS: f64 = 0.4;
/// How irregular gaps widen the span; renewal theory gives 1 for independent gaps, runs and lulls add to it.
const CLUSTERING: f64 = 2.8;
/// Squared coefficient of variation of gaps before any are known, and the gaps it counts for.
const IRREGULARITY: f64 = 5.0;
const IRREGULARITY_WEIGHT: f64 = 0.8;
const MOST_IRREGULAR: f64 = 12.0;
/// Amounts that vary much owe their mean to a few long sittings, which may not come again: the rest takes longer
/// by this much in ln for each unit by which their coefficient of variation exceeds the usual.
const UNEVEN_LATER: f64 = 0.4;
/// Squared coefficient of variation of amounts before any are known, and the days it counts for.
const UNEVEN: f64 = 0.4;
const UNEVEN_WEIGHT: f64 = 2.0;
const MOST_UNEVEN: f64 = 4.0;
/// √[`UNEVEN`].
const USUAL_UNEVEN_ROOT: f64 = 0.632_455_532_033_675_9;
/// After an unusually long sitting the span is wider, after a short one narrower.
const LAST_SITTING_WIDENS: f64 = 0.35;
/// Having woven faster of late than usual widens the span, by this much in ln for each unit of ln: it may be a sprint,
/// and what comes after one is the least certain.
const SPRINT_WIDENS: f64 = 0.7;
/// Two finished warps or more can be compared, which makes the estimate more certain: narrower by this much in ln.
const TWO_WARPS_NARROW: f64 = 0.15;
/// Factor on the whole spread: the variances together overstate it a little.
const WIDTH: f64 = 0.91;
/// Weaving more days in a row than on earlier warps, or than is usual: sooner, by this much in ln for the whole share.
const IN_A_ROW_SOONER: f64 = 0.35;
/// Share of weaving days that follow straight on one another before any are known, and the gaps it counts for.
const USUALLY_IN_A_ROW: f64 = 1.0 / 3.0;
const IN_A_ROW_WEIGHT: f64 = 3.0;
/// Variance of the pace itself, shrinking with every gap seen.
const PACE_DOUBT: f64 = 4.0;
const PACE_DOUBT_GAPS: f64 = 7.0;
/// Variance that remains however much is known.
const LEAST_VARIANCE: f64 = 0.02;
/// Standard deviation below the median ÷ that above it: the rest of a warp can take much longer, and seldom much less.
const EARLY_HALF: f64 = 0.95;
/// Gaps that a stated "about so many days a week" counts for.
const STATED_WEIGHT: f64 = 20.0;
/// Squared coefficient of variation of the gaps between the days that a weaver states: an evening falls out now and then. A judgement.
const STATED_IRREGULARITY: f64 = 0.2;
/// Variance of ln of the hours where the pace is that of common practice: nine weavers in ten lie between 5 and 25 inches an hour,
/// (ln 5 / 3.29)² = 0.24.
const STATED_PACE_VARIANCE: f64 = 0.24;
/// Minutes of a sitting before any is timed. Common practice, no source.
pub(crate) const USUAL_MINUTES: f64 = 45.0;

/// How many usual days are needed. Their logarithm has a two-piece normal distribution: the halves meet at the median, and the
/// standard deviation of the early half is [`EARLY_HALF`] times that of the later one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct EffortDistribution {
    /// Median of the logarithm.
    median_log: f64,
    /// Standard deviation of the logarithm in the later half.
    sd_log: f64,
}

impl EffortDistribution {
    /// The chance that `effort` usual days are enough.
    pub(crate) fn chance(&self, effort: f64) -> f64 {
        if effort <= 0.0 {
            return 0.0;
        }
        let later = self.deviate(effort);
        math::normal_cdf(if later < 0.0 { later / EARLY_HALF } else { later })
    }

    /// How many standard deviations of the later half `days` is above the median.
    pub(crate) fn deviate(&self, days: f64) -> f64 {
        (math::ln(days) - self.median_log) / self.sd_log
    }

    /// The usual days that are enough, for the chance whose normal deviate is `z`.
    pub(crate) fn effort_at(&self, z: f64) -> f64 {
        let later = if z < 0.0 { z * EARLY_HALF } else { z };
        math::exp(self.median_log + later * self.sd_log)
    }
}

/// How earlier projections for the same weaver would have turned out: the correction that this suggests.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Calibration {
    /// Standard deviations by which the middle moves later.
    pub(crate) shift: f64,
    /// Factor on the standard deviation.
    pub(crate) scale: f64,
}

impl Default for Calibration {
    fn default() -> Self {
        Self { shift: 0.0, scale: 1.0 }
    }
}

/// What is known of a weaver's pace.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Pace {
    /// Picks of the common measure on a weaving day.
    pub(crate) amount: f64,
    /// Days from one weaving day to the next.
    pub(crate) gap: f64,
    /// Picks of the common measure a usual day.
    pub(crate) rate: f64,
    /// By how much, in ln, the recent pace exceeds the weaver's usual one; 0 when it does not.
    pub(crate) sprint: f64,
    irregularity: f64,
    pace_variance: f64,
    /// Added to ln of the days needed: amounts are uneven, or more days follow on one another than before.
    later: f64,
    /// The standard deviation of ln is taken this many times.
    widening: f64,
    calibration: Calibration,
    /// Days since the last weaving day (or the first, unwoven one), days away not counted.
    pub(crate) open_gap: f64,
}

fn days_at_home(from: NaiveDate, to: NaiveDate, availability: &Availability) -> f64 {
    let mut days = (to - from).num_days();
    let mut away: Vec<_> = availability.away.iter().map(|r| (r.from, r.until)).collect();
    away.sort();
    // Overlapping ranges are walked once; the day after `from` is the first that could be lost.
    let mut seen = from;
    for (start, end) in away {
        let (Some(before), end) = (start.pred_opt(), end.min(to)) else {
            continue;
        };
        let before = before.max(seen);
        if end > before {
            days -= (end - before).num_days();
            seen = end;
        }
    }
    days.max(0) as f64
}

/// 1 for a gap from one day to the next, else 0.
fn is_one_day(gap: f64) -> f64 {
    if gap == 1.0 { 1.0 } else { 0.0 }
}

/// The share of weaving days that follow straight on another.
fn in_a_row(one_day_gaps: f64, gaps: f64) -> f64 {
    (one_day_gaps + IN_A_ROW_WEIGHT * USUALLY_IN_A_ROW) / (gaps + IN_A_ROW_WEIGHT)
}

/// Sums over earlier warps, kept so that one of them can be left out.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(crate) struct EarlierSums {
    warps: f64,
    gaps: f64,
    one_day_gaps: f64,
    gap_sum: f64,
    gap_squares: f64,
    amounts: f64,
    amount_sum: f64,
}

impl EarlierSums {
    /// The sums of one warp.
    pub(crate) fn of_warp(warp: &WeavingDays) -> Self {
        let mut sums = Self::default();
        for gap in warp.gaps() {
            sums.gaps += 1.0;
            sums.one_day_gaps += is_one_day(gap);
            sums.gap_sum += gap;
            sums.gap_squares += gap * gap;
        }
        sums.warps = if warp.days.is_empty() { 0.0 } else { 1.0 };
        sums.amounts = warp.days.len() as f64;
        sums.amount_sum = warp.days.iter().map(|d| d.1).sum();
        sums
    }

    /// The sums of several.
    pub(crate) fn sum(each: impl Iterator<Item = Self>) -> Self {
        each.fold(Self::default(), |a, b| Self {
            warps: a.warps + b.warps,
            gaps: a.gaps + b.gaps,
            one_day_gaps: a.one_day_gaps + b.one_day_gaps,
            gap_sum: a.gap_sum + b.gap_sum,
            gap_squares: a.gap_squares + b.gap_squares,
            amounts: a.amounts + b.amounts,
            amount_sum: a.amount_sum + b.amount_sum,
        })
    }
}

/// One warp as it was on one day.
pub(crate) struct WarpOnDay<'a> {
    /// Weaving days and amounts so far, by day.
    pub(crate) days: &'a [(NaiveDate, f64)],
    /// The day of the first sitting.
    pub(crate) first: Option<NaiveDate>,
    /// The day for which it is calculated.
    pub(crate) today: NaiveDate,
    /// Picks of the common measure in all.
    pub(crate) target: f64,
    /// Sittings that the plan expects for it.
    pub(crate) planned_sittings: f64,
    /// Days a week stated by the weaver.
    pub(crate) stated_days_a_week: Option<f64>,
    /// Stated availability, for the days away.
    pub(crate) availability: &'a Availability,
}

impl Pace {
    /// The pace on a warp, given `earlier` ones.
    pub(crate) fn estimate(warp: &WarpOnDay<'_>, earlier: &EarlierSums) -> Self {
        let WarpOnDay { days, today, availability, .. } = *warp;
        let n = days.len() as f64;
        let n1 = (n - 1.0).max(0.0);
        let sum: f64 = days.iter().map(|d| d.1).sum();

        let most = earlier.gaps.min(MOST_EARLIER_GAPS);
        let h = most / (1.0 + HALF_COUNTED_GAP_DAYS * most / (earlier.gap_sum + 1.0));
        let earlier_mean = if earlier.gaps > 0.0 { earlier.gap_sum / earlier.gaps } else { 0.0 };
        let mut usual = (USUAL_GAP_WEIGHT * USUAL_GAP_DAYS + h * earlier_mean) / (USUAL_GAP_WEIGHT + h);
        let mut weight = GAP_WEIGHT * (1.0 + h / GAP_WEIGHT_PER_EARLIER);
        if let Some(stated) = warp.stated_days_a_week {
            usual = 7.0 / stated;
            weight = weight.max(STATED_WEIGHT);
        }

        let open_gap = days.last().map_or(0.0, |last| days_at_home(last.0, today, availability));
        let elapsed: f64 = days
            .windows(2)
            .map(|pair| days_at_home(pair[0].0, pair[1].0, availability))
            .chain([open_gap])
            .map(|gap| gap.min(LONGEST_GAP_DAYS))
            .sum();
        let gap = (weight * usual + elapsed) / (weight + n1);

        let amount = if earlier.amounts > 0.0 {
            let mean = earlier.amount_sum / earlier.amounts;
            (EARLIER_AMOUNT_WEIGHT * mean + sum) / (EARLIER_AMOUNT_WEIGHT + n)
        } else {
            let planned = warp.target.max(1.0) / warp.planned_sittings;
            // A very long or very short warp must not outweigh the weaver's own sittings.
            let planned = match sum / n {
                own if n > 0.0 => planned.clamp(own / PLAN_AMOUNT_FARTHEST, own * PLAN_AMOUNT_FARTHEST),
                _ => planned,
            };
            (PLAN_AMOUNT_WEIGHT * planned + sum) / (PLAN_AMOUNT_WEIGHT + n)
        };

        let age = |day: NaiveDate| math::exp((today - day).num_days() as f64 * LN_DECAY);
        let recent: f64 = days.iter().map(|(day, picks)| picks * age(*day)).sum();
        // Sum of DECAY^age over every day from the first sitting to today.
        let seen = warp.first.map_or(0.0, |first| (1.0 - age(first) * DECAY) / (1.0 - DECAY));
        let rate = (recent + RATE_WEIGHT_DAYS * amount / gap) / (seen + RATE_WEIGHT_DAYS);

        let own_gaps = days.windows(2).map(|pair| (pair[1].0 - pair[0].0).num_days() as f64);
        let (gap_sum, gap_squares, own_one_day_gaps) = own_gaps
            .fold((earlier.gap_sum, earlier.gap_squares, 0.0), |t, g| (t.0 + g, t.1 + g * g, t.2 + is_one_day(g)));
        let ng = n1 + earlier.gaps;
        // Two gaps of a Poisson process with the weaver's usual mean keep a single gap from appearing perfectly regular.
        let mean = (gap_sum + 2.0 * usual) / (ng + 2.0);
        let mean_square = (gap_squares + 4.0 * usual * usual) / (ng + 2.0);
        let cv2 = (mean_square / (mean * mean) - 1.0).clamp(0.0, MOST_IRREGULAR);
        let irregularity = (IRREGULARITY_WEIGHT * IRREGULARITY + ng * cv2) / (IRREGULARITY_WEIGHT + ng);

        let amount_squares: f64 = days.iter().map(|d| d.1 * d.1).sum();
        let mean_amount = (sum + UNEVEN_WEIGHT * amount) / (n + UNEVEN_WEIGHT);
        let mean_square = (amount_squares + UNEVEN_WEIGHT * (1.0 + UNEVEN) * amount * amount) / (n + UNEVEN_WEIGHT);
        let uneven = (mean_square / (mean_amount * mean_amount) - 1.0).clamp(0.0, MOST_UNEVEN);
        let last = days.last().map_or(amount, |d| d.1);
        let more_in_a_row = in_a_row(own_one_day_gaps, n1) - in_a_row(earlier.one_day_gaps, earlier.gaps);

        let sprint = math::ln(rate * gap / amount).max(0.0);
        let compared = if earlier.warps >= 2.0 { TWO_WARPS_NARROW } else { 0.0 };
        let after_last = LAST_SITTING_WIDENS * math::ln((last + amount) / (2.0 * amount));

        Self {
            amount,
            gap,
            rate,
            sprint,
            irregularity,
            later: UNEVEN_LATER * (uneven.sqrt() - USUAL_UNEVEN_ROOT) - IN_A_ROW_SOONER * more_in_a_row,
            widening: WIDTH * math::exp(after_last + SPRINT_WIDENS * sprint - compared),
            pace_variance: PACE_DOUBT / (n1 + h + PACE_DOUBT_GAPS) + LEAST_VARIANCE,
            open_gap,
            calibration: Calibration::default(),
        }
    }

    /// The pace of which only what the weaver states is known: `amount` on each of so many days a week.
    pub(crate) fn stated(amount: f64, days_a_week: f64) -> Self {
        let gap = 7.0 / days_a_week;
        Self {
            amount,
            gap,
            rate: amount / gap,
            sprint: 0.0,
            irregularity: STATED_IRREGULARITY,
            pace_variance: STATED_PACE_VARIANCE,
            later: 0.0,
            widening: 1.0,
            calibration: Calibration::default(),
            open_gap: 0.0,
        }
    }

    /// The same pace with another calibration.
    pub(crate) fn with_calibration(self, calibration: Calibration) -> Self {
        Self { calibration, ..self }
    }

    /// Weaving days that `left` picks of the common measure take.
    pub(crate) fn sittings(&self, left: f64) -> f64 {
        left / self.amount
    }

    /// The distribution of the usual days needed for `left` picks known to within `left_sd`.
    pub(crate) fn effort(&self, left: f64, left_sd: f64) -> EffortDistribution {
        let sittings = self.sittings(left) + WAIT_SITTINGS;
        let doubt = if left > 0.0 { (left_sd / left).min(1.0) } else { 0.0 };
        let variance = math::ln(1.0 + CLUSTERING * self.irregularity / sittings)
            + self.pace_variance
            + math::ln(1.0 + doubt * doubt);
        let sd_log = variance.sqrt() * self.widening;
        EffortDistribution {
            median_log: math::ln(sittings * self.amount / self.rate) + self.later + self.calibration.shift * sd_log,
            sd_log: sd_log * self.calibration.scale,
        }
    }
}

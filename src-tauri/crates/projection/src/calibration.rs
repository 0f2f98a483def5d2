//! How projections would have turned out for the same weaver: each earlier warp is projected at a few stages from the others, and
//! the projection is compared with what happened.

use crate::cleaning::{CleanedQuestion, PLAN_SITTINGS, WeavingDays};
use crate::pace::{Calibration, EarlierSums, Pace, USUAL_MINUTES, WarpOnDay};
use crate::question::{Availability, Question};

/// Weaving days after which an earlier warp is projected again.
const STAGES: [usize; 6] = [1, 2, 3, 5, 8, 13];
/// Weaving days that an earlier warp must have to be projected at all.
const FEWEST_DAYS: usize = 3;
/// No more than this many warps, the latest, are projected again.
const MOST_WARPS: usize = 12;
/// Earlier warps that a scale of 1 counts for.
const SCALE_WEIGHT: f64 = 2.0;
const LEAST_SCALE: f64 = 0.5;
const MOST_SCALE: f64 = 1.6;
/// Share of the mean deviation that is expected to recur, and the warps that a deviation of 0 counts for.
const SHIFT_SHARE: f64 = 0.5;
const SHIFT_WEIGHT: f64 = 3.0;

/// What the weaver states of the weaving days, while nothing else is known of the weaver.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct StatedRhythm {
    /// Minutes on a weaving day.
    pub(crate) minutes: f64,
    /// Weaving days a week.
    pub(crate) days_a_week: f64,
    /// Hours that what is left takes by common practice.
    pub(crate) hours: f64,
}

impl StatedRhythm {
    /// The stated rhythm; nothing once there is a sitting or an earlier warp, or while part of it is not stated.
    pub(crate) fn of(question: &Question, cleaned: &CleanedQuestion) -> Option<Self> {
        if !cleaned.now.days.is_empty() || !cleaned.earlier.is_empty() {
            return None;
        }
        let above_zero = |value: Option<f64>| value.filter(|value| *value > 0.0 && value.is_finite());
        let weekdays = question.availability.weekdays.map(|days| days.iter().filter(|day| **day).count() as f64);
        let days = above_zero(weekdays).or(above_zero(question.availability.days_a_week))?;
        Some(Self {
            minutes: above_zero(question.stated_minutes)?,
            days_a_week: days.min(7.0),
            hours: above_zero(question.plan_hours)?,
        })
    }
}

/// The pace on the warp of `question`, calibrated on the earlier ones.
pub(crate) fn calibrated_pace(question: &Question, cleaned: &CleanedQuestion) -> Pace {
    if let Some(stated) = StatedRhythm::of(question, cleaned) {
        return Pace::stated(cleaned.left.max(1.0) * stated.minutes / (stated.hours * 60.0), stated.days_a_week);
    }
    let WeavingDays { days, net, span, .. } = &cleaned.now;
    let planned_sittings = question
        .plan_hours
        .filter(|h| *h > 0.0 && h.is_finite())
        .map_or(PLAN_SITTINGS, |h| (h * 60.0 / USUAL_MINUTES).max(1.0));
    let warp = WarpOnDay {
        days,
        first: span.map(|s| s.0),
        today: question.today,
        target: cleaned.left + net.max(0.0),
        planned_sittings,
        stated_days_a_week: question.availability.days_a_week.filter(|d| *d > 0.0 && *d <= 7.0),
        availability: &question.availability,
    };
    let earlier = EarlierSums::sum(cleaned.earlier.iter().map(EarlierSums::of_warp));
    Pace::estimate(&warp, &earlier).with_calibration(calibrate(&cleaned.earlier, &question.availability))
}

/// Calibrates on `earlier` warps, which are in order of their first days.
fn calibrate(earlier: &[WeavingDays], availability: &Availability) -> Calibration {
    let sums: Vec<EarlierSums> = earlier.iter().map(EarlierSums::of_warp).collect();
    let long_enough: Vec<(usize, &WeavingDays)> =
        earlier.iter().enumerate().filter(|(_, warp)| warp.days.len() >= FEWEST_DAYS).collect();
    let latest = &long_enough[long_enough.len().saturating_sub(MOST_WARPS)..];
    let (mut warps, mut deviations, mut squares) = (0.0, 0.0, 0.0);
    for (index, warp) in latest {
        let others = sums.iter().enumerate().filter(|(other, _)| other != index).map(|(_, sum)| *sum);
        let past = EarlierSums::sum(others);
        let (mut stages, mut deviation, mut square) = (0.0, 0.0, 0.0);
        for z in deviates(warp, &past, availability) {
            stages += 1.0;
            deviation += z;
            square += z * z;
        }
        // The stages of one warp share its luck: together they count once.
        if stages > 0.0 {
            warps += 1.0;
            deviations += deviation / stages;
            squares += square / stages;
        }
    }
    if warps == 0.0 {
        return Calibration::default();
    }
    let scale = ((SCALE_WEIGHT + squares) / (SCALE_WEIGHT + warps)).sqrt();
    Calibration {
        shift: SHIFT_SHARE * deviations / (warps + SHIFT_WEIGHT),
        scale: scale.clamp(LEAST_SCALE, MOST_SCALE),
    }
}

/// How many standard deviations late `warp` came out, at each stage of it.
fn deviates<'a>(
    warp: &'a WeavingDays,
    past: &'a EarlierSums,
    availability: &'a Availability,
) -> impl Iterator<Item = f64> + 'a {
    let total: f64 = warp.days.iter().map(|d| d.1).sum();
    let end = warp.days.last().map(|d| d.0);
    STAGES.iter().filter(|n| **n < warp.days.len()).filter_map(move |n| {
        let days = &warp.days[..*n];
        let today = days.last()?.0;
        let standing = WarpOnDay {
            days,
            first: days.first().map(|d| d.0),
            today,
            target: total,
            planned_sittings: PLAN_SITTINGS,
            stated_days_a_week: None,
            availability,
        };
        let left = total - days.iter().map(|d| d.1).sum::<f64>();
        let took = ((end? - today).num_days() as f64).max(0.5);
        (left > 0.0).then(|| Pace::estimate(&standing, past).effort(left, 0.0).deviate(took))
    })
}

//! Several warps blended to what the next one may expect: sums divided, never rates averaged, each warp counting by how
//! like the plan it is.

use super::WarpMeasurements;
use crate::change::{DrawIn, ExtentChange, Release, WarpUse, WashLength, WashWidth, WeftUse};
use crate::quantity::Quantity;
use crate::span::Estimate;
use crate::state::{Axis, Extent, Finished, MeasuredState, OffLoom, Straight, UnderTension, WarpLength};

/// In what a past warp is like the plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub struct Likeness {
    /// The same loom.
    pub loom: bool,
    /// The same yarn (or one of its kind).
    pub yarn: bool,
    /// The same structure and about the same sett.
    pub structure: bool,
}

impl Likeness {
    /// Alike in everything.
    pub const FULL: Self = Self { loom: true, yarn: true, structure: true };
}

/// How much a warp that differs in one respect still says about a figure. Judgement, no source: take-up and draw-in
/// come of structure and yarn, waste of the loom alone, shrinkage of the yarn.
#[derive(Clone, Copy)]
struct Weights {
    loom: f64,
    yarn: f64,
    structure: f64,
}

const TAKE_UP: Weights = Weights { loom: 0.8, yarn: 0.5, structure: 0.4 };
const RELEASE: Weights = Weights { loom: 0.8, yarn: 0.3, structure: 0.6 };
const WASH: Weights = Weights { loom: 1.0, yarn: 0.2, structure: 0.6 };
const DRAW_IN: Weights = Weights { loom: 0.7, yarn: 0.5, structure: 0.4 };
const WASTE: Weights = Weights { loom: 0.1, yarn: 1.0, structure: 1.0 };
const WEFT: Weights = Weights { loom: 1.0, yarn: 0.1, structure: 0.3 };

impl Weights {
    fn of(self, like: Likeness) -> f64 {
        let part = |alike: bool, weight: f64| if alike { 1.0 } else { weight };
        part(like.loom, self.loom) * part(like.yarn, self.yarn) * part(like.structure, self.structure)
    }
}

/// A finished warp and how like the plan it is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PastWarp {
    /// What was measured of it.
    pub measured: WarpMeasurements,
    /// How like the plan it is.
    pub like: Likeness,
}

/// A figure learned, with what stands behind it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Learned<C> {
    /// The blend: weighted sums divided.
    pub value: C,
    /// Standard deviation to expect of the next warp, of the ratio (a share).
    pub deviation: f64,
    /// How many warps stand behind it.
    pub warps: usize,
    /// How many of these are like the plan in everything.
    pub alike: usize,
}

/// A learned amount.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LearnedAmount<Q> {
    /// The blend with its spread.
    pub value: Estimate<Q>,
    /// How many warps stand behind it.
    pub warps: usize,
    /// How many of these are like the plan in everything.
    pub alike: usize,
}

/// Everything that past warps teach for a plan. `None` where nothing was measured.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct LearnedEstimates {
    /// Warp used against cloth under tension.
    pub weaving: Option<Learned<WarpUse<UnderTension>>>,
    /// Warp used against cloth off the loom.
    pub relaxed_use: Option<Learned<WarpUse<OffLoom>>>,
    /// Release of tension.
    pub release: Option<Learned<Release>>,
    /// The wash, lengthwise.
    pub wash: Option<Learned<WashLength>>,
    /// The wash, across.
    pub wash_width: Option<Learned<WashWidth>>,
    /// Draw-in on the loom.
    pub draw_in: Option<Learned<DrawIn<UnderTension>>>,
    /// From the reed to the finished width.
    pub width_in_all: Option<Learned<DrawIn<Finished>>>,
    /// Weft against finished width.
    pub weft_use: Option<Learned<WeftUse<Finished>>>,
    /// Loom waste.
    pub waste: Option<LearnedAmount<WarpLength>>,
    /// Weft per metre woven under tension, g/m, with its standard deviation, only from warps of the same yarn.
    pub weft_g_per_m: Option<(f64, f64, usize)>,
    /// Warps whose figures don't fit each other and were left out somewhere.
    pub left_out: usize,
}

/// What a single warp's figure differs from the next one's by, where too few are known to tell: two points of per cent.
/// Judgement, no source.
const USUAL_DEVIATION: f64 = 0.02;
/// As much weight as this many warps has the usual deviation against the one seen.
const USUAL_COUNTS_AS: f64 = 2.0;

/// Learns from past warps for a plan.
pub fn learn(past: &[PastWarp]) -> LearnedEstimates {
    let mut left_out = vec![false; past.len()];
    let weaving = change(past, &mut left_out, TAKE_UP, |m| {
        m.weaving()?;
        Ok(m.warp_in_cloth()?.zip(m.woven))
    });
    let relaxed_use = change(past, &mut left_out, TAKE_UP, |m| {
        m.relaxed_use()?;
        Ok(m.warp_in_cloth()?.zip(m.off_loom))
    });
    let release = change(past, &mut left_out, RELEASE, |m| m.release().map(|_| m.woven.zip(m.off_loom)));
    let wash = change(past, &mut left_out, WASH, |m| m.wash().map(|_| m.off_loom.zip(m.finished)));
    let wash_width =
        change(past, &mut left_out, WASH, |m| m.wash_width().map(|_| m.off_loom_width.zip(m.finished_width)));
    let draw_in = change(past, &mut left_out, DRAW_IN, |m| m.draw_in().map(|_| m.reed.zip(m.fell_width)));
    let width_in_all = change(past, &mut left_out, DRAW_IN, |m| m.width_in_all().map(|_| m.reed.zip(m.finished_width)));
    let weft_use = change(past, &mut left_out, WEFT, |m| {
        m.weft_use()?;
        Ok(m.pick_length()?.zip(m.finished_width))
    });
    LearnedEstimates {
        weaving,
        relaxed_use,
        release,
        wash,
        wash_width,
        draw_in,
        width_in_all,
        weft_use,
        waste: waste(past),
        weft_g_per_m: weft_per_metre(past),
        left_out: left_out.iter().filter(|out| **out).count(),
    }
}

/// Blends one change: Σ w·after ÷ Σ w·before.
fn change<D: Axis, A: MeasuredState, B: MeasuredState>(
    past: &[PastWarp],
    left_out: &mut [bool],
    weights: Weights,
    pair: impl Fn(&WarpMeasurements) -> Result<Option<(Extent<D, A>, Extent<D, B>)>, crate::Refused>,
) -> Option<Learned<ExtentChange<D, A, B>>> {
    let mut seen = Vec::new();
    for (one, out) in past.iter().zip(left_out) {
        match pair(&one.measured) {
            Ok(Some((before, after))) => seen.push((weights.of(one.like), before.mm(), after.mm(), one.like)),
            Ok(None) => {}
            Err(_) => *out = true,
        }
    }
    let before: f64 = seen.iter().map(|(w, before, ..)| w * before).sum();
    let after: f64 = seen.iter().map(|(w, _, after, _)| w * after).sum();
    let value = ExtentChange::from_ratio(after / before).ok()?;
    let ratios: Vec<(f64, f64)> = seen.iter().map(|(w, before, after, _)| (*w, after / before)).collect();
    Some(Learned {
        value,
        deviation: deviation(&ratios, value.ratio(), USUAL_DEVIATION),
        warps: seen.len(),
        alike: seen.iter().filter(|(.., like)| *like == Likeness::FULL).count(),
    })
}

/// The spread to expect of the next value: between the warps seen, mixed with what is usual as if that were two warps
/// more, and wider by how few the mean stands on.
fn deviation(seen: &[(f64, f64)], mean: f64, usual: f64) -> f64 {
    let weight: f64 = seen.iter().map(|(w, _)| w).sum();
    let squares: f64 = seen.iter().map(|(w, x)| w * (x - mean).powi(2)).sum();
    if weight <= 0.0 {
        return usual;
    }
    // The mean was taken from the same warps: one of them is used up.
    let free = (weight - 1.0).max(0.0);
    let between = (USUAL_COUNTS_AS * usual * usual + squares) / (USUAL_COUNTS_AS + free);
    (between * (1.0 + 1.0 / weight)).sqrt()
}

/// How much a warp that is not like the plan in everything counts for the length lost beside one that is. Judgement, no source.
const UNLIKE_COUNTS: f64 = 0.3;

/// Share of the length on the loom that is lost until the cloth is finished: from warps of which both lengths were measured, sums
/// divided; where there are none, release and wash one after the other. Lengths that cannot belong together (finished less than 0.4
/// or more than 1.1 of woven) are passed over.
pub fn learn_length_loss(past: &[PastWarp]) -> Option<Learned<f64>> {
    let mut seen = Vec::new();
    for one in past {
        let (Some(woven), Some(finished)) = (one.measured.woven, one.measured.finished) else { continue };
        if finished.mm() > 0.4 * woven.mm() && finished.mm() < 1.1 * woven.mm() {
            let alike = one.like == Likeness::FULL;
            seen.push((if alike { 1.0 } else { UNLIKE_COUNTS }, woven.mm(), finished.mm(), alike));
        }
    }
    let woven: f64 = seen.iter().map(|(w, woven, ..)| w * woven).sum();
    if woven <= 0.0 {
        let mut left_out = vec![false; past.len()];
        let release = change(past, &mut left_out, RELEASE, |m| m.release().map(|_| m.woven.zip(m.off_loom)))?;
        let wash = change(past, &mut left_out, WASH, |m| m.wash().map(|_| m.off_loom.zip(m.finished)))?;
        return Some(Learned {
            value: 1.0 - release.value.ratio() * wash.value.ratio(),
            deviation: release.deviation.hypot(wash.deviation),
            warps: release.warps.min(wash.warps),
            alike: release.alike.min(wash.alike),
        });
    }
    let ratio = seen.iter().map(|(w, _, finished, _)| w * finished).sum::<f64>() / woven;
    let ratios: Vec<(f64, f64)> = seen.iter().map(|(w, woven, finished, _)| (*w, finished / woven)).collect();
    Some(Learned {
        value: 1.0 - ratio,
        deviation: deviation(&ratios, ratio, USUAL_DEVIATION),
        warps: seen.len(),
        alike: seen.iter().filter(|(.., alike)| *alike).count(),
    })
}

/// What the pace of one warp differs from the next one's by, where too few are known to tell, as a share. Judgement, no source.
const USUAL_PACE_DEVIATION: f64 = 0.2;

/// Timed weaving that teaches a pace, minutes: settling in takes most of a shorter time (a judgement, no source).
const LEAST_TIMED_MINUTES: f64 = 30.0;

/// Picks an hour, from the minutes and picks of each warp's timed sittings: picks summed, divided by hours summed. Warps without
/// either are passed over; less than half an hour in all teaches nothing.
pub fn learn_picks_per_hour(timed: impl IntoIterator<Item = (f64, f64)>) -> Option<Learned<f64>> {
    let timed = timed.into_iter().filter(|(minutes, picks)| *minutes > 0.0 && *picks > 0.0);
    let seen: Vec<(f64, f64)> = timed.map(|(minutes, picks)| (minutes / 60.0, picks)).collect();
    let hours: f64 = seen.iter().map(|(hours, _)| hours).sum();
    if hours * 60.0 < LEAST_TIMED_MINUTES {
        return None;
    }
    let value = seen.iter().map(|(_, picks)| picks).sum::<f64>() / hours;
    let rates: Vec<(f64, f64)> = seen.iter().map(|(hours, picks)| (1.0, picks / hours)).collect();
    let deviation = deviation(&rates, value, USUAL_PACE_DEVIATION * value);
    Some(Learned { value, deviation, warps: seen.len(), alike: seen.len() })
}

impl<D: Axis, S: MeasuredState> Learned<ExtentChange<D, Straight, S>> {
    /// Yarn used for 100 of cloth.
    pub fn yarn_per_100(&self) -> Learned<f64> {
        let per_100 = self.value.yarn_per_100();
        Learned {
            value: per_100,
            // The deviation is of cloth per yarn; turned round it grows with the square.
            deviation: self.deviation * (per_100 / 100.0).powi(2) * 100.0,
            warps: self.warps,
            alike: self.alike,
        }
    }
}

fn waste(past: &[PastWarp]) -> Option<LearnedAmount<WarpLength>> {
    let seen: Vec<(f64, f64, Likeness)> = past
        .iter()
        // Where warp, cloth and waste do not fit together, the waste is as likely wrong as the others.
        .filter(|one| one.measured.weaving().is_ok() && one.measured.relaxed_use().is_ok())
        .filter_map(|one| Some((WASTE.of(one.like), one.measured.waste()?.mm(), one.like)))
        .collect();
    let weight: f64 = seen.iter().map(|(w, ..)| w).sum();
    if weight <= 0.0 {
        return None;
    }
    let mean = seen.iter().map(|(w, mm, _)| w * mm).sum::<f64>() / weight;
    let values: Vec<(f64, f64)> = seen.iter().map(|(w, mm, _)| (*w, *mm)).collect();
    Some(LearnedAmount {
        value: Estimate::even(WarpLength::nearest(mean), deviation(&values, mean, 40.0)),
        warps: seen.len(),
        alike: seen.iter().filter(|(.., like)| *like == Likeness::FULL).count(),
    })
}

fn weft_per_metre(past: &[PastWarp]) -> Option<(f64, f64, usize)> {
    let seen: Vec<(f64, f64, f64)> = past
        .iter()
        .filter(|one| one.like.yarn)
        .filter_map(|one| {
            one.measured.weft_g_per_m().ok()??;
            Some((WEFT.of(one.like), one.measured.weft_used?.g(), one.measured.woven?.m()))
        })
        .collect();
    let metres: f64 = seen.iter().map(|(w, _, m)| w * m).sum();
    if metres <= 0.0 {
        return None;
    }
    let rate = seen.iter().map(|(w, g, _)| w * g).sum::<f64>() / metres;
    let rates: Vec<(f64, f64)> = seen.iter().map(|(w, g, m)| (*w, g / m)).collect();
    Some((rate, deviation(&rates, rate, rate * 0.06), seen.len()))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::state::{FinishedLength, RelaxedLength};

    fn washed(before_cm: f64, after_cm: f64, like: Likeness) -> PastWarp {
        PastWarp {
            measured: WarpMeasurements {
                off_loom: RelaxedLength::from_cm(before_cm).ok(),
                finished: FinishedLength::from_cm(after_cm).ok(),
                ..WarpMeasurements::default()
            },
            like,
        }
    }

    #[test]
    fn sums_are_divided() {
        let past = [washed(100.0, 90.0, Likeness::FULL), washed(300.0, 300.0, Likeness::FULL)];
        let wash = learn(&past).wash.unwrap();
        assert!((wash.value.shrinkage_percent() - 2.5).abs() < 1e-9);
        assert_eq!((wash.warps, wash.alike), (2, 2));
        assert_eq!(learn(&past).weaving, None);
    }

    #[test]
    fn likeness_counts() {
        let other = Likeness { yarn: false, ..Likeness::FULL };
        let past = [washed(100.0, 90.0, Likeness::FULL), washed(100.0, 70.0, other)];
        let wash = learn(&past).wash.unwrap();
        // One against a fifth: nearer to the one that is alike.
        assert!((wash.value.shrinkage_percent() - (10.0 + 0.2 * 30.0) / 1.2).abs() < 1e-9);
        assert_eq!((wash.warps, wash.alike), (2, 1));
    }

    #[test]
    fn more_warps_are_surer() {
        let one = [washed(100.0, 90.0, Likeness::FULL)];
        let many: Vec<_> = (0..6).map(|i| washed(100.0, 89.5 + 0.2 * f64::from(i), Likeness::FULL)).collect();
        let (a, b) = (learn(&one).wash.unwrap().deviation, learn(&many).wash.unwrap().deviation);
        assert!(b < a / 2.0, "{a} {b}");
    }

    #[test]
    fn what_does_not_fit_is_left_out_and_counted() {
        let mut bad = washed(100.0, 90.0, Likeness::FULL);
        bad.measured.finished = FinishedLength::from_cm(1.0).ok();
        let estimates = learn(&[bad, washed(100.0, 90.0, Likeness::FULL)]);
        assert_eq!((estimates.wash.unwrap().warps, estimates.left_out), (1, 1));
        assert_eq!(learn(&[]), LearnedEstimates::default());
    }

    #[test]
    fn weft_is_learnt_of_the_same_yarn_only() {
        use crate::quantity::Mass;
        use crate::state::WovenLength;
        let of = |g: f64, m: f64, yarn: bool| PastWarp {
            measured: WarpMeasurements {
                weft_used: Mass::from_g(g).ok(),
                woven: WovenLength::from_m(m).ok(),
                ..WarpMeasurements::default()
            },
            like: Likeness { yarn, ..Likeness::FULL },
        };
        let (rate, _, warps) =
            learn(&[of(100.0, 2.0, true), of(50.0, 2.0, true), of(900.0, 1.0, false)]).weft_g_per_m.unwrap();
        assert!((rate - 37.5).abs() < 1e-9);
        assert_eq!(warps, 2);
    }

    fn woven_and_finished(woven_cm: f64, finished_cm: f64, like: Likeness) -> PastWarp {
        let measured = WarpMeasurements {
            woven: crate::state::WovenLength::from_cm(woven_cm).ok(),
            finished: FinishedLength::from_cm(finished_cm).ok(),
            ..WarpMeasurements::default()
        };
        PastWarp { measured, like }
    }

    #[test]
    fn length_lost_divides_sums_and_passes_over_what_cannot_be() {
        let other = Likeness { structure: false, ..Likeness::FULL };
        let past = [
            woven_and_finished(100.0, 90.0, Likeness::FULL),
            woven_and_finished(100.0, 70.0, other),
            woven_and_finished(100.0, 20.0, Likeness::FULL),
        ];
        let loss = learn_length_loss(&past).unwrap();
        assert!((loss.value - (0.1 + 0.3 * 0.3) / 1.3).abs() < 1e-12, "{loss:?}");
        assert_eq!((loss.warps, loss.alike), (2, 1));
        assert_eq!(learn_length_loss(&[washed(100.0, 90.0, Likeness::FULL)]), None, "the release is not known");
    }

    #[test]
    fn pace_divides_sums() {
        let pace = learn_picks_per_hour([(60.0, 400.0), (180.0, 900.0), (0.0, 50.0)]).unwrap();
        assert!((pace.value - 325.0).abs() < 1e-9 && pace.warps == 2 && pace.deviation > 0.0, "{pace:?}");
        assert_eq!(learn_picks_per_hour([(0.0, 10.0)]), None);
    }
}

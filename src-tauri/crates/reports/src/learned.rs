//! What was learned from finished warps: real take-up, draw-in, loom waste, shrinkage and weft per length, offered to the next plan with how
//! many warps stand behind each.

use fellmark_cloth::learned::{self as cloth, Likeness, PastWarp, WarpMeasurements};
use fellmark_cloth::quantity::Mass;
use fellmark_cloth::state::{
    FellWidth, FinishedLength, FinishedWidth, ReedWidth, RelaxedLength, RelaxedWidth, WarpLength, WovenLength,
};

use crate::progress::Progress;
use crate::reach::NotCloth;
use crate::weft_ledger::yarn_number;
use fellmark_model::WarpLog;
use fellmark_model::WarpState;

/// What a plan is like, as far as it is known: the nearer a past warp, the more it says.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Similarity {
    /// `plain`, `pick_up` or nothing.
    pub weave: Option<String>,
    /// Picks per 10 cm under tension.
    pub picks_per_10cm: Option<f64>,
    /// Name of the weft yarn.
    pub weft: Option<String>,
}

impl Similarity {
    /// What a warp itself is like.
    #[must_use]
    pub fn of(log: &WarpLog) -> Self {
        Self {
            weave: log.warp.weave.clone(),
            picks_per_10cm: log.warp.picks_per_10cm,
            weft: log.wefts.first().and_then(|weft| weft.name.clone()),
        }
    }
}

/// What one warp that is off the loom has to teach.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct WarpSample {
    /// What was measured of it.
    pub measured: WarpMeasurements,
    /// What it is like.
    pub like: Similarity,
    /// Minutes of its timed sittings, and the picks woven in them.
    pub timed: (f64, f64),
}

impl WarpSample {
    /// What a warp has to teach.
    #[must_use]
    pub fn of(log: &WarpLog, progress: &Progress) -> Self {
        let timed = log.sittings.iter().zip(&progress.sitting_picks);
        let timed = timed.filter_map(|(sitting, picks)| Some((sitting.minutes?, (*picks)?)));
        Self {
            measured: measured(log, progress),
            like: Similarity::of(log),
            timed: timed.fold((0.0, 0.0), |(m, p), (minutes, picks)| (m + minutes, p + picks)),
        }
    }
}

/// A figure learnt.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figure {
    /// The blend over the warps: sums divided, never rates averaged.
    pub value: f64,
    /// Standard deviation to expect of the next warp, in the unit of the value.
    pub deviation: f64,
    /// How many warps stand behind it.
    pub warps: usize,
    /// How many of these are like the plan in everything.
    pub alike: usize,
}

impl Figure {
    /// A learned number in a unit that has so many to one of its own.
    fn of_learned(one: cloth::Learned<f64>, per_unit: f64) -> Self {
        Self { value: one.value * per_unit, deviation: one.deviation * per_unit, warps: one.warps, alike: one.alike }
    }
}

/// Everything finished warps teach for a plan; nothing where nothing was measured.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LearnedValues {
    /// Warp that 100 of cloth under tension uses.
    pub warp_per_100: Option<Figure>,
    /// Loss of length from the loom to finished, per cent of the length on the loom.
    pub shrinkage_percent: Option<Figure>,
    /// Loss of width from the reed to finished, per cent of the width in the reed.
    pub width_loss_percent: Option<Figure>,
    /// Loom waste, millimetres.
    pub waste_mm: Option<Figure>,
    /// Weft per metre woven, grams, of the same yarn only.
    pub weft_g_per_m: Option<Figure>,
    /// Picks an hour at the loom, of the same weave only.
    pub picks_per_hour: Option<Figure>,
    /// The same and more, as the arithmetic takes it.
    pub cloth: cloth::LearnedEstimates,
}

/// Weft used, grams: what there was less what was left over, or less what the last weighing left when nothing was woven after it.
#[must_use]
pub fn weft_used_g(log: &WarpLog) -> Option<f64> {
    let start = log.wefts.first()?.start_mass_g?;
    let last = || {
        let last = log.sittings.iter().rev().find(|sitting| sitting.picks.is_some_and(|picks| picks != 0))?;
        last.weft_left_g
    };
    let left = log.warp.off.weft_over_g.or_else(last)?;
    (left < start).then_some(start - left)
}

/// Everything that was measured of a warp. The length under tension counts only where a tape measured it.
#[must_use]
pub fn measured(log: &WarpLog, progress: &Progress) -> WarpMeasurements {
    let (warp, off) = (&log.warp, &log.warp.off);
    // The ends are measured with their fringe; where the fringe is not counted as waste it is taken off.
    let fringe = if warp.fringe_from_waste { 0.0 } else { warp.fringe_mm };
    let end = |mm: Option<f64>| mm.and_then(|mm| WarpLength::from_mm((mm - fringe).max(0.0)).ok());
    let weft = log.wefts.first();
    let number = weft.and_then(|weft| yarn_number(weft).ok().flatten());
    let not_cloth = NotCloth::of_warp(warp);
    WarpMeasurements {
        wound: warp.wound_mm.and_then(|mm| WarpLength::from_mm(mm).ok()),
        front: end(off.front_mm),
        thrums: end(off.thrums_mm),
        between: Some(not_cloth.fringes + not_cloth.gaps),
        woven: if progress.rate_measured { WovenLength::from_mm(progress.woven_mm()).ok() } else { None },
        off_loom: off.off_loom_mm.and_then(|mm| RelaxedLength::from_mm(mm).ok()),
        finished: off.finished_mm.and_then(|mm| FinishedLength::from_mm(mm).ok()),
        reed: warp.reed_width_mm.and_then(|mm| ReedWidth::from_mm(mm).ok()),
        fell_width: off.fell_width_mm.and_then(|mm| FellWidth::from_mm(mm).ok()),
        off_loom_width: off.off_loom_width_mm.and_then(|mm| RelaxedWidth::from_mm(mm).ok()),
        finished_width: off.finished_width_mm.and_then(|mm| FinishedWidth::from_mm(mm).ok()),
        picks: u64::try_from(progress.picks).ok().filter(|picks| *picks > 0),
        weft_used: weft_used_g(log).and_then(|grams| Mass::from_g(grams).ok()),
        weft_yarn: number,
    }
}

/// Picks per length that differ by less than this, as a ratio, belong to about the same cloth. Judgement, no source.
const ABOUT_THE_SAME: f64 = 1.25;

fn likeness(own: &Similarity, like: &Similarity) -> Likeness {
    let words = |text: &Option<String>| text.as_deref().map(|text| text.trim().to_lowercase());
    let same_weave = own.weave == like.weave || like.weave.is_none();
    let near = match (own.picks_per_10cm, like.picks_per_10cm) {
        (Some(own), Some(wanted)) => (own / wanted).max(wanted / own) <= ABOUT_THE_SAME,
        _ => true,
    };
    Likeness {
        // The journal knows of one loom.
        loom: true,
        yarn: like.weft.is_none() || words(&own.weft) == words(&like.weft),
        structure: same_weave && near,
    }
}

/// Learns from the warps that are off the loom, for a plan that is like this.
#[must_use]
pub fn from_warps<'a>(logs: impl IntoIterator<Item = &'a WarpLog>, like: &Similarity) -> LearnedValues {
    let off = logs.into_iter().filter(|log| log.warp.state == WarpState::OffTheLoom);
    let samples: Vec<WarpSample> = off.map(|log| WarpSample::of(log, &Progress::of(log, 0))).collect();
    from_samples(&samples, like)
}

/// Learns from what each warp off the loom has to teach, for a plan that is like this.
#[must_use]
pub fn from_samples<'a>(samples: impl IntoIterator<Item = &'a WarpSample>, like: &Similarity) -> LearnedValues {
    let samples: Vec<&WarpSample> = samples.into_iter().collect();
    let past: Vec<PastWarp> =
        samples.iter().map(|one| PastWarp { measured: one.measured, like: likeness(&one.like, like) }).collect();
    let lessons = cloth::learn(&past);
    let plain = |value: f64, deviation: f64, warps: usize, alike: usize| Figure { value, deviation, warps, alike };
    let width = lessons
        .width_in_all
        .map(|one| plain(one.value.shrinkage_percent(), one.deviation * 100.0, one.warps, one.alike));
    let waste =
        lessons.waste.map(|one| plain(one.value.likely.mm(), one.value.standard_deviation(), one.warps, one.alike));
    // Where the yarn is not known, that of one warp says nothing of another.
    let weft = like
        .weft
        .as_ref()
        .and(lessons.weft_g_per_m)
        .map(|(rate, deviation, warps)| plain(rate, deviation, warps, warps));
    let same_weave = samples.iter().filter(|one| like.weave.is_none() || one.like.weave == like.weave);
    LearnedValues {
        warp_per_100: lessons.weaving.map(|one| Figure::of_learned(one.yarn_per_100(), 1.0)),
        shrinkage_percent: cloth::learn_length_loss(&past).map(|one| Figure::of_learned(one, 100.0)),
        width_loss_percent: width,
        waste_mm: waste,
        weft_g_per_m: weft,
        picks_per_hour: cloth::learn_picks_per_hour(same_weave.map(|one| one.timed))
            .map(|one| Figure::of_learned(one, 1.0)),
        cloth: lessons,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use fellmark_model::off_loom::OffMeasures;
    use fellmark_model::tests::{log, sitting};

    /// 2.5 m wound, 20 + 30 cm of waste, 1.8 m woven tight, 1.62 m finished.
    fn finished() -> WarpLog {
        let mut log = log();
        log.warp.state = WarpState::OffTheLoom;
        log.sittings = vec![sitting(2, Some(720), Some(1800.0))];
        log.warp.off = OffMeasures {
            front_mm: Some(200.0),
            thrums_mm: Some(300.0),
            off_loom_mm: Some(1710.0),
            finished_mm: Some(1620.0),
            finished_width_mm: Some(170.0),
            weft_over_g: Some(10.0),
            ..OffMeasures::default()
        };
        log
    }

    #[test]
    fn a_finished_warp_teaches_its_own_figures() {
        let lessons = from_warps([&finished()], &Similarity::default());
        let near = |figure: Option<Figure>, value: f64| {
            let figure = figure.unwrap();
            assert!((figure.value - value).abs() < 1e-6 && figure.warps == 1 && figure.deviation > 0.0, "{figure:?}");
        };
        // (2500 - 500) of warp in 1800 of cloth; 1620 of 1800; 170 of 200; picks in 40 minutes.
        near(lessons.warp_per_100, 2000.0 / 1800.0 * 100.0);
        near(lessons.shrinkage_percent, 10.0);
        near(lessons.width_loss_percent, 15.0);
        near(lessons.waste_mm, 500.0);
        near(lessons.picks_per_hour, 1080.0);
        assert_eq!(lessons.weft_g_per_m, None, "what there was at the start is not known");
    }

    #[test]
    fn sums_are_divided_and_unlike_warps_count_less() {
        let mut longer = finished();
        longer.sittings = vec![sitting(2, Some(2160), Some(5400.0))];
        longer.warp.wound_mm = Some(6500.0);
        longer.warp.off.off_loom_mm = None;
        longer.warp.off.finished_mm = Some(5400.0 * 0.8);
        let both = [finished(), longer];
        let lessons = from_warps(&both, &Similarity::default());
        // 1620 + 4320 of 1800 + 5400, not the mean of 10 and 20.
        assert!((lessons.shrinkage_percent.unwrap().value - 17.5).abs() < 1e-9);
        let mut unlike = both;
        unlike[1].warp.weave = Some("pick_up".into());
        let plain = Similarity { weave: Some("plain".into()), ..Similarity::default() };
        unlike[0].warp.weave = Some("plain".into());
        let figure = from_warps(&unlike, &plain).shrinkage_percent.unwrap();
        assert!(figure.value < 17.5 && (figure.warps, figure.alike) == (2, 1), "{figure:?}");
    }

    #[test]
    fn a_warp_on_the_loom_and_a_length_nobody_measured_teach_nothing() {
        let mut on = finished();
        on.warp.state = WarpState::OnTheLoom;
        assert_eq!(from_warps([&on], &Similarity::default()), LearnedValues::default());
        let mut counted = finished();
        counted.sittings = vec![sitting(2, Some(720), None)];
        let lessons = from_warps([&counted], &Similarity::default());
        assert_eq!(lessons.warp_per_100, None);
        assert!(lessons.waste_mm.is_some());
    }

    #[test]
    fn fringe_that_is_not_waste_is_taken_off_both_ends() {
        let mut fringed = finished();
        fringed.warp.fringe_mm = 80.0;
        let lessons = from_warps([&fringed], &Similarity::default());
        assert!((lessons.waste_mm.unwrap().value - 340.0).abs() < 1e-9);
        fringed.warp.fringe_from_waste = true;
        assert!((from_warps([&fringed], &Similarity::default()).waste_mm.unwrap().value - 500.0).abs() < 1e-9);
    }
}

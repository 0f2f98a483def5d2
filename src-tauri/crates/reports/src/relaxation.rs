//! What cloth loses in length when the tension goes: from pairs of readings on this warp, from earlier warps, else assumed.

use fellmark_cloth::change::Release;
use fellmark_cloth::learned::USUAL_RELAXATION;
use fellmark_cloth::measurement_errors::MeasurementErrors;
use fellmark_cloth::tape_and_counts::PickCount;
use fellmark_model::moments::{Timeline, TimelineStep};
use fellmark_model::{Tape, WarpLog};

/// Relaxed ÷ tight beyond these is a slip of the tape, and no relaxation (once −30 % was seen; cloth does not grow when let off).
pub(crate) const POSSIBLE_RATIOS: std::ops::RangeInclusive<f64> = 0.65..=1.02;

/// Where a relaxation comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RelaxationSource {
    /// So many pairs of readings of the same cloth on this warp, tight and relaxed.
    Pairs(usize),
    /// So many earlier warps, measured on the loom and off it.
    EarlierWarps(usize),
    /// Nothing is known: assumed.
    Assumed,
}

/// What becomes of a length under tension when the tension goes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Relaxation {
    /// The change.
    pub release: Release,
    /// Its standard deviation, as a share of the length.
    pub deviation_share: f64,
    /// Where it comes from.
    pub source: RelaxationSource,
}

impl Relaxation {
    /// The relaxation of a warp.
    pub(crate) fn of(log: &WarpLog, timeline: &Timeline<'_>) -> Self {
        let habits = MeasurementErrors::default();
        let mut same = SameCloth::default();
        let pairs: Vec<(f64, f64)> = timeline.steps.iter().filter_map(|step| same.step(log, step)).collect();
        let sums = pairs.iter().fold((0.0, 0.0), |(tight, relaxed), pair| (tight + pair.0, relaxed + pair.1));
        if let (false, Ok(release)) = (pairs.is_empty(), Release::from_ratio(sums.1 / sums.0)) {
            let source = RelaxationSource::Pairs(pairs.len());
            return Self { release, deviation_share: habits.relaxed_share, source };
        }
        if let Some(learned) = log.warp.learned_release
            && let Ok(release) = Release::from_ratio(learned.ratio)
        {
            let deviation_share = learned.deviation.max(habits.relaxed_share);
            return Self { release, deviation_share, source: RelaxationSource::EarlierWarps(learned.warps) };
        }
        Self {
            release: Release::from_shrinkage_percent(USUAL_RELAXATION.usual_percent).unwrap_or(Release::NONE),
            deviation_share: USUAL_RELAXATION.deviation_share(),
            source: RelaxationSource::Assumed,
        }
    }
}

/// A reading under tension of cloth to which nothing was added since.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct SameCloth {
    last: Option<Tape>,
}

impl SameCloth {
    /// Takes a step of the timeline; the tight and the relaxed reading, millimetres from the same place, where both are of the same
    /// cloth and can be: one after the other with nothing woven between.
    pub(crate) fn step(&mut self, log: &WarpLog, step: &TimelineStep<'_>) -> Option<(f64, f64)> {
        let only_read = step
            .stretch
            .and_then(|stretch| log.sittings.get(stretch))
            .is_some_and(|sitting| sitting.minutes.is_none() && sitting.picks.unwrap_or(0) == 0);
        if !matches!(step.picks, PickCount::Counted(0) | PickCount::Guessed(0)) && !only_read {
            self.last = None;
        }
        let mut pair = None;
        if let Some(now) = step.observed.tape {
            if let Some(before) = self.last.filter(|one| one.relaxed != now.relaxed && one.from_mark == now.from_mark) {
                let (tight, relaxed) = if now.relaxed { (before.mm, now.mm) } else { (now.mm, before.mm) };
                pair = Some((tight, relaxed)).filter(|_| tight > 0.0 && POSSIBLE_RATIOS.contains(&(relaxed / tight)));
            }
            self.last = Some(now);
        }
        if step.observed.mark_set {
            self.last = None;
        }
        pair
    }
}

//! How far a warp is: what the tape and the counts say together, sitting by sitting. Everything that answers a question about a
//! warp starts from here, so that all answers rest on one reckoning.

use fellmark_cloth::change::Release;
use fellmark_cloth::measurement_errors::MeasurementErrors;
use fellmark_cloth::span::{Coverage, Estimate};
use fellmark_cloth::state::{PicksIn, RelaxedLength, UnderTension, WovenLength};
use fellmark_cloth::tape_and_counts::{
    ClothWoven, Discrepancy, Drift, Observation, PickCount, TapeReading, cloth_woven, drift,
};

use crate::model::moments::Timeline;
use crate::model::{ClothState, Tape, Warp, WarpLog};

/// How far a warp is.
#[derive(Clone, Debug)]
pub struct Progress {
    /// Number of pieces.
    pub pieces: u32,
    /// Net picks that were counted, the running sitting included.
    pub picks: i64,
    /// Picks of each sitting, in the order of the log: counted, or told by the tape; nothing where neither tells.
    pub sitting_picks: Vec<Option<f64>>,
    /// Where each sitting begins and ends on the cloth, millimetres from the first pick; what is not in the log yet last.
    pub stretches: Vec<(f64, f64)>,
    /// Cloth at the end of each step of the warp's [`Timeline`], millimetres from the first pick.
    pub steps_mm: Vec<f64>,
    /// Picks of the sitting that is going on.
    pub running_picks: i64,
    /// The last warp mark that reached the fell.
    pub warp_mark: Option<ReachedMark>,
    /// Whether the length rests on rough figures.
    pub rough: bool,
    /// Cloth woven, under tension; nothing when picks cannot be turned into a length yet.
    pub woven: Option<Estimate<WovenLength>>,
    /// Picks per millimetre to go on with.
    pub picks_per_mm: Option<f64>,
    /// Whether that rate was measured on this cloth.
    pub rate_measured: bool,
    /// Cloth to weave in all, under tension.
    pub wanted_mm: Option<f64>,
    /// Where each piece ends on the cloth, under tension, millimetres from the first pick; none while no length is wanted.
    pub piece_ends_mm: Vec<f64>,
    /// Cloth still to weave.
    pub to_weave_mm: Option<f64>,
    /// Picks still to weave, whole ones; at most zero when the target is met.
    pub to_weave_picks: Option<f64>,
    /// Standard deviation of that number.
    pub to_weave_picks_sd: f64,
    /// Positions of marks on the cloth, in order.
    pub marks_mm: Vec<f64>,
    /// What she should be told about the figures.
    pub noticed: Vec<Notice>,
    /// Minutes at the loom.
    pub minutes: f64,
}

/// Picks as they are woven: whole ones, and none too few. What a division leaves beyond the last place is no pick.
pub(crate) fn whole_picks(picks: f64) -> f64 {
    (picks - 1e-6).ceil()
}

/// A warp mark that reached the fell.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ReachedMark {
    /// Along the warp from the first pick, millimetres.
    pub along_mm: f64,
    /// Cloth woven by then, under tension, millimetres.
    pub woven_mm: f64,
    /// Standard deviation of that, millimetres.
    pub woven_sd_mm: f64,
}

/// Something noticed about tape and counts, with the sitting it is about.
#[derive(Clone, Debug)]
pub struct Notice {
    /// Index of the sitting, if it is about one.
    pub sitting: Option<usize>,
    /// What it is.
    pub what: What,
}

/// What can be noticed.
#[derive(Clone, Debug)]
pub enum What {
    /// Tape and counts differ; the tape is used.
    Apart {
        /// By the tape, millimetres.
        by_tape_mm: f64,
        /// By the counts, millimetres.
        by_counts_mm: f64,
    },
    /// A reading is less than the one before.
    Shrunk {
        /// The one before, millimetres.
        before_mm: f64,
        /// This one, millimetres.
        now_mm: f64,
    },
    /// Sittings whose cloth nothing tells.
    Uncounted(usize),
    /// A tape started at a mark that was never set.
    NoMark,
    /// The picks creep closer or wider.
    Creeping {
        /// Picks per millimetre where it began.
        from: f64,
        /// Picks per millimetre where it is.
        to: f64,
    },
    /// The last stretch is off the earlier ones.
    Jumped {
        /// Picks per millimetre before.
        from: f64,
        /// Picks per millimetre in the last stretch.
        to: f64,
    },
}

impl Warp {
    /// What is left of a length under tension when it is finished, as a ratio; 1 where no loss is known.
    #[must_use]
    pub fn finished_ratio(&self) -> f64 {
        1.0 - self.shrinkage_percent.unwrap_or(0.0) / 100.0
    }

    /// Cloth under tension that all pieces want together.
    #[must_use]
    pub fn wanted_woven_mm(&self) -> Option<f64> {
        self.piece_ends_mm().last().copied()
    }

    /// Length wanted of each piece, as she gave it; none while none is given.
    #[must_use]
    pub fn wanted_of_each_mm(&self) -> Vec<f64> {
        match self.wanted_mm {
            _ if !self.wanted_each_mm.is_empty() => self.wanted_each_mm.clone(),
            Some(mm) => vec![mm; self.pieces as usize],
            None => Vec::new(),
        }
    }

    /// Where each piece ends on the cloth, under tension, millimetres from the first pick.
    #[must_use]
    pub fn piece_ends_mm(&self) -> Vec<f64> {
        let ratio = match self.wanted_state {
            // Woven = finished / (1 - s), never finished x (1 + s).
            ClothState::Finished => self.finished_ratio(),
            ClothState::OffLoom | ClothState::UnderTension => 1.0,
        };
        let each = self.wanted_of_each_mm();
        if self.wanted_each_mm.is_empty() {
            return each.iter().zip(1_u32..).map(|(mm, nth)| mm / ratio * f64::from(nth)).collect();
        }
        let mut at = 0.0;
        let end = |mm: f64| {
            at += mm / ratio;
            at
        };
        each.into_iter().map(end).collect()
    }

    fn planned_rate(&self) -> Option<PicksIn<UnderTension>> {
        PicksIn::from_per_10cm(self.picks_per_10cm?).ok()
    }
}

/// Picks per millimetre of a rate.
fn per_mm(rate: PicksIn<UnderTension>) -> f64 {
    rate.density().per_cm() / 10.0
}

/// Tape and counts in the order of the log, with the marks they set.
struct Told {
    observations: Vec<Observation>,
    /// Which stretch each observation belongs to.
    of: Vec<Option<usize>>,
    marks_mm: Vec<f64>,
    /// Observations whose tape started at a mark that was never set.
    without_mark: Vec<usize>,
    /// Observations at which a warp mark was at the fell, and how far along the warp it was tied.
    warp_marks: Vec<(usize, f64)>,
}

fn taken(tape: Tape, last_mark_mm: Option<f64>) -> Option<TapeReading> {
    let from = if tape.from_mark { last_mark_mm.unwrap_or(0.0) } else { 0.0 };
    if tape.relaxed {
        let of = if tape.rough { TapeReading::ApproximateRelaxedTotal } else { TapeReading::RelaxedTotal };
        RelaxedLength::from_mm(from + tape.mm).ok().map(of)
    } else {
        let of = if tape.rough { TapeReading::ApproximateTotal } else { TapeReading::Total };
        WovenLength::from_mm(from + tape.mm).ok().map(of)
    }
}

fn observe(course: &Timeline<'_>, planned: Option<PicksIn<UnderTension>>, errors: &MeasurementErrors) -> Told {
    let mut told = Told {
        observations: Vec::new(),
        of: Vec::new(),
        marks_mm: Vec::new(),
        without_mark: Vec::new(),
        warp_marks: Vec::new(),
    };
    for (index, step) in course.steps.iter().enumerate() {
        if step.observed.tape.is_some_and(|tape| tape.from_mark) && told.marks_mm.is_empty() {
            told.without_mark.push(index);
        }
        let taken = step.observed.tape.and_then(|tape| taken(tape, told.marks_mm.last().copied()));
        told.observations.push(Observation { picks: step.picks, tape: taken });
        told.of.push(step.stretch);
        if step.observed.mark_set
            && let Ok(so_far) = cloth_woven(&told.observations, planned, None, errors)
        {
            told.marks_mm.push(so_far.total.likely.mm());
        }
        if let Some(along_mm) = step.observed.warp_mark_mm {
            told.warp_marks.push((index, along_mm));
        }
    }
    told
}

impl Progress {
    /// Reckons a warp, with the picks of a sitting that is going on.
    #[must_use]
    pub fn of(log: &WarpLog, running_picks: i64) -> Self {
        let errors = MeasurementErrors::default();
        let planned = log.warp.planned_rate();
        let release: Option<Release> = None;
        let course = Timeline::of(log, running_picks);
        let told = observe(&course, planned, &errors);
        let woven = cloth_woven(&told.observations, planned, release, &errors).ok();
        let rate = woven.as_ref().and_then(|woven| woven.rate).or(planned);
        let rate_mm = rate.map(per_mm);
        let totals = cumulative(&told.observations, woven.as_ref(), rate_mm);
        let stretches = stretches(&told.of, &totals, course.stretches());
        let sitting_picks = log
            .sittings
            .iter()
            .zip(&stretches)
            .enumerate()
            .map(|(index, (sitting, (from, to)))| {
                let measured = || {
                    let mut steps = told.of.iter().zip(&told.observations);
                    steps.any(|(of, observation)| *of == Some(index) && observation.tape.is_some())
                };
                match (sitting.picks, rate_mm) {
                    (Some(picks), _) => Some(picks as f64),
                    (None, Some(rate)) if to > from && measured() => Some((to - from) * rate),
                    _ => None,
                }
            })
            .collect();
        let warp_mark = told.warp_marks.last().and_then(|(index, along_mm)| {
            let upto = told.observations.get(..=*index)?;
            let sd = cloth_woven(upto, planned, release, &errors).ok()?.total.standard_deviation();
            let woven_mm = totals.get(*index).copied().filter(|mm| *mm > 0.0)?;
            Some(ReachedMark { along_mm: *along_mm, woven_mm, woven_sd_mm: sd })
        });
        let total = woven.as_ref().map(|woven| woven.total);
        let wanted_mm = log.warp.wanted_woven_mm();
        let woven_mm = total.map(|total| total.likely.mm());
        let to_weave_mm = wanted_mm.zip(woven_mm).map(|(wanted, woven)| wanted - woven);
        let to_weave_picks = to_weave_mm.zip(rate_mm).map(|(mm, rate)| whole_picks(mm * rate));
        let noticed = notices(woven.as_ref(), &told);
        let rough = rests_on_rough(log, &told);
        let sd_mm = total.map_or(0.0, |total| total.standard_deviation());
        let rate_share = if woven.as_ref().is_some_and(|woven| !woven.intervals.is_empty()) {
            errors.rate_share
        } else {
            errors.planned_rate_share
        };
        let spread = |(mm, rate): (f64, f64)| (sd_mm * rate).hypot(mm.max(0.0) * rate * rate_share);
        Self {
            pieces: log.warp.pieces,
            picks: course.picks(),
            sitting_picks,
            stretches,
            steps_mm: totals,
            running_picks,
            warp_mark,
            rough,
            woven: total,
            picks_per_mm: rate_mm,
            rate_measured: woven.as_ref().is_some_and(|woven| !woven.intervals.is_empty()),
            wanted_mm,
            piece_ends_mm: log.warp.piece_ends_mm(),
            to_weave_mm,
            to_weave_picks,
            to_weave_picks_sd: to_weave_mm.zip(rate_mm).map_or(0.0, spread),
            marks_mm: told.marks_mm,
            noticed,
            minutes: log.sittings.iter().filter_map(|sitting| sitting.minutes).sum(),
        }
    }

    /// Cloth woven, likely.
    #[must_use]
    pub fn woven_mm(&self) -> f64 {
        self.woven.map_or(0.0, |woven| woven.likely.mm())
    }

    /// Half the width of the span that holds the woven length four times in five.
    #[must_use]
    pub fn give_or_take_mm(&self) -> f64 {
        self.woven.map_or(0.0, |woven| {
            let span = woven.span(Coverage::FOUR_IN_FIVE);
            (span.high.mm() - span.low.mm()) / 2.0
        })
    }

    /// The piece that lies at the fell after so much cloth, from 0, with where it begins and ends; nothing while no length is wanted.
    /// What is woven beyond the last piece belongs to it.
    #[must_use]
    pub fn piece_at(&self, cloth_mm: f64) -> Option<(usize, f64, f64)> {
        let last = self.piece_ends_mm.len().checked_sub(1)?;
        let index = self.piece_ends_mm.iter().position(|end| cloth_mm < *end).unwrap_or(last);
        let from = index.checked_sub(1).and_then(|before| self.piece_ends_mm.get(before)).copied().unwrap_or(0.0);
        Some((index, from, self.piece_ends_mm.get(index).copied()?))
    }

    /// Whether all pieces are wanted as long as the first.
    #[must_use]
    pub fn pieces_are_alike(&self) -> bool {
        let Some(first) = self.piece_ends_mm.first() else { return true };
        self.piece_ends_mm.iter().zip(1_u32..).all(|(end, nth)| (end - first * f64::from(nth)).abs() < 0.5)
    }

    /// Woven share of what is wanted, 0 to 1.
    #[must_use]
    pub fn share(&self) -> f64 {
        match self.wanted_mm {
            Some(wanted) if wanted > 0.0 => (self.woven_mm() / wanted).clamp(0.0, 1.0),
            _ => 0.0,
        }
    }
}

/// Where each stretch begins and ends, from the ends of its steps.
fn stretches(of: &[Option<usize>], totals: &[f64], count: usize) -> Vec<(f64, f64)> {
    let mut at = 0.0;
    let ends = (0..count).map(|stretch| {
        let last = of.iter().zip(totals).rfind(|(of, _)| **of == Some(stretch));
        let from = at;
        at = last.map_or(from, |(_, total)| *total);
        (from, at)
    });
    ends.collect()
}

/// Whether what the length rests on, the last reading and the picks since, was given as rough.
fn rests_on_rough(log: &WarpLog, told: &Told) -> bool {
    let last_reading = told.observations.iter().rposition(|observation| observation.tape.is_some()).unwrap_or(0);
    let rough_tape = told.observations.get(last_reading).and_then(|observation| observation.tape);
    matches!(rough_tape, Some(TapeReading::ApproximateTotal(_) | TapeReading::ApproximateRelaxedTotal(_)))
        || told
            .of
            .iter()
            .skip(last_reading)
            .flatten()
            .any(|index| log.sittings.get(*index).is_some_and(|one| one.rough))
}

/// Cloth at the end of each observation: the tape's totals, and between them each sitting by its picks.
fn cumulative(observations: &[Observation], woven: Option<&ClothWoven>, rate_mm: Option<f64>) -> Vec<f64> {
    let mut totals = vec![0.0; observations.len()];
    let anchors = woven.map(|woven| woven.readings.as_slice()).unwrap_or_default();
    let (mut start, mut at) = (0, 0.0_f64);
    for reading in anchors {
        let to = reading.total.likely.mm();
        if let (Some(stretch), Some(out)) =
            (observations.get(start..=reading.observation), totals.get_mut(start..=reading.observation))
        {
            share_out(stretch, (at, to), rate_mm, out);
        }
        (start, at) = (reading.observation + 1, to);
    }
    for (observation, total) in observations.iter().zip(&mut totals).skip(start) {
        at = (at + net(observation) / rate_mm.unwrap_or(f64::INFINITY)).max(0.0);
        *total = at;
    }
    totals
}

fn net(observation: &Observation) -> f64 {
    match observation.picks {
        PickCount::Counted(picks) | PickCount::Guessed(picks) => picks as f64,
        PickCount::Unknown => 0.0,
    }
}

/// Shares the cloth between two readings out among the sittings between them: by picks where all have them; else those with
/// picks get what the rate gives them, and the others share the rest evenly.
fn share_out(stretch: &[Observation], (from, to): (f64, f64), rate_mm: Option<f64>, out: &mut [f64]) {
    let length = to - from;
    let unknown = stretch.iter().filter(|observation| observation.picks == PickCount::Unknown).count();
    let known: f64 = stretch.iter().map(net).sum();
    let per_pick = match rate_mm {
        _ if unknown == 0 && known > 0.0 => length / known,
        Some(rate) if unknown > 0 => (1.0 / rate).min(if known > 0.0 { (length / known).max(0.0) } else { 1.0 / rate }),
        _ => 0.0,
    };
    let rest = if unknown > 0 { (length - known * per_pick) / unknown as f64 } else { 0.0 };
    let mut at = from;
    for (observation, total) in stretch.iter().zip(&mut *out) {
        at += if observation.picks == PickCount::Unknown { rest } else { net(observation) * per_pick };
        *total = at.max(0.0);
    }
    // Where nothing tells how to share, the last sitting, which measured, gets it all.
    if let Some(last) = out.last_mut() {
        *last = to;
    }
}

fn notices(woven: Option<&ClothWoven>, told: &Told) -> Vec<Notice> {
    let stretch = |observation: usize| told.of.get(observation).copied().flatten();
    let mut all: Vec<Notice> =
        told.without_mark.iter().map(|index| Notice { sitting: stretch(*index), what: What::NoMark }).collect();
    let Some(woven) = woven else { return all };
    for noticed in &woven.discrepancies {
        let (sitting, what) = match noticed {
            Discrepancy::Apart { observation, by_tape, by_counts } => {
                (Some(*observation), What::Apart { by_tape_mm: by_tape.mm(), by_counts_mm: by_counts.mm() })
            }
            Discrepancy::MissedInterval(missed) => (
                Some(missed.observation),
                What::Apart { by_tape_mm: missed.by_tape.mm(), by_counts_mm: missed.by_counts.mm() },
            ),
            Discrepancy::Shrunk { observation, before, now } => {
                (Some(*observation), What::Shrunk { before_mm: before.mm(), now_mm: now.mm() })
            }
            Discrepancy::Uncounted { sittings } => (None, What::Uncounted(*sittings)),
        };
        all.push(Notice { sitting: sitting.and_then(stretch), what });
    }
    match drift(&woven.intervals) {
        Drift::Usual => {}
        Drift::Creeping { from, to, .. } => {
            all.push(Notice { sitting: None, what: What::Creeping { from: per_mm(from), to: per_mm(to) } });
        }
        Drift::Jumped { from, to } => {
            all.push(Notice { sitting: None, what: What::Jumped { from: per_mm(from), to: per_mm(to) } });
        }
    }
    all
}

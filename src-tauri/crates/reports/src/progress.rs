//! How far a warp is: what the tape and the counts say together, sitting by sitting. Everything that answers a question about a
//! warp starts from here, so that all answers rest on the same figures.

use fellmark_cloth::change::Release;
use fellmark_cloth::measurement_errors::MeasurementErrors;
use fellmark_cloth::span::{Coverage, Estimate};
use fellmark_cloth::state::{PicksIn, RelaxedLength, UnderTension, WovenLength};
use fellmark_cloth::tape_and_counts::{
    ClothWoven, Discrepancy, Drift, Observation, TapeReading, cloth_after_each, cloth_woven, drift, picks_to_weave,
};
use fellmark_cloth::warp::{PieceAt, PieceEnds};

use crate::relaxation::{Relaxation, SameCloth};
use fellmark_model::moments::Timeline;
use fellmark_model::{ClothState, Tape, WarpLog};

/// How far a warp is.
#[derive(Clone, Debug)]
pub struct Progress {
    /// Number of pieces.
    pub pieces: u32,
    /// Net picks that were counted, the running sitting included.
    pub picks: i64,
    /// Picks of each sitting, in the order of the log: counted, or by the tape; nothing where neither is known.
    pub sitting_picks: Vec<Option<f64>>,
    /// Where each sitting begins and ends on the cloth, millimetres from the first pick; a sitting that is not in the log yet last.
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
    /// Where each piece ends on the cloth; empty while no length is wanted.
    pub piece_ends: PieceEnds,
    /// Standard deviation of that, from what the cloth loses when the tension goes, millimetres.
    pub wanted_deviation_mm: f64,
    /// Cloth still to weave.
    pub to_weave_mm: Option<f64>,
    /// Picks still to weave, whole ones; at most zero when the target is met.
    pub to_weave_picks: Option<f64>,
    /// Standard deviation of that number.
    pub to_weave_picks_sd: f64,
    /// Positions of marks on the cloth, in order.
    pub marks_mm: Vec<f64>,
    /// What is noticed about the figures.
    pub noticed: Vec<Notice>,
    /// What the cloth loses when the tension goes.
    pub relaxation: Relaxation,
    /// Minutes at the loom.
    pub minutes: f64,
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
    /// NoticeKind it is.
    pub kind: NoticeKind,
}

/// NoticeKind can be noticed.
#[derive(Clone, Debug)]
pub enum NoticeKind {
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
    /// A reading longer than the warp can be; it is not used.
    LongerThanWarp {
        /// The reading as cloth under tension, millimetres.
        read_mm: f64,
        /// Warp wound, millimetres.
        wound_mm: f64,
    },
    /// So many sittings whose cloth is not known.
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

/// Tape and counts in the order of the log, with the marks they set.
struct ObservedCloth {
    observations: Vec<Observation>,
    /// Which stretch each observation belongs to.
    of: Vec<Option<usize>>,
    marks_mm: Vec<f64>,
    /// Observations whose tape started at a mark that was never set.
    without_mark: Vec<usize>,
    /// Observations whose tape read more than the warp can be, and what it read, millimetres.
    beyond_warp: Vec<(usize, f64)>,
    /// Observations at which a warp mark was at the fell, and how far along the warp it was tied.
    warp_marks: Vec<(usize, f64)>,
}

fn tape_reading(tape: Tape, last_mark_mm: Option<f64>, release: Release) -> Option<TapeReading> {
    let from = if tape.from_mark { last_mark_mm.unwrap_or(0.0) } else { 0.0 };
    if tape.relaxed {
        let of = if tape.rough { TapeReading::ApproximateRelaxedTotal } else { TapeReading::RelaxedTotal };
        // What lies before the mark is known under tension; all of it is read as it would be relaxed.
        RelaxedLength::from_mm(from * release.ratio() + tape.mm).ok().map(of)
    } else {
        let of = if tape.rough { TapeReading::ApproximateTotal } else { TapeReading::Total };
        WovenLength::from_mm(from + tape.mm).ok().map(of)
    }
}

/// Cloth under tension that is longer than its warp by more than this was not measured on it: warp stretches by a few per cent (2.7 %
/// seen).
const MOST_CLOTH_OF_WARP: f64 = 1.1;

/// What a reading is as cloth under tension, millimetres, where that is more than the warp can be.
fn beyond_warp(reading: TapeReading, wound_mm: Option<f64>, release: Release) -> Option<f64> {
    let mm = match reading {
        TapeReading::Total(total) | TapeReading::ApproximateTotal(total) => total.mm(),
        TapeReading::RelaxedTotal(total) | TapeReading::ApproximateRelaxedTotal(total) => total.mm() / release.ratio(),
        TapeReading::FromMarks { .. } | TapeReading::SinceLast(_) => return None,
    };
    wound_mm.filter(|wound| mm > wound * MOST_CLOTH_OF_WARP).map(|_| mm)
}

fn observe(
    log: &WarpLog,
    timeline: &Timeline<'_>,
    planned: Option<PicksIn<UnderTension>>,
    release: Release,
    errors: &MeasurementErrors,
) -> ObservedCloth {
    let mut observed = ObservedCloth {
        observations: Vec::new(),
        of: Vec::new(),
        marks_mm: Vec::new(),
        without_mark: Vec::new(),
        beyond_warp: Vec::new(),
        warp_marks: Vec::new(),
    };
    let mut same = SameCloth::default();
    for (index, step) in timeline.steps.iter().enumerate() {
        if step.observed.tape.is_some_and(|tape| tape.from_mark) && observed.marks_mm.is_empty() {
            observed.without_mark.push(index);
        }
        let same_cloth = same.step(log, step).is_some() && step.observed.tape.is_some_and(|tape| tape.relaxed);
        // Relaxed after it was read tight, the same cloth shows what it loses, and is as long under tension as it was.
        let tight = observed.observations.iter().rev().find_map(|observation| observation.tape);
        let reading = tight.filter(|_| same_cloth).or_else(|| {
            step.observed.tape.and_then(|tape| tape_reading(tape, observed.marks_mm.last().copied(), release))
        });
        let reading = reading.filter(|reading| match beyond_warp(*reading, log.warp.wound_mm, release) {
            Some(read_mm) => {
                observed.beyond_warp.push((index, read_mm));
                false
            }
            None => true,
        });
        observed.observations.push(Observation { picks: step.picks, tape: reading });
        observed.of.push(step.stretch);
        if step.observed.mark_set
            && let Ok(so_far) = cloth_woven(&observed.observations, planned, Some(release), errors)
        {
            observed.marks_mm.push(so_far.total.likely.mm());
        }
        if let Some(along_mm) = step.observed.warp_mark_mm {
            observed.warp_marks.push((index, along_mm));
        }
    }
    observed
}

impl Progress {
    /// How far a warp is, with the picks of a sitting that is going on.
    #[must_use]
    pub fn of(log: &WarpLog, running_picks: i64) -> Self {
        let planned = log.warp.planned_rate();
        let timeline = Timeline::of(log, running_picks);
        let relaxation = Relaxation::of(log, &timeline);
        let errors = MeasurementErrors { relaxed_share: relaxation.deviation_share, ..MeasurementErrors::default() };
        let release = Some(relaxation.release);
        let observed = observe(log, &timeline, planned, relaxation.release, &errors);
        let woven = cloth_woven(&observed.observations, planned, release, &errors).ok();
        let rate = woven.as_ref().and_then(|woven| woven.rate).or(planned);
        let rate_mm = rate.map(PicksIn::picks_per_mm);
        let readings = woven.as_ref().map(|woven| woven.readings.as_slice()).unwrap_or_default();
        let totals: Vec<f64> =
            cloth_after_each(&observed.observations, readings, rate).into_iter().map(WovenLength::mm).collect();
        let stretches = stretches(&observed.of, &totals, timeline.stretches());
        let sitting_picks = log
            .sittings
            .iter()
            .zip(&stretches)
            .enumerate()
            .map(|(index, (sitting, (from, to)))| {
                let measured = || {
                    let mut steps = observed.of.iter().zip(&observed.observations);
                    steps.any(|(of, observation)| *of == Some(index) && observation.tape.is_some())
                };
                match (sitting.picks, rate_mm) {
                    (Some(picks), _) => Some(picks as f64),
                    (None, Some(rate)) if to > from && measured() => Some((to - from) * rate),
                    _ => None,
                }
            })
            .collect();
        let warp_mark = observed.warp_marks.last().and_then(|(index, along_mm)| {
            let upto = observed.observations.get(..=*index)?;
            let sd = cloth_woven(upto, planned, release, &errors).ok()?.total.standard_deviation();
            let woven_mm = totals.get(*index).copied().filter(|mm| *mm > 0.0)?;
            Some(ReachedMark { along_mm: *along_mm, woven_mm, woven_sd_mm: sd })
        });
        let total = woven.as_ref().map(|woven| woven.total);
        let rate_measured = woven.as_ref().is_some_and(ClothWoven::is_rate_measured);
        let piece_ends = log.warp.piece_ends(relaxation.release);
        let wanted = piece_ends.whole();
        let to_weave = wanted
            .zip(total)
            .zip(rate)
            .map(|((wanted, total), rate)| picks_to_weave(wanted, &total, rate, rate_measured, &errors));
        let wanted_deviation_mm = match (log.warp.wanted_state, wanted) {
            (ClothState::OffLoom, Some(wanted)) => wanted.mm() * relaxation.deviation_share,
            (ClothState::Finished, Some(wanted)) => log
                .warp
                .usual_wash()
                .map_or(0.0, |loss| wanted.mm() * relaxation.deviation_share.hypot(loss.deviation_share())),
            _ => 0.0,
        };
        let noticed = notices(woven.as_ref(), &observed, log.warp.wound_mm.unwrap_or(0.0));
        let rough = rests_on_rough(log, &observed);
        Self {
            pieces: log.warp.pieces,
            picks: timeline.picks(),
            sitting_picks,
            stretches,
            steps_mm: totals,
            running_picks,
            warp_mark,
            rough,
            woven: total,
            picks_per_mm: rate_mm,
            rate_measured,
            wanted_mm: wanted.map(WovenLength::mm),
            wanted_deviation_mm,
            piece_ends,
            to_weave_mm: wanted.zip(total).map(|(wanted, total)| wanted.minus(total.likely).mm()),
            to_weave_picks: to_weave.map(|to_weave| to_weave.picks),
            to_weave_picks_sd: to_weave
                .map_or(0.0, |to_weave| to_weave.deviation.hypot(wanted_deviation_mm * rate_mm.unwrap_or(0.0))),
            marks_mm: observed.marks_mm,
            noticed,
            relaxation,
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

    /// The piece at the fell; nothing while no length is wanted. What is woven beyond the last piece belongs to it.
    #[must_use]
    pub fn piece_at_fell(&self) -> Option<PieceAt> {
        self.piece_ends.piece_at(self.woven.map_or(WovenLength::ZERO, |woven| woven.likely))
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
fn rests_on_rough(log: &WarpLog, observed: &ObservedCloth) -> bool {
    let last_reading = observed.observations.iter().rposition(|observation| observation.tape.is_some()).unwrap_or(0);
    let rough_tape = observed.observations.get(last_reading).and_then(|observation| observation.tape);
    matches!(rough_tape, Some(TapeReading::ApproximateTotal(_) | TapeReading::ApproximateRelaxedTotal(_)))
        || observed
            .of
            .iter()
            .skip(last_reading)
            .flatten()
            .any(|index| log.sittings.get(*index).is_some_and(|one| one.rough))
}

fn notices(woven: Option<&ClothWoven>, observed: &ObservedCloth, wound_mm: f64) -> Vec<Notice> {
    let stretch = |observation: usize| observed.of.get(observation).copied().flatten();
    let mut all: Vec<Notice> = observed
        .without_mark
        .iter()
        .map(|index| Notice { sitting: stretch(*index), kind: NoticeKind::NoMark })
        .collect();
    all.extend(observed.beyond_warp.iter().map(|(index, read_mm)| Notice {
        sitting: stretch(*index),
        kind: NoticeKind::LongerThanWarp { read_mm: *read_mm, wound_mm },
    }));
    let Some(woven) = woven else { return all };
    for noticed in &woven.discrepancies {
        let (sitting, kind) = match noticed {
            Discrepancy::Apart { observation, by_tape, by_counts } => {
                (Some(*observation), NoticeKind::Apart { by_tape_mm: by_tape.mm(), by_counts_mm: by_counts.mm() })
            }
            Discrepancy::MissedInterval(missed) => (
                Some(missed.observation),
                NoticeKind::Apart { by_tape_mm: missed.by_tape.mm(), by_counts_mm: missed.by_counts.mm() },
            ),
            Discrepancy::Shrunk { observation, before, now } => {
                (Some(*observation), NoticeKind::Shrunk { before_mm: before.mm(), now_mm: now.mm() })
            }
            Discrepancy::Uncounted { sittings } => (None, NoticeKind::Uncounted(*sittings)),
        };
        all.push(Notice { sitting: sitting.and_then(stretch), kind });
    }
    match drift(&woven.intervals) {
        Drift::Usual => {}
        Drift::Creeping { from, to, .. } => {
            all.push(Notice {
                sitting: None,
                kind: NoticeKind::Creeping { from: from.picks_per_mm(), to: to.picks_per_mm() },
            });
        }
        Drift::Jumped { from, to } => {
            all.push(Notice {
                sitting: None,
                kind: NoticeKind::Jumped { from: from.picks_per_mm(), to: to.picks_per_mm() },
            });
        }
    }
    all
}

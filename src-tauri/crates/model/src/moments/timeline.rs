//! The order in which all that was woven and noted happened.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use fellmark_cloth::tape_and_counts::PickCount;
use fellmark_journal::RecordId;

use super::{Moment, Moments, Reading, Weighed, YarnLeft};
use crate::{Sitting, Tape, WarpLog};

/// What was observed at the end of a step.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TimelineObservation<'a> {
    /// The tape's reading.
    pub tape: Option<Tape>,
    /// Whether the mark was moved to the fell.
    pub mark_set: bool,
    /// A warp mark that reached the fell, millimetres along the warp.
    pub warp_mark_mm: Option<f64>,
    /// A weighing: of which yarn (nothing: the one being woven), and what was left.
    pub weighed: Option<(Option<&'a RecordId>, Weighed)>,
    /// The yarn taken up.
    pub joined: Option<&'a RecordId>,
}

/// Some picks, and what was noted after them.
#[derive(Clone, Debug)]
pub struct TimelineStep<'a> {
    /// Which stretch of weaving it belongs to; nothing for what was noted between two.
    pub stretch: Option<usize>,
    /// Picks woven in it.
    pub picks: PickCount,
    /// What was noted at its end.
    pub observed: TimelineObservation<'a>,
}

/// A stretch of weaving: a sitting of the log, or one that is going on here or elsewhere.
#[derive(Clone, Debug)]
struct Stretch<'a> {
    id: Option<&'a RecordId>,
    on: Option<NaiveDate>,
    picks: Option<i64>,
    sitting: Option<&'a Sitting>,
}

/// All that was woven and noted, in order.
#[derive(Clone, Debug)]
pub struct Timeline<'a> {
    stretches: Vec<Stretch<'a>>,
    /// The steps.
    pub steps: Vec<TimelineStep<'a>>,
}

/// A moment and what was noted at it.
type Noted<'a> = (&'a Moment, TimelineObservation<'a>);

/// The position of a moment among the stretches.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Position {
    /// In a stretch, after so many of its picks.
    In(usize, i64),
    /// After so many stretches.
    After(usize),
    /// In a stretch that was removed.
    Gone,
}

impl<'a> Timeline<'a> {
    /// The timeline of a warp, with the picks of a sitting that is going on.
    #[must_use]
    pub fn of(log: &'a WarpLog, running_picks: i64) -> Self {
        let mut timeline = Self { stretches: stretches(log, running_picks), steps: Vec::new() };
        let mut noted: BTreeMap<(usize, bool, i64), Vec<Noted<'a>>> = BTreeMap::new();
        for (moment, observed) in all_noted(&log.moments) {
            let at = match timeline.position_of(moment) {
                Position::In(stretch, picks) => (stretch, true, picks),
                Position::After(stretches) => (stretches, false, 0),
                Position::Gone => continue,
            };
            noted.entry(at).or_default().push((moment, observed));
        }
        for list in noted.values_mut() {
            list.sort_by(|(a, _), (b, _)| (a.on, &a.first_at, &a.id).cmp(&(b.on, &b.first_at, &b.id)));
        }
        let mut noted = noted.into_iter().peekable();
        for index in 0..=timeline.stretches.len() {
            // What was noted before this stretch began sorts before what was noted in it.
            let mut woven = 0;
            while let Some(((_, inside, picks), list)) = noted.next_if(|((at, ..), _)| *at == index) {
                for (_, observed) in list {
                    let upto = if inside { picks } else { woven };
                    let step = TimelineStep {
                        stretch: inside.then_some(index),
                        picks: timeline.part_of(index, upto - woven, inside),
                        observed,
                    };
                    woven = upto;
                    timeline.steps.push(step);
                }
            }
            timeline.end_of(index, woven);
        }
        timeline
    }

    /// Stretches of weaving: the sittings of the log first.
    #[must_use]
    pub fn stretches(&self) -> usize {
        self.stretches.len()
    }

    /// Net picks that were counted.
    #[must_use]
    pub fn picks(&self) -> i64 {
        counted(&self.stretches)
    }

    /// Net picks counted since a moment; nothing when it went with a sitting that was removed.
    #[must_use]
    pub fn picks_since(&self, moment: &Moment) -> Option<i64> {
        let since = |from: usize| counted(self.stretches.get(from..).unwrap_or_default());
        match self.position_of(moment) {
            Position::In(stretch, picks) => Some(since(stretch).saturating_sub(picks)),
            Position::After(stretches) => Some(since(stretches)),
            Position::Gone => None,
        }
    }

    fn position_of(&self, moment: &Moment) -> Position {
        let named = moment.sitting.as_ref();
        let found = named.and_then(|id| self.stretches.iter().position(|stretch| stretch.id == Some(id)));
        match (found, moment.picks_into) {
            (Some(stretch), Some(picks)) => Position::In(stretch, picks),
            (None, Some(_)) => Position::Gone,
            (found, None) => {
                // A sitting logged afterwards, for a day before the moment's, comes before it.
                let before = |stretch: &Stretch<'_>| stretch.on.is_some_and(|on| on < moment.on);
                let by_day = self.stretches.iter().rposition(before).map_or(0, |last| last + 1);
                let by_name = match found {
                    Some(stretch) => stretch + 1,
                    // It came after a sitting that is gone: then the day alone decides.
                    None if named.is_some() => {
                        let upto = |stretch: &Stretch<'_>| stretch.on.is_some_and(|on| on <= moment.on);
                        self.stretches.iter().rposition(upto).map_or(0, |last| last + 1)
                    }
                    None => 0,
                };
                Position::After(by_day.max(by_name))
            }
        }
    }

    fn part_of(&self, index: usize, picks: i64, inside: bool) -> PickCount {
        let rough = self.stretches.get(index).and_then(|stretch| stretch.sitting).is_some_and(|sitting| sitting.rough);
        if inside && rough { PickCount::Guessed(picks) } else { PickCount::Counted(picks) }
    }

    /// The rest of a stretch, with what the sitting itself noted at its end.
    fn end_of(&mut self, index: usize, woven: i64) {
        let Some(stretch) = self.stretches.get(index).cloned() else { return };
        let picks = match (stretch.picks, stretch.sitting) {
            (Some(picks), _) => self.part_of(index, picks - woven, true),
            // Time at the loom without a count or a measure of what was woven; a mere note weaves nothing.
            (None, Some(sitting)) if sitting.minutes.is_some() || sitting.tape.is_some() => PickCount::Unknown,
            (None, _) => PickCount::Counted(0),
        };
        let observed = stretch.sitting.map_or_else(TimelineObservation::default, |sitting| TimelineObservation {
            tape: sitting.tape,
            mark_set: sitting.mark_set,
            warp_mark_mm: None,
            weighed: sitting
                .weft_left_g
                .map(|grams| (None, Weighed { left: YarnLeft::Mass(grams), rough: sitting.rough })),
            joined: None,
        });
        self.steps.push(TimelineStep { stretch: Some(index), picks, observed });
    }
}

/// Net picks of some stretches. What strange entries add up to stays a number.
fn counted(stretches: &[Stretch<'_>]) -> i64 {
    stretches.iter().filter_map(|stretch| stretch.picks).fold(0, i64::saturating_add)
}

fn all_noted(moments: &Moments) -> impl Iterator<Item = Noted<'_>> {
    let readings = moments.readings.iter().map(|reading| {
        let Reading { when, tape, mark_set, warp_mark_mm } = reading;
        (
            when,
            TimelineObservation {
                tape: *tape,
                mark_set: *mark_set,
                warp_mark_mm: *warp_mark_mm,
                ..TimelineObservation::default()
            },
        )
    });
    let weighings = moments.weighings.iter().map(|one| {
        (
            &one.when,
            TimelineObservation { weighed: Some((Some(&one.weft), one.found)), ..TimelineObservation::default() },
        )
    });
    let joins = moments
        .joins
        .iter()
        .map(|one| (&one.when, TimelineObservation { joined: Some(&one.weft), ..TimelineObservation::default() }));
    readings.chain(weighings).chain(joins)
}

/// The sittings of the log, then those it does not hold yet but in which something was noted, then the one going on here.
fn stretches(log: &WarpLog, running_picks: i64) -> Vec<Stretch<'_>> {
    let known = log.sittings.iter().map(|sitting| Stretch {
        id: Some(&sitting.id),
        on: Some(sitting.on),
        picks: sitting.picks,
        sitting: Some(sitting),
    });
    let mut all: Vec<Stretch<'_>> = known.collect();
    let is_known = |id: &RecordId| {
        log.running.as_ref() == Some(id) || log.sittings.iter().chain(&log.removed).any(|sitting| sitting.id == *id)
    };
    let Moments { places, readings, weighings, joins } = &log.moments;
    let moments = places.iter().map(|one| &one.when).chain(readings.iter().map(|one| &one.when));
    let moments = moments.chain(weighings.iter().map(|one| &one.when)).chain(joins.iter().map(|one| &one.when));
    // Going on on another device: what was noted says how many picks it had by then.
    let mut elsewhere: BTreeMap<&RecordId, (&str, NaiveDate, i64)> = BTreeMap::new();
    for moment in moments {
        if let (Some(id), Some(picks)) = (&moment.sitting, moment.picks_into)
            && !is_known(id)
        {
            let group = elsewhere.entry(id).or_insert((&moment.first_at, moment.on, picks));
            if moment.first_at.as_str() > group.0 {
                *group = (&moment.first_at, moment.on, picks);
            }
        }
    }
    let mut elsewhere: Vec<_> = elsewhere.into_iter().collect();
    elsewhere.sort_by(|(a_id, a), (b_id, b)| (a.0, *a_id).cmp(&(b.0, *b_id)));
    all.extend(elsewhere.into_iter().map(|(id, (_, on, picks))| Stretch {
        id: Some(id),
        on: Some(on),
        picks: Some(picks),
        sitting: None,
    }));
    if running_picks != 0 || log.running.is_some() {
        all.push(Stretch { id: log.running.as_ref(), on: None, picks: Some(running_picks), sitting: None });
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::moments::tests::moment;
    use crate::tests::{log, sitting};

    fn reading(when: Moment, mm: f64) -> Reading {
        let tape = Some(Tape { mm, from_mark: false, relaxed: false, rough: false });
        Reading { when, tape, mark_set: true, warp_mark_mm: None }
    }

    fn described(timeline: &Timeline<'_>) -> Vec<(Option<usize>, PickCount, bool)> {
        timeline.steps.iter().map(|step| (step.stretch, step.picks, step.observed.tape.is_some())).collect()
    }

    #[test]
    fn a_reading_within_a_sitting_parts_its_picks() {
        let mut log = log();
        log.sittings = vec![sitting(2, Some(100), None), sitting(3, Some(60), Some(400.0))];
        let id = log.sittings[1].id.clone();
        log.moments.readings = vec![reading(moment(Some(&id), Some(20), 3), 310.0)];
        let timeline = Timeline::of(&log, 0);
        assert_eq!(
            described(&timeline),
            [
                (Some(0), PickCount::Counted(100), false),
                (Some(1), PickCount::Counted(20), true),
                (Some(1), PickCount::Counted(40), true),
            ]
        );
        assert_eq!(timeline.picks(), 160);
    }

    #[test]
    fn a_moment_keeps_its_place_when_earlier_sittings_come_late() {
        let mut log = log();
        log.sittings = vec![sitting(2, Some(100), None), sitting(4, Some(30), None), sitting(9, Some(5), None)];
        let first = log.sittings[0].id.clone();
        // Noted on the 6th, after the sitting of the 2nd; that of the 4th was logged afterwards.
        let noted = moment(Some(&first), None, 6);
        let timeline = Timeline::of(&log, 0);
        assert_eq!(timeline.picks_since(&noted), Some(5));
        let inside = moment(Some(&first), Some(90), 2);
        assert_eq!(timeline.picks_since(&inside), Some(45));
    }

    #[test]
    fn what_belongs_to_a_removed_sitting_goes_with_it() {
        let mut log = log();
        log.sittings = vec![sitting(2, Some(100), None)];
        log.removed = vec![sitting(3, Some(50), None)];
        let gone = log.removed[0].id.clone();
        log.moments.readings = vec![reading(moment(Some(&gone), Some(20), 3), 310.0)];
        let timeline = Timeline::of(&log, 0);
        assert_eq!((timeline.steps.len(), timeline.picks()), (1, 100));
        assert_eq!(timeline.picks_since(&moment(Some(&gone), Some(20), 3)), None);
    }

    #[test]
    fn a_sitting_that_goes_on_here_or_elsewhere_counts() {
        let mut log = log();
        log.sittings = vec![sitting(2, Some(100), None)];
        let other: RecordId = "r0000000000000000007".parse().unwrap();
        log.moments.readings = vec![reading(moment(Some(&other), Some(20), 3), 310.0)];
        // Noted on another device, in a sitting that has not arrived.
        assert_eq!(Timeline::of(&log, 0).picks(), 120);
        // The same sitting, going on here.
        log.running = Some(other);
        let timeline = Timeline::of(&log, 33);
        assert_eq!(timeline.picks(), 133);
        assert_eq!(
            described(&timeline)[1..],
            [(Some(1), PickCount::Counted(20), true), (Some(1), PickCount::Counted(13), false)]
        );
    }

    #[test]
    fn before_the_first_sitting_there_are_moments_too() {
        let mut log = log();
        log.moments.readings = vec![reading(moment(None, None, 1), 20.0)];
        log.sittings = vec![sitting(2, Some(100), None)];
        assert_eq!(described(&Timeline::of(&log, 0))[0], (None, PickCount::Counted(0), true));
    }
}

//! The steps between the last pick and the finished piece: dated ticks, and the days they are likely to take.

use chrono::NaiveDate;
use fellmark_journal::{Entry, EntryDraft, EntrySet, GONE, Kind, Place, Record, RecordId};
use fellmark_projection::FinishingStep;
use serde_json::{Value, json};

use crate::cloth_edge::ClothEdge;
use crate::fields::{finishing as field, kind};
use crate::forms::FieldMap;
use crate::{TypedFields, WarpLog};

/// As many of the weaver's own finishes weigh as much as common practice.
const PRACTICE_COUNTS_AS: f64 = 2.0;
/// A step that waited longer lay about; it says nothing of the next one.
const DAYS_MOST: i64 = 14;

/// One step.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StepRecord {
    /// Record id.
    pub id: RecordId,
    /// What is done; empty where no name is known.
    pub name: String,
    /// Its place among the steps.
    pub position: i64,
    /// When it was done.
    pub done_on: Option<NaiveDate>,
}

/// Reads a step.
#[must_use]
pub fn read(record: &Record) -> StepRecord {
    let get = TypedFields(record);
    StepRecord {
        id: record.id.clone(),
        name: get.text(field::NAME).unwrap_or_default(),
        position: get.whole(field::POSITION).unwrap_or(i64::MAX),
        done_on: get.day(field::DONE_ON),
    }
}

/// The usual steps of a warp, in their order. Pieces are cut apart before their edges are made, and tails are trimmed after the wash
/// has settled them (common practice, no source).
#[must_use]
pub fn usual_steps(warp: &RecordId, edge: ClothEdge, pieces: u32) -> Vec<StepRecord> {
    let edge = match edge {
        ClothEdge::Fringe => Some("Fringe"),
        ClothEdge::Hem => Some("Hem"),
        ClothEdge::Plain => None,
    };
    let made = [
        (-1, "mend", Some("Mend")),
        (0, "apart", (pieces > 1).then_some("Cut apart")),
        (1, "edge", edge),
        (2, "wash", Some("Wash")),
        (3, "dry", Some("Dry")),
        (4, "press", Some("Press")),
        (5, "tails", Some("Trim tails")),
    ];
    let made = made.into_iter().filter_map(|(position, word, name)| {
        Some(StepRecord { id: usual_id(warp, word)?, name: name?.into(), position, done_on: None })
    });
    made.collect()
}

/// Days a step takes by common practice, no source (days, weight): mending, cutting apart, trimming and a wash are an evening's work,
/// drying takes the night, the others may wait for another day. Together the usual ones take one day for 1 in 4, two for 1 in 2,
/// three for 1 in 4.
fn practice(name: &str) -> [(u32, f64); 2] {
    match name.trim().to_lowercase().as_str() {
        "wash" | "mend" | "cut apart" | "trim tails" => [(0, 1.0), (1, 0.0)],
        "dry" => [(0, 0.0), (1, 1.0)],
        _ => [(0, 0.5), (1, 0.5)],
    }
}

/// The id of a usual step: made of the warp's, so that two devices that lay the steps out mean the same ones.
fn usual_id(warp: &RecordId, word: &str) -> Option<RecordId> {
    format!("{warp}-{word}").parse().ok()
}

/// The steps of a warp; the usual ones, not yet written, where there are none.
#[must_use]
pub fn steps(log: &WarpLog) -> Vec<StepRecord> {
    if !log.steps.is_empty() {
        return log.steps.clone();
    }
    usual_steps(&log.warp.id, log.warp.edge(), log.warp.pieces)
}

/// The entries that write the usual steps, where none stands.
#[must_use]
pub fn laid_out(state: &EntrySet, log: &WarpLog) -> Vec<EntryDraft> {
    if !log.steps.is_empty() {
        return Vec::new();
    }
    let draft = |step: StepRecord| {
        let mut set = FieldMap::new();
        set.insert(field::NAME.into(), json!(step.name));
        set.insert(field::POSITION.into(), json!(step.position));
        match state.record(&step.id) {
            Some(record) => {
                set.insert(field::DONE_ON.into(), Value::Null);
                set.insert(GONE.into(), json!(false));
                EntryDraft::on(record, set)
            }
            None => EntryDraft::new(Place::warp(&log.warp.id), step.id, Kind::fixed(kind::FINISHING), set),
        }
    };
    steps(log).into_iter().map(draft).collect()
}

/// The entry that names the edge as the warp has it now, where the steps stand from an earlier cutting off and nobody named it.
#[must_use]
pub fn edge_named_anew(state: &EntrySet, log: &WarpLog) -> Option<EntryDraft> {
    let id = usual_id(&log.warp.id, "edge")?;
    let edge = usual_steps(&log.warp.id, log.warp.edge(), 1).into_iter().find(|step| step.id == id)?;
    let stands = log.steps.iter().find(|step| step.id == edge.id)?;
    let names = |entry: &Entry| entry.set().contains_key(field::NAME) && !lays_out(entry);
    if stands.name == edge.name || stands.done_on.is_some() || state.history(&edge.id).any(|entry| names(entry)) {
        return None;
    }
    Some(EntryDraft::on(state.record(&edge.id)?, FieldMap::from_iter([(field::NAME.to_owned(), json!(edge.name))])))
}

/// Whether an entry lays a usual step out: [`laid_out`] alone says again at which place such a step stands.
#[must_use]
pub fn lays_out(entry: &Entry) -> bool {
    entry.set().contains_key(field::POSITION) && usual_step(entry, ClothEdge::Fringe).is_some()
}

/// Whether a field is written as the laying out of the step has it, and not changed by the weaver since.
#[must_use]
pub fn is_as_laid_out(entry: &Entry, name: &str) -> bool {
    [ClothEdge::Fringe, ClothEdge::Hem].iter().filter_map(|edge| usual_step(entry, *edge)).any(|step| {
        let laid = value_laid_out(&step, name);
        entry.set().get(name) == Some(&laid)
    })
}

/// What stands in a field of a usual step before anything is done to it.
#[must_use]
pub fn before_anything(state: &EntrySet, entry: &Entry, name: &str) -> Value {
    let log = entry.place().warp_id().and_then(|warp| crate::warp_log(state, warp));
    let step = usual_step(entry, log.map_or(ClothEdge::Hem, |log| log.warp.edge()));
    step.map_or(Value::Null, |step| value_laid_out(&step, name))
}

fn value_laid_out(step: &StepRecord, name: &str) -> Value {
    match name {
        field::NAME => json!(step.name),
        field::POSITION => json!(step.position),
        GONE => json!(false),
        _ => Value::Null,
    }
}

/// The usual step that an entry is on, if it is on one, on a warp of several pieces.
fn usual_step(entry: &Entry, edge: ClothEdge) -> Option<StepRecord> {
    let warp = entry.place().warp_id().filter(|_| entry.kind().as_str() == kind::FINISHING)?;
    usual_steps(warp, edge, 2).into_iter().find(|step| step.id == *entry.of())
}

/// The day on which the last step was done, when all are.
#[must_use]
pub fn finished_on(log: &WarpLog) -> Option<NaiveDate> {
    let done: Option<Vec<NaiveDate>> = log.steps.iter().map(|step| step.done_on).collect();
    done?.into_iter().max()
}

/// Days from the step before (or from cutting off) to each step of a finished warp, by the step's name in small letters.
#[must_use]
pub fn waiting_days(log: &WarpLog) -> Vec<(String, i64)> {
    if finished_on(log).is_none() {
        return Vec::new();
    }
    let Some(mut from) = log.warp.state_on else { return Vec::new() };
    let mut waiting_days = Vec::new();
    let mut done: Vec<(&StepRecord, NaiveDate)> =
        log.steps.iter().filter_map(|step| Some((step, step.done_on?))).collect();
    done.sort_by_key(|(step, day)| (*day, step.position));
    for (step, day) in done {
        let days = (day - from).num_days();
        if (0..=DAYS_MOST).contains(&days) {
            waiting_days.push((step.name.trim().to_lowercase(), days));
        }
        from = day;
    }
    waiting_days
}

/// What is still to be done after the last pick, with the days each step takes: common practice, and the weaver's own finished warps as
/// [`waiting_days`] lists them.
#[must_use]
pub fn still_to_do(log: &WarpLog, known: &[Vec<(String, i64)>]) -> Vec<FinishingStep> {
    let to_do = steps(log).into_iter().filter(|step| step.done_on.is_none());
    to_do
        .map(|step| {
            let name = step.name.trim().to_lowercase();
            let mut days: Vec<(u32, f64)> =
                practice(&step.name).map(|(day, weight)| (day, weight * PRACTICE_COUNTS_AS)).to_vec();
            for (_, wait) in known.iter().flatten().filter(|(of, _)| *of == name) {
                let wait = u32::try_from(*wait).unwrap_or(0);
                match days.iter_mut().find(|(day, _)| *day == wait) {
                    Some((_, weight)) => *weight += 1.0,
                    None => days.push((wait, 1.0)),
                }
            }
            days.sort_unstable_by_key(|(day, _)| *day);
            FinishingStep { name: step.name, days }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use fellmark_projection::usual_finishing;

    fn day(text: &str) -> NaiveDate {
        text.parse().unwrap()
    }

    /// The chance of each whole number of days, all steps together.
    fn together(steps: &[FinishingStep]) -> Vec<f64> {
        let mut all = vec![1.0];
        for step in steps {
            let sum: f64 = step.days.iter().map(|(_, weight)| weight).sum();
            let longest = step.days.iter().map(|(days, _)| *days as usize).max().unwrap();
            let mut next = vec![0.0; all.len() + longest];
            for (before, chance) in all.iter().enumerate() {
                for (days, weight) in &step.days {
                    next[before + *days as usize] += chance * weight / sum;
                }
            }
            all = next;
        }
        all
    }

    fn with_steps(done: &[(&str, Option<&str>)]) -> WarpLog {
        let mut log = crate::tests::log();
        log.warp.state_on = Some(day("2026-11-01"));
        log.steps = (1..)
            .zip(done)
            .map(|(position, (name, done_on))| StepRecord {
                id: format!("step-{position}").parse().unwrap(),
                name: (*name).into(),
                position,
                done_on: done_on.map(day),
            })
            .collect();
        log
    }

    #[test]
    fn the_usual_steps_take_what_finishing_usually_takes() {
        let log = crate::tests::log();
        let ours = together(&still_to_do(&log, &[]));
        let usual = together(&usual_finishing());
        let same = |days: usize| (ours.get(days).unwrap_or(&0.0) - usual.get(days).unwrap_or(&0.0)).abs() < 1e-12;
        assert!((0..8).all(same), "{ours:?} {usual:?}");
    }

    #[test]
    fn a_plain_edge_gets_no_hem_and_pieces_are_cut_apart() {
        let names = |log: &WarpLog| steps(log).into_iter().map(|step| step.name).collect::<Vec<_>>().join(", ");
        let mut log = crate::tests::log();
        assert_eq!(names(&log), "Mend, Hem, Wash, Dry, Press, Trim tails");
        (log.warp.planned_edge, log.warp.pieces) = (Some(ClothEdge::Plain), 2);
        assert_eq!(names(&log), "Mend, Cut apart, Wash, Dry, Press, Trim tails");
        log.warp.fringe_mm = 80.0;
        assert_eq!(names(&log), "Mend, Cut apart, Fringe, Wash, Dry, Press, Trim tails");
    }

    #[test]
    fn a_step_that_is_done_takes_no_days() {
        let log = with_steps(&[("Fringe", Some("2026-11-02")), ("Wash", Some("2026-11-02")), ("Dry", None)]);
        assert_eq!(still_to_do(&log, &[]), [FinishingStep { name: "Dry".into(), days: vec![(0, 0.0), (1, 2.0)] }]);
        assert_eq!(finished_on(&log), None);
        let done = with_steps(&[("Wash", Some("2026-11-04")), ("Dry", Some("2026-11-03"))]);
        assert_eq!(finished_on(&done), Some(day("2026-11-04")));
        assert_eq!(finished_on(&crate::tests::log()), None);
    }

    #[test]
    fn her_own_finishes_lengthen_the_next() {
        let slow = with_steps(&[("Wash", Some("2026-11-06")), ("Dry", Some("2026-11-07"))]);
        let next = with_steps(&[("Wash", None), ("Dry", None)]);
        let to_do = still_to_do(&next, &[waiting_days(&slow)]);
        assert_eq!(to_do[0].days, [(0, 2.0), (1, 0.0), (5, 1.0)]);
        assert_eq!(to_do[1].days, [(0, 0.0), (1, 3.0)]);
    }
}

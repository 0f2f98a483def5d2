//! One warp with all that belongs to it.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use fellmark_journal::{EntrySet, Kind, Presence, Record, RecordId};

use super::read::{TypedFields, read_photo, read_sitting, read_warp, read_weft};
use super::{Photo, Sitting, Warp, Weft};
use crate::cloth_edge::ClothEdge;
use crate::fields::{self, kind};
use crate::finishing::{self, StepRecord};
use crate::moments::Moments;

/// One warp with all that belongs to it.
#[derive(Clone, Debug)]
pub struct WarpLog {
    /// The warp.
    pub warp: Warp,
    /// Its weft yarns, in order of writing.
    pub wefts: Vec<Weft>,
    /// Its sittings in order of time.
    pub sittings: Vec<Sitting>,
    /// Sittings that were removed, in order of time.
    pub removed: Vec<Sitting>,
    /// Its photos in order of writing.
    pub photos: Vec<Photo>,
    /// What was noted at single moments.
    pub moments: Moments,
    /// The sitting that is going on on this device, which the log does not hold yet.
    pub running: Option<RecordId>,
    /// Its finishing steps in their order; none before the first was written.
    pub steps: Vec<StepRecord>,
    /// Records of it in which a field holds two answers, or which were removed here and edited there.
    pub conflicting_records: Vec<Record>,
}

/// Whether a record waits for the weaver to choose: a field with two answers, or removed here and edited there.
fn needs_settling(record: &Record) -> bool {
    record.presence == Presence::RemovedHereEditedThere || record.conflicts().any(|(field, _)| field != fields::ACT)
}

/// Every warp of a journal with what belongs to it, keyed by record id.
#[must_use]
pub fn warp_logs(state: &EntrySet) -> BTreeMap<RecordId, WarpLog> {
    state.warp_ids().filter_map(|id| Some((id.clone(), warp_log(state, id)?))).collect()
}

/// One warp by itself, without what belongs to it; nothing where its own record has not arrived.
#[must_use]
pub fn warp(state: &EntrySet, id: &RecordId) -> Option<Warp> {
    let own = |record: &&Record| record.kind == Kind::WARP && record.place.warp_id() == Some(id);
    state.record(id).filter(own).map(read_warp)
}

/// One warp with what belongs to it; nothing where its own record has not arrived.
#[must_use]
pub fn warp_log(state: &EntrySet, id: &RecordId) -> Option<WarpLog> {
    let mut log = WarpLog::new(warp(state, id)?);
    for record in state.of_warp(id) {
        log.add(record);
    }
    log.order();
    Some(log)
}

/// Sittings by day. Within a day those with a time stand in the order of their times; one without a time comes after whatever of
/// that day was logged before it.
fn in_order_of_time(sittings: Vec<Sitting>) -> Vec<Sitting> {
    let (mut ordered, mut untimed): (Vec<_>, Vec<_>) = sittings.into_iter().partition(|one| one.started.is_some());
    let by_time =
        |a: &Sitting, b: &Sitting| (a.on, &a.started, &a.first_at, &a.id).cmp(&(b.on, &b.started, &b.first_at, &b.id));
    ordered.sort_by(by_time);
    untimed.sort_by(by_time);
    for sitting in untimed {
        let is_before = |one: &Sitting| {
            one.on < sitting.on || (one.on == sitting.on && (&one.first_at, &one.id) < (&sitting.first_at, &sitting.id))
        };
        let at = ordered.iter().rposition(is_before).map_or(0, |last| last + 1);
        ordered.insert(at, sitting);
    }
    ordered
}

impl WarpLog {
    /// The log as if it held this sitting, in place of the one of its id if there is one.
    #[must_use]
    pub fn with_sitting(&self, sitting: Sitting) -> Self {
        let mut log = self.clone();
        if log.running.as_ref() == Some(&sitting.id) {
            log.running = None;
        }
        log.sittings.retain(|one| one.id != sitting.id);
        log.sittings.push(sitting);
        log.order();
        log
    }

    /// Whether a mark is on the cloth by this day, so that the tape starts there: once cloth is on the beam, the first pick is out
    /// of reach.
    #[must_use]
    pub fn has_mark_by(&self, day: NaiveDate) -> bool {
        let stands = |sitting: &Option<RecordId>| {
            let known =
                |id: &RecordId| self.running.as_ref() == Some(id) || self.sittings.iter().any(|one| one.id == *id);
            sitting.as_ref().is_none_or(known)
        };
        let readings = self.moments.readings.iter().filter(|reading| stands(&reading.when.sitting));
        self.sittings.iter().any(|sitting| sitting.mark_set && sitting.on <= day)
            || readings.into_iter().any(|reading| reading.mark_set && reading.when.on <= day)
    }

    pub(super) fn new(warp: Warp) -> Self {
        Self {
            warp,
            wefts: Vec::new(),
            sittings: Vec::new(),
            removed: Vec::new(),
            photos: Vec::new(),
            steps: Vec::new(),
            moments: Moments::default(),
            running: None,
            conflicting_records: Vec::new(),
        }
    }

    fn add(&mut self, record: &Record) {
        let gone = record.presence == Presence::Gone;
        match record.kind.as_str() {
            kind::SITTING if gone => self.removed.push(read_sitting(record)),
            kind::SITTING => self.sittings.push(read_sitting(record)),
            kind::WEFT if !gone => self.wefts.push(read_weft(record)),
            kind::PHOTO if !gone => self.photos.extend(read_photo(record)),
            kind::PLAN if !gone => {
                let above_zero = |field: &str| TypedFields(record).number(field).filter(|figure| *figure > 0.0);
                // What the weaver planned it with is what it is woven with, until the warp itself says otherwise.
                let planned = || above_zero(fields::plan::SETT_ENDS_PER_10CM);
                self.warp.sett_per_10cm = self.warp.sett_per_10cm.or_else(planned);
                self.warp.planned_edge = Some(match TypedFields(record).text(fields::plan::EDGE).as_deref() {
                    Some("fringe") => ClothEdge::Fringe,
                    Some(_) => ClothEdge::Hem,
                    None => ClothEdge::Plain,
                });
                // More is no plan for one warp.
                self.warp.planned_hours = above_zero(fields::plan::HOURS).filter(|hours| *hours <= 10_000.0);
            }
            kind::FINISHING if !gone => self.steps.push(finishing::read(record)),
            _ if !gone => self.moments.add(record),
            _ => {}
        }
        if !gone && needs_settling(record) {
            self.conflicting_records.push(record.clone());
        }
    }

    /// Puts everything into an order that depends on the entries alone.
    fn order(&mut self) {
        self.sittings = in_order_of_time(std::mem::take(&mut self.sittings));
        self.removed = in_order_of_time(std::mem::take(&mut self.removed));
        self.wefts.sort_by(|a, b| (&a.first_at, &a.id).cmp(&(&b.first_at, &b.id)));
        self.moments.order();
        self.photos.sort_by(|a, b| a.id.cmp(&b.id));
        self.steps.sort_by(|a, b| (a.position, &a.id).cmp(&(b.position, &b.id)));
        self.conflicting_records.sort_by(|a, b| a.id.cmp(&b.id));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tests::sitting;

    #[test]
    fn a_sitting_without_a_time_comes_after_what_was_logged_before_it() {
        // Picks name the sitting: its day, its time, and when it was logged.
        let logged = |picks, day, started: Option<&str>, first_at: &str| Sitting {
            started: started.map(str::to_owned),
            first_at: first_at.to_owned(),
            ..sitting(day, Some(picks), None)
        };
        let order = |sittings: Vec<Sitting>| -> Vec<Option<i64>> {
            in_order_of_time(sittings).iter().map(|one| one.picks).collect()
        };
        let tapped = logged(12, 20, Some("20:00"), "a");
        let typed = logged(90, 20, None, "b");
        assert_eq!(order(vec![typed.clone(), tapped.clone()]), [Some(12), Some(90)]);
        // Added last for the same morning and for the day before; typed first of all.
        let morning = logged(1, 20, Some("08:00"), "c");
        let day_before = logged(2, 19, None, "d");
        let first = logged(3, 20, None, "A");
        let all = vec![typed, morning, tapped, day_before, first];
        let expected = [Some(2), Some(3), Some(1), Some(12), Some(90)];
        assert_eq!(order(all.clone()), expected);
        assert_eq!(order(all.into_iter().rev().collect()), expected);
    }
}

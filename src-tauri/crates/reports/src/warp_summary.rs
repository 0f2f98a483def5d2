//! What one warp amounts to for the lists, the other warps and the comparisons.

use chrono::NaiveDate;
use fellmark_journal::{Presence, RecordId};

use crate::learned::WarpSample;
use crate::planned_and_actual::FinishingStatus;
use crate::warp_report::WarpReport;
use crate::weave_kinds::{SittingWoven, WeaveKinds};
use fellmark_model::WarpLog;
use fellmark_model::WarpState;
use fellmark_model::fields;
use fellmark_model::finishing;

/// What one warp amounts to: a pure function of its records.
#[derive(Clone, Debug, PartialEq)]
pub struct WarpSummary {
    /// Record id.
    pub id: RecordId,
    /// Its name.
    pub name: String,
    /// Where it is.
    pub state: WarpState,
    /// Day it was begun.
    pub begun_on: Option<NaiveDate>,
    /// Net picks that were counted.
    pub picks: i64,
    /// Cloth woven, under tension, millimetres; nothing when picks cannot be turned into a length yet.
    pub woven_mm: Option<f64>,
    /// Cloth to weave in all, under tension, millimetres.
    pub wanted_mm: Option<f64>,
    /// Picks per millimetre.
    pub picks_per_mm: Option<f64>,
    /// Woven share of what is wanted, 0 to 1.
    pub share: f64,
    /// Whether the length rests on rough figures.
    pub rough: bool,
    /// Minutes at the loom.
    pub minutes: f64,
    /// Records in which something waits for the weaver to choose.
    pub conflicting_records: usize,
    /// What waits for the weaver to choose in all of them.
    pub questions: usize,
    /// How far finishing is.
    pub finishing: FinishingStatus,
    /// Days its finishing steps took, from [`finishing::waiting_days`].
    pub waiting_days: Vec<(String, i64)>,
    /// What it has to teach, once it is off the loom.
    pub samples: Option<WarpSample>,
    /// Which part of its work is of which kind.
    pub weave_kinds: WeaveKinds,
    /// What each sitting wove, in order of time.
    pub sittings: Vec<SittingWoven>,
}

impl WarpSummary {
    /// The day of the latest sitting.
    #[must_use]
    pub fn last_woven_on(&self) -> Option<NaiveDate> {
        self.sittings.iter().map(|sitting| sitting.on).max()
    }

    /// The summary of a warp.
    #[must_use]
    pub fn of_report(report: &WarpReport) -> Self {
        let WarpReport { log, progress } = report;
        let off = log.warp.state == WarpState::OffTheLoom;
        Self {
            id: log.warp.id.clone(),
            name: log.warp.name.clone(),
            state: log.warp.state,
            begun_on: log.warp.begun_on,
            picks: progress.picks,
            woven_mm: progress.woven.map(|_| progress.woven_mm()),
            wanted_mm: progress.wanted_mm,
            picks_per_mm: progress.picks_per_mm,
            share: progress.share(),
            rough: progress.rough,
            minutes: progress.minutes,
            conflicting_records: log.conflicting_records.len(),
            questions: questions(log),
            finishing: FinishingStatus::of_warp(log),
            waiting_days: if off { finishing::waiting_days(log) } else { Vec::new() },
            samples: off.then(|| WarpSample::of(log, progress)),
            weave_kinds: WeaveKinds::of(&log.warp),
            sittings: SittingWoven::all(log, progress).collect(),
        }
    }
}

/// Conflicting fields, and records that were removed here and edited there.
fn questions(log: &WarpLog) -> usize {
    let of_one = |record: &fellmark_journal::Record| {
        let fields = record.conflicts().filter(|(field, _)| *field != fields::ACT).count();
        fields + usize::from(record.presence == Presence::RemovedHereEditedThere)
    };
    log.conflicting_records.iter().map(of_one).sum()
}

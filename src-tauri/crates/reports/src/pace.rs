//! What each warp took: hours, sittings, days and pace. Warps are compared, never people.

use chrono::NaiveDate;
use fellmark_journal::RecordId;
use fellmark_projection::{Note, warp_pace};

use crate::warp_summary::WarpSummary;
use fellmark_model::WarpState;

/// What one warp took.
#[derive(Clone, Debug, PartialEq)]
pub struct PaceFigures {
    /// Record id.
    pub id: RecordId,
    /// Its number in the pictures.
    pub number: usize,
    /// Its name.
    pub name: String,
    /// Where it is.
    pub state: WarpState,
    /// Whether all its finishing steps are done.
    pub finished: bool,
    /// Day of the first sitting.
    pub first: NaiveDate,
    /// Hours at the loom, forgotten timers counted shorter.
    pub hours: f64,
    /// Sittings.
    pub sittings: usize,
    /// Days from the first pick to finished, both counted; to today while it is not.
    pub days: i64,
    /// Length woven, under tension, millimetres.
    pub length_mm: Option<f64>,
    /// Picks an hour over the timed sittings.
    pub picks_per_hour: Option<f64>,
    /// Picks per millimetre.
    pub picks_per_mm: Option<f64>,
    /// Of each timed sitting: share of the woven cloth at its middle, and picks an hour.
    pub over_time: Vec<(f64, f64)>,
    /// Sittings whose minutes were counted shorter.
    pub shortened: usize,
    /// Sittings without minutes.
    pub untimed: usize,
}

impl PaceFigures {
    /// Hours at the loom for a millimetre woven.
    #[must_use]
    pub fn hours_per_mm(&self) -> Option<f64> {
        self.mm_per_hour().map(|mm| 1.0 / mm)
    }

    /// Millimetres woven in an hour.
    #[must_use]
    pub fn mm_per_hour(&self) -> Option<f64> {
        Some(self.picks_per_hour? / self.picks_per_mm?).filter(|mm| mm.is_finite() && *mm > 0.0)
    }
}

/// Shortest sitting whose own pace is looked at, minutes: below it settling in is most of it.
const LEAST_MINUTES: f64 = 5.0;

/// What a warp took; nothing when it was removed, or nothing was woven on it.
#[must_use]
pub fn pace_figures(warp: &WarpSummary, today: NaiveDate) -> Option<PaceFigures> {
    if warp.state == WarpState::Removed {
        return None;
    }
    let woven = &warp.sittings;
    let sittings = warp.weave_kinds.sittings(woven.iter().copied());
    let first = sittings.iter().map(|sitting| sitting.day).filter(|day| *day <= today).min()?;
    let pace = warp_pace(today, &sittings).ok()?;
    let finished = warp.finishing.finished_on.filter(|_| warp.state == WarpState::OffTheLoom);
    let all: f64 = woven.iter().filter_map(|sitting| sitting.picks).sum();
    let mut so_far = 0.0;
    let mut over_time = Vec::new();
    for sitting in woven {
        let picks = sitting.picks.unwrap_or(0.0);
        let middle = so_far + picks / 2.0;
        so_far += picks;
        if let Some(minutes) = sitting.minutes
            && minutes >= LEAST_MINUTES
            && picks > 0.0
            && !sitting.rough
            && all > 0.0
        {
            over_time.push(((middle / all).clamp(0.0, 1.0), picks / minutes * 60.0));
        }
    }
    Some(PaceFigures {
        id: warp.id.clone(),
        number: 0,
        name: warp.name.clone(),
        state: warp.state,
        finished: finished.is_some(),
        first,
        hours: pace.hours,
        sittings: pace.sittings,
        days: (finished.unwrap_or(today) - first).num_days().max(0) + 1,
        length_mm: warp.woven_mm.filter(|mm| *mm > 0.0),
        picks_per_hour: pace.picks_per_hour.filter(|pace| *pace > 0.0),
        picks_per_mm: warp.picks_per_mm.filter(|rate| *rate > 0.0),
        over_time,
        shortened: pace.notes.iter().filter(|note| matches!(note, Note::LongSitting { .. })).count(),
        untimed: woven.iter().filter(|sitting| sitting.minutes.is_none() && sitting.counted).count(),
    })
}

/// What every warp took that was woven on, the latest begun first.
#[must_use]
pub fn all_pace_figures<'a>(warps: impl IntoIterator<Item = &'a WarpSummary>, today: NaiveDate) -> Vec<PaceFigures> {
    let mut all: Vec<PaceFigures> = warps.into_iter().filter_map(|warp| pace_figures(warp, today)).collect();
    all.sort_by(|a, b| (b.first, &b.id).cmp(&(a.first, &a.id)));
    for (number, one) in (1..).zip(&mut all) {
        one.number = number;
    }
    all
}

/// The length in the middle, to part short from long where none was chosen.
pub fn middle_length_mm(all: &[PaceFigures]) -> Option<f64> {
    let mut lengths: Vec<f64> =
        all.iter().filter(|one| one.hours_per_mm().is_some()).filter_map(|one| one.length_mm).collect();
    lengths.sort_by(f64::total_cmp);
    let n = lengths.len();
    match n {
        0 => None,
        _ if n % 2 == 1 => lengths.get(n / 2).copied(),
        _ => Some(f64::midpoint(*lengths.get(n / 2 - 1)?, *lengths.get(n / 2)?)),
    }
}

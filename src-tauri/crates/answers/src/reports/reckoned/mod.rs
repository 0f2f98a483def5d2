//! Every warp reckoned once, and again only when its own records change.
//!
//! What follows from the records of one warp alone is a value, [`Reckoned`], of which the lists and the other warps need the
//! [`Summary`]. [`ReportCache`] keeps them beside the journal, each under the version of its warp's entries, and what follows
//! from all finished warps together ([`History`]). Today, the format and a sitting that is going on come in where something is
//! told. A [`memo`](ReportCache::memo) carries the summaries over to the next start.

mod history;
mod memo;
mod summary;

use std::collections::BTreeMap;
use std::sync::Arc;

use chrono::NaiveDate;
use fellmark_journal::{RecordId, State};
use rayon::prelude::*;

pub use history::History;
pub use summary::{Sittings, Summary};

use crate::model::{WarpLog, warp_log};
use crate::present::view::WarpState;
use crate::reports::progress::Progress;
use crate::reports::when::{self, Projected};

/// One warp with what its records amount to.
#[derive(Clone, Debug)]
pub struct Reckoned {
    /// All that belongs to it.
    pub log: WarpLog,
    /// How far it is, without a sitting that is going on.
    pub progress: Progress,
}

impl Reckoned {
    /// Reckons a warp; nothing where its own record has not arrived.
    #[must_use]
    pub fn of(state: &State, warp: &RecordId) -> Option<Self> {
        let log = warp_log(state, warp)?;
        let progress = Progress::of(&log, 0);
        Some(Self { log, progress })
    }
}

/// A warp as it is kept.
#[derive(Debug)]
struct One {
    version: u128,
    /// Nothing where the warp's own record has not arrived.
    summary: Option<Arc<Summary>>,
    /// The whole of it, where it was asked for.
    whole: Option<Arc<Reckoned>>,
    /// When it will be done, and what that was asked with.
    projected: Option<(Asked, Arc<Projected>)>,
}

impl One {
    fn of(state: &State, id: &RecordId, version: u128) -> Self {
        let whole = Reckoned::of(state, id);
        let summary = whole.as_ref().map(|whole| Arc::new(Summary::of(whole)));
        // The others are looked at one by one: their summaries do.
        let whole = whole.filter(|whole| whole.log.warp.state == WarpState::OnTheLoom).map(Arc::new);
        Self { version, summary, whole, projected: None }
    }

    fn is_to_project(&self, asked: Asked) -> bool {
        self.summary.is_some() && self.projected.as_ref().is_none_or(|(then, _)| *then != asked)
    }
}

/// Does the work on each thing, on several threads where there is more than one.
fn together<T: Send, R: Send>(things: Vec<T>, work: impl Fn(T) -> R + Send + Sync) -> Vec<R> {
    if things.len() < 2 {
        return things.into_iter().map(work).collect();
    }
    things.into_par_iter().map(work).collect()
}

/// What a projection depends on beside the warp's own records.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Asked {
    today: NaiveDate,
    history: u64,
}

/// Every warp of one journal, reckoned.
#[derive(Debug, Default)]
pub struct ReportCache {
    warps: BTreeMap<RecordId, One>,
    history: Option<Arc<History>>,
    /// Counts the histories, so that what one of them was used for is known from what another was.
    histories: u64,
    reckoned: u64,
}

impl ReportCache {
    /// Nothing reckoned yet.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// All warps of a state, reckoned.
    #[must_use]
    pub fn of(state: &State) -> Self {
        let mut all = Self::new();
        all.bring_up(state);
        all
    }

    /// Reckons the warps whose entries are not those they were reckoned from; how many that were.
    pub fn bring_up(&mut self, state: &State) -> usize {
        let known: Vec<(&RecordId, u128)> = state.warp_ids().map(|id| (id, state.version_of_warp(id))).collect();
        let changed = |(id, version): &&(&RecordId, u128)| self.warps.get(id).is_none_or(|one| one.version != *version);
        let changed: Vec<(&RecordId, u128)> = known.iter().filter(changed).copied().collect();
        let reckoned = changed.len();
        for (id, one) in together(changed, |(id, version)| (id, One::of(state, id, version))) {
            self.keep(id, one);
        }
        if self.warps.len() > known.len() {
            // A memo may know warps that this state does not.
            self.warps.retain(|id, _| state.version_of_warp(id) != 0);
            self.history = None;
        }
        self.reckoned += reckoned as u64;
        reckoned
    }

    fn keep(&mut self, id: &RecordId, one: One) {
        let before = self.warps.insert(id.clone(), one);
        let before = before.and_then(|one| one.summary);
        let now = self.warps.get(id).and_then(|one| one.summary.as_ref());
        let off = |summary: &&Arc<Summary>| summary.state == WarpState::OffTheLoom;
        if before.as_ref().filter(off) != now.filter(off) {
            self.history = None;
        }
    }

    /// How often a warp has been reckoned so far.
    #[must_use]
    pub fn count(&self) -> u64 {
        self.reckoned
    }

    /// What every warp amounts to, by record id, the removed ones too.
    pub fn summaries(&self) -> impl DoubleEndedIterator<Item = &Arc<Summary>> {
        self.warps.values().filter_map(|one| one.summary.as_ref())
    }

    /// What one warp amounts to.
    #[must_use]
    pub fn summary(&self, warp: &RecordId) -> Option<&Arc<Summary>> {
        self.warps.get(warp)?.summary.as_ref()
    }

    /// One warp with all that belongs to it.
    pub fn whole(&mut self, state: &State, warp: &RecordId) -> Option<Arc<Reckoned>> {
        let one = self.warps.get_mut(warp)?;
        if one.whole.is_none() {
            one.whole = Reckoned::of(state, warp).map(Arc::new);
            self.reckoned += 1;
        }
        one.whole.clone()
    }

    /// What the finished warps say together.
    pub fn history(&mut self) -> Arc<History> {
        if let Some(history) = &self.history {
            return Arc::clone(history);
        }
        self.histories += 1;
        let history = Arc::new(History::of(self.summaries().map(Arc::as_ref)));
        self.history = Some(Arc::clone(&history));
        history
    }

    /// Projects several warps, as of a day, on several threads: each is then told at once.
    pub fn project(&mut self, state: &State, warps: &[RecordId], today: NaiveDate) {
        let history = self.history();
        let asked = Asked { today, history: self.histories };
        let open = |id: &&RecordId| self.warps.get(id).is_some_and(|one| one.is_to_project(asked));
        let open: Vec<(&RecordId, Option<Arc<Reckoned>>)> =
            warps.iter().filter(open).map(|id| (id, self.warps.get(id).and_then(|one| one.whole.clone()))).collect();
        let done = together(open, |(id, whole)| {
            let reckoned = u64::from(whole.is_none());
            let whole = whole.or_else(|| Reckoned::of(state, id).map(Arc::new))?;
            let projected = Arc::new(when::projected(&whole.log, &whole.progress, &history, today));
            Some((id, whole, projected, reckoned))
        });
        for (id, whole, projected, reckoned) in done.into_iter().flatten() {
            self.reckoned += reckoned;
            if let Some(one) = self.warps.get_mut(id) {
                (one.whole, one.projected) = (Some(whole), Some((asked, projected)));
            }
        }
    }

    /// When a warp will be done, as of a day, without a sitting that is going on.
    pub fn projected(&mut self, state: &State, warp: &RecordId, today: NaiveDate) -> Option<Arc<Projected>> {
        let history = self.history();
        let asked = Asked { today, history: self.histories };
        if let Some((then, projected)) = self.warps.get(warp).and_then(|one| one.projected.as_ref())
            && *then == asked
        {
            return Some(Arc::clone(projected));
        }
        let whole = self.whole(state, warp)?;
        let projected = Arc::new(when::projected(&whole.log, &whole.progress, &history, today));
        if let Some(one) = self.warps.get_mut(warp) {
            one.projected = Some((asked, Arc::clone(&projected)));
        }
        Some(projected)
    }
}

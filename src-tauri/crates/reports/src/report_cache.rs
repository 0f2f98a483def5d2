//! One report per warp, made again only when the entries of that warp change.
//!
//! What follows from the records of one warp alone is its [`WarpReport`], of which the lists and the other warps need the
//! [`WarpSummary`]. [`ReportCache`] keeps both in memory, each under the version of its warp's entries, and what follows from all
//! finished warps together ([`History`]). Nothing of it is stored.

use std::collections::BTreeMap;
use std::sync::Arc;

use chrono::NaiveDate;
use fellmark_journal::{EntrySet, RecordId};
use rayon::prelude::*;

use crate::finish_date::{FinishDate, finish_date};
use crate::history::History;
use crate::learned_release::{depends_on_release, learned_release};
use crate::warp_report::WarpReport;
use crate::warp_summary::WarpSummary;
use fellmark_model::{WarpLog, WarpState};

/// A warp as it is kept.
#[derive(Debug)]
struct CacheEntry {
    version: u128,
    /// Nothing where the warp's own record has not arrived.
    summary: Option<Arc<WarpSummary>>,
    /// The whole of it, where it was asked for.
    whole: Option<Arc<WarpReport>>,
    /// When it will be done, and what that was asked with.
    finish_date: Option<(FinishDateInputs, Arc<FinishDate>)>,
}

impl CacheEntry {
    fn of(state: &EntrySet, id: &RecordId, version: u128) -> Self {
        let whole = WarpReport::of(state, id);
        let summary = whole.as_ref().map(|whole| Arc::new(WarpSummary::of_report(whole)));
        // The others are looked at one by one: their summaries do.
        let whole = whole.filter(|whole| whole.log.warp.state == WarpState::OnTheLoom).map(Arc::new);
        Self { version, summary, whole, finish_date: None }
    }

    fn is_to_project(&self, asked: FinishDateInputs) -> bool {
        self.summary.is_some() && self.finish_date.as_ref().is_none_or(|(then, _)| *then != asked)
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
struct FinishDateInputs {
    today: NaiveDate,
    history: u64,
}

/// The reports of all warps of one journal.
#[derive(Debug, Default)]
pub struct ReportCache {
    warps: BTreeMap<RecordId, CacheEntry>,
    history: Option<Arc<History>>,
    /// Counts the histories, so that what one of them was used for is known from what another was.
    histories: u64,
    reports_made: u64,
}

impl ReportCache {
    /// An empty cache.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// The reports of all warps of a state.
    #[must_use]
    pub fn of_state(state: &EntrySet) -> Self {
        let mut all = Self::new();
        all.refresh(state);
        all
    }

    /// Makes the reports of the warps whose entries changed; how many those were.
    pub fn refresh(&mut self, state: &EntrySet) -> usize {
        let known: Vec<(&RecordId, u128)> = state.warp_ids().map(|id| (id, state.version_of_warp(id))).collect();
        let changed = |(id, version): &&(&RecordId, u128)| self.warps.get(id).is_none_or(|one| one.version != *version);
        let changed: Vec<(&RecordId, u128)> = known.iter().filter(changed).copied().collect();
        let calculated = changed.len();
        for (id, one) in together(changed, |(id, version)| (id, CacheEntry::of(state, id, version))) {
            self.keep(id, one);
        }
        self.reports_made += calculated as u64;
        self.apply_learned_release();
        calculated
    }

    /// Makes the reports again that depend on what earlier warps lost when the tension went, where that changed.
    fn apply_learned_release(&mut self) {
        let depends = |whole: &Arc<WarpReport>| depends_on_release(&whole.log);
        if !self.warps.values().filter_map(|one| one.whole.as_ref()).any(depends) {
            return;
        }
        let history = self.history();
        for one in self.warps.values_mut() {
            let Some(whole) = one.whole.as_ref().filter(|whole| depends(whole)) else { continue };
            let learned = learned_release(&whole.log, &history);
            if learned != whole.log.warp.learned_release {
                let mut log = whole.log.clone();
                log.warp.learned_release = learned;
                let whole = Arc::new(WarpReport::of_log(log));
                one.summary = Some(Arc::new(WarpSummary::of_report(&whole)));
                (one.whole, one.finish_date) = (Some(whole), None);
                self.reports_made += 1;
            }
        }
    }

    /// The log of a warp, with what earlier warps lost when the tension went; nothing where its own record has not arrived.
    #[must_use]
    pub fn warp_log(&self, state: &EntrySet, warp: &RecordId) -> Option<WarpLog> {
        let mut log = fellmark_model::warp_log(state, warp)?;
        let known = self.warps.get(warp).and_then(|one| one.whole.as_ref());
        log.warp.learned_release = known.and_then(|whole| whole.log.warp.learned_release);
        Some(log)
    }

    fn keep(&mut self, id: &RecordId, one: CacheEntry) {
        let before = self.warps.insert(id.clone(), one);
        let before = before.and_then(|one| one.summary);
        let now = self.warps.get(id).and_then(|one| one.summary.as_ref());
        let off = |summary: &&Arc<WarpSummary>| summary.state == WarpState::OffTheLoom;
        if before.as_ref().filter(off) != now.filter(off) {
            self.history = None;
        }
    }

    /// How many reports have been made so far.
    #[must_use]
    pub fn count(&self) -> u64 {
        self.reports_made
    }

    /// What every warp amounts to, by record id, the removed ones too.
    pub fn summaries(&self) -> impl DoubleEndedIterator<Item = &Arc<WarpSummary>> {
        self.warps.values().filter_map(|one| one.summary.as_ref())
    }

    /// What one warp amounts to.
    #[must_use]
    pub fn summary(&self, warp: &RecordId) -> Option<&Arc<WarpSummary>> {
        self.warps.get(warp)?.summary.as_ref()
    }

    /// CacheEntry warp with all that belongs to it.
    pub fn whole(&mut self, state: &EntrySet, warp: &RecordId) -> Option<Arc<WarpReport>> {
        let one = self.warps.get_mut(warp)?;
        if one.whole.is_none() {
            one.whole = WarpReport::of(state, warp).map(Arc::new);
            self.reports_made += 1;
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

    /// Projects several warps, as of a day, on several threads: each is then answered at once.
    pub fn project(&mut self, state: &EntrySet, warps: &[RecordId], today: NaiveDate) {
        let history = self.history();
        let asked = FinishDateInputs { today, history: self.histories };
        let open = |id: &&RecordId| self.warps.get(id).is_some_and(|one| one.is_to_project(asked));
        let open: Vec<(&RecordId, Option<Arc<WarpReport>>)> =
            warps.iter().filter(open).map(|id| (id, self.warps.get(id).and_then(|one| one.whole.clone()))).collect();
        let done = together(open, |(id, whole)| {
            let calculated = u64::from(whole.is_none());
            let whole = whole.or_else(|| WarpReport::of(state, id).map(Arc::new))?;
            let projected = Arc::new(finish_date(&whole.log, &whole.progress, &history, today));
            Some((id, whole, projected, calculated))
        });
        for (id, whole, projected, calculated) in done.into_iter().flatten() {
            self.reports_made += calculated;
            if let Some(one) = self.warps.get_mut(id) {
                (one.whole, one.finish_date) = (Some(whole), Some((asked, projected)));
            }
        }
    }

    /// When a warp will be done, as of a day, without a sitting that is going on.
    pub fn finish_date(&mut self, state: &EntrySet, warp: &RecordId, today: NaiveDate) -> Option<Arc<FinishDate>> {
        let history = self.history();
        let asked = FinishDateInputs { today, history: self.histories };
        if let Some((then, projected)) = self.warps.get(warp).and_then(|one| one.finish_date.as_ref())
            && *then == asked
        {
            return Some(Arc::clone(projected));
        }
        let whole = self.whole(state, warp)?;
        let projected = Arc::new(finish_date(&whole.log, &whole.progress, &history, today));
        if let Some(one) = self.warps.get_mut(warp) {
            one.finish_date = Some((asked, Arc::clone(&projected)));
        }
        Some(projected)
    }
}

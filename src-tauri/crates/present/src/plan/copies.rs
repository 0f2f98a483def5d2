//! Earlier warps that a plan can be copied from.

use std::cmp::Reverse;

use fellmark_journal::EntrySet;

use crate::view::{EarlierPlan, WarpState};
use fellmark_model::display_format::DisplayFormat;
use fellmark_model::plan::plan_form_from_warp;
use fellmark_reports::report_cache::ReportCache;
use fellmark_reports::warp_summary::WarpSummary;

/// Most earlier warps that are offered to be copied.
const MOST_COPIES: usize = 40;

/// The latest begun of the warps as plans to copy, the latest first. Of the others no record is read.
#[must_use]
pub fn earlier_plans(state: &EntrySet, warps: &mut ReportCache, format: &DisplayFormat) -> Vec<EarlierPlan> {
    warps.refresh(state);
    let mut known: Vec<&WarpSummary> =
        warps.summaries().map(AsRef::as_ref).filter(|one| one.state != WarpState::Removed).collect();
    known.sort_by_key(|one| (Reverse(one.begun_on), one.id.clone()));
    let offered = known.into_iter().take(MOST_COPIES).filter_map(|one| fellmark_model::warp_log(state, &one.id));
    offered
        .map(|log| EarlierPlan {
            warp: log.warp.id.to_string(),
            name: log.warp.name.clone(),
            form: plan_form_from_warp(state, &log, format),
        })
        .collect()
}

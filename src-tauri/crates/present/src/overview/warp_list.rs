//! Every warp as a line.

use std::cmp::Reverse;
use std::sync::Arc;

use fellmark_journal::RecordId;

use super::Presenter;
use crate::figures::{show_length, show_minutes};
use crate::finish_date;
use crate::planned_and_actual::finishing_line;
use crate::view::{WarpLine, WarpState};
use fellmark_reports::warp_summary::WarpSummary;

/// Every warp, those on the loom first, then the latest begun.
pub(super) fn in_order(presenter: &Presenter<'_>) -> Vec<Arc<WarpSummary>> {
    let mut shown: Vec<Arc<WarpSummary>> = presenter.report_cache.summaries().cloned().collect();
    let rank = |state: WarpState| match state {
        WarpState::OnTheLoom => 0,
        WarpState::Resting => 1,
        WarpState::OffTheLoom => 2,
        WarpState::Removed => 3,
    };
    shown.sort_by(|a, b| {
        let first = |one: &WarpSummary| (rank(one.state), Reverse(one.begun_on));
        first(a).cmp(&first(b)).then_with(|| a.id.cmp(&b.id))
    });
    shown
}

pub(super) fn all(presenter: &mut Presenter<'_>) -> Vec<WarpLine> {
    let lines = in_order(presenter);
    let on_the_loom: Vec<RecordId> =
        lines.iter().filter(|one| one.state == WarpState::OnTheLoom).map(|one| one.id.clone()).collect();
    presenter.report_cache.project(presenter.journal.state(), &on_the_loom, presenter.today);
    lines.iter().map(|one| warp_line(presenter, one)).collect()
}

fn warp_line(presenter: &mut Presenter<'_>, one: &WarpSummary) -> WarpLine {
    let line = match one.state {
        WarpState::OnTheLoom => match on_the_loom(presenter, one) {
            Some(headline) => format!("{}. {headline}", woven(presenter, one)),
            None => format!("{}.", woven(presenter, one)),
        },
        WarpState::Resting => format!("{}; resting", woven(presenter, one)),
        WarpState::OffTheLoom => off_the_loom(presenter, one),
        WarpState::Removed => "removed".into(),
    };
    WarpLine {
        id: one.id.to_string(),
        name: one.name.clone(),
        state: one.state,
        line,
        share: one.share,
        conflicts: one.conflicting_records,
    }
}

fn woven(presenter: &Presenter<'_>, one: &WarpSummary) -> String {
    let about = if one.rough { "about " } else { "" };
    let length = |mm: f64| show_length(mm, presenter.format);
    match (one.woven_mm, one.wanted_mm) {
        (Some(woven), Some(wanted)) => format!("{about}{} of {} woven", length(woven), length(wanted)),
        (Some(woven), None) => format!("{about}{} woven", length(woven)),
        (None, _) => format!("{} picks woven", one.picks),
    }
}

fn on_the_loom(presenter: &mut Presenter<'_>, one: &WarpSummary) -> Option<String> {
    let state = presenter.journal.state();
    let projected = presenter.report_cache.finish_date(state, &one.id, presenter.today)?;
    let whole = presenter.report_cache.whole(state, &one.id)?;
    Some(finish_date::headline(&whole.log, &whole.progress, &projected, presenter.format, presenter.today))
}

fn off_the_loom(presenter: &Presenter<'_>, one: &WarpSummary) -> String {
    let sittings = match one.sittings.len() {
        1 => "1 sitting".to_owned(),
        many => format!("{many} sittings"),
    };
    let minutes = if one.minutes > 0.0 { format!(", {}", show_minutes(one.minutes)) } else { String::new() };
    let finishing = finishing_line(&one.finishing, presenter.format, presenter.today);
    format!("{} woven in {sittings}{minutes}. {finishing}", show_length(one.woven_mm.unwrap_or(0.0), presenter.format))
}

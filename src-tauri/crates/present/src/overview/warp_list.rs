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
pub(super) fn in_order(look: &Presenter<'_>) -> Vec<Arc<WarpSummary>> {
    let mut shown: Vec<Arc<WarpSummary>> = look.reckonings.summaries().cloned().collect();
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

pub(super) fn all(look: &mut Presenter<'_>) -> Vec<WarpLine> {
    let lines = in_order(look);
    let on_the_loom: Vec<RecordId> =
        lines.iter().filter(|one| one.state == WarpState::OnTheLoom).map(|one| one.id.clone()).collect();
    look.reckonings.project(look.journal.state(), &on_the_loom, look.today);
    lines.iter().map(|one| warp_line(look, one)).collect()
}

fn warp_line(look: &mut Presenter<'_>, one: &WarpSummary) -> WarpLine {
    let line = match one.state {
        WarpState::OnTheLoom => match on_the_loom(look, one) {
            Some(headline) => format!("{}. {headline}", woven(look, one)),
            None => format!("{}.", woven(look, one)),
        },
        WarpState::Resting => format!("{}; resting", woven(look, one)),
        WarpState::OffTheLoom => off_the_loom(look, one),
        WarpState::Removed => "removed".into(),
    };
    WarpLine {
        id: one.id.to_string(),
        name: one.name.clone(),
        state: one.state,
        line,
        share: one.share,
        conflicts: one.to_settle,
    }
}

fn woven(look: &Presenter<'_>, one: &WarpSummary) -> String {
    let about = if one.rough { "about " } else { "" };
    let length = |mm: f64| show_length(mm, look.format);
    match (one.woven_mm, one.wanted_mm) {
        (Some(woven), Some(wanted)) => format!("{about}{} of {} woven", length(woven), length(wanted)),
        (Some(woven), None) => format!("{about}{} woven", length(woven)),
        (None, _) => format!("{} picks woven", one.picks),
    }
}

fn on_the_loom(look: &mut Presenter<'_>, one: &WarpSummary) -> Option<String> {
    let state = look.journal.state();
    let projected = look.reckonings.finish_date(state, &one.id, look.today)?;
    let whole = look.reckonings.whole(state, &one.id)?;
    Some(finish_date::headline(&whole.log, &whole.progress, &projected, look.format, look.today))
}

fn off_the_loom(look: &Presenter<'_>, one: &WarpSummary) -> String {
    let sittings = match one.sittings.len() {
        1 => "1 sitting".to_owned(),
        many => format!("{many} sittings"),
    };
    let minutes = if one.minutes > 0.0 { format!(", {}", show_minutes(one.minutes)) } else { String::new() };
    let finishing = finishing_line(&one.finishing, look.format, look.today);
    format!("{} woven in {sittings}{minutes}. {finishing}", show_length(one.woven_mm.unwrap_or(0.0), look.format))
}

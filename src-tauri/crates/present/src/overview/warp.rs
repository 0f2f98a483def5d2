//! One warp with its three answers.

use std::sync::Arc;

use fellmark_journal::RecordId;

use super::conflicts::conflict_views;
use super::photos::{photos_by_sitting, strip};
use super::sittings::sitting_line;
use super::{Presenter, device_names};
use crate::cautions::caution_view;
use crate::fill_forms::show_warp_form;
use crate::finish_date;
use crate::glance;
use crate::notes;
use crate::planned_and_actual;
use crate::progress;
use crate::reach;
use crate::running_sitting;
use crate::view::{Figures, LoomView};
use crate::warp_picture;
use crate::weft;
use fellmark_model::Sitting;
use fellmark_reports::cautions::cautions_shown;
use fellmark_reports::finish_date::finish_date as report_finish_date;
use fellmark_reports::progress::Progress;
use fellmark_reports::warp_report::WarpReport;

/// A sitting that is going on: its record id, and its net picks.
pub(super) type Going<'a> = Option<(Option<&'a RecordId>, i64)>;

/// The warp with what is going on on it: calculated again only where a sitting goes on.
fn now(whole: Arc<WarpReport>, going: Going<'_>) -> Arc<WarpReport> {
    let Some((sitting, picks)) = going else { return whole };
    let mut log = whole.log.clone();
    log.running = sitting.cloned();
    let progress = Progress::of(&log, picks);
    Arc::new(WarpReport { log, progress })
}

pub(super) fn view(presenter: &mut Presenter<'_>, warp: &RecordId, going: Going<'_>) -> Option<LoomView> {
    let (journal, format, today) = (presenter.journal, presenter.format, presenter.today);
    let whole = now(presenter.report_cache.whole(journal.state(), warp)?, going);
    let WarpReport { log, progress } = whole.as_ref();
    let projected = match going {
        None => presenter.report_cache.finish_date(journal.state(), warp, today)?,
        Some(_) => Arc::new(report_finish_date(log, progress, &presenter.report_cache.history(), today)),
    };
    let mut figures = Figures::default();
    let place = crate::sequence::place(log, progress, format);
    let progress_answer = progress::answer(log, progress, place.as_ref(), format, today, &mut figures);
    let warp_reach = reach::warp_answer(log, progress, format, &mut figures);
    let weft_reach = weft::weft_answer(log, progress, format, &mut figures);
    let finish_date = finish_date::answer(log, progress, &projected, format, today, &mut figures);
    let devices = device_names(journal);
    let photos = photos_by_sitting(journal, log);
    let photo_of = |index: usize| {
        let sitting = log.sittings.get(index)?;
        photos.get(&sitting.id)?.iter().find(|photo| !photo.missing).map(|photo| photo.small.clone())
    };
    let picture = warp_picture::draw(log, progress, &photo_of, format, today);
    let line = |sitting: &Sitting| sitting_line(sitting, &devices, &photos, format, today);
    Some(LoomView {
        id: log.warp.id.to_string(),
        name: log.warp.name.clone(),
        state: log.warp.state,
        progress: progress_answer,
        warp_reach,
        weft_reach,
        finish_date: finish_date.answer,
        progress_glance: glance::woven(&figures, progress.rough, format),
        finish_date_glance: glance::finished(&figures, format, today),
        figures,
        place,
        to_go: progress::to_go(progress, format),
        picture,
        days: finish_date.days,
        sittings: log.sittings.iter().rev().map(line).collect(),
        yarns: notes::yarn_views(log, progress, format),
        moments: notes::moment_lines(log, format, today),
        strip: strip(log, progress, &photos, format, today),
        picks_per_tap: log.warp.picks_per_tap,
        press_previews: if log.running.is_none() { running_sitting::first_presses(log, format) } else { Vec::new() },
        removed: log.removed.iter().rev().map(line).collect(),
        conflicts: conflict_views(journal, log, format, today),
        form: show_warp_form(&log.warp, log.wefts.first(), format),
        seen: log.warp.seen.iter().map(ToString::to_string).collect(),
        cautions: cautions_shown(&log.warp).into_iter().map(|one| caution_view(one, format)).collect(),
        off: planned_and_actual::view(log, progress, &presenter.report_cache.history().samples, format, today),
    })
}

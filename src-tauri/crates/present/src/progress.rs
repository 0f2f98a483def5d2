//! How far a warp is, in words: picks, cloth, the place in the repeat, and what was noticed about the figures.

use chrono::NaiveDate;

use crate::figures::{picks_unit, show_length, show_piece_lengths};
use crate::lists_and_numbers::count;
use crate::messages::declared::{cloth, progress as messages};
use crate::messages::{text, texts};
use crate::view::{Answer, Figures, PlaceView, Standing, WarpState};
use fellmark_cloth::learned::USUAL_RELAXATION;
use fellmark_model::display_format::DisplayFormat;
use fellmark_model::forms::picks_in_units;
use fellmark_model::{ClothState, Message, WarpLog};
use fellmark_reports::progress::{Notice, NoticeKind, Progress};
use fellmark_reports::relaxation::RelaxationSource;

/// The chance that the woven length is within what it is given or taken by.
const WITHIN: f64 = 0.8;

/// Cloth still to weave of the piece at the fell, under tension, millimetres; nothing where that is not known, or there is none.
pub(crate) fn cloth_to_go_mm(progress: &Progress) -> Option<f64> {
    progress.woven?;
    Some(progress.piece_at_fell()?.end.mm() - progress.woven_mm()).filter(|left| *left > 0.0)
}

/// The same in words: "74 cm to go".
pub(crate) fn to_go(progress: &Progress, format: &DisplayFormat) -> Option<String> {
    cloth_to_go_mm(progress).map(|mm| text(&messages::cloth_to_go(mm), format))
}

/// Answers where the weaver is, and fills in its figures.
#[must_use]
pub fn answer(
    log: &WarpLog,
    progress: &Progress,
    place: Option<&PlaceView>,
    format: &DisplayFormat,
    today: NaiveDate,
    figures: &mut Figures,
) -> Answer {
    let (woven, wanted) = (progress.woven_mm(), progress.wanted_mm);
    figures.picks = progress.picks;
    figures.woven_mm = woven;
    figures.woven_give_or_take_mm = progress.give_or_take_mm();
    figures.wanted_mm = wanted.unwrap_or(0.0);
    figures.to_weave_mm = progress.to_weave_mm.unwrap_or(0.0).max(0.0);
    figures.to_weave_picks = progress.to_weave_picks.unwrap_or(0.0).max(0.0) as i64;
    figures.picks_per_10cm = progress.picks_per_mm.unwrap_or(0.0) * 100.0;
    figures.minutes = progress.minutes;

    let mut more = below_headline(log, progress, place, today);
    let mut standing = Standing::Well;
    for notice in &progress.noticed {
        let day = notice.sitting.and_then(|index| log.sittings.get(index)).map(|sitting| (sitting.on, today));
        let message = notice_message(notice, format);
        more.push(day.map_or_else(|| message.clone(), |day| messages::notice_of_day(day, message.clone())));
        standing = Standing::Close;
    }
    Answer {
        headline: text(&headline(log, progress), format),
        more: texts(&more, format),
        why: texts(&why(log, progress, format), format),
        standing,
    }
}

fn headline(log: &WarpLog, progress: &Progress) -> Message {
    let woven = progress.woven_mm();
    match (progress.woven, progress.wanted_mm) {
        _ if log.sittings.is_empty() && progress.picks == 0 => {
            progress.wanted_mm.map_or_else(messages::progress_nothing_woven, messages::progress_nothing_woven_of)
        }
        (None, _) => messages::progress_picks_only(progress.picks),
        (Some(_), Some(wanted)) if woven >= wanted && log.warp.state == WarpState::OffTheLoom => {
            messages::progress_all_woven(wanted)
        }
        (Some(_), Some(wanted)) if woven >= wanted => messages::progress_ready_to_cut(wanted),
        (Some(_), Some(wanted)) if progress.rough => messages::progress_about_woven_of(woven, wanted),
        (Some(_), Some(wanted)) => messages::progress_woven_of(woven, wanted),
        (Some(_), None) if progress.rough => messages::progress_about_woven(woven),
        (Some(_), None) => messages::progress_woven(woven),
    }
}

/// What is said below the headline, before anything that was noticed about the figures.
fn below_headline(log: &WarpLog, progress: &Progress, place: Option<&PlaceView>, today: NaiveDate) -> Vec<Message> {
    let (woven, wanted) = (progress.woven_mm(), progress.wanted_mm);
    let mut more = Vec::new();
    if log.warp.state != WarpState::OffTheLoom
        && !progress.rate_measured
        && progress.give_or_take_mm() >= 5.0
        && wanted.is_some_and(|wanted| woven >= wanted)
    {
        more.push(messages::progress_measure_before_cutting(progress.give_or_take_mm()));
    }
    if progress.pieces > 1
        && wanted.is_some_and(|wanted| woven < wanted)
        && let Some(at) = progress.piece_at_fell()
    {
        let (done, whole) = (woven - at.begin.mm(), at.end.mm() - at.begin.mm());
        more.push(messages::progress_piece(count(at.piece) + 1, count(progress.pieces), done, whole));
    }
    if progress.picks != 0 {
        more.push(messages::progress_picks(progress.picks));
    }
    if let Some(place) = place {
        more.push(match &place.piece {
            Some(piece) => messages::progress_place_and_piece(place.place.clone(), piece.clone()),
            None => messages::progress_place(place.place.clone()),
        });
        let sentences = place.due.as_ref().map(|due| &due.sentence).into_iter().chain(&place.warning);
        more.extend(sentences.map(|sentence| messages::progress_place(sentence.clone())));
    }
    if let Some(last) = log.sittings.last() {
        let day = (last.on, today);
        if last.pick_begun && log.running.is_none() {
            more.push(match place {
                Some(place) => messages::progress_pick_begun_in(day, place.next.clone()),
                None => messages::progress_pick_begun(day),
            });
        }
        more.push(messages::progress_last_sitting(day));
    }
    more
}

fn why(log: &WarpLog, progress: &Progress, format: &DisplayFormat) -> Vec<Message> {
    let mut why = Vec::new();
    if let Some(rate) = progress.picks_per_mm {
        let density = density_words(rate, format);
        why.push(if progress.rate_measured {
            messages::progress_rate_measured(density)
        } else {
            messages::progress_rate_planned(density)
        });
    }
    if progress.rough {
        why.push(messages::progress_estimated());
    }
    if progress.give_or_take_mm() >= 5.0 {
        why.push(messages::progress_within(progress.give_or_take_mm(), WITHIN));
    }
    let is_finished = log.warp.wanted_state == ClothState::Finished;
    match (log.warp.wanted_mm, log.warp.shrinkage_percent) {
        (Some(wanted), Some(percent)) if is_finished && percent != 0.0 => {
            let each = &log.warp.wanted_each_mm;
            let (each, mm) = if each.is_empty() {
                (show_length(wanted, format), wanted)
            } else {
                (show_piece_lengths(each, format), each.iter().sum())
            };
            let on_loom = mm / log.warp.woven_to_finished(progress.relaxation.release).ratio();
            why.push(messages::progress_finished_sum(each, on_loom, mm, percent / 100.0));
        }
        (_, None) if is_finished => {
            let by_fibre = progress.wanted_mm.zip(log.warp.usual_wash()).map(|(wanted, loss)| {
                let relaxed = progress.relaxation.release.shrinkage_percent();
                cloth::fibre_loses(wanted, relaxed, loss.usual, loss.least, loss.most)
            });
            why.push(by_fibre.unwrap_or_else(messages::progress_no_loss));
        }
        _ => {}
    }
    why.extend(relaxation_messages(log, progress));
    if progress.minutes > 0.0 {
        why.push(messages::progress_time(count(log.sittings.len()), progress.minutes));
    }
    why
}

/// "31 picks per 10 cm", "8 picks per inch".
#[must_use]
pub fn density_words(per_mm: f64, format: &DisplayFormat) -> String {
    text(&messages::density_in_picks(figure(per_mm, format), picks_unit(format)), format)
}

/// A pick density as a figure in the reader's units.
fn figure(per_mm: f64, format: &DisplayFormat) -> f64 {
    picks_in_units(per_mm * 100.0, format.units)
}

/// The notice as a message.
#[must_use]
pub fn notice_message(notice: &Notice, format: &DisplayFormat) -> Message {
    match notice.kind {
        NoticeKind::Apart { by_tape_mm, by_counts_mm } => messages::notice_apart(by_tape_mm, by_counts_mm),
        NoticeKind::Shrunk { before_mm, now_mm } => messages::notice_shrunk(before_mm, now_mm),
        NoticeKind::Uncounted(sittings) => messages::notice_uncounted(count(sittings)),
        NoticeKind::NoMark => messages::notice_no_mark(),
        NoticeKind::LongerThanWarp { read_mm, wound_mm } => cloth::reading_beyond_warp(read_mm, wound_mm),
        NoticeKind::Creeping { from, to } => {
            let change = if to < from { "loosening" } else { "tightening" };
            messages::notice_beat_changes(change, figure(from, format), density_words(to, format))
        }
        NoticeKind::Jumped { from, to } => {
            messages::notice_beat_jumped(figure(from, format), density_words(to, format))
        }
    }
}

/// What the cloth loses when the tension goes, where a length wanted or a reading depends on it.
fn relaxation_messages(log: &WarpLog, progress: &Progress) -> Vec<Message> {
    let wanted = log.warp.wanted_mm.filter(|_| log.warp.wanted_state == ClothState::OffLoom);
    let is_read = log.sittings.iter().any(|sitting| sitting.tape.is_some_and(|tape| tape.relaxed));
    if wanted.is_none() && !is_read {
        return Vec::new();
    }
    let relaxation = &progress.relaxation;
    let percent = relaxation.release.shrinkage_percent();
    let loses = match relaxation.source {
        RelaxationSource::Pairs(pairs) => cloth::relaxation_from_pairs(percent, count(pairs)),
        RelaxationSource::EarlierWarps(warps) => cloth::relaxation_from_warps(percent, count(warps)),
        RelaxationSource::Assumed => {
            cloth::relaxation_assumed(percent, USUAL_RELAXATION.percent.0, USUAL_RELAXATION.percent.1)
        }
    };
    let needs = wanted.map(|mm| cloth::off_loom_needs(mm, mm / relaxation.release.ratio()));
    needs.into_iter().chain([loses]).collect()
}

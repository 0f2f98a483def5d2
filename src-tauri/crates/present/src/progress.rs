//! How far a warp is, in words: picks, cloth, the place in the repeat, and what was noticed about the figures.

use chrono::NaiveDate;

use crate::dates::DateText;
use crate::figures::{show_length, show_minutes};
use crate::lists_and_numbers::capital;
use crate::view::{Answer, Figures, PlaceView, Standing, WarpState};
use fellmark_model::WarpLog;
use fellmark_model::display_format::{DisplayFormat, Units};
use fellmark_model::forms::picks_in_units;
use fellmark_reports::progress::{Notice, NoticeKind, Progress};

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

    let mut answer = Answer { standing: Standing::Well, ..Answer::default() };
    answer.headline = match (progress.woven, wanted) {
        _ if log.sittings.is_empty() && progress.picks == 0 => match wanted {
            Some(wanted) => format!("Nothing is woven yet; {} are to be woven.", show_length(wanted, format)),
            None => "Nothing is woven yet.".into(),
        },
        (None, _) => {
            format!("{} woven; how long that is will show when you measure once.", picks_words(progress.picks))
        }
        (Some(_), Some(wanted)) if woven >= wanted && log.warp.state == WarpState::OffTheLoom => {
            format!("All {} are woven.", show_length(wanted, format))
        }
        (Some(_), Some(wanted)) if woven >= wanted => {
            format!("All {} are woven: ready to cut off.", show_length(wanted, format))
        }
        (Some(_), Some(wanted)) if progress.rough => {
            format!("About {} of {} are woven.", show_length(woven, format), show_length(wanted, format))
        }
        (Some(_), Some(wanted)) => {
            format!("{} of {} are woven.", show_length(woven, format), show_length(wanted, format))
        }
        (Some(_), None) if progress.rough => format!("About {} are woven.", show_length(woven, format)),
        (Some(_), None) => format!("{} are woven.", show_length(woven, format)),
    };
    if log.warp.state != WarpState::OffTheLoom
        && !progress.rate_measured
        && progress.give_or_take_mm() >= 5.0
        && wanted.is_some_and(|wanted| woven >= wanted)
    {
        answer.more.push(format!(
            "That goes by the picks alone, give or take {}: measure before you cut.",
            show_length(progress.give_or_take_mm(), format)
        ));
    }
    if progress.pieces > 1
        && let Some(wanted) = wanted
        && woven < wanted
        && let Some(at) = progress.piece_at_fell()
    {
        answer.more.push(format!(
            "On piece {} of {}: {} of {}.",
            at.piece + 1,
            progress.pieces,
            show_length(woven - at.begin.mm(), format),
            show_length(at.end.mm() - at.begin.mm(), format)
        ));
    }
    if progress.picks != 0 {
        answer.more.push(format!("{} so far.", picks_words(progress.picks)));
    }
    if let Some(place) = place {
        let piece = place.piece.as_ref().map(|piece| format!(", {piece}")).unwrap_or_default();
        answer.more.push(format!("{}{piece}.", capital(&place.place)));
        answer.more.extend(place.due.as_ref().map(|due| due.sentence.clone()));
        answer.more.extend(place.warning.clone());
    }
    if let Some(last) = log.sittings.last().filter(|last| last.pick_begun && log.running.is_none()) {
        let which = place.map(|place| format!(": {}", place.next)).unwrap_or_default();
        answer.more.push(format!(
            "You got up within a pick, {}. It is begun and not beaten{which}.",
            format.spoken_day(last.on, today)
        ));
    }
    if let Some(last) = log.sittings.last() {
        answer.more.push(format!("Last sitting: {}.", format.spoken_day(last.on, today)));
    }
    for notice in &progress.noticed {
        let day = notice.sitting.and_then(|index| log.sittings.get(index)).map(|s| format.date(s.on, today));
        answer.more.push(notice_sentence(notice, day.as_deref(), format));
        answer.standing = Standing::Close;
    }
    answer.why = why(log, progress, format);
    answer
}

fn picks_words(picks: i64) -> String {
    if picks == 1 { "1 pick".into() } else { format!("{picks} picks") }
}

fn why(log: &WarpLog, progress: &Progress, format: &DisplayFormat) -> Vec<String> {
    let mut why = Vec::new();
    if let Some(rate) = progress.picks_per_mm {
        let density = density_words(rate, format);
        why.push(if progress.rate_measured {
            format!("Measured on this cloth: {density}. The tape is taken first; picks fill in between and after.")
        } else {
            format!("{density} as planned, since nothing is measured on this cloth yet.")
        });
    }
    if progress.rough {
        why.push("Some of it was given as rough, so it is known the less.".into());
    }
    if progress.give_or_take_mm() >= 5.0 {
        why.push(format!(
            "The woven length is known to within {}, four times in five.",
            show_length(progress.give_or_take_mm(), format)
        ));
    }
    if let (Some(wanted), Some(percent)) = (log.warp.wanted_mm, log.warp.shrinkage_percent)
        && log.warp.wanted_state == fellmark_model::ClothState::Finished
        && percent != 0.0
    {
        let (each, mm) = if log.warp.wanted_each_mm.is_empty() {
            (show_length(wanted, format), wanted)
        } else {
            (crate::figures::show_piece_lengths(&log.warp.wanted_each_mm, format), log.warp.wanted_each_mm.iter().sum())
        };
        why.push(format!(
            "{each} finished need {} on the loom: {} \u{f7} (1 \u{2212} {}).",
            show_length(mm / log.warp.woven_to_finished().ratio(), format),
            show_length(mm, format),
            format.number(percent / 100.0, 3)
        ));
    } else if log.warp.wanted_state == fellmark_model::ClothState::Finished && log.warp.shrinkage_percent.is_none() {
        why.push(
            "No loss from the loom to finished is reckoned, because none is given. Most cloth loses some per cent off the loom \
             and in the wash."
                .into(),
        );
    }
    if progress.minutes > 0.0 {
        let sittings = match log.sittings.len() {
            1 => "one sitting".to_owned(),
            many => format!("{many} sittings"),
        };
        why.push(format!("At the loom: {} in {sittings}.", show_minutes(progress.minutes)));
    }
    why
}

/// "31 picks per 10 cm", "8 picks per inch".
#[must_use]
pub fn density_words(per_mm: f64, format: &DisplayFormat) -> String {
    let typed = picks_in_units(per_mm * 100.0, format.units);
    match format.units {
        Units::Metric => format!("{} picks per 10\u{a0}cm", format.number(typed, 1)),
        Units::Imperial => format!("{} picks per inch", format.number(typed, 1)),
    }
}

/// The notice as a sentence; `day` names the sitting it is about.
#[must_use]
pub fn notice_sentence(notice: &Notice, day: Option<&str>, format: &DisplayFormat) -> String {
    let length = |mm: f64| show_length(mm, format);
    let rate = |per_mm: f64| {
        let typed = picks_in_units(per_mm * 100.0, format.units);
        format.number(typed, 1)
    };
    let on = day.map(|day| format!(" ({day})")).unwrap_or_default();
    match notice.kind {
        NoticeKind::Apart { by_tape_mm, by_counts_mm } => format!(
            "The tape says {}, the picks say {}{on}. The tape is used; was it read from the right mark?",
            length(by_tape_mm),
            length(by_counts_mm)
        ),
        NoticeKind::Shrunk { before_mm, now_mm } => format!(
            "The tape said {} before and {} now{on}, though nothing was unwoven. The later reading is used.",
            length(before_mm),
            length(now_mm)
        ),
        NoticeKind::Uncounted(1) => {
            "One sitting since the last measure has neither picks nor a length, so its cloth is missing here.".into()
        }
        NoticeKind::Uncounted(n) => format!(
            "{n} sittings since the last measure have neither picks nor a length, so their cloth is missing here."
        ),
        NoticeKind::NoMark => {
            format!(
                "A length was measured from the last mark{on}, but no mark was set before; it is taken from the start."
            )
        }
        NoticeKind::Creeping { from, to } => {
            format!("The picks creep: {} at first, {} by now. Watch the beat.", rate(from), rate(to))
        }
        NoticeKind::Jumped { from, to } => {
            format!("The last stretch has {} picks where it was {} before. Watch the beat.", rate(to), rate(from))
        }
    }
}

//! What was noted at single moments, and the yarns' ledgers, in words.

use chrono::NaiveDate;
use fellmark_journal::{EntrySet, RecordId};

use crate::dates::DateText;
use crate::figures::{roughly, show_mass, show_measured, show_yarn};
use crate::fill_forms::{optional, show_yarn_form};
use crate::lists_and_numbers::count;
use crate::messages::declared::reach::yarn_possible;
use crate::messages::declared::sittings as messages;
use crate::messages::text;
use crate::tape_and_counts;
use crate::view::{MomentLine, YarnView};
use crate::weft::{half_gone, left_words, yarn_name};
use fellmark_model::commands::{AddedNote, DuringSitting};
use fellmark_model::display_format::DisplayFormat;
use fellmark_model::moments::Moment;
use fellmark_model::{WarpLog, warp_log};
use fellmark_reports::progress::Progress;
use fellmark_reports::weft_ledger::ledgers;

/// What came of it that something was noted, in sentences. `state` is the log with it.
#[must_use]
pub fn noted_sentences(
    state: &EntrySet,
    noted: &AddedNote,
    going: &DuringSitting,
    format: &DisplayFormat,
) -> Vec<String> {
    let running_picks = going.as_ref().map_or(0, |(_, picks)| *picks);
    let mut sentences = Vec::new();
    if let Some(reading) = &noted.reading {
        sentences.extend(tape_and_counts::reading_words(&noted.before, reading, running_picks, format));
    }
    if let Some(mut log) = warp_log(state, &noted.before.warp.id) {
        log.running = going.as_ref().map(|(sitting, _)| sitting.clone());
        sentences.extend(of_yarns(&log, noted, running_picks, format));
    }
    sentences
}

/// What a weighing or a yarn taken up comes to.
fn of_yarns(log: &WarpLog, noted: &AddedNote, running_picks: i64, format: &DisplayFormat) -> Vec<String> {
    let progress = Progress::of(log, running_picks);
    let Ok(all) = ledgers(log, &progress) else { return Vec::new() };
    let mut reported = Vec::new();
    for ledger in &all {
        let weighed = noted.weighed.contains(&ledger.yarn.id);
        let name = yarn_name(ledger.yarn, format);
        if weighed {
            reported.push(match &ledger.left {
                Some(left) => text(&yarn_possible(name.clone(), left.cloth.likely.mm()), format),
                None => text(&messages::yarn_saved(name.clone()), format),
            });
            reported.extend(half_gone(ledger, format));
        }
        if noted.taken_up.as_ref() == Some(&ledger.yarn.id) {
            reported.push(text(&messages::yarn_in_use_from_here(name), format));
        }
    }
    reported
}

/// The yarns' ledgers as they are shown.
#[must_use]
pub fn yarn_views(log: &WarpLog, progress: &Progress, format: &DisplayFormat) -> Vec<YarnView> {
    let Ok(all) = ledgers(log, progress) else { return Vec::new() };
    let view = |ledger: &fellmark_reports::weft_ledger::Ledger<'_>| {
        let mut parts = Vec::new();
        let start = [
            ledger
                .yarn
                .start_mass_g
                .map(|grams| roughly(ledger.yarn.start_mass_rough, &show_mass(grams, format), format)),
            ledger
                .yarn
                .start_length_mm
                .map(|mm| roughly(ledger.yarn.start_length_rough, &show_yarn(mm / 1000.0, format), format)),
        ];
        let start: Vec<String> = start.into_iter().flatten().collect();
        if !start.is_empty() {
            parts.push(text(&messages::yarn_at_first(start.join(", ")), format));
        }
        let last = ledger.last_left.map(|left| messages::yarn_at_last_look(left_words(left, format)));
        parts.extend(last.map(|message| text(&message, format)));
        if ledger.woven_mm > 0.0 {
            parts.push(text(&messages::yarn_woven(ledger.woven_mm), format));
        }
        YarnView {
            id: ledger.yarn.id.to_string(),
            name: yarn_name(ledger.yarn, format),
            line: parts.join("; "),
            reach: ledger
                .left
                .map(|left| text(&messages::yarn_enough_for(left.cloth.likely.mm()), format))
                .unwrap_or_default(),
            half: half_gone(ledger, format),
            share_left: ledger.share_left,
            in_use: ledger.in_use,
            tare: optional(ledger.yarn.tare_g, |grams| show_mass(grams, format)),
            form: show_yarn_form(ledger.yarn, format),
            seen: ledger.yarn.seen.iter().map(ToString::to_string).collect(),
        }
    };
    all.iter().map(view).collect()
}

/// Everything noted at single moments, the latest first.
#[must_use]
pub fn moment_lines(log: &WarpLog, format: &DisplayFormat, today: NaiveDate) -> Vec<MomentLine> {
    let moments = &log.moments;
    let name = |id: &RecordId| {
        let weft = log.wefts.iter().find(|weft| weft.id == *id);
        weft.map_or_else(|| text(&messages::yarn_without_name(), format), |weft| yarn_name(weft, format))
    };
    let mut all: Vec<(&Moment, String)> = Vec::new();
    for reading in &moments.readings {
        let mut parts = Vec::new();
        if let Some(tape) = reading.tape {
            let from = match (tape.from_mark, tape.relaxed) {
                (true, true) => "mark_relaxed",
                (true, false) => "mark",
                (false, true) => "start_relaxed",
                (false, false) => "start",
            };
            let length = roughly(tape.rough, &show_measured(tape.mm, format), format);
            parts.push(text(&messages::moment_tape(from, length), format));
        }
        if reading.mark_set {
            parts.push(text(&messages::moment_mark_moved(), format));
        }
        parts.extend(reading.warp_mark_mm.map(|mm| text(&messages::moment_warp_mark(mm), format)));
        all.push((&reading.when, parts.join("; ")));
    }
    for weighing in &moments.weighings {
        let message = messages::moment_weighed(name(&weighing.weft), left_words(weighing.found, format));
        all.push((&weighing.when, text(&message, format)));
    }
    for join in &moments.joins {
        all.push((&join.when, text(&messages::moment_yarn_in_use(name(&join.weft)), format)));
    }
    for place in &moments.places {
        let part = place.part.word();
        let here = messages::moment_place(part, count(place.row) + 1, count(place.repeat) + 1);
        let here = match log.warp.pieces {
            0 | 1 => here,
            _ => messages::moment_place_in_piece(count(place.piece) + 1, here),
        };
        all.push((&place.when, text(&here, format)));
    }
    all.sort_by(|(a, _), (b, _)| (b.on, &b.first_at, &b.id).cmp(&(a.on, &a.first_at, &a.id)));
    let line = |(when, line): (&Moment, String)| MomentLine {
        record: when.id.to_string(),
        day: format.weekday_date(when.on, today),
        line,
    };
    all.into_iter().map(line).collect()
}

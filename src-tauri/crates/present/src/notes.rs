//! What was noted at single moments, and the yarns' ledgers, in words.

use chrono::NaiveDate;
use fellmark_journal::{EntrySet, RecordId};

use crate::dates::DateText;
use crate::figures::{about_words, show_length, show_mass, show_yarn};
use crate::fill_forms::{optional, show_yarn_form};
use crate::tape_and_counts;
use crate::view::{MomentLine, YarnView};
use crate::weft::{half_gone, left_words};
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
        let name = ledger.name();
        if weighed {
            reported.push(match &ledger.left {
                Some(left) => {
                    format!("{name} is good for some {} more.", show_length(left.cloth.likely.mm(), format))
                }
                None => format!("{name} is noted; how far it goes shows at the next weighing, after some weaving."),
            });
            reported.extend(half_gone(ledger, format));
        }
        if noted.taken_up.as_ref() == Some(&ledger.yarn.id) {
            reported.push(format!("{name} is woven from here."));
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
                .map(|grams| about_words(ledger.yarn.start_mass_rough).to_owned() + &show_mass(grams, format)),
            ledger
                .yarn
                .start_length_mm
                .map(|mm| about_words(ledger.yarn.start_length_rough).to_owned() + &show_yarn(mm / 1000.0, format)),
        ];
        let start: Vec<String> = start.into_iter().flatten().collect();
        if !start.is_empty() {
            parts.push(format!("{} at first", start.join(", ")));
        }
        parts.extend(ledger.last_left.map(|left| format!("{} at the last look", left_words(left, format))));
        if ledger.woven_mm > 0.0 {
            parts.push(format!("{} woven with it", show_length(ledger.woven_mm, format)));
        }
        YarnView {
            id: ledger.yarn.id.to_string(),
            name: ledger.name().to_owned(),
            line: parts.join("; "),
            reach: ledger
                .left
                .map(|left| format!("good for some {} more", show_length(left.cloth.likely.mm(), format)))
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
        weft.and_then(|weft| weft.name.clone()).unwrap_or_else(|| "the weft".into())
    };
    let mut all: Vec<(&Moment, String)> = Vec::new();
    for reading in &moments.readings {
        let mut parts = Vec::new();
        if let Some(tape) = reading.tape {
            let from = if tape.from_mark { "from the mark" } else { "from the start" };
            let relaxed = if tape.relaxed { ", relaxed" } else { "" };
            parts.push(format!("{}{} {from}{relaxed}", about_words(tape.rough), show_length(tape.mm, format)));
        }
        if reading.mark_set {
            parts.push("mark moved to the fell".into());
        }
        parts.extend(
            reading.warp_mark_mm.map(|mm| format!("warp mark tied at {} at the fell", show_length(mm, format))),
        );
        all.push((&reading.when, parts.join("; ")));
    }
    for weighing in &moments.weighings {
        all.push((&weighing.when, format!("{}: {}", name(&weighing.weft), left_words(weighing.found, format))));
    }
    for join in &moments.joins {
        all.push((&join.when, format!("{} taken up", name(&join.weft))));
    }
    for place in &moments.places {
        let piece = if log.warp.pieces > 1 { format!("piece {}, ", place.piece + 1) } else { String::new() };
        let part = match place.part {
            fellmark_model::moments::Part::Opening => "the opening border".to_owned(),
            fellmark_model::moments::Part::Repeat => format!("repeat {}", place.repeat + 1),
            fellmark_model::moments::Part::Balance => "the balance".to_owned(),
            fellmark_model::moments::Part::Closing => "the closing border".to_owned(),
        };
        all.push((&place.when, format!("place set to {piece}pick {} in {part}", place.row + 1)));
    }
    all.sort_by(|(a, _), (b, _)| (b.on, &b.first_at, &b.id).cmp(&(a.on, &a.first_at, &a.id)));
    let line = |(when, line): (&Moment, String)| MomentLine {
        record: when.id.to_string(),
        day: format.weekday_date(when.on, today),
        line,
    };
    all.into_iter().map(line).collect()
}

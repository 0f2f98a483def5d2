//! The place a warp is at.

use fellmark_cloth::sequence::{Section, Where};

use super::instruction::instruction;
use crate::figures::show_length;
use crate::progress::cloth_to_go_mm;
use crate::view::{PlaceDue, PlaceView};
use fellmark_model::WarpLog;
use fellmark_model::display_format::DisplayFormat;
use fellmark_model::forms::PlaceForm;
use fellmark_model::moments::Part;
use fellmark_model::sequence::{positions, same_shed, sequence, spot_now, sticks};
use fellmark_reports::progress::Progress;
use fellmark_reports::remaining_picks::{DueNext, RemainingPicks};

fn picks_words(picks: usize) -> String {
    if picks == 1 { "1 pick".into() } else { format!("{picks} picks") }
}

/// The place a warp is at: what comes next, and where that is. Repeats go on until the weaver says otherwise, so that the
/// closing border never begins by itself; after it the next piece begins.
#[must_use]
pub fn place(log: &WarpLog, progress: &Progress, format: &DisplayFormat) -> Option<PlaceView> {
    let sequence = sequence(&log.warp.rows)?;
    let sticks = sticks(&sequence);
    let (spot, last) = spot_now(log, &sequence, progress.running_picks);
    let piece = (log.warp.pieces > 1).then(|| format!("piece {} of {}", spot.piece + 1, log.warp.pieces));
    let begun = progress.running_picks == 0
        && log.running.is_none()
        && log.sittings.last().is_some_and(|sitting| sitting.pick_begun);
    let mut view = PlaceView {
        last: last.as_ref().map(|row| instruction(row, sticks)),
        next: String::new(),
        then: None,
        place: String::new(),
        left: String::new(),
        piece,
        warning: None,
        due: None,
        begun,
        row: 0,
        rows: 0,
        heddle: None,
        stick: None,
    };
    match spot.at(&sequence) {
        Where::BeforeStart { picks } => {
            let first = sequence.opening.first().or_else(|| sequence.repeat.first())?;
            (view.heddle, view.stick) = positions(first, sticks);
            view.next = instruction(first, sticks);
            view.place = format!("{} before the first", picks_words(usize::try_from(picks).unwrap_or(usize::MAX)));
            (view.row, view.rows) = (1, sequence.opening.len().max(sequence.repeat.len()));
        }
        Where::Weaving(at) => {
            (view.heddle, view.stick) = positions(&at.next, sticks);
            view.next = instruction(&at.next, sticks);
            (view.row, view.rows) = (at.row + 1, at.rows);
            if let Where::Weaving(after) = spot.moved(1, &sequence, log.warp.pieces).at(&sequence) {
                view.then = Some(instruction(&after.next, sticks));
            }
            let remaining = RemainingPicks::in_piece(&sequence, progress, spot);
            let row = view.row;
            let place = match (at.section, at.repeat) {
                (Section::Opening, _) => format!("pick {row} of {} in the opening border", at.rows),
                (Section::Repeat, repeat) => {
                    let cloth = cloth_to_go_mm(progress).map(|mm| show_length(mm, format)).unwrap_or_default();
                    let more = remaining.and_then(|remaining| remaining.repeats()).map(|n| match n {
                        0 => ", likely the last".to_owned(),
                        1 => format!(", about 1 repeat ({cloth}) to go"),
                        n => format!(", about {n} repeats ({cloth}) to go"),
                    });
                    let which = repeat.map_or(0, |repeat| repeat) + 1;
                    format!("pick {row} of {} in repeat {which}{}", at.rows, more.unwrap_or_default())
                }
                (Section::Balance, _) => format!("pick {row} of {} in the balance", at.rows),
                (Section::Closing, _) => format!("pick {row} of {} in the closing border", at.rows),
            };
            view.place = place;
            let of = match at.section {
                Section::Opening => "in the opening border",
                Section::Repeat => "in this repeat",
                Section::Balance => "in the balance",
                Section::Closing => "in the closing border",
            };
            view.left = format!("{} left {of}", picks_words(at.rows - at.row));
            if at.section == Section::Repeat {
                let is_last_piece = spot.piece + 1 >= log.warp.pieces;
                let due = remaining.and_then(|remaining| remaining.due_next(at.row, is_last_piece));
                view.due = due.map(|due| place_due(due, spot.piece, at.repeat.unwrap_or(0)));
            }
            if last.as_ref().is_some_and(|last| same_shed(last, &at.next)) {
                view.warning = Some(
                    "The last pick lies in this same shed and would be pulled out. Weave one in between, or change the                      sequence."
                        .into(),
                );
            }
        }
        Where::Done { .. } => {
            view.next = "the end of the sequence".into();
            view.place = "all rows are woven".into();
        }
    }
    Some(view)
}

/// The offer to go on to what is due; `piece` counts from 0.
fn place_due(due: DueNext, piece: u32, repeats_woven: u64) -> PlaceDue {
    let to = |part: Part, piece: u32, repeat: u64| PlaceForm {
        piece: (piece + 1).to_string(),
        section: part.word().into(),
        repeat: repeat.to_string(),
        row: "1".into(),
    };
    match due {
        DueNext::NextPiece => PlaceDue {
            sentence: "This piece is as long as wanted.".into(),
            words: format!("Begin piece {}", piece + 2),
            to: to(Part::Opening, piece + 1, 1),
        },
        DueNext::Section(part) => {
            let what = if part == Part::Balance { "the balance" } else { "the closing border" };
            PlaceDue {
                sentence: format!("Another whole repeat would be too long: {what} comes now."),
                words: format!("Begin {what}"),
                to: to(part, piece, repeats_woven),
            }
        }
    }
}

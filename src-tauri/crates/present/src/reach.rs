//! Is the warp enough, in words: the answer, what pieces would be within reach, and why.

use fellmark_cloth::Refused;
use fellmark_cloth::learned::RIGID_HEDDLE_DIRECT_WASTE;

use crate::figures::{reads_as_none, show_length_span};
use crate::messages::declared::reach as messages;
use crate::messages::text;
use crate::view::{Answer, Figures, Standing};
use fellmark_model::display_format::DisplayFormat;
use fellmark_model::{ClothState, Message, WarpLog};
use fellmark_reports::progress::Progress;
use fellmark_reports::reach::{
    NotCloth, ReachablePieces, WarpReach, WarpSupply, reachable_pieces, warp_per_100_now, warp_reach,
};

/// A span wider than another by this is seen to be.
const VISIBLY_WIDER: f64 = 1.1;

const WELL: f64 = 0.9;
const CLOSE: f64 = 0.4;
/// A chance above this is too great for a plain no.
const SLIGHT: f64 = 0.1;

/// Whether a "no" has to be "probably not", as it may yet come out the other way.
pub(crate) fn is_no_only_probable(chance: f64) -> bool {
    chance > SLIGHT
}

pub(crate) fn standing(chance: f64) -> Standing {
    match chance {
        c if c >= WELL => Standing::Well,
        c if c >= CLOSE => Standing::Close,
        _ => Standing::Short,
    }
}

/// An answer for which something has to be entered first.
pub(crate) fn missing(what: &Message, remedy: &Message, format: &DisplayFormat) -> Answer {
    Answer { headline: text(what, format), more: vec![text(remedy, format)], ..Answer::default() }
}

pub(crate) fn refused(error: &Refused, format: &DisplayFormat) -> Answer {
    missing(&messages::cannot_calculate(), &messages::because(error.to_string()), format)
}

/// Answers whether the warp is enough, and fills in its figures.
#[must_use]
pub fn warp_answer(log: &WarpLog, progress: &Progress, format: &DisplayFormat, figures: &mut Figures) -> Answer {
    match warp_reach(log, progress) {
        WarpReach::CutOff => {
            Answer { headline: text(&messages::warp_cut_off(), format), standing: Standing::Well, ..Answer::default() }
        }
        WarpReach::WoundUnknown => {
            missing(&messages::warp_wound_unknown(), &messages::warp_wound_unknown_remedy(), format)
        }
        WarpReach::WovenUnknown => missing(&messages::woven_unknown(), &messages::woven_unknown_remedy(), format),
        WarpReach::Refused(error) => refused(&error, format),
        WarpReach::Known(supply) => supply_answer(log, progress, &supply, format, figures),
    }
}

fn supply_answer(
    log: &WarpLog,
    progress: &Progress,
    supply: &WarpSupply,
    format: &DisplayFormat,
    figures: &mut Figures,
) -> Answer {
    figures.warp_left_mm = Some(supply.left.warp.likely.mm());
    figures.cloth_possible_mm = Some(supply.possible_mm);
    figures.warp_chance = supply.chance;
    let possible = show_length_span(supply.possible_mm, format);
    let (standing, headline, more) = match supply.to_weave_mm.zip(supply.chance) {
        None => (Standing::default(), messages::cloth_possible(possible), vec![messages::cloth_possible_remedy()]),
        Some((to_weave, chance)) => {
            let standing = standing(chance);
            let mut more = Vec::new();
            if to_weave > 0.0 {
                more.push(messages::to_weave_and_possible(to_weave, possible));
                more.push(messages::warp_chance(chance));
            }
            if matches!(standing, Standing::Short | Standing::Close) {
                let pieces = reachable_pieces(progress, supply);
                more.extend(pieces.and_then(|pieces| reachable_message(log, progress, pieces, format)));
            }
            (standing, headline(supply, to_weave, chance, format), more)
        }
    };
    let texts = |messages: Vec<Message>| messages.iter().map(|message| text(message, format)).collect();
    Answer {
        headline: text(&headline, format),
        standing,
        more: texts(more),
        why: texts(warp_why(log, progress, supply)),
    }
}

fn headline(supply: &WarpSupply, to_weave_mm: f64, chance: f64, format: &DisplayFormat) -> Message {
    if to_weave_mm <= 0.0 {
        let over = supply.left.cloth.likely.mm().max(0.0);
        let none = reads_as_none(over, format);
        return if none { messages::warp_was_just_enough() } else { messages::warp_was_enough(over) };
    }
    let over = supply.spare_mm().unwrap_or(0.0);
    let (just, probably) = (reads_as_none(over, format), is_no_only_probable(chance));
    match standing(chance) {
        Standing::Well if just => messages::warp_just_enough(),
        Standing::Well => messages::warp_enough(over.max(0.0)),
        Standing::Close if just => messages::warp_tight_none(),
        Standing::Close if over >= 0.0 => messages::warp_tight_over(over),
        Standing::Close => messages::warp_tight_missing(-over),
        _ if just && probably => messages::warp_probably_not_quite_enough(),
        _ if just => messages::warp_not_quite_enough(),
        _ if probably => messages::warp_probably_not_enough((-over).max(0.0)),
        _ => messages::warp_not_enough((-over).max(0.0)),
    }
}

/// What the pieces could be so that the warp is enough nine times in ten; nothing where that is no length.
fn reachable_message(
    log: &WarpLog,
    progress: &Progress,
    pieces: ReachablePieces,
    format: &DisplayFormat,
) -> Option<Message> {
    // As the length was wanted: finished, off the loom, or under tension.
    let finished = |mm: f64| match log.warp.wanted_state {
        ClothState::Finished => {
            messages::size_finished(mm * log.warp.woven_to_finished(progress.relaxation.release).ratio())
        }
        ClothState::OffLoom => messages::size_off_loom(mm * progress.relaxation.release.ratio()),
        ClothState::UnderTension => messages::size_on_loom(mm),
    };
    let number = |count: usize| i64::try_from(count).unwrap_or(i64::MAX);
    match pieces {
        ReachablePieces::Alike { each_mm, .. } if reads_as_none(each_mm, format) => None,
        ReachablePieces::Alike { piece, still_to_weave, each_mm } => {
            let size = finished(each_mm);
            Some(match (progress.pieces, piece, still_to_weave) {
                (0 | 1, ..) => messages::enough_for_piece(WELL, size),
                (_, 0, _) => messages::enough_for_each_piece(WELL, size),
                (_, _, 1) => messages::enough_for_last_piece(WELL, size),
                (_, _, still) => messages::enough_for_pieces_left(WELL, number(still), size),
            })
        }
        // Where it is no piece either, there is nothing to say.
        ReachablePieces::UpTo { reached, next_mm, .. } if reads_as_none(next_mm, format) => {
            (reached > 0).then(|| messages::enough_to_end_of_piece(WELL, number(reached)))
        }
        ReachablePieces::UpTo { reached, next_mm, more_after } => {
            let (piece, size) = (number(reached) + 1, finished(next_mm));
            Some(if more_after {
                messages::enough_up_to_piece_only(WELL, piece, size)
            } else {
                messages::enough_up_to_piece(WELL, piece, size)
            })
        }
    }
}

fn warp_why(log: &WarpLog, progress: &Progress, supply: &WarpSupply) -> Vec<Message> {
    let (warp, shown, for_chance) = (&log.warp, &supply.left, &supply.left_for_chance);
    let per_100 = warp_per_100_now(warp, progress);
    let NotCloth { waste, fringes, gaps } = NotCloth::of_warp(warp);
    let terms = match (fringes.mm() > 0.0, gaps.mm() > 0.0) {
        (true, true) => "both",
        (true, false) => "fringe",
        (false, true) => "gaps",
        (false, false) => "none",
    };
    let mut why = vec![
        messages::warp_left_sum(
            terms,
            warp.wound_mm.unwrap_or(0.0),
            waste.mm(),
            fringes.mm(),
            gaps.mm(),
            supply.warp_in_cloth.mm(),
            progress.woven_mm(),
            per_100 / 100.0,
            shown.warp.likely.mm(),
        ),
        messages::cloth_from_warp_left(shown.cloth.likely.mm(), per_100),
    ];
    let wider = shown.cloth.standard_deviation() > for_chance.cloth.standard_deviation() * VISIBLY_WIDER;
    if wider && progress.to_weave_mm.is_some_and(|mm| mm > 0.0) {
        why.push(messages::span_wider_than_chance(progress.give_or_take_mm()));
    }
    match (progress.warp_mark, warp.warp_per_100) {
        (Some(mark), Some(given)) => {
            why.push(messages::warp_per_100_from_mark_not_given(mark.along_mm, mark.woven_mm, given));
        }
        (Some(mark), None) => why.push(messages::warp_per_100_from_mark(mark.along_mm, mark.woven_mm)),
        (None, None) => why.push(messages::take_up_assumed()),
        (None, Some(_)) => {}
    }
    if warp.waste_mm.is_none() {
        let (least, most) = RIGID_HEDDLE_DIRECT_WASTE.range_mm();
        why.push(messages::waste_assumed(least, most));
    }
    why.push(messages::last_shed());
    why
}

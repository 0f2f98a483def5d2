//! Will the warp reach, in words: the answer, what pieces would be within reach, and why.

use fellmark_cloth::Refused;
use fellmark_cloth::learned::RIGID_HEDDLE_DIRECT_WASTE;

use crate::chances::chance_words;
use crate::figures::show_length;
use crate::lists_and_numbers::{capital, small_number};
use crate::view::{Answer, Figures, Standing};
use fellmark_model::WarpLog;
use fellmark_model::display_format::{DisplayFormat, Units};
use fellmark_reports::progress::Progress;
use fellmark_reports::reach::{
    NotCloth, ReachablePieces, WarpReach, WarpSupply, reachable_pieces, warp_per_100_now, warp_reach,
};

/// A span wider than another by this is seen to be.
const VISIBLY_WIDER: f64 = 1.1;

const WELL: f64 = 0.9;
const CLOSE: f64 = 0.4;
/// A chance above this is too great for "will not".
const SLIGHT: f64 = 0.1;

/// "will", or "will likely" where it may yet come out the other way.
pub(crate) fn will(chance_not: f64) -> &'static str {
    if chance_not > SLIGHT { "will likely" } else { "will" }
}

pub(crate) fn standing(chance: f64) -> Standing {
    match chance {
        c if c >= WELL => Standing::Well,
        c if c >= CLOSE => Standing::Close,
        _ => Standing::Short,
    }
}

pub(crate) fn missing(what: &str, how: &str) -> Answer {
    Answer { headline: format!("{what}."), more: vec![how.to_owned()], ..Answer::default() }
}

pub(crate) fn refused(error: &Refused) -> Answer {
    Answer {
        headline: "This cannot be reckoned yet.".into(),
        more: vec![format!("Because {error}.")],
        ..Answer::default()
    }
}

/// Answers whether the warp reaches, and fills in its figures.
#[must_use]
pub fn warp_answer(log: &WarpLog, progress: &Progress, format: &DisplayFormat, figures: &mut Figures) -> Answer {
    match warp_reach(log, progress) {
        WarpReach::CutOff => {
            Answer { headline: "The warp is cut off.".into(), standing: Standing::Well, ..Answer::default() }
        }
        WarpReach::WoundUnknown => missing(
            "How much warp was wound is not known",
            "Give it under \u{201c}change the warp\u{201d}, roughly if need be.",
        ),
        WarpReach::WovenUnknown => {
            missing("How much cloth there is is not known yet", "Measure once, or give the picks per length.")
        }
        WarpReach::Refused(error) => refused(&error),
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
    let mut answer = Answer::default();
    if let Some((to_weave, chance)) = supply.to_weave_mm.zip(supply.chance) {
        answer.standing = standing(chance);
        answer.headline = headline(supply, to_weave, chance, format);
        if to_weave > 0.0 {
            answer.more.push(format!(
                "{} are to be woven; {} are still possible.",
                show_length(to_weave, format),
                between(supply.possible_mm, format)
            ));
            answer.more.push(reach_words(chance));
        }
        if answer.standing == Standing::Short || answer.standing == Standing::Close {
            let pieces = reachable_pieces(progress, supply);
            answer.more.extend(pieces.and_then(|pieces| reachable_words(log, progress, pieces, format)));
        }
    } else {
        answer.headline = format!("{} of cloth are still possible.", capital(&between(supply.possible_mm, format)));
        answer.more.push("Give the length wanted to know whether that is enough.".into());
    }
    answer.why = warp_why(log, progress, supply, format);
    answer
}

fn headline(supply: &WarpSupply, to_weave_mm: f64, chance: f64, format: &DisplayFormat) -> String {
    let length = |mm: f64| show_length(mm, format);
    if to_weave_mm <= 0.0 {
        let left = supply.left.warp.likely.mm().max(0.0);
        let left = if is_none(left, format) { "nothing is".to_owned() } else { format!("some {} are", length(left)) };
        return format!("The warp reached; {left} left over.");
    }
    let over = supply.spare_mm().unwrap_or(0.0);
    match standing(chance) {
        Standing::Well if is_none(over, format) => "The warp will just reach.".into(),
        Standing::Close if is_none(over, format) => {
            "The warp should just reach, with nothing to spare, not surely.".into()
        }
        Standing::Short if is_none(over, format) => format!("The warp {} not quite reach.", will(chance)),
        Standing::Well => format!("The warp will reach, with some {} of cloth to spare.", length(over.max(0.0))),
        Standing::Close if over >= 0.0 => {
            format!("The warp should just reach: some {} of cloth to spare, not surely.", length(over))
        }
        Standing::Close => format!("The warp may fall short by some {}.", length(-over)),
        _ => {
            let missing = length((-over).max(0.0));
            format!("The warp {} not reach: some {missing} of cloth are missing.", will(chance))
        }
    }
}

fn reach_words(chance: f64) -> String {
    match chance_words(chance).as_str() {
        "almost surely" => "That is almost sure.".into(),
        "hardly at all" => "There is hardly a chance that it reaches.".into(),
        words => format!("It reaches {words}."),
    }
}

/// Whether a length is none to a tape.
pub(crate) fn is_none(mm: f64, format: &DisplayFormat) -> bool {
    show_length(mm.abs(), format) == show_length(0.0, format)
}

/// A length within a sum: to the millimetre, since a sum of lengths as a tape is read need not add up.
pub(crate) fn in_a_sum(mm: f64, format: &DisplayFormat) -> String {
    match format.units {
        Units::Metric => format!("{}\u{a0}cm", format.number(mm / 10.0, 1)),
        Units::Imperial => show_length(mm, format),
    }
}

/// "between 95 and 120 cm", each with its unit.
pub(crate) fn between([low, _, high]: [f64; 3], format: &DisplayFormat) -> String {
    let (low, high) = (show_length(low, format), show_length(high, format));
    if low == high { low } else { format!("between {low} and {high}") }
}

/// What the pieces could be so that the warp reaches nine times in ten; nothing where that is no length.
fn reachable_words(
    log: &WarpLog,
    progress: &Progress,
    pieces: ReachablePieces,
    format: &DisplayFormat,
) -> Option<String> {
    let finished = |mm: f64| show_length(mm * log.warp.woven_to_finished().ratio(), format);
    match pieces {
        ReachablePieces::Alike { piece, still_to_weave, each_mm } => {
            let of = |what: &str| format!("{what} of {} finished would reach nine times in ten.", finished(each_mm));
            (!is_none(each_mm, format)).then(|| match (progress.pieces, piece, still_to_weave) {
                (0 | 1, ..) => of("A piece"),
                (_, 0, _) => of("Each piece"),
                (_, _, 1) => of("A last piece"),
                (_, _, still) => format!(
                    "The warp would reach nine times in ten if each of the {} pieces still to be woven were {} finished.",
                    small_number(still as i64),
                    finished(each_mm)
                ),
            })
        }
        // Where it is no piece either, there is nothing to say.
        ReachablePieces::UpTo { reached, next_mm, .. } if is_none(next_mm, format) => {
            (reached > 0).then(|| format!("The warp would reach to the end of piece {reached} nine times in ten."))
        }
        ReachablePieces::UpTo { reached, next_mm, more_after } => {
            let after = if more_after { ", and nothing after it" } else { "" };
            Some(format!(
                "Piece {} would reach nine times in ten at {} finished{after}.",
                reached + 1,
                finished(next_mm)
            ))
        }
    }
}

fn warp_why(log: &WarpLog, progress: &Progress, supply: &WarpSupply, format: &DisplayFormat) -> Vec<String> {
    let (warp, shown, for_chance) = (&log.warp, &supply.left, &supply.left_for_chance);
    let length = |mm: f64| show_length(mm, format);
    let per_100 = warp_per_100_now(warp, progress);
    let mut why = Vec::new();
    let NotCloth { waste, fringes, gaps } = NotCloth::of_warp(warp);
    let sum = |mm: f64| in_a_sum(mm, format);
    let term = |mm: f64, what: &str| if mm > 0.0 { format!(" \u{2212} {} {what}", sum(mm)) } else { String::new() };
    let fringe_term = term(fringes.mm(), "fringe") + &term(gaps.mm(), "between pieces");
    why.push(format!(
        "{} wound \u{2212} {} loom waste{fringe_term} \u{2212} {} in the cloth ({} woven \u{d7} {}) = {} of warp left.",
        sum(warp.wound_mm.unwrap_or(0.0)),
        sum(waste.mm()),
        sum(supply.warp_in_cloth.mm()),
        sum(progress.woven_mm()),
        format.number(per_100 / 100.0, 3),
        sum(shown.warp.likely.mm())
    ));
    why.push(format!(
        "That makes {} of cloth, as 100 of cloth use {} of warp.",
        length(shown.cloth.likely.mm()),
        format.number(per_100, 1)
    ));
    let wider = shown.cloth.standard_deviation() > for_chance.cloth.standard_deviation() * VISIBLY_WIDER;
    if wider && progress.to_weave_mm.is_some_and(|mm| mm > 0.0) {
        why.push(format!(
            "The span of what is still possible is the wider because the woven length is known to within {} only. The chance is \
             not the less for it: were more woven, less would be left to weave.",
            length(progress.give_or_take_mm())
        ));
    }
    if let Some(mark) = progress.warp_mark {
        why.push(format!(
            "A warp mark tied at {} reached the fell after {} of cloth, so that is what this cloth takes{}.",
            length(mark.along_mm),
            length(mark.woven_mm),
            warp.warp_per_100.map(|given| format!(" (given was {})", format.number(given, 1))).unwrap_or_default()
        ));
    } else if warp.warp_per_100.is_none() {
        why.push(
            "No take-up is given, so a tenth is reckoned (common practice, no source). The span is wider for it."
                .into(),
        );
    }
    if warp.waste_mm.is_none() {
        let (low, high) = RIGID_HEDDLE_DIRECT_WASTE.range_mm();
        why.push(format!(
            "No loom waste is given, so {} to {} are reckoned, as usual on a rigid heddle (common practice, no source).",
            length(low),
            length(high)
        ));
    }
    why.push("The last usable shed ends some way before the heddle; keep a hand's breadth for it.".into());
    why
}

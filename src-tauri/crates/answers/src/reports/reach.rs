//! Will it reach: warp left and weft left against what is still to be woven, each as a chance and a span.

use fellmark_cloth::Refused;
use fellmark_cloth::change::{Crimp, WarpUse};
use fellmark_cloth::left::{WarpLeft, WarpMark, WarpOnLoom, reach};
use fellmark_cloth::quantity::{LengthBalance, Quantity};
use fellmark_cloth::span::{Coverage, Estimate};
use fellmark_cloth::state::{WarpLength, WovenLength};

use crate::model::display_format::{DisplayFormat, Units};
use crate::model::measures::show_length;
use crate::model::{Warp, WarpLog};
use crate::present::finish_date::chance_words;
use crate::present::view::{Answer, Figures, Standing, WarpState};
use crate::present::words::{capital, small_number};
use crate::reports::progress::Progress;

/// Loom waste where none is given: rigid heddle, warped directly, 18 to 22 inches (common practice, no source).
pub const USUAL_WASTE_MM: (f64, f64) = (457.2, 558.8);
/// Warp that 100 of cloth uses where nothing is given, and how far off that may be (common practice, no source).
pub const USUAL_WARP_PER_100: f64 = 110.0;
const USUAL_TAKE_UP_DEVIATION: f64 = 0.04;
/// How far off a take-up may be that she gave, as a share of cloth.
const GIVEN_TAKE_UP_DEVIATION: f64 = 0.02;
/// How far off the length wound may be.
const WOUND_DEVIATION_SHARE: f64 = 0.01;
/// How far off the waste may be that she gave.
const WASTE_DEVIATION_SHARE: f64 = 0.10;
/// A span wider than another by this is seen to be.
const VISIBLY_WIDER: f64 = 1.1;
/// What a pick is longer than the reed width where nothing is given: a tenth (common practice, no source).
pub const USUAL_ALLOWANCE_PERCENT: f64 = 10.0;

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

/// Units of warp for 100 of cloth that the reckoning uses.
#[must_use]
pub fn warp_per_100(warp: &Warp) -> f64 {
    warp.warp_per_100.unwrap_or(USUAL_WARP_PER_100)
}

/// Loom waste that the reckoning uses, millimetres.
#[must_use]
pub fn waste_mm(warp: &Warp) -> f64 {
    warp.waste_mm.unwrap_or(f64::midpoint(USUAL_WASTE_MM.0, USUAL_WASTE_MM.1))
}

/// Warp that becomes fringe and is not already reckoned in the waste, millimetres.
#[must_use]
pub fn fringe_mm(warp: &Warp) -> f64 {
    let all = warp.fringe_mm * 2.0 * f64::from(warp.pieces);
    if warp.fringe_from_waste { (all - (warp.fringe_mm * 2.0).min(waste_mm(warp))).max(0.0) } else { all }
}

/// Warp between pieces besides their fringes, all gaps together, millimetres.
#[must_use]
pub fn gaps_mm(warp: &Warp) -> f64 {
    warp.gap_mm * f64::from(warp.pieces.saturating_sub(1))
}

/// How far along the warp a mark can be tied wrongly, one time in three: a thread on a warp end, measured while warping.
const WARP_MARK_DEVIATION_MM: f64 = 5.0;

/// The last warp mark that reached the fell: warp used for cloth alone, gaps between pieces left out, against cloth woven.
fn warp_mark(warp: &Warp, progress: &Progress) -> Option<WarpMark> {
    let reached = progress.warp_mark?;
    let pieces_done = progress.piece_at(reached.woven_mm).map_or(0, |(piece, ..)| piece);
    let gaps = pieces_done as f64 * (2.0 * warp.fringe_mm + warp.gap_mm);
    Some(WarpMark {
        along: WarpLength::from_mm(reached.along_mm - gaps).ok().filter(|along| along.mm() > 0.0)?,
        woven: WovenLength::from_mm(reached.woven_mm).ok()?,
        along_deviation_mm: WARP_MARK_DEVIATION_MM,
        woven_deviation_mm: reached.woven_sd_mm,
    })
}

/// Units of warp for 100 of cloth by now: what a warp mark showed at the fell, else as given.
#[must_use]
pub fn warp_per_100_now(warp: &Warp, progress: &Progress) -> f64 {
    let shown = warp_mark(warp, progress).and_then(|mark| mark.warp_use().ok());
    shown.map_or_else(|| warp_per_100(warp), |(used, _)| 100.0 + used.crimp().percent())
}

fn on_loom(warp: &Warp, progress: &Progress) -> Result<Option<WarpOnLoom>, Refused> {
    let Some(wound_mm) = warp.wound_mm else { return Ok(None) };
    let waste = match warp.waste_mm {
        Some(mm) => Estimate::even(WarpLength::from_mm(mm)?, mm * WASTE_DEVIATION_SHARE),
        None => Estimate::from_range(WarpLength::from_mm(USUAL_WASTE_MM.0)?, WarpLength::from_mm(USUAL_WASTE_MM.1)?),
    };
    let not_cloth = WarpLength::from_mm(waste.likely.mm() + fringe_mm(warp) + gaps_mm(warp))?;
    let deviation = if warp.warp_per_100.is_some() { GIVEN_TAKE_UP_DEVIATION } else { USUAL_TAKE_UP_DEVIATION };
    Ok(Some(WarpOnLoom {
        wound: Estimate::even(WarpLength::from_mm(wound_mm)?, wound_mm * WOUND_DEVIATION_SHARE),
        not_cloth: Estimate::even(not_cloth, waste.standard_deviation()),
        warp_use: WarpUse::from_crimp(Crimp::from_percent(warp_per_100(warp) - 100.0)?),
        warp_use_deviation: deviation,
        mark: warp_mark(warp, progress),
    }))
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
    if log.warp.state == WarpState::OffTheLoom {
        return Answer { headline: "The warp is cut off.".into(), standing: Standing::Well, ..Answer::default() };
    }
    let loom = match on_loom(&log.warp, progress) {
        Ok(Some(loom)) => loom,
        Ok(None) => {
            return missing(
                "How much warp was wound is not known",
                "Give it under \u{201c}change the warp\u{201d}, roughly if need be.",
            );
        }
        Err(error) => return refused(&error),
    };
    let Some(woven) = progress.woven else {
        return missing("How much cloth there is is not known yet", "Measure once, or give the picks per length.");
    };
    match (loom.left(&woven), loom.left(&Estimate::exact(woven.likely))) {
        (Ok(shown), Ok(for_chance)) => warp_told(log, progress, (&shown, &for_chance), format, figures),
        (Err(error), _) | (_, Err(error)) => refused(&error),
    }
}

fn warp_told(
    log: &WarpLog,
    progress: &Progress,
    (shown, for_chance): (&WarpLeft, &WarpLeft),
    format: &DisplayFormat,
    figures: &mut Figures,
) -> Answer {
    let length = |mm: f64| show_length(mm, format);
    let span = shown.cloth.span(Coverage::FOUR_IN_FIVE);
    let possible = [span.low.mm(), span.likely.mm(), span.high.mm()].map(|mm| mm.max(0.0));
    figures.warp_left_mm = Some(shown.warp.likely.mm());
    figures.cloth_possible_mm = Some(possible);
    let mut answer = Answer::default();
    if let Some(to_weave) = progress.to_weave_mm {
        let to_weave = to_weave.max(0.0);
        // What is uncertain about the cloth woven cancels out: more of it means less to weave and less warp left alike.
        let needed = WovenLength::nearest(to_weave);
        let chance = if to_weave <= 0.0 { 1.0 } else { reach(&for_chance.cloth, needed).chance };
        figures.warp_chance = Some(chance);
        answer.standing = standing(chance);
        let over = shown.cloth.likely.mm() - to_weave;
        answer.headline = if to_weave <= 0.0 {
            let left = shown.warp.likely.mm().max(0.0);
            let left =
                if is_none(left, format) { "nothing is".to_owned() } else { format!("some {} are", length(left)) };
            format!("The warp reached; {left} left over.")
        } else {
            match answer.standing {
                Standing::Well if is_none(over, format) => "The warp will just reach.".into(),
                Standing::Close if is_none(over, format) => {
                    "The warp should just reach, with nothing to spare, not surely.".into()
                }
                Standing::Short if is_none(over, format) => format!("The warp {} not quite reach.", will(chance)),
                Standing::Well => {
                    format!("The warp will reach, with some {} of cloth to spare.", length(over.max(0.0)))
                }
                Standing::Close if over >= 0.0 => {
                    format!("The warp should just reach: some {} of cloth to spare, not surely.", length(over))
                }
                Standing::Close => format!("The warp may fall short by some {}.", length(-over)),
                _ => {
                    let missing = length((-over).max(0.0));
                    format!("The warp {} not reach: some {missing} of cloth are missing.", will(chance))
                }
            }
        };
        if to_weave > 0.0 {
            answer.more.push(format!(
                "{} are to be woven; {} are still possible.",
                length(to_weave),
                between(possible, format)
            ));
            answer.more.push(reach_words(chance));
        }
        if answer.standing == Standing::Short || answer.standing == Standing::Close {
            // For the same reason as the chance: however much of it is woven, the whole is not the longer for it.
            let low = for_chance.cloth.span(Coverage::FOUR_IN_FIVE).low.mm().max(0.0);
            answer.more.extend(shorter(log, progress, low, format));
        }
    } else {
        answer.headline = format!("{} of cloth are still possible.", capital(&between(possible, format)));
        answer.more.push("Give the length wanted to know whether that is enough.".into());
    }
    answer.why = warp_why(log, progress, (shown, for_chance), format);
    answer
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

/// What a piece could be so that the warp reaches nine times in ten, `low_mm` more being possible as often. What is woven stays as
/// long as it is.
fn shorter(log: &WarpLog, progress: &Progress, low_mm: f64, format: &DisplayFormat) -> Option<String> {
    let finished = |mm: f64| show_length(mm * log.warp.finished_ratio(), format);
    let (piece, from, _) = progress.piece_at(progress.woven_mm())?;
    let still = progress.piece_ends_mm.len().saturating_sub(piece);
    let whole = progress.woven_mm() + low_mm;
    let each = (whole - from) / still.max(1) as f64;
    if !progress.pieces_are_alike() || each < progress.woven_mm() - from {
        return last_piece(progress, whole, finished, format);
    }
    let of = |what: &str| format!("{what} of {} finished would reach nine times in ten.", finished(each));
    (!is_none(each, format)).then(|| match (progress.pieces, piece, still) {
        (0 | 1, ..) => of("A piece"),
        (_, 0, _) => of("Each piece"),
        (_, _, 1) => of("A last piece"),
        (_, _, still) => format!(
            "The warp would reach nine times in ten if each of the {} pieces still to be woven were {} finished.",
            small_number(still as i64),
            finished(each)
        ),
    })
}

/// Pieces that are not alike: up to which one the warp reaches nine times in ten, and how long that one could be.
fn last_piece(
    progress: &Progress,
    whole_mm: f64,
    finished: impl Fn(f64) -> String,
    format: &DisplayFormat,
) -> Option<String> {
    let ends = &progress.piece_ends_mm;
    let reached = ends.iter().filter(|end| **end <= whole_mm).count();
    if reached >= ends.len() {
        return None;
    }
    let before = reached.checked_sub(1).and_then(|last| ends.get(last)).copied().unwrap_or(0.0);
    let rest = whole_mm - before;
    if is_none(rest, format) {
        // Where it is no piece either, there is nothing to say.
        return (reached > 0).then(|| format!("The warp would reach to the end of piece {reached} nine times in ten."));
    }
    let after = if reached + 1 < ends.len() { ", and nothing after it" } else { "" };
    Some(format!("Piece {} would reach nine times in ten at {} finished{after}.", reached + 1, finished(rest)))
}

fn warp_why(
    log: &WarpLog,
    progress: &Progress,
    (shown, for_chance): (&WarpLeft, &WarpLeft),
    format: &DisplayFormat,
) -> Vec<String> {
    let warp = &log.warp;
    let length = |mm: f64| show_length(mm, format);
    let per_100 = warp_per_100_now(warp, progress);
    let mut why = Vec::new();
    let waste = waste_mm(warp);
    let fringes = fringe_mm(warp);
    let used = progress.woven_mm() * per_100 / 100.0;
    let sum = |mm: f64| in_a_sum(mm, format);
    let term = |mm: f64, what: &str| if mm > 0.0 { format!(" \u{2212} {} {what}", sum(mm)) } else { String::new() };
    let fringe_term = term(fringes, "fringe") + &term(gaps_mm(warp), "between pieces");
    why.push(format!(
        "{} wound \u{2212} {} loom waste{fringe_term} \u{2212} {} in the cloth ({} woven \u{d7} {}) = {} of warp left.",
        sum(warp.wound_mm.unwrap_or(0.0)),
        sum(waste),
        sum(used),
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
        why.push(format!(
            "No loom waste is given, so {} to {} are reckoned, as usual on a rigid heddle (common practice, no source).",
            length(USUAL_WASTE_MM.0),
            length(USUAL_WASTE_MM.1)
        ));
    }
    why.push("The last usable shed ends some way before the heddle; keep a hand's breadth for it.".into());
    why
}

/// Whether an estimate of cloth is negative, for the picture's shortfall.
#[must_use]
pub fn warp_balance_mm(warp: &Warp, progress: &Progress) -> Option<f64> {
    let loom = on_loom(warp, progress).ok()??;
    let wanted = progress.wanted_mm?;
    let cloth_mm = wanted.max(progress.woven_mm());
    let warp_use = match loom.mark {
        Some(mark) => mark.warp_use().ok()?.0,
        None => loom.warp_use,
    };
    let needed = warp_use.yarn_for(WovenLength::from_mm(cloth_mm).ok()?).ok()?;
    let balance = LengthBalance::from_mm(loom.wound.likely.mm() - loom.not_cloth.likely.mm() - needed.mm()).ok()?;
    Some(balance.mm())
}

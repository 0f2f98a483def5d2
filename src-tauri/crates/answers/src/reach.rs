//! Will it reach: warp left and weft left against what is still to be woven, each as a chance and a span.

use fellmark_cloth::Refused;
use fellmark_cloth::change::{Allowance, Crimp, WarpUse};
use fellmark_cloth::left::{
    Habits, ScaleReading, WarpLeft, WarpOnLoom, WeftLeft, length_from_label, reach, weft_left_by_length,
    weft_left_by_scale,
};
use fellmark_cloth::quantity::{Length, LengthBalance, Mass, Quantity, YarnNumber};
use fellmark_cloth::span::{Coverage, Estimate};
use fellmark_cloth::state::{PicksIn, ReedWidth, UnderTension, WarpLength, WovenLength};
use fellmark_cloth::weft::{pick_from_reed, weft_yarn};

use crate::manner::Manner;
use crate::measures::{show_length, show_mass, show_yarn};
use crate::model::{Warp, WarpLog};
use crate::progress::Progress;
use crate::view::{Answer, Figures, Standing};
use crate::when::chance_words;

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
/// What a pick is longer than the reed width where nothing is given: a tenth (common practice, no source).
pub const USUAL_ALLOWANCE_PERCENT: f64 = 10.0;

const WELL: f64 = 0.9;
const CLOSE: f64 = 0.4;

fn standing(chance: f64) -> Standing {
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

fn on_loom(warp: &Warp) -> Result<Option<WarpOnLoom>, Refused> {
    let Some(wound_mm) = warp.wound_mm else { return Ok(None) };
    let waste = match warp.waste_mm {
        Some(mm) => Estimate::even(WarpLength::from_mm(mm)?, mm * WASTE_DEVIATION_SHARE),
        None => Estimate::from_range(WarpLength::from_mm(USUAL_WASTE_MM.0)?, WarpLength::from_mm(USUAL_WASTE_MM.1)?),
    };
    let not_cloth = WarpLength::from_mm(waste.likely.mm() + fringe_mm(warp))?;
    let deviation = if warp.warp_per_100.is_some() { GIVEN_TAKE_UP_DEVIATION } else { USUAL_TAKE_UP_DEVIATION };
    Ok(Some(WarpOnLoom {
        wound: Estimate::even(WarpLength::from_mm(wound_mm)?, wound_mm * WOUND_DEVIATION_SHARE),
        not_cloth: Estimate::even(not_cloth, waste.standard_deviation()),
        warp_use: WarpUse::from_crimp(Crimp::from_percent(warp_per_100(warp) - 100.0)?),
        warp_use_deviation: deviation,
        mark: None,
    }))
}

fn missing(what: &str, how: &str) -> Answer {
    Answer { headline: format!("{what}."), more: vec![how.to_owned()], ..Answer::default() }
}

fn refused(error: &Refused) -> Answer {
    Answer {
        headline: "This cannot be reckoned yet.".into(),
        more: vec![format!("Because {error}.")],
        ..Answer::default()
    }
}

/// Answers whether the warp reaches, and fills in its figures.
#[must_use]
pub fn warp_answer(log: &WarpLog, progress: &Progress, manner: &Manner, figures: &mut Figures) -> Answer {
    let loom = match on_loom(&log.warp) {
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
        (Ok(shown), Ok(for_chance)) => warp_told(log, progress, (&shown, &for_chance), manner, figures),
        (Err(error), _) | (_, Err(error)) => refused(&error),
    }
}

fn warp_told(
    log: &WarpLog,
    progress: &Progress,
    (shown, for_chance): (&WarpLeft, &WarpLeft),
    manner: &Manner,
    figures: &mut Figures,
) -> Answer {
    let length = |mm: f64| show_length(mm, manner);
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
            format!("The warp reached; some {} are left over.", length(shown.warp.likely.mm().max(0.0)))
        } else {
            match answer.standing {
                Standing::Well => {
                    format!("The warp will reach, with some {} of cloth to spare.", length(over.max(0.0)))
                }
                Standing::Close if over >= 0.0 => {
                    format!("The warp should just reach: some {} of cloth to spare, not surely.", length(over))
                }
                Standing::Close => format!("The warp may fall short by some {}.", length(-over)),
                _ => format!("The warp will not reach: some {} of cloth are missing.", length((-over).max(0.0))),
            }
        };
        if to_weave > 0.0 {
            answer.more.push(format!(
                "{} are to be woven; {} are still possible.",
                length(to_weave),
                between(possible, manner)
            ));
            answer.more.push(reach_words(chance));
        }
        if answer.standing == Standing::Short || answer.standing == Standing::Close {
            answer.more.extend(shorter(log, progress, possible[0], manner));
        }
    } else {
        answer.headline = format!("{} of cloth are still possible.", capital(&between(possible, manner)));
        answer.more.push("Give the length wanted to know whether that is enough.".into());
    }
    answer.why = warp_why(log, progress, shown, manner);
    answer
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map(|c| c.to_uppercase().to_string()).unwrap_or_default() + letters.as_str()
}

fn reach_words(chance: f64) -> String {
    match chance_words(chance).as_str() {
        "almost surely" => "That is almost sure.".into(),
        "hardly at all" => "There is hardly a chance that it reaches.".into(),
        words => format!("It reaches {words}."),
    }
}

/// "between 95 and 120 cm", each with its unit.
fn between([low, _, high]: [f64; 3], manner: &Manner) -> String {
    let (low, high) = (show_length(low, manner), show_length(high, manner));
    if low == high { low } else { format!("between {low} and {high}") }
}

/// What each piece could be so that it surely reaches.
fn shorter(log: &WarpLog, progress: &Progress, surely_mm: f64, manner: &Manner) -> Option<String> {
    let pieces = f64::from(progress.pieces.max(1));
    let each = (progress.woven_mm() + surely_mm) / pieces;
    let finished = each * log.warp.finished_ratio();
    let what = if progress.pieces > 1 { "Each piece" } else { "A piece" };
    (finished > 0.0).then(|| format!("{what} of {} finished would surely reach.", show_length(finished, manner)))
}

fn warp_why(log: &WarpLog, progress: &Progress, shown: &WarpLeft, manner: &Manner) -> Vec<String> {
    let warp = &log.warp;
    let length = |mm: f64| show_length(mm, manner);
    let per_100 = warp_per_100(warp);
    let mut why = Vec::new();
    let waste = waste_mm(warp);
    let fringes = fringe_mm(warp);
    let used = progress.woven_mm() * per_100 / 100.0;
    let fringe_term = if fringes > 0.0 { format!(" \u{2212} {} fringe", length(fringes)) } else { String::new() };
    why.push(format!(
        "{} wound \u{2212} {} loom waste{fringe_term} \u{2212} {} in the cloth ({} woven \u{d7} {}) = {} of warp left.",
        length(warp.wound_mm.unwrap_or(0.0)),
        length(waste),
        length(used),
        length(progress.woven_mm()),
        manner.number(per_100 / 100.0, 3),
        length(shown.warp.likely.mm())
    ));
    why.push(format!(
        "That makes {} of cloth, as 100 of cloth use {} of warp.",
        length(shown.cloth.likely.mm()),
        manner.number(per_100, 1)
    ));
    if warp.warp_per_100.is_none() {
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

/// Answers whether the weft lasts, and fills in its figures.
#[must_use]
pub fn weft_answer(log: &WarpLog, progress: &Progress, manner: &Manner, figures: &mut Figures) -> Answer {
    let Some(weft) = log.wefts.first() else {
        return missing(
            "No weft is written down",
            "Give its weight or its length under \u{201c}change the warp\u{201d}.",
        );
    };
    let needed_m = needed_yarn_m(&log.warp, progress);
    figures.weft_needed_m = needed_m;
    match weft_left(log, progress) {
        Ok(Some(known)) => weft_told(&known, progress, needed_m, manner, figures),
        Ok(None) => {
            let mut answer = missing(
                "How far the weft goes is not known yet",
                if weft.start_mass_g.is_some() {
                    "Weigh what is left once after some weaving; what this cloth takes follows from it."
                } else {
                    "Give its weight or length, and the width in the reed."
                },
            );
            if let Some(metres) = needed_m {
                answer.more.push(format!("About {} of yarn are still needed.", show_yarn(metres, manner)));
            }
            answer
        }
        Err(error) => refused(&error),
    }
}

/// Yarn that the picks still to weave take, metres; nothing without a width.
fn needed_yarn_m(warp: &Warp, progress: &Progress) -> Option<f64> {
    let pick = pick_length(warp)?;
    let yarn = weft_yarn(progress.to_weave_picks?.max(0.0), pick).ok()?;
    Some(yarn.m())
}

fn pick_length(warp: &Warp) -> Option<fellmark_cloth::state::PickLength> {
    let reed = ReedWidth::from_mm(warp.reed_width_mm?).ok()?;
    let allowance = Allowance::from_percent(warp.weft_allowance_percent.unwrap_or(USUAL_ALLOWANCE_PERCENT)).ok()?;
    pick_from_reed(reed, allowance).ok()
}

struct WeftKnown {
    left: WeftLeft,
    why: Vec<KnownBy>,
}

enum KnownBy {
    Scale { start_g: f64, now_g: f64, woven_mm: f64 },
    Length { start_mm: f64, used_mm: f64, pick_mm: f64 },
    Label,
}

/// Weft left: by the scale where it was weighed on this cloth, else by its length.
fn weft_left(log: &WarpLog, progress: &Progress) -> Result<Option<WeftKnown>, Refused> {
    let habits = Habits::default();
    let rate = progress.picks_per_mm.and_then(|rate| PicksIn::<UnderTension>::from_per_10cm(rate * 100.0).ok());
    let Some(weft) = log.wefts.first() else { return Ok(None) };
    if let Some(by_scale) = by_scale(log, progress, rate, &habits)? {
        return Ok(Some(by_scale));
    }
    let (Some(pick), Some(rate)) = (pick_length(&log.warp), rate) else { return Ok(None) };
    let Some(start_mm) = weft.start_length_mm else { return Ok(None) };
    let used_mm = progress.picks.max(0) as f64 * pick.mm();
    let yarn = match weft.start_mass_g {
        Some(mass) => Some(YarnNumber::from_measured(Length::from_mm(start_mm)?, Mass::from_g(mass)?)?),
        None => None,
    };
    let left_mm = (start_mm - used_mm).max(0.0);
    // The start is known as a label or a niddy-noddy knows it, what was used as well as a pick is known.
    let sd = (start_mm * habits.label_share).hypot(used_mm * habits.pick_share);
    let left = Estimate::even(Length::from_mm(left_mm)?, sd);
    let told = weft_left_by_length(&left, yarn, pick, rate, Length::ZERO, &habits)?;
    Ok(Some(WeftKnown { left: told, why: vec![KnownBy::Length { start_mm, used_mm, pick_mm: pick.mm() }] }))
}

/// By the scale: the first and the last weighing with cloth between them, then what was woven since.
fn by_scale(
    log: &WarpLog,
    progress: &Progress,
    rate: Option<PicksIn<UnderTension>>,
    habits: &Habits,
) -> Result<Option<WeftKnown>, Refused> {
    let weft = log.wefts.first();
    let mut weighings: Vec<(f64, f64)> =
        weft.and_then(|weft| weft.start_mass_g).map(|mass| (mass, 0.0)).into_iter().collect();
    for (sitting, (_, end_mm)) in log.sittings.iter().zip(&progress.stretches) {
        if let Some(mass) = sitting.weft_left_g {
            weighings.push((mass, *end_mm));
        }
    }
    let (Some((start_g, start_mm)), Some((now_g, now_mm))) = (weighings.first().copied(), weighings.last().copied())
    else {
        return Ok(None);
    };
    let between_mm = now_mm - start_mm;
    if between_mm < 10.0 || now_g >= start_g {
        return Ok(None);
    }
    let reading = |grams: f64| Mass::from_g(grams).map(|shown| ScaleReading { shown, tare: Mass::ZERO });
    let sd = progress.woven.map_or(0.0, |woven| woven.standard_deviation());
    let between = Estimate::even(WovenLength::from_mm(between_mm)?, sd.min(between_mm));
    let mut left = weft_left_by_scale(reading(start_g)?, reading(now_g)?, &between, Mass::ZERO, rate, habits)?;
    let since_mm = (progress.woven_mm() - now_mm).max(0.0);
    if since_mm > 0.0 {
        let cloth = (left.cloth.likely.mm() - since_mm).max(0.0);
        left.cloth = Estimate::even(WovenLength::from_mm(cloth)?, left.cloth.standard_deviation());
        left.picks = rate.map(|rate| rate.threads_in(WovenLength::nearest(cloth)).floor());
    }
    let mut why = vec![KnownBy::Scale { start_g, now_g, woven_mm: between_mm }];
    if let Some(label_mm) =
        weft.and_then(|weft| weft.start_length_mm).filter(|_| weft.is_some_and(|w| w.start_mass_g.is_some()))
    {
        let number = YarnNumber::from_measured(Length::from_mm(label_mm)?, Mass::from_g(start_g)?)?;
        left.yarn = length_from_label(Mass::from_g(now_g)?, number, habits).ok();
        why.push(KnownBy::Label);
    }
    Ok(Some(WeftKnown { left, why }))
}

fn weft_told(
    known: &WeftKnown,
    progress: &Progress,
    needed_m: Option<f64>,
    manner: &Manner,
    figures: &mut Figures,
) -> Answer {
    let length = |mm: f64| show_length(mm, manner);
    let span = known.left.cloth.span(Coverage::FOUR_IN_FIVE);
    let possible = [span.low.mm(), span.likely.mm(), span.high.mm()].map(|mm| mm.max(0.0));
    if let Some(yarn) = &known.left.yarn {
        let span = yarn.span(Coverage::FOUR_IN_FIVE);
        figures.weft_left_m = Some([span.low.m(), span.likely.m(), span.high.m()]);
    }
    let mut answer = Answer::default();
    match progress.to_weave_mm {
        Some(to_weave) if to_weave <= 0.0 => {
            figures.weft_chance = Some(1.0);
            answer.standing = Standing::Well;
            answer.headline = "The weft lasted.".into();
        }
        Some(to_weave) => {
            let chance = reach(&known.left.cloth, WovenLength::nearest(to_weave)).chance;
            figures.weft_chance = Some(chance);
            answer.standing = standing(chance);
            let over = known.left.cloth.likely.mm() - to_weave;
            answer.headline = match answer.standing {
                Standing::Well => format!("The weft will last, for some {} more than needed.", length(over.max(0.0))),
                Standing::Close if over >= 0.0 => {
                    format!("The weft should just last: for some {} more than needed, not surely.", length(over))
                }
                Standing::Close => format!("The weft may run out some {} before the end.", length(-over)),
                _ => format!("The weft will run out some {} before the end.", length((-over).max(0.0))),
            };
            answer.more.push(format!(
                "{} are to be woven; the weft is good for {}.",
                length(to_weave),
                between(possible, manner)
            ));
            answer.more.push(match chance_words(chance).as_str() {
                "almost surely" => "That is almost sure.".into(),
                "hardly at all" => "There is hardly a chance that it lasts.".into(),
                words => format!("It lasts {words}."),
            });
        }
        None => answer.headline = format!("The weft is good for {} more.", between(possible, manner)),
    }
    for reason in &known.why {
        answer.why.push(match reason {
            KnownBy::Scale { start_g, now_g, woven_mm } => format!(
                "{} at first, {} at the last weighing: {} for {} of cloth. A kitchen scale reads to a gram either way, so \
                 little used is little known.",
                show_mass(*start_g, manner),
                show_mass(*now_g, manner),
                show_mass(start_g - now_g, manner),
                length(*woven_mm)
            ),
            KnownBy::Length { start_mm, used_mm, pick_mm } => format!(
                "{} at first, some {} used: a pick takes {}. Weighing what is left would tell better than reckoning.",
                show_yarn(start_mm / 1000.0, manner),
                show_yarn(used_mm / 1000.0, manner),
                length(*pick_mm)
            ),
            KnownBy::Label => "The yarn's length goes by what it measured and weighed at first.".into(),
        });
    }
    if let Some(metres) = needed_m {
        answer.why.push(format!(
            "About {} of yarn are still needed, joins and hemstitching aside.",
            show_yarn(metres, manner)
        ));
    }
    answer
}

/// Whether an estimate of cloth is negative, for the picture's shortfall.
#[must_use]
pub fn warp_balance_mm(warp: &Warp, progress: &Progress) -> Option<f64> {
    let loom = on_loom(warp).ok()??;
    let wanted = progress.wanted_mm?;
    let cloth_mm = wanted.max(progress.woven_mm());
    let needed = loom.warp_use.yarn_for(WovenLength::from_mm(cloth_mm).ok()?).ok()?;
    let balance = LengthBalance::from_mm(loom.wound.likely.mm() - loom.not_cloth.likely.mm() - needed.mm()).ok()?;
    Some(balance.mm())
}

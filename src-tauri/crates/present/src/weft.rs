//! Will the weft last, in words: the answer, what each yarn is good for and how that is known.

use crate::chances::chance_words;
use crate::figures::{about_words, show_length, show_mass, show_yarn};
use crate::lists_and_numbers::capital;
use crate::reach::{between, is_none, missing, refused, standing, will};
use crate::view::{Answer, Figures, Standing};
use fellmark_model::WarpLog;
use fellmark_model::display_format::DisplayFormat;
use fellmark_model::moments::{Weighed, YarnLeft};
use fellmark_reports::progress::Progress;
use fellmark_reports::weft::{WeftReach, WeftSupply, WeftTogether, half_gone_in_use, weft_reach};
use fellmark_reports::weft_ledger::{KnownBy, Ledger};

/// Answers whether the weft lasts, and fills in its figures.
#[must_use]
pub fn weft_answer(log: &WarpLog, progress: &Progress, format: &DisplayFormat, figures: &mut Figures) -> Answer {
    let supply = match weft_reach(log, progress) {
        WeftReach::CutOff => {
            return Answer {
                headline: "The weft is no longer needed.".into(),
                standing: Standing::Well,
                ..Answer::default()
            };
        }
        WeftReach::NoYarn => {
            return missing(
                "No weft is written down",
                "Give its weight or its length under \u{201c}change the warp\u{201d}.",
            );
        }
        WeftReach::Refused(error) => return refused(&error),
        WeftReach::Yarns(supply) => supply,
    };
    figures.weft_needed_m = supply.needed_m;
    let mut answer = match &supply.together {
        None => unknown(log, supply.needed_m, format),
        Some(together) => supply_answer(&supply, together, progress, format, figures),
    };
    for ledger in supply.ledgers.iter().filter(|ledger| ledger.left.is_none() && supply.together.is_some()) {
        answer.more.push(format!(
            "{} is not counted in: how far it goes is not known. Weigh it, or give its length.",
            capital(ledger.name())
        ));
    }
    answer.more.extend(supply.ledgers.iter().filter_map(|ledger| half_gone(ledger, format)));
    answer
}

/// "mirror here?", when about half of a yarn is gone.
#[must_use]
pub fn half_gone(ledger: &Ledger<'_>, format: &DisplayFormat) -> Option<String> {
    ledger.is_half_gone().then(|| {
        format!(
            "About half of {} is gone, after {} woven with it. If both ends are to match, mirror the sequence from here.",
            ledger.name(),
            show_length(ledger.woven_mm, format)
        )
    })
}

/// "mirror here?", for the yarn on the shuttle after so many picks of a sitting that is going on.
#[must_use]
pub fn mirror_here(log: &WarpLog, running_picks: i64) -> Option<String> {
    let yarn = half_gone_in_use(log, running_picks)?;
    Some(format!("About half of {yarn} is gone: mirror here, if both ends are to match."))
}

/// "42 g left", "about 120 m left".
#[must_use]
pub fn left_words(found: Weighed, format: &DisplayFormat) -> String {
    let amount = match found.left {
        YarnLeft::Mass(grams) => show_mass(grams, format),
        YarnLeft::Length(mm) => show_yarn(mm / 1000.0, format),
    };
    format!("{}{amount} left", about_words(found.rough))
}

fn unknown(log: &WarpLog, needed_m: Option<f64>, format: &DisplayFormat) -> Answer {
    let mut answer = missing(
        "How far the weft goes is not known yet",
        if log.wefts.iter().any(|weft| weft.start_mass_g.is_some()) {
            "Weigh what is left once after some weaving; what this cloth takes follows from it."
        } else {
            "Give its weight or length, and the width in the reed."
        },
    );
    if let Some(metres) = needed_m {
        answer.more.push(format!("About {} of yarn are still needed.", show_yarn(metres, format)));
    }
    answer
}

fn supply_answer(
    supply: &WeftSupply<'_>,
    together: &WeftTogether,
    progress: &Progress,
    format: &DisplayFormat,
    figures: &mut Figures,
) -> Answer {
    let length = |mm: f64| show_length(mm, format);
    let known: Vec<&Ledger<'_>> = supply.ledgers.iter().filter(|ledger| ledger.left.is_some()).collect();
    let possible = together.possible_mm;
    figures.weft_left_m = together.left_m;
    figures.weft_chance = together.chance;
    let mut answer = Answer::default();
    match progress.to_weave_mm {
        Some(to_weave) if to_weave <= 0.0 => {
            answer.standing = Standing::Well;
            answer.headline = "The weft lasted.".into();
        }
        Some(to_weave) => {
            let chance = together.chance.unwrap_or(0.0);
            answer.standing = standing(chance);
            let over = together.cloth.likely.mm() - to_weave;
            answer.headline = match answer.standing {
                Standing::Well if is_none(over, format) => "The weft will just last.".into(),
                Standing::Well => format!("The weft will last, for some {} more than needed.", length(over.max(0.0))),
                Standing::Close if is_none(over, format) => {
                    "The weft should just last, with nothing over, not surely.".into()
                }
                Standing::Short if is_none(over, format) => {
                    format!("The weft {} run out just before the end.", will(chance))
                }
                Standing::Close if over >= 0.0 => {
                    format!("The weft should just last: for some {} more than needed, not surely.", length(over))
                }
                Standing::Close => format!("The weft may run out some {} before the end.", length(-over)),
                _ => {
                    format!("The weft {} run out some {} before the end.", will(chance), length((-over).max(0.0)))
                }
            };
            answer.more.push(format!(
                "{} are to be woven; the weft is good for {}.",
                length(to_weave),
                between(possible, format)
            ));
            answer.more.push(match chance_words(chance).as_str() {
                "almost surely" => "That is almost sure.".into(),
                "hardly at all" => "There is hardly a chance that it lasts.".into(),
                words => format!("It lasts {words}."),
            });
        }
        None => answer.headline = format!("The weft is good for {} more.", between(possible, format)),
    }
    if known.len() > 1 {
        answer.why.push("The yarns are reckoned one after the other, each with what was woven with it so far.".into());
    }
    for ledger in &known {
        let whose = if known.len() > 1 { format!("{}: ", capital(ledger.name())) } else { String::new() };
        answer.why.extend(ledger.known_by.iter().map(|reason| format!("{whose}{}", because(reason, format))));
        if let (true, Some(left)) = (known.len() > 1, ledger.left) {
            answer.why.push(format!("{whose}good for {} more.", length(left.cloth.likely.mm())));
        }
    }
    if let Some(metres) = supply.needed_m {
        answer.why.push(format!(
            "About {} of yarn are still needed, joins and hemstitching aside.",
            show_yarn(metres, format)
        ));
    }
    answer
}

fn because(reason: &KnownBy, format: &DisplayFormat) -> String {
    let length = |mm: f64| show_length(mm, format);
    match reason {
        KnownBy::Scale { first_g, last_g, between_mm } => format!(
            "{} at first, {} at the last weighing: {} for {} of cloth. A kitchen scale reads to a gram either way, so little \
             used is little known.",
            show_mass(*first_g, format),
            show_mass(*last_g, format),
            show_mass(first_g - last_g, format),
            length(*between_mm)
        ),
        KnownBy::Length { from_mm, later, used_mm, pick_mm } => {
            let used = show_yarn(used_mm / 1000.0, format);
            let used = if used == show_yarn(0.0, format) { "nothing".to_owned() } else { format!("some {used}") };
            format!(
                "{} at the {}, {used} used since: a pick takes {}. Weighing what is left would tell better than reckoning.",
                show_yarn(from_mm / 1000.0, format),
                if *later { "last measure" } else { "start" },
                length(*pick_mm)
            )
        }
        KnownBy::AsOther(name) => format!(
            "Only its weight is known, so it is reckoned to go as far by weight as {name} did, a fifth either way."
        ),
        KnownBy::Label => "The yarn's length goes by what it measured and weighed at first.".into(),
    }
}

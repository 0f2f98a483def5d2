//! Is the weft enough, in words: the answer, what each yarn is good for and how that is known.

use crate::figures::{reads_as_none, roughly, show_length_span, show_mass, show_yarn};
use crate::messages::declared::reach as messages;
use crate::messages::declared::sittings::yarn_without_name;
use crate::messages::text;
use crate::reach::{is_no_only_probable, missing, refused, standing};
use crate::view::{Answer, Figures, Standing};
use fellmark_model::display_format::DisplayFormat;
use fellmark_model::moments::{Weighed, YarnLeft};
use fellmark_model::{Message, WarpLog, Weft};
use fellmark_reports::progress::Progress;
use fellmark_reports::weft::{WeftReach, WeftSupply, WeftTogether, half_gone_in_use, weft_reach};
use fellmark_reports::weft_ledger::{KnownBy, Ledger};

/// Answers whether the weft is enough, and fills in its figures.
#[must_use]
pub fn weft_answer(log: &WarpLog, progress: &Progress, format: &DisplayFormat, figures: &mut Figures) -> Answer {
    let supply = match weft_reach(log, progress) {
        WeftReach::CutOff => {
            return Answer {
                headline: text(&messages::weft_not_needed(), format),
                standing: Standing::Well,
                ..Answer::default()
            };
        }
        WeftReach::NoYarn => {
            return missing(&messages::weft_missing(), &messages::weft_missing_remedy(), format);
        }
        WeftReach::Refused(error) => return refused(&error, format),
        WeftReach::Yarns(supply) => supply,
    };
    figures.weft_needed_m = supply.needed_m;
    let mut answer = match &supply.together {
        None => unknown(log, supply.needed_m, format),
        Some(together) => supply_answer(&supply, together, progress, format, figures),
    };
    for ledger in supply.ledgers.iter().filter(|ledger| ledger.left.is_none() && supply.together.is_some()) {
        answer.more.push(text(&messages::yarn_not_counted(yarn_name(ledger.yarn, format)), format));
    }
    answer.more.extend(supply.ledgers.iter().filter_map(|ledger| half_gone(ledger, format)));
    answer
}

/// "mirror here?", when about half of a yarn is gone.
#[must_use]
pub fn half_gone(ledger: &Ledger<'_>, format: &DisplayFormat) -> Option<String> {
    ledger
        .is_half_gone()
        .then(|| text(&messages::yarn_half_gone(yarn_name(ledger.yarn, format), ledger.woven_mm), format))
}

/// "mirror here?", for the yarn on the shuttle after so many picks of a sitting that is going on.
#[must_use]
pub fn mirror_here(log: &WarpLog, running_picks: i64, format: &DisplayFormat) -> Option<String> {
    half_gone_in_use(log, running_picks).map(|yarn| text(&messages::yarn_half_gone_now(yarn), format))
}

/// A yarn's name, or a word for one without.
pub(crate) fn yarn_name(yarn: &Weft, format: &DisplayFormat) -> String {
    yarn.name.clone().unwrap_or_else(|| text(&yarn_without_name(), format))
}

/// "42 g left", "about 120 m left".
#[must_use]
pub fn left_words(found: Weighed, format: &DisplayFormat) -> String {
    let amount = match found.left {
        YarnLeft::Mass(grams) => show_mass(grams, format),
        YarnLeft::Length(mm) => show_yarn(mm / 1000.0, format),
    };
    text(&messages::amount_left(roughly(found.rough, &amount, format)), format)
}

fn unknown(log: &WarpLog, needed_m: Option<f64>, format: &DisplayFormat) -> Answer {
    let is_weighed = log.wefts.iter().any(|weft| weft.start_mass_g.is_some());
    let remedy = if is_weighed { messages::weft_reach_unknown_weigh() } else { messages::weft_reach_unknown_enter() };
    let mut answer = missing(&messages::weft_reach_unknown(), &remedy, format);
    answer.more.extend(needed_m.map(|metres| text(&messages::weft_needed(metres), format)));
    answer
}

fn supply_answer(
    supply: &WeftSupply<'_>,
    together: &WeftTogether,
    progress: &Progress,
    format: &DisplayFormat,
    figures: &mut Figures,
) -> Answer {
    figures.weft_left_m = together.left_m;
    figures.weft_chance = together.chance;
    let possible = show_length_span(together.possible_mm, format);
    let mut answer = Answer::default();
    let headline = match progress.to_weave_mm {
        Some(to_weave) if to_weave <= 0.0 => {
            answer.standing = Standing::Well;
            messages::weft_was_enough()
        }
        Some(to_weave) => {
            let chance = together.chance.unwrap_or(0.0);
            answer.standing = standing(chance);
            let more = [messages::to_weave_and_weft_possible(to_weave, possible), messages::weft_chance(chance)];
            answer.more.extend(more.iter().map(|message| text(message, format)));
            headline(together.cloth.likely.mm() - to_weave, chance, format)
        }
        None => messages::weft_possible(possible),
    };
    answer.headline = text(&headline, format);
    answer.why = why(supply, format).iter().map(|message| text(message, format)).collect();
    answer
}

/// The answer, of `over_mm` of cloth more than is to be woven; less than zero if there is too little yarn.
fn headline(over_mm: f64, chance: f64, format: &DisplayFormat) -> Message {
    let (just, probably) = (reads_as_none(over_mm, format), is_no_only_probable(chance));
    match standing(chance) {
        Standing::Well if just => messages::weft_just_enough(),
        Standing::Well => messages::weft_enough(over_mm.max(0.0)),
        Standing::Close if just => messages::weft_tight_none(),
        Standing::Close if over_mm >= 0.0 => messages::weft_tight_over(over_mm),
        Standing::Close => messages::weft_tight_missing(-over_mm),
        _ if just && probably => messages::weft_probably_not_quite_enough(),
        _ if just => messages::weft_not_quite_enough(),
        _ if probably => messages::weft_probably_not_enough((-over_mm).max(0.0)),
        _ => messages::weft_not_enough((-over_mm).max(0.0)),
    }
}

fn why(supply: &WeftSupply<'_>, format: &DisplayFormat) -> Vec<Message> {
    let mut why = Vec::new();
    let known: Vec<&Ledger<'_>> = supply.ledgers.iter().filter(|ledger| ledger.left.is_some()).collect();
    let several = known.len() > 1;
    if several {
        why.push(messages::yarns_one_after_another());
    }
    for ledger in &known {
        let reasons = ledger.known_by.iter().map(|known_by| reason(known_by, format));
        why.extend(reasons.map(|reason| {
            if several { messages::yarn_and_reason(yarn_name(ledger.yarn, format), reason) } else { reason }
        }));
        if let (true, Some(left)) = (several, ledger.left) {
            why.push(messages::yarn_possible(yarn_name(ledger.yarn, format), left.cloth.likely.mm()));
        }
    }
    why.extend(supply.needed_m.map(messages::weft_needed_without_joins));
    why
}

/// How it is known how far a yarn goes.
fn reason(known_by: &KnownBy, format: &DisplayFormat) -> Message {
    match known_by {
        KnownBy::Scale { first_g, last_g, between_mm } => {
            messages::yarn_known_by_scale(*first_g, *last_g, first_g - last_g, *between_mm)
        }
        KnownBy::Length { from_mm, later, used_mm, pick_mm } => {
            let is_used = show_yarn(used_mm / 1000.0, format) != show_yarn(0.0, format);
            let since = match (*later, is_used) {
                (true, true) => "measured",
                (true, false) => "measured_unused",
                (false, true) => "start",
                (false, false) => "start_unused",
            };
            messages::yarn_known_by_length(since, from_mm / 1000.0, used_mm / 1000.0, *pick_mm)
        }
        KnownBy::AsOther(name) => messages::yarn_known_as_other(name.as_str()),
        KnownBy::Label => messages::yarn_known_by_label(),
    }
}

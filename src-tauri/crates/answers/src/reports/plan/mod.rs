//! A plan, both ways: from the wish to what to wind, from the yarn to the piece it makes. One reckoning of all that is typed so
//! far; what is missing is said, what cannot be read counts as empty, and every figure carries its reckoning.

mod basis;
mod begun;
mod cloth;
mod curve;
mod keep;
mod lengths;
mod past;
mod shelf;
#[cfg(test)]
mod tests;
mod time;
mod typed;

use chrono::NaiveDate;
use fellmark_cloth::Refused;
use fellmark_cloth::state::FinishedLength;
use fellmark_journal::State;

pub use keep::{copies, copy};
pub use shelf::{kept, says_something};

use crate::model::display_format::DisplayFormat;
use crate::model::forms::FieldMap;
use crate::model::measures::show_length;
use crate::present::trouble::sentence;
use crate::present::understood::understand;
use crate::present::view::{PlanFill, PlanForm, PlanView, UserError};
use crate::present::words::listed;
use crate::reports::reckoned::History;
use basis::{Basis, settle_all};
use cloth::{Across, Sett, SettFrom, across, density_figure, per, reed_wanted, settle_sett};
use lengths::{Lengths, Threads, across_figures, figure, pieces_words};
use typed::{EdgeKind, Typed, read_form};

/// Most lengths of pieces that are told one by one to programs.
const MOST_TOLD: usize = 200;

/// Reckons a plan as far as it is typed, for a single look at the earlier warps.
#[must_use]
pub fn reckon(state: &State, form: &PlanForm, format: &DisplayFormat, today: NaiveDate) -> PlanView {
    reckon_with(&History::of_state(state), form, format, today)
}

/// Reckons a plan as far as it is typed, by what earlier warps say. Nothing is refused: troubles stand beside their fields.
#[must_use]
pub fn reckon_with(history: &History, form: &PlanForm, format: &DisplayFormat, today: NaiveDate) -> PlanView {
    reckon_exactly(history, form, format, today).0
}

/// As [`reckon_with`]; with the exact figures of the warp it becomes, which are none while there is none to begin.
fn reckon_exactly(
    history: &History,
    form: &PlanForm,
    format: &DisplayFormat,
    today: NaiveDate,
) -> (PlanView, FieldMap) {
    let mut typed = read_form(form, format, today);
    let mut view = PlanView { troubles: std::mem::take(&mut typed.troubles), ..PlanView::default() };
    view.understood = understood(form, format, today);
    let exact = fill(history, form, &typed, format, today, &mut view).unwrap_or_else(|refused| {
        // Each figure is sane, but together they are not: said where it is read first, and the figures found so far stay.
        view.headline = sentence(&refused.to_string());
        view.troubles.push(UserError::new(view.headline.clone()));
        FieldMap::new()
    });
    (view, exact)
}

/// Measures as they were understood, so that a slip of the unit is seen.
fn understood(form: &PlanForm, format: &DisplayFormat, today: NaiveDate) -> Vec<PlanFill> {
    let measures = [
        ("length", "length", &form.length),
        ("lengths", "further", &form.further),
        ("length", "width", &form.width),
        ("length", "edge_length", &form.edge_length),
        ("length", "reed_width", &form.reed_width),
        ("length", "waste", &form.waste),
        ("length", "header", &form.header),
        ("length", "sample", &form.sample),
        ("length", "gap", &form.gap),
        ("length", "loom_width", &form.loom_width),
        ("rough_yarn_length", "warp_have", &form.warp_have),
        ("rough_yarn_length", "weft_have", &form.weft_have),
        ("rough_mass", "warp_mass", &form.warp_mass),
        ("rough_mass", "weft_mass", &form.weft_mass),
    ];
    measures
        .into_iter()
        .filter_map(|(what, field, text)| {
            let shown = understand(what, text, format, today).shown;
            (!shown.is_empty()).then(|| PlanFill { field: field.into(), text: shown })
        })
        .collect()
}

/// What the reckoning has settled.
struct Settled {
    basis: Basis,
    sett: Sett,
    across: Option<Across>,
    lengths: Option<Lengths>,
}

fn fill(
    history: &History,
    form: &PlanForm,
    typed: &Typed,
    format: &DisplayFormat,
    today: NaiveDate,
    view: &mut PlanView,
) -> Result<FieldMap, Refused> {
    let mut history = past::History::of(history);
    let mut basis = settle_all(typed, &history.learn(form, typed), format)?;
    basis.by_scale = history.by_scale(form);
    view.offers.clone_from(&basis.offers);
    let sett = settle_sett(typed, &basis)?;
    offer_sett(&sett, typed, format, view);
    let mut settled = Settled { basis, sett, across: None, lengths: None };
    if typed.from_yarn {
        by_yarn(typed, format, &mut settled, view)?;
    } else {
        by_wish(typed, format, &mut settled)?;
    }
    told(typed, format, &settled, view)?;
    let Settled { lengths, .. } = &settled;
    if let (Some(lengths), Some(picks)) = (lengths, view.plain.picks)
        && let Some(time) = time::time(typed, picks, lengths.woven, &history, format, today)
    {
        view.plain.hours = Some(time.hours);
        view.plain.finished_likely = time.likely;
        view.plain.finished_span = time.span;
        view.plain.gift_chance = time.gift_chance;
        view.when = Some(time.answer);
    }
    let Some(lengths) = lengths else { return Ok(FieldMap::new()) };
    view.begin = Some(begun::warp_form(form, typed, &settled, lengths, format, today));
    Ok(begun::exact(typed, &settled, lengths))
}

fn by_wish(typed: &Typed, format: &DisplayFormat, settled: &mut Settled) -> Result<(), Refused> {
    if let (Some(wanted), Some((ends_in, _))) = (reed_wanted(typed, &settled.basis)?, settled.sett.ends) {
        settled.across = Some(across(wanted, ends_in, &settled.basis)?);
    }
    if let Some(length) = typed.length {
        let mut pieces = vec![length; typed.pieces.try_into().unwrap_or(1)];
        pieces.extend(&typed.further);
        settled.lengths = Some(lengths::lengths(cloth::wish(typed, &settled.basis, &pieces)?, None, format)?);
    }
    Ok(())
}

fn by_yarn(typed: &Typed, format: &DisplayFormat, settled: &mut Settled, view: &mut PlanView) -> Result<(), Refused> {
    let Some(chosen) = curve::chosen(typed, &settled.basis, &settled.sett, format)? else { return Ok(()) };
    view.curve = Some(chosen.curve);
    view.figures.extend(chosen.figures);
    view.offers.extend(chosen.offers);
    if !typed.further.is_empty() {
        view.warnings
            .push("From the yarn, all pieces are of one size; the further lengths are not reckoned with.".into());
    }
    let Some((ends_in, _)) = settled.sett.ends else { return Ok(()) };
    settled.across = Some(across(chosen.size.reed, ends_in, &settled.basis)?);
    if chosen.finished == FinishedLength::ZERO {
        return Ok(());
    }
    let pieces = vec![chosen.finished; typed.pieces.try_into().unwrap_or(1)];
    let wish = cloth::wish(typed, &settled.basis, &pieces)?;
    settled.lengths = Some(lengths::lengths(wish, Some(chosen.size.warp), format)?);
    Ok(())
}

fn offer_sett(sett: &Sett, typed: &Typed, format: &DisplayFormat, view: &mut PlanView) {
    let figure = |density| density_figure(density, format);
    let mut offer = |field: &str, button: String, line: String, in_use: bool| {
        let text = button.replace('\u{2212}', "-");
        view.offers.push(crate::present::view::PlanOffer {
            field: field.into(),
            line,
            button: format!("{button} {}", per(format)),
            fills: vec![PlanFill { field: field.into(), text }],
            warps: 0,
            in_use,
        });
    };
    let from = sett.ends.map(|(_, from)| from);
    let empty = |from_this| if from == Some(from_this) { "Empty counts as " } else { "" };
    if let (Some(by_wraps), Some(wraps)) = (sett.by_wraps, typed.wraps) {
        let share = if form_share(typed) > 0.6 { "two thirds" } else { "half" };
        let line = format!("{}{} of {} wraps, for {}.", empty(SettFrom::Wraps), share, figure(wraps), typed.weave_word);
        offer("sett", figure(by_wraps), sentence(&line), from == Some(SettFrom::Wraps));
    }
    if let Some((largest, ordinary)) = sett.largest {
        let line = format!(
            "{}{}: 80\u{a0}% of the largest sett, {} {}, by Ashenhurst\u{2019}s rule with k = {}, in {}.",
            empty(SettFrom::Yarn),
            figure(ordinary),
            figure(largest),
            per(format),
            typed.k_name,
            typed.weave_word
        );
        offer("sett", figure(ordinary), sentence(&line), from == Some(SettFrom::Yarn));
    }
    if let (false, Some(picks)) = (sett.picks_given, sett.picks) {
        let line = format!("Empty counts as {}: as many picks as ends, a balanced cloth.", figure(picks.density()));
        offer("picks", figure(picks.density()), line, true);
    }
}

fn form_share(typed: &Typed) -> f64 {
    cloth::weave(typed).0.room()
}

/// Puts everything into figures, warnings and the sentence read first.
fn told(typed: &Typed, format: &DisplayFormat, settled: &Settled, view: &mut PlanView) -> Result<(), Refused> {
    let Settled { basis, sett, across, lengths } = settled;
    let mut threads = Threads::default();
    if let Some(lengths) = lengths {
        threads.figures.push(lengths::warp_figure(lengths, basis, typed, format));
        let (thumb_mm, thumb) = lengths::thumb(lengths, format)?;
        view.thumb = Some(thumb);
        view.picture = Some(lengths::picture(lengths, format));
        view.plain.warp_mm = Some(lengths.wound.mm());
        view.plain.warp_exact_mm = Some(lengths.exact.mm());
        view.plain.thumb_mm = Some(thumb_mm.mm());
        view.plain.woven_mm = Some(lengths.woven.mm());
        view.plain.finished_mm = lengths.wish.pieces.iter().take(MOST_TOLD).map(|piece| piece.finished.mm()).collect();
    }
    if let Some(across) = across {
        view.plain.ends = Some(across.ends);
        view.plain.reed_width_mm = Some(across.reed.mm());
        view.plain.finished_width_mm = Some(across.finished.mm());
        across_figures(across, lengths.as_ref(), sett, basis, typed, format, &mut threads)?;
    } else if let Some(reed) = reed_wanted(typed, basis)? {
        let (width, from) = basis.width;
        threads.figures.push(figure(
            "reed_width",
            "Width in the reed",
            show_length(reed.mm(), format),
            vec![format!(
                "The finished width \u{f7} (1 \u{2212} {}\u{a0}%) for draw-in and wash together{}.",
                format.number(width.shrinkage_percent(), 1),
                from.words()
            )],
        ));
        view.plain.reed_width_mm = Some(reed.mm());
    }
    view.plain.picks = threads.picks;
    view.plain.warp_yarn_m = threads.warp_yarn.map(|(yarn, _)| yarn.m());
    view.plain.warp_yarn_g = threads.warp_yarn.and_then(|(_, mass)| mass).map(|mass| mass.g());
    view.plain.weft_yarn_m = threads.weft_yarn.map(|(yarn, _)| yarn.m());
    view.plain.weft_yarn_g = threads.weft_yarn.and_then(|(_, mass)| mass).map(|mass| mass.g());
    view.figures.append(&mut threads.figures);
    warn(typed, format, settled, view);
    view.missing = missing(typed, settled, view);
    view.headline = headline(typed, format, settled, view);
    Ok(())
}

fn warn(typed: &Typed, format: &DisplayFormat, settled: &Settled, view: &mut PlanView) {
    let Settled { sett, across, .. } = settled;
    if let Some(beaten) = &sett.beaten
        && let Some(warning) = beaten.warning()
    {
        let most = beaten.most.map_or_else(String::new, |most| {
            format!(
                " {} {} is about the most; yarn is soft, so take that as good to a tenth.",
                density_figure(most.density(), format),
                per(format)
            )
        });
        view.warnings.push(format!("{}{most}", sentence(warning)));
    }
    if let (Some((largest, _)), Some((ends, SettFrom::Given))) = (sett.largest, sett.ends)
        && ends.density() > largest
    {
        view.warnings.push(format!(
            "{} ends {} are more than the largest sett of this yarn, {}, by Ashenhurst\u{2019}s rule with k = {}: a stiff, \
             warp-faced cloth at best.",
            density_figure(ends.density(), format),
            per(format),
            density_figure(largest, format),
            typed.k_name
        ));
    }
    if let (Some(loom), Some(across)) = (typed.loom, across)
        && across.reed > loom
    {
        view.warnings.push(format!(
            "{} in the reed is wider than the loom, which takes {}.",
            show_length(across.reed.mm(), format),
            show_length(loom.mm(), format)
        ));
    }
    if typed.edge != EdgeKind::Plain && typed.edge_mm.is_none() {
        view.warnings.push("How long fringe or hem is to be is not said, so none is reckoned with.".into());
    }
}

fn missing(typed: &Typed, settled: &Settled, view: &PlanView) -> Vec<String> {
    let mut missing = Vec::new();
    if typed.from_yarn {
        if typed.warp_have.is_none() {
            missing.push("how much warp yarn there is".to_owned());
        }
        if !typed.one_yarn && typed.weft_have.is_none() {
            missing.push("how much weft yarn there is".to_owned());
        }
    } else {
        if typed.length.is_none() {
            missing.push("the length wanted".to_owned());
        }
        if typed.width.is_none() && typed.reed_width.is_none() {
            missing.push("the width wanted".to_owned());
        }
    }
    if settled.sett.ends.is_none() {
        missing.push("the sett, or the yarn it follows from".to_owned());
    }
    if !missing.is_empty() && typed.warp_count.is_none() && view.plain.warp_yarn_m.is_some() {
        missing.push("the yarn\u{2019}s number, for weights".to_owned());
    }
    missing
}

fn headline(typed: &Typed, format: &DisplayFormat, settled: &Settled, view: &PlanView) -> String {
    let Some(lengths) = &settled.lengths else {
        if view.missing.is_empty() {
            return "Nothing can be woven of this yarn at this width.".into();
        }
        return format!("Still to say: {}.", listed(&view.missing));
    };
    let wind = format!("Wind {} of warp", show_length(lengths.wound.mm(), format));
    let ends = settled.across.map_or_else(String::new, |across| format!(", {} ends", across.ends));
    let pieces: Vec<FinishedLength> = lengths.wish.pieces.iter().map(|piece| piece.finished).collect();
    let width = settled
        .across
        .map_or_else(String::new, |across| format!(", {} wide", show_length(across.finished.mm(), format)));
    let likely = if typed.from_yarn { "likely " } else { "" };
    format!("{wind}{ends}: {likely}{}{width}.", pieces_words(&pieces, format))
}

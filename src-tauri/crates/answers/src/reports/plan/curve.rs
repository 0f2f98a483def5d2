//! From the yarn: the sizes it makes, width against length, and the one chosen.

use fellmark_cloth::Refused;
use fellmark_cloth::quantity::Length;
use fellmark_cloth::reed;
use fellmark_cloth::span::{Coverage, Estimate};
use fellmark_cloth::state::{EndsIn, FinishedLength, FinishedWidth, InReed, ReedWidth};
use fellmark_cloth::supply::{Limit, Plan, Size, Yarn};
use fellmark_cloth::warp::WarpWish;
use fellmark_cloth::weft::hemstitch_reserve;

use super::basis::Basis;
use super::cloth::{Sett, reed_wanted, wish};
use super::lengths::figure;
use super::typed::{EdgeKind, Typed};
use crate::model::display_format::{DisplayFormat, Units};
use crate::model::measures::{Reader, show_length, show_yarn};
use crate::present::view::{PlanCurve, PlanFigure, PlanFill, PlanOffer, PlanPoint, PlanTick};

/// Widths tried: from this narrow on, in steps that a tape shows.
const NARROWEST_MM: f64 = 50.0;
const STEP_METRIC_MM: f64 = 5.0;
const STEP_IMPERIAL_MM: f64 = 6.35;
/// Most widths tried.
const MOST_POINTS: usize = 240;
/// The loom's width where none is given: a common rigid heddle (common practice, no source).
const USUAL_LOOM_MM: f64 = 600.0;
/// Longer pieces than this are not drawn: they are bands, and they would flatten the rest.
const LONGEST_DRAWN_MM: f64 = 6000.0;
/// Until a width is chosen: a scarf's shape, some seven widths long (common practice, no source).
const SCARF_SHAPE: f64 = 7.0;

/// What the yarn makes at the width chosen.
#[derive(Clone, Debug)]
pub(super) struct Chosen {
    pub size: Size,
    pub curve: PlanCurve,
    pub figures: Vec<PlanFigure>,
    /// What each piece is with, its hems taken off.
    pub finished: FinishedLength,
    pub offers: Vec<PlanOffer>,
}

/// The wish without its cloth: what becomes no cloth, whatever the size. Hems are cloth: they come out of the length.
fn not_cloth(typed: &Typed, basis: &Basis) -> Result<WarpWish, Refused> {
    let mut typed = typed.clone();
    if typed.edge == EdgeKind::Hem {
        typed.edge = EdgeKind::Plain;
    }
    let none = vec![FinishedLength::ZERO; typed.pieces.try_into().unwrap_or(1)];
    wish(&typed, basis, &none)
}

/// The sizes; nothing while a yarn or the sett is missing.
///
/// # Errors
/// Figures that cannot be together.
pub(super) fn chosen(
    typed: &Typed,
    basis: &Basis,
    sett: &Sett,
    format: &DisplayFormat,
) -> Result<Option<Chosen>, Refused> {
    let (Some((ends_in, _)), Some(rate), Some(warp)) = (sett.ends, sett.picks, typed.warp_have) else {
        return Ok(None);
    };
    let yarn = match (typed.one_yarn, typed.weft_have) {
        (true, _) => Yarn::Shared(warp.length),
        (false, Some(weft)) => Yarn::Separate { warp: warp.length, weft: weft.length },
        (false, None) => return Ok(None),
    };
    let loom = match typed.loom {
        Some(loom) => loom,
        None => ReedWidth::from_mm(USUAL_LOOM_MM)?,
    };
    let reserve = |width: ReedWidth| -> Result<Length, Refused> {
        if typed.edge == EdgeKind::Fringe {
            hemstitch_reserve(width, 4.0, typed.pieces.saturating_mul(2))
        } else {
            Ok(Length::ZERO)
        }
    };
    let plan = Plan {
        sett: ends_in,
        extra_ends: 0,
        picks: rate,
        changes: basis.changes,
        draw_in: basis.width.0,
        pick_allowance: basis.allowance.0,
        not_cloth: not_cloth(typed, basis)?.warp_needed()?,
        weft_reserve: Length::ZERO,
        pieces: typed.pieces,
    };
    let at = |width: FinishedWidth| -> Result<Size, Refused> {
        let plan = Plan { weft_reserve: reserve(plan.draw_in.before(width)?)?, ..plan };
        plan.size_at(&yarn, width, Coverage::FOUR_IN_FIVE)
    };
    let widest = basis.width.0.after(loom)?;
    let sizes = sizes(&at, ends_in, widest, basis, format)?;
    if sizes.iter().all(|size| size.length.likely.mm() < 10.0) {
        return Err(Refused::DoesNotFit("the yarn does not reach even for the warp that becomes no cloth".into()));
    }
    let chosen = choose(typed, basis, &plan, &yarn, loom, &sizes)?;
    let Some(size) = sizes.get(chosen).copied() else { return Ok(None) };
    let hems = match (typed.edge, typed.edge_mm) {
        (EdgeKind::Hem, Some(mm)) => FinishedLength::from_mm(2.0 * mm)?,
        _ => FinishedLength::ZERO,
    };
    let points = sizes.iter().map(|size| point(size, typed, format)).collect();
    Ok(Some(Chosen {
        size,
        finished: size.length.likely.less(hems),
        figures: figures(&size, typed, format),
        curve: curve(points, chosen, &size, typed, format),
        offers: if typed.loom.is_none() { vec![loom_offer(loom, format)] } else { Vec::new() },
    }))
}

fn loom_offer(loom: ReedWidth, format: &DisplayFormat) -> PlanOffer {
    let text = Reader { format, today: chrono::NaiveDate::MIN }.show_length_for_form(loom.mm());
    PlanOffer {
        field: "loom_width".into(),
        line: format!("Empty counts as {}: a common rigid heddle.", show_length(loom.mm(), format)),
        button: show_length(loom.mm(), format),
        fills: vec![PlanFill { field: "loom_width".into(), text }],
        warps: 0,
        in_use: true,
    }
}

fn sizes(
    at: &impl Fn(FinishedWidth) -> Result<Size, Refused>,
    sett: EndsIn<InReed>,
    widest: FinishedWidth,
    basis: &Basis,
    format: &DisplayFormat,
) -> Result<Vec<Size>, Refused> {
    let step = match format.units {
        Units::Metric => STEP_METRIC_MM,
        Units::Imperial => STEP_IMPERIAL_MM,
    };
    // Below two ends there is no cloth.
    let least = basis.width.0.after(reed::width_of(2, sett)?)?.mm().max(NARROWEST_MM.min(widest.mm()));
    let mut widths = Vec::new();
    let mut steps = (least / step).ceil();
    while steps * step <= widest.mm() + 1e-6 && widths.len() < MOST_POINTS {
        widths.push(steps * step);
        steps += 1.0;
    }
    if widths.is_empty() {
        widths.push(widest.mm());
    }
    let all = widths.into_iter().map(|mm| at(FinishedWidth::from_mm(mm)?)).collect::<Result<Vec<Size>, _>>()?;
    let drawn: Vec<Size> = all.iter().filter(|size| size.length.likely.mm() <= LONGEST_DRAWN_MM).copied().collect();
    // Yarn for more than the loom takes at its widest: then the whole is drawn as it is.
    Ok(if drawn.len() >= 2 { drawn } else { all })
}

fn nearest(sizes: &[Size], distance: impl Fn(&Size) -> f64) -> usize {
    let mut best = 0;
    for (index, size) in sizes.iter().enumerate() {
        if sizes.get(best).is_some_and(|held| distance(size) < distance(held)) {
            best = index;
        }
    }
    best
}

/// The width typed, else the widest for the length typed, else a scarf's shape.
fn choose(
    typed: &Typed,
    basis: &Basis,
    plan: &Plan,
    yarn: &Yarn,
    loom: ReedWidth,
    sizes: &[Size],
) -> Result<usize, Refused> {
    if let Some(reed) = reed_wanted(typed, basis)? {
        let width = basis.width.0.after(reed)?;
        return Ok(nearest(sizes, |size| (size.width.mm() - width.mm()).abs()));
    }
    if let Some(length) = typed.length {
        let widest = plan.widest_for(yarn, length, loom, Coverage::FOUR_IN_FIVE)?;
        let width = widest.map_or(0.0, |size| size.width.mm());
        // The widest that still makes it: never the next wider one.
        let enough = sizes.iter().rposition(|size| size.width.mm() <= width + 0.1);
        return Ok(enough.unwrap_or(0));
    }
    Ok(nearest(sizes, |size| (size.length.likely.mm() - SCARF_SHAPE * size.width.mm()).abs()))
}

fn limit_words(limit: Limit) -> &'static str {
    match limit {
        Limit::Warp => "the warp yarn ends first",
        Limit::Weft => "the weft yarn ends first",
        Limit::Both => "warp and weft end together, being one yarn",
    }
}

fn point(size: &Size, typed: &Typed, format: &DisplayFormat) -> PlanPoint {
    let length = |mm: f64| show_length(mm, format);
    let span = &size.length;
    let each = if typed.pieces > 1 { " each" } else { "" };
    PlanPoint {
        width_mm: size.width.mm(),
        length_mm: [span.low.mm(), span.likely.mm(), span.high.mm()],
        words: format!(
            "{} wide: {} long{each}, four times in five between {} and {}; {}.",
            length(size.width.mm()),
            length(span.likely.mm()),
            length(span.low.mm()),
            length(span.high.mm()),
            limit_words(size.limit)
        ),
        width: Reader { format, today: chrono::NaiveDate::MIN }.show_length_for_form(size.width.mm()),
    }
}

fn ticks(most_mm: f64, format: &DisplayFormat, fewest: f64) -> Vec<PlanTick> {
    let steps: &[f64] = match format.units {
        Units::Metric => &[50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0, 5000.0],
        Units::Imperial => &[50.8, 101.6, 203.2, 304.8, 609.6, 914.4, 1828.8, 3657.6],
    };
    let step = steps.iter().copied().find(|step| most_mm / step <= fewest).unwrap_or(10_000.0);
    let mut list = Vec::new();
    let mut n = 1.0;
    while n * step <= most_mm && list.len() < 20 {
        list.push(PlanTick { at_mm: n * step, label: show_length(n * step, format) });
        n += 1.0;
    }
    list
}

fn curve(points: Vec<PlanPoint>, chosen: usize, size: &Size, typed: &Typed, format: &DisplayFormat) -> PlanCurve {
    let longest_mm = points.iter().map(|point| point.length_mm[2]).fold(0.0, f64::max);
    let widest_mm = points.last().map_or(0.0, |point| point.width_mm);
    let (first, last) = (points.first(), points.last());
    let ends = first.zip(last).map_or_else(String::new, |(first, last)| {
        format!(
            "From {} wide and {} long to {} wide and {} long. ",
            show_length(first.width_mm, format),
            show_length(first.length_mm[1], format),
            show_length(last.width_mm, format),
            show_length(last.length_mm[1], format)
        )
    });
    PlanCurve {
        text: format!("{ends}Chosen: {}", point(size, typed, format).words),
        width_ticks: ticks(widest_mm, format, 8.0),
        length_ticks: ticks(longest_mm, format, 6.0),
        points,
        chosen,
        longest_mm,
    }
}

fn span_words(have: &Estimate<Length>, format: &DisplayFormat) -> String {
    let span = have.span(Coverage::FOUR_IN_FIVE);
    format!(
        "{}, four times in five between {} and {}",
        show_yarn(span.likely.m(), format),
        show_yarn(span.low.m(), format),
        show_yarn(span.high.m(), format)
    )
}

fn figures(size: &Size, typed: &Typed, format: &DisplayFormat) -> Vec<PlanFigure> {
    let length = |mm: f64| show_length(mm, format);
    let mut known = Vec::new();
    for (name, have) in [("Warp yarn", typed.warp_have), ("Weft yarn", typed.weft_have)] {
        if let Some(have) = have {
            known.push(format!("{name}, {}: {}.", have.how, span_words(&have.length, format)));
        }
    }
    known.push(format!(
        "At {} wide, {} ends: the length at which the yarn ends, {} likely; it is at least {} nine times in ten.",
        length(size.width.mm()),
        size.ends,
        length(size.length.likely.mm()),
        length(size.length.low.mm())
    ));
    let pieces = if typed.pieces > 1 { format!("{} pieces of ", typed.pieces) } else { String::new() };
    let left = |yarn: Length| show_yarn(yarn.m(), format);
    let (left_over, left_why) = match size.limit {
        Limit::Warp => (
            format!("{} of weft yarn", left(size.weft_yarn_left)),
            "The warp yarn is used up, waste and all; this is what the weft leaves if both are as long as they likely are.",
        ),
        Limit::Weft => (
            format!("{} of warp yarn", left(size.warp_yarn_left)),
            "The weft yarn is used up; this is what the warp leaves if both are as long as they likely are.",
        ),
        Limit::Both => ("nothing".into(), "One yarn for both is used up to its end."),
    };
    vec![
        figure(
            "size",
            "The piece it makes",
            format!("{pieces}{} \u{d7} {}", length(size.width.mm()), length(size.length.likely.mm())),
            known,
        ),
        figure(
            "limit",
            "What limits it",
            limit_words(size.limit).into(),
            vec!["Both yarns are reckoned to their ends at this width; the shorter piece is what can be woven.".into()],
        ),
        figure("left_over", "Left over", left_over, vec![left_why.into()]),
    ]
}

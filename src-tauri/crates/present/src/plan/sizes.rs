//! From the yarn: the picture of width against length, and the size that is chosen.

use chrono::NaiveDate;
use fellmark_cloth::quantity::Length;
use fellmark_cloth::sizes_from_yarn::{Limit, Size};
use fellmark_cloth::span::{Coverage, Estimate};

use super::words::figure;
use crate::figures::{show_length, show_yarn};
use crate::view::{PlanCurve, PlanFigure, PlanPoint, PlanTick};
use fellmark_model::display_format::{DisplayFormat, Units};
use fellmark_model::measures::Reader;
use fellmark_model::plan::{PlanInputs, YarnCertainty};
use fellmark_reports::plan::SizesFromYarn;

/// Steps between round figures at the edges of the picture, millimetres.
const TICKS_METRIC_MM: &[f64] = &[50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0, 5000.0];
const TICKS_IMPERIAL_MM: &[f64] = &[50.8, 101.6, 203.2, 304.8, 609.6, 914.4, 1828.8, 3657.6];
/// The step where none of these is large enough.
const LARGEST_TICK_MM: f64 = 10_000.0;
/// Most round figures at the edge for widths, at the edge for lengths, and at any edge whatever the step.
const WIDTH_TICKS: f64 = 8.0;
const LENGTH_TICKS: f64 = 6.0;
const MOST_TICKS: usize = 20;

fn limit_words(limit: Limit) -> &'static str {
    match limit {
        Limit::Warp => "the warp yarn ends first",
        Limit::Weft => "the weft yarn ends first",
        Limit::Both => "warp and weft end together, being one yarn",
    }
}

fn certainty_words(certainty: YarnCertainty) -> &'static str {
    match certainty {
        YarnCertainty::Measured => "measured",
        YarnCertainty::ByLabel => "by the label",
        YarnCertainty::ByWeightAndLabel => "by weight and label",
        YarnCertainty::Approximate => "roughly known",
    }
}

/// Width against length, with the chosen size.
pub(super) fn curve(sizes: &SizesFromYarn, inputs: &PlanInputs, format: &DisplayFormat) -> PlanCurve {
    let points: Vec<PlanPoint> = sizes.sizes.iter().map(|size| point(size, inputs, format)).collect();
    let longest_mm = points.iter().map(|point| point.length_mm[2]).fold(0.0, f64::max);
    let widest_mm = points.last().map_or(0.0, |point| point.width_mm);
    let range = points.first().zip(points.last()).map_or_else(String::new, |(first, last)| {
        format!(
            "From {} wide and {} long to {} wide and {} long. ",
            show_length(first.width_mm, format),
            show_length(first.length_mm[1], format),
            show_length(last.width_mm, format),
            show_length(last.length_mm[1], format)
        )
    });
    PlanCurve {
        text: format!("{range}Chosen: {}", point(&sizes.size, inputs, format).words),
        width_ticks: ticks(widest_mm, WIDTH_TICKS, format),
        length_ticks: ticks(longest_mm, LENGTH_TICKS, format),
        points,
        chosen: sizes.chosen,
        longest_mm,
    }
}

fn point(size: &Size, inputs: &PlanInputs, format: &DisplayFormat) -> PlanPoint {
    let length = |mm: f64| show_length(mm, format);
    let span = &size.length;
    let each = if inputs.pieces > 1 { " each" } else { "" };
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
        width: Reader { format, today: NaiveDate::MIN }.show_length_for_form(size.width.mm()),
    }
}

/// Round figures up to `most_mm`, no more than about `count`.
fn ticks(most_mm: f64, count: f64, format: &DisplayFormat) -> Vec<PlanTick> {
    let steps = match format.units {
        Units::Metric => TICKS_METRIC_MM,
        Units::Imperial => TICKS_IMPERIAL_MM,
    };
    let step = steps.iter().copied().find(|step| most_mm / step <= count).unwrap_or(LARGEST_TICK_MM);
    (1..=MOST_TICKS)
        .map(|n| n as f64 * step)
        .take_while(|at_mm| *at_mm <= most_mm)
        .map(|at_mm| PlanTick { at_mm, label: show_length(at_mm, format) })
        .collect()
}

fn supply_words(supply: &Estimate<Length>, format: &DisplayFormat) -> String {
    let span = supply.span(Coverage::FOUR_IN_FIVE);
    format!(
        "{}, four times in five between {} and {}",
        show_yarn(span.likely.m(), format),
        show_yarn(span.low.m(), format),
        show_yarn(span.high.m(), format)
    )
}

/// The chosen size, what limits it, and what is left over.
pub(super) fn figures(sizes: &SizesFromYarn, inputs: &PlanInputs, format: &DisplayFormat) -> Vec<PlanFigure> {
    let size = &sizes.size;
    let length = |mm: f64| show_length(mm, format);
    let mut why = Vec::new();
    for (name, supply) in [("Warp yarn", inputs.warp_supply), ("Weft yarn", inputs.weft_supply)] {
        if let Some(supply) = supply {
            let certainty = certainty_words(supply.certainty);
            why.push(format!("{name}, {certainty}: {}.", supply_words(&supply.length, format)));
        }
    }
    why.push(format!(
        "At {} wide, {} ends: the length at which the yarn ends, {} likely; it is at least {} nine times in ten.",
        length(size.width.mm()),
        size.ends,
        length(size.length.likely.mm()),
        length(size.length.low.mm())
    ));
    let pieces = if inputs.pieces > 1 { format!("{} pieces of ", inputs.pieces) } else { String::new() };
    let piece = format!("{pieces}{} \u{d7} {}", length(size.width.mm()), length(size.length.likely.mm()));
    let (left_over, left_over_why) = left_over(size, format);
    vec![
        figure("size", "The piece it makes", piece, why),
        figure(
            "limit",
            "What limits it",
            limit_words(size.limit).into(),
            vec!["Both yarns are reckoned to their ends at this width; the shorter piece is what can be woven.".into()],
        ),
        figure("left_over", "Left over", left_over, vec![left_over_why.into()]),
    ]
}

fn left_over(size: &Size, format: &DisplayFormat) -> (String, &'static str) {
    let yarn = |yarn: Length| show_yarn(yarn.m(), format);
    match size.limit {
        Limit::Warp => (
            format!("{} of weft yarn", yarn(size.weft_yarn_left)),
            "The warp yarn is used up, waste and all; this is what the weft leaves if both are as long as they likely are.",
        ),
        Limit::Weft => (
            format!("{} of warp yarn", yarn(size.warp_yarn_left)),
            "The weft yarn is used up; this is what the warp leaves if both are as long as they likely are.",
        ),
        Limit::Both => ("nothing".into(), "One yarn for both is used up to its end."),
    }
}

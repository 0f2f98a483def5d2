//! Why: the sums and the words behind the day.

use fellmark_projection::{Projection, ProjectionState};

use super::amount_words;
use super::projection::kind_words;
use crate::figures::exact_length;
use crate::figures::show_length;
use crate::lists_and_numbers::{listed, small_number};
use crate::planned_and_actual::step_name;
use fellmark_model::WarpLog;
use fellmark_model::display_format::{DisplayFormat, Units};
use fellmark_model::finishing;
use fellmark_model::forms::picks_in_units;
use fellmark_reports::finish_date::Measure;
use fellmark_reports::progress::Progress;

/// "40 cm to weave x 31 picks per 10 cm = 124 picks"; nothing when nothing is left.
pub(super) fn picks_to_weave(progress: &Progress, projection: &Projection, format: &DisplayFormat) -> Option<String> {
    let left = projection.reasons.picks_left.round();
    let to_weave = progress.to_weave_mm.filter(|mm| *mm > 0.0 && left > 0.0)?;
    if matches!(projection.state, ProjectionState::ReadyToCutOff | ProjectionState::Finishing { .. }) {
        return None;
    }
    let measure = Measure::for_progress(progress);
    if measure.stands_for_lengths {
        return Some(format!(
            "{} are still to weave; picks are not known on this warp, so it goes by lengths.",
            show_length(to_weave, format)
        ));
    }
    let (density, unit) = (picks_in_units(measure.picks_per_mm * 100.0, format.units), units(format));
    // As many decimals as it takes for the sum to come out when it is done again by hand.
    let shown_mm = |mm: f64| match format.units {
        Units::Metric => (mm.round(), 100.0),
        Units::Imperial => ((mm / 6.35).round() * 6.35, 25.4),
    };
    let (length, per) = shown_mm(to_weave);
    let comes_out = |places: i32| {
        let shown = (density * 10_f64.powi(places)).round() / 10_f64.powi(places);
        (length / per * shown).round() == left
    };
    let places = (1..=3).find(|places| comes_out(*places));
    Some(format!(
        "{} to weave \u{d7} {} {unit} {} {}.",
        exact_length(to_weave, format),
        format.number(density, places.unwrap_or(1) as usize),
        if places.is_some() { "=" } else { "\u{2248}" },
        amount_words(measure, left, format)
    ))
}

fn units(format: &DisplayFormat) -> &'static str {
    match format.units {
        Units::Metric => "picks per 10\u{a0}cm",
        Units::Imperial => "picks per inch",
    }
}

/// How fast each kind goes, where more than one was woven or is still to come; nothing where picks only stand for lengths.
pub(super) fn paces(progress: &Progress, projection: &Projection) -> Option<String> {
    let paces = &projection.reasons.paces;
    if paces.len() < 2 || Measure::for_progress(progress).stands_for_lengths {
        return None;
    }
    let reported = paces.iter().map(|pace| {
        let behind = match pace.timed_sittings {
            0 => "as it commonly goes beside the other".to_owned(),
            1 => "one sitting".to_owned(),
            many => format!("{many} sittings"),
        };
        format!("{} at some {:.0} picks an hour ({behind})", kind_words(&pace.kind), pace.picks_per_hour)
    });
    Some(format!("Each kind is reckoned at a pace of its own: {}.", reported.collect::<Vec<_>>().join(", ")))
}

/// What comes after the last pick, or is still to come, and how long it is likely to take.
pub(super) fn finishing_words(log: &WarpLog, projection: &Projection) -> String {
    let to_do = finishing::still_to_do(log, &[]);
    let names: Vec<String> = to_do.iter().map(|step| step_name(step.name.to_lowercase())).collect();
    if names.is_empty() {
        return "Nothing is left to do after the last pick.".into();
    }
    let list = listed(&names);
    let days = match projection.finishing_days_likely() {
        0 => "done the same day".to_owned(),
        1 => "one day".to_owned(),
        days => format!("{} days", small_number(i64::from(days))),
    };
    // Means add up, so those of the steps by themselves show whether finished warps moved them.
    let practice: f64 = to_do
        .iter()
        .map(|step| {
            let weights: f64 = step.days.iter().map(|(_, weight)| weight).sum();
            step.days.iter().map(|(days, weight)| f64::from(*days) * weight).sum::<f64>()
                / weights.max(f64::MIN_POSITIVE)
        })
        .sum();
    let whose = if (projection.finishing_days_mean() - practice).abs() > 1e-9 {
        "going by common practice and your own finished warps"
    } else {
        "by common practice; your own finished warps count as they come"
    };
    match (projection.state, names.len()) {
        (ProjectionState::Finishing { .. }, _) => format!("Still to do: {list}. Most often {days}, {whose}."),
        (_, 1) => format!("After the last pick comes {list}: {days} most often, {whose}."),
        _ => format!("After the last pick come {list}: {days} most often, {whose}."),
    }
}

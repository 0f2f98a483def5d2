//! A warp off the loom in words: planned and actual, finishing steps, what is missing, learned values.

use chrono::NaiveDate;

use crate::dates::DateText;
use crate::figures::show_density;
use crate::figures::{show_length, show_mass, show_minutes};
use crate::fill_forms::show_off_form;
use crate::learned;
use crate::lists_and_numbers::listed;
use crate::messages::declared::cloth as messages;
use crate::messages::text;
use crate::view::{OffView, PlannedAndActualRow, StepView};
use fellmark_model::WarpLog;
use fellmark_model::WarpState;
use fellmark_model::display_format::{DisplayFormat, Units};
use fellmark_model::finishing;
use fellmark_model::forms::picks_in_units;
use fellmark_reports::learned::{Similarity, WarpSample, from_samples};
use fellmark_reports::planned_and_actual::{
    ComparedQuantity, Comparison, FinishingStatus, MissingMeasure, comparisons, missing_measures,
};
use fellmark_reports::progress::Progress;

/// Differences smaller than this share are none: a tape is read to half a centimetre in a metre.
const TOLD_APART: f64 = 0.005;

/// Everything that is shown of a warp off the loom; `samples` is what lessons are learnt from, this warp's own included.
#[must_use]
pub fn view<'a>(
    log: &WarpLog,
    progress: &Progress,
    samples: impl IntoIterator<Item = &'a WarpSample>,
    format: &DisplayFormat,
    today: NaiveDate,
) -> OffView {
    let form = show_off_form(&log.warp, format);
    if log.warp.state != WarpState::OffTheLoom {
        return OffView { form, ..OffView::default() };
    }
    let step = |step: finishing::StepRecord| StepView {
        id: step.id.to_string(),
        name: step_name(step.name),
        done_on: step.done_on.map(|day| day.to_string()),
        done: step.done_on.map(|day| format.weekday_date(day, today)).unwrap_or_default(),
    };
    OffView {
        line: finishing_line(&FinishingStatus::of_warp(log), format, today),
        steps: finishing::steps(log).into_iter().map(step).collect(),
        planned_and_actual: planned_and_actual(log, progress, format, today),
        missing: missing_measures(log, progress).into_iter().map(|missing| missing_words(missing, format)).collect(),
        learned: learned::lines(&from_samples(samples, &Similarity::of(log)), format),
        form,
    }
}

/// The name of a finishing step; one that has none is still shown.
pub(crate) fn step_name(name: String) -> String {
    if name.is_empty() { "a step".into() } else { name }
}

/// How far finishing is, as a sentence.
#[must_use]
pub fn finishing_line(status: &FinishingStatus, format: &DisplayFormat, today: NaiveDate) -> String {
    if let Some(day) = status.finished_on {
        return format!("Finished {}.", on(day, format, today));
    }
    let cut = status.cut_on.map(|day| format!("Cut off {}", on(day, format, today)));
    let cut = cut.unwrap_or_else(|| "Cut off".into());
    let to_do: Vec<String> = status.to_do.iter().cloned().map(step_name).collect();
    if status.to_do.is_empty() { format!("{cut}.") } else { format!("{cut}; still to do: {}.", listed(&to_do)) }
}

fn on(day: NaiveDate, format: &DisplayFormat, today: NaiveDate) -> String {
    match (today - day).num_days() {
        0 | 1 => format.spoken_day(day, today),
        _ => format!("on {}", format.weekday_date(day, today)),
    }
}

fn missing_words(missing: MissingMeasure, format: &DisplayFormat) -> String {
    let words = match missing {
        MissingMeasure::PossibleTakeUp(per_100) => return text(&messages::take_up_beyond_cloth(per_100), format),
        MissingMeasure::RelaxedLength => "Length off the loom: it tells how much the cloth gave when the tension went.",
        MissingMeasure::Waste => {
            "What was cut off in front, and the thrums: they tell the loom waste and, with the warp wound, the real take-up."
        }
        MissingMeasure::Finished => {
            "Length and width after the wash: they tell what the next one must be woven longer and wider."
        }
        MissingMeasure::WovenLength => {
            "The length on the loom was never measured by a tape, so take-up and shrinkage cannot be told."
        }
    };
    words.to_owned()
}

/// The rows of the table.
#[must_use]
pub fn planned_and_actual(
    log: &WarpLog,
    progress: &Progress,
    format: &DisplayFormat,
    today: NaiveDate,
) -> Vec<PlannedAndActualRow> {
    let row = |comparison: Comparison| {
        let text = |figure: Option<f64>| figure.map(|figure| figure_words(comparison.quantity, figure, format));
        PlannedAndActualRow {
            what: quantity_name(comparison.quantity, log.warp.pieces),
            planned: text(comparison.planned).unwrap_or_default(),
            actual: text(comparison.actual).unwrap_or_default(),
            difference: difference_words(comparison, format),
        }
    };
    let mut rows: Vec<PlannedAndActualRow> = comparisons(log, progress).into_iter().map(row).collect();
    if let Some(day) = finishing::finished_on(log) {
        let gift = log.warp.gift_on;
        rows.push(PlannedAndActualRow {
            what: "Finished".into(),
            planned: gift.map(|day| format.date(day, today)).unwrap_or_default(),
            actual: format.date(day, today),
            difference: gift.map(|gift| days_apart((day - gift).num_days())).unwrap_or_default(),
        });
    }
    rows
}

fn quantity_name(quantity: ComparedQuantity, pieces: u32) -> String {
    let of_all = |name: &str| {
        if pieces > 1 { format!("{name}, {pieces} pieces together") } else { name.to_owned() }
    };
    match quantity {
        ComparedQuantity::WovenLength => of_all("Woven on the loom"),
        ComparedQuantity::RelaxedLength => of_all("Length off the loom"),
        ComparedQuantity::FinishedLength => of_all("Length after the wash"),
        ComparedQuantity::LengthLoss => "Length lost from loom to finished".into(),
        ComparedQuantity::TakeUp => "Take-up, of the cloth".into(),
        ComparedQuantity::LoomWaste => "Loom waste".into(),
        ComparedQuantity::FinishedWidth => "Width after the wash".into(),
        ComparedQuantity::WidthLoss => "Width lost from reed to finished".into(),
        ComparedQuantity::PicksOnLoom => "Picks on the loom".into(),
        ComparedQuantity::PicksFinished => "Picks in the finished cloth".into(),
        ComparedQuantity::WeftUsed => "Weft used".into(),
        ComparedQuantity::FinishedMass => "Weight".into(),
        ComparedQuantity::ArealMass => "Weight of the cloth".into(),
        ComparedQuantity::Minutes => "Time at the loom".into(),
    }
}

fn figure_words(quantity: ComparedQuantity, figure: f64, format: &DisplayFormat) -> String {
    match quantity {
        ComparedQuantity::WovenLength
        | ComparedQuantity::RelaxedLength
        | ComparedQuantity::FinishedLength
        | ComparedQuantity::LoomWaste
        | ComparedQuantity::FinishedWidth => show_length(figure, format),
        ComparedQuantity::LengthLoss | ComparedQuantity::TakeUp | ComparedQuantity::WidthLoss => {
            format!("{}\u{a0}%", format.number(figure, 1))
        }
        ComparedQuantity::PicksOnLoom | ComparedQuantity::PicksFinished => show_density(figure, format),
        ComparedQuantity::WeftUsed | ComparedQuantity::FinishedMass => show_mass(figure, format),
        ComparedQuantity::ArealMass => match format.units {
            Units::Metric => format!("{}\u{a0}g to the square metre", format.number(figure, 0)),
            // One ounce is 28.349 523 125 g and a yard 0.9144 m, exactly.
            Units::Imperial => {
                format!("{}\u{a0}oz to the square yard", format.number(figure * 0.9144 * 0.9144 / 28.349_523_125, 1))
            }
        },
        ComparedQuantity::Minutes => show_minutes(figure),
    }
}

/// "3 cm more"; empty unless both figures are known and a difference means something.
fn difference_words(comparison: Comparison, format: &DisplayFormat) -> String {
    let Some((planned, actual)) = comparison.planned.zip(comparison.actual) else { return String::new() };
    let off = actual - planned;
    if off.abs() <= TOLD_APART * planned.abs() {
        return "as planned".into();
    }
    let more = |few: &'static str| if off > 0.0 { "more" } else { few };
    match comparison.quantity {
        ComparedQuantity::WeftUsed => format!("{} left over", show_mass(off.abs(), format)),
        ComparedQuantity::LengthLoss | ComparedQuantity::TakeUp | ComparedQuantity::WidthLoss => {
            format!("{} points {}", format.number(off.abs(), 1), more("less"))
        }
        ComparedQuantity::PicksOnLoom | ComparedQuantity::PicksFinished => {
            format!("{} {}", format.number(picks_in_units(off.abs(), format.units), 1), more("fewer"))
        }
        quantity => format!("{} {}", figure_words(quantity, off.abs(), format), more("less")),
    }
}

fn days_apart(late: i64) -> String {
    let days = if late.abs() == 1 { "1 day".to_owned() } else { format!("{} days", late.abs()) };
    match late {
        0 => "on the day".into(),
        late if late > 0 => format!("{days} late"),
        _ => format!("{days} early"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use fellmark_model::off_loom::OffMeasures;
    use fellmark_model::tests::{log, sitting};

    fn finished() -> WarpLog {
        let mut log = log();
        log.warp.state = WarpState::OffTheLoom;
        log.warp.state_on = "2026-11-10".parse().ok();
        log.warp.shrinkage_percent = Some(8.0);
        log.sittings = vec![sitting(2, Some(720), Some(1800.0))];
        log.warp.off = OffMeasures {
            front_mm: Some(180.0),
            thrums_mm: Some(300.0),
            finished_mm: Some(1620.0),
            finished_width_mm: Some(180.0),
            finished_mass_g: Some(60.0),
            ..OffMeasures::default()
        };
        log
    }

    fn row(rows: &[PlannedAndActualRow], what: &str) -> [String; 3] {
        let row = rows.iter().find(|row| row.what == what).unwrap_or_else(|| panic!("{what} in {rows:?}")).clone();
        [row.planned, row.actual, row.difference]
    }

    #[test]
    fn planned_stands_beside_actual() {
        let log = finished();
        let today = "2026-11-25".parse().unwrap();
        let rows = planned_and_actual(&log, &Progress::of(&log, 0), &DisplayFormat::default(), today);
        assert_eq!(row(&rows, "Woven on the loom"), ["180\u{a0}cm", "180\u{a0}cm", "as planned"]);
        assert_eq!(row(&rows, "Length lost from loom to finished"), ["8\u{a0}%", "10\u{a0}%", "2 points more"]);
        // 2500 - 480 of warp in 1800 of cloth.
        assert_eq!(row(&rows, "Take-up, of the cloth"), ["10\u{a0}%", "12.2\u{a0}%", "2.2 points more"]);
        assert_eq!(row(&rows, "Loom waste"), ["45\u{a0}cm", "48\u{a0}cm", "3\u{a0}cm more"]);
        // The width in the reed is no plan of the width after the wash: what was lost is stated, 200 to 180.
        assert_eq!(row(&rows, "Width after the wash"), ["", "18\u{a0}cm", ""]);
        assert_eq!(row(&rows, "Width lost from reed to finished"), ["", "10\u{a0}%", ""]);
        // 60 g on 1.62 m x 0.18 m.
        assert_eq!(row(&rows, "Weight of the cloth"), ["", "206\u{a0}g to the square metre", ""]);
        assert!(!rows.iter().any(|row| row.what == "Length off the loom"), "neither planned nor measured");
        assert_eq!(missing_measures(&log, &Progress::of(&log, 0)), [MissingMeasure::RelaxedLength]);
    }

    #[test]
    fn the_line_names_what_is_still_to_do() {
        let log = finished();
        let today = "2026-11-25".parse().unwrap();
        let said = finishing_line(&FinishingStatus::of_warp(&log), &DisplayFormat::default(), today);
        assert_eq!(said, "Cut off on Tuesday 10 November; still to do: mend, hem, wash, dry, press and trim tails.");
        assert_eq!(days_apart(-2), "2 days early");
    }
}

//! The warp that a plan becomes.

use chrono::NaiveDate;

use super::sentences;
use super::words::{density_words, pieces_words};
use crate::dates::DateText;
use crate::figures::{about_words, show_length};
use crate::fill_forms::optional;
use crate::messages::error_view;
use crate::view::{ErrorView, PlanForm, WarpForm};
use fellmark_model::display_format::DisplayFormat;
use fellmark_model::forms::picks_in_units;
use fellmark_model::measures::Reader;
use fellmark_model::piece_lengths;
use fellmark_model::plan::{PlanInputs, PlannedFigures, PlannedWarp, WeaveChoice, YarnCertainty, read_plan_form};
use fellmark_reports::history::History;
use fellmark_reports::plan::{PlanReport, plan_report};

/// The warp a plan becomes, to be begun.
///
/// # Errors
/// A field of the plan that cannot be read, or too little is known to wind a warp.
pub fn planned_warp(
    history: &History,
    form: &PlanForm,
    format: &DisplayFormat,
    today: NaiveDate,
) -> Result<PlannedWarp, ErrorView> {
    let inputs = read_plan_form(form, format, today);
    if let Some(error) = inputs.errors.first() {
        return Err(error_view(error.clone(), format));
    }
    let report = plan_report(history, &inputs, format.units, today);
    match &report.planned {
        Some(figures) if report.error.is_none() => Ok(PlannedWarp {
            form: warp_form(form, &inputs, &report, figures, format, today),
            figures: figures.clone(),
            inputs,
        }),
        _ => Err(ErrorView::new(sentences::headline(&inputs, &report, format))),
    }
}

/// The form of the warp a plan becomes.
pub(super) fn warp_form(
    form: &PlanForm,
    inputs: &PlanInputs,
    report: &PlanReport,
    planned: &PlannedFigures,
    format: &DisplayFormat,
    today: NaiveDate,
) -> WarpForm {
    let read = Reader { format, today };
    let length = |mm: f64| read.show_length_for_form(mm);
    let number = |value: f64| format.form_number(value, 2);
    let density = |per_10cm: f64| format.form_number(picks_in_units(per_10cm, format.units), 3);
    let each = &planned.finished_with_hems_mm;
    let alike = planned.pieces_are_alike();
    let size = size_words(report, format);
    let name = form.name.trim();
    let separate_weft = inputs.from_yarn && !inputs.one_yarn;
    WarpForm {
        name: if name.is_empty() { format!("{size}, {}", format.date(today, today)) } else { name.into() },
        wound: length(planned.wound_mm),
        waste: length(planned.waste_mm),
        wanted: match each.first() {
            Some(first) if alike => length(*first),
            _ => piece_lengths::show(each, format),
        },
        wanted_state: "finished".into(),
        shrinkage_percent: number(planned.shrinkage_percent),
        fibre: inputs.fibre.map(|fibre| fibre.word().to_owned()).unwrap_or_default(),
        finish: inputs.fibre.map(|_| inputs.finish.word().to_owned()).unwrap_or_default(),
        pieces: if alike { each.len().to_string() } else { String::new() },
        fringe: optional(planned.fringe_mm, length),
        gap: optional(planned.gap_mm, length),
        fringe_from_waste: inputs.fringe_from_waste,
        picks: optional(planned.picks_per_10cm, density),
        sett: optional(planned.sett_per_10cm, density),
        warp_per_100: number(planned.warp_per_100),
        reed_width: optional(planned.reed_width_mm, length),
        weft_allowance_percent: number(planned.weft_allowance_percent),
        weft_name: form.weft_name.clone(),
        weft_mass: if separate_weft { form.weft_mass.clone() } else { String::new() },
        weft_length: match inputs.weft_supply {
            Some(supply) if separate_weft => {
                let about = about_words(supply.certainty == YarnCertainty::Approximate);
                format!("{about}{}", read.show_yarn_length_for_form(supply.length.likely.mm()))
            }
            _ => String::new(),
        },
        weave: match inputs.weave {
            WeaveChoice::PickUp => "pick_up".into(),
            WeaveChoice::Twill => String::new(),
            WeaveChoice::Plain | WeaveChoice::Other => "plain".into(),
        },
        opening: form.opening.clone(),
        repeat: form.repeat.clone(),
        balance: form.balance.clone(),
        closing: form.closing.clone(),
        gift_on: form.gift_on.clone(),
        days_a_week: form.days_a_week.clone(),
        minutes_a_day: form.minutes_a_day.clone(),
        note: note(report, &size, format),
        ..WarpForm::default()
    }
}

/// "25 cm × 180 cm".
fn size_words(report: &PlanReport, format: &DisplayFormat) -> String {
    let finished = report.lengths.as_ref().map(|lengths| lengths.finished_each()).unwrap_or_default();
    let pieces = pieces_words(&finished, format);
    match report.widths {
        Some(widths) => format!("{} \u{d7} {pieces}", show_length(widths.finished.mm(), format)),
        None => pieces,
    }
}

fn note(report: &PlanReport, size: &str, format: &DisplayFormat) -> String {
    let sett = report.sett.as_ref().and_then(|sett| sett.ends);
    let ends = match (report.widths, sett) {
        (Some(widths), Some((ends_in, _))) => {
            format!(" {} ends, {}.", widths.ends, density_words(ends_in.density(), format))
        }
        _ => String::new(),
    };
    format!("Planned: {size}, finished.{ends}")
}

#[cfg(test)]
mod tests {
    use fellmark_journal::{Journal, Options};

    use super::*;
    use crate::plan::plan_view_of_state;
    use crate::plan::tests::begin;
    use fellmark_model::commands::Commands;
    use fellmark_model::display_format::Units;

    fn plan(length: &str, picks: &str, further: &str, shrinkage: &str) -> PlanForm {
        PlanForm {
            length: length.into(),
            further: further.into(),
            width: "31.3 cm".into(),
            sett: "40 per 10 cm".into(),
            picks: picks.into(),
            shrinkage_percent: shrinkage.into(),
            release_percent: "2.345".into(),
            warp_per_100: "107.777".into(),
            ..PlanForm::default()
        }
    }

    #[test]
    fn the_warp_takes_the_picks_that_the_plan_said() {
        let home = tempfile::tempdir().unwrap();
        let (folder, local) = (home.path().join("folder"), home.path().join("local"));
        std::fs::create_dir_all(&folder).unwrap();
        let mut options = Options::new(folder, local, "test");
        options.create = true;
        let mut journal = Journal::open(options).unwrap();
        let today = NaiveDate::from_ymd_opt(2026, 11, 25).unwrap();
        for units in [Units::Metric, Units::Imperial] {
            let format = DisplayFormat::default().in_units(units);
            for (length, picks, further, shrinkage) in [
                ("180 cm", "10 ppi", "", "7.777"),
                ("71 1/3 in", "32 per 10 cm", "", "13.3333"),
                ("1.001 m", "8.3 ppi", "40.04 cm; 15 in", "9.995"),
                ("93.7 cm", "41.7 per 10 cm", "", ""),
                ("2.22 yd", "12.5 ppi", "", "11.115"),
                ("100 cm", "36 per 10 cm", "", "10"),
            ] {
                let form = plan(length, picks, further, shrinkage);
                let view = plan_view_of_state(journal.state(), &form, &format, today);
                assert!(view.errors.is_empty(), "{:?}", view.errors);
                let reported = &view.figures.iter().find(|figure| figure.id == "picks").unwrap().value;
                let mut commands = Commands { journal: &mut journal, format, today };
                let id = begin(&mut commands, &form).unwrap();
                let log = fellmark_model::warp_log(journal.state(), &id).unwrap();
                let progress = fellmark_reports::progress::Progress::of(&log, 0);
                let mut figures = crate::view::Figures::default();
                let _ = crate::progress::answer(&log, &progress, None, &format, today, &mut figures);
                assert_eq!(figures.to_weave_picks.to_string(), *reported, "{length} in {units:?}");
                // Nor does a sentence that rounds to whole picks say one less.
                assert_eq!(format!("{:.0}", progress.to_weave_picks.unwrap()), *reported, "{length} in {units:?}");
                assert_eq!(format!("{:.0}", view.plain.picks.unwrap()), *reported, "{length} in {units:?}");
                // Looked at in its form and kept again, in either units, it stays what it was.
                for shown in [Units::Metric, Units::Imperial] {
                    let format = DisplayFormat::default().in_units(shown);
                    let form = crate::fill_forms::show_warp_form(&log.warp, log.wefts.first(), &format);
                    let entries = journal.state().len();
                    Commands { journal: &mut journal, format, today }.change_warp(&id, &form, &[]).unwrap();
                    assert_eq!(journal.state().len(), entries, "{length} in {units:?}, looked at in {shown:?}");
                }
            }
        }
    }
}

//! A plan as it is shown: figures with their reasons, what can be taken over, pictures, and the form of the warp it becomes.

mod begin;
mod copies;
mod figures;
mod offers;
mod picture;
mod rule_of_thumb;
mod saved;
mod sentences;
mod sizes;
#[cfg(test)]
mod tests;
mod time;
mod words;

use chrono::NaiveDate;
use fellmark_journal::EntrySet;

pub use begin::planned_warp;
pub use copies::earlier_plans;
pub use saved::saved_plans;

use crate::messages::error_view;
use crate::understood::understand;
use crate::view::{ErrorView, PlanFigures, PlanFill, PlanForm, PlanView};
use fellmark_model::display_format::DisplayFormat;
use fellmark_model::plan::{PlanInputs, read_plan_form};
use fellmark_reports::history::History;
use fellmark_reports::plan::{MOST_LISTED_PIECES, PlanReport, plan_report};
use fellmark_reports::report_cache::ReportCache;

/// The view of a plan as far as it is typed, where the earlier warps are read for this one view.
#[must_use]
pub fn plan_view_of_state(state: &EntrySet, form: &PlanForm, format: &DisplayFormat, today: NaiveDate) -> PlanView {
    plan_view(&ReportCache::of_state(state).history(), form, format, today)
}

/// The view of a plan as far as it is typed, with what earlier warps show. Nothing is refused: errors stand beside their fields.
#[must_use]
pub fn plan_view(history: &History, form: &PlanForm, format: &DisplayFormat, today: NaiveDate) -> PlanView {
    let inputs = read_plan_form(form, format, today);
    let report = plan_report(history, &inputs, format.units, today);
    view_of(form, &inputs, &report, format, today)
}

fn view_of(
    form: &PlanForm,
    inputs: &PlanInputs,
    report: &PlanReport,
    format: &DisplayFormat,
    today: NaiveDate,
) -> PlanView {
    let mut view = PlanView {
        errors: inputs.errors.iter().map(|error| error_view(error.clone(), format)).collect(),
        understood: understood(form, format, today),
        missing: report.missing.iter().map(|missing| sentences::missing(*missing).to_owned()).collect(),
        headline: sentences::headline(inputs, report, format),
        warnings: report.warnings.iter().map(|warning| sentences::warning(warning, inputs, format)).collect(),
        figures: figures::figures(inputs, report, format),
        rule_of_thumb: rule_of_thumb::answer(report, format),
        offers: offers::offers(inputs, report, format),
        finish_date: report.time.as_ref().map(|time| time::answer(time, inputs, format, today)),
        picture: report.lengths.as_ref().map(|lengths| picture::picture(lengths, format)),
        curve: report.sizes.as_ref().map(|sizes| sizes::curve(sizes, inputs, format)),
        plain: plain_figures(report),
        begin: report.planned.as_ref().map(|planned| begin::warp_form(form, inputs, report, planned, format, today)),
    };
    if report.error.is_some() {
        view.errors.push(ErrorView::new(view.headline.clone()));
    }
    view
}

/// What measures were read as, so that a wrong unit is noticed.
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
        ("sett", "sett", &form.sett),
        ("wraps", "wraps", &form.wraps),
        ("density", "picks", &form.picks),
        ("yarn_number", "warp_count", &form.warp_count),
        ("yarn_number", "weft_count", &form.weft_count),
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

/// The report as plain numbers, for programs.
fn plain_figures(report: &PlanReport) -> PlanFigures {
    let lengths = report.lengths.as_ref();
    let reed = report.widths.map(|widths| widths.reed).or(report.reed_width_wanted);
    let mut plain = PlanFigures {
        warp_mm: lengths.map(|lengths| lengths.wound.mm()),
        warp_exact_mm: lengths.map(|lengths| lengths.exact.mm()),
        rule_of_thumb_mm: report.rule_of_thumb.map(|rule| rule.warp.mm()),
        ends: report.widths.map(|widths| widths.ends),
        reed_width_mm: reed.map(|reed| reed.mm()),
        finished_width_mm: report.widths.map(|widths| widths.finished.mm()),
        finished_mm: lengths
            .map(|lengths| lengths.finished_each().iter().map(|one| one.mm()).collect())
            .unwrap_or_default(),
        woven_mm: lengths.map(|lengths| lengths.woven.mm()),
        warp_yarn_m: report.warp_yarn.map(|yarn| yarn.length.m()),
        warp_yarn_g: report.warp_yarn.and_then(|yarn| yarn.mass).map(|mass| mass.g()),
        weft_yarn_m: report.weft.map(|weft| weft.total.length.m()),
        weft_yarn_g: report.weft.and_then(|weft| weft.total.mass).map(|mass| mass.g()),
        picks: report.weft.map(|weft| weft.picks),
        ..PlanFigures::default()
    };
    plain.finished_mm.truncate(MOST_LISTED_PIECES);
    if let Some(time) = &report.time {
        time::fill_plain(time, &mut plain);
    }
    plain
}

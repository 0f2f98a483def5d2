//! Plans: calculated, saved for later, begun.

use chrono::NaiveDate;
use fellmark_journal::RecordId;
use fellmark_model::display_format::DisplayFormat;
use fellmark_model::plan::plan_form_from_warp;
use fellmark_present::plan;
use fellmark_present::view::{Answer, ErrorView, PlanForm, PlanView, WarpState};
use serde_json::json;

use super::Runner;
use crate::args::{PlanArgs, plan_argument};
use crate::output::{Failure, Output};

fn plan_input(trouble: ErrorView) -> Failure {
    let named = trouble.field.as_deref().map(|field| plan_argument(field).map(str::to_owned));
    match named {
        Some(Some(argument)) => Failure::input(ErrorView { field: Some(argument), ..trouble }),
        Some(None) => Failure::input(ErrorView {
            field: trouble.field.as_deref().map(|field| format!("--{}", field.replace('_', "-"))),
            ..trouble
        }),
        None => Failure::input(trouble),
    }
}

impl Runner {
    /// A plan; what cannot be read is refused here, since nobody sees it while it is typed.
    pub(super) fn plan(
        &mut self,
        mut figures: PlanArgs,
        why: bool,
        begin: bool,
        save: bool,
    ) -> Result<Output, Failure> {
        let mut form = PlanForm::default();
        let mut from = String::new();
        if let Some(copy) = figures.copy.take() {
            let log = self.find_warp(&copy)?;
            if log.warp.state == WarpState::Removed {
                return Err(Failure::not_found("This warp was removed; `restore` brings it back."));
            }
            form = plan_form_from_warp(self.session.state(), &log, &self.format());
        } else if let Some(named) = figures.saved.take() {
            let (id, found) = self.find_plan(&named)?;
            (from, form) = (id.to_string(), found);
        }
        figures.over(&mut form);
        let view = self.session.calculate_plan(&form);
        if let Some(error) = view.errors.first() {
            return Err(plan_input(error.clone()));
        }
        if save {
            let id = self.session.save_plan(&form, &from).map_err(plan_input)?;
            return Ok(Output::done(format!("{}\nKept: {id}", view.headline), json!({ "plan": view, "saved": id })));
        }
        if !begin {
            return Ok(plan_output(&view, why));
        }
        let warp = self.session.begin_planned_warp(&form, &from).map_err(plan_input)?;
        Ok(Output::done(format!("{}\nBegun: {warp}", view.headline), json!({ "plan": view, "warp": warp })))
    }

    /// A saved plan by its id, the beginning of its id, or its exact name.
    fn find_plan(&self, named: &str) -> Result<(RecordId, PlanForm), Failure> {
        let plans = plan::saved_plans(self.session.state(), None);
        let mut found: Vec<_> = plans.iter().filter(|plan| plan.record.starts_with(named)).collect();
        if found.is_empty() {
            found = plans.iter().filter(|plan| plan.name == named).collect();
        }
        match found.as_slice() {
            [one] => {
                let id = one.record.parse().map_err(|_| Failure::not_found("This plan has no id."))?;
                Ok((id, one.form.clone()))
            }
            [] => {
                Err(Failure::not_found(format!("No plan is kept here as \u{201c}{named}\u{201d}; `plans` lists them.")))
            }
            _ => Err(Failure::not_found(format!("Several plans are called \u{201c}{named}\u{201d}; give an id."))),
        }
    }

    pub(super) fn plans(&self) -> Output {
        let plans = plan::saved_plans(self.session.state(), None);
        let lines: Vec<String> =
            plans.iter().map(|plan| format!("{}  {}: {}", plan.record, plan.name, plan.line)).collect();
        let text = if lines.is_empty() { "No plan is kept.".to_owned() } else { lines.join("\n") };
        Output::done(text, json!({ "plans": plans }))
    }
}

/// A plan where there is no log: nothing is known from earlier warps.
pub(super) fn plan_without_log(
    figures: PlanArgs,
    why: bool,
    format: &DisplayFormat,
    today: NaiveDate,
) -> Result<Output, Failure> {
    let mut form = PlanForm::default();
    figures.over(&mut form);
    let view = fellmark_session::plan_without_log(&form, format, today);
    match view.errors.first() {
        Some(error) => Err(plan_input(error.clone())),
        None => Ok(plan_output(&view, why)),
    }
}

fn plan_output(view: &PlanView, why: bool) -> Output {
    Output::done(plan_text(view, why), json!({ "plan": view }))
}

/// The plan for people.
fn plan_text(view: &PlanView, why: bool) -> String {
    let mut lines = vec![view.headline.clone()];
    for figure in &view.figures {
        lines.push(format!("  {}: {}", figure.label, figure.value));
        if why {
            lines.extend(figure.why.iter().map(|line| format!("      {line}")));
        }
    }
    let mut answer = |answer: &Answer| {
        lines.push(format!("  {}", answer.headline));
        lines.extend(answer.more.iter().map(|line| format!("    {line}")));
        if why {
            lines.extend(answer.why.iter().map(|line| format!("      {line}")));
        }
    };
    if let Some(thumb) = &view.rule_of_thumb {
        answer(thumb);
    }
    if let Some(when) = &view.finish_date {
        answer(when);
    }
    lines.extend(view.warnings.iter().map(|line| format!("  {line}")));
    let argument =
        |field: &str| plan_argument(field).map_or_else(|| format!("--{}", field.replace('_', "-")), str::to_owned);
    lines.extend(view.understood.iter().map(|read| format!("  {} is read as {}", argument(&read.field), read.text)));
    for offer in view.offers.iter().filter(|offer| offer.in_use) {
        lines.push(format!("  {}: {}", argument(&offer.field), offer.line));
    }
    lines.join("\n")
}

//! Plans: reckoned, kept for later, begun.

use fellmark_answers::model::plan::plan_form_from_warp;
use fellmark_answers::present::messages::error_view;
use fellmark_answers::present::plan;
use fellmark_answers::present::view::{PlanForm, UserError, WarpState};
use fellmark_answers::reports::reckoned::History;
use fellmark_journal::RecordId;
use serde_json::json;

use super::Desk;
use crate::plan::PlanArgs;
use crate::say::{Failure, Said};

fn plan_input(trouble: UserError) -> Failure {
    let named = trouble.field.as_deref().map(|field| crate::plan::argument_of(field).map(str::to_owned));
    match named {
        Some(Some(argument)) => Failure::input(UserError { field: Some(argument), ..trouble }),
        Some(None) => Failure::input(UserError {
            field: trouble.field.as_deref().map(|field| format!("--{}", field.replace('_', "-"))),
            ..trouble
        }),
        None => Failure::input(trouble),
    }
}

impl Desk {
    /// A plan; what cannot be read is refused here, since nobody looks on while it is typed.
    pub(super) fn plan(&mut self, mut figures: PlanArgs, why: bool, begin: bool, keep: bool) -> Result<Said, Failure> {
        let mut form = PlanForm::default();
        let mut kept = None;
        if let Some(copy) = figures.copy.take() {
            let log = self.find_warp(&copy)?;
            if log.warp.state == WarpState::Removed {
                return Err(Failure::not_found("This warp was removed; `restore` brings it back."));
            }
            form = plan_form_from_warp(self.journal.state(), &log, &self.format);
        } else if let Some(named) = figures.kept.take() {
            let (id, found) = self.find_plan(&named)?;
            (kept, form) = (Some(id), found);
        }
        figures.over(&mut form);
        let history = History::of_state(self.journal.state());
        let view = plan::plan_view(&history, &form, &self.format, self.today);
        if let Some(trouble) = view.troubles.first() {
            return Err(plan_input(trouble.clone()));
        }
        let format = self.format;
        let in_format = |error| plan_input(error_view(error, &format));
        if keep {
            let id = self.pen().keep_plan(&form, kept.as_ref()).map_err(in_format)?;
            return Ok(Said::done(format!("{}\nKept: {id}", view.headline), json!({ "plan": view, "kept": id })));
        }
        if !begin {
            return Ok(Said::done(crate::plan::text(&view, why), json!({ "plan": view })));
        }
        let warp = {
            let planned = plan::planned_warp(&history, &form, &self.format, self.today).map_err(plan_input)?;
            self.pen().begin_planned(&planned, kept.as_ref()).map_err(in_format)?
        };
        Ok(Said::done(format!("{}\nBegun: {warp}", view.headline), json!({ "plan": view, "warp": warp })))
    }

    /// A kept plan by its id, the beginning of its id, or its exact name.
    fn find_plan(&self, named: &str) -> Result<(RecordId, PlanForm), Failure> {
        let plans = plan::saved_plans(self.journal.state(), None);
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

    pub(super) fn plans(&self) -> Said {
        let plans = plan::saved_plans(self.journal.state(), None);
        let lines: Vec<String> =
            plans.iter().map(|plan| format!("{}  {}: {}", plan.record, plan.name, plan.line)).collect();
        let text = if lines.is_empty() { "No plan is kept.".to_owned() } else { lines.join("\n") };
        Said::done(text, json!({ "plans": plans }))
    }
}

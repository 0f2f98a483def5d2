//! Plans: the form as typed values, plans that are kept for later, and an earlier warp as a plan.

mod form;
mod from_warp;
mod inputs;
pub mod messages;
mod planned_warp;
mod saved;

pub use form::read_plan_form;
pub use from_warp::plan_form_from_warp;
pub use inputs::{AshenhurstChoice, EdgeKind, MeasuredTakeUp, PlanInputs, WeaveChoice, YarnCertainty, YarnSupply};
pub use planned_warp::{PlannedFigures, PlannedWarp};
pub use saved::stored_fields;
pub use saved::{has_content, saved_plan, saved_plans};

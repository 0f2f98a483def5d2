//! A plan: reckon it, keep it, copy an earlier one, begin its warp.

use fellmark_answers::present::view::{AppView, EarlierPlan, PlanForm, PlanView, UserError};
use serde::Serialize;
use tauri::State;

use crate::Shared;

/// The desk after a plan was kept, and the plan's record.
#[derive(Serialize)]
pub struct PlanIsKept {
    desk: AppView,
    record: String,
}

/// See the workshop.
#[tauri::command(async)]
pub fn reckon_plan(shared: State<'_, Shared>, form: PlanForm, from: &str) -> Result<PlanView, UserError> {
    shared.lock().reckon_plan(&form, from)
}

/// See the workshop.
#[tauri::command(async)]
pub fn keep_plan(shared: State<'_, Shared>, form: PlanForm, from: &str) -> Result<PlanIsKept, UserError> {
    let (desk, record) = shared.lock().keep_plan(&form, from)?;
    Ok(PlanIsKept { desk, record })
}

/// See the workshop.
#[tauri::command(async)]
pub fn earlier_plans(shared: State<'_, Shared>) -> Result<Vec<EarlierPlan>, UserError> {
    shared.lock().earlier_plans()
}

/// See the workshop.
#[tauri::command(async)]
pub fn begin_planned(shared: State<'_, Shared>, form: PlanForm, from: &str) -> Result<AppView, UserError> {
    shared.lock().begin_planned(&form, from)
}

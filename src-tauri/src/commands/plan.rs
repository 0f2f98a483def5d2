//! A plan: reckon it, keep it, copy an earlier one, begin its warp.

use fellmark_answers::present::view::{AppView, EarlierPlan, PlanForm, PlanView, UserError};
use serde::Serialize;
use tauri::State;

use crate::Shared;

/// The view after a plan was kept, and the plan's record.
#[derive(Serialize)]
pub struct SavedPlan {
    view: AppView,
    record: String,
}

/// See the workshop.
#[tauri::command(async)]
pub fn calculate_plan(shared: State<'_, Shared>, form: PlanForm, from: &str) -> Result<PlanView, UserError> {
    shared.lock().calculate_plan(&form, from)
}

/// See the workshop.
#[tauri::command(async)]
pub fn save_plan(shared: State<'_, Shared>, form: PlanForm, from: &str) -> Result<SavedPlan, UserError> {
    let (view, record) = shared.lock().save_plan(&form, from)?;
    Ok(SavedPlan { view, record })
}

/// See the workshop.
#[tauri::command(async)]
pub fn earlier_plans(shared: State<'_, Shared>) -> Result<Vec<EarlierPlan>, UserError> {
    shared.lock().earlier_plans()
}

/// See the workshop.
#[tauri::command(async)]
pub fn begin_planned_warp(shared: State<'_, Shared>, form: PlanForm, from: &str) -> Result<AppView, UserError> {
    shared.lock().begin_planned_warp(&form, from)
}

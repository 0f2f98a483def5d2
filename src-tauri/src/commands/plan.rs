//! A plan: reckon it, copy an earlier one, begin its warp.

use fellmark_answers::view::{Desk, EarlierPlan, PlanForm, PlanView, Trouble};
use tauri::State;

use crate::Shared;

/// See the workshop.
#[tauri::command(async)]
pub fn reckon_plan(shared: State<'_, Shared>, form: PlanForm) -> Result<PlanView, Trouble> {
    shared.lock().reckon_plan(&form)
}

/// See the workshop.
#[tauri::command(async)]
pub fn earlier_plans(shared: State<'_, Shared>) -> Result<Vec<EarlierPlan>, Trouble> {
    shared.lock().earlier_plans()
}

/// See the workshop.
#[tauri::command(async)]
pub fn begin_planned(shared: State<'_, Shared>, form: PlanForm) -> Result<Desk, Trouble> {
    shared.lock().begin_planned(&form)
}

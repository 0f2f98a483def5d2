//! A plan: calculate it, save it, copy an earlier one, begin its warp. `from` is the saved plan it came from, or empty.

use fellmark_present::view::{AppView, EarlierPlan, ErrorView, PlanForm, PlanView};
use serde::Serialize;
use tauri::State;

use crate::SharedWorkspace;

/// The view after a plan was saved, and the plan's record.
#[derive(Serialize)]
pub struct SavedPlan {
    view: AppView,
    record: String,
}

/// Calculates a plan while it is typed, and remembers it as it stands.
#[tauri::command(async)]
pub fn calculate_plan(shared: State<'_, SharedWorkspace>, form: PlanForm, from: &str) -> Result<PlanView, ErrorView> {
    Ok(shared.lock().session()?.calculate_typed_plan(&form, from))
}

/// Saves a plan that is not begun.
#[tauri::command(async)]
pub fn save_plan(shared: State<'_, SharedWorkspace>, form: PlanForm, from: &str) -> Result<SavedPlan, ErrorView> {
    let mut workspace = shared.lock();
    let record = workspace.session()?.save_plan(&form, from)?.to_string();
    Ok(SavedPlan { view: workspace.view(), record })
}

/// The earlier warps a plan can be copied from.
#[tauri::command(async)]
pub fn earlier_plans(shared: State<'_, SharedWorkspace>) -> Result<Vec<EarlierPlan>, ErrorView> {
    Ok(shared.lock().session()?.earlier_plans())
}

/// Begins the warp a plan has become, and shows it.
#[tauri::command(async)]
pub fn begin_planned_warp(
    shared: State<'_, SharedWorkspace>,
    form: PlanForm,
    from: &str,
) -> Result<AppView, ErrorView> {
    shared.change(|workspace| workspace.begin_and_show(|session| session.begin_planned_warp(&form, from)))
}

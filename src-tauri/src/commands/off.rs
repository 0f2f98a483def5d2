//! Off the loom: cutting off, what was measured, the finishing steps.

use fellmark_present::view::{AppView, ErrorView, OffForm};
use fellmark_session::{entry_keys, record_id};
use tauri::State;

use crate::SharedWorkspace;

/// Cuts a warp off, or changes what was measured of one that is off.
#[tauri::command(async)]
pub fn cut_off(
    shared: State<'_, SharedWorkspace>,
    warp: &str,
    form: OffForm,
    seen: Vec<String>,
) -> Result<AppView, ErrorView> {
    shared.change(|workspace| workspace.session()?.cut_off(&record_id(warp)?, &form, &entry_keys(&seen)))
}

/// Ticks a finishing step as done on a day, or takes the tick away.
#[tauri::command(async)]
pub fn tick_step(
    shared: State<'_, SharedWorkspace>,
    warp: &str,
    step: &str,
    on: Option<&str>,
) -> Result<AppView, ErrorView> {
    shared.change(|workspace| workspace.session()?.tick_step(&record_id(warp)?, &record_id(step)?, on))
}

/// Gives a finishing step a name and the day it was done.
#[tauri::command(async)]
pub fn change_step(
    shared: State<'_, SharedWorkspace>,
    warp: &str,
    step: &str,
    name: &str,
    on: &str,
) -> Result<AppView, ErrorView> {
    shared.change(|workspace| workspace.session()?.change_step(&record_id(warp)?, &record_id(step)?, name, on))
}

/// Adds a finishing step.
#[tauri::command(async)]
pub fn add_step(shared: State<'_, SharedWorkspace>, warp: &str, name: &str) -> Result<AppView, ErrorView> {
    shared.change(|workspace| workspace.session()?.add_step(&record_id(warp)?, name))
}

/// Removes a finishing step.
#[tauri::command(async)]
pub fn remove_step(shared: State<'_, SharedWorkspace>, warp: &str, step: &str) -> Result<AppView, ErrorView> {
    shared.change(|workspace| workspace.session()?.remove_step(&record_id(warp)?, &record_id(step)?))
}

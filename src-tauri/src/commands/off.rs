//! Off the loom: cutting off, what was measured, the finishing steps.

use fellmark_answers::present::view::{AppView, OffForm, UserError};
use tauri::State;

use crate::Shared;

/// See the workshop.
#[tauri::command(async)]
pub fn cut_off(shared: State<'_, Shared>, warp: &str, form: OffForm, seen: Vec<String>) -> Result<AppView, UserError> {
    shared.lock().cut_off(warp, &form, &seen)
}

/// See the workshop.
#[tauri::command(async)]
pub fn tick_step(shared: State<'_, Shared>, warp: &str, step: &str, on: Option<&str>) -> Result<AppView, UserError> {
    shared.lock().tick_step(warp, step, on)
}

/// See the workshop.
#[tauri::command(async)]
pub fn change_step(
    shared: State<'_, Shared>,
    warp: &str,
    step: &str,
    name: &str,
    on: &str,
) -> Result<AppView, UserError> {
    shared.lock().change_step(warp, step, name, on)
}

/// See the workshop.
#[tauri::command(async)]
pub fn add_step(shared: State<'_, Shared>, warp: &str, name: &str) -> Result<AppView, UserError> {
    shared.lock().add_step(warp, name)
}

/// See the workshop.
#[tauri::command(async)]
pub fn remove_step(shared: State<'_, Shared>, warp: &str, step: &str) -> Result<AppView, UserError> {
    shared.lock().remove_step(warp, step)
}

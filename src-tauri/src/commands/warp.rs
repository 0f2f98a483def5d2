//! A warp: begin it, change it, say where it is.

use fellmark_answers::present::view::{AppView, UserError, WarpForm};
use tauri::State;

use crate::Shared;

/// See the workshop.
#[tauri::command(async)]
pub fn show_warp(shared: State<'_, Shared>, warp: &str) -> Result<AppView, UserError> {
    shared.lock().show(warp)
}

/// See the workshop.
#[tauri::command(async)]
pub fn begin_warp(shared: State<'_, Shared>, form: WarpForm) -> Result<AppView, UserError> {
    shared.lock().begin_warp(&form)
}

/// See the workshop.
#[tauri::command(async)]
pub fn change_warp(
    shared: State<'_, Shared>,
    warp: &str,
    form: WarpForm,
    seen: Vec<String>,
) -> Result<AppView, UserError> {
    shared.lock().change_warp(warp, &form, &seen)
}

/// See the workshop.
#[tauri::command(async)]
pub fn set_warp_state(shared: State<'_, Shared>, warp: &str, state: &str) -> Result<AppView, UserError> {
    shared.lock().set_warp_state(warp, state)
}

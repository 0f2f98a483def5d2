//! At the loom: the tap and getting up.

use fellmark_answers::present::view::{FinishForm, RunningView, SittingForm, UserError};
use tauri::State;

use crate::Shared;
use crate::workshop::SavedSitting;

/// See the workshop.
#[tauri::command(async)]
pub fn tap(shared: State<'_, Shared>, by: i64) -> Result<RunningView, UserError> {
    shared.lock().tap(by)
}

/// See the workshop.
#[tauri::command(async)]
pub fn set_pick_begun(shared: State<'_, Shared>, begun: bool) -> Result<RunningView, UserError> {
    shared.lock().set_pick_begun(begun)
}

/// See the workshop.
#[tauri::command(async)]
pub fn finish_form(shared: State<'_, Shared>) -> Result<FinishForm, UserError> {
    shared.lock().finish_form()
}

/// See the workshop.
#[tauri::command(async)]
pub fn finish_sitting(shared: State<'_, Shared>, form: SittingForm) -> Result<SavedSitting, UserError> {
    shared.lock().finish_sitting(&form)
}

/// Whether the desktop keeps the screen awake while she weaves; nothing where the page has to ask the web view.
#[tauri::command(async)]
pub fn screen_is_held(shared: State<'_, Shared>) -> Option<bool> {
    shared.screen_is_held()
}

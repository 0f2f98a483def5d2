//! At the loom: the tap and getting up.

use fellmark_answers::present::view::{GettingUp, RunningView, SittingForm, UserError};
use tauri::State;

use crate::Shared;
use crate::workshop::Kept;

/// See the workshop.
#[tauri::command(async)]
pub fn tap(shared: State<'_, Shared>, by: i64) -> Result<RunningView, UserError> {
    shared.lock().tap(by)
}

/// See the workshop.
#[tauri::command(async)]
pub fn pick_begun(shared: State<'_, Shared>, begun: bool) -> Result<RunningView, UserError> {
    shared.lock().pick_begun(begun)
}

/// See the workshop.
#[tauri::command(async)]
pub fn getting_up(shared: State<'_, Shared>) -> Result<GettingUp, UserError> {
    shared.lock().getting_up()
}

/// See the workshop.
#[tauri::command(async)]
pub fn get_up(shared: State<'_, Shared>, form: SittingForm) -> Result<Kept, UserError> {
    shared.lock().get_up(&form)
}

/// Whether the desktop keeps the screen awake while she weaves; nothing where the page has to ask the web view.
#[tauri::command(async)]
pub fn screen_is_held(shared: State<'_, Shared>) -> Option<bool> {
    shared.screen_is_held()
}

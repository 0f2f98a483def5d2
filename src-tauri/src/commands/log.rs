//! What can be done to any record.

use fellmark_answers::present::view::{AppView, Understood, UserError};
use tauri::State;

use crate::Shared;

/// See the workshop.
#[tauri::command(async)]
pub fn remove(shared: State<'_, Shared>, record: &str) -> Result<AppView, UserError> {
    shared.lock().remove(record)
}

/// See the workshop.
#[tauri::command(async)]
pub fn restore(shared: State<'_, Shared>, record: &str) -> Result<AppView, UserError> {
    shared.lock().restore(record)
}

/// See the workshop.
#[tauri::command(async)]
pub fn resolve(shared: State<'_, Shared>, record: &str, field: &str, key: &str) -> Result<AppView, UserError> {
    shared.lock().resolve(record, field, key)
}

/// See the workshop.
#[tauri::command(async)]
pub fn undo(shared: State<'_, Shared>) -> Result<(AppView, Option<String>), UserError> {
    shared.lock().undo()
}

/// See the workshop.
#[tauri::command(async)]
pub fn interpret(shared: State<'_, Shared>, what: &str, text: &str) -> Result<Understood, UserError> {
    Ok(shared.lock().interpret(what, text))
}

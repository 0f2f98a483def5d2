//! What can be done to any record.

use fellmark_present::view::{AppView, ErrorView, Understood};
use fellmark_session::record_id;
use tauri::State;

use crate::SharedWorkspace;

/// Removes a record.
#[tauri::command(async)]
pub fn remove(shared: State<'_, SharedWorkspace>, record: &str) -> Result<AppView, ErrorView> {
    shared.change(|workspace| workspace.session()?.remove(&record_id(record)?))
}

/// Restores a removed record.
#[tauri::command(async)]
pub fn restore(shared: State<'_, SharedWorkspace>, record: &str) -> Result<AppView, ErrorView> {
    shared.change(|workspace| workspace.session()?.restore(&record_id(record)?))
}

/// Chooses one of the values that devices gave a field at the same time.
#[tauri::command(async)]
pub fn resolve(shared: State<'_, SharedWorkspace>, record: &str, field: &str, key: &str) -> Result<AppView, ErrorView> {
    shared.change(|workspace| workspace.session()?.resolve(&record_id(record)?, field, key))
}

/// Takes back what this device did last; with what should be known of it besides.
#[tauri::command(async)]
pub fn undo(shared: State<'_, SharedWorkspace>) -> Result<(AppView, Option<String>), ErrorView> {
    let mut workspace = shared.lock();
    let undone = workspace.session()?.undo()?;
    Ok((workspace.view(), undone.and_then(|undone| undone.note)))
}

/// What a typed measure is understood as.
#[tauri::command(async)]
pub fn interpret(shared: State<'_, SharedWorkspace>, what: &str, text: &str) -> Understood {
    shared.lock().interpret(what, text)
}

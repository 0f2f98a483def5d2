//! The folder, the example and this device.

use fellmark_answers::present::view::{AppView, UserError};
use tauri::{AppHandle, State};
use tauri_plugin_dialog::DialogExt;

use crate::Shared;
use crate::reading::FolderReading;

/// See the workshop.
#[tauri::command(async)]
pub fn view(shared: State<'_, Shared>, locale: &str) -> AppView {
    shared.lock().view_for(locale)
}

/// See the workshop.
#[tauri::command(async)]
pub fn choose_folder(app: AppHandle, shared: State<'_, Shared>) -> Result<AppView, UserError> {
    let Some(chosen) = app.dialog().file().blocking_pick_folder() else {
        return Ok(shared.lock().view());
    };
    let folder = chosen
        .into_path()
        .map_err(|_| UserError::at("path", "This is no folder on this device. Choose another one."))?;
    shared.lock().choose(&folder)
}

/// See the workshop.
#[tauri::command(async)]
pub fn open_folder(shared: State<'_, Shared>, path: &str) -> Result<AppView, UserError> {
    shared.lock().choose(std::path::Path::new(path.trim()))
}

/// Stops the folder that is being read; nothing in it is changed.
#[tauri::command]
pub fn stop_reading(reading: State<'_, FolderReading>) {
    reading.stop();
}

/// See the workshop.
#[tauri::command(async)]
pub fn open_sample(shared: State<'_, Shared>) -> Result<AppView, UserError> {
    shared.lock().open_sample()
}

/// See the workshop.
#[tauri::command(async)]
pub fn close_folder(shared: State<'_, Shared>) -> Result<AppView, UserError> {
    shared.lock().leave()
}

/// See the workshop.
#[tauri::command(async)]
pub fn set_units(shared: State<'_, Shared>, units: &str) -> Result<AppView, UserError> {
    shared.lock().set_units(units)
}

/// See the workshop.
#[tauri::command(async)]
pub fn set_device_name(shared: State<'_, Shared>, name: &str) -> Result<AppView, UserError> {
    shared.lock().set_device_name(name)
}

/// See the workshop.
#[tauri::command(async)]
pub fn write_back(shared: State<'_, Shared>) -> Result<AppView, UserError> {
    shared.lock().write_back()
}

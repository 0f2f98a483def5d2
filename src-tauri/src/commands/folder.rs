//! The folder, the sample and this device.

use fellmark_model::display_format::Units;
use fellmark_present::view::{AppView, ErrorView};
use fellmark_session::FolderProgress;
use tauri::{AppHandle, State};
use tauri_plugin_dialog::DialogExt;

use crate::SharedWorkspace;

/// Everything the window shows, written by the page's locale.
#[tauri::command(async)]
pub fn view(shared: State<'_, SharedWorkspace>, locale: &str) -> AppView {
    let mut workspace = shared.lock();
    workspace.set_locale(locale);
    workspace.view()
}

/// Opens a folder chosen in the system's dialog; nothing changes when that is cancelled.
#[tauri::command(async)]
pub fn choose_folder(app: AppHandle, shared: State<'_, SharedWorkspace>) -> Result<AppView, ErrorView> {
    let Some(chosen) = app.dialog().file().blocking_pick_folder() else {
        return Ok(shared.lock().view());
    };
    let folder = chosen
        .into_path()
        .map_err(|_| ErrorView::at("path", "This is no folder on this device. Choose another one."))?;
    shared.change(|workspace| workspace.choose(&folder, false))
}

/// Opens a folder by its typed path; a missing one is made where that was asked for.
#[tauri::command(async)]
pub fn open_folder(shared: State<'_, SharedWorkspace>, path: &str, create: bool) -> Result<AppView, ErrorView> {
    shared.change(|workspace| workspace.choose(std::path::Path::new(path.trim()), create))
}

/// Stops the folder that is being read; nothing in it is changed.
#[tauri::command]
pub fn stop_reading(reading: State<'_, FolderProgress>) {
    reading.stop();
}

/// Opens a fresh sample.
#[tauri::command(async)]
pub fn open_sample(shared: State<'_, SharedWorkspace>) -> Result<AppView, ErrorView> {
    shared.change(|workspace| workspace.open_sample())
}

/// Closes the folder; a sample is removed.
#[tauri::command(async)]
pub fn close_folder(shared: State<'_, SharedWorkspace>) -> Result<AppView, ErrorView> {
    shared.change(|workspace| workspace.close_folder())
}

/// Chooses the units for every device on this folder.
#[tauri::command(async)]
pub fn set_units(shared: State<'_, SharedWorkspace>, units: &str) -> Result<AppView, ErrorView> {
    let units = Units::from_word(units).ok_or_else(|| ErrorView::at("units", "Units are metric or imperial."))?;
    shared.change(|workspace| workspace.session()?.set_units(units))
}

/// Chooses the units of weights for every device on this folder.
#[tauri::command(async)]
pub fn set_weights(shared: State<'_, SharedWorkspace>, units: &str) -> Result<AppView, ErrorView> {
    let units = Units::from_word(units).ok_or_else(|| ErrorView::at("weights", "Units are metric or imperial."))?;
    shared.change(|workspace| workspace.session()?.set_weights(units))
}

/// Names this device.
#[tauri::command(async)]
pub fn set_device_name(shared: State<'_, SharedWorkspace>, name: &str) -> Result<AppView, ErrorView> {
    shared.change(|workspace| workspace.set_device_name(name))
}

/// Puts entries that vanished from the folder into it again.
#[tauri::command(async)]
pub fn write_back(shared: State<'_, SharedWorkspace>) -> Result<AppView, ErrorView> {
    shared.change(|workspace| workspace.session()?.write_back())
}

/// Marks the folder as this log's again, after all markers of devices are gone; then writes what waits.
#[tauri::command(async)]
pub fn mark_folder_again(shared: State<'_, SharedWorkspace>) -> Result<AppView, ErrorView> {
    shared.change(|workspace| workspace.session()?.mark_folder_again().map_err(ErrorView::from))
}

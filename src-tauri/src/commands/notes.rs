//! What she notes while weaving or beside it.

use fellmark_answers::present::view::{
    AppView, DraftForm, DraftView, PlaceForm, Places, ReadingForm, UserError, YarnForm,
};
use tauri::State;

use crate::Shared;
use crate::workshop::SavedMeasurement;

/// See the workshop.
#[tauri::command(async)]
pub fn places(shared: State<'_, Shared>, warp: &str) -> Result<Option<Places>, UserError> {
    shared.lock().places(warp)
}

/// See the workshop.
#[tauri::command(async)]
pub fn set_place(shared: State<'_, Shared>, warp: &str, form: PlaceForm) -> Result<AppView, UserError> {
    shared.lock().set_place(warp, &form)
}

/// See the workshop.
#[tauri::command(async)]
pub fn add_measurement(
    shared: State<'_, Shared>,
    warp: &str,
    form: ReadingForm,
) -> Result<SavedMeasurement, UserError> {
    shared.lock().add_measurement(warp, &form)
}

/// See the workshop.
#[tauri::command(async)]
pub fn add_yarn(shared: State<'_, Shared>, warp: &str, form: YarnForm) -> Result<AppView, UserError> {
    shared.lock().add_yarn(warp, &form)
}

/// See the workshop.
#[tauri::command(async)]
pub fn change_yarn(
    shared: State<'_, Shared>,
    yarn: &str,
    form: YarnForm,
    seen: Vec<String>,
) -> Result<AppView, UserError> {
    shared.lock().change_yarn(yarn, &form, &seen)
}

/// See the workshop.
#[tauri::command(async)]
pub fn set_stretch(shared: State<'_, Shared>, minutes: &str) -> Result<AppView, UserError> {
    shared.lock().set_stretch(minutes)
}

/// See the workshop.
#[tauri::command(async)]
pub fn draw_sequence(shared: State<'_, Shared>, form: DraftForm) -> Result<DraftView, UserError> {
    Ok(shared.lock().draw_sequence(&form))
}

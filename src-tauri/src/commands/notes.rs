//! What she notes while weaving or beside it.

use fellmark_answers::present::view::{Desk, DraftForm, DraftView, PlaceForm, Places, ReadingForm, Trouble, YarnForm};
use tauri::State;

use crate::Shared;
use crate::workshop::Noted;

/// See the workshop.
#[tauri::command(async)]
pub fn places(shared: State<'_, Shared>, warp: &str) -> Result<Option<Places>, Trouble> {
    shared.lock().places(warp)
}

/// See the workshop.
#[tauri::command(async)]
pub fn say_place(shared: State<'_, Shared>, warp: &str, form: PlaceForm) -> Result<Desk, Trouble> {
    shared.lock().say_place(warp, &form)
}

/// See the workshop.
#[tauri::command(async)]
pub fn note(shared: State<'_, Shared>, warp: &str, form: ReadingForm) -> Result<Noted, Trouble> {
    shared.lock().note(warp, &form)
}

/// See the workshop.
#[tauri::command(async)]
pub fn add_yarn(shared: State<'_, Shared>, warp: &str, form: YarnForm) -> Result<Desk, Trouble> {
    shared.lock().add_yarn(warp, &form)
}

/// See the workshop.
#[tauri::command(async)]
pub fn change_yarn(shared: State<'_, Shared>, yarn: &str, form: YarnForm, seen: Vec<String>) -> Result<Desk, Trouble> {
    shared.lock().change_yarn(yarn, &form, &seen)
}

/// See the workshop.
#[tauri::command(async)]
pub fn set_stretch(shared: State<'_, Shared>, minutes: &str) -> Result<Desk, Trouble> {
    shared.lock().set_stretch(minutes)
}

/// See the workshop.
#[tauri::command(async)]
pub fn draw_sequence(shared: State<'_, Shared>, form: DraftForm) -> Result<DraftView, Trouble> {
    Ok(shared.lock().draw_sequence(&form))
}

//! What is noted while weaving or beside it.

use fellmark_present::view::{
    AppView, ErrorView, PickSequenceForm, PickSequenceView, PlaceForm, Places, ReadingForm, YarnForm,
};
use fellmark_session::{entry_keys, record_id};
use serde::Serialize;
use tauri::State;

use crate::SharedWorkspace;

/// The view after something was measured, and what came of it in sentences.
#[derive(Serialize)]
pub struct SavedMeasurement {
    view: AppView,
    messages: Vec<String>,
}

/// The places in a warp's sequence, and which row comes next.
#[tauri::command(async)]
pub fn places(shared: State<'_, SharedWorkspace>, warp: &str) -> Result<Option<Places>, ErrorView> {
    let warp = record_id(warp)?;
    Ok(shared.lock().open_session().and_then(|session| session.places(&warp)))
}

/// Says which row of the sequence comes next.
#[tauri::command(async)]
pub fn set_place(shared: State<'_, SharedWorkspace>, warp: &str, form: PlaceForm) -> Result<AppView, ErrorView> {
    shared.change(|workspace| {
        let (session, warp) = (workspace.session()?, record_id(warp)?);
        let during = session.running_on(&warp);
        session.set_place(&warp, &form, &during)
    })
}

/// Notes a tape reading, weighings and a yarn taken up.
#[tauri::command(async)]
pub fn add_measurement(
    shared: State<'_, SharedWorkspace>,
    warp: &str,
    form: ReadingForm,
) -> Result<SavedMeasurement, ErrorView> {
    let mut workspace = shared.lock();
    let (session, warp) = (workspace.session()?, record_id(warp)?);
    let during = session.running_on(&warp);
    let messages = session.add_measurement(&warp, &form, &during)?;
    Ok(SavedMeasurement { view: workspace.view(), messages })
}

/// Adds a weft yarn.
#[tauri::command(async)]
pub fn add_yarn(shared: State<'_, SharedWorkspace>, warp: &str, form: YarnForm) -> Result<AppView, ErrorView> {
    shared.change(|workspace| workspace.session()?.add_yarn(&record_id(warp)?, &form))
}

/// Changes a weft yarn.
#[tauri::command(async)]
pub fn change_yarn(
    shared: State<'_, SharedWorkspace>,
    yarn: &str,
    form: YarnForm,
    seen: Vec<String>,
) -> Result<AppView, ErrorView> {
    shared.change(|workspace| workspace.session()?.change_yarn(&record_id(yarn)?, &form, &entry_keys(&seen)))
}

/// Sets after how many minutes without a pause stretching is suggested.
#[tauri::command(async)]
pub fn set_stretch(shared: State<'_, SharedWorkspace>, minutes: &str) -> Result<AppView, ErrorView> {
    shared.change(|workspace| workspace.session()?.set_stretch(minutes))
}

/// Reads and draws a sequence while it is typed.
#[tauri::command(async)]
pub fn draw_sequence(shared: State<'_, SharedWorkspace>, form: PickSequenceForm) -> PickSequenceView {
    shared.lock().draw_sequence(&form)
}

//! What the interface may ask for: each command hands on to the workshop. All run off the window's thread.

use fellmark_answers::view::{Desk, GettingUp, RunningView, SittingForm, Trouble, Understood, WarpForm};
use percent_encoding::percent_decode_str;
use serde::Serialize;
use tauri::ipc::{InvokeBody, Request};
use tauri::{AppHandle, State, Wry};
use tauri_plugin_dialog::DialogExt;

use crate::Shared;

/// A sitting that was logged, and the desk after it.
#[derive(Serialize)]
struct Logged {
    desk: Desk,
    sitting: String,
}

impl From<(Desk, String)> for Logged {
    fn from((desk, sitting): (Desk, String)) -> Self {
        Self { desk, sitting }
    }
}

#[tauri::command(async)]
fn look(shared: State<'_, Shared>, locale: &str) -> Result<Desk, Trouble> {
    shared.lock().look(locale)
}

#[tauri::command(async)]
fn choose_folder(app: AppHandle, shared: State<'_, Shared>) -> Result<Desk, Trouble> {
    let Some(chosen) = app.dialog().file().blocking_pick_folder() else {
        return Ok(shared.lock().desk());
    };
    let folder =
        chosen.into_path().map_err(|_| Trouble::at("path", "This is no folder on this device. Choose another one."))?;
    shared.lock().choose(&folder)
}

#[tauri::command(async)]
fn open_folder(shared: State<'_, Shared>, path: &str) -> Result<Desk, Trouble> {
    shared.lock().choose(std::path::Path::new(path.trim()))
}

#[tauri::command(async)]
fn begin_example(shared: State<'_, Shared>) -> Result<Desk, Trouble> {
    shared.lock().begin_example()
}

#[tauri::command(async)]
fn leave_folder(shared: State<'_, Shared>) -> Result<Desk, Trouble> {
    shared.lock().leave()
}

#[tauri::command(async)]
fn show_warp(shared: State<'_, Shared>, warp: &str) -> Result<Desk, Trouble> {
    shared.lock().show(warp)
}

#[tauri::command(async)]
fn begin_warp(shared: State<'_, Shared>, form: WarpForm) -> Result<Desk, Trouble> {
    shared.lock().begin_warp(&form)
}

#[tauri::command(async)]
fn change_warp(shared: State<'_, Shared>, warp: &str, form: WarpForm, seen: Vec<String>) -> Result<Desk, Trouble> {
    shared.lock().change_warp(warp, &form, &seen)
}

#[tauri::command(async)]
fn set_state(shared: State<'_, Shared>, warp: &str, state: &str) -> Result<Desk, Trouble> {
    shared.lock().set_state(warp, state)
}

#[tauri::command(async)]
fn remove(shared: State<'_, Shared>, record: &str) -> Result<Desk, Trouble> {
    shared.lock().remove(record)
}

#[tauri::command(async)]
fn restore(shared: State<'_, Shared>, record: &str) -> Result<Desk, Trouble> {
    shared.lock().restore(record)
}

#[tauri::command(async)]
fn tap(shared: State<'_, Shared>, by: i64) -> Result<RunningView, Trouble> {
    shared.lock().tap(by)
}

#[tauri::command(async)]
fn getting_up(shared: State<'_, Shared>) -> Result<GettingUp, Trouble> {
    shared.lock().getting_up()
}

#[tauri::command(async)]
fn get_up(shared: State<'_, Shared>, form: SittingForm) -> Result<Logged, Trouble> {
    shared.lock().get_up(&form).map(Logged::from)
}

#[tauri::command(async)]
fn log_sitting(shared: State<'_, Shared>, warp: &str, form: SittingForm) -> Result<Logged, Trouble> {
    shared.lock().log_sitting(warp, &form).map(Logged::from)
}

#[tauri::command(async)]
fn correct_sitting(
    shared: State<'_, Shared>,
    sitting: &str,
    form: SittingForm,
    seen: Vec<String>,
) -> Result<Desk, Trouble> {
    shared.lock().correct_sitting(sitting, &form, &seen)
}

/// Takes the picture's bytes as the body, with the sitting's id and the file's name, percent-encoded, as headers.
#[tauri::command(async)]
fn add_photo(shared: State<'_, Shared>, request: Request<'_>) -> Result<Desk, Trouble> {
    let header = |name: &str| {
        let value = request.headers().get(name).and_then(|value| value.to_str().ok()).unwrap_or_default();
        percent_decode_str(value).decode_utf8_lossy().into_owned()
    };
    let InvokeBody::Raw(bytes) = request.body() else {
        return Err(Trouble::at("photo", "This is no picture. Choose a JPEG, PNG or WebP file."));
    };
    let name = header("name");
    shared.lock().add_photo(&header("sitting"), bytes).map_err(|trouble| Trouble {
        field: Some("photo".into()),
        sentence: if name.is_empty() { trouble.sentence } else { format!("{name}: {}", trouble.sentence) },
    })
}

#[tauri::command(async)]
fn settle(shared: State<'_, Shared>, record: &str, field: &str, key: &str) -> Result<Desk, Trouble> {
    shared.lock().settle(record, field, key)
}

#[tauri::command(async)]
fn undo(shared: State<'_, Shared>) -> Result<Desk, Trouble> {
    shared.lock().undo()
}

#[tauri::command(async)]
fn understand(shared: State<'_, Shared>, what: &str, text: &str) -> Result<Understood, Trouble> {
    Ok(shared.lock().understand(what, text))
}

#[tauri::command(async)]
fn set_units(shared: State<'_, Shared>, units: &str) -> Result<Desk, Trouble> {
    shared.lock().set_units(units)
}

#[tauri::command(async)]
fn set_device_name(shared: State<'_, Shared>, name: &str) -> Result<Desk, Trouble> {
    shared.lock().set_device_name(name)
}

#[tauri::command(async)]
fn write_back(shared: State<'_, Shared>) -> Result<Desk, Trouble> {
    shared.lock().write_back()
}

/// All of them.
pub fn handler() -> impl Fn(tauri::ipc::Invoke<Wry>) -> bool + Send + Sync + 'static {
    tauri::generate_handler![
        look,
        choose_folder,
        open_folder,
        begin_example,
        leave_folder,
        show_warp,
        begin_warp,
        change_warp,
        set_state,
        remove,
        restore,
        tap,
        getting_up,
        get_up,
        log_sitting,
        correct_sitting,
        add_photo,
        settle,
        undo,
        understand,
        set_units,
        set_device_name,
        write_back,
    ]
}

//! Sittings logged afterwards, corrected, and their photos.

use fellmark_present::view::{AppView, ErrorView, SittingForm};
use fellmark_session::{entry_keys, prepare_photo, record_id};
use percent_encoding::percent_decode_str;
use tauri::State;
use tauri::ipc::{InvokeBody, Request};

use super::loom::SavedSitting;
use crate::SharedWorkspace;

/// Logs a sitting afterwards.
#[tauri::command(async)]
pub fn log_sitting(
    shared: State<'_, SharedWorkspace>,
    warp: &str,
    form: SittingForm,
) -> Result<SavedSitting, ErrorView> {
    let mut workspace = shared.lock();
    let logged = workspace.session()?.log_sitting(&record_id(warp)?, &form)?;
    Ok(SavedSitting::new(&mut workspace, logged))
}

/// Tape and picks of a form side by side, before it is logged; without a warp, of the sitting that is going on.
#[tauri::command(async)]
pub fn reconcile(
    shared: State<'_, SharedWorkspace>,
    warp: &str,
    form: SittingForm,
    sitting: Option<&str>,
) -> Result<Vec<String>, ErrorView> {
    let sitting = sitting.map(record_id).transpose()?;
    let workspace = shared.lock();
    let Some(session) = workspace.open_session() else { return Ok(Vec::new()) };
    if warp.is_empty() {
        return Ok(session.reconcile_running(&form));
    }
    Ok(session.reconcile(&record_id(warp)?, &form, sitting.as_ref()))
}

/// Corrects a sitting.
#[tauri::command(async)]
pub fn correct_sitting(
    shared: State<'_, SharedWorkspace>,
    sitting: &str,
    form: SittingForm,
    seen: Vec<String>,
) -> Result<AppView, ErrorView> {
    shared.change(|workspace| workspace.session()?.correct_sitting(&record_id(sitting)?, &form, &entry_keys(&seen)))
}

/// Takes the picture's bytes as the body, with the sitting's id and the file's name, percent-encoded, as headers.
#[tauri::command(async)]
pub fn add_photo(shared: State<'_, SharedWorkspace>, request: Request<'_>) -> Result<AppView, ErrorView> {
    let header = |name: &str| {
        let value = request.headers().get(name).and_then(|value| value.to_str().ok()).unwrap_or_default();
        percent_decode_str(value).decode_utf8_lossy().into_owned()
    };
    let InvokeBody::Raw(bytes) = request.body() else {
        return Err(ErrorView::at("photo", "This is no picture. Choose a JPEG, PNG or WebP file."));
    };
    let (name, sitting) = (header("name"), header("sitting"));
    // Decoding takes time, and the workspace is free meanwhile: taps do not wait for it.
    let format = shared.lock().session()?.format();
    let added = prepare_photo(bytes, &format)
        .and_then(|photo| shared.change(|workspace| workspace.session()?.add_photo(&record_id(&sitting)?, photo)));
    added.map_err(|error| ErrorView {
        field: Some("photo".into()),
        sentence: if name.is_empty() { error.sentence } else { format!("{name}: {}", error.sentence) },
        is_of_storage: error.is_of_storage,
    })
}

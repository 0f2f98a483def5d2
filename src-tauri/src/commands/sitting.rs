//! Sittings logged afterwards, corrected, and their photos.

use fellmark_answers::present::view::{AppView, SittingForm, UserError};
use percent_encoding::percent_decode_str;
use tauri::State;
use tauri::ipc::{InvokeBody, Request};

use crate::Shared;
use crate::workshop::SavedSitting;

/// See the workshop.
#[tauri::command(async)]
pub fn log_sitting(shared: State<'_, Shared>, warp: &str, form: SittingForm) -> Result<SavedSitting, UserError> {
    shared.lock().log_sitting(warp, &form)
}

/// See the workshop.
#[tauri::command(async)]
pub fn reconcile(
    shared: State<'_, Shared>,
    warp: &str,
    form: SittingForm,
    sitting: Option<String>,
) -> Result<Vec<String>, UserError> {
    shared.lock().reconcile(warp, &form, sitting.as_deref())
}

/// See the workshop.
#[tauri::command(async)]
pub fn correct_sitting(
    shared: State<'_, Shared>,
    sitting: &str,
    form: SittingForm,
    seen: Vec<String>,
) -> Result<AppView, UserError> {
    shared.lock().correct_sitting(sitting, &form, &seen)
}

/// Takes the picture's bytes as the body, with the sitting's id and the file's name, percent-encoded, as headers.
#[tauri::command(async)]
pub fn add_photo(shared: State<'_, Shared>, request: Request<'_>) -> Result<AppView, UserError> {
    let header = |name: &str| {
        let value = request.headers().get(name).and_then(|value| value.to_str().ok()).unwrap_or_default();
        percent_decode_str(value).decode_utf8_lossy().into_owned()
    };
    let InvokeBody::Raw(bytes) = request.body() else {
        return Err(UserError::at("photo", "This is no picture. Choose a JPEG, PNG or WebP file."));
    };
    let name = header("name");
    shared.lock().add_photo(&header("sitting"), bytes).map_err(|trouble| UserError {
        field: Some("photo".into()),
        sentence: if name.is_empty() { trouble.sentence } else { format!("{name}: {}", trouble.sentence) },
    })
}

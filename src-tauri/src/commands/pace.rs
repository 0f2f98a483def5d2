//! Pace compared.

use fellmark_answers::present::view::{PaceView, UserError};
use tauri::State;

use crate::Shared;

/// See the workshop. `width` and `text` are sizes in pixels that the pictures are drawn for.
#[tauri::command(async)]
pub fn pace(
    shared: State<'_, Shared>,
    split: String,
    within: Option<&str>,
    width: f64,
    text: f64,
) -> Result<PaceView, UserError> {
    shared.lock().pace(split, within, (width, text))
}

//! Pace compared.

use fellmark_present::chart::{Frame, Ink};
use fellmark_present::view::{ErrorView, PaceView};
use fellmark_session::record_id;
use tauri::State;

use crate::SharedWorkspace;

/// Pace over finished and running warps. `width` and `text` are sizes in pixels that the charts are drawn for.
#[tauri::command(async)]
pub fn pace(
    shared: State<'_, SharedWorkspace>,
    split: &str,
    within: Option<&str>,
    width: f64,
    text: f64,
) -> Result<PaceView, ErrorView> {
    let within = within.map(record_id).transpose()?;
    Ok(shared.lock().session()?.pace(split, within, Frame { width, text, ink: Ink::Page }))
}

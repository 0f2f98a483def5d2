//! A warp: begin it, change it, say where it is.

use fellmark_present::view::{AppView, ErrorView, WarpForm, WarpState};
use fellmark_session::{entry_keys, record_id};
use tauri::State;

use crate::SharedWorkspace;

/// Shows another warp.
#[tauri::command(async)]
pub fn show_warp(shared: State<'_, SharedWorkspace>, warp: &str) -> Result<AppView, ErrorView> {
    shared.change(|workspace| workspace.show(warp))
}

/// Begins a warp and shows it.
#[tauri::command(async)]
pub fn begin_warp(shared: State<'_, SharedWorkspace>, form: WarpForm) -> Result<AppView, ErrorView> {
    shared.change(|workspace| workspace.begin_and_show(|session| session.begin_warp(&form)))
}

/// Changes a warp.
#[tauri::command(async)]
pub fn change_warp(
    shared: State<'_, SharedWorkspace>,
    warp: &str,
    form: WarpForm,
    seen: Vec<String>,
) -> Result<AppView, ErrorView> {
    shared.change(|workspace| workspace.session()?.change_warp(&record_id(warp)?, &form, &entry_keys(&seen)))
}

/// Puts a warp aside, takes it up again, or notes that it is cut off.
#[tauri::command(async)]
pub fn set_warp_state(shared: State<'_, SharedWorkspace>, warp: &str, state: &str) -> Result<AppView, ErrorView> {
    let state = match state {
        "on_the_loom" => WarpState::OnTheLoom,
        "resting" => WarpState::Resting,
        "off_the_loom" => WarpState::OffTheLoom,
        other => return Err(ErrorView::new(format!("A warp cannot be \u{201c}{other}\u{201d}."))),
    };
    shared.change(|workspace| workspace.session()?.set_warp_state(&record_id(warp)?, state))
}

//! At the loom: the tap, and finishing the sitting.

use fellmark_present::view::{AppView, ErrorView, FinishForm, RunningView, SittingForm};
use fellmark_session::{LoggedSitting, Workspace};
use serde::Serialize;
use tauri::State;

use crate::SharedWorkspace;

/// A sitting that was saved, and the view after it.
#[derive(Serialize)]
pub struct SavedSitting {
    view: AppView,
    /// Its record id.
    sitting: String,
    /// Tape and picks side by side, in sentences.
    messages: Vec<String>,
}

impl SavedSitting {
    /// The sitting that was logged, with the view after it.
    pub fn new(workspace: &mut Workspace, LoggedSitting { sitting, messages }: LoggedSitting) -> Self {
        Self { view: workspace.view(), sitting: sitting.to_string(), messages }
    }
}

/// Counts a pick, or takes one back.
#[tauri::command(async)]
pub fn tap(shared: State<'_, SharedWorkspace>, by: i64) -> Result<RunningView, ErrorView> {
    shared.lock().session()?.tap(by)
}

/// Notes that a pick is begun and not beaten, or not any more.
#[tauri::command(async)]
pub fn set_pick_begun(shared: State<'_, SharedWorkspace>, begun: bool) -> Result<RunningView, ErrorView> {
    shared.lock().session()?.set_pick_begun(begun)
}

/// Pauses the timer, or lets it go on.
#[tauri::command(async)]
pub fn set_paused(shared: State<'_, SharedWorkspace>, paused: bool) -> Result<RunningView, ErrorView> {
    shared.lock().session()?.set_paused(paused)
}

/// The form the sitting that is going on is finished with.
#[tauri::command(async)]
pub fn finish_form(shared: State<'_, SharedWorkspace>) -> Result<FinishForm, ErrorView> {
    shared.lock().session()?.finish_form()
}

/// Logs the sitting that is going on.
#[tauri::command(async)]
pub fn finish_sitting(shared: State<'_, SharedWorkspace>, form: SittingForm) -> Result<SavedSitting, ErrorView> {
    let mut workspace = shared.lock();
    let logged = workspace.session()?.finish_sitting(&form)?;
    Ok(SavedSitting::new(&mut workspace, logged))
}

/// Whether the desktop keeps the screen awake while the weaver works; nothing where the page has to ask the web view.
#[tauri::command(async)]
pub fn screen_is_held(shared: State<'_, SharedWorkspace>) -> Option<bool> {
    shared.screen_is_held()
}

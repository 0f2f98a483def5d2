//! Export and import.

use std::path::PathBuf;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};

use fellmark_present::export::{ExportRequest, file_name};
use fellmark_present::import::OnProgress;
use fellmark_present::view::{AppView, ErrorView, ImportForm, ImportView};
use fellmark_session::{ExistingFile, record_id, save_file};
use percent_encoding::percent_decode_str;
use serde::Serialize;
use tauri::ipc::{Channel, InvokeBody, Request};
use tauri::{AppHandle, State};
use tauri_plugin_dialog::DialogExt;

use crate::SharedWorkspace;

/// What came in, and the view after it.
#[derive(Serialize)]
pub struct ImportAnswer {
    view: AppView,
    import: ImportView,
}

/// Where a file goes, and what is done with one that is there: into the folder that was typed, beside what is there; else where the
/// system's dialog says, which asks before anything is replaced. Nothing when that is cancelled.
fn place(app: &AppHandle, name: &str, folder: &str) -> Result<Option<(PathBuf, ExistingFile)>, ErrorView> {
    let folder = folder.trim();
    if !folder.is_empty() {
        return Ok(Some((PathBuf::from(folder).join(name), ExistingFile::NumberNewFile)));
    }
    let Some(chosen) = app.dialog().file().set_file_name(name).blocking_save_file() else { return Ok(None) };
    let path = chosen
        .into_path()
        .map_err(|_| ErrorView::at("folder", "This is no place on this device. Choose another one."))?;
    Ok(Some((path, ExistingFile::Replace)))
}

fn written(place: Option<(PathBuf, ExistingFile)>, bytes: &[u8]) -> Result<Option<String>, ErrorView> {
    let Some((path, existing)) = place else { return Ok(None) };
    let path = save_file(&path, bytes, existing).map_err(|error| {
        ErrorView::at("folder", format!("{} cannot be written: {error}. Choose another place.", path.display()))
    })?;
    Ok(Some(path.display().to_string()))
}

/// Writes a file; where it was written, or nothing when the dialog was cancelled.
#[tauri::command(async)]
pub fn export(
    app: AppHandle,
    shared: State<'_, SharedWorkspace>,
    what: String,
    warp: Option<&str>,
    split: String,
    folder: &str,
) -> Result<Option<String>, ErrorView> {
    let warp = warp.map(record_id).transpose()?;
    if let ("sheet", Some(warp)) = (what.as_str(), &warp) {
        // The workspace is free while pictures are decoded; the sheet then finds the small copies. One that fails is left out of it.
        let pictures = shared.lock().session()?.pictures_of_sheet(warp);
        pictures.iter().for_each(|(photo, side_px)| drop(photo.thumbnail(*side_px)));
    }
    let taken = shared.lock().session()?.export(&ExportRequest { what, warp, split })?;
    written(place(&app, &taken.name, folder)?, &taken.bytes)
}

/// The picture of how far a warp is, as SVG.
#[tauri::command(async)]
pub fn progress_picture(shared: State<'_, SharedWorkspace>, warp: &str) -> Result<String, ErrorView> {
    let wanted = ExportRequest { what: "progress".into(), warp: Some(record_id(warp)?), split: String::new() };
    let taken = shared.lock().session()?.export(&wanted)?;
    Ok(String::from_utf8_lossy(&taken.bytes).into_owned())
}

/// Writes a picture that the page made; its bytes are the body, its name and the typed folder are headers, percent-encoded.
#[tauri::command(async)]
pub fn export_picture(app: AppHandle, request: Request<'_>) -> Result<Option<String>, ErrorView> {
    let header = |name: &str| {
        let value = request.headers().get(name).and_then(|value| value.to_str().ok()).unwrap_or_default();
        percent_decode_str(value).decode_utf8_lossy().into_owned()
    };
    let InvokeBody::Raw(bytes) = request.body() else {
        return Err(ErrorView::new("This is no picture."));
    };
    // The page gives a name, not a path.
    let name = format!("{}.png", file_name(&header("name")));
    written(place(&app, &name, &header("folder"))?, bytes)
}

/// How far a table is read; sent to the page while it is.
#[derive(Clone, Serialize)]
pub struct RowsDone {
    done: usize,
    of: usize,
}

/// Whether the weaver asked to stop what is being read. Beside the workspace, which is locked meanwhile.
#[derive(Default)]
pub struct StopImport(AtomicBool);

/// Between two reports, so that the page is not flooded.
const BETWEEN_REPORTS: Duration = Duration::from_millis(60);

impl StopImport {
    /// Reads or writes a table, reporting to the page how far it is.
    fn report_progress<T>(&self, progress: &Channel<RowsDone>, work: impl FnOnce(OnProgress<'_>) -> T) -> T {
        self.0.store(false, Ordering::Relaxed);
        let mut last: Option<Instant> = None;
        work(&mut |done, of| {
            if done == of || last.is_none_or(|last| last.elapsed() >= BETWEEN_REPORTS) {
                last = Some(Instant::now());
                // The page may be gone; then nobody waits for it.
                let _ = progress.send(RowsDone { done, of });
            }
            !self.0.load(Ordering::Relaxed)
        })
    }
}

/// What a table would bring in, before anything is written.
#[tauri::command(async)]
pub fn preview_import(
    shared: State<'_, SharedWorkspace>,
    stop: State<'_, StopImport>,
    form: ImportForm,
    progress: Channel<RowsDone>,
) -> Result<ImportView, ErrorView> {
    let mut workspace = shared.lock();
    let session = workspace.session()?;
    stop.report_progress(&progress, |heed| session.preview_import(&form, heed))
}

/// Brings a table in as one action.
#[tauri::command(async)]
pub fn import(
    shared: State<'_, SharedWorkspace>,
    stop: State<'_, StopImport>,
    form: ImportForm,
    progress: Channel<RowsDone>,
) -> Result<ImportAnswer, ErrorView> {
    let mut workspace = shared.lock();
    let session = workspace.session()?;
    let import = stop.report_progress(&progress, |heed| session.import(&form, heed))?;
    Ok(ImportAnswer { view: workspace.view(), import })
}

/// Stops what is being read; nothing of it is written.
#[tauri::command]
pub fn stop_import(stop: State<'_, StopImport>) {
    stop.0.store(true, Ordering::Relaxed);
}

//! The window: its commands call the session. Nothing is computed here.
//!
//! A library, because a phone's application loads it as one: there, [`run_on_phone`] is the entry point.

#![cfg_attr(test, allow(clippy::unwrap_used, clippy::expect_used, clippy::panic))]

#[cfg(all(unix, not(any(debug_assertions, feature = "automation"))))]
mod automation;
mod awake;
mod commands;
mod former_identifier;
mod photos;

use std::ops::{Deref, DerefMut};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use clap::{CommandFactory, Parser};
use fellmark_present::view::{AppView, ErrorView};
use fellmark_session::{DeviceClock, FolderProgress, Session, Workspace};
use tauri::webview::NewWindowResponse;
use tauri::{AppHandle, Emitter, Manager, Url, WebviewUrl, WebviewWindowBuilder, WindowEvent};

use crate::awake::Awake;

/// Fellmark: a mark at the fell. Plans a warp, logs sittings, and says how far it will reach and when it will be done.
#[derive(Debug, Default, Parser)]
#[command(name = "fellmark", version)]
struct Arguments {
    /// Open this folder instead of the one chosen last.
    #[arg(long)]
    folder: Option<PathBuf>,

    /// Name this device.
    #[arg(long)]
    device: Option<String>,
}

/// The workspace that commands, the watcher and the photo scheme share, and what keeps the screen awake while a sitting is woven.
#[derive(Clone)]
pub struct SharedWorkspace {
    workspace: Arc<Mutex<Workspace>>,
    awake: Arc<Awake>,
}

impl SharedWorkspace {
    fn new(workspace: Workspace) -> Self {
        Self { workspace: Arc::new(Mutex::new(workspace)), awake: Arc::new(Awake::new()) }
    }

    /// The workspace, for as long as the guard lives. A thread that panicked while holding it left it as it was between two
    /// steps that each leave the journal whole, so the lock is taken over.
    pub fn lock(&self) -> Inside<'_> {
        Inside { workspace: self.workspace.lock().unwrap_or_else(PoisonError::into_inner), awake: &self.awake }
    }

    /// Changes something, then gives the whole new view.
    pub fn change<T>(&self, change: impl FnOnce(&mut Workspace) -> Result<T, ErrorView>) -> Result<AppView, ErrorView> {
        let mut workspace = self.lock();
        change(&mut workspace)?;
        Ok(workspace.view())
    }

    /// Whether the desktop keeps the screen awake; nothing where only the web view could. It may take a moment to answer.
    pub fn screen_is_held(&self) -> Option<bool> {
        self.awake.is_held()
    }
}

/// The workspace while it is held. Whatever was done in it, the screen stays awake afterwards for as long as a sitting is woven.
pub struct Inside<'a> {
    workspace: MutexGuard<'a, Workspace>,
    awake: &'a Awake,
}

impl Deref for Inside<'_> {
    type Target = Workspace;

    fn deref(&self) -> &Workspace {
        &self.workspace
    }
}

impl DerefMut for Inside<'_> {
    fn deref_mut(&mut self) -> &mut Workspace {
        &mut self.workspace
    }
}

impl Drop for Inside<'_> {
    fn drop(&mut self) {
        let pauses_at_ms = self.workspace.open_session().and_then(Session::pauses_at_ms);
        self.awake.until(pauses_at_ms, DeviceClock::default().now_ms());
    }
}

/// The event that carries a new `AppView` to the window.
const VIEW: &str = "view";
/// The event that carries how far a folder is read, or nothing when that is over.
const READING: &str = "reading";

/// Opens the window as the arguments of the program say, and gives the program's exit code.
#[must_use]
pub fn run_with_arguments() -> ExitCode {
    #[cfg(all(unix, not(any(debug_assertions, feature = "automation"))))]
    if let Err(error) = automation::start_without() {
        eprintln!("The window could not be opened: {error}.");
        return ExitCode::FAILURE;
    }
    let arguments = Arguments::parse();
    match run(arguments) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!(
                "The window could not be opened: {error}. On a machine without a display use the command line, `fell`."
            );
            ExitCode::FAILURE
        }
    }
}

/// The arguments of the program, for its manual page.
#[must_use]
pub fn arguments() -> clap::Command {
    Arguments::command()
}

/// The entry point on Android and iOS.
#[cfg_attr(mobile, tauri::mobile_entry_point)]
pub fn run_on_phone() {
    if let Err(error) = run(Arguments::default()) {
        eprintln!("The window could not be opened: {error}.");
    }
}

/// Whether an address is a page of this program. The window shows nothing else, whatever a script, a link or a page asks for.
fn is_own_page(address: &Url) -> bool {
    let host = address.host_str().unwrap_or_default();
    match address.scheme() {
        "tauri" => host == "localhost",
        // Where the system's web view knows no schemes of its own.
        "http" | "https" => host == "tauri.localhost" && cfg!(any(windows, target_os = "android")),
        _ => false,
    }
}

/// Opens the folder on a thread of its own, so that the window stands before all of it is read. A command that needs the workspace waits
/// until then.
fn open_folder(
    shared: &SharedWorkspace,
    reading: FolderProgress,
    handle: AppHandle,
    arguments: Arguments,
) -> std::io::Result<()> {
    let (shared, for_changes) = (shared.clone(), shared.clone());
    let (held, is_held) = std::sync::mpsc::channel();
    std::thread::Builder::new().spawn(move || {
        let mut workspace = shared.lock();
        let _ = held.send(());
        workspace.on_change(move |changed| {
            let view = for_changes.lock().refresh(&changed);
            if let Some(view) = view {
                // The window may be closing; then nobody is left to receive it.
                let _ = handle.emit(VIEW, view);
            }
        });
        workspace.report_progress_to(reading);
        workspace.start(arguments.folder, arguments.device);
    })?;
    // Were the window first to hold it, it would be shown without the folder.
    let _ = is_held.recv();
    Ok(())
}

/// Makes the folder in which the web view keeps what it remembers (keys, sounds), readable by its owner alone, before the web view does.
fn prepare_web_data(data: &Path) {
    if let Err(error) = former_identifier::take_over(data) {
        eprintln!("What an earlier version remembered about keys and sounds could not be taken over: {error}.");
    }
    if let Err(error) = fellmark_journal::private_dir(&data.join(former_identifier::IDENTIFIER)) {
        eprintln!("What this program remembers about keys and sounds cannot be closed to other accounts: {error}.");
    }
}

fn run(arguments: Arguments) -> Result<(), Box<dyn std::error::Error>> {
    // The toolkit would panic where there is no display.
    #[cfg(target_os = "linux")]
    gtk::init()?;
    if let Some(directories) = directories::BaseDirs::new() {
        prepare_web_data(directories.data_local_dir());
    }
    let shared = SharedWorkspace::new(Workspace::new()?);
    let for_photos = shared.clone();
    tauri::Builder::default()
        .plugin(tauri_plugin_dialog::init())
        .manage(shared.clone())
        .manage(commands::StopImport::default())
        .invoke_handler(commands::handler())
        .register_asynchronous_uri_scheme_protocol("photo", move |_context, request, responder| {
            photos::answer(for_photos.clone(), request, responder);
        })
        .setup(move |app| {
            let handle = app.handle().clone();
            let reading = FolderProgress::new(move |files| {
                // The window may be closing; then nobody is left to receive it.
                let _ = handle.emit(READING, files);
            });
            app.manage(reading.clone());
            open_folder(&shared, reading, app.handle().clone(), arguments)?;
            WebviewWindowBuilder::new(app, "main", WebviewUrl::default())
                .title("Fellmark")
                .inner_size(1100.0, 820.0)
                .min_inner_size(320.0, 400.0)
                .disable_drag_drop_handler()
                .on_navigation(is_own_page)
                .on_new_window(|_, _| NewWindowResponse::Deny)
                .build()?;
            Ok(())
        })
        .on_window_event(|window, event| {
            // Watching can miss what happened while the machine slept or the folder was on a network.
            if let WindowEvent::Focused(true) = event {
                let handle = window.app_handle().clone();
                std::thread::spawn(move || {
                    let view = handle.state::<SharedWorkspace>().lock().refresh(&[]);
                    if let Some(view) = view {
                        let _ = handle.emit(VIEW, view);
                    }
                });
            }
        })
        .run(tauri::generate_context!())?;
    Ok(())
}

//! What the interface may ask for: each command calls the session. All run off the window's thread.

#[macro_use]
mod list;

mod folder;
mod guide;
mod log;
mod loom;
mod messages;
mod notes;
mod off;
mod pace;
mod plan;
mod sitting;
mod tables;
mod warp;

use tauri::Wry;

pub use tables::StopImport;

macro_rules! handler_of {
    ($($module:ident::$command:ident),* $(,)?) => { tauri::generate_handler![$($module::$command),*] };
}

/// Answers a call of any command in the list.
pub fn handler() -> impl Fn(tauri::ipc::Invoke<Wry>) -> bool + Send + Sync + 'static {
    window_commands!(handler_of)
}

//! What the interface may ask for: each command hands on to the workshop. All run off the window's thread.

mod folder;
mod log;
mod loom;
mod off;
mod plan;
mod sitting;
mod warp;

use fellmark_answers::view::Desk;
use serde::Serialize;
use tauri::Wry;

/// A sitting that was logged, and the desk after it.
#[derive(Serialize)]
pub struct Logged {
    desk: Desk,
    sitting: String,
}

impl From<(Desk, String)> for Logged {
    fn from((desk, sitting): (Desk, String)) -> Self {
        Self { desk, sitting }
    }
}

/// All of them.
pub fn handler() -> impl Fn(tauri::ipc::Invoke<Wry>) -> bool + Send + Sync + 'static {
    tauri::generate_handler![
        folder::look,
        folder::choose_folder,
        folder::open_folder,
        folder::begin_example,
        folder::leave_folder,
        folder::set_units,
        folder::set_device_name,
        folder::write_back,
        warp::show_warp,
        warp::begin_warp,
        warp::change_warp,
        warp::set_state,
        off::cut_off,
        off::tick_step,
        off::change_step,
        off::add_step,
        off::remove_step,
        loom::tap,
        loom::getting_up,
        loom::get_up,
        sitting::log_sitting,
        sitting::correct_sitting,
        sitting::add_photo,
        log::remove,
        log::restore,
        log::settle,
        log::undo,
        log::understand,
        plan::reckon_plan,
        plan::earlier_plans,
        plan::begin_planned,
    ]
}

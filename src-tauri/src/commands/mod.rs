//! What the interface may ask for: each command hands on to the workshop. All run off the window's thread.

mod folder;
mod log;
mod loom;
mod notes;
mod off;
mod pace;
mod plan;
mod sitting;
mod tables;
mod warp;

use tauri::Wry;

pub use tables::Stop;

/// All of them.
pub fn handler() -> impl Fn(tauri::ipc::Invoke<Wry>) -> bool + Send + Sync + 'static {
    tauri::generate_handler![
        folder::look,
        folder::choose_folder,
        folder::open_folder,
        folder::stop_reading,
        folder::begin_example,
        folder::leave_folder,
        folder::set_units,
        folder::set_device_name,
        folder::write_back,
        warp::show_warp,
        warp::begin_warp,
        warp::change_warp,
        warp::set_state,
        pace::pace,
        tables::take_out,
        tables::progress_picture,
        tables::take_out_picture,
        tables::preview_import,
        tables::bring_in,
        tables::stop_import,
        off::cut_off,
        off::tick_step,
        off::change_step,
        off::add_step,
        off::remove_step,
        loom::tap,
        loom::pick_begun,
        loom::getting_up,
        loom::get_up,
        loom::screen_is_held,
        sitting::log_sitting,
        sitting::correct_sitting,
        sitting::add_photo,
        sitting::reconcile,
        notes::places,
        notes::say_place,
        notes::note,
        notes::add_yarn,
        notes::change_yarn,
        notes::set_stretch,
        notes::draw_sequence,
        log::remove,
        log::restore,
        log::settle,
        log::undo,
        log::understand,
        plan::reckon_plan,
        plan::earlier_plans,
        plan::begin_planned,
        plan::keep_plan,
    ]
}

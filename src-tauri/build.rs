//! Embeds the interface and lists the commands it may call.
//!
//! A command that is not listed here cannot be called, nor one that `capabilities/window.json` does not allow.

use tauri_build::{AppManifest, Attributes};

const COMMANDS: &[&str] = &[
    "look",
    "choose_folder",
    "open_folder",
    "stop_reading",
    "begin_example",
    "leave_folder",
    "show_warp",
    "begin_warp",
    "reckon_plan",
    "earlier_plans",
    "begin_planned",
    "keep_plan",
    "stop_import",
    "change_warp",
    "set_state",
    "pace",
    "take_out",
    "progress_picture",
    "take_out_picture",
    "preview_import",
    "bring_in",
    "cut_off",
    "tick_step",
    "change_step",
    "add_step",
    "remove_step",
    "remove",
    "restore",
    "tap",
    "pick_begun",
    "places",
    "say_place",
    "note",
    "add_yarn",
    "change_yarn",
    "set_stretch",
    "draw_sequence",
    "reconcile",
    "getting_up",
    "get_up",
    "screen_is_held",
    "log_sitting",
    "correct_sitting",
    "add_photo",
    "settle",
    "undo",
    "understand",
    "set_units",
    "set_device_name",
    "write_back",
];

fn main() -> Result<(), Box<dyn std::error::Error>> {
    tauri_build::try_build(Attributes::new().app_manifest(AppManifest::new().commands(COMMANDS)))?;
    Ok(())
}

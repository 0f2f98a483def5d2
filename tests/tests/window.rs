//! End to end: the real built window, driven as a weaver would use it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

#[path = "window/at_the_loom.rs"]
mod at_the_loom;
#[path = "window/awake.rs"]
mod awake;
#[path = "window/bad_input.rs"]
mod bad_input;
#[path = "window/carry.rs"]
mod carry;
#[path = "window/device_name.rs"]
mod device_name;
#[path = "window/due.rs"]
mod due;
#[path = "window/example.rs"]
mod example;
#[path = "window/first_start.rs"]
mod first_start;
#[path = "window/folder.rs"]
mod folder;
#[path = "window/getting_up.rs"]
mod getting_up;
#[path = "window/harness.rs"]
mod harness;
#[path = "window/keyboard.rs"]
mod keyboard;
#[path = "window/keys_stay.rs"]
mod keys_stay;
#[path = "window/large_text.rs"]
mod large_text;
#[path = "window/long_table.rs"]
mod long_table;
#[path = "window/off_the_loom.rs"]
mod off_the_loom;
#[path = "window/pace.rs"]
mod pace;
#[path = "window/paint.rs"]
mod paint;
#[path = "window/photos.rs"]
mod photos;
#[path = "window/pieces.rs"]
mod pieces;
#[path = "window/plan.rs"]
mod plan;
#[path = "window/planned.rs"]
mod planned;
#[path = "window/power_cut.rs"]
mod power_cut;
#[path = "window/screens.rs"]
mod screens;
#[path = "window/sequence_editor.rs"]
mod sequence_editor;
#[path = "window/slow_folder.rs"]
mod slow_folder;
#[path = "window/timer.rs"]
mod timer;
#[path = "window/two_devices.rs"]
mod two_devices;
#[path = "window/warp_picture.rs"]
mod warp_picture;
#[path = "window/weaver.rs"]
mod weaver;
#[path = "window/when.rs"]
mod when;
#[path = "window/yarns.rs"]
mod yarns;

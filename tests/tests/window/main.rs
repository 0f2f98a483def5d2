//! End to end: the real built window, driven as a weaver would use it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

mod at_the_loom;
mod awake;
mod bad_input;
mod device_name;
mod due;
mod example;
mod export_import;
mod first_start;
mod folder;
mod getting_up;
mod harness;
mod keyboard;
mod keys_stay;
mod languages;
mod large_text;
mod long_table;
mod markers;
mod no_display;
mod off_the_loom;
mod own_page;
mod pace;
mod paint;
mod photos;
mod pieces;
mod plan;
mod planned;
mod power_cut;
mod screens;
mod sequence_editor;
mod slow_folder;
mod timer;
mod two_devices;
mod warp_picture;
mod when;
mod yarns;

//! What the records mean, the parsing of what people type, and every change to the log.

#![cfg_attr(test, allow(clippy::unwrap_used, clippy::expect_used, clippy::panic))]

pub mod approximate;
pub mod availability;
pub mod cloth_edge;
pub mod commands;
pub mod display_format;
pub mod display_text;
pub mod error;
pub mod fields;
pub mod finishing;
pub mod forms;
pub mod import;
pub mod language;
pub mod measures;
pub mod message;
pub mod messages;
pub mod moments;
pub mod off_loom;
pub mod piece_lengths;
pub mod plan;
pub mod running;
pub mod sequence;
pub mod shafts;
pub mod tables;
pub mod typed_words;
pub mod undo;
mod wanted_cloth;
pub mod warp_log;
mod warp_state;
pub mod yarn_left;

pub use error::UserError;
pub use language::Language;
pub use message::{Message, MessageValue};
pub use warp_log::*;
pub use warp_state::WarpState;

//! One open folder, as the window and the command line hold it.
//!
//! A [`Session`] is an open folder: its journal, one cached report for each warp, the sitting that is going on, and how figures are
//! written. Everything the weaver does goes through it. A [`Workspace`] is what a window needs besides: which folder is open, what
//! this device remembers between starts, and watching the folder. [`sample`] makes an invented log to play with.

#![cfg_attr(test, allow(clippy::unwrap_used, clippy::expect_used, clippy::panic))]

mod clock;
mod device_name;
mod folder_progress;
mod measurements;
mod off_loom;
mod pace;
mod plans;
mod records;
pub mod sample;
mod session;
mod settings;
mod sittings;
mod tap;
mod transfer;
mod typed_plan;
mod warps;
mod workspace;

pub use clock::DeviceClock;
pub use folder_progress::{FilesRead, FolderProgress};
pub use plans::plan_without_log;
pub use session::{OpenOptions, Session};
pub use sittings::LoggedSitting;
pub use workspace::Workspace;

use fellmark_journal::{IdError, Key, RecordId};
use fellmark_present::messages::sentence;
use fellmark_present::view::ErrorView;

/// Reads a record's id.
///
/// # Errors
/// The text is no id.
pub fn record_id(text: &str) -> Result<RecordId, ErrorView> {
    text.parse().map_err(|error: IdError| ErrorView::new(sentence(&error.to_string())))
}

/// Reads the keys of the entries a form was filled from; what is no key is passed over, as an entry that is not known here is.
#[must_use]
pub fn entry_keys(seen: &[String]) -> Vec<Key> {
    seen.iter().filter_map(|key| key.parse().ok()).collect()
}

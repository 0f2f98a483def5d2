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
mod save_file;
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
pub use save_file::{ExistingFile, save_file};
pub use session::{OpenOptions, Session};
pub use sittings::{LoggedSitting, prepare_photo};
pub use workspace::{MISSING_FOLDER, Workspace, in_home};

use fellmark_journal::{IdError, Key, RecordId};
use fellmark_model::display_format::DisplayFormat;
use fellmark_model::{Language, Message, UserError, messages};
use fellmark_present::guide;
use fellmark_present::messages::{InterfaceMessages, OFFERED_LANGUAGES, error_view};
use fellmark_present::view::{ErrorView, GuideContents, GuidePage};

/// An error of this layer as it is shown. Its messages hold no figures, so that they read the same in every format.
fn shown_error(message: Message) -> ErrorView {
    error_view(UserError::new(message), &DisplayFormat::default())
}

/// The same at a field of a form.
fn error_at(field: &str, message: Message) -> ErrorView {
    error_view(UserError::at(field, message), &DisplayFormat::default())
}

/// Reads a record's id.
///
/// # Errors
/// The text is no id.
pub fn record_id(text: &str) -> Result<RecordId, ErrorView> {
    text.parse().map_err(|_: IdError| shown_error(messages::no_record_id(text)))
}

/// Reads the keys of the entries a form was filled from; what is no key is passed over, as an entry that is not known here is.
#[must_use]
pub fn entry_keys(seen: &[String]) -> Vec<Key> {
    seen.iter().filter_map(|key| key.parse().ok()).collect()
}

/// The language of a locale; English if that is not offered.
fn offered_language(locale: &str) -> Language {
    let language = Language::of_locale(locale);
    if OFFERED_LANGUAGES.contains(&language) { language } else { Language::English }
}

/// The interface's messages in the language of a locale; in English if that language is not offered.
#[must_use]
pub fn interface_messages(locale: &str) -> InterfaceMessages {
    fellmark_present::messages::interface_messages(offered_language(locale))
}

/// The pages of the guide, and what there is to know about the program, in the language of a locale.
#[must_use]
pub fn guide_contents(locale: &str) -> GuideContents {
    guide::contents(offered_language(locale))
}

/// A page of the guide in the language of a locale; in English where it is not translated.
#[must_use]
pub fn guide_page(page: &str, locale: &str) -> Option<GuidePage> {
    guide::page(page, offered_language(locale))
}

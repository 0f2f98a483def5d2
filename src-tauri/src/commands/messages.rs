//! The interface's own texts.

use fellmark_present::messages::InterfaceMessages;

/// The interface's messages in the language of the page's locale. It needs no folder, so it answers while one is being read.
#[tauri::command(async)]
pub fn interface_messages(locale: &str) -> InterfaceMessages {
    fellmark_session::interface_messages(locale)
}

//! The window.
fn main() {
    if let Err(error) = tauri::Builder::default()
        .plugin(tauri_plugin_dialog::init())
        .run(tauri::generate_context!())
    {
        eprintln!("{error}");
    }
}

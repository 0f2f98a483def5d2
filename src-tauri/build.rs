//! Embeds the interface and lists the commands it may call.
fn main() {
    tauri_build::build();
}

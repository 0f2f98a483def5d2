//! Embeds the interface and allows the window to call the commands in `src/commands/list.rs`, and no others.

use std::error::Error;
use std::path::{Path, PathBuf};

use tauri_build::{AppManifest, Attributes};

#[path = "src/commands/list.rs"]
#[macro_use]
mod list;

macro_rules! names_of {
    ($($module:ident::$command:ident),* $(,)?) => { &[$(stringify!($command)),*] };
}

const COMMANDS: &[&str] = window_commands!(names_of);

/// Writes what the one window may do: call the commands, and listen to events. Gives the folder the capability lies in.
fn write_capability(out: &Path) -> std::io::Result<PathBuf> {
    let folder = out.join("window-capability");
    std::fs::create_dir_all(&folder)?;
    let mut permissions = vec!["core:event:allow-listen".to_owned(), "core:event:allow-unlisten".to_owned()];
    permissions.extend(COMMANDS.iter().map(|command| format!("allow-{}", command.replace('_', "-"))));
    let capability = serde_json::json!({
        "identifier": "window",
        "description": "What the one window may do: call Fellmark's own commands and hear its events.",
        "windows": ["main"],
        "permissions": permissions,
    });
    std::fs::write(folder.join("window.json"), capability.to_string())?;
    Ok(folder)
}

fn main() -> Result<(), Box<dyn Error>> {
    println!("cargo:rerun-if-changed=src/commands/list.rs");
    let out = PathBuf::from(std::env::var("OUT_DIR")?);
    // Whole for as long as the build script runs, which is all that the pattern's type asks for.
    let pattern: &'static str = format!("{}/*.json", write_capability(&out)?.display()).leak();
    let manifest = AppManifest::new().commands(COMMANDS);
    tauri_build::try_build(Attributes::new().app_manifest(manifest).capabilities_path_pattern(pattern))?;
    Ok(())
}

//! A computer or phone: a home of its own that outlives its windows.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::Arc;

use tempfile::TempDir;

use super::clock;
use super::language::locale_folder;
use super::options::WindowOptions;
use super::session::Window;
use super::slots::display;

/// A home directory with everything a program keeps beside the journal's folder.
pub struct Device {
    home: Arc<TempDir>,
    name: Option<&'static str>,
}

impl Device {
    /// A new device on which Fellmark never ran.
    #[allow(clippy::new_without_default)]
    pub fn new() -> Self {
        let home = tempfile::Builder::new().prefix("device-").tempdir().expect("a temporary folder can be made");
        Self { home: Arc::new(home), name: None }
    }

    /// A new device that is called so; without it the program takes the machine's name.
    pub fn named(name: &'static str) -> Self {
        Self { name: Some(name), ..Self::new() }
    }

    pub(super) fn name(&self) -> Option<&'static str> {
        self.name
    }

    /// Its home directory.
    pub fn home(&self) -> &Path {
        self.home.path()
    }

    /// A folder in its home, made if need be.
    pub fn folder(&self, name: &str) -> PathBuf {
        let folder = self.home().join(name);
        fs::create_dir_all(&folder).expect("a temporary folder can be written");
        folder
    }

    /// Opens the window and waits until it shows something.
    pub fn open(&self, options: &WindowOptions) -> Window {
        Window::open(self, options)
    }

    /// Opens the window without waiting for what it shows.
    pub fn begin(&self, options: &WindowOptions) -> Window {
        Window::begin(self, options)
    }

    /// Keeps the home for as long as this is held.
    pub(super) fn keep(&self) -> Arc<TempDir> {
        Arc::clone(&self.home)
    }

    /// Gives a command this device's surroundings and nothing else.
    pub(super) fn surround(&self, command: &mut Command, options: &WindowOptions) {
        use std::os::unix::fs::PermissionsExt;
        let config = self.folder(".config");
        let gtk = self.folder(".config/gtk-3.0").join("settings.ini");
        let settings = format!(
            "[Settings]\ngtk-application-prefer-dark-theme={}\ngtk-enable-animations={}\n",
            u8::from(options.dark),
            u8::from(!options.reduced_motion)
        );
        fs::write(gtk, settings).expect("a temporary folder can be written");
        let runtime = self.folder(".runtime");
        fs::set_permissions(&runtime, fs::Permissions::from_mode(0o700)).expect("one's own folder can be closed");
        command
            .env_clear()
            .env("PATH", std::env::var_os("PATH").unwrap_or_default())
            .env("HOME", self.home())
            .env("XDG_CONFIG_HOME", config)
            .env("XDG_DATA_HOME", self.folder(".local/share"))
            .env("XDG_CACHE_HOME", self.folder(".cache"))
            .env("XDG_STATE_HOME", self.folder(".local/state"))
            .env("XDG_RUNTIME_DIR", runtime)
            .env("TZ", "Europe/Berlin")
            .env("LOCPATH", locale_folder(options.language))
            .env("LC_ALL", format!("{}.UTF-8", options.language))
            .env("DISPLAY", display())
            .env("GDK_BACKEND", "x11")
            .env("LIBGL_ALWAYS_SOFTWARE", "1")
            // Without it the driver waits for a session for ever.
            .env("TAURI_WEBVIEW_AUTOMATION", "true")
            // No bus, no settings daemon: a test machine has none, and a developer's must not be touched.
            .env("NO_AT_BRIDGE", "1")
            .env("DBUS_SESSION_BUS_ADDRESS", options.bus.as_deref().unwrap_or("disabled:"))
            .env("GSETTINGS_BACKEND", "memory");
        if let Some(file) = &options.clock {
            clock::surround(command, file);
        }
    }
}

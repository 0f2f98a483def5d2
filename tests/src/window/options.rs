//! How a window is opened.

use std::path::PathBuf;

use super::clock::Clock;
use super::desktop::Desktop;

/// Size of a window, settings of its system, and the folder named on its command line.
#[derive(Clone, Debug)]
pub struct WindowOptions {
    pub(super) width: u32,
    pub(super) height: u32,
    pub(super) dark: bool,
    pub(super) reduced_motion: bool,
    pub(super) language: &'static str,
    pub(super) folder: Option<PathBuf>,
    pub(super) program: Option<PathBuf>,
    pub(super) bus: Option<String>,
    pub(super) clock: Option<PathBuf>,
}

impl WindowOptions {
    /// A laptop's width: 1280 × 900.
    pub fn laptop() -> Self {
        Self {
            width: 1280,
            height: 900,
            dark: false,
            reduced_motion: false,
            language: "en_GB",
            folder: None,
            program: None,
            bus: None,
            clock: None,
        }
    }

    /// A phone held upright: 360 × 740.
    pub fn phone() -> Self {
        Self { width: 360, height: 740, ..Self::laptop() }
    }

    /// The narrowest that must work: 320 × 640, as is also reached by 400 % zoom on a laptop.
    pub fn narrowest() -> Self {
        Self { width: 320, height: 640, ..Self::laptop() }
    }

    /// The system asks for dark colours.
    #[must_use]
    pub fn dark(self) -> Self {
        Self { dark: true, ..self }
    }

    /// The system asks for no motion.
    #[must_use]
    pub fn reduced_motion(self) -> Self {
        Self { reduced_motion: true, ..self }
    }

    /// The system's language, as `de_DE`.
    #[must_use]
    pub fn language(self, language: &'static str) -> Self {
        Self { language, ..self }
    }

    /// Opens on this folder.
    #[must_use]
    pub fn folder(self, folder: impl Into<PathBuf>) -> Self {
        Self { folder: Some(folder.into()), ..self }
    }

    /// Opens this program instead of the one built beside the tests.
    #[must_use]
    pub fn program(self, program: impl Into<PathBuf>) -> Self {
        Self { program: Some(program.into()), ..self }
    }

    /// Uses this desktop; without it there is none.
    #[must_use]
    pub fn desktop(self, desktop: &Desktop) -> Self {
        Self { bus: Some(desktop.address().to_owned()), ..self }
    }

    /// Reads the time from this clock; without it from the machine's.
    #[must_use]
    pub fn clock(self, clock: &Clock) -> Self {
        Self { clock: Some(clock.file().to_owned()), ..self }
    }

    /// The name of a device with a window of this size.
    pub(super) fn device_name(&self) -> &'static str {
        if self.width < 640 { "Phone" } else { "Laptop" }
    }

    /// "laptop-dark", for the names of pictures.
    pub fn name(&self) -> String {
        let size = match self.width {
            1280 => "laptop".to_owned(),
            360 => "phone".to_owned(),
            other => other.to_string(),
        };
        if self.dark { size + "-dark" } else { size }
    }
}

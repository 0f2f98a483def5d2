//! Drives the real built window, in WebKit under Xvfb, over WebDriver.
//!
//! A test with one window starts with a [`TestWindow`]. One with several takes as many [`WindowSlots`] as it opens windows at once,
//! makes a [`Device`] for each computer or phone, and opens a [`Window`] on it. What goes wrong in here is a failed test, so these
//! modules panic with a sentence.
#![allow(clippy::expect_used, clippy::panic)]

mod actions;
mod app;
mod axe;
mod clock;
mod desktop;
mod device;
mod drag;
mod keys;
mod language;
mod options;
mod picture;
mod process;
mod resources;
mod session;
mod slots;
mod slow_disk;
mod steps;
mod test_window;

pub use actions::{GREY_RUNNER, photo};
pub use app::{app, command_line, target};
pub use clock::{Clock, faketime_library};
pub use desktop::{Desktop, DesktopService};
pub use device::Device;
pub use drag::Pointer;
pub use fantoccini::key::Key;
pub use options::WindowOptions;
pub use process::{Group, tied};
pub use resources::Resources;
pub use session::Window;
pub use slots::WindowSlots;
pub use slow_disk::SlowDisk;
pub use test_window::TestWindow;

//! Drives the real built window, in WebKit under Xvfb, over WebDriver.
//!
//! A test takes a [`Stage`] with as many places as it opens windows at once, makes a [`Device`] for each computer or phone it
//! plays, and opens a [`Window`] on it. What goes wrong in here is a failed test, so these modules panic with a sentence.
#![allow(clippy::expect_used, clippy::panic)]

mod app;
mod axe;
mod clock;
mod desktop;
mod device;
mod drag;
mod keys;
mod language;
mod look;
mod picture;
mod process;
mod session;
mod slow_disk;
mod stage;
mod steps;

pub use app::{app, command_line, target};
pub use clock::{Clock, faketime_library};
pub use desktop::{Desktop, Speaks};
pub use device::Device;
pub use drag::Pointer;
pub use fantoccini::key::Key;
pub use look::Look;
pub use process::{Group, tied};
pub use session::Window;
pub use slow_disk::SlowDisk;
pub use stage::Stage;

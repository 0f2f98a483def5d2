//! The set-up of a test that needs one window.

use std::ops::Deref;
use std::path::PathBuf;

use super::actions::GREY_RUNNER;
use super::device::Device;
use super::options::WindowOptions;
use super::session::Window;
use super::slots::WindowSlots;

/// A window on a device of its own, with a folder for its records. Fields are dropped in this order: the window closes first.
pub struct TestWindow {
    window: Window,
    /// The computer or phone it is opened on.
    pub device: Device,
    /// A folder on that device, empty at first.
    pub folder: PathBuf,
    slots: WindowSlots,
}

impl TestWindow {
    /// At the first start, on a new device named after the window's size.
    pub fn first_start(options: &WindowOptions) -> Self {
        Self::on(Device::named(options.device_name()), options)
    }

    /// On this device; what it shows depends on what was done there before.
    pub fn on(device: Device, options: &WindowOptions) -> Self {
        Self::with_slots(WindowSlots::take(1), device, options)
    }

    /// On this device, in a slot that was taken before.
    pub fn with_slots(slots: WindowSlots, device: Device, options: &WindowOptions) -> Self {
        let folder = device.folder("Weaving");
        Self { window: device.open(options), device, folder, slots }
    }

    /// With its empty folder opened: the form of the first warp is shown.
    pub fn with_folder(options: &WindowOptions) -> Self {
        let window = Self::first_start(options);
        window.open_folder(&window.folder);
        window
    }

    /// With a warp, [`GREY_RUNNER`], on the loom.
    pub fn with_warp(options: &WindowOptions) -> Self {
        let window = Self::with_folder(options);
        window.begin_warp(&GREY_RUNNER);
        window
    }

    /// With a warp, [`GREY_RUNNER`], and the weaving screen open.
    pub fn weaving(options: &WindowOptions) -> Self {
        let window = Self::with_warp(options);
        window.start_weaving();
        window
    }

    /// With the invented example.
    pub fn with_example(options: &WindowOptions) -> Self {
        let window = Self::first_start(options);
        window.open_example();
        window
    }

    /// Closes the program in good order; its device and slot remain.
    pub fn close(self) -> (Device, WindowSlots) {
        self.window.close();
        (self.device, self.slots)
    }

    /// Kills the program as a power cut would; its device and slot remain.
    pub fn kill_9(self) -> (Device, WindowSlots) {
        self.window.kill_9();
        (self.device, self.slots)
    }

    /// Closes the program in good order and opens it again on the same device.
    pub fn reopen(self, options: &WindowOptions) -> Self {
        let (device, slots) = self.close();
        Self::with_slots(slots, device, options)
    }

    /// Kills the program as a power cut would and opens it again on the same device.
    pub fn kill_and_reopen(self, options: &WindowOptions) -> Self {
        let (device, slots) = self.kill_9();
        Self::with_slots(slots, device, options)
    }
}

impl Deref for TestWindow {
    type Target = Window;

    fn deref(&self) -> &Window {
        &self.window
    }
}

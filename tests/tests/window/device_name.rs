//! The name of this device: proposed at the first start, and changed.

use fellmark_tests::window::{Device, GREY_RUNNER, TestWindow, WindowOptions};
use serde_json::json;

#[test]
fn the_device_is_named_before_it_writes_anything() {
    let window = TestWindow::on(Device::new(), &WindowOptions::phone());
    let proposed = window.value("@welcome-device");
    assert!(!proposed.is_empty() && proposed != "vm", "{proposed:?}");
    assert_eq!(window.axe() + &window.overflow(), "");
    window.screenshot("welcome-device-phone");
    window.type_into("@welcome-device", "Couch phone");
    window.open_folder(&window.folder);
    window.begin_warp(&GREY_RUNNER);
    let devices: Vec<String> = std::fs::read_dir(window.folder.join("devices"))
        .unwrap()
        .map(|file| std::fs::read_to_string(file.unwrap().path()).unwrap())
        .collect();
    assert!(devices.len() == 1 && devices[0].contains("Couch phone"), "{devices:?}");
    window.click("@nav-folder");
    assert_eq!(window.value("@device-name"), "Couch phone");
    // It is still called so at the next start.
    let window = window.reopen(&WindowOptions::laptop());
    window.click("@nav-folder");
    assert_eq!(window.value("@device-name"), "Couch phone");
}

#[test]
fn left_empty_it_is_called_as_was_proposed() {
    let window = TestWindow::on(Device::new(), &WindowOptions::laptop());
    let proposed = window.value("@welcome-device");
    window.type_into("@welcome-device", "  ");
    window.screenshot("welcome-device-laptop");
    window.open_folder(&window.folder);
    window.click("@nav-folder");
    assert_eq!(window.run("return document.querySelector('[data-part=device-name]').value"), json!(proposed));
}

#[cfg(unix)]
#[test]
fn only_its_owner_may_read_what_the_window_keeps() {
    use std::os::unix::fs::PermissionsExt;
    let window = TestWindow::with_warp(&WindowOptions::laptop());
    let data = window.device.home().join(".local/share");
    for name in ["fellmark", "org.fellmark.Fellmark"] {
        let mode = std::fs::metadata(data.join(name)).unwrap().permissions().mode() & 0o777;
        assert_eq!(mode, 0o700, "{name}: {mode:o}");
    }
}

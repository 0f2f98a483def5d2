//! What this device is called: proposed at the first start, hers to change.

use fellmark_tests::window::{Device, Look, Stage};
use serde_json::json;

use crate::weaver::{GREY_RUNNER, begin, open_folder};

#[test]
fn she_names_the_device_before_it_writes_anything() {
    let _stage = Stage::for_windows(1);
    let device = Device::new();
    let folder = device.folder("Weaving");
    let window = device.open(&Look::phone());
    let proposed = window.value("@welcome-device");
    assert!(!proposed.is_empty() && proposed != "vm", "{proposed:?}");
    assert_eq!(window.axe() + &window.overflow(), "");
    window.screenshot("welcome-device-phone");
    window.type_into("@welcome-device", "Couch phone");
    open_folder(&window, &folder);
    begin(&window, &GREY_RUNNER);
    let devices: Vec<String> = std::fs::read_dir(folder.join("devices"))
        .unwrap()
        .map(|file| std::fs::read_to_string(file.unwrap().path()).unwrap())
        .collect();
    assert!(devices.len() == 1 && devices[0].contains("Couch phone"), "{devices:?}");
    window.click("@nav-folder");
    assert_eq!(window.value("@device-name"), "Couch phone");
    window.close();
    // It is still called so at the next start.
    let window = device.open(&Look::laptop());
    window.click("@nav-folder");
    assert_eq!(window.value("@device-name"), "Couch phone");
}

#[test]
fn left_empty_it_is_called_as_was_proposed() {
    let _stage = Stage::for_windows(1);
    let device = Device::new();
    let window = device.open(&Look::laptop());
    let proposed = window.value("@welcome-device");
    window.type_into("@welcome-device", "  ");
    window.screenshot("welcome-device-laptop");
    open_folder(&window, &device.folder("Weaving"));
    window.click("@nav-folder");
    assert_eq!(window.run("return document.querySelector('[data-part=device-name]').value"), json!(proposed));
}

//! Midnight, time zones, daylight saving, and two devices that count on one warp at the same time: what is stored and shown.

use fellmark_tests::command_line::CommandLineDevice;
use fellmark_tests::journal::copy_dir;
use serde_json::Value;

fn begin(device: &CommandLineDevice) {
    let _ = device.json(&["begin", "Scarf", "--wound", "3 m", "--waste", "50 cm", "--picks", "40"]);
}

/// The sittings' fields, as the folder has them, in the order of their days.
fn sittings(device: &CommandLineDevice) -> Vec<Value> {
    let records = device.json(&["export", "everything"])["records"].clone();
    let all = records.as_array().unwrap().iter().filter(|one| one["kind"] == "sitting");
    let mut fields: Vec<Value> = all.map(|one| one["fields"].clone()).collect();
    fields.sort_by_key(|one| (one["on"].as_str().unwrap().to_owned(), one["picks"].as_i64()));
    fields
}

/// The day of a sitting is the calendar's where the device is when it is logged.
#[test]
fn the_day_is_that_of_the_device_before_and_after_midnight_and_in_another_zone() {
    let mut device = CommandLineDevice::new("laptop");
    begin(&device);
    device.set_today(None);
    let mut on = |zone: &'static str, utc: &str, picks: &str| {
        device.set_time_zone(zone);
        device.set_clock(Some(utc));
        let logged = device.json(&["log", "Scarf", "--picks", picks, "--minutes", "90"]);
        let id = logged["sitting"].clone();
        let records = device.json(&["export", "everything"])["records"].clone();
        let one = records.as_array().unwrap().iter().find(|one| one["id"] == id).unwrap().clone();
        assert_eq!(one["fields"]["minutes"].as_f64(), Some(90.0));
        one["fields"]["on"].as_str().unwrap().to_owned()
    };
    // faketime reads the time in the program's own zone.
    assert_eq!(on("Europe/Berlin", "@2026-11-24 23:50:00", "1"), "2026-11-24");
    assert_eq!(on("Europe/Berlin", "@2026-11-25 00:10:00", "2"), "2026-11-25");
    // The same moment is still the day before, further west.
    assert_eq!(on("America/New_York", "@2026-11-24 18:20:00", "3"), "2026-11-24");
    // The hour that comes twice, and the one that does not come at all.
    assert_eq!(on("Europe/Berlin", "@2026-10-25 02:30:00", "4"), "2026-10-25");
    assert_eq!(on("Europe/Berlin", "@2027-03-28 03:00:01", "5"), "2027-03-28");
    assert_eq!(sittings(&device).len(), 5);
}

/// A sitting on the day on which the clock changes keeps its minutes, wherever it is looked at: no clock changes them.
#[test]
fn a_sitting_over_the_change_of_the_clock_keeps_its_minutes() {
    let mut device = CommandLineDevice::new("laptop");
    begin(&device);
    device.set_time_zone("Europe/Berlin");
    device.json(&["log", "Scarf", "--on", "2026-10-25", "--minutes", "120", "--picks", "40"]);
    for zone in ["Europe/Berlin", "Asia/Tokyo"] {
        device.set_time_zone(zone);
        let stored = sittings(&device);
        assert_eq!(stored[0]["on"], "2026-10-25");
        assert_eq!(stored[0]["minutes"].as_f64(), Some(120.0));
        let shown = device.json(&["answers", "Scarf"])["answers"][0]["figures"].clone();
        assert_eq!((shown["picks"].as_i64(), shown["minutes"].as_f64()), (Some(40), Some(120.0)), "{shown}");
    }
}

/// Two devices count on one warp at once: both sittings stand, and the picks add up.
#[test]
fn two_devices_that_count_on_one_warp_add_up() {
    let laptop = CommandLineDevice::new("laptop");
    begin(&laptop);
    let phone = CommandLineDevice::new("phone");
    copy_dir(&laptop.folder(), &phone.folder());
    laptop.json(&["log", "Scarf", "--picks", "30", "--minutes", "10"]);
    phone.json(&["log", "Scarf", "--picks", "12", "--minutes", "5"]);
    copy_dir(&laptop.folder(), &phone.folder());
    copy_dir(&phone.folder(), &laptop.folder());
    for device in [&laptop, &phone] {
        let picks: Vec<_> = sittings(device).iter().map(|one| one["picks"].as_i64().unwrap()).collect();
        assert_eq!(picks, [12, 30]);
        assert_eq!(device.json(&["answers", "Scarf"])["answers"][0]["figures"]["picks"], 42);
    }
}

//! A correction is written, whatever the clock said and however small it is.

use fellmark_tests::command_line::CommandLineDevice;
use fellmark_tests::journal::copy_dir;
use serde_json::Value;

fn begun(device: &CommandLineDevice) {
    device.json(&[
        "begin",
        "Scarf",
        "--wound",
        "3 m",
        "--waste",
        "50 cm",
        "--picks",
        "40",
        "--weft",
        "grey",
        "--weft-mass",
        "90 g",
    ]);
}

fn log(device: &CommandLineDevice, figures: &[&str]) -> String {
    device.json(&[&["log", "Scarf"], figures].concat())["sitting"].as_str().unwrap().to_owned()
}

/// A field of a record, as the folder has it.
fn field(device: &CommandLineDevice, record: &str, field: &str) -> Value {
    let records = device.json(&["export", "everything"])["records"].clone();
    records.as_array().unwrap().iter().find(|one| one["id"] == record).unwrap()["fields"][field].clone()
}

#[test]
fn a_correction_of_an_entry_dated_ahead_is_written() {
    let mut device = CommandLineDevice::new("laptop");
    begun(&device);
    device.set_clock(Some("+2d"));
    let sitting = log(&device, &["--picks", "7"]);
    device.set_clock(None);
    for picks in [9, 7, 8] {
        device.json(&["correct", &sitting, "--picks", &picks.to_string()]);
        assert_eq!(field(&device, &sitting, "picks"), picks);
    }
    // So is that of a second device, whose clock was right all along.
    let phone = CommandLineDevice::new("phone");
    copy_dir(&device.folder(), &phone.folder());
    for picks in [9, 7] {
        phone.json(&["correct", &sitting, "--picks", &picks.to_string()]);
        assert_eq!(field(&phone, &sitting, "picks"), picks);
    }
    copy_dir(&phone.folder(), &device.folder());
    assert_eq!(field(&device, &sitting, "picks"), 7);
}

#[test]
fn a_small_correction_is_written() {
    let device = CommandLineDevice::new("laptop");
    begun(&device);
    let sitting = log(&device, &["--picks", "7", "--measured", "20 cm", "--weft-left", "40 g"]);
    device.json(&["correct", &sitting, "--measured", "20.07 cm"]);
    let mm = field(&device, &sitting, "measured_mm").as_f64().unwrap();
    assert!((mm - 200.7).abs() < 1e-9, "{mm}");
    device.json(&["correct", &sitting, "--weft-left", "40.2 g"]);
    let grams = field(&device, &sitting, "weft_left_g").as_f64().unwrap();
    assert!((grams - 40.2).abs() < 1e-9, "{grams}");
    // What comes back as it was shown is no change: a correction of the picks leaves the rest as it is, to the last bit.
    device.json(&["correct", &sitting, "--picks", "8"]);
    assert_eq!(field(&device, &sitting, "measured_mm").as_f64(), Some(mm));
    assert_eq!(field(&device, &sitting, "weft_left_g").as_f64(), Some(grams));
}

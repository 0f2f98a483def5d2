//! Backup and restore, a lost device, and what is deleted for good: what the guide says of it.

use std::fs;
use std::path::{Path, PathBuf};

use fellmark_tests::command_line::CommandLineDevice;
use fellmark_tests::journal::{all_files, picture};
use serde_json::Value;

const FIGURES: [&str; 6] = ["--wound", "3 m", "--waste", "50 cm", "--picks", "40"];

/// A warp, a sitting with a photo, one that was removed; the sitting's id.
fn log(device: &CommandLineDevice) -> String {
    device.json(&[&["begin", "Scarf"], &FIGURES[..]].concat());
    let file = device.home().join("woven.jpg");
    fs::write(&file, picture(60, 40)).unwrap();
    let sitting = device.json(&["log", "Scarf", "--picks", "40", "--minutes", "30", "--photo", file.to_str().unwrap()]);
    let removed = device.json(&["log", "Scarf", "--picks", "7"])["sitting"].as_str().unwrap().to_owned();
    device.json(&["remove", &removed]);
    sitting["sitting"].as_str().unwrap().to_owned()
}

/// Everything, without what depends on who wrote it.
fn everything(device: &CommandLineDevice) -> Value {
    let mut all = device.json(&["export", "everything"]);
    for record in all["records"].as_array_mut().unwrap() {
        record["fields"].as_object_mut().unwrap().remove("act");
        record["conflicts"].as_object_mut().unwrap().remove("act");
        for answers in record["conflicts"].as_object_mut().unwrap().values_mut() {
            let answers = answers.as_array_mut().unwrap();
            answers.iter_mut().for_each(|one| *one = one["value"].clone());
            answers.sort_by_key(Value::to_string);
        }
    }
    all
}

fn export(device: &CommandLineDevice) -> PathBuf {
    let file = device.home().join("everything.json");
    device.json(&["export", "everything", "--to", file.to_str().unwrap(), "--overwrite"]);
    file
}

fn copy(from: &Path, to: &Path) {
    for file in all_files(from) {
        let to = to.join(file.strip_prefix(from).unwrap());
        fs::create_dir_all(to.parent().unwrap()).unwrap();
        fs::copy(&file, to).unwrap();
    }
}

fn mentions(folder: &Path, text: &str) -> bool {
    all_files(folder).iter().any(|file| String::from_utf8_lossy(&fs::read(file).unwrap()).contains(text))
}

#[test]
fn everything_exported_comes_back_into_an_empty_folder() {
    let device = CommandLineDevice::new("laptop");
    let sitting = log(&device);
    // Two devices give the same sitting different picks while apart.
    let phone = CommandLineDevice::new("phone");
    copy(&device.folder(), &phone.folder());
    device.json(&["correct", &sitting, "--picks", "41"]);
    phone.json(&["correct", &sitting, "--picks", "42"]);
    copy(&phone.folder(), &device.folder());
    let conflicts = device.json(&["resolve"])["conflicts"].as_array().unwrap().len();
    assert_eq!(conflicts, 1);
    device.json(&["units", "imperial"]);
    let file = export(&device);

    let other = CommandLineDevice::new("other");
    let refused = device.refused(&["import", file.to_str().unwrap()], 2);
    assert!(refused.contains("empty folder"), "{refused}");
    assert_eq!(other.json(&["import", file.to_str().unwrap()])["import"]["list"], "everything");
    assert_eq!(everything(&other), everything(&device));
    assert_eq!(other.json(&["resolve"])["conflicts"].as_array().unwrap().len(), 1);
    // It is one action.
    other.json(&["undo"]);
    assert_eq!(other.json(&["warps"])["warps"][0]["state"], "removed");

    for (text, says) in [("{\"records\": [{\"id\": 3}]}", "Everything (JSON)"), ("{}", "Everything (JSON)")] {
        let file = other.home().join("broken.json");
        fs::write(&file, text).unwrap();
        let empty = CommandLineDevice::new("empty");
        let refused = empty.refused(&["import", file.to_str().unwrap()], 2);
        assert!(refused.contains(says), "{refused}");
    }
}

#[test]
fn a_copied_folder_is_a_whole_backup_for_a_new_device() {
    let lost = CommandLineDevice::new("laptop");
    log(&lost);
    let new = CommandLineDevice::new("laptop");
    copy(&lost.folder(), &new.folder());
    assert_eq!(new.json(&["export", "everything"]), lost.json(&["export", "everything"]));
    let photos: Vec<PathBuf> =
        all_files(&new.folder()).into_iter().filter(|file| file.extension().is_some_and(|end| end == "jpg")).collect();
    assert_eq!(photos.len(), 1);
    assert_eq!(new.run(&["check"]).status.code(), Some(0));
    // The new one writes in files of its own, though it has the old one's name.
    new.json(&["log", "Scarf", "--picks", "5"]);
    assert_eq!(fs::read_dir(new.folder().join("devices")).unwrap().count(), 2);
}

#[test]
fn a_removed_photo_stays_in_the_folder_until_its_file_is_deleted() {
    let device = CommandLineDevice::new("laptop");
    let sitting = log(&device);
    let phone = CommandLineDevice::on("phone", &device.folder());
    phone.json(&["warps"]);
    let photos = |folder: &Path| {
        let files = all_files(folder).into_iter();
        files.filter(|file| file.extension().is_some_and(|end| end == "jpg")).collect::<Vec<_>>()
    };
    // The sheet makes the small copy that this device keeps.
    device.json(&["export", "sheet", "--warp", "Scarf"]);
    let data = device.home().join("data");
    assert_eq!((photos(&device.folder()).len(), photos(&data).len()), (1, 1));
    let all = device.json(&["export", "everything"]);
    let is_photo = |record: &&Value| record["kind"] == "photo" && record["fields"]["sitting"] == *sitting;
    let photo = all["records"].as_array().unwrap().iter().find(is_photo).unwrap()["id"].as_str().unwrap().to_owned();
    device.json(&["remove", &photo]);
    assert_eq!(photos(&device.folder()).len(), 1, "it can be restored");

    // As the guide says: the file in the folder, and the small copies on each device.
    for file in photos(&device.folder()).into_iter().chain(photos(&data)) {
        fs::remove_file(file).unwrap();
    }
    for device in [&device, &phone] {
        assert_eq!(device.run(&["check"]).status.code(), Some(0), "{}", device.text(&["check"]));
        device.json(&["export", "sheet", "--warp", "Scarf"]);
        device.json(&["write-back"]);
        assert!(photos(&device.folder()).is_empty() && photos(&device.home().join("data")).is_empty());
    }
}

#[test]
fn a_note_is_gone_for_good_in_a_folder_restored_from_an_export() {
    const SECRET: &str = "for her birthday";
    let device = CommandLineDevice::new("laptop");
    let sitting = log(&device);
    device.json(&["correct", &sitting, "--note", SECRET]);
    device.json(&["correct", &sitting, "--note", ""]);
    let data = device.home().join("data");
    assert!(mentions(&device.folder(), SECRET) && mentions(&data, SECRET), "what was written once stays in the folder");
    let file = export(&device);
    let fresh = CommandLineDevice::new("laptop");
    fresh.json(&["import", file.to_str().unwrap()]);
    assert!(!mentions(fresh.home(), SECRET));
    assert_eq!(fresh.json(&["sittings", "Scarf"])["sittings"].as_array().unwrap().len(), 1);
}

//! The command line as scripts use it: words, exit codes and JSON as `docs/command-line.md` has them.

use std::path::{Path, PathBuf};

use fellmark_tests::command_line::CommandLineDevice;
use serde_json::Value;

/// What these tests do on a device again and again.
trait Weaving {
    fn begin(&self) -> String;
    fn figures(&self, warp: &str) -> Value;
    fn log(&self, warp: &str, figures: &[&str]) -> String;
}

impl Weaving for CommandLineDevice {
    fn begin(&self) -> String {
        let begun = self.json(&[
            "begin",
            "Sea runner",
            "--wound",
            "250 cm",
            "--waste",
            "45 cm",
            "--wanted",
            "180",
            "--wanted-state",
            "under_tension",
            "--picks",
            "40",
            "--warp-per-100",
            "110",
            "--width",
            "20 cm",
            "--weft-mass",
            "90 g",
        ]);
        begun["warp"].as_str().unwrap().to_owned()
    }

    fn figures(&self, warp: &str) -> Value {
        self.json(&["answers", warp])["answers"][0]["figures"].clone()
    }

    fn log(&self, warp: &str, figures: &[&str]) -> String {
        let logged = self.json(&[&["log", warp], figures].concat());
        logged["sitting"].as_str().unwrap().to_owned()
    }
}

/// Carries every file from one folder to another, as a synchroniser would; both hold only files with one writer.
fn carry(from: &Path, to: &Path) {
    for entry in std::fs::read_dir(from).unwrap().map(Result::unwrap) {
        let target = to.join(entry.file_name());
        if entry.file_type().unwrap().is_dir() {
            std::fs::create_dir_all(&target).unwrap();
            carry(&entry.path(), &target);
        } else if std::fs::metadata(&target).map_or(0, |data| data.len()) < entry.metadata().unwrap().len() {
            std::fs::copy(entry.path(), target).unwrap();
        }
    }
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap()
}

#[test]
fn a_warp_is_begun_woven_corrected_and_answered() {
    let device = CommandLineDevice::new("laptop");
    let warp = device.begin();
    let first = device.log(&warp, &["--on", "2026-11-20", "--minutes", "50", "--picks", "100"]);
    device.log(&warp, &["--on", "2026-11-22", "--minutes", "1:10", "--picks", "140", "--measured", "60 cm"]);
    let figures = device.figures(&warp);
    // 240 picks in 60 cm by the tape: 40 per 10 cm; 120 cm are left, 480 picks.
    assert_eq!(figures["picks"], 240);
    assert!((number(&figures["woven_mm"]) - 600.0).abs() < 1e-6);
    assert!((number(&figures["to_weave_mm"]) - 1200.0).abs() < 1e-6);
    assert_eq!(figures["to_weave_picks"], 480);
    // (250 - 45) - 60 x 1.10 = 139 cm of warp left, 126.4 cm of cloth (the relation as in the arithmetic's docs).
    assert!((number(&figures["warp_left_mm"]) - 1390.0).abs() < 1e-6);
    assert!((number(&figures["cloth_possible_mm"][1]) - 1390.0 / 1.1).abs() < 1e-6);
    let likely = figures["finished_likely"].as_str().unwrap();
    assert!(likely > "2026-11-25", "{likely}");

    device.json(&["correct", &first, "--picks", "120"]);
    assert_eq!(device.figures(&warp)["picks"], 260);
    device.json(&["undo"]);
    assert_eq!(device.figures(&warp)["picks"], 240);
    device.json(&["remove", &first]);
    assert_eq!(device.figures(&warp)["picks"], 140);
    assert_eq!(device.json(&["sittings", &warp, "--removed"])["removed"].as_array().unwrap().len(), 1);
    device.json(&["restore", &first]);
    assert_eq!(device.figures(&warp)["picks"], 240);
}

#[test]
fn a_correction_changes_what_it_names_and_nothing_else() {
    let device = CommandLineDevice::new("laptop");
    let warp = device.begin();
    let sitting =
        device.log(&warp, &["--minutes", "50", "--picks", "100", "--measured", "10 1/16 in", "--note", "first"]);
    device.json(&["--units", "imperial", "correct", &sitting, "--minutes", "55"]);
    let all = device.json(&["export", "everything"]);
    let record = all["records"].as_array().unwrap().iter().find(|record| record["id"] == sitting.as_str()).unwrap();
    assert_eq!(record["fields"]["minutes"], 55.0);
    assert_eq!(record["fields"]["measured_mm"], 10.0625 * 25.4);
    let lines: Vec<String> = files(&device.folder()).iter().flat_map(|file| read_lines(file)).collect();
    let last = lines.iter().rfind(|line| line.contains(&sitting)).unwrap();
    assert!(last.contains("\"minutes\":55") && !last.contains("measured_mm"), "{last}");
    device.json(&["correct", &sitting, "--note", ""]);
    assert_eq!(device.json(&["sittings", &warp])["sittings"][0]["note"], Value::Null);
}

fn files(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap().map(Result::unwrap) {
        if entry.path().is_dir() {
            found.extend(files(&entry.path()));
        } else {
            found.push(entry.path());
        }
    }
    found
}

fn read_lines(file: &Path) -> Vec<String> {
    std::fs::read_to_string(file).unwrap_or_default().lines().map(str::to_owned).collect()
}

#[test]
fn two_devices_that_correct_one_sitting_keep_both_answers_until_one_is_picked() {
    let (laptop, phone) = (CommandLineDevice::new("laptop"), CommandLineDevice::new("phone"));
    let warp = laptop.begin();
    let sitting = laptop.log(&warp, &["--picks", "100"]);
    std::fs::create_dir_all(phone.folder()).unwrap();
    carry(&laptop.folder(), &phone.folder());
    laptop.json(&["correct", &sitting, "--picks", "110"]);
    phone.json(&["correct", &sitting, "--picks", "90", "--minutes", "40"]);
    carry(&laptop.folder(), &phone.folder());
    carry(&phone.folder(), &laptop.folder());
    for device in [&laptop, &phone] {
        let waiting = device.json(&["resolve"]);
        let answers: Vec<&str> = waiting["conflicts"][0]["answers"]
            .as_array()
            .unwrap()
            .iter()
            .map(|a| a["value"].as_str().unwrap())
            .collect();
        assert_eq!(answers.len(), 2, "{waiting}");
        assert!(answers.contains(&"110") && answers.contains(&"90"));
    }
    assert_eq!(laptop.json(&["export", "everything"]), phone.json(&["export", "everything"]));
    let one = &phone.json(&["resolve"])["conflicts"][0];
    let chosen = one["answers"].as_array().unwrap().iter().find(|answer| answer["value"] == "110").unwrap();
    phone.json(&["resolve", &sitting, "picks", chosen["key"].as_str().unwrap()]);
    carry(&phone.folder(), &laptop.folder());
    assert_eq!(laptop.figures(&warp)["picks"], 110);
    assert!(laptop.json(&["resolve"])["conflicts"].as_array().unwrap().is_empty());
    // The minutes, which only the phone gave, were never in question.
    assert_eq!(number(&laptop.figures(&warp)["minutes"]), 40.0);
}

#[test]
fn bad_input_names_the_argument_and_writes_nothing() {
    let device = CommandLineDevice::new("laptop");
    let warp = device.begin();
    let before: Vec<Vec<String>> = files(&device.folder()).iter().map(|file| read_lines(file)).collect();
    for (arguments, named) in [
        (vec!["change", &warp, "--warp-per-100", "400"], "--warp-per-100"),
        (vec!["change", &warp, "--wound", "seven ells"], "--wound"),
        (vec!["change", &warp, "--waste", "3 m"], "--waste"),
        (vec!["log", &warp, "--minutes", "soon"], "--minutes"),
        (vec!["log", &warp, "--on", "31 November"], "--on"),
        (vec!["log", &warp, "--picks", "1.5"], "--picks"),
        (vec!["log", &warp, "--measured", "NaN"], "--measured"),
        (vec!["log", &warp], "--picks"),
    ] {
        let said = device.refused(&arguments, 2);
        assert!(said.starts_with(named), "{arguments:?} said: {said}");
        assert!(said.trim_end().ends_with('.') && said.len() > named.len() + 20, "{said}");
    }
    device.refused(&["log", "no such warp", "--picks", "3"], 3);
    device.refused(&["remove", "zzzz"], 3);
    device.refused(&["dance"], 2);
    let after: Vec<Vec<String>> = files(&device.folder()).iter().map(|file| read_lines(file)).collect();
    assert_eq!(before, after);
}

#[test]
fn a_folder_that_is_no_log_is_refused_and_left_alone() {
    let device = CommandLineDevice::new("laptop");
    std::fs::create_dir_all(device.folder()).unwrap();
    device.refused(&["answers"], 4);
    device.refused(&["log", "scarf", "--picks", "3"], 4);
    assert!(files(&device.folder()).is_empty());
    let missing = CommandLineDevice::on("laptop", &device.folder().join("nowhere"));
    missing.refused(&["answers"], 4);
    missing.refused(&["check"], 4);
}

#[test]
fn check_lists_a_torn_file_and_the_rest_is_used() {
    let device = CommandLineDevice::new("laptop");
    let warp = device.begin();
    device.log(&warp, &["--picks", "100"]);
    assert_eq!(device.run(&["check"]).status.code(), Some(0));
    let warp_file =
        files(&device.folder()).into_iter().find(|file| file.display().to_string().contains("warps")).unwrap();
    let copy = warp_file.with_file_name("phone-x.0001.json");
    let bytes = std::fs::read(&warp_file).unwrap();
    std::fs::write(&copy, &bytes[..bytes.len() - 40]).unwrap();
    let output = device.run(&["--json", "check"]);
    assert_eq!(output.status.code(), Some(1));
    let found: Value = serde_json::from_slice(&output.stdout).unwrap();
    assert!(found["problems"][0]["file"].as_str().unwrap().contains("phone-x.0001.json"), "{found}");
    assert_eq!(device.figures(&warp)["picks"], 100);
}

#[test]
fn the_example_is_invented_whole_and_the_same_every_time() {
    let (one, two) = (CommandLineDevice::new("laptop"), CommandLineDevice::new("laptop"));
    one.json(&["sample"]);
    two.json(&["sample"]);
    let answers = |device: &CommandLineDevice| {
        let said = device.text(&["answers", "--why", "--all"]);
        said.lines().map(str::to_owned).collect::<std::collections::BTreeSet<_>>()
    };
    assert_eq!(answers(&one), answers(&two));
    assert!(one.text(&["warps"]).lines().all(|line| line.contains("(invented)")));
    one.refused(&["sample"], 4);
}

#[test]
fn exports_hold_what_was_logged() {
    let device = CommandLineDevice::new("laptop");
    let warp = device.begin();
    device.log(&warp, &["--on", "2026-11-20", "--picks", "100", "--note", "commas, \"quotes\"\nand lines"]);
    let csv = device.text(&["export", "sittings"]);
    assert!(csv.starts_with("warp,warp_id,sitting_id,on,started,minutes,picks,measured_mm"));
    assert!(csv.contains("\"commas, \"\"quotes\"\"\nand lines\""));
    let file = device.home().join("warps.csv");
    device.text(&["export", "warps", "--to", file.to_str().unwrap()]);
    assert!(std::fs::read_to_string(file).unwrap().contains("Sea runner"));
}

#[test]
fn a_warp_is_found_by_name_or_by_the_beginning_of_its_id() {
    let device = CommandLineDevice::new("laptop");
    let warp = device.begin();
    assert!(device.text(&["answers", "Sea runner"]).starts_with("Sea runner"));
    assert!(device.text(&["answers", &warp[..6]]).starts_with("Sea runner"));
}

#[test]
fn resting_and_cut_off_warps_say_so() {
    let device = CommandLineDevice::new("laptop");
    let warp = device.begin();
    device.log(&warp, &["--on", "2026-11-20", "--picks", "100", "--minutes", "50"]);
    device.text(&["set-aside", &warp]);
    assert!(device.text(&["answers"]).contains("Resting since 25 November, so there is no date."));
    device.text(&["resume", &warp]);
    assert!(device.text(&["answers"]).contains("Likely done"));
    device.text(&["cut-off", &warp]);
    assert!(device.text(&["answers", &warp]).contains("Off the loom"));
    assert!(device.text(&["answers"]).contains("No warp is on the loom."));
}

#[test]
fn a_picture_is_kept_with_its_sitting() {
    let device = CommandLineDevice::new("laptop");
    let warp = device.begin();
    let picture = device.home().join("cloth.png");
    image::RgbImage::from_pixel(40, 30, image::Rgb([120, 80, 40])).save(&picture).unwrap();
    let file = picture.to_str().unwrap();
    let logged = device.json(&["log", &warp, "--picks", "10", "--photo", file]);
    assert_eq!(logged["photos"].as_array().unwrap().len(), 1);
    assert!(files(&device.folder()).iter().any(|file| file.extension().is_some_and(|ending| ending == "jpg")));
    let said = device.refused(&["log", &warp, "--picks", "10", "--photo", "/nowhere/cloth.jpg"], 2);
    assert!(said.contains("cloth.jpg"));
    assert_eq!(device.figures(&warp)["picks"], 10);
}

/// A sitting removed on the phone and corrected on the laptop: two choices, and each does what it says on both devices.
#[test]
fn what_was_removed_here_and_edited_there_offers_its_two_choices() {
    for (key, picks) in [("restored", 110), ("removed", 0)] {
        let (laptop, phone) = (CommandLineDevice::new("laptop"), CommandLineDevice::new("phone"));
        let warp = laptop.begin();
        let sitting = laptop.log(&warp, &["--picks", "100"]);
        std::fs::create_dir_all(phone.folder()).unwrap();
        carry(&laptop.folder(), &phone.folder());
        laptop.json(&["correct", &sitting, "--picks", "110"]);
        phone.json(&["remove", &sitting]);
        carry(&laptop.folder(), &phone.folder());
        carry(&phone.folder(), &laptop.folder());
        for device in [&laptop, &phone] {
            let conflict = device.json(&["resolve"])["conflicts"][0].clone();
            let answers: Vec<(&str, &str)> = conflict["answers"]
                .as_array()
                .unwrap()
                .iter()
                .map(|answer| (answer["key"].as_str().unwrap(), answer["device"].as_str().unwrap()))
                .collect();
            assert_eq!(answers, [("removed", "phone"), ("restored", "laptop")], "{conflict}");
            let listed = device.text(&["resolve"]);
            assert!(listed.contains("Keep it removed") && listed.contains("Restore it with the change"), "{listed}");
        }
        assert!(laptop.refused(&["resolve", &sitting, "gone", "perhaps"], 2).contains("settled"));
        laptop.json(&["resolve", &sitting, "gone", key]);
        carry(&laptop.folder(), &phone.folder());
        for device in [&laptop, &phone] {
            assert_eq!(device.figures(&warp)["picks"], picks, "{key}");
            assert!(device.json(&["resolve"])["conflicts"].as_array().unwrap().is_empty());
        }
        // It can be undone, and asks again.
        laptop.json(&["undo"]);
        assert_eq!(laptop.json(&["resolve"])["conflicts"].as_array().unwrap().len(), 1);
    }
}

#[test]
fn the_record_sheet_holds_the_cautions_with_their_sources() {
    let device = CommandLineDevice::new("laptop");
    device.json(&["begin", "Scarf"]);
    device.json(&["begin", "Cowl", "--for-child", "yes"]);
    let sheet = |warp| device.text(&["export", "sheet", "--warp", warp]);
    for part in ["shoulders", "scald", "mordant", "sheds dust", "rules where you live"] {
        assert!(sheet("Scarf").contains(part), "{part}");
    }
    assert!(!sheet("Scarf").contains("strangle"));
    assert!(sheet("Cowl").contains("strangle") && sheet("Cowl").contains("EN 14682"));
}

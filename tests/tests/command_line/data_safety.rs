//! What was written is there, whatever happens next: faults that a random run found, each from outside.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Output;

use fellmark_tests::command_line::{json_of, run};
use fellmark_tests::journal::{all_files, contents, copy_dir, mount::Mount, picture};
use serde_json::Value;

/// A home with a folder that holds a warp and a sitting of 11 minutes.
fn begun() -> tempfile::TempDir {
    let home = tempfile::tempdir().unwrap();
    json_of(home.path(), &["begin", "W", "--wound", "275"]);
    json_of(home.path(), &["log", "W", "--minutes", "11"]);
    home
}

/// The command line's own data.
fn local(home: &Path) -> PathBuf {
    let all = fs::read_dir(home.join("data/fellmark/command-line")).unwrap();
    all.map(|item| item.unwrap().path()).next().unwrap()
}

fn text(output: &Output) -> String {
    [String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr)].concat()
}

fn minutes(home: &Path) -> Vec<u64> {
    minutes_of(&json_of(home, &["sittings", "W"]))
}

fn minutes_on(output: &Output) -> Vec<u64> {
    minutes_of(&serde_json::from_slice(&output.stdout).unwrap())
}

fn minutes_of(sittings: &Value) -> Vec<u64> {
    let all = sittings["sittings"].as_array().unwrap();
    let mut minutes: Vec<u64> =
        all.iter().map(|one| one["form"]["minutes"].as_str().unwrap().parse().unwrap()).collect();
    minutes.sort_unstable();
    minutes
}

fn first_sitting(home: &Path) -> String {
    json_of(home, &["sittings", "W"])["sittings"][0]["id"].as_str().unwrap().to_owned()
}

fn in_folder(home: &Path, what: &str) -> usize {
    let files = all_files(&home.join("folder"));
    files.iter().map(|file| String::from_utf8_lossy(&fs::read(file).unwrap()).matches(what).count()).sum()
}

/// The only directory of a warp.
fn warp_dir(home: &Path) -> PathBuf {
    fs::read_dir(home.join("folder/warps")).unwrap().next().unwrap().unwrap().path()
}

#[test]
fn a_torn_line_of_the_replica_is_no_remembered_entry() {
    for starts_between in [true, false] {
        let home = begun();
        let home = home.path();
        copy_dir(&home.join("folder"), &home.join("older"));
        json_of(home, &["log", "W", "--minutes", "22"]);
        let replica = local(home).join("shadow.lines");
        let bytes = fs::read(&replica).unwrap();
        fs::write(&replica, &bytes[..bytes.len() - 20]).unwrap();
        if starts_between {
            // The folder still has it whole, and nothing else has.
            fs::remove_file(local(home).join("unsent.lines")).unwrap();
            json_of(home, &["warps"]);
        }
        fs::remove_dir_all(home.join("folder")).unwrap();
        copy_dir(&home.join("older"), &home.join("folder"));
        assert_eq!(minutes(home), [11, 22], "a start between: {starts_between}");
        let _ = run(home, &["write-back"]);
        assert_eq!(in_folder(home, r#""minutes":22"#), 1, "a start between: {starts_between}");
    }
}

/// Fills the disk that some directory lies on.
fn fill(dir: &Path) {
    use std::io::Write;
    let mut file = fs::File::create(dir.join("litter")).unwrap();
    for bytes in [64 << 10, 4 << 10, 1] {
        while file.write_all(&vec![b'x'; bytes]).is_ok() {}
    }
}

#[test]
fn a_full_local_disk_is_said_and_makes_no_new_devices() {
    let home = tempfile::tempdir().unwrap();
    let home = home.path();
    let disk = home.join("disk");
    let Some(mount) = Mount::memory(&disk, "size=256k") else { return };
    let local = disk.join("local");
    let on_disk = |arguments: &[&str]| run(home, &[&["--local", local.to_str().unwrap()], arguments].concat());
    assert!(on_disk(&["begin", "W", "--wound", "275"]).status.success());
    assert!(on_disk(&["log", "W", "--minutes", "11"]).status.success());
    fill(&disk);
    // Longer than what is left free in the last block of a file.
    let note = "n".repeat(5_000);
    let first = on_disk(&["log", "W", "--minutes", "22", "--note", &note]);
    assert_eq!(first.status.code(), Some(1), "{}", text(&first));
    assert!(text(&first).contains("took no copy"), "{}", text(&first));
    // The folder takes it each time, which is said each time; the device stays what it is.
    for _ in 0..6 {
        let next = on_disk(&["log", "W", "--minutes", "33", "--note", &note]);
        assert_eq!(next.status.code(), Some(1), "{}", text(&next));
        assert!(text(&next).contains("took no copy"), "{}", text(&next));
    }
    assert_eq!(all_files(&home.join("folder/devices")).len(), 1);
    assert_eq!((in_folder(home, r#""minutes":22"#), in_folder(home, r#""minutes":33"#)), (1, 6));
    fs::remove_file(disk.join("litter")).unwrap();
    let again = on_disk(&["log", "W", "--minutes", "44"]);
    assert!(again.status.success(), "{}", text(&again));
    assert!(on_disk(&["log", "W", "--minutes", "55"]).status.success());
    assert_eq!((in_folder(home, r#""minutes":22"#), in_folder(home, r#""minutes":44"#)), (1, 1));
    assert_eq!(all_files(&home.join("folder/devices")).len(), 1);
    assert_eq!(all_files(&warp_dir(home)).len(), 1);
    // By now this device remembers all of it: what the folder loses can be written back.
    fs::remove_file(all_files(&warp_dir(home)).remove(0)).unwrap();
    assert_eq!(minutes_on(&on_disk(&["--json", "sittings", "W"])), [11, 22, 33, 33, 33, 33, 33, 33, 44, 55]);
    mount.unmount();
}

/// While a device's own disk is full, what it writes lies in the folder alone: that is said each time, as an older copy of the
/// folder's file then takes it away. It is there again with any other copy, and stays once there is space and the device has
/// been started.
#[test]
fn what_lies_in_the_folder_alone_is_said_and_stays_once_the_disk_has_space() {
    let home = tempfile::tempdir().unwrap();
    let home = home.path();
    let disk = home.join("disk");
    let Some(_mount) = Mount::memory(&disk, "size=256k") else { return };
    let (folder, local) = (home.join("folder"), disk.join("local"));
    let on_disk = |arguments: &[&str]| run(home, &[&["--local", local.to_str().unwrap()], arguments].concat());
    let shown = || minutes_on(&on_disk(&["--json", "sittings", "W"]));
    assert!(on_disk(&["begin", "W", "--wound", "275"]).status.success());
    assert!(on_disk(&["log", "W", "--minutes", "11"]).status.success());
    copy_dir(&folder, &home.join("older"));
    fill(&disk);
    let note = "n".repeat(5_000);
    let alone = on_disk(&["--json", "log", "W", "--minutes", "22", "--note", &note]);
    assert_eq!(alone.status.code(), Some(1), "{}", text(&alone));
    let answer: Value = serde_json::from_slice(&alone.stdout).unwrap();
    assert!(answer["no_local_copy"].is_string(), "{answer}");
    // A command that only reads says it, too.
    let reads = on_disk(&["--json", "warps"]);
    assert!(text(&reads).contains("no_local_copy"), "{}", text(&reads));
    copy_dir(&folder, &home.join("newer"));
    copy_dir(&home.join("older"), &folder);
    assert_eq!(shown(), [11]);
    copy_dir(&home.join("newer"), &folder);
    assert_eq!(shown(), [11, 22]);
    fs::remove_file(disk.join("litter")).unwrap();
    assert!(on_disk(&["warps"]).status.success());
    copy_dir(&home.join("older"), &folder);
    assert_eq!(shown(), [11, 22]);
    assert!(on_disk(&["write-back"]).status.success());
    assert_eq!(in_folder(home, r#""minutes":22"#), 1);
}

/// A command that has something else to say as well does not leave out that what it wrote lies in the folder alone.
#[test]
fn an_import_with_refused_rows_says_what_lies_in_the_folder_alone() {
    let home = tempfile::tempdir().unwrap();
    let home = home.path();
    let disk = home.join("disk");
    let Some(_mount) = Mount::memory(&disk, "size=256k") else { return };
    let local = disk.join("local");
    let on_disk = |arguments: &[&str]| run(home, &[&["--local", local.to_str().unwrap()], arguments].concat());
    assert!(on_disk(&["begin", "W", "--wound", "275"]).status.success());
    fill(&disk);
    let table = home.join("table.csv");
    fs::write(&table, format!("day,minutes,note\n2026-11-01,33,{}\nsoon,44,n\n", "n".repeat(5_000))).unwrap();
    let imported = on_disk(&["--json", "import", table.to_str().unwrap(), "--warp", "W", "--list", "sittings"]);
    assert_eq!(imported.status.code(), Some(1), "{}", text(&imported));
    let answer: Value = serde_json::from_slice(&imported.stdout).unwrap();
    assert_eq!(answer["import"]["refused"].as_array().map(Vec::len), Some(1), "{answer}");
    assert!(answer["no_local_copy"].is_string(), "{answer}");
}

/// Without a place for its id a device does not write, as its next start would be another device.
#[test]
fn a_device_that_cannot_keep_its_id_writes_nothing_and_says_why() {
    let home = begun();
    let home = home.path();
    let disk = home.join("disk");
    let Some(_mount) = Mount::memory(&disk, "size=256k") else { return };
    let on_disk =
        |arguments: &[&str]| run(home, &[&["--local", disk.join("local").to_str().unwrap()], arguments].concat());
    fill(&disk);
    let before = contents(&home.join("folder"));
    for _ in 0..3 {
        let refused = on_disk(&["log", "W", "--minutes", "22"]);
        assert_eq!(refused.status.code(), Some(4), "{}", text(&refused));
        assert!(text(&refused).contains("device.json"), "{}", text(&refused));
        assert!(text(&refused).contains("No space left"), "{}", text(&refused));
        assert!(contents(&home.join("folder")) == before);
    }
    fs::remove_file(disk.join("litter")).unwrap();
    assert!(on_disk(&["log", "W", "--minutes", "22"]).status.success());
    assert_eq!(minutes(home), [11, 22]);
    // A device whose id another one writes under takes a new id, which it cannot keep.
    copy_dir(&disk.join("local"), &home.join("copy"));
    let copy = run(home, &["--local", home.join("copy").to_str().unwrap(), "log", "W", "--minutes", "33"]);
    assert!(copy.status.success(), "{}", text(&copy));
    fill(&disk);
    let before = contents(&home.join("folder"));
    for _ in 0..3 {
        let refused = on_disk(&["log", "W", "--minutes", "44"]);
        assert_eq!(refused.status.code(), Some(4), "{}", text(&refused));
        assert!(contents(&home.join("folder")) == before);
    }
}

/// Fills a disk and leaves some of it free.
fn fill_but(disk: &Path, free_bytes: u64) {
    fill(disk);
    let file = fs::OpenOptions::new().write(true).open(disk.join("litter")).unwrap();
    let bytes = file.metadata().unwrap().len();
    file.set_len(bytes.saturating_sub(free_bytes)).unwrap();
}

#[test]
fn with_both_disks_full_what_is_refused_is_not_written_and_the_rest_is() {
    let home = tempfile::tempdir().unwrap();
    let home = home.path();
    let (here, there) = (home.join("here"), home.join("there"));
    let Some(_here) = Mount::memory(&here, "size=400k") else { return };
    let Some(_there) = Mount::memory(&there, "size=400k") else { return };
    let (folder, local) = (there.join("folder"), here.join("local"));
    let fell = |arguments: &[&str]| {
        let options = ["--folder", folder.to_str().unwrap(), "--local", local.to_str().unwrap()];
        fellmark_tests::command_line::run_with(home, &options, arguments)
    };
    assert!(fell(&["begin", "W", "--wound", "275"]).status.success());
    let camera = home.join("picture.jpg");
    fs::write(&camera, picture(640, 480)).unwrap();
    let (mut expected, mut ends) = (vec![], std::collections::BTreeSet::new());
    let kilobytes = [0u64, 4, 8, 12].into_iter();
    let cases =
        kilobytes.flat_map(|folder| [0u64, 4, 8].map(|local| [10, 3_000, 5_000].map(|note| (folder, local, note))));
    for (minutes, (folder_kb, local_kb, note)) in (100u64..).zip(cases.flatten()) {
        fill_but(&there, folder_kb << 10);
        fill_but(&here, local_kb << 10);
        let (typed, note) = (minutes.to_string(), "n".repeat(note));
        let mut arguments = vec!["log", "W", "--minutes", &typed, "--note", &note];
        if minutes % 2 == 0 {
            arguments.extend(["--photo", camera.to_str().unwrap()]);
        }
        let output = fell(&arguments);
        let code = output.status.code().unwrap();
        ends.insert(code);
        match code {
            0 | 1 => expected.push(minutes),
            4 => assert!(text(&output).contains("othing could be saved"), "{}", text(&output)),
            _ => panic!("{folder_kb} KB and {local_kb} KB free: {code}, {}", text(&output)),
        }
        fs::remove_file(here.join("litter")).unwrap();
        fs::remove_file(there.join("litter")).unwrap();
        let _ = fell(&["write-back"]);
        let sittings = fell(&["--json", "sittings", "W"]);
        assert_eq!(minutes_on(&sittings), expected, "{folder_kb} KB and {local_kb} KB free: {}", text(&output));
    }
    assert!(ends.is_superset(&[1, 4].into()), "{ends:?}");
    assert_eq!(all_files(&folder.join("devices")).len(), 1);
}

#[test]
fn photos_that_are_missing_or_damaged_are_reported_and_repaired() {
    let home = begun();
    let home = home.path();
    let camera = home.join("picture.jpg");
    fs::write(&camera, picture(64, 48)).unwrap();
    let sitting = first_sitting(home);
    let add = || run(home, &["photo", &sitting, camera.to_str().unwrap()]);
    let output = add();
    assert!(output.status.success(), "{}", text(&output));
    let dir = warp_dir(home).join("photos");
    let stored = all_files(&dir).remove(0);
    let whole = fs::read(&stored).unwrap();
    assert!(run(home, &["check"]).status.success());
    type DamageFn = fn(&Path);
    let cut: DamageFn = |file| fs::write(file, &fs::read(file).unwrap()[..100]).unwrap();
    let happens: [(&str, DamageFn); 3] = [
        ("missing", |file| fs::remove_file(file).unwrap()),
        ("cut", cut),
        ("empty", |file| fs::write(file, "").unwrap()),
    ];
    for (what, happen) in happens {
        happen(&stored);
        let check = run(home, &["check"]);
        assert_eq!(check.status.code(), Some(1), "{what}: {}", text(&check));
        assert!(text(&check).contains("photo"), "{what}: {}", text(&check));
        assert!(add().status.success(), "{what}");
        assert_eq!(fs::read(&stored).unwrap(), whole, "{what}");
        assert!(run(home, &["check"]).status.success(), "{what}");
    }
    // Under another name it is the same photo.
    for name in [".jpg..path1", " (1).jpg", ".sync-conflict-20261125-055057-ZEAHAOA.jpg"] {
        let renamed = dir.join(format!("{}{name}", stored.file_stem().unwrap().to_string_lossy()));
        fs::rename(&stored, &renamed).unwrap();
        let check = run(home, &["check"]);
        assert!(check.status.success(), "{name}: {}", text(&check));
        assert!(add().status.success());
        assert_eq!(all_files(&dir), std::slice::from_ref(&renamed), "{name}: it was stored twice");
        fs::rename(&renamed, &stored).unwrap();
    }
}

#[cfg(unix)]
#[test]
fn links_in_the_place_of_directories_are_refused_and_reported() {
    for linked in ["warps", "shelf", "devices", "photos", "the warp's own"] {
        let home = begun();
        let home = home.path();
        let camera = home.join("picture.jpg");
        fs::write(&camera, picture(64, 48)).unwrap();
        let sitting = first_sitting(home);
        let photo = || run(home, &["photo", &sitting, camera.to_str().unwrap()]);
        assert!(photo().status.success());
        assert!(run(home, &["units", "metric"]).status.success());
        let (warp, folder) = (warp_dir(home), home.join("folder"));
        let dir = match linked {
            "photos" => warp.join("photos"),
            "the warp's own" => warp,
            name => folder.join(name),
        };
        let outside = home.join("outside");
        fs::rename(&dir, &outside).unwrap();
        std::os::unix::fs::symlink(&outside, &dir).unwrap();
        let before = contents(&outside);
        let _ = run(home, &["log", "W", "--minutes", "22"]);
        let _ = run(home, &["units", "imperial"]);
        fs::write(&camera, picture(48, 64)).unwrap();
        let _ = photo();
        assert!(contents(&outside) == before, "{linked} was written through");
        let check = run(home, &["check"]);
        assert_eq!(check.status.code(), Some(1), "{linked}: {}", text(&check));
        assert!(text(&check).contains("link"), "{linked}: {}", text(&check));
        // Put back, what waited goes in.
        fs::remove_file(&dir).unwrap();
        fs::rename(&outside, &dir).unwrap();
        assert!(run(home, &["write-back"]).status.success(), "{linked}");
        assert_eq!(in_folder(home, r#""minutes":22"#), 1, "{linked}");
        assert!(run(home, &["check"]).status.success(), "{linked}");
    }
}

#[test]
fn a_directory_in_the_place_of_a_file_is_reported() {
    let home = begun();
    let home = home.path();
    let own = all_files(&warp_dir(home)).remove(0);
    fs::create_dir(own.to_string_lossy().replace(".0001.", ".0002.")).unwrap();
    let check = run(home, &["check"]);
    assert_eq!(check.status.code(), Some(1), "{}", text(&check));
    assert!(text(&check).contains(".0002.json"), "{}", text(&check));
    json_of(home, &["log", "W", "--minutes", "22"]);
    assert_eq!(in_folder(home, r#""minutes":22"#), 1);
}

#[test]
fn a_folder_without_any_marker_is_marked_again_after_confirmation() {
    let home = begun();
    let home = home.path();
    let folder = home.join("folder");
    fs::remove_dir_all(folder.join("devices")).unwrap();
    let waiting_days = run(home, &["log", "W", "--minutes", "22"]);
    assert_eq!(waiting_days.status.code(), Some(1), "{}", text(&waiting_days));
    assert!(text(&waiting_days).contains("markers"), "what happened is not said: {}", text(&waiting_days));
    assert!(!folder.join("devices").exists());
    let unconfirmed = run(home, &["mark-folder"]);
    assert_eq!(unconfirmed.status.code(), Some(2), "{}", text(&unconfirmed));
    assert!(!folder.join("devices").exists());
    let marked: Value = json_of(home, &["mark-folder", "--confirm"]);
    assert_eq!(marked["waiting"], 0);
    assert_eq!((in_folder(home, r#""minutes":22"#), minutes(home)), (1, vec![11, 22]));
    assert!(run(home, &["check"]).status.success());
    // Nothing needs marking now.
    assert_eq!(run(home, &["mark-folder", "--confirm"]).status.code(), Some(4));
    // A place where nothing lies is not taken for the folder, nor is another log.
    let away = home.join("away");
    fs::rename(&folder, &away).unwrap();
    fs::create_dir(&folder).unwrap();
    assert_eq!(run(home, &["mark-folder", "--confirm"]).status.code(), Some(4));
    assert_eq!(all_files(&folder), Vec::<PathBuf>::new());
    let other = begun();
    copy_dir(&other.path().join("folder/warps"), &folder.join("warps"));
    let before = contents(&folder);
    assert_eq!(run(home, &["mark-folder", "--confirm"]).status.code(), Some(4));
    assert!(contents(&folder) == before);
}

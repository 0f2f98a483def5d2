//! Faults 25 to 32: copies, other line ends, other layouts, other names.

use std::path::Path;
use std::process::Command;

use fellmark_journal::{DeviceId, Entry, Journal, Options, RecordId, Segment};
use serde_json::Value;

use fellmark_tests::journal::{self, SharedFolder, contents, picture};

/// A log of two devices; the phone's file of the warp.
fn two_devices() -> (SharedFolder, Journal, Journal, RecordId, std::path::PathBuf) {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    let mut phone = shared.open("phone");
    journal::log_sitting(&mut phone, &warp, 42, 118);
    journal::log_sitting(&mut phone, &warp, 43, 119);
    laptop.refresh(&[]).unwrap();
    let file = shared.entry_files().into_iter().find(|file| file.to_string_lossy().contains("phone")).unwrap();
    (shared, laptop, phone, warp, file)
}

#[test]
fn fault_25_conflict_copies_under_any_name_are_read_and_count_once() {
    let names = [
        "x.sync-conflict-20261125-055057-ZEAHAOA.json",
        "x (conflict_on_2026-11-25).json",
        "x (conflict #1_on_2026-11-25).json",
        "x.json..path1",
        "x.json..path2",
        "x (1).json",
        "x 2.json",
        "x (Ann's conflicted copy 2026-11-25).json",
        "x-DESKTOP-4F7.json",
        "x.json.orig",
        "x.JSON",
        "no ending at all",
    ];
    for name in names {
        let (shared, laptop, phone, _, file) = two_devices();
        let copy = file.with_file_name(name);
        std::fs::copy(&file, &copy).unwrap();
        let mut tablet = shared.open("tablet");
        assert_eq!(tablet.state(), laptop.state(), "{name}");
        assert!(tablet.status().problems.is_empty(), "{name}: {:?}", tablet.status().problems);
        std::fs::remove_file(&file).unwrap();
        tablet.refresh(&[]).unwrap();
        assert_eq!((tablet.state(), tablet.status().vanished), (phone.state(), 0), "{name}");
        assert_eq!(shared.open("desktop").state(), laptop.state(), "{name}");
    }
}

#[test]
fn fault_25_copies_of_whole_directories_and_moved_files_are_read() {
    let (shared, laptop, _, warp, file) = two_devices();
    let dir = file.parent().unwrap();
    let renamed = dir.with_file_name("my own name for it");
    std::fs::rename(dir, &renamed).unwrap();
    journal::copy_dir(&renamed, &shared.folder().join("backup/of/last year"));
    let mut tablet = shared.open("tablet");
    assert_eq!(tablet.state(), laptop.state());
    // New entries go where the warp's entries lie, whatever that is called now.
    journal::log_sitting(&mut tablet, &warp, 1, 2);
    assert!(!dir.exists());
    assert_eq!(std::fs::read_dir(&renamed).unwrap().count(), 3);
}

fn git(dir: &Path, args: &[&str]) -> bool {
    let mut git = Command::new("git");
    git.current_dir(dir).args(["-c", "user.name=Ann", "-c", "user.email=ann@example.org"]).args(args);
    git.output().expect("git is needed: apt-get install git").status.success()
}

#[test]
fn fault_26_git_conflict_markers_leave_all_sound_lines() {
    let (shared, _, mut phone, warp, file) = two_devices();
    let folder = shared.folder();
    assert!(git(&folder, &["init", "-q", "-b", "main"]) && git(&folder, &["add", "."]));
    assert!(git(&folder, &["commit", "-q", "-m", "as it was"]) && git(&folder, &["switch", "-q", "-c", "other"]));
    let as_it_was = std::fs::read(&file).unwrap();
    journal::log_sitting(&mut phone, &warp, 60, 200);
    let mine = std::fs::read(&file).unwrap();
    // The same file with another line at the same place, as no one should make it.
    std::fs::write(&file, &as_it_was).unwrap();
    let rest = format!(
        r#""of":"x1","kind":"sitting","warp":"{warp}","by":"elsewhere","at":"","over":[],"set":{{"picks":7}}}}"#
    );
    let line = format!(r#"{{"key":"{}",{rest}"#, fellmark_journal::Key::of_rest(rest.as_bytes()));
    let text = String::from_utf8(as_it_was).unwrap().replace("\n]}", &format!(",\n{line}\n]}}"));
    std::fs::write(&file, text).unwrap();
    assert!(git(&folder, &["commit", "-q", "-a", "-m", "theirs"]) && git(&folder, &["switch", "-q", "main"]));
    std::fs::write(&file, mine).unwrap();
    assert!(git(&folder, &["commit", "-q", "-a", "-m", "mine"]));
    assert!(!git(&folder, &["merge", "-q", "other"]), "git found no conflict");
    assert!(std::fs::read_to_string(&file).unwrap().contains("<<<<<<<"));

    let tablet = shared.open("tablet");
    assert_eq!(tablet.state().len(), 5);
    assert!(tablet.state().record(&"x1".parse().unwrap()).is_some());
    assert!(
        tablet
            .status()
            .problems
            .iter()
            .all(|problem| fellmark_present::folder_words::problem_sentence(&problem.kind).contains("version control"))
    );
    // The device whose file it is finds a line there that it never wrote, in a file it does not write again.
    let before = std::fs::read(&file).unwrap();
    phone.refresh(&[]).unwrap();
    journal::log_sitting(&mut phone, &warp, 61, 201);
    assert_eq!(std::fs::read(&file).unwrap(), before);
    assert_eq!(shared.open("desktop").state(), phone.state());
}

#[test]
fn fault_27_keys_hold_through_other_line_ends() {
    let (shared, laptop, mut phone, warp, file) = two_devices();
    let all = laptop.state().clone();
    for file in shared.entry_files() {
        let text = std::fs::read_to_string(&file).unwrap().replace('\n', "\r\n");
        std::fs::write(&file, format!("\u{feff}{text}")).unwrap();
    }
    let tablet = shared.open("tablet");
    assert_eq!(tablet.state(), &all);
    assert!(tablet.status().problems.is_empty(), "{:?}", tablet.status().problems);
    phone.refresh(&[]).unwrap();
    journal::log_sitting(&mut phone, &warp, 1, 2);
    assert!(Segment::read(&std::fs::read(&file).unwrap()).as_written);
    assert_eq!(shared.open("desktop").state(), phone.state());
}

fn sorted(value: &Value) -> Value {
    let mut value = value.clone();
    value.sort_all_objects();
    value
}

/// As a program writes JSON that keeps to ASCII.
fn ascii(text: &str) -> String {
    text.chars()
        .map(|c| {
            if c.is_ascii() {
                c.to_string()
            } else {
                c.encode_utf16(&mut [0; 2]).iter().map(|u| format!("\\u{u:04x}")).collect()
            }
        })
        .collect()
}

#[test]
fn fault_28_json_laid_out_anew_is_read_by_its_keys_or_set_aside_in_sight() {
    let (shared, laptop, mut phone, warp, file) = two_devices();
    let record = phone.state().record(&warp).unwrap().clone();
    let set = journal::fields(
        serde_json::json!({"note": "Größe 🎁 \"so\" \\ /", "list": [1.5, {"b": 1, "a": null}], "e": {}}),
    );
    phone.write(vec![fellmark_journal::EntryDraft::on(&record, set)]).unwrap();
    drop(laptop);
    let text = std::fs::read_to_string(&file).unwrap();
    let value: Value = serde_json::from_str(&text).unwrap();
    let indented = serde_json::to_string_pretty(&value).unwrap();
    let layouts = [
        ("indented", indented.clone()),
        ("on one line", value.to_string()),
        ("ASCII", ascii(&indented)),
        ("sorted", serde_json::to_string_pretty(&sorted(&value)).unwrap()),
        ("sorted, ASCII, CRLF", ascii(&serde_json::to_string_pretty(&sorted(&value)).unwrap()).replace('\n', "\r\n")),
    ];
    for (name, layout) in &layouts {
        std::fs::write(&file, layout).unwrap();
        let reader = Journal::open(shared.options(&format!("reader {name}"))).unwrap();
        assert_eq!(reader.state(), phone.state(), "{name}");
        assert!(reader.status().problems.is_empty(), "{name}: {:?}", reader.status().problems);
    }
    // A number changed on the way: that entry alone is set aside and reported with its line.
    let changed = indented.replace("118", "119");
    let line = changed.lines().position(|line| line.contains("\"picks\": 119")).unwrap();
    std::fs::write(&file, &changed).unwrap();
    let reader = shared.open("reader of a change");
    assert_eq!(reader.state().len(), phone.state().len() - 1);
    let problems = reader.status().problems;
    assert_eq!(problems.len(), 1);
    assert!(
        fellmark_present::folder_words::problem_sentence(&problems[0].kind).contains("was changed"),
        "{problems:?}"
    );
    let reported = problems[0].line.unwrap();
    assert!(reported <= line + 1 && reported + 12 > line, "{reported} {line}");
    assert_eq!(Journal::check(&shared.folder()), problems);
}

#[test]
fn fault_29_a_cloned_device_takes_another_id_and_both_sets_are_kept() {
    let (a, b) = (SharedFolder::new(), SharedFolder::new());
    let mut laptop = a.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    journal::log_sitting(&mut laptop, &warp, 1, 1);
    let old: DeviceId = laptop.device().clone();
    drop(laptop);
    journal::copy_dir(&a.folder(), &b.folder());
    journal::copy_dir(&a.local("laptop"), &b.local("laptop"));
    // Both write under one id, without sight of each other.
    let (mut here, mut there) = (a.open("laptop"), b.open("laptop"));
    assert_eq!(here.device(), there.device());
    let first = journal::log_sitting(&mut here, &warp, 2, 2);
    let second = journal::log_sitting(&mut there, &warp, 3, 3);
    // The synchroniser replaces one file by the other and keeps the first as a conflict copy.
    let file = a.entry_files().remove(0);
    let theirs = std::fs::read(b.entry_files().remove(0)).unwrap();
    let conflict = file.with_file_name(format!("{old}.0001.sync-conflict-20261125-055057-ZEAHAOA.json"));
    std::fs::rename(&file, &conflict).unwrap();
    std::fs::write(&file, &theirs).unwrap();
    here.refresh(&[]).unwrap();
    assert_ne!(here.device(), &old);
    assert!(here.state().record(&first).is_some() && here.state().record(&second).is_some());
    let third = journal::log_sitting(&mut here, &warp, 4, 4);
    assert_eq!(std::fs::read(&file).unwrap(), theirs, "the file of the old id is left alone");
    let new = here.device().clone();
    drop(here);
    assert_eq!(a.open("laptop").device(), &new);
    // The other one sees what the first wrote under the old id, and both agree.
    drop(there);
    std::fs::remove_dir_all(b.folder()).unwrap();
    journal::copy_dir(&a.folder(), &b.folder());
    let there = b.open("laptop");
    for id in [&first, &second, &third] {
        assert!(there.state().record(id).is_some());
    }
    assert_eq!((there.state(), there.status().vanished), (a.open("laptop").state(), 0));
}

#[test]
fn fault_30_the_same_photo_twice_is_one_photo() {
    let (_bench, mut laptop, _, warp, _) = two_devices();
    let photo = picture(40, 30);
    let first = laptop.photo_add(&warp, &photo).unwrap();
    let again = laptop.photo_add(&warp, &photo).unwrap();
    assert_eq!((first.already, again.already), (false, true));
    assert_eq!((&first.hash, &first.source_hash), (&again.hash, &again.source_hash));
    let path = laptop.photo_path(&warp, &first.hash).unwrap();
    for copy in ["..path1", " (1).jpg", ".sync-conflict-20261125-055057-ZEAHAOA.jpg"] {
        std::fs::copy(&path, format!("{}{copy}", path.display())).unwrap();
    }
    assert_eq!(laptop.photos(&warp).len(), 1);
}

#[test]
fn fault_31_another_file_under_the_name_of_ones_own_is_not_clobbered() {
    // No case-insensitive file system can be made everywhere, so the test makes what one would show: under this
    // device's file name lies the file of a device whose name differs in capitals alone.
    let (shared, laptop, mut phone, warp, file) = two_devices();
    drop(laptop);
    let old = phone.device().to_string();
    let text = std::fs::read_to_string(&file).unwrap();
    let segment = Segment::read(text.as_bytes());
    let capitals: DeviceId = old.to_uppercase().parse().unwrap();
    let theirs = fellmark_journal::render(&capitals, 1, segment.entries.iter().take(1).map(Entry::line));
    std::fs::write(&file, &theirs).unwrap();
    let sitting = journal::log_sitting(&mut phone, &warp, 9, 9);
    assert_eq!(std::fs::read(&file).unwrap(), theirs);
    assert_ne!(phone.device().as_str(), old);
    assert!(phone.device().as_str().chars().all(|c| !c.is_uppercase()), "names never differ in capitals alone");
    assert!(shared.open("tablet").state().record(&sitting).is_some());
}

#[test]
fn fault_32_composed_and_decomposed_names_are_decided_by_content() {
    let (shared, laptop, _, warp, file) = two_devices();
    let dir = file.parent().unwrap();
    let composed = dir.with_file_name("L\u{e4}ufer");
    let decomposed = dir.with_file_name("La\u{308}ufer");
    std::fs::rename(dir, &composed).unwrap();
    journal::copy_dir(&composed, &decomposed);
    let mut tablet = shared.open("tablet");
    assert_eq!(tablet.state(), laptop.state());
    journal::log_sitting(&mut tablet, &warp, 1, 2);
    assert_eq!(std::fs::read_dir(shared.folder().join("warps")).unwrap().count(), 2);
    assert_eq!(shared.open("desktop").state(), tablet.state());
}

#[cfg(unix)]
#[test]
fn fault_32_a_name_that_is_no_text_is_read() {
    use std::os::unix::ffi::OsStrExt;
    let (shared, laptop, _, _, file) = two_devices();
    let name = std::ffi::OsStr::from_bytes(b"L\xe4ufer.json");
    std::fs::rename(&file, file.with_file_name(name)).unwrap();
    let reader = Journal::open(Options::new(shared.folder(), shared.local("reader"), "reader")).unwrap();
    assert_eq!(reader.state(), laptop.state());
    let before = contents(&shared.folder());
    assert!(before.len() >= 4);
}

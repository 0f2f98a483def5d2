//! Bad input is explained in a sentence at the field or for the file, and nothing is lost.

use std::fs;
use std::path::PathBuf;

use fellmark_tests::window::{Device, GREY_RUNNER, TestWindow, Window, WindowOptions, WindowSlots};
use serde_json::json;

use crate::folder::{entries, files};

/// The sentence beside a field: some words, and the field is marked for whoever cannot see where it stands.
fn sentence(window: &Window, field: &str) -> String {
    let sentence = window.text(&format!("{field}-trouble"));
    assert!(sentence.split_whitespace().count() >= 4 && sentence.ends_with('.'), "{field}: {sentence:?}");
    assert!(window.shows(&format!("{field}[aria-invalid=true]")), "{field} is not marked");
    sentence
}

#[test]
fn what_is_no_figure_is_explained_beside_its_field() {
    let window = TestWindow::with_folder(&WindowOptions::phone());

    window.fill("warp", &GREY_RUNNER);
    window.type_into("@warp-wound", "as long as the hall");
    window.click("@warp-save");
    println!("wound: {}", sentence(&window, "@warp-wound"));
    assert_eq!(window.value("@warp-wound"), "as long as the hall");
    assert_eq!(window.value("@warp-name"), "Grey runner");

    window.type_into("@warp-wound", "2.6 m");
    window.type_into("@warp-warp_per_100", "300 %");
    window.click("@warp-save");
    println!("take-up: {}", sentence(&window, "@warp-warp_per_100"));
    assert_eq!(window.value("@warp-warp_per_100"), "300 %");
    assert_eq!(window.axe(), "", "a form with a complaint in it");
    assert!(entries(&window.folder).iter().all(|entry| entry["kind"] != "warp"), "nothing was begun");

    // What was typed is still there after looking elsewhere.
    window.click("@nav-folder");
    window.click("@nav-plan");
    assert_eq!(window.value("@warp-wound"), "2.6 m");
    window.type_into("@warp-warp_per_100", "110");
    window.click("@warp-save");
    window.wait_text("@warp-name", "Grey runner", 5.0);

    window.log_sitting(&[("picks", "a few"), ("note", "the blue shuttle")]);
    println!("picks: {}", sentence(&window, "@sitting-picks"));
    assert_eq!(window.value("@sitting-note"), "the blue shuttle");
    assert!(entries(&window.folder).iter().all(|entry| entry["kind"] != "sitting"), "nothing was logged");
}

#[test]
fn a_folder_that_cannot_be_written_is_explained() {
    let window = TestWindow::first_start(&WindowOptions::phone());
    let note = window.device.home().join("note.txt");
    fs::write(&note, "a file, not a folder").unwrap();
    window.click("@typed-path summary");
    // Below a file, in the kernel's own file system, and where other things are: not even an administrator can write into the
    // first two. A path that is not whole would begin a folder wherever the program was started.
    for path in [note.join("Weaving"), sealed(), PathBuf::from("/proc/sys"), PathBuf::from("not/a/whole/path")] {
        let path = path.to_str().unwrap();
        window.type_into("@welcome-path", path);
        window.click("@open-path");
        window.create_folder_if_asked();
        println!("{path}: {}", sentence(&window, "@welcome-path"));
        assert_eq!(window.value("@welcome-path"), path);
        assert!(window.shows("@open-path"), "another can be tried");
    }
    // The next one works.
    window.type_into("@welcome-path", window.folder.to_str().unwrap());
    window.click("@open-path");
    window.create_folder_if_asked();
    window.wait_gone("@open-path");
}

/// An empty folder that takes no files: the kernel keeps some for other file systems to be put over.
fn sealed() -> PathBuf {
    let below =
        |folder: &PathBuf| fs::read_dir(folder).map(|list| list.flatten().map(|e| e.path()).collect::<Vec<_>>());
    let kernel: Vec<PathBuf> = ["/sys/kernel", "/sys/fs"].map(PathBuf::from).to_vec();
    let mut folders = kernel.iter().filter_map(|folder| below(folder).ok()).flatten().filter(|path| path.is_dir());
    folders.find(|path| below(path).is_ok_and(|inside| inside.is_empty())).expect("the kernel keeps an empty folder")
}

#[test]
fn a_half_written_file_is_named_and_the_rest_shown() {
    let _slots = WindowSlots::take(1);
    let (laptop, phone) = (Device::new(), Device::new());
    let (here, there) = (laptop.folder("Weaving"), phone.folder("Weaving"));
    let window = laptop.open(&WindowOptions::laptop());
    window.open_folder(&here);
    window.begin_warp(&GREY_RUNNER);
    window.log_sitting(&[("picks", "50")]);
    window.wait_for_picks(50, 5.0);
    window.close();

    // A synchroniser carries all but the end of the log.
    let log = files(&here).into_iter().find(|file| file.starts_with(here.join("warps"))).expect("the warp has a log");
    for file in files(&here) {
        let to = there.join(file.strip_prefix(&here).unwrap());
        fs::create_dir_all(to.parent().unwrap()).unwrap();
        fs::copy(&file, &to).unwrap();
    }
    let whole = fs::read(&log).unwrap();
    let torn = there.join(log.strip_prefix(&here).unwrap());
    fs::write(&torn, &whole[..whole.len() - 40]).unwrap();

    let window = phone.open(&WindowOptions::phone());
    window.open_folder(&there);
    window.wait_text("@warp-name", "Grey runner", 5.0);
    window.click("@nav-folder");
    let name = torn.file_name().unwrap().to_str().unwrap();
    window.wait_text("@problems", name, 5.0);
    println!("half-written: {}", window.text("@problems"));
    assert_eq!(window.axe(), "", "the folder with a complaint in it");
    assert_eq!(fs::read(&torn).unwrap(), &whole[..whole.len() - 40], "another device's file is left alone");

    // When the rest arrives all is well, without a restart.
    fs::write(&torn, &whole).unwrap();
    window.wait("nothing is wrong any more", 5.0, |window| !window.shows("@problems"));
    window.click("@nav-loom");
    window.wait_for_picks(50, 5.0);
    assert_eq!(window.run("return document.querySelectorAll('[data-part=\"sitting\"]').length"), json!(1));
}

//! Two devices, each with its own copy of the program and its own folder; a real synchroniser carries the files.

use std::path::Path;
use std::process::Stdio;
use std::time::{Duration, Instant};

use fellmark_tests::command_line::CommandLineDevice;
use fellmark_tests::journal::{contents, copy_dir};
use fellmark_tests::window::{Device, GREY_RUNNER, Group, Key, TestWindow, WindowOptions, WindowSlots, tied};

use crate::folder::{files, written_fields};

/// Carries changes both ways until dropped, looking once a second.
fn carry(home: &Path, one: &Path, other: &Path) -> Group {
    let mut unison = tied("unison");
    unison.arg(one).arg(other).args(["-batch", "-ui", "text", "-repeat", "1", "-silent", "-logfile", "/dev/null"]);
    unison.env("HOME", home).env_remove("UNISON").stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null());
    Group::start(&mut unison)
}

#[test]
fn the_second_shows_the_first_s_sitting_without_a_restart() {
    let _slots = WindowSlots::take(2);
    let (laptop, phone) = (Device::named("Laptop"), Device::named("Phone"));
    let (here, there) = (laptop.folder("Weaving"), phone.folder("Weaving"));
    let _carrier = carry(laptop.home(), &here, &there);

    let first = laptop.open(&WindowOptions::laptop());
    first.open_folder(&here);
    first.begin_warp(&GREY_RUNNER);
    arrived(&there, "warp");
    let second = phone.open(&WindowOptions::phone().folder(&there));
    second.wait_text("@warp-name", "Grey runner", 5.0);

    first.start_weaving();
    first.press_space(9);
    first.wait_for_count(9);
    first.click("@tap-finish");
    first.type_into("@sitting-minutes", "20");
    first.click("@sitting-save");
    first.wait_for_picks(9, 5.0);

    arrived(&there, "sitting");
    let shown = second.wait_for_picks(9, 2.0);
    println!("shown {} ms after the file arrived", shown.as_millis());
    first.screenshot("story-first-device");
    second.screenshot("story-second-device");

    // And back: the phone corrects it, the laptop shows it.
    second.click("@sitting-summary");
    second.click("details[open] @sitting-correct");
    second.type_into("@sitting-picks", "11");
    second.click("@sitting-save");
    second.wait_for_picks(11, 5.0);
    first.wait_for_picks(11, 10.0);

    // Taken back on the laptop it takes the phone's correction with it; that is shown before and after, and it can be restored.
    first.wait_text("@undo", "the sitting was logged (Phone has changed it since)", 5.0);
    first.screenshot("undo-of-two-devices");
    first.click("@undo");
    first.wait_text("@message", "Phone had changed the sitting since it was logged here", 5.0);
    assert_eq!(first.text("@notice"), "", "the earlier notice is cleared");
    assert!(first.text("@message").contains("bring it back from the removed sittings"), "{}", first.text("@message"));
    first.click("@removed-sittings summary");
    first.click("@removed-sittings [data-act=restore-sitting]");
    first.wait_for_picks(11, 5.0);
}

/// Waits until an entry of this kind is in the folder.
fn arrived(folder: &Path, kind: &str) {
    let start = Instant::now();
    while written_fields(folder, kind).is_empty() {
        assert!(start.elapsed() < Duration::from_secs(20), "the synchroniser brought no {kind}");
        std::thread::sleep(Duration::from_millis(5));
    }
}

/// The lines of all windows' logs of running sittings.
fn taps_of(device: &Device) -> usize {
    let logs = files(device.home());
    let logs = logs.iter().filter(|file| file.ends_with("running.lines"));
    logs.map(|file| std::fs::read_to_string(file).unwrap().lines().filter(|line| !line.is_empty()).count()).sum()
}

/// Two people count on one warp at the same time, each at a window of an own device: each shows its own picks while it counts, and
/// both sittings are stored and add up.
#[test]
fn two_windows_on_one_folder_count_on_one_warp_at_the_same_time() {
    let _slots = WindowSlots::take(2);
    let (laptop, phone) = (Device::named("Laptop"), Device::named("Phone"));
    let folder = laptop.folder("Weaving");
    let first = laptop.open(&WindowOptions::laptop());
    first.open_folder(&folder);
    first.begin_warp(&GREY_RUNNER);
    let second = phone.open(&WindowOptions::phone().folder(&folder));
    second.wait_text("@warp-name", "Grey runner", 5.0);
    first.start_weaving();
    second.start_weaving();
    for picks in 1..=4 {
        first.press(Key::Space);
        first.wait_for_count(picks);
        second.press(Key::Space);
        second.wait_for_count(picks);
    }
    first.press(Key::Space);
    first.wait_for_count(5);
    assert_eq!((taps_of(&laptop), taps_of(&phone)), (5, 4));
    assert!(written_fields(&folder, "sitting").is_empty(), "nothing is logged while they count");

    first.click("@tap-finish");
    first.type_into("@sitting-minutes", "20");
    first.click("@sitting-save");
    first.wait_for_picks(5, 5.0);
    // The other goes on with its own four; in all there are nine.
    second.wait_text("@tap-in-all", "9", 10.0);
    second.wait_for_count(4);
    second.press(Key::Space);
    second.press(Key::Space);
    second.wait_for_count(6);
    second.click("@tap-finish");
    second.type_into("@sitting-minutes", "15");
    second.click("@sitting-save");
    second.wait_for_picks(11, 5.0);
    first.wait_for_picks(11, 10.0);
    let mut stored: Vec<_> =
        written_fields(&folder, "sitting").iter().map(|one| one["picks"].as_i64().unwrap()).collect();
    stored.sort_unstable();
    assert_eq!(stored, [5, 6]);
    assert_eq!((taps_of(&laptop), taps_of(&phone)), (0, 0));
}

/// Removed on the phone, corrected on the laptop: the window asks, and offers both ways.
#[test]
fn what_was_removed_here_and_edited_there_is_settled_with_a_button() {
    let window = TestWindow::with_warp(&WindowOptions::phone());
    window.log_sitting(&[("minutes", "30"), ("picks", "100")]);
    window.wait_for_picks(100, 5.0);
    let other = Device::named("Laptop");
    let copy = other.folder("Weaving");
    copy_dir(&window.folder, &copy);
    let elsewhere = CommandLineDevice::on("laptop", &copy);
    let sitting = elsewhere.json(&["sittings", GREY_RUNNER[0].1])["sittings"][0]["id"].as_str().unwrap().to_owned();
    let _ = elsewhere.json(&["correct", &sitting, "--picks", "110"]);
    window.click("@sitting-summary");
    window.click("details[open] [data-act=remove-sitting]");
    window.wait("it is removed", 5.0, |window| window.shows("@removed-sittings"));
    // Each device writes files of its own: only the laptop's are new here.
    for (file, bytes) in contents(&copy) {
        let target = window.folder.join(file);
        if !target.exists() {
            std::fs::create_dir_all(target.parent().unwrap()).unwrap();
            std::fs::write(target, bytes).unwrap();
        }
    }

    window.wait("she is asked", 10.0, |window| window.shows("@conflicts"));
    window.scroll_to("@conflicts");
    window.screenshot("removed-and-edited-phone");
    assert_eq!((window.overflow(), window.axe()), (String::new(), String::new()));
    let conflicts = window.text("@conflicts");
    assert!(conflicts.contains("Keep it removed") && conflicts.contains("Restore it with the change"), "{conflicts}");
    window.click("[data-act=resolve-conflict][data-choice=removed]");
    window.wait_gone("@conflicts");
    window.wait("it is removed", 5.0, |window| window.shows("@removed-sittings"));
    // Undone, it asks again; this time it is restored.
    window.click("@undo");
    window.wait("she is asked again", 5.0, |window| window.shows("@conflicts"));
    window.click("[data-act=resolve-conflict][data-choice=restored]");
    window.wait_gone("@conflicts");
    window.wait_for_picks(110, 5.0);
}

//! A large folder on a slow disk: how far it is read is shown, and it can be stopped, when it is chosen and at the start.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use fellmark_journal::{EntryDraft, Journal, Kind, Options, Place, RecordId};
use fellmark_tests::window::{Device, GREY_RUNNER, Key, SlowDisk, TestWindow, Window, WindowOptions, WindowSlots};
use serde_json::json;

use crate::folder::files;

const WARPS: usize = 160;
/// So many files come fast, then one of every few is slow.
const FAST: usize = 64;
const SLOW: usize = 16;

/// A folder with a file for each of many warps, written elsewhere.
fn many_warps(device: &Device) -> PathBuf {
    let folder = device.folder("journal");
    let elsewhere = tempfile::tempdir().unwrap();
    let mut journal = Journal::open(Options::new(&folder, elsewhere.path(), "Loom room").create()).unwrap();
    let draft = |nth: usize| {
        let id = RecordId::new();
        let set = json!({"name": format!("Warp {nth:03}"), "wound_mm": 2600, "waste_mm": 450});
        EntryDraft::new(Place::warp(&id), id.clone(), Kind::WARP, set.as_object().unwrap().clone())
    };
    journal.write((0..WARPS).map(draft).collect()).unwrap();
    folder
}

fn slowed(folder: &Path) -> Option<SlowDisk> {
    let of_warps: Vec<PathBuf> = files(&folder.join("warps"));
    assert_eq!(of_warps.len(), WARPS);
    SlowDisk::holding(&of_warps.into_iter().skip(FAST).step_by(SLOW).collect::<Vec<_>>())
}

fn bytes(folder: &Path) -> BTreeMap<PathBuf, Vec<u8>> {
    files(folder).into_iter().map(|file| (file.clone(), fs::read(file).unwrap())).collect()
}

/// How many files are read, as the line says; none while it does not say.
fn files_read(window: &Window) -> usize {
    let words = window.run("return document.querySelector('[data-part=reading-words]')?.textContent ?? ''");
    let rest = words.as_str().unwrap().strip_prefix("Reading the folder: ");
    let count = rest.and_then(|rest| rest.strip_suffix(&format!(" of {WARPS} files")));
    count.map_or(0, |count| count.parse().unwrap())
}

/// Waits until more than so many files are read, and not all of them; gives how many.
fn more_read_than(window: &Window, files: usize) -> usize {
    window.wait("more files are read", 5.0, |window| files_read(window) > files);
    assert!(window.shows("@reading-stop"));
    let read = files_read(window);
    assert!(read < WARPS, "{read}");
    let bar =
        window.run("const bar = document.querySelector('[data-part=reading] progress'); return [bar.value, bar.max]");
    assert!(bar[0].as_u64().unwrap() >= read as u64 && bar[1] == json!(WARPS), "{bar}");
    read
}

/// Records what a screen reader announces.
const LISTEN: &str = "
    window.announced = [];
    const status = document.querySelector('[data-part=reading-announcement]');
    new MutationObserver(() => { if (status.textContent) window.announced.push(status.textContent); })
        .observe(status, {childList: true, characterData: true, subtree: true});";

#[test]
fn a_chosen_folder_shows_how_far_it_is_read_and_can_be_stopped() {
    let device = Device::named("Phone");
    let folder = many_warps(&device);
    let before = bytes(&folder);
    let Some(mut disk) = slowed(&folder) else { return };
    let options = WindowOptions::phone();
    let window = TestWindow::on(device, &options);
    assert!(!window.shows("@reading"), "nothing is read yet");
    window.run(LISTEN);
    window.click("@typed-path summary");
    window.type_into("@welcome-path", folder.to_str().unwrap());
    window.click("@open-path");

    let read = more_read_than(&window, 0);
    window.screenshot(&format!("reading-{}", options.name()));
    assert_eq!(window.overflow() + &window.axe(), "");
    let side = "const r = document.querySelector('[data-part=reading-stop]').getBoundingClientRect(); return [Math.min(r.width, r.height), innerHeight - r.bottom]";
    let side = window.run(side);
    assert!(side[0].as_f64().unwrap() >= 44.0 && side[1].as_f64().unwrap() >= 0.0, "{side}");
    for _ in 0..FAST / SLOW {
        disk.let_one_go();
    }
    more_read_than(&window, read);
    // Twice the text still leaves the button where a thumb finds it.
    window.run("document.documentElement.style.fontSize = '200%'");
    assert_eq!(window.overflow(), "");
    assert!(window.shows("@reading-stop"));
    window.screenshot(&format!("reading-large-{}", options.name()));
    window.run("document.documentElement.style.fontSize = ''");

    // By keyboard alone, and at once though the disk does not answer yet.
    window.tab_to("@reading-stop");
    window.press(Key::Enter);
    window.wait_text("@reading-words", "Stopping as soon as the disk answers", 5.0);
    drop(disk);
    let sentence = format!("Reading the folder {} was stopped; nothing in it was changed.", folder.display());
    window.wait_text("@unopened", &sentence, 5.0);
    assert!(!window.shows("@reading"));
    assert_eq!(window.value("@welcome-path"), folder.to_str().unwrap(), "what was typed is still there");
    window.screenshot(&format!("reading-stopped-{}", options.name()));
    assert_eq!(window.overflow() + &window.axe(), "");
    assert!(bytes(&folder) == before, "the folder was changed");
    assert_eq!(
        window.run("return window.announced"),
        json!(["Reading the folder. This may take a while; you can stop it."])
    );

    // One press tries again.
    assert!(window.has_focus("@open-path"));
    window.press(Key::Enter);
    window.wait_text("@warp-name", "Warp ", 10.0);
    assert!(!window.shows("@reading"));

    // A new name for the device has the folder read again; stopped, no folder is open, and the screen shows so.
    let Some(disk) = slowed(&folder) else { return };
    window.click("@nav-folder");
    window.type_into("@device-name", "Tablet");
    window.click("@device-name-save");
    more_read_than(&window, 0);
    window.screenshot(&format!("reading-anew-{}", options.name()));
    window.click("@reading-stop");
    drop(disk);
    window.wait_text("@unopened", &sentence, 5.0);
    assert_eq!(window.value("@welcome-device"), "Tablet");
    window.click("@open-path");
    window.wait_text("@devices", "Tablet (this device)", 10.0);
    window.close();
}

#[test]
fn a_folder_that_cannot_be_opened_at_the_start_is_explained_where_another_is_chosen() {
    let device = Device::named("Laptop");
    let folder = device.folder("other things");
    fs::write(folder.join("letter.txt"), "Dear all").unwrap();
    let window = TestWindow::on(device, &WindowOptions::laptop().folder(&folder));
    window.wait_text("@welcome-path-trouble", "it holds other things", 5.0);
    assert_eq!(window.value("@welcome-path"), folder.to_str().unwrap());
    assert!(window.has_focus("@welcome-path"));
    assert!(!window.shows("@unopened"));
    window.type_into("@welcome-path", window.folder.to_str().unwrap());
    window.click("@open-path");
    window.create_folder_if_asked();
    window.wait_gone("@open-path");
    window.close();
}

#[test]
fn a_folder_read_at_the_start_can_be_stopped_and_tried_again() {
    let _slots = WindowSlots::take(1);
    let device = Device::named("Laptop");
    let folder = many_warps(&device);
    let before = bytes(&folder);
    let Some(disk) = slowed(&folder) else { return };
    let options = WindowOptions::laptop().dark();
    let window = device.begin(&options.clone().folder(&folder));
    more_read_than(&window, 0);
    window.screenshot(&format!("reading-{}", options.name()));
    assert_eq!(window.overflow() + &window.axe(), "");
    window.click("@reading-stop");
    drop(disk);
    window.wait_ready();
    let sentence = format!("Reading the folder {} was stopped; nothing in it was changed.", folder.display());
    window.wait_text("@unopened", &sentence, 5.0);
    assert_eq!(window.value("@welcome-path"), folder.to_str().unwrap());
    window.screenshot(&format!("reading-stopped-{}", options.name()));
    assert!(bytes(&folder) == before, "the folder was changed");
    window.click("@open-path");
    window.wait_text("@warp-name", "Warp ", 10.0);
    window.close();

    // It is remembered as any folder is.
    let window = device.open(&options);
    window.wait_text("@warp-name", "Warp ", 10.0);
    window.close();
}

/// The desktop's own choice of a folder cannot be driven: this stands in for it, and answers with one.
fn answer_choice(window: &Window, folder: &Path) {
    let script = format!(
        "const core = window.__TAURI__.core;
         window.__TAURI__.core = {{ ...core, invoke: (name, ...rest) => name === 'choose_folder'
             ? core.invoke('open_folder', {{ path: {}, create: false }}) : core.invoke(name, ...rest) }};
         return window.__TAURI__.core.invoke !== core.invoke",
        json!(folder.to_str().unwrap())
    );
    assert_eq!(window.run(&script), json!(true));
}

#[test]
fn another_folder_that_is_stopped_leaves_the_open_one_with_all_that_is_in_it() {
    let device = Device::named("Laptop");
    let other = many_warps(&device);
    let mine = device.folder("mine");
    let options = WindowOptions::laptop();
    let window = TestWindow::on(device, &options);
    window.open_folder(&mine);
    window.begin_warp(&GREY_RUNNER);
    // A sitting goes on meanwhile; what was tapped is in no file of the folder yet.
    window.start_weaving();
    window.press_space(3);
    window.wait_for_count(3);
    let (mine_before, other_before) = (bytes(&mine), bytes(&other));

    let Some(disk) = slowed(&other) else { return };
    window.run("location.hash = '#/folder'");
    answer_choice(&window, &other);
    window.click("[data-act=choose]");
    more_read_than(&window, 0);
    window.screenshot(&format!("reading-another-{}", options.name()));
    window.click("@reading-stop");
    drop(disk);
    let sentence = format!("Reading the folder {} was stopped; nothing in it was changed.", other.display());
    window.wait_text("@notice", &sentence, 5.0);
    window.screenshot(&format!("reading-another-stopped-{}", options.name()));
    assert_eq!(window.text("@folder-path"), mine.to_str().unwrap());
    assert_eq!(window.overflow() + &window.axe(), "");
    assert!(bytes(&mine) == mine_before && bytes(&other) == other_before, "a folder was changed");

    // Weaving goes on in the open folder, and what is counted is written there.
    window.run("location.hash = '#/'");
    window.click("@continue-weaving");
    window.wait_text("@tap-count", "3", 5.0);
    window.press(Key::Space);
    window.wait_for_count(4);

    // The next start opens what was open, at once and whole.
    let window = window.reopen(&options);
    window.wait_text("@warp-name", "Grey runner", 5.0);
    window.click("@continue-weaving");
    window.wait_text("@tap-count", "4", 5.0);
    assert!(bytes(&other) == other_before, "the other folder was changed");

    // And the other one can be chosen still.
    window.run("location.hash = '#/folder'");
    answer_choice(&window, &other);
    window.click("[data-act=choose]");
    window.wait_text("@folder-path", other.to_str().unwrap(), 10.0);
    window.close();
}

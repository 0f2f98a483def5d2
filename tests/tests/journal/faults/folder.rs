//! Faults 11 to 16: the folder cannot be written, is gone, is another.

use std::fs::File;
use std::io::ErrorKind;
use std::path::Path;
use std::time::{Duration, SystemTime};

use fellmark_journal::{Error, FolderState, Journal, Options};

use fellmark_tests::journal::faulty_disk::FaultyDisk;
use fellmark_tests::journal::mount::Mount;
use fellmark_tests::journal::{self, SharedFolder, contents};

#[test]
fn fault_11_read_only() {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    drop(laptop);
    let faulty = FaultyDisk::new();
    let folder = shared.folder();
    faulty.refuse(move |path, change| (change && path.starts_with(&folder)).then_some(ErrorKind::PermissionDenied));
    let mut laptop = Journal::open_on(shared.options("laptop"), faulty.disk()).unwrap();
    let before = contents(&shared.folder());
    let sitting = journal::log_sitting(&mut laptop, &warp, 42, 118);
    assert_eq!((laptop.status().waiting_to_write, laptop.status().folder), (1, FolderState::ReadOnly));
    assert!(
        fellmark_present::folder_words::folder_sentence(FolderState::ReadOnly).unwrap().contains("wait on this device")
    );
    assert!(laptop.state().record(&warp).is_some() && laptop.state().record(&sitting).is_some());
    assert_eq!(contents(&shared.folder()), before);
    faulty.allow_all();
    laptop.refresh(&[]).unwrap();
    assert_eq!((laptop.status().waiting_to_write, laptop.status().folder), (0, FolderState::Ok));
}

#[test]
fn fault_11_read_only_mount() {
    let shared = SharedFolder::new();
    let Some(mount) = Mount::memory(&shared.folder(), "size=1m") else { return };
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    mount.remount("ro");
    let sitting = journal::log_sitting(&mut laptop, &warp, 42, 118);
    assert_eq!((laptop.status().waiting_to_write, laptop.status().folder), (1, FolderState::ReadOnly));
    drop(laptop);
    // Another device sees all that is there, and begins its own entries on its own disk.
    let mut phone = shared.open("phone");
    assert!(phone.state().record(&warp).is_some());
    journal::log_sitting(&mut phone, &warp, 1, 2);
    assert_eq!(phone.status().folder, FolderState::ReadOnly);
    let mut laptop = shared.open("laptop");
    assert!(laptop.state().record(&sitting).is_some());
    mount.remount("rw");
    laptop.refresh(&[]).unwrap();
    phone.refresh(&[]).unwrap();
    laptop.refresh(&[]).unwrap();
    assert_eq!(laptop.state(), phone.state());
    assert_eq!(laptop.status().waiting_to_write + phone.status().waiting_to_write, 0);
    drop((laptop, phone));
    mount.unmount();
}

#[test]
fn fault_12_missing_at_the_start() {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    drop(laptop);
    let away = shared.root().join("away");
    std::fs::rename(shared.folder(), &away).unwrap();
    let mut laptop = shared.open("laptop");
    assert_eq!((laptop.status().folder, laptop.status().vanished), (FolderState::Missing, 0));
    assert!(laptop.state().record(&warp).is_some());
    let sitting = journal::log_sitting(&mut laptop, &warp, 42, 118);
    assert_eq!(laptop.status().waiting_to_write, 1);
    assert!(!shared.folder().exists(), "something was made where the folder was");
    std::fs::rename(&away, shared.folder()).unwrap();
    laptop.refresh(&[]).unwrap();
    assert_eq!((laptop.status().folder, laptop.status().waiting_to_write), (FolderState::Ok, 0));
    assert!(shared.open("phone").state().record(&sitting).is_some());
}

#[test]
fn fault_13_unmounted_while_running() {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    // A mount point left behind is an empty directory under the same name.
    let away = shared.root().join("away");
    std::fs::rename(shared.folder(), &away).unwrap();
    std::fs::create_dir(shared.folder()).unwrap();
    let sitting = journal::log_sitting(&mut laptop, &warp, 42, 118);
    laptop.refresh(&[]).unwrap();
    assert_eq!((laptop.status().folder, laptop.status().waiting_to_write), (FolderState::Missing, 1));
    assert_eq!(std::fs::read_dir(shared.folder()).unwrap().count(), 0, "the empty mount point was written to");
    assert!(laptop.state().record(&sitting).is_some() && laptop.status().vanished == 0);
    // The same at a start with the mount point empty.
    drop(laptop);
    let mut laptop = shared.open("laptop");
    assert_eq!(std::fs::read_dir(shared.folder()).unwrap().count(), 0);
    std::fs::remove_dir(shared.folder()).unwrap();
    std::fs::rename(&away, shared.folder()).unwrap();
    laptop.refresh(&[]).unwrap();
    assert_eq!((laptop.status().folder, laptop.status().waiting_to_write), (FolderState::Ok, 0));
    assert_eq!(shared.open("phone").state(), laptop.state());
}

#[test]
fn fault_13_a_real_mount_goes_and_comes_back() {
    let shared = SharedFolder::new();
    let image = shared.root().join("disk.img");
    let Some(()) = fellmark_tests::journal::mount::make_image("ext4", &image, 16) else { return };
    let at = shared.root().join("stick");
    let Some(mount) = Mount::image(&image, &at) else { return };
    let options = Options::new(at.join("log"), shared.local("laptop"), "laptop").create();
    let mut laptop = Journal::open(options).unwrap();
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    mount.unmount();
    journal::log_sitting(&mut laptop, &warp, 42, 118);
    assert_eq!((laptop.status().folder, laptop.status().waiting_to_write), (FolderState::Missing, 1));
    assert_eq!(std::fs::read_dir(&at).unwrap().count(), 0);
    let mount = Mount::image(&image, &at).unwrap();
    laptop.refresh(&[]).unwrap();
    assert_eq!((laptop.status().folder, laptop.status().waiting_to_write), (FolderState::Ok, 0));
    drop(laptop);
    mount.unmount();
}

/// Gives the markers and their directory a time.
fn date_markers(folder: &Path, changed: SystemTime) {
    let dir = folder.join("devices");
    for path in journal::all_files(&dir).iter().chain([&dir]) {
        File::open(path).unwrap().set_modified(changed).unwrap();
    }
}

/// A folder whose markers were changed then, and a device that looked at them and has saved since.
fn looked_at(changed: SystemTime) -> (SharedFolder, FaultyDisk, Journal, fellmark_journal::RecordId) {
    let shared = SharedFolder::new();
    let warp = journal::begin_warp(&mut shared.open("laptop"), "Scarf");
    date_markers(&shared.folder(), changed);
    let faulty = FaultyDisk::new();
    let mut laptop = Journal::open_on(shared.options("laptop"), faulty.disk()).unwrap();
    journal::log_sitting(&mut laptop, &warp, 1, 2);
    faulty.take_reads();
    journal::log_sitting(&mut laptop, &warp, 3, 4);
    (shared, faulty, laptop, warp)
}

#[test]
fn fault_13_markers_that_were_not_read_again_are_missed_by_the_next_save() {
    let long_ago = SystemTime::now() - Duration::from_secs(60 * 60);
    let (shared, faulty, mut laptop, warp) = looked_at(long_ago);
    assert_eq!(faulty.take_reads(), shared.entry_files(), "a save reads the file that it adds to, and nothing else");
    let own = shared.folder().join(format!("devices/{}.json", laptop.device()));
    let away = shared.root().join("away");
    std::fs::rename(&own, &away).unwrap();
    journal::log_sitting(&mut laptop, &warp, 5, 6);
    assert_eq!((laptop.status().folder, laptop.status().waiting_to_write), (FolderState::Unmarked, 1));
    std::fs::rename(&away, &own).unwrap();
    journal::log_sitting(&mut laptop, &warp, 7, 8);
    assert_eq!((laptop.status().folder, laptop.status().waiting_to_write), (FolderState::Ok, 0));
    assert_eq!(shared.open("phone").state(), laptop.state());
}

#[test]
fn fault_14_another_journals_marker_under_ones_own_name_is_noticed_by_the_next_save() {
    let now = SystemTime::now();
    let hour = Duration::from_secs(60 * 60);
    // Where the time is not in the past, another one need not be taken for another change.
    for (changed, then) in [(now - hour, now), (now + hour, now + hour)] {
        let (shared, _, mut laptop, warp) = looked_at(changed);
        let own = shared.folder().join(format!("devices/{}.json", laptop.device()));
        let text = std::fs::read_to_string(&own).unwrap();
        let journal = fellmark_journal::journal_in(&shared.folder()).unwrap();
        let other: String = journal.chars().rev().collect();
        std::fs::write(&own, text.replace(&journal, &other)).unwrap();
        date_markers(&shared.folder(), changed);
        File::open(&own).unwrap().set_modified(then).unwrap();
        let before = contents(&shared.folder());
        journal::log_sitting(&mut laptop, &warp, 5, 6);
        assert_eq!((laptop.status().folder, laptop.status().waiting_to_write), (FolderState::Wrong, 1));
        assert_eq!(contents(&shared.folder()), before);
    }
}

#[test]
fn a_marker_that_arrives_is_read_by_the_next_save() {
    let long_ago = SystemTime::now() - Duration::from_secs(60 * 60);
    let (shared, _, mut laptop, warp) = looked_at(long_ago);
    let mut phone =
        Journal::open(Options { device_name: "the pocket one".to_owned(), ..shared.options("phone") }).unwrap();
    let other = journal::begin_warp(&mut phone, "Rug");
    journal::log_sitting(&mut laptop, &warp, 5, 6);
    assert!(laptop.state().record(&other).is_none(), "only the markers were looked at");
    assert!(laptop.devices().iter().any(|device| device.name == "the pocket one"));
}

#[test]
fn fault_14_another_journal_lies_there() {
    let (shared, other) = (SharedFolder::new(), SharedFolder::new());
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    let mut stranger = other.open("stranger");
    let foreign = journal::begin_warp(&mut stranger, "Rug");
    let away = shared.root().join("away");
    std::fs::rename(shared.folder(), &away).unwrap();
    journal::copy_dir(&other.folder(), &shared.folder());
    let before = contents(&shared.folder());
    for restart in [false, true] {
        if restart {
            drop(laptop);
            laptop = shared.open("laptop");
        }
        journal::log_sitting(&mut laptop, &warp, 42, 118);
        laptop.refresh(&[]).unwrap();
        assert_eq!(laptop.status().folder, FolderState::Wrong);
        assert!(
            fellmark_present::folder_words::folder_sentence(FolderState::Wrong).unwrap().contains("Another journal")
        );
        assert!(laptop.state().record(&foreign).is_none() && laptop.state().record(&warp).is_some());
        assert_eq!(contents(&shared.folder()), before);
    }
    std::fs::remove_dir_all(shared.folder()).unwrap();
    std::fs::rename(&away, shared.folder()).unwrap();
    laptop.refresh(&[]).unwrap();
    assert_eq!((laptop.status().folder, laptop.status().waiting_to_write), (FolderState::Ok, 0));
}

#[test]
fn fault_15_moved_and_chosen_again() {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    let moved = shared.root().join("moved");
    std::fs::rename(shared.folder(), &moved).unwrap();
    let sitting = journal::log_sitting(&mut laptop, &warp, 42, 118);
    assert!(fellmark_present::folder_words::folder_sentence(FolderState::Missing).unwrap().contains("choose it again"));
    drop(laptop);
    let laptop = Journal::open(Options::new(&moved, shared.local("laptop"), "laptop")).unwrap();
    assert_eq!((laptop.status().folder, laptop.status().waiting_to_write), (FolderState::Ok, 0));
    let phone = Journal::open(Options::new(&moved, shared.local("phone"), "phone")).unwrap();
    assert!(phone.state().record(&sitting).is_some());
}

#[test]
fn fault_16_a_second_instance_says_so_or_only_reads() {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    let error = Journal::open(shared.options("laptop")).unwrap_err();
    assert!(matches!(error, Error::InUse { .. }), "{error}");
    assert!(error.to_string().contains("another Fellmark on this device is using"), "{error}");
    let before = contents(shared.root());
    let mut reading = Journal::open(shared.options("laptop").read_only()).unwrap();
    assert_eq!(reading.device(), laptop.device());
    assert!(reading.state().record(&warp).is_some() && reading.status().read_only);
    let record = reading.state().record(&warp).unwrap();
    let draft = fellmark_journal::EntryDraft::removal(record);
    assert!(matches!(reading.write(vec![draft]), Err(Error::ReadOnly)));
    assert!(matches!(reading.write_back(), Err(Error::ReadOnly)));
    reading.refresh(&[]).unwrap();
    assert_eq!(contents(shared.root()), before, "reading changed something");
    let sitting = journal::log_sitting(&mut laptop, &warp, 1, 2);
    reading.refresh(&[]).unwrap();
    assert!(reading.state().record(&sitting).is_some());
    drop(laptop);
    shared.open("laptop");
}

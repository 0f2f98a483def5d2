//! Faults 11 to 16: the folder cannot be written, is gone, is another.

use std::fs::File;
use std::io::ErrorKind;
use std::path::Path;
use std::time::{Duration, SystemTime};

use fellmark_journal::{Error, FolderState, Journal, Options};

use crate::bench::{self, Bench, contents};
use crate::faulty::Faulty;
use crate::machine::Mount;

#[test]
fn fault_11_read_only() {
    let bench = Bench::new();
    let mut laptop = bench.open("laptop");
    let warp = bench::begin_warp(&mut laptop, "Scarf");
    drop(laptop);
    let faulty = Faulty::new();
    let folder = bench.folder();
    faulty.refuse(move |path, change| (change && path.starts_with(&folder)).then_some(ErrorKind::PermissionDenied));
    let mut laptop = Journal::open_on(bench.options("laptop"), faulty.disk()).unwrap();
    let before = contents(&bench.folder());
    let sitting = bench::log_sitting(&mut laptop, &warp, 42, 118);
    assert_eq!((laptop.status().waiting_to_write, laptop.status().folder), (1, FolderState::ReadOnly));
    assert!(FolderState::ReadOnly.sentence().unwrap().contains("wait on this device"));
    assert!(laptop.state().record(&warp).is_some() && laptop.state().record(&sitting).is_some());
    assert_eq!(contents(&bench.folder()), before);
    faulty.allow_all();
    laptop.refresh(&[]).unwrap();
    assert_eq!((laptop.status().waiting_to_write, laptop.status().folder), (0, FolderState::Ok));
}

#[test]
fn fault_11_read_only_mount() {
    let bench = Bench::new();
    let Some(mount) = Mount::memory(&bench.folder(), "size=1m") else { return };
    let mut laptop = bench.open("laptop");
    let warp = bench::begin_warp(&mut laptop, "Scarf");
    mount.remount("ro");
    let sitting = bench::log_sitting(&mut laptop, &warp, 42, 118);
    assert_eq!((laptop.status().waiting_to_write, laptop.status().folder), (1, FolderState::ReadOnly));
    drop(laptop);
    // Another device sees all that is there, and begins its own entries on its own disk.
    let mut phone = bench.open("phone");
    assert!(phone.state().record(&warp).is_some());
    bench::log_sitting(&mut phone, &warp, 1, 2);
    assert_eq!(phone.status().folder, FolderState::ReadOnly);
    let mut laptop = bench.open("laptop");
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
    let bench = Bench::new();
    let mut laptop = bench.open("laptop");
    let warp = bench::begin_warp(&mut laptop, "Scarf");
    drop(laptop);
    let away = bench.root().join("away");
    std::fs::rename(bench.folder(), &away).unwrap();
    let mut laptop = bench.open("laptop");
    assert_eq!((laptop.status().folder, laptop.status().vanished), (FolderState::Missing, 0));
    assert!(laptop.state().record(&warp).is_some());
    let sitting = bench::log_sitting(&mut laptop, &warp, 42, 118);
    assert_eq!(laptop.status().waiting_to_write, 1);
    assert!(!bench.folder().exists(), "something was made where the folder was");
    std::fs::rename(&away, bench.folder()).unwrap();
    laptop.refresh(&[]).unwrap();
    assert_eq!((laptop.status().folder, laptop.status().waiting_to_write), (FolderState::Ok, 0));
    assert!(bench.open("phone").state().record(&sitting).is_some());
}

#[test]
fn fault_13_unmounted_while_running() {
    let bench = Bench::new();
    let mut laptop = bench.open("laptop");
    let warp = bench::begin_warp(&mut laptop, "Scarf");
    // A mount point left behind is an empty directory under the same name.
    let away = bench.root().join("away");
    std::fs::rename(bench.folder(), &away).unwrap();
    std::fs::create_dir(bench.folder()).unwrap();
    let sitting = bench::log_sitting(&mut laptop, &warp, 42, 118);
    laptop.refresh(&[]).unwrap();
    assert_eq!((laptop.status().folder, laptop.status().waiting_to_write), (FolderState::Missing, 1));
    assert_eq!(std::fs::read_dir(bench.folder()).unwrap().count(), 0, "the empty mount point was written to");
    assert!(laptop.state().record(&sitting).is_some() && laptop.status().vanished == 0);
    // The same at a start with the mount point empty.
    drop(laptop);
    let mut laptop = bench.open("laptop");
    assert_eq!(std::fs::read_dir(bench.folder()).unwrap().count(), 0);
    std::fs::remove_dir(bench.folder()).unwrap();
    std::fs::rename(&away, bench.folder()).unwrap();
    laptop.refresh(&[]).unwrap();
    assert_eq!((laptop.status().folder, laptop.status().waiting_to_write), (FolderState::Ok, 0));
    assert_eq!(bench.open("phone").state(), laptop.state());
}

#[test]
fn fault_13_a_real_mount_goes_and_comes_back() {
    let bench = Bench::new();
    let image = bench.root().join("disk.img");
    let Some(()) = crate::machine::make_image("ext4", &image, 16) else { return };
    let at = bench.root().join("stick");
    let Some(mount) = Mount::image(&image, &at) else { return };
    let options = Options::new(at.join("log"), bench.local("laptop"), "laptop").create();
    let mut laptop = Journal::open(options).unwrap();
    let warp = bench::begin_warp(&mut laptop, "Scarf");
    mount.unmount();
    bench::log_sitting(&mut laptop, &warp, 42, 118);
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
    for path in bench::all_files(&dir).iter().chain([&dir]) {
        File::open(path).unwrap().set_modified(changed).unwrap();
    }
}

/// A folder whose markers were changed then, and a device that looked at them and has saved since.
fn looked_at(changed: SystemTime) -> (Bench, Faulty, Journal, fellmark_journal::RecordId) {
    let bench = Bench::new();
    let warp = bench::begin_warp(&mut bench.open("laptop"), "Scarf");
    date_markers(&bench.folder(), changed);
    let faulty = Faulty::new();
    let mut laptop = Journal::open_on(bench.options("laptop"), faulty.disk()).unwrap();
    bench::log_sitting(&mut laptop, &warp, 1, 2);
    faulty.take_reads();
    bench::log_sitting(&mut laptop, &warp, 3, 4);
    (bench, faulty, laptop, warp)
}

#[test]
fn fault_13_markers_that_were_not_read_again_are_missed_by_the_next_save() {
    let long_ago = SystemTime::now() - Duration::from_secs(60 * 60);
    let (bench, faulty, mut laptop, warp) = looked_at(long_ago);
    assert_eq!(faulty.take_reads(), bench.entry_files(), "a save reads the file that it adds to, and nothing else");
    let own = bench.folder().join(format!("devices/{}.json", laptop.device()));
    let away = bench.root().join("away");
    std::fs::rename(&own, &away).unwrap();
    bench::log_sitting(&mut laptop, &warp, 5, 6);
    assert_eq!((laptop.status().folder, laptop.status().waiting_to_write), (FolderState::Missing, 1));
    std::fs::rename(&away, &own).unwrap();
    bench::log_sitting(&mut laptop, &warp, 7, 8);
    assert_eq!((laptop.status().folder, laptop.status().waiting_to_write), (FolderState::Ok, 0));
    assert_eq!(bench.open("phone").state(), laptop.state());
}

#[test]
fn fault_14_another_journals_marker_under_ones_own_name_is_noticed_by_the_next_save() {
    let now = SystemTime::now();
    let hour = Duration::from_secs(60 * 60);
    // Where the time is not in the past, another one need not be told for another change.
    for (changed, then) in [(now - hour, now), (now + hour, now + hour)] {
        let (bench, _, mut laptop, warp) = looked_at(changed);
        let own = bench.folder().join(format!("devices/{}.json", laptop.device()));
        let text = std::fs::read_to_string(&own).unwrap();
        let journal = fellmark_journal::journal_in(&bench.folder()).unwrap();
        let other: String = journal.chars().rev().collect();
        std::fs::write(&own, text.replace(&journal, &other)).unwrap();
        date_markers(&bench.folder(), changed);
        File::open(&own).unwrap().set_modified(then).unwrap();
        let before = contents(&bench.folder());
        bench::log_sitting(&mut laptop, &warp, 5, 6);
        assert_eq!((laptop.status().folder, laptop.status().waiting_to_write), (FolderState::Wrong, 1));
        assert_eq!(contents(&bench.folder()), before);
    }
}

#[test]
fn a_marker_that_arrives_is_read_by_the_next_save() {
    let long_ago = SystemTime::now() - Duration::from_secs(60 * 60);
    let (bench, _, mut laptop, warp) = looked_at(long_ago);
    let mut phone =
        Journal::open(Options { device_name: "the pocket one".to_owned(), ..bench.options("phone") }).unwrap();
    let other = bench::begin_warp(&mut phone, "Rug");
    bench::log_sitting(&mut laptop, &warp, 5, 6);
    assert!(laptop.state().record(&other).is_none(), "only the markers were looked at");
    assert!(laptop.devices().iter().any(|device| device.name == "the pocket one"));
}

#[test]
fn fault_14_another_journal_lies_there() {
    let (bench, other) = (Bench::new(), Bench::new());
    let mut laptop = bench.open("laptop");
    let warp = bench::begin_warp(&mut laptop, "Scarf");
    let mut stranger = other.open("stranger");
    let foreign = bench::begin_warp(&mut stranger, "Rug");
    let away = bench.root().join("away");
    std::fs::rename(bench.folder(), &away).unwrap();
    bench::copy_dir(&other.folder(), &bench.folder());
    let before = contents(&bench.folder());
    for restart in [false, true] {
        if restart {
            drop(laptop);
            laptop = bench.open("laptop");
        }
        bench::log_sitting(&mut laptop, &warp, 42, 118);
        laptop.refresh(&[]).unwrap();
        assert_eq!(laptop.status().folder, FolderState::Wrong);
        assert!(FolderState::Wrong.sentence().unwrap().contains("Another journal"));
        assert!(laptop.state().record(&foreign).is_none() && laptop.state().record(&warp).is_some());
        assert_eq!(contents(&bench.folder()), before);
    }
    std::fs::remove_dir_all(bench.folder()).unwrap();
    std::fs::rename(&away, bench.folder()).unwrap();
    laptop.refresh(&[]).unwrap();
    assert_eq!((laptop.status().folder, laptop.status().waiting_to_write), (FolderState::Ok, 0));
}

#[test]
fn fault_15_moved_and_chosen_again() {
    let bench = Bench::new();
    let mut laptop = bench.open("laptop");
    let warp = bench::begin_warp(&mut laptop, "Scarf");
    let moved = bench.root().join("moved");
    std::fs::rename(bench.folder(), &moved).unwrap();
    let sitting = bench::log_sitting(&mut laptop, &warp, 42, 118);
    assert!(FolderState::Missing.sentence().unwrap().contains("choose it again"));
    drop(laptop);
    let laptop = Journal::open(Options::new(&moved, bench.local("laptop"), "laptop")).unwrap();
    assert_eq!((laptop.status().folder, laptop.status().waiting_to_write), (FolderState::Ok, 0));
    let phone = Journal::open(Options::new(&moved, bench.local("phone"), "phone")).unwrap();
    assert!(phone.state().record(&sitting).is_some());
}

#[test]
fn fault_16_a_second_instance_says_so_or_only_reads() {
    let bench = Bench::new();
    let mut laptop = bench.open("laptop");
    let warp = bench::begin_warp(&mut laptop, "Scarf");
    let error = Journal::open(bench.options("laptop")).unwrap_err();
    assert!(matches!(error, Error::InUse { .. }), "{error}");
    assert!(error.to_string().contains("another Fellmark on this device is using"), "{error}");
    let before = contents(bench.root());
    let mut reading = Journal::open(bench.options("laptop").read_only()).unwrap();
    assert_eq!(reading.device(), laptop.device());
    assert!(reading.state().record(&warp).is_some() && reading.status().read_only);
    let record = reading.state().record(&warp).unwrap();
    let draft = fellmark_journal::Draft::removal(record);
    assert!(matches!(reading.write(vec![draft]), Err(Error::ReadOnly)));
    assert!(matches!(reading.write_back(), Err(Error::ReadOnly)));
    reading.refresh(&[]).unwrap();
    assert_eq!(contents(bench.root()), before, "reading changed something");
    let sitting = bench::log_sitting(&mut laptop, &warp, 1, 2);
    reading.refresh(&[]).unwrap();
    assert!(reading.state().record(&sitting).is_some());
    drop(laptop);
    bench.open("laptop");
}

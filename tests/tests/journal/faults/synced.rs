//! Faults 17 to 24: a synchroniser is in the middle of its work.

use std::path::PathBuf;

use fellmark_journal::{EntryDraft, Error, Journal, Kind, PhotoError, Place, RecordId, Segment};
use serde_json::json;

use fellmark_tests::journal::faulty_disk::FaultyDisk;
use fellmark_tests::journal::{self, SharedFolder, fields, picture};

/// A log with three sittings, and the one file of the device that wrote it.
fn one_file() -> (SharedFolder, Journal, RecordId, PathBuf) {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    for i in 0..3 {
        journal::log_sitting(&mut laptop, &warp, 10 + i, 100);
    }
    let file = shared.entry_files().remove(0);
    (shared, laptop, warp, file)
}

#[test]
fn fault_17_a_file_cut_anywhere_gives_its_first_entries() {
    let (shared, laptop, _, file) = one_file();
    drop(laptop);
    let bytes = std::fs::read(&file).unwrap();
    let whole = Segment::read(&bytes);
    assert_eq!(whole.entries.len(), 4);
    let ends: Vec<usize> = whole
        .entries
        .iter()
        .map(|entry| {
            let line = entry.line().as_bytes();
            bytes.windows(line.len()).position(|window| window == line).unwrap() + line.len()
        })
        .collect();
    for cut in 0..bytes.len() {
        let part = Segment::read(&bytes[..cut]);
        let expected = ends.iter().filter(|end| **end <= cut).count();
        assert_eq!(part.entries, whole.entries[..expected], "cut at {cut}");
        assert!(!part.as_written, "cut at {cut}");
        // Once there is a word of it, that something is missing is said, unless only the last line end is.
        let complete = cut >= bytes.len() - 1;
        if cut > 0 {
            assert_eq!(part.refused.is_empty(), complete, "cut at {cut}: {:?}", part.refused);
        }
    }
    for cut in (0..bytes.len()).step_by(37) {
        std::fs::write(&file, &bytes[..cut]).unwrap();
        let phone = Journal::open(shared.options(&format!("phone-{cut}"))).unwrap();
        assert_eq!(phone.state().len(), ends.iter().filter(|end| **end <= cut).count());
        assert_eq!(phone.status().problems.len(), 1, "cut at {cut}: {:?}", phone.status().problems);
    }
}

#[test]
fn fault_18_the_second_file_arrives_before_the_first() {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    for _ in 0..6 {
        let set = fields(json!({"note": "n".repeat(80_000)}));
        laptop.write(vec![EntryDraft::new(Place::warp(&warp), RecordId::new(), Kind::SITTING, set)]).unwrap();
    }
    let files = shared.entry_files();
    assert!(files.len() >= 2);
    let first = std::fs::read(&files[0]).unwrap();
    std::fs::remove_file(&files[0]).unwrap();
    let mut phone = shared.open("phone");
    let later = phone.state().len();
    assert!(later > 0 && later < laptop.state().len());
    std::fs::write(&files[0], first).unwrap();
    let changes = phone.refresh(&[files[0].clone()]).unwrap();
    assert_eq!(changes.warps, [warp].into());
    assert_eq!(phone.state(), laptop.state());
}

#[test]
fn fault_19_a_file_shrinks_and_nothing_disappears() {
    let (shared, laptop, _, file) = one_file();
    drop(laptop);
    let mut phone = shared.open("phone");
    let before = phone.state().clone();
    let bytes = std::fs::read(&file).unwrap();
    std::fs::write(&file, &bytes[..bytes.len() / 2]).unwrap();
    phone.refresh(std::slice::from_ref(&file)).unwrap();
    assert_eq!(phone.state(), &before);
    assert!(phone.status().vanished > 0);
    std::fs::write(&file, &bytes).unwrap();
    phone.refresh(&[]).unwrap();
    assert_eq!((phone.state(), phone.status().vanished), (&before, 0));
}

#[test]
fn fault_20_a_file_vanishes_and_its_records_stay_flagged() {
    let (shared, laptop, _, file) = one_file();
    let mut phone = shared.open("phone");
    std::fs::remove_dir_all(file.parent().unwrap()).unwrap();
    phone.refresh(&[]).unwrap();
    assert_eq!((phone.state(), phone.status().vanished), (laptop.state(), 4));
    drop(phone);
    let mut phone = shared.open("phone");
    assert_eq!((phone.state(), phone.status().vanished), (laptop.state(), 4));
    assert!(!file.exists(), "nothing is written back unasked");
    phone.write_back().unwrap();
    assert_eq!(phone.status().vanished, 0);
    assert_eq!(shared.open("tablet").state(), laptop.state());
}

#[test]
fn fault_21_a_photo_before_its_record_is_unassigned() {
    let (shared, mut laptop, warp, _) = one_file();
    let added = laptop.photo_add(&warp, &picture(40, 30)).unwrap();
    let phone = shared.open("phone");
    assert_eq!(phone.photos(&warp), [added.hash.clone()].into());
    assert!(phone.photo_path(&warp, &added.hash).unwrap().exists());
    assert!(!phone.state().of_kind(&Kind::PHOTO).any(|_| true));
}

#[test]
fn fault_22_a_record_before_its_photo_has_a_placeholder() {
    let (shared, mut laptop, warp, _) = one_file();
    let added = laptop.photo_add(&warp, &picture(40, 30)).unwrap();
    let path = laptop.photo_path(&warp, &added.hash).unwrap();
    let bytes = std::fs::read(&path).unwrap();
    std::fs::remove_file(&path).unwrap();
    let phone = shared.open("phone");
    let not_here = |error| matches!(error, Error::Photo(PhotoError::NotHere));
    assert!(not_here(phone.photo_path(&warp, &added.hash).unwrap_err()));
    assert!(not_here(phone.thumbnail(&warp, &added.hash, 200).unwrap_err()));
    // A photo that is still being written has no bytes yet, and is not here either.
    std::fs::write(&path, "").unwrap();
    assert!(not_here(phone.photo_path(&warp, &added.hash).unwrap_err()));
    std::fs::write(&path, bytes).unwrap();
    assert!(phone.photo_path(&warp, &added.hash).is_ok());
}

#[test]
fn fault_23_placeholders_are_never_read_and_never_overwritten() {
    let (shared, laptop, warp, file) = one_file();
    let all = laptop.state().clone();
    let device = laptop.device().clone();
    drop(laptop);
    // A stub under a hidden name in place of this device's own file.
    let bytes = std::fs::read(&file).unwrap();
    let stub = file.with_file_name(format!(".{device}.0001.json.icloud"));
    std::fs::rename(&file, &stub).unwrap();
    std::fs::write(&stub, "bplist00").unwrap();
    let mut laptop = shared.open("laptop");
    assert_eq!(laptop.state(), &all);
    let sitting = journal::log_sitting(&mut laptop, &warp, 1, 2);
    assert!(!file.exists(), "a file was written where the cloud keeps one");
    assert_eq!(std::fs::read(&stub).unwrap(), b"bplist00");
    assert!(file.with_file_name(format!("{device}.0002.json")).exists());
    std::fs::remove_file(&stub).unwrap();
    std::fs::write(&file, &bytes).unwrap();
    laptop.refresh(&[]).unwrap();
    assert_eq!(laptop.status().vanished, 0);
    drop(laptop);
    // A file whose bytes the cloud client has not fetched, under its own name.
    let faulty = FaultyDisk::new();
    faulty.is_placeholder(&file);
    let mut laptop = Journal::open_on(shared.options("laptop"), faulty.disk()).unwrap();
    assert!(laptop.state().record(&sitting).is_some());
    journal::log_sitting(&mut laptop, &warp, 3, 4);
    assert_eq!(std::fs::read(&file).unwrap(), bytes);
}

#[test]
fn fault_24_own_file_replaced_by_an_older_copy_is_completed_again() {
    for restart in [false, true] {
        let (shared, mut laptop, warp, file) = one_file();
        let older = std::fs::read(&file).unwrap();
        let sitting = journal::log_sitting(&mut laptop, &warp, 77, 7);
        let newer = std::fs::read(&file).unwrap();
        std::fs::write(&file, &older).unwrap();
        if restart {
            drop(laptop);
            laptop = shared.open("laptop");
        } else {
            laptop.refresh(std::slice::from_ref(&file)).unwrap();
        }
        assert!(laptop.state().record(&sitting).is_some());
        assert_eq!(std::fs::read(&file).unwrap(), newer, "restart: {restart}");
        // The same when it is noticed only by the next save.
        std::fs::write(&file, &older).unwrap();
        journal::log_sitting(&mut laptop, &warp, 78, 8);
        assert_eq!(shared.open("phone").state(), laptop.state());
        assert_eq!((laptop.status().vanished, laptop.devices().len()), (0, 1));
    }
}

#[test]
fn fault_24_a_byte_of_the_own_file_changed_behind_size_and_time_is_noticed_by_the_next_save() {
    let (shared, mut laptop, warp, file) = one_file();
    journal::log_sitting(&mut laptop, &warp, 77, 7);
    let time = std::fs::metadata(&file).unwrap().modified().unwrap();
    let mut bytes = std::fs::read(&file).unwrap();
    let at = bytes.len() / 2;
    bytes[at] ^= 1;
    std::fs::write(&file, &bytes).unwrap();
    std::fs::File::open(&file).unwrap().set_modified(time).unwrap();
    journal::log_sitting(&mut laptop, &warp, 78, 8);
    assert!(Segment::read(&std::fs::read(&file).unwrap()).as_written, "what was damaged was added to");
    assert_eq!(shared.open("phone").state(), laptop.state());
    assert_eq!((laptop.status().vanished, laptop.devices().len()), (0, 1));
}

#[test]
fn fault_29_a_further_file_of_a_copy_of_this_device_is_never_overwritten() {
    let (shared, mut laptop, warp, file) = one_file();
    journal::log_sitting(&mut laptop, &warp, 77, 7);
    let copy = SharedFolder::new();
    journal::copy_dir(&shared.folder(), &copy.folder());
    journal::copy_dir(&shared.local("laptop"), &copy.local("laptop"));
    let mut there = copy.open("laptop");
    let device = laptop.device().clone();
    let long = |journal: &mut Journal| {
        let set = fields(json!({"note": "n".repeat(100_000)}));
        journal.write(vec![EntryDraft::new(Place::warp(&warp), RecordId::new(), Kind::SITTING, set)]).unwrap();
    };
    for _ in 0..3 {
        long(&mut there);
    }
    let name = format!("{device}.0002.json");
    let further = file.with_file_name(&name);
    let theirs = std::fs::read(copy.entry_files().into_iter().find(|file| file.ends_with(&name)).unwrap()).unwrap();
    std::fs::write(&further, &theirs).unwrap();
    // It came unseen; the first file is added to while it has room.
    for _ in 0..4 {
        long(&mut laptop);
        assert_eq!(std::fs::read(&further).unwrap(), theirs);
    }
    assert_ne!(laptop.device(), &device, "the copy was not noticed");
    assert_eq!((laptop.status().vanished, laptop.status().waiting_to_write), (0, 0));
    assert_eq!(shared.open("phone").state(), laptop.state());
}

//! Faults 7 to 10: no space, no inodes, a disk that fails.

use std::io::ErrorKind;
use std::path::PathBuf;
use std::sync::atomic::{AtomicUsize, Ordering::Relaxed};

use fellmark_journal::{EntryDraft, Error, FolderState, Journal, Kind, Place, RecordId, Segment};
use serde_json::json;

use fellmark_tests::journal::faulty_disk::FaultyDisk;
use fellmark_tests::journal::mount::Mount;
use fellmark_tests::journal::{self, SharedFolder, fields};

fn log_note(journal: &mut Journal, warp: &RecordId, bytes: usize) -> RecordId {
    let id = RecordId::new();
    let set = fields(json!({"note": "n".repeat(bytes)}));
    journal.write(vec![EntryDraft::new(Place::warp(warp), id.clone(), Kind::SITTING, set)]).unwrap();
    id
}

#[test]
fn fault_07_no_space_on_write() {
    let shared = SharedFolder::new();
    let Some(mount) = Mount::memory(&shared.folder(), "size=96k") else { return };
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    let mut last = None;
    for _ in 0..10 {
        let before = shared.entry_files().first().map(|file| std::fs::read(file).unwrap());
        let id = log_note(&mut laptop, &warp, 20_000);
        assert!(laptop.state().record(&id).is_some());
        if laptop.status().waiting_to_write > 0 {
            last = Some((before.unwrap(), id));
            break;
        }
    }
    let (before, id) = last.expect("the disk never became full");
    assert_eq!(laptop.status().folder, FolderState::Full);
    assert!(laptop.status().folder_says.is_some());
    let file = shared.entry_files().remove(0);
    assert_eq!(std::fs::read(&file).unwrap(), before, "the old file is whole");
    assert!(Segment::read(&before).as_written);
    // It waits through a restart, and is written when there is space.
    drop(laptop);
    let mut laptop = shared.open("laptop");
    assert_eq!((laptop.status().waiting_to_write, laptop.status().folder), (1, FolderState::Full));
    assert!(laptop.state().record(&id).is_some());
    mount.remount("size=1m");
    laptop.refresh(&[]).unwrap();
    assert_eq!((laptop.status().waiting_to_write, laptop.status().folder), (0, FolderState::Ok));
    assert_eq!(shared.open("phone").state(), laptop.state());
    drop(laptop);
    mount.unmount();
}

#[test]
fn fault_08_no_space_on_fsync() {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    drop(laptop);
    let faulty = FaultyDisk::new();
    let mut laptop = Journal::open_on(shared.options("laptop"), faulty.disk()).unwrap();
    let before = std::fs::read(&shared.entry_files()[0]).unwrap();
    let mut refused = 0;
    for at in 0..30 {
        faulty.fail_at(at, ErrorKind::StorageFull);
        let id = log_note(&mut laptop, &warp, 10);
        assert!(laptop.state().record(&id).is_some());
        if laptop.status().waiting_to_write > 0 {
            refused += 1;
            assert_eq!(laptop.status().folder, FolderState::Full, "in operation {at}");
        }
        faulty.fail_at(usize::MAX, ErrorKind::StorageFull);
        laptop.refresh(&[]).unwrap();
        assert_eq!((laptop.status().waiting_to_write, laptop.status().folder), (0, FolderState::Ok));
    }
    // Making, writing, syncing and renaming the file, and syncing its directory.
    assert!(refused >= 5, "{refused}");
    let after = std::fs::read(&shared.entry_files()[0]).unwrap();
    assert!(after.starts_with(&before[..before.len() - 4]) && Segment::read(&after).as_written);
    assert_eq!(Segment::read(&after).entries.len(), 31);
    let hidden = std::fs::read_dir(shared.entry_files()[0].parent().unwrap()).unwrap().count();
    assert_eq!(hidden, 1, "a failed save left its temporary file");
}

#[test]
fn fault_09_no_inodes() {
    let shared = SharedFolder::new();
    let Some(mount) = Mount::memory(&shared.folder(), "size=1m,nr_inodes=64") else { return };
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    let mut litter = Vec::new();
    while let Ok(()) = std::fs::write(shared.folder().join(format!(".litter-{}", litter.len())), "") {
        litter.push(shared.folder().join(format!(".litter-{}", litter.len())));
    }
    let before = std::fs::read(&shared.entry_files()[0]).unwrap();
    let id = journal::log_sitting(&mut laptop, &warp, 1, 2);
    assert_eq!((laptop.status().waiting_to_write, laptop.status().folder), (1, FolderState::Full));
    assert!(laptop.state().record(&id).is_some());
    assert_eq!(std::fs::read(&shared.entry_files()[0]).unwrap(), before);
    litter.iter().for_each(|file| std::fs::remove_file(file).unwrap());
    laptop.refresh(&[]).unwrap();
    assert_eq!(laptop.status().waiting_to_write, 0);
    drop(laptop);
    mount.unmount();
}

#[test]
fn fault_10_an_input_output_error_on_read_shows_what_is_remembered() {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    let mut phone = shared.open("phone");
    let sitting = journal::log_sitting(&mut phone, &warp, 42, 118);
    laptop.refresh(&[]).unwrap();
    drop(laptop);
    let file = shared.entry_files().into_iter().find(|file| file.to_string_lossy().contains("phone")).unwrap();
    for looked_at in [true, false] {
        let faulty = FaultyDisk::new();
        if looked_at {
            faulty.is_unreadable(&file);
        } else {
            let file = file.clone();
            faulty.refuse(move |path, _| (path == file).then_some(ErrorKind::Other));
        }
        let mut laptop = Journal::open_on(shared.options("laptop"), faulty.disk()).unwrap();
        assert_eq!(laptop.state().record(&sitting).unwrap().get("picks"), Some(&json!(118)));
        let problems = laptop.status().problems;
        assert!(problems.len() == 1 && problems[0].file == file, "{problems:?}");
        assert!(
            fellmark_present::folder_words::problem_sentence(&problems[0].kind).starts_with("It cannot be read: "),
            "{problems:?}"
        );
        // Nothing else suffers.
        journal::log_sitting(&mut laptop, &warp, 1, 1);
        assert_eq!(laptop.status().waiting_to_write, 0);
    }
}

#[test]
fn neither_the_folder_nor_this_device_can_be_written() {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    drop(laptop);
    let faulty = FaultyDisk::new();
    let mut laptop = Journal::open_on(shared.options("laptop"), faulty.disk()).unwrap();
    faulty.refuse(|_, change| change.then_some(ErrorKind::StorageFull));
    let id = RecordId::new();
    let draft = EntryDraft::new(Place::warp(&warp), id.clone(), Kind::SITTING, fields(json!({"minutes": 1})));
    let error = laptop.write(vec![draft.clone()]).unwrap_err();
    assert!(matches!(error, Error::NowhereToWrite { .. }), "{error}");
    assert!(error.to_string().starts_with("nothing could be saved: "), "{error}");
    assert!(laptop.state().record(&id).is_none(), "what was not saved is not shown as if it were");
    faulty.allow_all();
    laptop.write(vec![draft]).unwrap();
    assert_eq!((laptop.status().waiting_to_write, laptop.state().history(&id).count()), (0, 1));
}

/// Only a folder that takes everything would bring it in whole then, and that is not known beforehand.
#[test]
fn what_goes_into_several_files_is_refused_where_this_device_cannot_keep_it_together() {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warps = ["Scarf", "Runner"].map(|name| journal::begin_warp(&mut laptop, name));
    drop(laptop);
    let faulty = FaultyDisk::new();
    let mut laptop = Journal::open_on(shared.options("laptop"), faulty.disk()).unwrap();
    let local = shared.local("laptop");
    faulty.refuse(move |path, change| (change && path.starts_with(&local)).then_some(ErrorKind::StorageFull));
    let draft =
        |warp| EntryDraft::new(Place::warp(warp), RecordId::new(), Kind::SITTING, fields(json!({"minutes": 1})));
    let error = laptop.write(warps.iter().map(draft).collect()).unwrap_err();
    assert!(matches!(error, Error::NotKeptTogether { .. }), "{error}");
    assert!(error.to_string().starts_with("nothing was saved: what belongs together"), "{error}");
    assert!(error.to_string().ends_with("free some space and try again"), "{error}");
    // What goes into one file is taken by the folder alone.
    laptop.write(vec![draft(&warps[0])]).unwrap();
    assert_eq!(shared.open("phone").state().of_kind(&Kind::SITTING).count(), 1);
}

/// Refuses some of the changes of this device's own disk, counted from 0.
fn refuse_some(faulty: &FaultyDisk, local: PathBuf, refused: &'static [usize]) {
    let asked = AtomicUsize::new(0);
    faulty.refuse(move |path, change| {
        let is_asked = change && path.starts_with(&local);
        (is_asked && refused.contains(&asked.fetch_add(1, Relaxed))).then_some(ErrorKind::StorageFull)
    });
}

/// What was taken and then not confirmed must not come in later, when the answer was that nothing was saved.
#[test]
fn what_was_refused_does_not_come_in_later_or_is_called_uncertain() {
    // The lines are taken (0) and their sync is refused (1); so is the line that settles them (2), and the emptying in its place (3),
    // or only the sync of that line (3).
    let cases: [(&[usize], bool, usize); 4] =
        [(&[1], true, 0), (&[1, 2], true, 0), (&[1, 2, 3], false, 2), (&[1, 3], false, 0)];
    for (refused, is_certain, would_come) in cases {
        for goes_on in [false, true] {
            let shared = SharedFolder::new();
            let mut laptop = shared.open("laptop");
            let warps = ["Scarf", "Runner"].map(|name| journal::begin_warp(&mut laptop, name));
            drop(laptop);
            let faulty = FaultyDisk::new();
            let mut laptop = Journal::open_on(shared.options("laptop"), faulty.disk()).unwrap();
            refuse_some(&faulty, shared.local("laptop"), refused);
            let draft = |warp| {
                EntryDraft::new(Place::warp(warp), RecordId::new(), Kind::SITTING, fields(json!({"minutes": 1})))
            };
            let error = laptop.write(warps.iter().map(draft).collect()).unwrap_err();
            let said = error.to_string();
            if is_certain {
                assert!(matches!(error, Error::NotKeptTogether { .. }), "{refused:?}: {error}");
            } else {
                assert!(matches!(error, Error::Uncertain { .. }), "{refused:?}: {error}");
                assert!(said.starts_with("it is not certain") && said.contains("Do not enter it again"), "{said}");
            }
            assert_eq!(laptop.state().of_kind(&Kind::SITTING).count(), 0);
            faulty.allow_all();
            if goes_on {
                // As soon as the disk can be written again, it is cleared away.
                laptop.refresh(&[]).unwrap();
            }
            drop(laptop);
            let came = if goes_on { 0 } else { would_come };
            assert_eq!(
                shared.open("laptop").state().of_kind(&Kind::SITTING).count(),
                came,
                "{refused:?}, {goes_on}: {said}"
            );
        }
    }
}

/// What is in the folder and confirmed is saved, whatever else goes on waiting.
#[test]
fn what_waits_from_before_does_not_make_what_is_saved_an_error() {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    drop(laptop);
    let faulty = FaultyDisk::new();
    let mut laptop = Journal::open_on(shared.options("laptop"), faulty.disk()).unwrap();
    let shelf = shared.folder().join("shelf");
    let refused = shelf.clone();
    faulty.refuse(move |path, change| (change && path.starts_with(&refused)).then_some(ErrorKind::StorageFull));
    let setting = EntryDraft::new(Place::Shelf, RecordId::new(), Kind::SETTINGS, fields(json!({"units": "metric"})));
    assert_eq!(laptop.write(vec![setting]).unwrap().waiting, 1);
    let local = shared.local("laptop");
    faulty.refuse(move |path, change| {
        (change && (path.starts_with(&shelf) || path.starts_with(&local))).then_some(ErrorKind::StorageFull)
    });
    let sitting = EntryDraft::new(Place::warp(&warp), RecordId::new(), Kind::SITTING, fields(json!({"minutes": 1})));
    assert_eq!(laptop.write(vec![sitting]).unwrap().waiting, 1);
    assert_eq!(shared.open("phone").state().of_kind(&Kind::SITTING).count(), 1);
    faulty.allow_all();
    laptop.refresh(&[]).unwrap();
    assert_eq!(shared.open("phone").state(), laptop.state());
}

/// It is known here already: nothing of it belongs together so that the one must wait for the other.
#[test]
fn what_vanished_from_several_warps_is_written_back_by_the_folder_alone() {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warps = ["Scarf", "Runner"].map(|name| journal::begin_warp(&mut laptop, name));
    for warp in &warps {
        journal::log_sitting(&mut laptop, warp, 42, 118);
    }
    drop(shared.open("phone"));
    std::fs::remove_dir_all(shared.folder().join("warps")).unwrap();
    let faulty = FaultyDisk::new();
    let mut phone = Journal::open_on(shared.options("phone"), faulty.disk()).unwrap();
    assert_eq!(phone.status().vanished, 4);
    let local = shared.local("phone");
    faulty.refuse(move |path, change| (change && path.starts_with(&local)).then_some(ErrorKind::StorageFull));
    phone.write_back().unwrap();
    assert_eq!((phone.status().vanished, phone.status().waiting_to_write), (0, 0));
    assert_eq!(shared.open("tablet").state(), phone.state());
}

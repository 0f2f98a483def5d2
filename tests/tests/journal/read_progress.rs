//! While a folder is read, progress is reported, and the reading can be stopped at any report: then it is as if it had
//! never begun.

use std::collections::BTreeSet;
use std::fs;
use std::ops::ControlFlow;
use std::sync::{Arc, Mutex};

use fellmark_journal::{EntryDraft, Error, Journal, Key, Kind, Options, Place, ReadProgress, RecordId, Status};
use fellmark_tests::journal::{SharedFolder, all_files, contents, copy_dir, fields, log_sitting};
use serde_json::json;

const WARPS: usize = 150;

/// A folder with a file for each of many warps.
fn many() -> (SharedFolder, Vec<RecordId>) {
    let shared = SharedFolder::new();
    let warps: Vec<RecordId> = (0..WARPS).map(|_| RecordId::new()).collect();
    let draft = |(nth, id): (usize, &RecordId)| {
        EntryDraft::new(Place::warp(id), id.clone(), Kind::WARP, fields(json!({"name": format!("Warp {nth}")})))
    };
    shared.open("laptop").write(warps.iter().enumerate().map(draft).collect()).unwrap();
    (shared, warps)
}

/// Opens it, stopping at this report if at any; what was reported besides.
fn open(options: Options, stop_at: Option<usize>) -> (Result<Journal, Error>, Vec<ReadProgress>) {
    let reported = Arc::new(Mutex::new(Vec::new()));
    let noted = Arc::clone(&reported);
    let opened = Journal::open(options.on_progress(move |progress| {
        let mut noted = noted.lock().unwrap();
        noted.push(progress);
        if Some(noted.len() - 1) == stop_at { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
    }));
    let reported = reported.lock().unwrap().clone();
    (opened, reported)
}

/// All there is to be reported of an open journal.
fn amounts_to(journal: &Journal) -> (BTreeSet<Key>, Status) {
    (journal.state().entries().map(|entry| entry.key()).collect(), journal.status())
}

#[test]
fn the_counts_rise_to_the_number_of_files() {
    let (shared, _) = many();
    let files = shared.entry_files().len();
    assert_eq!(files, WARPS);
    let (opened, reported) = open(shared.options("reader"), None);
    assert_eq!(opened.unwrap().state().warp_ids().count(), WARPS);
    let (looking, reading): (Vec<ReadProgress>, Vec<ReadProgress>) =
        reported.iter().partition(|progress| progress.files.is_none());
    // Every warp's directory is looked into before the first file is read.
    assert!(looking.len() > WARPS && looking.iter().all(|progress| progress.files_read == 0), "{looking:?}");
    assert_eq!(reported[..looking.len()], looking);
    assert!(reading.len() > 3 && reading.iter().all(|progress| progress.files == Some(files)), "{reading:?}");
    assert!(reading.is_sorted_by(|one, next| one.files_read < next.files_read), "{reading:?}");
    assert_eq!(reading.last().unwrap().files_read, files);
}

#[test]
fn what_was_stopped_may_as_well_not_have_begun() {
    let (shared, warps) = many();
    drop(shared.open("reader"));
    // A file goes and another comes, so that the reader has something to remember and something to learn.
    fs::remove_file(&shared.entry_files()[7]).unwrap();
    log_sitting(&mut shared.open("phone"), &warps[3], 40, 120);
    copy_dir(&shared.local("reader"), &shared.local("twin"));

    let (folder, local) = (contents(&shared.folder()), contents(&shared.local("reader")));
    let (twin, reported) = open(shared.options("twin").read_only(), None);
    for at in 0..reported.len() {
        let (stopped, reported) = open(shared.options("reader"), Some(at));
        let error = stopped.expect_err("it was stopped");
        assert!(matches!(&error, Error::Stopped { folder } if *folder == shared.folder()), "at {at}: {error}");
        assert_eq!(reported.len(), at + 1, "nobody is told any more");
        assert!(contents(&shared.folder()) == folder, "the folder was changed at {at}");
        assert!(contents(&shared.local("reader")) == local, "what the device remembers was changed at {at}");
    }
    // Had one of them kept the lock, this one would not get it.
    let (reader, _) = open(shared.options("reader"), None);
    let (reader, twin) = (reader.unwrap(), twin.unwrap());
    let of_twin = (amounts_to(&twin).0, Status { read_only: false, ..twin.status() });
    assert_eq!(amounts_to(&reader), of_twin);
    assert_eq!((reader.state().len(), reader.status().vanished), (WARPS + 1, 1), "{:?}", reader.status());
}

#[test]
fn a_first_reading_can_be_stopped_and_begun_again() {
    let (shared, _) = many();
    let folder = contents(&shared.folder());
    let mut devices = BTreeSet::new();
    for at in [0, WARPS, WARPS + 3] {
        let (stopped, reported) = open(shared.options("reader"), Some(at));
        let error = stopped.expect_err("it was stopped").to_string();
        let sentence =
            format!("reading the folder {} was stopped; nothing in it was changed", shared.folder().display());
        assert_eq!((error, reported.len()), (sentence, at + 1));
        assert!(contents(&shared.folder()) == folder, "the folder was changed at {at}");
        devices.insert(fs::read(shared.local("reader").join("device.json")).unwrap());
    }
    let reader = shared.open("reader");
    assert_eq!(amounts_to(&reader), amounts_to(&shared.open("another")));
    devices.insert(fs::read(shared.local("reader").join("device.json")).unwrap());
    assert_eq!(devices.len(), 1, "it is one device all along");
    assert!(all_files(&shared.local("reader")).len() > 1);
}

#[test]
fn a_journal_that_is_begun_has_nothing_to_stop_at() {
    let shared = SharedFolder::new();
    let (opened, reported) = open(shared.options("laptop"), Some(0));
    assert!(opened.unwrap().state().is_empty());
    assert_eq!(reported, [], "the marker lies in the folder by now");
    let (opened, _) = open(shared.options("laptop"), Some(0));
    assert!(matches!(opened, Err(Error::Stopped { .. })));
}

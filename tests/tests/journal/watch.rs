//! Watching the folder, and the sitting that runs.

use std::io::Write;
use std::path::PathBuf;
use std::sync::mpsc;
use std::time::{Duration, Instant};

use fellmark_journal::{RunningLog, watch};
use fellmark_tests::journal::faulty_disk::FaultyDisk;
use fellmark_tests::journal::{self, SharedFolder};
use serde_json::json;

#[test]
fn what_another_device_writes_is_reported_within_two_seconds() {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let (sender, receiver) = mpsc::channel::<Vec<PathBuf>>();
    let watcher = watch(&shared.folder(), move |paths| sender.send(paths).unwrap()).unwrap();
    assert!(!watcher.polls());
    let mut phone = shared.open("phone");
    // In a directory that was not there when the watch began.
    let began = Instant::now();
    let warp = journal::begin_warp(&mut phone, "Scarf");
    while laptop.state().record(&warp).is_none() {
        let paths = receiver.recv_timeout(Duration::from_secs(2)).expect("nothing was told");
        assert!(paths.iter().all(|path| !path.file_name().unwrap().to_string_lossy().starts_with('.')), "{paths:?}");
        laptop.refresh(&paths).unwrap();
    }
    assert!(began.elapsed() < Duration::from_secs(2), "{:?}", began.elapsed());
    // And in one that is known by now.
    while receiver.recv_timeout(Duration::from_millis(500)).is_ok() {}
    let began = Instant::now();
    let sitting = journal::log_sitting(&mut phone, &warp, 1, 2);
    while laptop.state().record(&sitting).is_none() {
        let paths = receiver.recv_timeout(Duration::from_secs(2)).expect("nothing was told");
        laptop.refresh(&paths).unwrap();
    }
    assert!(began.elapsed() < Duration::from_secs(2), "{:?}", began.elapsed());
    drop(watcher);
    journal::log_sitting(&mut phone, &warp, 3, 4);
    assert!(receiver.recv_timeout(Duration::from_millis(600)).is_err(), "a dropped watcher still tells");
}

#[test]
fn many_changes_at_once_are_reported_as_one() {
    let shared = SharedFolder::new();
    drop(shared.open("laptop"));
    let (sender, receiver) = mpsc::channel::<Vec<PathBuf>>();
    let _watcher = watch(&shared.folder(), move |paths| sender.send(paths).unwrap()).unwrap();
    for i in 0..800 {
        std::fs::write(shared.folder().join(format!("{i}.json")), "{}").unwrap();
    }
    let mut all = false;
    while let Ok(paths) = receiver.recv_timeout(Duration::from_secs(1)) {
        all |= paths.is_empty();
    }
    assert!(all, "no call said that all is to be looked at");
}

#[test]
fn only_a_changed_file_is_read_again() {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    let mut phone = shared.open("phone");
    journal::log_sitting(&mut phone, &warp, 1, 2);
    let faulty = FaultyDisk::new();
    drop(laptop);
    let mut laptop = fellmark_journal::Journal::open_on(shared.options("laptop"), faulty.disk()).unwrap();
    let other = journal::begin_warp(&mut phone, "Towels");
    faulty.take_reads();
    let changes = laptop.refresh(&[]).unwrap();
    assert_eq!(changes.warps, [other].into());
    let mut reads = faulty.take_reads();
    reads.retain(|path| !path.starts_with(shared.folder().join("devices")) && path.starts_with(shared.folder()));
    assert_eq!(reads.len(), 1, "{reads:?}");
    laptop.refresh(&[]).unwrap();
    let again = faulty.take_reads();
    assert!(again.iter().all(|path| !path.starts_with(shared.folder().join("warps"))), "{again:?}");
}

#[test]
fn the_running_sitting_survives_and_a_torn_line_is_passed_over() {
    let shared = SharedFolder::new();
    let local = shared.local("laptop");
    let mut running = RunningLog::open(&local).unwrap();
    assert!(running.read_all().unwrap().is_empty());
    for pick in 1..=3 {
        running.append(&json!({"pick": pick})).unwrap();
    }
    // Without any farewell, as at a kill.
    std::mem::forget(running);
    let file = local.join("running.lines");
    let mut torn = std::fs::OpenOptions::new().append(true).open(&file).unwrap();
    torn.write_all(b"{\"pick\":").unwrap();
    let mut running = RunningLog::open(&local).unwrap();
    assert_eq!(running.read_all().unwrap(), [json!({"pick": 1}), json!({"pick": 2}), json!({"pick": 3})]);
    running.append(&json!({"pick": 4, "note": "two\nlines"})).unwrap();
    assert_eq!(running.read_all().unwrap().len(), 4);
    drop(running);
    let mut running = RunningLog::open(&local).unwrap();
    assert_eq!(running.read_all().unwrap()[3]["note"], "two\nlines");
    running.clear().unwrap();
    assert!(running.read_all().unwrap().is_empty());
    running.append(&json!(5)).unwrap();
    assert_eq!(running.read_all().unwrap(), [json!(5)]);
}

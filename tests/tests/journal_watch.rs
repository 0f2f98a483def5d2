//! Watching the folder, the sitting that runs, and that none of it speaks to a network.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

#[path = "../journal/bench.rs"]
mod bench;

use std::io::Write;
use std::path::PathBuf;
use std::sync::mpsc;
use std::time::{Duration, Instant};

use bench::Bench;
use fellmark_journal::{RunningLog, watch};
use serde_json::json;

#[test]
fn what_another_device_writes_is_told_within_two_seconds() {
    let bench = Bench::new();
    let mut laptop = bench.open("laptop");
    let (tell, told) = mpsc::channel::<Vec<PathBuf>>();
    let watcher = watch(&bench.folder(), move |paths| tell.send(paths).unwrap()).unwrap();
    assert!(!watcher.polls());
    let mut phone = bench.open("phone");
    // In a directory that was not there when the watch began.
    let began = Instant::now();
    let warp = bench::begin_warp(&mut phone, "Scarf");
    while laptop.state().record(&warp).is_none() {
        let paths = told.recv_timeout(Duration::from_secs(2)).expect("nothing was told");
        assert!(paths.iter().all(|path| !path.file_name().unwrap().to_string_lossy().starts_with('.')), "{paths:?}");
        laptop.refresh(&paths).unwrap();
    }
    assert!(began.elapsed() < Duration::from_secs(2), "{:?}", began.elapsed());
    // And in one that is known by now.
    while told.recv_timeout(Duration::from_millis(500)).is_ok() {}
    let began = Instant::now();
    let sitting = bench::log_sitting(&mut phone, &warp, 1, 2);
    while laptop.state().record(&sitting).is_none() {
        let paths = told.recv_timeout(Duration::from_secs(2)).expect("nothing was told");
        laptop.refresh(&paths).unwrap();
    }
    assert!(began.elapsed() < Duration::from_secs(2), "{:?}", began.elapsed());
    drop(watcher);
    bench::log_sitting(&mut phone, &warp, 3, 4);
    assert!(told.recv_timeout(Duration::from_millis(600)).is_err(), "a dropped watcher still tells");
}

#[test]
fn many_changes_at_once_are_told_as_one_look_at_all() {
    let bench = Bench::new();
    drop(bench.open("laptop"));
    let (tell, told) = mpsc::channel::<Vec<PathBuf>>();
    let _watcher = watch(&bench.folder(), move |paths| tell.send(paths).unwrap()).unwrap();
    for i in 0..800 {
        std::fs::write(bench.folder().join(format!("{i}.json")), "{}").unwrap();
    }
    let mut all = false;
    while let Ok(paths) = told.recv_timeout(Duration::from_secs(1)) {
        all |= paths.is_empty();
    }
    assert!(all, "no call said that all is to be looked at");
}

#[test]
fn only_a_changed_file_is_read_again() {
    let bench = Bench::new();
    let mut laptop = bench.open("laptop");
    let warp = bench::begin_warp(&mut laptop, "Scarf");
    let mut phone = bench.open("phone");
    bench::log_sitting(&mut phone, &warp, 1, 2);
    let faulty = faulty::Faulty::new();
    drop(laptop);
    let mut laptop = fellmark_journal::Journal::open_on(bench.options("laptop"), faulty.disk()).unwrap();
    let other = bench::begin_warp(&mut phone, "Towels");
    faulty.take_reads();
    let changes = laptop.refresh(&[]).unwrap();
    assert_eq!(changes.warps, [other].into());
    let mut reads = faulty.take_reads();
    reads.retain(|path| !path.starts_with(bench.folder().join("devices")) && path.starts_with(bench.folder()));
    assert_eq!(reads.len(), 1, "{reads:?}");
    laptop.refresh(&[]).unwrap();
    let again = faulty.take_reads();
    assert!(again.iter().all(|path| !path.starts_with(bench.folder().join("warps"))), "{again:?}");
}

#[path = "../journal/faulty.rs"]
mod faulty;

#[test]
fn the_running_sitting_survives_and_a_torn_line_is_passed_over() {
    let bench = Bench::new();
    let local = bench.local("laptop");
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

/// All the journal does, and then what this process holds open: no socket of any kind.
#[cfg(target_os = "linux")]
#[test]
fn no_socket_is_opened() {
    let bench = Bench::new();
    let mut laptop = bench.open("laptop");
    let _watcher = watch(&bench.folder(), |_| {}).unwrap();
    let warp = bench::begin_warp(&mut laptop, "Scarf");
    let added = laptop.photo_add(&warp, &bench::picture(20, 20)).unwrap();
    laptop.thumbnail(&warp, &added.hash, 10).unwrap();
    laptop.refresh(&[]).unwrap();
    let mut running = RunningLog::open(&bench.local("laptop")).unwrap();
    running.append(&json!(1)).unwrap();
    let sockets = || {
        std::fs::read_dir("/proc/self/fd")
            .unwrap()
            .filter_map(|item| std::fs::read_link(item.unwrap().path()).ok())
            .filter(|target| target.to_string_lossy().starts_with("socket:"))
            .count()
    };
    assert_eq!(sockets(), 0);
    // The count would tell: one that is opened here is seen.
    let socket = std::os::unix::net::UnixDatagram::unbound().unwrap();
    assert_eq!(sockets(), 1);
    drop(socket);
}

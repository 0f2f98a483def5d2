//! How fast the journal is, as ratios within one run, on a made-up folder: 400 warps, 30,000 sittings, 5 devices.
//!
//! `cargo run --release -p fellmark-journal --example speed [sittings]`
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

use std::fs::{self, File};
use std::io::Write;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use fellmark_journal::{Draft, Journal, Kind, Options, Place, RecordId, Segment, render};
use serde_json::{Map, Value, json};

const DEVICES: usize = 5;
const WARPS: usize = 400;

fn fields(value: Value) -> Map<String, Value> {
    value.as_object().cloned().unwrap_or_default()
}

fn options(root: &Path, device: &str) -> Options {
    Options::new(root.join("log"), root.join("local").join(device), device).create()
}

/// Writes the folder: every sitting of a warp by one of the devices in turn, every tenth corrected.
fn generate(root: &Path, warps: usize, sittings: usize) {
    for device in 0..DEVICES {
        let mut journal = Journal::open(options(root, &format!("device{device}"))).unwrap();
        let warps: Vec<RecordId> = if device == 0 {
            (0..warps).map(|_| RecordId::new()).collect()
        } else {
            journal.state().warp_ids().cloned().collect()
        };
        for (w, warp) in warps.iter().enumerate() {
            let mut drafts = Vec::new();
            if device == 0 {
                let set = fields(json!({"name": format!("Warp {w}"), "wound_mm": 2750, "waste_mm": 500, "ppi": 12.5}));
                drafts.push(Draft::new(Place::warp(warp), warp.clone(), Kind::WARP, set));
            }
            for n in 0..sittings / warps.len() / DEVICES {
                let id = RecordId::new();
                let set = fields(json!({
                    "date": "2026-05-31", "minutes": 30 + n, "picks": 100 + n, "woven_mm": 85.5, "note": "a quiet evening",
                }));
                drafts.push(Draft::new(Place::warp(warp), id, Kind::SITTING, set));
            }
            let written = journal.write(drafts).unwrap();
            let edits = written.keys.iter().step_by(10).filter_map(|key| {
                let of = journal.state().entry(*key)?.of().clone();
                Some(Draft::on(journal.state().record(&of)?, fields(json!({"picks": 7}))))
            });
            let edits: Vec<Draft> = edits.collect();
            journal.write(edits).unwrap();
        }
    }
}

fn files(dir: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for item in fs::read_dir(dir).unwrap().flatten() {
        if item.path().is_dir() { found.extend(files(&item.path())) } else { found.push(item.path()) }
    }
    found.sort();
    found
}

fn best(times: usize, mut run: impl FnMut() -> Duration) -> Duration {
    (0..times).map(|_| run()).min().unwrap()
}

fn timed(run: impl FnOnce()) -> Duration {
    let began = Instant::now();
    run();
    began.elapsed()
}

fn ratio(a: Duration, b: Duration) -> f64 {
    a.as_secs_f64() / b.as_secs_f64()
}

/// The median time from an arrived file to the state brought up to date and the warp's records worked out.
fn arrival(root: &Path) -> Duration {
    let reader = root.join("reader");
    let mut journal = Journal::open(Options::new(root.join("log"), &reader, "reader")).unwrap();
    let mut other = Journal::open(options(root, "device1")).unwrap();
    let warp = journal.state().warp_ids().next().unwrap().clone();
    assert!(journal.state().records().count() > 0);
    let mut times: Vec<Duration> = (0..21)
        .map(|n| {
            let set = fields(json!({"minutes": n, "picks": n}));
            other.write(vec![Draft::new(Place::warp(&warp), RecordId::new(), Kind::SITTING, set)]).unwrap();
            let name = format!("{}.0001.json", other.device());
            let log = root.join("log/warps");
            let dirs = fs::read_dir(log).unwrap().flatten().map(|item| item.path());
            let dir = dirs.into_iter().find(|d| d.to_string_lossy().ends_with(&warp.as_str()[..8])).unwrap();
            let changed = [dir.join(name)];
            timed(|| {
                let changes = journal.refresh(&changed).unwrap();
                assert_eq!(changes.warps.len(), 1);
                assert!(journal.state().of_warp(&warp).count() > 0);
            })
        })
        .collect();
    times.sort();
    times[times.len() / 2]
}

fn main() {
    let sittings = std::env::args().nth(1).and_then(|n| n.parse().ok()).unwrap_or(30_000);
    let root = std::env::temp_dir().join(format!("fellmark-speed-{}", std::process::id()));
    let (large, small) = (root.join("large"), root.join("small"));
    for dir in [&large, &small] {
        fs::create_dir_all(dir).unwrap();
    }
    generate(&large, WARPS, sittings);
    // As many sittings on each warp as in the large one.
    generate(&small, WARPS * 300 / sittings, 300);

    let all = files(&large.join("log"));
    let bytes: usize = all.iter().map(|file| file.metadata().unwrap().len() as usize).sum();
    let read = best(5, || {
        timed(|| {
            for file in &all {
                let bytes = fs::read(file).unwrap();
                serde_json::from_slice::<serde::de::IgnoredAny>(&bytes).unwrap();
            }
        })
    });
    let as_values = best(3, || {
        timed(|| {
            for file in &all {
                serde_json::from_slice::<Value>(&fs::read(file).unwrap()).unwrap();
            }
        })
    });
    let parse = best(5, || timed(|| all.iter().for_each(|f| drop(Segment::read(&fs::read(f).unwrap())))));
    let mut entries = 0;
    let mut open = |read_only: bool, local: &Path| {
        let mut options = Options::new(large.join("log"), local, "reader");
        options.read_only = read_only;
        // Opened, and every record worked out; what giving the memory back takes is not counted.
        let mut journal = None;
        let took = timed(|| {
            let opened = Journal::open(options).unwrap();
            assert!(opened.state().records().count() > 0);
            journal = Some(opened);
        });
        entries = journal.map_or(0, |journal| journal.state().len());
        took
    };
    let first = open(false, &large.join("first"));
    let again = best(5, || open(false, &large.join("first")));
    let only = best(5, || open(true, &large.join("nowhere")));
    println!("{} files, {bytes} bytes, {entries} entries", all.len());
    println!("read and tokenise          {read:>12.1?}");
    println!("read as JSON values        {as_values:>12.1?}  {:.2} times", ratio(as_values, read));
    println!("read and check all entries {parse:>12.1?}  {:.2} times", ratio(parse, read));
    println!("open, reading only         {only:>12.1?}  {:.2} times", ratio(only, read));
    println!("open the first time        {first:>12.1?}  {:.2} times", ratio(first, read));
    println!("open again                 {again:>12.1?}  {:.2} times", ratio(again, read));

    let (few, many) = (arrival(&small), arrival(&large));
    println!("one file arrives, at 300   {few:>12.1?}");
    println!("one file arrives, at all   {many:>12.1?}  {:.2} times", ratio(many, few));

    let mut journal = Journal::open(options(&small, "saver")).unwrap();
    let warp = RecordId::new();
    let (mut saves, mut bare) = (Vec::new(), Vec::new());
    let dir = small.join("bare");
    fs::create_dir_all(&dir).unwrap();
    for n in 0..60 {
        let set = fields(json!({"name": "x", "minutes": n}));
        let draft = Draft::new(Place::warp(&warp), RecordId::new(), Kind::SITTING, set);
        // What the save before left to be synced meanwhile has been.
        std::thread::sleep(Duration::from_millis(40));
        saves.push(timed(|| drop(journal.write(vec![draft]).unwrap())));
        std::thread::sleep(Duration::from_millis(40));
        let device = journal.device().clone();
        let lines: Vec<String> = journal
            .state()
            .of_warp(&warp)
            .flat_map(|r| journal.state().history(&r.id))
            .map(|e| e.line().to_owned())
            .collect();
        let bytes = render(&device, 1, lines.iter().map(String::as_str));
        bare.push(timed(|| {
            let mut file = File::create(dir.join("temp")).unwrap();
            file.write_all(&bytes).unwrap();
            file.sync_all().unwrap();
            fs::rename(dir.join("temp"), dir.join("file")).unwrap();
            File::open(&dir).unwrap().sync_all().unwrap();
        }));
    }
    saves.sort();
    bare.sort();
    let (save, bare) = (saves[30], bare[30]);
    println!("bare write, sync, rename   {bare:>12.1?}");
    println!("save of an entry           {save:>12.1?}  {:.2} times", ratio(save, bare));
    let status = fs::read_to_string("/proc/self/status").unwrap_or_default();
    let peak = status.lines().find(|line| line.starts_with("VmHWM")).unwrap_or("VmHWM: unknown");
    println!("peak memory {}, {:.1} MB on disk", peak[6..].trim(), bytes as f64 / 1e6);
    fs::remove_dir_all(&root).unwrap();
}

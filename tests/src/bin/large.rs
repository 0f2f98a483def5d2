//! Twenty years of one weaver, invented: 400 warps, 30,000 sittings, 5 devices, 20,000 photos. How long opening takes beside
//! reading and tokenising the same bytes and beside loading the same rows from SQLite, how long one arriving file and one save
//! take, and how much memory it needs. All figures are medians and ratios within one run; every opening is a process of its own.
//!
//! A *first opening* finds nothing of this device's own: all is parsed, and a shadow of it written. *Opening again* finds what an
//! earlier opening left: all files are read to the last byte all the same, and those of the same bytes are not taken apart again.
//! *Merged* means that every entry is known by its key, and its record, and which records wait to be settled; *worked out*, that
//! every entry was read and every field of every record has its value besides; *projected*, that every warp's line is made, with
//! what is left and when it will be done.
//!
//! `large [SITTINGS]`
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::fs::{self, File};
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::{Duration, Instant};

use chrono::NaiveDate;
use fellmark_answers::model::display_format::DisplayFormat;
use fellmark_answers::present::desk::Presenter;
use fellmark_answers::reports::reckoned::ReportCache;
use fellmark_journal::{Draft, Entry, Journal, Kind, Options, Place, RecordId};
use fellmark_tests::twenty_years;
use serde_json::{Map, Value, json};

const WARPS: usize = 400;
const ROUNDS: usize = 21;

fn main() {
    let words: Vec<String> = std::env::args().skip(1).collect();
    match words.iter().map(String::as_str).collect::<Vec<_>>().as_slice() {
        [task, root] => child(task, Path::new(root)),
        [] => all(30_000),
        [sittings] => all(sittings.parse().expect("a number of sittings")),
        _ => eprintln!("usage: large [SITTINGS]"),
    }
}

fn all(sittings: usize) {
    let top = std::env::temp_dir().join(format!("fellmark-large-{}", std::process::id()));
    let (large, small) = (top.join("large"), top.join("small"));
    // As many sittings on each warp in the small one.
    generate(&large, WARPS, sittings);
    generate(&small, (WARPS * 300 / sittings).max(1), 300);
    let files = files(&large.join("log"));
    let bytes: u64 = files.iter().map(|file| file.metadata().unwrap().len()).sum();
    for _ in 0..2 {
        measure("prepare", &large);
    }
    println!("{} files of entries, {:.1} MB, {sittings} sittings", files.len(), bytes as f64 / 1e6);

    let tasks = [
        ("tokenise", "read and tokenise"),
        ("values", "read as JSON values"),
        ("sqlite", "the same rows from SQLite"),
        ("first", "first opening, merged"),
        ("first-projected", "first opening, projected"),
        ("again", "opening again, merged"),
        ("again-worked-out", "opening again, worked out"),
        ("again-projected", "opening again, projected"),
        ("again-read-only", "the same, only reading"),
    ];
    let mut runs: Vec<Vec<(Duration, u64)>> = vec![Vec::new(); tasks.len()];
    for _ in 0..ROUNDS {
        for ((task, _), runs) in tasks.iter().zip(&mut runs) {
            runs.push(measure(task, &large));
        }
    }
    let medians: Vec<Duration> = runs.iter().map(|runs| median(runs.iter().map(|run| run.0))).collect();
    for (((_, told), took), runs) in tasks.iter().zip(&medians).zip(&runs) {
        let peak = runs.iter().map(|run| run.1).max().unwrap_or(0);
        println!(
            "{told:28} {took:>10.1?}  {:6.2} times tokenising, {:5.2} times SQLite; peak memory {:.1} times the bytes",
            ratio(*took, medians[0]),
            ratio(*took, medians[2]),
            peak as f64 / bytes as f64
        );
    }
    let (few, many) = (arrival(&small), arrival(&large));
    println!("one file arrives, at 300 sittings {few:.1?}, at {sittings} {many:.1?}: {:.2} times", ratio(many, few));
    let (save, bare) = saves(&small);
    println!(
        "a save {save:.1?}, bare write, sync, rename and sync of the directory {bare:.1?}: {:.2} times",
        ratio(save, bare)
    );
    fs::remove_dir_all(&top).unwrap();
}

/// Runs a task in a process of its own: how long it says that it took, and its greatest memory in bytes.
fn measure(task: &str, root: &Path) -> (Duration, u64) {
    let output = Command::new(std::env::current_exe().unwrap()).arg(task).arg(root).output().unwrap();
    assert!(output.status.success(), "{task}: {}", String::from_utf8_lossy(&output.stderr));
    let text = String::from_utf8(output.stdout).unwrap();
    let mut numbers = text.split_whitespace().map(|word| word.parse::<u64>().unwrap());
    (Duration::from_nanos(numbers.next().unwrap()), numbers.next().unwrap())
}

fn child(task: &str, root: &Path) {
    let log = root.join("log");
    let files = files(&log);
    let again = Options::new(&log, root.join("reader"), "reader");
    let fresh = root.join("first");
    if task.starts_with("first") && fresh.exists() {
        fs::remove_dir_all(&fresh).unwrap();
    }
    let first = Options::new(&log, fresh, "first");
    let memo = root.join("reckoned.memo");
    let today = NaiveDate::from_ymd_opt(2026, 11, 25).unwrap();
    let merged = |options: Options| {
        let journal = Journal::open(options).unwrap();
        // Reckoned by all that wait to be settled.
        assert_eq!((journal.status().two_answers, journal.status().vanished), (0, 0));
        journal
    };
    let projected = |options: Options, mut reckonings: ReportCache| {
        let journal = merged(options);
        let lines = Presenter::new(&journal, &mut reckonings, &DisplayFormat::default(), today).warp_lines();
        assert_eq!(lines.len(), journal.state().warp_ids().count());
        (journal, reckonings, lines)
    };
    let began = Instant::now();
    // What giving the memory back takes is counted nowhere.
    let kept: Box<dyn std::any::Any> = match task {
        "prepare" => {
            // What it keeps for later openings is kept when it is closed.
            let (journal, reckonings, _) = projected(again, ReportCache::new());
            fs::write(memo, reckonings.memo().unwrap()).unwrap();
            drop(journal);
            Box::new(())
        }
        "tokenise" => {
            for file in &files {
                serde_json::from_slice::<serde::de::IgnoredAny>(&fs::read(file).unwrap()).unwrap();
            }
            Box::new(())
        }
        "values" => Box::new(
            files.iter().map(|f| serde_json::from_slice(&fs::read(f).unwrap()).unwrap()).collect::<Vec<Value>>(),
        ),
        "first" => Box::new(merged(first)),
        "again" => Box::new(merged(again)),
        "again-worked-out" => {
            let journal = merged(again);
            assert!(journal.state().records().count() > 0);
            Box::new(journal)
        }
        "first-projected" => Box::new(projected(first, ReportCache::new())),
        "again-projected" => Box::new(projected(again, ReportCache::from_memo(&fs::read(memo).unwrap()))),
        "again-read-only" => Box::new(projected(again.read_only(), ReportCache::from_memo(&fs::read(memo).unwrap()))),
        "sqlite" => Box::new(rows(&root.join("rows.sqlite"))),
        other => panic!("there is no task {other}"),
    };
    let took = began.elapsed();
    let status = fs::read_to_string("/proc/self/status").unwrap_or_default();
    let peak = status.lines().find_map(|line| line.strip_prefix("VmHWM:")?.trim().strip_suffix(" kB")?.parse().ok());
    println!("{} {}", took.as_nanos(), peak.unwrap_or(0u64) * 1024);
    std::mem::forget(kept);
}

fn fields(value: Value) -> Map<String, Value> {
    value.as_object().cloned().unwrap_or_default()
}

/// Writes the folder, and the same rows as a database.
fn generate(root: &Path, warps: usize, sittings: usize) {
    fs::create_dir_all(root).unwrap();
    let mut rows = Rows::new(&root.join("rows.sqlite"));
    twenty_years::generate(root, warps, sittings, |entry, set| rows.add(entry, set));
    rows.done();
}

/// What the entries say, as a program that keeps a database would have it: a column for each field.
struct Rows(rusqlite::Connection);

const COLUMNS: [&str; 18] = [
    "of_id",
    "kind",
    "warp",
    "by_device",
    "at",
    "name",
    "begun_on",
    "state",
    "wound_mm",
    "waste_mm",
    "wanted_mm",
    "on_day",
    "started",
    "minutes",
    "picks",
    "note",
    "hash",
    "sitting",
];

impl Rows {
    fn new(path: &Path) -> Self {
        let base = rusqlite::Connection::open(path).unwrap();
        base.execute_batch(&format!("PRAGMA synchronous=OFF; CREATE TABLE entry ({}); BEGIN", COLUMNS.join(",")))
            .unwrap();
        Self(base)
    }

    fn add(&mut self, entry: &Entry, set: &Map<String, Value>) {
        let marks = vec!["?"; COLUMNS.len()].join(",");
        let text = |value: &str| rusqlite::types::Value::Text(value.to_owned());
        let warp = entry.place().warp_id().unwrap();
        let mut row = vec![
            text(entry.of().as_str()),
            text(entry.kind().as_str()),
            text(warp.as_str()),
            text(entry.by().as_str()),
            text(entry.at().as_str()),
        ];
        row.extend(COLUMNS[5..].iter().map(|column| match set.get(if *column == "on_day" { "on" } else { column }) {
            Some(Value::String(word)) => text(word),
            Some(Value::Number(number)) => rusqlite::types::Value::Real(number.as_f64().unwrap()),
            _ => rusqlite::types::Value::Null,
        }));
        let mut insert = self.0.prepare_cached(&format!("INSERT INTO entry VALUES ({marks})")).unwrap();
        insert.execute(rusqlite::params_from_iter(row)).unwrap();
    }

    fn done(self) {
        self.0.execute_batch("COMMIT").unwrap();
    }
}

type Row = ([Option<String>; 12], [Option<f64>; 5]);

/// Loads every row, its texts and numbers.
fn rows(path: &Path) -> Vec<Row> {
    let base = rusqlite::Connection::open(path).unwrap();
    let mut select = base
        .prepare(
            "SELECT of_id, kind, warp, by_device, at, name, begun_on, state, on_day, started, note, hash || ':' || sitting, \
             wound_mm, waste_mm, wanted_mm, minutes, picks FROM entry",
        )
        .unwrap();
    let mut rows = Vec::new();
    let mut found = select.query([]).unwrap();
    while let Some(row) = found.next().unwrap() {
        let mut texts: [Option<String>; 12] = Default::default();
        for (i, text) in texts.iter_mut().enumerate() {
            *text = row.get(i).unwrap();
        }
        let mut numbers = [None; 5];
        for (i, number) in numbers.iter_mut().enumerate() {
            *number = row.get(12 + i).unwrap();
        }
        rows.push((texts, numbers));
    }
    rows
}

/// The files of entries and markers.
fn files(dir: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for item in fs::read_dir(dir).unwrap().flatten() {
        if item.file_type().unwrap().is_dir() {
            found.extend(files(&item.path()));
        } else if item.path().extension().is_some_and(|end| end == "json") {
            found.push(item.path());
        }
    }
    found.sort();
    found
}

/// The median time from an arrived file to the state brought up to date and the warp's records worked out.
fn arrival(root: &Path) -> Duration {
    let mut journal = Journal::open(Options::new(root.join("log"), root.join("reader"), "reader")).unwrap();
    let mut other = Journal::open(Options::new(root.join("log"), root.join("other"), "other")).unwrap();
    let warp = journal.state().warp_ids().next().unwrap().clone();
    assert!(journal.state().records().count() > 0);
    let dirs = fs::read_dir(root.join("log/warps")).unwrap().flatten().map(|item| item.path());
    let dir = dirs.into_iter().find(|dir| dir.to_string_lossy().ends_with(warp.short())).unwrap();
    let changed = [dir.join(format!("{}.0001.json", other.device()))];
    median((0..301).map(|n| {
        let draft =
            Draft::new(Place::warp(&warp), RecordId::new(), Kind::SITTING, fields(json!({"minutes": n, "picks": n})));
        other.write(vec![draft]).unwrap();
        let began = Instant::now();
        let changes = journal.refresh(&changed).unwrap();
        assert!(changes.warps.len() == 1 && journal.state().of_warp(&warp).count() > 0);
        began.elapsed()
    }))
}

/// The median of saves, and of bare writes of the same bytes, in turn.
fn saves(root: &Path) -> (Duration, Duration) {
    let mut journal = Journal::open(Options::new(root.join("log"), root.join("saver"), "saver")).unwrap();
    let warp = journal.state().warp_ids().next().unwrap().clone();
    let dirs = fs::read_dir(root.join("log/warps")).unwrap().flatten().map(|item| item.path());
    let dir = dirs.into_iter().find(|dir| dir.to_string_lossy().ends_with(warp.short())).unwrap();
    let own = dir.join(format!("{}.0001.json", journal.device()));
    let bare_dir = root.join("bare");
    fs::create_dir_all(&bare_dir).unwrap();
    let pause = || std::thread::sleep(Duration::from_millis(30));
    let pairs: Vec<(Duration, Duration)> = (0..201)
        .map(|n| {
            let set = fields(json!({"on": "2026-11-24", "minutes": n, "picks": n}));
            let draft = Draft::new(Place::warp(&warp), RecordId::new(), Kind::SITTING, set);
            let began = Instant::now();
            let written = journal.write(vec![draft]).unwrap();
            let save = began.elapsed();
            assert_eq!(written.waiting, 0);
            // What the save leaves to be synced meanwhile has been.
            pause();
            let bytes = fs::read(&own).unwrap();
            let began = Instant::now();
            let mut file = File::create(bare_dir.join("temp")).unwrap();
            file.write_all(&bytes).unwrap();
            file.sync_all().unwrap();
            fs::rename(bare_dir.join("temp"), bare_dir.join("file")).unwrap();
            File::open(&bare_dir).unwrap().sync_all().unwrap();
            let bare = began.elapsed();
            pause();
            (save, bare)
        })
        .collect();
    (median(pairs.iter().map(|pair| pair.0)), median(pairs.iter().map(|pair| pair.1)))
}

fn median(times: impl Iterator<Item = Duration>) -> Duration {
    let mut times: Vec<Duration> = times.collect();
    times.sort();
    times[times.len() / 2]
}

fn ratio(a: Duration, b: Duration) -> f64 {
    a.as_secs_f64() / b.as_secs_f64()
}

//! Twenty years of one weaver, invented: 400 warps, 30,000 sittings, 5 devices, 20,000 photos. How long opening takes beside
//! reading and tokenising the same bytes, and how much memory it needs. All figures are medians and ratios within one run; every
//! opening is a process of its own.
//!
//! A *first opening* finds nothing of this device's own: a replica of all entries is written beside the folder. *Opening again*
//! finds that. *Merged* means that every entry is read and known by its key and its record; *with all answers*, that every warp's
//! line is made, with what is left and when it will be done.
//!
//! `large [SITTINGS]`
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::{Duration, Instant};

use chrono::NaiveDate;
use fellmark_journal::{Journal, Options};
use fellmark_model::display_format::DisplayFormat;
use fellmark_present::overview::Presenter;
use fellmark_reports::report_cache::ReportCache;
use fellmark_tests::twenty_years;

const SITTINGS: usize = 30_000;
const SITTINGS_PER_WARP: usize = 75;
const ROUNDS: usize = 11;
/// A folder of two years, which opens before anyone notices.
const FEW_SITTINGS: usize = 3_000;

/// What is measured: the task, its name, and how many times tokenising it may take at most.
const TASKS: [(&str, &str, Option<f64>); 4] = [
    ("tokenise", "read and tokenise", None),
    ("first", "first opening, merged", Some(5.0)),
    ("first-answered", "first opening, with all answers", Some(9.0)),
    ("again-answered", "opened again, with all answers", Some(5.0)),
];
/// Peak memory may be so many times the bytes of the files.
const MEMORY_GOAL: f64 = 5.0;
/// Four warps of a year.
const USUAL_SITTINGS: usize = 300;
const USUAL_TIMES: [usize; 3] = [1, 10, 100];
/// A tenth of the time that an empty window takes to start.
const FEW_GOAL: Duration = Duration::from_millis(30);

fn main() {
    let words: Vec<String> = std::env::args().skip(1).collect();
    match words.iter().map(String::as_str).collect::<Vec<_>>().as_slice() {
        [task, root] => child(task, Path::new(root)),
        [] => all(SITTINGS),
        [sittings] => all(sittings.parse().expect("a number of sittings")),
        _ => eprintln!("usage: large [SITTINGS]"),
    }
}

fn all(sittings: usize) {
    let top = tempfile::tempdir().unwrap();
    let (large, few) = (top.path().join("large"), top.path().join("few"));
    for (root, sittings) in [(&large, sittings), (&few, FEW_SITTINGS)] {
        twenty_years::generate(root, (sittings / SITTINGS_PER_WARP).max(1), sittings, |_, _| ());
        measure("again-answered", root);
    }
    let files = files(&large.join("log"));
    let bytes: u64 = files.iter().map(|file| file.metadata().unwrap().len()).sum();
    println!("{} files of entries, {:.1} MB, {sittings} sittings", files.len(), bytes as f64 / 1e6);
    let mut runs: Vec<Vec<(Duration, u64)>> = vec![Vec::new(); TASKS.len()];
    let mut few_runs = Vec::new();
    for _ in 0..ROUNDS {
        for ((task, _, _), runs) in TASKS.iter().zip(&mut runs) {
            runs.push(measure(task, &large));
        }
        few_runs.push(measure("again-answered", &few).0);
    }
    let medians: Vec<Duration> = runs.iter().map(|runs| median(runs.iter().map(|run| run.0))).collect();
    for (((_, name, goal), took), runs) in TASKS.iter().zip(&medians).zip(&runs) {
        let peak = runs.iter().map(|run| run.1).max().unwrap_or(0) as f64 / bytes as f64;
        let times = took.as_secs_f64() / medians[0].as_secs_f64();
        let goal = goal.map(|most| format!(" (goal {most}; memory {MEMORY_GOAL})")).unwrap_or_default();
        println!("{name:32} {took:>9.1?}  {times:5.2} times tokenising; peak memory {peak:.1} times the bytes{goal}");
    }
    let peak = runs[3].iter().map(|run| run.1).max().unwrap_or(0) as f64 / bytes as f64;
    let opened = medians[3].as_secs_f64() / medians[0].as_secs_f64();
    println!("ratio: opening twenty years with all answers over tokenising the same bytes | {opened:.2} | 5");
    println!("ratio: peak memory over the bytes of the files | {peak:.1} | {MEMORY_GOAL}");
    growth(top.path());
    let took = median(few_runs.into_iter());
    println!("{FEW_SITTINGS} sittings, opened again with all answers {took:.1?} (goal {FEW_GOAL:?})");
}

/// How opening grows over a usual folder, ten and a hundred of them: the exponent of a power of the number of sittings.
fn growth(top: &Path) {
    let times = USUAL_TIMES.map(|factor| {
        let root = top.join(format!("usual-{factor}"));
        let sittings = USUAL_SITTINGS * factor;
        twenty_years::generate(&root, (sittings / SITTINGS_PER_WARP).max(1), sittings, |_, _| ());
        measure("again-answered", &root);
        let took = median((0..ROUNDS).map(|_| measure("again-answered", &root).0));
        println!("{sittings:6} sittings, opened again with all answers {took:.1?}");
        took.as_secs_f64()
    });
    for (step, pair) in [("1 to 10", &times[..2]), ("10 to 100", &times[1..])] {
        println!("ratio: exponent of opening from {step} usual folders | {:.2} | 1", (pair[1] / pair[0]).log10());
    }
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
    let fresh = root.join("first");
    if task.starts_with("first") && fresh.exists() {
        fs::remove_dir_all(&fresh).unwrap();
    }
    let first = Options::new(&log, fresh, "first");
    let again = Options::new(&log, root.join("reader"), "reader");
    let today = NaiveDate::from_ymd_opt(2026, 11, 25).unwrap();
    let merged = |options: Options| {
        let journal = Journal::open(options).unwrap();
        assert_eq!(journal.status().vanished, 0);
        journal
    };
    let answered = |options: Options| {
        let (journal, mut reports) = (merged(options), ReportCache::new());
        let lines = Presenter::new(&journal, &mut reports, &DisplayFormat::default(), today).warp_lines();
        assert_eq!(lines.len(), journal.state().warp_ids().count());
        (journal, reports, lines)
    };
    let began = Instant::now();
    // What giving the memory back takes is counted nowhere.
    let kept: Box<dyn std::any::Any> = match task {
        "tokenise" => {
            for file in &files {
                serde_json::from_slice::<serde::de::IgnoredAny>(&fs::read(file).unwrap()).unwrap();
            }
            Box::new(())
        }
        "first" => Box::new(merged(first)),
        "first-answered" => Box::new(answered(first)),
        "again-answered" => Box::new(answered(again)),
        other => panic!("there is no task {other}"),
    };
    let took = began.elapsed();
    let status = fs::read_to_string("/proc/self/status").unwrap_or_default();
    let peak = status.lines().find_map(|line| line.strip_prefix("VmHWM:")?.trim().strip_suffix(" kB")?.parse().ok());
    println!("{} {}", took.as_nanos(), peak.unwrap_or(0u64) * 1024);
    std::mem::forget(kept);
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

fn median(times: impl Iterator<Item = Duration>) -> Duration {
    let mut times: Vec<Duration> = times.collect();
    times.sort();
    times[times.len() / 2]
}

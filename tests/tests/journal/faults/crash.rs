//! Faults 1 to 6: the program dies, or the power fails.

use std::collections::BTreeSet;
use std::io::{BufRead, BufReader, Write};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use fellmark_journal::{EntryDraft, Journal, Kind, Place, RecordId, Segment};
use serde_json::json;

use fellmark_tests::journal::faulty_disk::{FaultyDisk, Op};
use fellmark_tests::journal::mount::{self, Mount};
use fellmark_tests::journal::{self, SharedFolder, fields};

/// Everything under a name that is shown is whole.
pub fn all_files_are_whole(shared: &SharedFolder) {
    for file in shared.entry_files() {
        let bytes = std::fs::read(&file).unwrap();
        assert!(Segment::read(&bytes).as_written, "{}: {}", file.display(), String::from_utf8_lossy(&bytes));
    }
}

/// Dies in every operation of a save in turn, starts again, and looks.
fn die_everywhere(
    prepare: impl Fn(&SharedFolder) -> RecordId,
    save: impl Fn(&mut Journal, &RecordId) -> Option<RecordId>,
) {
    let mut at = 0;
    loop {
        let shared = SharedFolder::new();
        let warp = prepare(&shared);
        let before: BTreeSet<RecordId> = shared.open("laptop").state().records().map(|r| r.id.clone()).collect();
        let faulty = FaultyDisk::new();
        let mut journal = Journal::open_on(shared.options("laptop"), faulty.disk()).unwrap();
        faulty.die_at(at);
        let saved = save(&mut journal, &warp);
        let died = faulty.is_dead();
        drop(journal);
        look_after_death(&shared, &warp, &before, saved.as_ref(), &format!("dying in operation {at}"));
        if !died {
            assert!(at >= 6, "only {at} operations were tried");
            return;
        }
        at += 1;
    }
}

/// Starts again after a death: everything is whole, nothing that was there or acknowledged is lost, and saving goes on.
fn look_after_death(
    shared: &SharedFolder,
    warp: &RecordId,
    before: &BTreeSet<RecordId>,
    saved: Option<&RecordId>,
    death: &str,
) {
    all_files_are_whole(shared);
    let mut again = shared.open("laptop");
    let now: BTreeSet<RecordId> = again.state().records().map(|r| r.id.clone()).collect();
    assert!(now.is_superset(before), "{death} lost what was there");
    if let Some(id) = saved {
        assert!(now.contains(id), "what was acknowledged is lost by {death}");
    }
    journal::log_sitting(&mut again, warp, 5, 6);
    assert_eq!(again.status().waiting_to_write, 0, "{death}");
    assert_eq!(again.status().vanished, 0, "{death}");
    all_files_are_whole(shared);
    assert_eq!(again.devices().len(), 1, "{death} made another device of this one");
    assert_eq!(shared.open("phone").state(), again.state(), "after {death}");
}

fn try_sitting(journal: &mut Journal, warp: &RecordId) -> Option<RecordId> {
    let id = RecordId::new();
    let draft = EntryDraft::new(Place::warp(warp), id.clone(), Kind::SITTING, fields(json!({"minutes": 7})));
    journal.write(vec![draft]).ok().map(|_| id)
}

#[test]
fn fault_01_killed_in_each_operation_of_the_first_save_of_a_warp() {
    let prepare = |shared: &SharedFolder| {
        drop(shared.open("laptop"));
        RecordId::new()
    };
    die_everywhere(prepare, try_sitting);
}

#[test]
fn fault_01_killed_in_each_operation_of_a_later_save() {
    let prepare = |shared: &SharedFolder| {
        let mut laptop = shared.open("laptop");
        let warp = journal::begin_warp(&mut laptop, "Scarf");
        journal::log_sitting(&mut laptop, &warp, 1, 2);
        warp
    };
    die_everywhere(prepare, try_sitting);
}

#[test]
fn fault_01_killed_in_each_operation_of_a_save_that_begins_a_further_file() {
    let prepare = |shared: &SharedFolder| {
        let mut laptop = shared.open("laptop");
        let warp = journal::begin_warp(&mut laptop, "Scarf");
        for _ in 0..3 {
            let set = fields(json!({"note": "n".repeat(85_000)}));
            laptop.write(vec![EntryDraft::new(Place::warp(&warp), RecordId::new(), Kind::SITTING, set)]).unwrap();
        }
        warp
    };
    let save = |journal: &mut Journal, warp: &RecordId| {
        let id = RecordId::new();
        let set = fields(json!({"note": "m".repeat(30_000)}));
        let draft = EntryDraft::new(Place::warp(warp), id.clone(), Kind::SITTING, set);
        journal.write(vec![draft]).ok().map(|_| id)
    };
    die_everywhere(prepare, save);
}

/// Writes sittings until it is killed, and prints each that was acknowledged. Only the next test starts it so.
#[test]
fn helper_that_writes_until_it_is_killed() {
    let Some(root) = std::env::var_os("FELLMARK_WRITE_UNTIL_KILLED") else { return };
    let root = PathBuf::from(root);
    let options = fellmark_journal::Options::new(root.join("log"), root.join("local/laptop"), "laptop").create();
    let mut journal = Journal::open(options).unwrap();
    let warp: RecordId = "t9c3x6q0m2w5r8k1f7hz".parse().unwrap();
    let mut out = std::io::stdout().lock();
    writeln!(out, "\nready").unwrap();
    out.flush().unwrap();
    loop {
        let id = journal::log_sitting(&mut journal, &warp, 7, 70);
        writeln!(out, "wrote {id}").unwrap();
        out.flush().unwrap();
    }
}

#[test]
fn fault_01_a_thousand_real_kills_during_writing() {
    const FOLDERS: u64 = 20;
    const KILLS: u64 = 50;
    let began = Instant::now();
    let acknowledged: usize = std::thread::scope(|scope| {
        let quarters: Vec<_> = (0..4)
            .map(|quarter| {
                scope
                    .spawn(move || (quarter..FOLDERS).step_by(4).map(|n| kill_again_and_again(n, KILLS)).sum::<usize>())
            })
            .collect();
        quarters.into_iter().map(|quarter| quarter.join().unwrap()).sum()
    });
    println!("{} kills, {acknowledged} acknowledged saves, none lost, {:?}", FOLDERS * KILLS, began.elapsed());
    assert!(acknowledged as u64 > FOLDERS * KILLS / 8, "too few saves to tell: {acknowledged}");
}

/// Kills a writer on one folder so many times, and looks that all it acknowledged is there; how many that was.
fn kill_again_and_again(seed: u64, kills: u64) -> usize {
    let shared = SharedFolder::new();
    drop(shared.open("laptop"));
    let mut acknowledged: Vec<RecordId> = Vec::new();
    let mut unlike = seed;
    for _ in 0..kills {
        let mut child = Command::new(std::env::current_exe().unwrap())
            .args(["--exact", "faults::crash::helper_that_writes_until_it_is_killed", "--nocapture"])
            .env("FELLMARK_WRITE_UNTIL_KILLED", shared.root())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let mut lines = BufReader::new(child.stdout.take().unwrap()).lines();
        lines.find(|line| line.as_ref().is_ok_and(|line| line == "ready")).unwrap().unwrap();
        // Spread over the length of a few saves, never the same moment twice.
        unlike = unlike.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        std::thread::sleep(Duration::from_micros((unlike >> 33) % 20_000));
        child.kill().unwrap();
        child.wait().unwrap();
        for line in lines.map_while(Result::ok) {
            if let Some(id) = line.strip_prefix("wrote ").filter(|id| id.len() == 20) {
                acknowledged.push(id.parse().unwrap());
            }
        }
        all_files_are_whole(&shared);
    }
    let journal = shared.open("laptop");
    let lost: Vec<_> = acknowledged.iter().filter(|id| journal.state().record(id).is_none()).collect();
    assert!(lost.is_empty(), "lost {lost:?}");
    assert_eq!(journal.device(), &journal.devices()[0].id, "a kill made another device of this one");
    assert_eq!((journal.devices().len(), journal.status().vanished), (1, 0));
    acknowledged.len()
}

/// Saves one sitting and prints its id. Only the next test starts it so, under `strace`.
#[test]
fn helper_that_saves_once() {
    let Some(root) = std::env::var_os("FELLMARK_SAVE_ONCE") else { return };
    let root = PathBuf::from(root);
    let options = fellmark_journal::Options::new(root.join("log"), root.join("local/laptop"), "laptop");
    let mut journal = Journal::open(options).unwrap();
    let warp: RecordId = std::env::var("FELLMARK_WARP").unwrap().parse().unwrap();
    let mut out = std::io::stdout().lock();
    writeln!(out, "\nready").unwrap();
    out.flush().unwrap();
    let id = journal::log_sitting(&mut journal, &warp, 7, 70);
    writeln!(out, "wrote {id}").unwrap();
    out.flush().unwrap();
}

/// Runs the helper under `strace`; what it printed.
fn save_once(shared: &SharedFolder, warp: &RecordId, strace: &[&str]) -> String {
    let output = Command::new("strace")
        .args(["-f", "-qq"])
        .args(strace)
        .arg(std::env::current_exe().unwrap())
        .args(["--exact", "faults::crash::helper_that_saves_once", "--nocapture", "--test-threads", "1"])
        .env("FELLMARK_SAVE_ONCE", shared.root())
        .env("FELLMARK_WARP", warp.as_str())
        .output()
        .unwrap();
    String::from_utf8_lossy(&output.stdout).into_owned()
}

/// The system calls that change what lies on a disk.
const CHANGES: [&str; 13] = [
    "openat",
    "write",
    "pwrite64",
    "fsync",
    "fdatasync",
    "rename",
    "renameat",
    "renameat2",
    "mkdir",
    "mkdirat",
    "ftruncate",
    "unlink",
    "unlinkat",
];

/// How often each call was made by the thread that saves, before it was ready to and in all.
fn calls_of_a_save(shared: &SharedFolder, warp: &RecordId) -> Option<Vec<(&'static str, usize, usize)>> {
    let log = shared.root().join("calls");
    let trace = format!("trace={}", CHANGES.join(","));
    let printed = save_once(shared, warp, &["-o", &log.to_string_lossy(), "-e", &trace]);
    if !printed.contains("wrote ") {
        eprintln!("NOT TRIED on this machine: strace may not watch a program.");
        return None;
    }
    let text = std::fs::read_to_string(&log).unwrap();
    let lines: Vec<(&str, &str)> = text.lines().filter_map(|line| line.split_once(' ')).collect();
    let ready = lines.iter().position(|(_, call)| call.contains("ready")).unwrap();
    let saver = lines[ready].0;
    let wrote = lines.iter().position(|(_, call)| call.contains("wrote ")).unwrap();
    let count = |call: &str, lines: &[(&str, &str)]| {
        lines.iter().filter(|(pid, line)| *pid == saver && line.trim().starts_with(&format!("{call}("))).count()
    };
    Some(CHANGES.iter().map(|call| (*call, count(call, &lines[..=ready]), count(call, &lines[..wrote]))).collect())
}

#[test]
fn fault_01_killed_at_each_real_system_call_of_a_save() {
    let prepare = |first_of_warp: bool| {
        let shared = SharedFolder::new();
        let mut laptop = shared.open("laptop");
        let other = journal::begin_warp(&mut laptop, "Scarf");
        journal::log_sitting(&mut laptop, &other, 1, 2);
        let warp = if first_of_warp { RecordId::new() } else { other };
        let before: BTreeSet<RecordId> = laptop.state().records().map(|r| r.id.clone()).collect();
        drop(laptop);
        (shared, warp, before)
    };
    for first_of_warp in [false, true] {
        let (shared, warp, _) = prepare(first_of_warp);
        let Some(calls) = calls_of_a_save(&shared, &warp) else { return };
        let mut kills = 0;
        for (call, until_ready, in_all) in calls {
            for nth in until_ready + 1..=in_all {
                let (shared, warp, before) = prepare(first_of_warp);
                let inject = format!("inject={call}:signal=KILL:when={nth}");
                let printed = save_once(&shared, &warp, &["-o", "/dev/null", "-e", &inject]);
                let death = format!("a kill at {call} {nth}");
                assert!(!printed.contains("test result"), "{death} did not come");
                kills += 1;
                let saved = printed.lines().find_map(|line| line.strip_prefix("wrote ")?.parse().ok());
                look_after_death(&shared, &warp, &before, saved.as_ref(), &death);
            }
        }
        println!("{kills} kills, each at another system call of a save (first of its warp: {first_of_warp})");
        assert!(kills >= 8, "only {kills} calls");
    }
}

/// What is on the disk when the power fails: the image file as it is while the file system is still mounted.
fn power_cut(kind: &str, megabytes: u64, rounds: u32, mounted: &str) {
    let shared = SharedFolder::new();
    let (image, after) = (shared.root().join("disk.img"), shared.root().join("after.img"));
    let Some(()) = mount::make_image(kind, &image, megabytes) else { return };
    let at = shared.root().join("disk");
    let Some(mount) = Mount::image(&image, &at) else { return };
    std::fs::create_dir(at.join("log")).unwrap();
    let options = fellmark_journal::Options::new(at.join("log"), at.join("local"), "laptop").create();
    let mut journal = Journal::open(options).unwrap();
    let warp = journal::begin_warp(&mut journal, "Scarf");
    let mut acknowledged = Vec::new();
    for round in 0..rounds {
        acknowledged.push(journal::log_sitting(&mut journal, &warp, round, round));
        std::fs::copy(&image, &after).unwrap();
        let then = shared.root().join(format!("then-{round}"));
        let cut = Mount::image_with(&after, &then, mounted).unwrap();
        let copied = shared.root().join(format!("log-{round}"));
        journal::copy_dir(&then.join("log"), &copied);
        cut.unmount();
        let options = fellmark_journal::Options::new(&copied, shared.root().join(format!("l-{round}")), "reader");
        let seen = Journal::open(options.read_only()).unwrap();
        for id in &acknowledged {
            assert!(seen.state().record(id).is_some(), "{kind}: an acknowledged save is lost in round {round}");
        }
        assert!(seen.status().problems.is_empty(), "{kind}: {:?}", seen.status().problems);
    }
    drop(journal);
    mount.unmount();
}

#[test]
fn fault_02_power_loss_on_ext4() {
    power_cut("ext4", 32, 20, "loop");
}

#[test]
fn fault_02_power_loss_on_xfs() {
    // The smallest that its maker makes; the copy carries the id of what is still mounted.
    power_cut("xfs", 320, 4, "loop,nouuid");
}

/// Does the recorded operations again, up to `upto`, in another directory, as a disk might hold them after the
/// power failed: `lazy` leaves out bytes that were not synced, and the newest names that were not synced.
pub fn replay(log: &[Op], upto: usize, from: &Path, to: &Path, lazy_bytes: bool, lazy_names: bool) {
    let moved = |path: &Path| to.join(path.strip_prefix(from).unwrap());
    for (i, op) in log[..upto].iter().enumerate() {
        let later = &log[i + 1..upto];
        match op {
            Op::CreateDir(dir) => {
                let _ = std::fs::create_dir(moved(dir));
            }
            Op::CreateNew(path) => drop(std::fs::File::create(moved(path)).unwrap()),
            Op::Write(path, bytes) => {
                let synced = later.iter().any(|op| matches!(op, Op::Sync(synced) if synced == path));
                let bytes = if synced || !lazy_bytes { bytes.clone() } else { vec![0; bytes.len()] };
                let mut file = std::fs::OpenOptions::new().append(true).create(true).open(moved(path)).unwrap();
                file.write_all(&bytes).unwrap();
            }
            Op::Empty(path) => drop(std::fs::File::create(moved(path)).unwrap()),
            Op::Rename(old, new) => {
                let dir = new.parent().unwrap();
                let synced = later.iter().any(|op| matches!(op, Op::SyncDir(synced) if synced == dir));
                if synced || !lazy_names {
                    std::fs::rename(moved(old), moved(new)).unwrap();
                }
            }
            Op::Remove(path) => {
                let _ = std::fs::remove_file(moved(path));
            }
            Op::Sync(_) | Op::SyncDir(_) => {}
        }
    }
}

#[test]
fn fault_03_prefixes_and_reorderings_of_the_recorded_writes() {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    drop(laptop);
    let start = shared.root().join("start");
    journal::copy_dir(&shared.folder(), &start.join("log"));
    journal::copy_dir(&shared.local("laptop"), &start.join("local/laptop"));

    let faulty = FaultyDisk::new();
    let mut journal = Journal::open_on(shared.options("laptop"), faulty.disk()).unwrap();
    faulty.take_log();
    // The number of operations after which each sitting was acknowledged.
    let mut acknowledged = Vec::new();
    let mut log = Vec::new();
    for i in 0..3 {
        let id = journal::log_sitting(&mut journal, &warp, i, i);
        log.extend(faulty.take_log());
        acknowledged.push((log.len(), id));
    }
    drop(journal);
    assert!(log.len() >= 18, "{log:?}");
    for upto in 0..=log.len() {
        for (lazy_bytes, lazy_names) in [(false, false), (true, false), (false, true), (true, true)] {
            let again = SharedFolder::new();
            journal::copy_dir(&start, again.root());
            replay(&log, upto, shared.root(), again.root(), lazy_bytes, lazy_names);
            let mut laptop = again.open("laptop");
            for (after, id) in &acknowledged {
                let there = laptop.state().record(id).is_some();
                assert!(
                    there || upto < *after,
                    "after {upto} operations ({lazy_bytes}, {lazy_names}): {:?}",
                    log[upto - 1]
                );
            }
            assert!(laptop.state().record(&warp).is_some());
            journal::log_sitting(&mut laptop, &warp, 9, 9);
            all_files_are_whole(&again);
        }
    }
}

#[test]
fn fault_04_temporary_files_left_behind_are_ignored_and_swept_after_a_day() {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    let device = laptop.device().clone();
    drop(laptop);
    let dir = shared.entry_files()[0].parent().unwrap().to_owned();
    let own = dir.join(format!(".fellmark-{device}-abcdefgh.tmp"));
    let other = dir.join(".fellmark-phone-7xw2c9-abcdefgh.tmp");
    let foreign = dir.join(".syncthing.x.json.tmp");
    for temp in [&own, &other, &foreign] {
        std::fs::write(temp, "half a fi").unwrap();
    }
    assert!(shared.open("laptop").status().problems.is_empty());
    assert!(own.exists(), "a temporary file of this hour may belong to a save that runs");
    let long_ago = std::time::SystemTime::now() - Duration::from_secs(25 * 60 * 60);
    for temp in [&own, &other, &foreign] {
        std::fs::File::options().write(true).open(temp).unwrap().set_modified(long_ago).unwrap();
    }
    let laptop = shared.open("laptop");
    assert!(laptop.state().record(&warp).is_some());
    assert_eq!((own.exists(), other.exists(), foreign.exists()), (false, true, true));
}

fn own_file_damaged(damage: impl Fn(&[u8]) -> Vec<u8>) {
    for restart in [true, false] {
        let shared = SharedFolder::new();
        let mut laptop = shared.open("laptop");
        let warp = journal::begin_warp(&mut laptop, "Scarf");
        let sitting = journal::log_sitting(&mut laptop, &warp, 42, 118);
        let device = laptop.device().clone();
        let file = shared.entry_files().remove(0);
        let sound = std::fs::read(&file).unwrap();
        std::fs::write(&file, damage(&sound)).unwrap();
        if restart {
            drop(laptop);
            laptop = shared.open("laptop");
        } else {
            laptop.refresh(std::slice::from_ref(&file)).unwrap();
        }
        assert!(laptop.state().record(&sitting).is_some());
        assert_eq!(std::fs::read(&file).unwrap(), sound, "restart: {restart}");
        assert_eq!((laptop.status().vanished, laptop.device()), (0, &device));
        assert!(laptop.status().problems.is_empty());
    }
}

#[test]
fn fault_05_own_file_of_no_bytes_is_rebuilt_from_the_shadow() {
    own_file_damaged(|_| Vec::new());
}

#[test]
fn fault_06_a_tail_of_nul_bytes_leaves_what_stands_before() {
    let tail = |sound: &[u8]| {
        let mut bytes = sound.to_vec();
        let from = bytes.len() * 3 / 4;
        bytes[from..].fill(0);
        bytes
    };
    own_file_damaged(tail);
    // On another device, which has no shadow of it, the entries before the damage are used.
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    journal::log_sitting(&mut laptop, &warp, 42, 118);
    let file = shared.entry_files().remove(0);
    std::fs::write(&file, tail(&std::fs::read(&file).unwrap())).unwrap();
    let phone = shared.open("phone");
    assert!(phone.state().record(&warp).is_some());
    assert_eq!(phone.status().problems.len(), 1, "{:?}", phone.status().problems);
    assert!(
        fellmark_present::folder_words::problem_sentence(&phone.status().problems[0].kind).contains("empty bytes"),
        "{:?}",
        phone.status().problems
    );
}

//! What a device keeps beside the folder: whatever happens to the folder and to the local replica between two starts, a
//! start shows every entry that is whole anywhere, and afterwards the replica alone would show it again.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use fellmark_journal::{
    EntryDraft, EntrySet, Journal, Key, Kind, Options, Place, Record, RecordId, RunningLog, Segment,
};
use fellmark_tests::journal::{self, SharedFolder, copy_dir, fields, log_sitting};
use proptest::prelude::*;
use proptest::sample::Index;
use serde_json::json;

const REPLICA: &str = "shadow.lines";

/// A folder with two devices' entries, and a reader that has seen them.
fn seen() -> (SharedFolder, RecordId) {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    let mut phone = shared.open("phone");
    for i in 0..11 {
        log_sitting(&mut laptop, &warp, i, i);
        log_sitting(&mut phone, &warp, i, i);
    }
    drop(shared.open("reader"));
    (shared, warp)
}

fn keys(state: &EntrySet) -> BTreeSet<Key> {
    state.entries().map(|entry| entry.key()).collect()
}

fn in_files(files: &[PathBuf]) -> BTreeSet<Key> {
    let segments = files.iter().map(|file| Segment::read(&std::fs::read(file).unwrap()));
    segments.flat_map(|segment| segment.entries).map(|entry| entry.key()).collect()
}

/// Something that happens while the reader is closed, or that it does.
#[derive(Debug, Clone)]
enum ReplicaStep {
    PhoneWrites(u32),
    ReaderWrites(u32),
    Resolves(Index),
    Cut(Index, Index),
    Rename(Index),
    Remove(Index),
    Flip(Index, Index),
    ReplicaCut(Index),
    ReplicaFlip(Index),
    ReplicaGone,
}

fn steps() -> impl Strategy<Value = Vec<ReplicaStep>> {
    let one = any::<Index>;
    let step = prop_oneof![
        4 => (0..100u32).prop_map(ReplicaStep::PhoneWrites),
        4 => (0..100u32).prop_map(ReplicaStep::ReaderWrites),
        2 => one().prop_map(ReplicaStep::Resolves),
        2 => (one(), one()).prop_map(|(file, at)| ReplicaStep::Cut(file, at)),
        1 => one().prop_map(ReplicaStep::Rename),
        2 => one().prop_map(ReplicaStep::Remove),
        1 => (one(), one()).prop_map(|(file, at)| ReplicaStep::Flip(file, at)),
        1 => one().prop_map(ReplicaStep::ReplicaCut),
        1 => one().prop_map(ReplicaStep::ReplicaFlip),
        1 => Just(ReplicaStep::ReplicaGone),
    ];
    proptest::collection::vec(proptest::collection::vec(step, 1..4), 1..4).prop_map(|rounds| rounds.concat())
}

fn change(path: &Path, how: impl FnOnce(&mut Vec<u8>)) {
    let Ok(mut bytes) = std::fs::read(path) else { return };
    how(&mut bytes);
    std::fs::write(path, bytes).unwrap();
}

fn flip(path: &Path, at: &Index) {
    change(path, |bytes| {
        if !bytes.is_empty() {
            let at = at.index(bytes.len());
            bytes[at] ^= 1;
        }
    });
}

fn happen(step: &ReplicaStep, shared: &SharedFolder, warp: &RecordId) {
    let replica = shared.local("reader").join(REPLICA);
    let file = |which: &Index| -> Option<PathBuf> {
        let files = shared.entry_files();
        (!files.is_empty()).then(|| which.get(&files).clone())
    };
    match step {
        ReplicaStep::PhoneWrites(minutes) => drop(log_sitting(&mut shared.open("phone"), warp, *minutes, 1)),
        ReplicaStep::ReaderWrites(minutes) => drop(log_sitting(&mut shared.open("reader"), warp, *minutes, 1)),
        ReplicaStep::Resolves(which) => {
            let mut reader = shared.open("reader");
            let records: Vec<Record> = reader.state().of_warp(warp).cloned().collect();
            if !records.is_empty() {
                reader.write(vec![EntryDraft::on(which.get(&records), fields(json!({"minutes": 7})))]).unwrap();
            }
        }
        ReplicaStep::Cut(which, at) => {
            file(which).iter().for_each(|file| change(file, |bytes| bytes.truncate(at.index(bytes.len() + 1))));
        }
        ReplicaStep::Rename(which) => {
            file(which).iter().for_each(|file| std::fs::rename(file, file.with_extension("json.path1")).unwrap());
        }
        ReplicaStep::Remove(which) => file(which).iter().for_each(|file| std::fs::remove_file(file).unwrap()),
        ReplicaStep::Flip(which, at) => file(which).iter().for_each(|file| flip(file, at)),
        ReplicaStep::ReplicaCut(at) => change(&replica, |bytes| bytes.truncate(at.index(bytes.len() + 1))),
        ReplicaStep::ReplicaFlip(at) => flip(&replica, at),
        ReplicaStep::ReplicaGone => drop(std::fs::remove_file(replica)),
    }
}

/// What is whole on the reader's own disk.
fn in_replica(shared: &SharedFolder) -> BTreeSet<Key> {
    let bytes = std::fs::read(shared.local("reader").join(REPLICA)).unwrap_or_default();
    let lines = bytes.split(|byte| *byte == b'\n');
    lines.filter_map(|line| fellmark_journal::Entry::from_line(line).ok()).map(|entry| entry.key()).collect()
}

fn starts_with_all_that_is_whole(shared: &SharedFolder) -> Result<(), TestCaseError> {
    let whole: BTreeSet<Key> = in_replica(shared).union(&in_files(&shared.entry_files())).copied().collect();
    let shown = keys(shared.open("reader").state());
    prop_assert!(shown.is_superset(&whole));
    // From now on the replica has all of it, also without the folder.
    prop_assert_eq!(in_replica(shared), shown.clone());
    let copy = tempfile::tempdir().unwrap();
    let (log, local) = (copy.path().join("log"), copy.path().join("local"));
    copy_dir(&shared.local("reader"), &local);
    let journal = Journal::open(Options::new(&log, &local, "reader")).unwrap();
    prop_assert_eq!(keys(journal.state()), shown);
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_start_shows_all_that_is_whole_anywhere_and_keeps_it(steps in steps()) {
        let (shared, warp) = seen();
        for step in &steps {
            happen(step, &shared, &warp);
            starts_with_all_that_is_whole(&shared)?;
        }
    }
}

#[test]
fn a_byte_changed_behind_the_same_size_and_time_is_seen_at_the_next_start() {
    let (shared, _) = seen();
    let all = keys(shared.open("reader").state());
    let file = shared.entry_files().into_iter().find(|file| file.to_string_lossy().contains("phone")).unwrap();
    let time = std::fs::metadata(&file).unwrap().modified().unwrap();
    change(&file, |bytes| {
        let at = bytes.windows(9).rposition(|part| part == b"\"minutes\"").unwrap();
        bytes[at + 1] = b'n';
    });
    std::fs::File::open(&file).unwrap().set_modified(time).unwrap();
    let reader = shared.open("reader");
    assert_eq!(keys(reader.state()), all, "the replica has it still");
    assert_eq!((reader.status().vanished, reader.status().problems.len()), (1, 1));
}

#[test]
fn a_copy_of_a_file_under_another_name_adds_nothing() {
    let (shared, warp) = seen();
    let before = shared.open("reader");
    let all: Vec<Record> = before.state().records().cloned().collect();
    let version = before.state().version_of_warp(&warp);
    drop(before);
    for file in shared.entry_files() {
        std::fs::copy(&file, file.with_extension("sync-conflict-20261125-055057-ZEAHAOA.json")).unwrap();
    }
    let after = shared.open("reader");
    assert_eq!(after.state().version_of_warp(&warp), version);
    assert!(after.state().records().eq(&all));
    assert_eq!((after.status().vanished, after.status().problems), (0, Vec::new()));
}

#[test]
fn what_vanished_is_shown_from_the_replica_and_counted() {
    let (shared, _) = seen();
    let all = keys(shared.open("reader").state());
    for file in shared.entry_files() {
        if file.to_string_lossy().contains("phone") {
            std::fs::remove_file(file).unwrap();
        }
    }
    let reader = shared.open("reader");
    assert_eq!((keys(reader.state()), reader.status().vanished), (all, 11));
}

#[test]
fn an_own_file_is_not_written_anew_without_what_it_alone_holds() {
    let (shared, warp) = seen();
    let own = shared.entry_files().into_iter().rfind(|file| file.to_string_lossy().contains("laptop")).unwrap();
    let mut laptop = shared.open("laptop");
    change(&own, |bytes| bytes.truncate(bytes.len() - 100));
    let sound = in_files(&[own]);
    assert!(sound.len() > 1);
    let small = fields(json!({"minutes": 5}));
    laptop.write(vec![EntryDraft::new(Place::warp(&warp), RecordId::new(), Kind::SITTING, small)]).unwrap();
    assert_eq!(laptop.status().waiting_to_write, 0);
    assert!(in_files(&shared.entry_files()).is_superset(&sound));
}

/// Local data as an earlier version left them: a sitting that waits, a running sitting, and caches that nothing reads now.
#[test]
fn local_data_of_an_earlier_version_are_taken_over() {
    let shared = SharedFolder::new();
    let golden = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/journal/golden/local_v1");
    let local = shared.root().join("upgraded");
    copy_dir(&golden.join("log"), &shared.folder());
    copy_dir(&golden.join("local"), &local);
    let caches = ["sound.memo", "shadow.keys", "reckoned.memo"].map(|name| local.join(name));
    assert!(caches.iter().all(|cache| cache.exists()), "nothing is tried");
    let waiting_days: RecordId = "sittingthatwaits0004".parse().unwrap();

    let journal = Journal::open(Options::new(shared.folder(), &local, "loom corner")).unwrap();
    assert_eq!(journal.device().as_str(), "loom-corner-w3gbn0");
    assert_eq!(journal.state().record(&waiting_days).unwrap().get("picks"), Some(&json!(144)));
    let status = journal.status();
    assert_eq!((status.waiting_to_write, status.vanished, status.problems), (0, 0, Vec::new()));
    assert!(caches.iter().all(|cache| !cache.exists()));
    let running = RunningLog::open(&local).unwrap().read_all().unwrap();
    assert_eq!(running.len(), 3);
    assert!(running.iter().all(|tap| tap["sitting"] == "sittingthatruns00005" && tap["by"] == 1));
    // The sitting that waited lies in the folder now, for every device.
    let phone = shared.open("phone");
    assert_eq!(phone.state().record(&waiting_days).unwrap().get("minutes"), Some(&json!(44)));
    assert_eq!((phone.state(), phone.state().len()), (journal.state(), 5));
}

/// The same where the folder does not come back before the upgrade: the replica has all, and the entry goes on waiting.
#[test]
fn an_entry_of_an_earlier_version_goes_on_waiting_without_the_folder() {
    let shared = SharedFolder::new();
    let golden = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/journal/golden/local_v1");
    let local = shared.root().join("upgraded");
    copy_dir(&golden.join("local"), &local);
    let open = || Journal::open(Options::new(shared.folder(), &local, "loom corner")).unwrap();
    for _ in 0..2 {
        let journal = open();
        assert_eq!((journal.state().len(), journal.status().waiting_to_write), (5, 1));
    }
    copy_dir(&golden.join("log"), &shared.folder());
    assert_eq!(open().status().waiting_to_write, 0);
    assert_eq!(shared.open("phone").state().len(), 5);
}

//! What a device keeps of the folder for its next start: whatever happens to the folder, to the shadow and to the memo of the
//! shadow's keys, opening with the memo gives what opening without it gives, and what a reading of the files by themselves does.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

#[path = "../journal/bench.rs"]
mod bench;

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use bench::{Bench, fields};
use fellmark_journal::{Draft, Journal, Key, Kind, Options, Place, Record, RecordId, Segment, State};
use proptest::prelude::*;
use proptest::sample::Index;
use serde_json::json;

/// Long enough that a few dozen of them make a shadow whose keys are kept.
const NOTE_BYTES: usize = 60_000;
const KEYS: &str = "shadow.keys";

fn log_long(journal: &mut Journal, warp: &RecordId, minutes: usize) -> RecordId {
    let id = RecordId::new();
    let set = fields(json!({"note": "n".repeat(NOTE_BYTES), "minutes": minutes}));
    journal.write(vec![Draft::new(Place::warp(warp), id.clone(), Kind::SITTING, set)]).unwrap();
    id
}

/// A folder with two devices' entries, and a reader that has closed it and kept the shadow's keys.
fn kept() -> (Bench, RecordId) {
    let bench = Bench::new();
    let mut laptop = bench.open("laptop");
    let warp = bench::begin_warp(&mut laptop, "Scarf");
    let mut phone = bench.open("phone");
    for i in 0..11 {
        log_long(&mut laptop, &warp, i);
        log_long(&mut phone, &warp, i);
    }
    drop(bench.open("reader"));
    assert!(bench.local("reader").join(KEYS).exists(), "no memo, so nothing is tried");
    (bench, warp)
}

fn keys(state: &State) -> BTreeSet<Key> {
    state.entries().map(|entry| entry.key()).collect()
}

fn told(state: &State) -> Vec<Record> {
    state.records().cloned().collect()
}

/// Something that happens while the reader is closed, or that it does.
#[derive(Debug, Clone)]
enum Step {
    PhoneWrites(usize),
    ReaderWrites(usize),
    Settles(Index),
    Cut(Index, Index),
    Rename(Index),
    Remove(Index),
    Flip(Index, Index),
    MemoGone,
    MemoCut(Index),
    MemoFlip(Index),
    MemoOfYore,
    MemoOfAnotherFolder,
    ShadowCut(Index),
    ShadowFlip(Index),
    ShadowGone,
}

fn steps() -> impl Strategy<Value = Vec<Step>> {
    let one = any::<Index>;
    let step = prop_oneof![
        4 => (0..100usize).prop_map(Step::PhoneWrites),
        4 => (0..100usize).prop_map(Step::ReaderWrites),
        2 => one().prop_map(Step::Settles),
        2 => (one(), one()).prop_map(|(file, at)| Step::Cut(file, at)),
        1 => one().prop_map(Step::Rename),
        2 => one().prop_map(Step::Remove),
        1 => (one(), one()).prop_map(|(file, at)| Step::Flip(file, at)),
        1 => Just(Step::MemoGone),
        1 => one().prop_map(Step::MemoCut),
        1 => one().prop_map(Step::MemoFlip),
        2 => Just(Step::MemoOfYore),
        2 => Just(Step::MemoOfAnotherFolder),
        1 => one().prop_map(Step::ShadowCut),
        1 => one().prop_map(Step::ShadowFlip),
        1 => Just(Step::ShadowGone),
    ];
    proptest::collection::vec(proptest::collection::vec(step, 1..4), 1..4).prop_map(|rounds| rounds.concat())
}

fn change(path: &Path, how: impl FnOnce(&mut Vec<u8>)) {
    let Ok(mut bytes) = std::fs::read(path) else { return };
    how(&mut bytes);
    std::fs::write(path, bytes).unwrap();
}

/// Does a step; whether the shadow may have lost entries by it.
fn happen(step: &Step, bench: &Bench, warp: &RecordId, yore: &[u8], elsewhere: &[u8]) -> bool {
    let memo = bench.local("reader").join(KEYS);
    let shadow = bench.local("reader").join("shadow.lines");
    let file = |which: &Index| -> Option<PathBuf> {
        let files = bench.entry_files();
        (!files.is_empty()).then(|| which.get(&files).clone())
    };
    match step {
        Step::PhoneWrites(minutes) => drop(log_long(&mut bench.open("phone"), warp, *minutes)),
        Step::ReaderWrites(minutes) => drop(log_long(&mut bench.open("reader"), warp, *minutes)),
        Step::Settles(which) => {
            let mut reader = bench.open("reader");
            let records: Vec<Record> = reader.state().of_warp(warp).cloned().collect();
            if !records.is_empty() {
                reader.write(vec![Draft::on(which.get(&records), fields(json!({"minutes": 7})))]).unwrap();
            }
        }
        Step::Cut(which, at) => {
            file(which).iter().for_each(|file| change(file, |bytes| bytes.truncate(at.index(bytes.len() + 1))));
        }
        Step::Rename(which) => {
            file(which).iter().for_each(|file| std::fs::rename(file, file.with_extension("json.path1")).unwrap());
        }
        Step::Remove(which) => file(which).iter().for_each(|file| std::fs::remove_file(file).unwrap()),
        Step::Flip(which, at) => file(which).iter().for_each(|file| {
            change(file, |bytes| {
                if !bytes.is_empty() {
                    let at = at.index(bytes.len());
                    bytes[at] ^= 1;
                }
            });
        }),
        Step::MemoGone => drop(std::fs::remove_file(memo)),
        Step::MemoCut(at) => change(&memo, |bytes| bytes.truncate(at.index(bytes.len() + 1))),
        Step::MemoFlip(at) => change(&memo, |bytes| {
            if !bytes.is_empty() {
                let at = at.index(bytes.len());
                bytes[at] ^= 0x10;
            }
        }),
        Step::MemoOfYore => std::fs::write(memo, yore).unwrap(),
        Step::MemoOfAnotherFolder => std::fs::write(memo, elsewhere).unwrap(),
        Step::ShadowCut(at) => change(&shadow, |bytes| bytes.truncate(at.index(bytes.len() + 1))),
        Step::ShadowFlip(at) => change(&shadow, |bytes| {
            let at = at.index(bytes.len());
            bytes[at] ^= 1;
        }),
        Step::ShadowGone => drop(std::fs::remove_file(shadow)),
    }
    matches!(step, Step::ShadowCut(_) | Step::ShadowFlip(_) | Step::ShadowGone)
}

/// Opens copies of what lies there now, with the memo and without, and looks that both are what they should be.
fn same_with_and_without(bench: &Bench, before: &BTreeSet<Key>, shadow_is_whole: bool) -> Result<(), TestCaseError> {
    let mut opened = Vec::new();
    for with_memo in [true, false] {
        let copy = tempfile::tempdir().unwrap();
        let (log, local) = (copy.path().join("log"), copy.path().join("local"));
        bench::copy_dir(&bench.folder(), &log);
        bench::copy_dir(&bench.local("reader"), &local);
        if !with_memo {
            let _ = std::fs::remove_file(local.join(KEYS));
        }
        let journal = Journal::open(Options::new(&log, &local, "reader")).unwrap();
        opened.push((journal, copy));
    }
    let [(with, _), (without, _)] = opened.as_slice() else { unreachable!() };
    prop_assert_eq!(keys(with.state()), keys(without.state()));
    prop_assert_eq!(told(with.state()), told(without.state()));
    prop_assert_eq!(with.state().two_answers(), without.state().two_answers());
    // The reference: entries put in one by one, from a reading of every file by itself.
    let mut slow = State::new();
    for file in bench.entry_files() {
        let entries = Segment::read(&std::fs::read(file).unwrap()).entries;
        entries.into_iter().for_each(|entry| _ = slow.insert(entry));
    }
    prop_assert!(keys(with.state()).is_superset(&keys(&slow)));
    if shadow_is_whole {
        let all: BTreeSet<Key> = before.union(&keys(&slow)).copied().collect();
        prop_assert_eq!(keys(with.state()), all);
        prop_assert_eq!(with.device(), without.device());
        prop_assert_eq!(with.status().vanished, without.status().vanished);
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 12, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn opening_with_the_memo_is_opening_without_it(steps in steps()) {
        let (bench, warp) = kept();
        let yore = std::fs::read(bench.local("reader").join(KEYS)).unwrap();
        let elsewhere = std::fs::read(kept().0.local("reader").join(KEYS)).unwrap();
        let mut known = keys(bench.open("reader").state());
        let mut shadow_is_whole = true;
        for step in &steps {
            shadow_is_whole &= !happen(step, &bench, &warp, &yore, &elsewhere);
            if matches!(step, Step::ReaderWrites(_) | Step::Settles(_)) {
                known.extend(keys(bench.open("reader").state()));
            }
            same_with_and_without(&bench, &known, shadow_is_whole)?;
        }
        known.extend(keys(bench.open("reader").state()));
        same_with_and_without(&bench, &known, shadow_is_whole)?;
    }
}

#[test]
fn the_memo_spares_reading_the_shadow_and_never_hides_what_it_holds() {
    let (bench, _) = kept();
    let all = keys(bench.open("reader").state());
    let faulty_free = bench.local("reader").join("shadow.lines");
    let long = std::fs::metadata(faulty_free).unwrap().len();
    assert!(long > 1 << 20, "{long}");
    // With every file of the phone gone, the shadow still has what it wrote.
    for file in bench.entry_files() {
        if file.to_string_lossy().contains("phone") {
            std::fs::remove_file(file).unwrap();
        }
    }
    let reader = bench.open("reader");
    assert_eq!(keys(reader.state()), all);
    assert_eq!(reader.status().vanished, 11);
}

#[test]
fn a_memo_of_another_shadow_hides_nothing() {
    let (bench, _) = kept();
    let all = keys(bench.open("reader").state());
    let elsewhere = kept().0;
    let length = |bench: &Bench| std::fs::metadata(bench.local("reader").join("shadow.lines")).unwrap().len();
    assert_eq!(length(&bench), length(&elsewhere), "only shadows of one length can be taken for each other");
    std::fs::copy(elsewhere.local("reader").join(KEYS), bench.local("reader").join(KEYS)).unwrap();
    // Only the shadow has these now, and believing the other's keys would leave it unread.
    for file in bench.entry_files() {
        if file.to_string_lossy().contains("phone") {
            std::fs::remove_file(file).unwrap();
        }
    }
    let reader = bench.open("reader");
    assert_eq!(keys(reader.state()), all);
    assert_eq!(reader.status().vanished, 11);
}

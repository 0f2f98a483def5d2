//! What a device keeps of the folder for its next start: whatever happens to the folder, to the shadow and to the memos of the
//! shadow's keys and of the files that were sound, opening with the memos gives what opening without them gives, and what a
//! reading of the files by themselves does.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use fellmark_journal::{
    At, DeviceInfo, Draft, Journal, Key, Kind, Options, Place, Record, RecordId, Segment, State, render,
};
use fellmark_tests::journal::{self, SharedFolder, fields};
use proptest::prelude::*;
use proptest::sample::Index;
use serde_json::json;

/// Long enough that a few dozen of them make a shadow whose keys are kept.
const NOTE_BYTES: usize = 60_000;
const KEYS: &str = "shadow.keys";
const SOUND: &str = "sound.memo";
const MEMOS: [&str; 2] = [KEYS, SOUND];

fn log_long(journal: &mut Journal, warp: &RecordId, minutes: usize) -> RecordId {
    let id = RecordId::new();
    let set = fields(json!({"note": "n".repeat(NOTE_BYTES), "minutes": minutes}));
    journal.write(vec![Draft::new(Place::warp(warp), id.clone(), Kind::SITTING, set)]).unwrap();
    id
}

/// A folder with two devices' entries, and a reader that has closed it and kept its memos.
fn kept() -> (SharedFolder, RecordId) {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    let mut phone = shared.open("phone");
    for i in 0..11 {
        log_long(&mut laptop, &warp, i);
        log_long(&mut phone, &warp, i);
    }
    drop(shared.open("reader"));
    for memo in MEMOS {
        assert!(shared.local("reader").join(memo).exists(), "no {memo}, so nothing is tried");
    }
    (shared, warp)
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
    MemoGone(usize),
    MemoCut(usize, Index),
    MemoFlip(usize, Index),
    MemoOfYore(usize),
    MemoOfAnotherFolder(usize),
    ShadowCut(Index),
    ShadowFlip(Index),
    ShadowGone,
}

fn steps() -> impl Strategy<Value = Vec<Step>> {
    let one = any::<Index>;
    let memo = || 0..MEMOS.len();
    let step = prop_oneof![
        4 => (0..100usize).prop_map(Step::PhoneWrites),
        4 => (0..100usize).prop_map(Step::ReaderWrites),
        2 => one().prop_map(Step::Settles),
        2 => (one(), one()).prop_map(|(file, at)| Step::Cut(file, at)),
        1 => one().prop_map(Step::Rename),
        2 => one().prop_map(Step::Remove),
        1 => (one(), one()).prop_map(|(file, at)| Step::Flip(file, at)),
        1 => memo().prop_map(Step::MemoGone),
        1 => (memo(), one()).prop_map(|(memo, at)| Step::MemoCut(memo, at)),
        1 => (memo(), one()).prop_map(|(memo, at)| Step::MemoFlip(memo, at)),
        2 => memo().prop_map(Step::MemoOfYore),
        2 => memo().prop_map(Step::MemoOfAnotherFolder),
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

/// The bytes of a reader's memos.
fn memos(shared: &SharedFolder) -> [Vec<u8>; 2] {
    MEMOS.map(|memo| std::fs::read(shared.local("reader").join(memo)).unwrap())
}

/// Does a step; whether the shadow may have lost entries by it.
fn happen(step: &Step, shared: &SharedFolder, warp: &RecordId, yore: &[Vec<u8>; 2], elsewhere: &[Vec<u8>; 2]) -> bool {
    let memo = |which: &usize| shared.local("reader").join(MEMOS[*which]);
    let shadow = shared.local("reader").join("shadow.lines");
    let file = |which: &Index| -> Option<PathBuf> {
        let files = shared.entry_files();
        (!files.is_empty()).then(|| which.get(&files).clone())
    };
    match step {
        Step::PhoneWrites(minutes) => drop(log_long(&mut shared.open("phone"), warp, *minutes)),
        Step::ReaderWrites(minutes) => drop(log_long(&mut shared.open("reader"), warp, *minutes)),
        Step::Settles(which) => {
            let mut reader = shared.open("reader");
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
        Step::MemoGone(which) => drop(std::fs::remove_file(memo(which))),
        Step::MemoCut(which, at) => change(&memo(which), |bytes| bytes.truncate(at.index(bytes.len() + 1))),
        Step::MemoFlip(which, at) => change(&memo(which), |bytes| {
            if !bytes.is_empty() {
                let at = at.index(bytes.len());
                bytes[at] ^= 0x10;
            }
        }),
        Step::MemoOfYore(which) => std::fs::write(memo(which), &yore[*which]).unwrap(),
        Step::MemoOfAnotherFolder(which) => std::fs::write(memo(which), &elsewhere[*which]).unwrap(),
        Step::ShadowCut(at) => change(&shadow, |bytes| bytes.truncate(at.index(bytes.len() + 1))),
        Step::ShadowFlip(at) => change(&shadow, |bytes| {
            let at = at.index(bytes.len());
            bytes[at] ^= 1;
        }),
        Step::ShadowGone => drop(std::fs::remove_file(shadow)),
    }
    matches!(step, Step::ShadowCut(_) | Step::ShadowFlip(_) | Step::ShadowGone)
}

/// Opens copies of what lies there now, with each of the memos and without, and looks that all are what they should be.
fn same_with_and_without(
    shared: &SharedFolder,
    before: &BTreeSet<Key>,
    shadow_is_whole: bool,
) -> Result<(), TestCaseError> {
    let mut opened = Vec::new();
    for without in [&MEMOS[..0], &MEMOS[..1], &MEMOS[1..], &MEMOS[..]] {
        let copy = tempfile::tempdir().unwrap();
        let (log, local) = (copy.path().join("log"), copy.path().join("local"));
        journal::copy_dir(&shared.folder(), &log);
        journal::copy_dir(&shared.local("reader"), &local);
        for memo in without {
            let _ = std::fs::remove_file(local.join(memo));
        }
        let journal = Journal::open(Options::new(&log, &local, "reader")).unwrap();
        if without.is_empty() && shadow_is_whole {
            // What was not read until now is not there any more; the shadow has it.
            std::fs::remove_dir_all(&log).unwrap();
        }
        opened.push((journal, copy));
    }
    let Some(((without, _), with)) = opened.split_last() else { unreachable!() };
    for (with, _) in with {
        prop_assert_eq!(keys(with.state()), keys(without.state()));
        prop_assert_eq!(told(with.state()), told(without.state()));
        prop_assert_eq!(with.state().two_answers(), without.state().two_answers());
        prop_assert_eq!(with.state(), without.state());
        for warp in without.state().warp_ids() {
            prop_assert_eq!(with.state().version_of_warp(warp), without.state().version_of_warp(warp));
            let of_warp = |state: &State| state.of_warp(warp).cloned().collect::<Vec<Record>>();
            prop_assert_eq!(of_warp(with.state()), of_warp(without.state()));
        }
        let by = |journal: &Journal| {
            // One that takes itself for a copy gets a new name by chance, under which nothing is written yet.
            let wrote_nothing = |device: &DeviceInfo| device.last_wrote.is_none();
            let devices: Vec<DeviceInfo> = journal.devices().into_iter().filter(|it| !wrote_nothing(it)).collect();
            let wrote = |device: &DeviceInfo| journal.state().latest_by(&device.id).map(|entry| entry.key()).collect();
            let told = |device: &DeviceInfo| (device.id.clone(), device.last_wrote, wrote(device));
            devices.iter().map(told).collect::<Vec<(_, _, Vec<Key>)>>()
        };
        prop_assert_eq!(by(with), by(without));
        for (device, _, told) in by(with) {
            let all = with.state().entries().filter(|entry| *entry.by() == device);
            let mut slow: Vec<(At, Key)> = all.map(|entry| (entry.at().clone(), entry.key())).collect();
            slow.sort_unstable_by(|one, other| other.cmp(one));
            prop_assert_eq!(told, slow.into_iter().map(|(_, key)| key).collect::<Vec<_>>());
        }
        let problems = |journal: &Journal| {
            let all = journal.status().problems.into_iter();
            let in_folder = |file: PathBuf| file.strip_prefix(journal.folder()).unwrap().to_owned();
            all.map(|problem| (in_folder(problem.file), problem.line, problem.what)).collect::<Vec<_>>()
        };
        prop_assert_eq!(problems(with), problems(without));
    }
    // The reference: entries put in one by one, from a reading of every file by itself.
    let mut slow = State::new();
    for file in shared.entry_files() {
        let entries = Segment::read(&std::fs::read(file).unwrap()).entries;
        entries.into_iter().for_each(|entry| _ = slow.insert(entry));
    }
    prop_assert!(keys(without.state()).is_superset(&keys(&slow)));
    if shadow_is_whole {
        let all: BTreeSet<Key> = before.union(&keys(&slow)).copied().collect();
        prop_assert_eq!(keys(without.state()), all);
        for (with, _) in with {
            prop_assert_eq!(with.device(), without.device());
            prop_assert_eq!(with.status().vanished, without.status().vanished);
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 8, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn opening_with_the_memos_is_opening_without_them(steps in steps()) {
        let (shared, warp) = kept();
        let (yore, elsewhere) = (memos(&shared), memos(&kept().0));
        let mut known = keys(shared.open("reader").state());
        let mut shadow_is_whole = true;
        for step in &steps {
            shadow_is_whole &= !happen(step, &shared, &warp, &yore, &elsewhere);
            if matches!(step, Step::ReaderWrites(_) | Step::Settles(_)) {
                known.extend(keys(shared.open("reader").state()));
            }
            same_with_and_without(&shared, &known, shadow_is_whole)?;
        }
        known.extend(keys(shared.open("reader").state()));
        same_with_and_without(&shared, &known, shadow_is_whole)?;
    }
}

#[test]
fn the_memo_spares_reading_the_shadow_and_never_hides_what_it_holds() {
    let (shared, _) = kept();
    let all = keys(shared.open("reader").state());
    let faulty_free = shared.local("reader").join("shadow.lines");
    let long = std::fs::metadata(faulty_free).unwrap().len();
    assert!(long > 1 << 20, "{long}");
    // With every file of the phone gone, the shadow still has what it wrote.
    for file in shared.entry_files() {
        if file.to_string_lossy().contains("phone") {
            std::fs::remove_file(file).unwrap();
        }
    }
    let reader = shared.open("reader");
    assert_eq!(keys(reader.state()), all);
    assert_eq!(reader.status().vanished, 11);
}

#[test]
fn a_memo_of_another_shadow_hides_nothing() {
    let (shared, _) = kept();
    let all = keys(shared.open("reader").state());
    let elsewhere = kept().0;
    let length = |shared: &SharedFolder| std::fs::metadata(shared.local("reader").join("shadow.lines")).unwrap().len();
    assert_eq!(length(&shared), length(&elsewhere), "only shadows of one length can be taken for each other");
    std::fs::copy(elsewhere.local("reader").join(KEYS), shared.local("reader").join(KEYS)).unwrap();
    // Only the shadow has these now, and believing the other's keys would leave it unread.
    for file in shared.entry_files() {
        if file.to_string_lossy().contains("phone") {
            std::fs::remove_file(file).unwrap();
        }
    }
    let reader = shared.open("reader");
    assert_eq!(keys(reader.state()), all);
    assert_eq!(reader.status().vanished, 11);
}

#[test]
fn a_byte_changed_behind_the_same_size_and_time_is_seen_in_a_file_that_was_sound() {
    let (shared, _) = kept();
    let all = keys(shared.open("reader").state());
    let file = shared.entry_files().into_iter().find(|file| file.to_string_lossy().contains("phone")).unwrap();
    let time = std::fs::metadata(&file).unwrap().modified().unwrap();
    change(&file, |bytes| {
        let at = bytes.iter().position(|byte| *byte == b'n').unwrap() + 20_000;
        bytes[at] = b'm';
    });
    std::fs::File::open(&file).unwrap().set_modified(time).unwrap();
    let reader = shared.open("reader");
    assert_eq!(keys(reader.state()), all, "the shadow has it still");
    assert_eq!((reader.status().vanished, reader.status().problems.len()), (1, 1));
}

#[test]
fn a_copy_of_a_sound_file_under_another_name_adds_nothing() {
    let (shared, warp) = kept();
    let before = shared.open("reader");
    let (version, told_before) = (before.state().version_of_warp(&warp), told(before.state()));
    drop(before);
    for file in shared.entry_files() {
        std::fs::copy(&file, file.with_extension("sync-conflict-20261125-055057-ZEAHAOA.json")).unwrap();
    }
    let after = shared.open("reader");
    assert_eq!((after.state().version_of_warp(&warp), told(after.state())), (version, told_before));
    assert_eq!((after.status().vanished, after.status().problems), (0, Vec::new()));
}

/// Something that happens to a file.
type Happens = fn(&Path);

#[test]
fn what_changes_after_a_start_and_before_it_was_looked_at_is_shown_as_it_was() {
    let (shared, _) = kept();
    let all = told(shared.open("reader").state());
    let happens: [(&str, Happens); 5] = [
        ("nothing", |_| {}),
        ("it is removed", |file| std::fs::remove_file(file).unwrap()),
        ("it is cut", |file| change(file, |bytes| bytes.truncate(bytes.len() / 2))),
        ("a byte changes", |file| change(file, |bytes| *bytes.last_mut().unwrap() ^= 1)),
        ("it is another file", |file| std::fs::write(file, render(&"another".parse().unwrap(), 1, [])).unwrap()),
    ];
    let files = shared.entry_files();
    let whole: Vec<Vec<u8>> = files.iter().map(|file| std::fs::read(file).unwrap()).collect();
    for (what, happen) in happens {
        for only_reading in [false, true] {
            let options = Options::new(shared.folder(), shared.local("reader"), "reader");
            let reader = Journal::open(if only_reading { options.read_only() } else { options }).unwrap();
            files.iter().for_each(|file| happen(file));
            assert_eq!(told(reader.state()), all, "{what}, only reading: {only_reading}");
            files.iter().zip(&whole).for_each(|(file, bytes)| std::fs::write(file, bytes).unwrap());
        }
    }
}

#[test]
fn an_own_file_is_not_written_anew_without_what_can_be_read_nowhere_else() {
    let (shared, warp) = kept();
    drop(shared.open("laptop"));
    let own = shared.entry_files().into_iter().rfind(|file| file.to_string_lossy().contains("laptop")).unwrap();
    // The shadow's line of its first entry is damaged behind the key, which nobody notices at the start.
    let key = Segment::read(&std::fs::read(&own).unwrap()).entries[0].key();
    let first = key.to_string();
    change(&shared.local("laptop").join("shadow.lines"), |bytes| {
        let at = bytes.windows(first.len()).position(|part| part == first.as_bytes()).unwrap();
        bytes[at + 500] ^= 1;
    });
    let mut laptop = shared.open("laptop");
    change(&own, |bytes| bytes.truncate(bytes.len() - 100));
    let sound = in_files(&[own]);
    assert!(sound.len() > 1);
    assert!(laptop.state().entry(key).is_some(), "the damaged file holds it still");
    let small = fields(json!({"minutes": 5}));
    laptop.write(vec![Draft::new(Place::warp(&warp), RecordId::new(), Kind::SITTING, small)]).unwrap();
    assert_eq!(laptop.status().waiting_to_write, 0);
    assert!(in_files(&shared.entry_files()).is_superset(&sound));
}

fn in_files(files: &[PathBuf]) -> BTreeSet<Key> {
    let segments = files.iter().map(|file| Segment::read(&std::fs::read(file).unwrap()));
    segments.flat_map(|segment| segment.entries).map(|entry| entry.key()).collect()
}

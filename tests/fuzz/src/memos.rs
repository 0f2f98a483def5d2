//! The memos in this device's own data, with anything in them: opening goes on, and no entry is lost or made up.
//!
//! Bytes that are no memo are thrown away at its check, so what is tried are edits of memos that the program itself made, most
//! of them with the check made to hold again, as whoever can write this device's own data could do.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use chrono::NaiveDate;
use fellmark_answers::model::display_format::DisplayFormat;
use fellmark_answers::present::desk::Presenter;
use fellmark_answers::reports::reckoned::ReportCache;
use fellmark_journal::{Draft, GONE, Journal, Key, Kind, Options, Place, RecordId};
use serde_json::json;
use tempfile::TempDir;

/// Bytes of sound files from which on the program keeps a memo of them, and some more.
const LONG_NOTE_CHARS: usize = 120_000;
const LONG_NOTES: usize = 10;

/// A folder of a few small files, a device that has read it, and the memos that the program makes for it.
struct Room {
    place: TempDir,
    sound: Vec<u8>,
    shadow_keys: Vec<u8>,
    reckoned: Vec<u8>,
    /// Every entry's line by its key.
    lines: BTreeMap<Key, String>,
}

thread_local! {
    static ROOM: Room = Room::new();
}

fn draft(place: &Place, id: &RecordId, kind: Kind, set: serde_json::Value) -> Draft {
    Draft::new(place.clone(), id.clone(), kind, set.as_object().expect("fields").clone())
}

/// Warps with sittings, of which some are corrected, removed or both; written by one device.
fn fill(journal: &mut Journal) {
    for nth in 0..3 {
        let (warp, sitting) = (RecordId::new(), RecordId::new());
        let place = Place::warp(&warp);
        let set = json!({"name": format!("Warp {nth}"), "wound_mm": 2600, "waste_mm": 450, "wanted_mm": 1600, "begun_on": "2026-11-02"});
        let picks = json!({"on": "2026-11-20", "picks": 40, "minutes": 30});
        let drafts = vec![draft(&place, &warp, Kind::WARP, set), draft(&place, &sitting, Kind::SITTING, picks.clone())];
        journal.write(drafts).expect("it writes");
        for set in [json!({"picks": 50}), json!({ GONE: nth == 1 })] {
            let record = journal.state().record(&sitting).expect("it was written");
            let drafts = vec![Draft::on(record, set.as_object().expect("fields").clone())];
            journal.write(drafts).expect("it writes");
        }
        journal.write(vec![draft(&place, &RecordId::new(), Kind::SITTING, picks)]).expect("it writes");
    }
}

impl Room {
    fn new() -> Self {
        let place = tempfile::tempdir().expect("a temporary directory");
        let at = |name: &str| place.path().join(name);
        let open = |device: &str| Journal::open(Options::new(at("folder"), at(device), device).create());
        std::fs::create_dir(at("folder")).expect("a temporary directory");
        let mut elsewhere = open("elsewhere").expect("it opens");
        fill(&mut elsewhere);
        // The memo of sound files is kept only where they are long, so there are long ones for as long as it is made.
        let long = RecordId::new();
        for _ in 0..LONG_NOTES {
            let set = json!({"note": "n".repeat(LONG_NOTE_CHARS)});
            let note = draft(&Place::warp(&long), &RecordId::new(), Kind::SITTING, set);
            elsewhere.write(vec![note]).expect("it writes");
        }
        drop(elsewhere);
        drop(open("maker").expect("it opens"));
        let sound = std::fs::read(at("maker").join("sound.memo")).expect("a memo was made");
        let warps = std::fs::read_dir(at("folder").join("warps")).expect("it is there").flatten();
        for dir in warps.map(|dir| dir.path()).filter(|dir| dir.to_string_lossy().contains(long.short())) {
            std::fs::remove_dir_all(dir).expect("it is there");
        }
        drop(open("reader").expect("it opens"));
        let shadow_keys = keys_of(&std::fs::read(at("reader").join("shadow.lines")).expect("a shadow"));
        let journal = Journal::open(Options::new(at("folder"), at("reader"), "reader").read_only()).expect("it opens");
        let lines = journal.state().entries().map(|entry| (entry.key(), entry.line().to_owned())).collect();
        let mut reckonings = ReportCache::new();
        look_at(&journal, &mut reckonings);
        let reckoned = reckonings.memo().expect("a memo is made");
        Self { sound, shadow_keys, reckoned, lines, place }
    }

    fn open(&self) -> Journal {
        let at = |name: &str| self.place.path().join(name);
        Journal::open(Options::new(at("folder"), at("reader"), "reader").read_only())
            .expect("whatever a memo says, it opens")
    }

    fn local(&self, name: &str) -> PathBuf {
        self.place.path().join("reader").join(name)
    }
}

fn look_at(journal: &Journal, reckonings: &mut ReportCache) -> String {
    let (format, today) = (DisplayFormat::default(), NaiveDate::from_ymd_opt(2026, 11, 25).expect("a day"));
    reckonings.bring_up(journal.state());
    format!("{:?}", Presenter::new(journal, reckonings, &format, today).warp_lines())
}

/// The check that ends the journal's memos.
fn check_of(bytes: &[u8]) -> [u8; 16] {
    let hex = Key::of_rest(bytes).to_string();
    u128::from_str_radix(&hex, 16).expect("a key is written in hexadecimal digits").to_be_bytes()
}

/// The keys of a short shadow, as they are kept beside a long one: magic, length, digest of the shadow, the keys, the check.
fn keys_of(shadow: &[u8]) -> Vec<u8> {
    let mut keys: Vec<[u8; 16]> = Vec::new();
    for line in shadow.split(|byte| *byte == b'\n') {
        let hex = line
            .strip_prefix(b"{\"key\":\"")
            .and_then(|rest| rest.get(..32))
            .and_then(|hex| std::str::from_utf8(hex).ok());
        keys.extend(hex.and_then(|hex| u128::from_str_radix(hex, 16).ok()).map(u128::to_be_bytes));
    }
    keys.sort_unstable();
    let head = [*b"fellmark keys 1\n", (shadow.len() as u128).to_le_bytes(), check_of(shadow)];
    let mut bytes = [head.as_flattened(), keys.as_flattened()].concat();
    bytes.extend(check_of(&bytes));
    bytes
}

/// Edits, one behind the other: where, what and how long, then as many bytes; the last may put all that is left there.
fn edited(whole: &[u8], mut edits: &[u8]) -> Vec<u8> {
    let mut bytes = whole.to_vec();
    while let [low, high, what, rest @ ..] = edits {
        let at = usize::from(u16::from_le_bytes([*low, *high])) % (bytes.len() + 1);
        let most = usize::from(what & 63);
        let (given, later) = rest.split_at(most.min(rest.len()));
        let to = (at + most).min(bytes.len());
        edits = later;
        match what >> 6 {
            0 => bytes.iter_mut().skip(at).zip(given).for_each(|(byte, given)| *byte = *given),
            1 => drop(bytes.splice(at..at, given.iter().copied())),
            2 => {
                bytes.drain(at..to);
                edits = rest;
            }
            _ => {
                bytes.truncate(at);
                bytes.extend_from_slice(rest);
                edits = &[];
            }
        }
    }
    bytes
}

fn with_check(mut bytes: Vec<u8>) -> Vec<u8> {
    bytes.extend(check_of(&bytes));
    bytes
}

/// A memo of the journal's, edited, in its place; every entry is there, and no other.
fn in_its_place(room: &Room, name: &str, bytes: &[u8], is_forged: bool) {
    let path = room.local(name);
    std::fs::write(&path, bytes).expect("a temporary file");
    let journal = room.open();
    let mut keys = 0;
    for entry in journal.state().entries() {
        assert_eq!(room.lines.get(&entry.key()).map(String::as_str), Some(entry.line()), "an entry was made up");
        keys += 1;
    }
    assert_eq!((keys, journal.state().len()), (room.lines.len(), room.lines.len()), "an entry is lost");
    let told = look_at(&journal, &mut ReportCache::new());
    remove(&path);
    if !is_forged {
        let without = room.open();
        assert_eq!(told, look_at(&without, &mut ReportCache::new()));
        assert!(journal.state().records().eq(without.state().records()), "another state");
    }
}

fn remove(path: &Path) {
    std::fs::remove_file(path).expect("a temporary file");
}

/// One of the memos, edited.
pub fn memo(bytes: &[u8]) {
    let Some((how, edits)) = bytes.split_first() else { return };
    let is_forged = how & 4 == 0;
    ROOM.with(|room| {
        let whole = match how & 3 {
            0 => &room.shadow_keys,
            1 => &room.reckoned,
            _ => &room.sound,
        };
        // Before the check, as far as it stands at the end.
        let bytes = match (how & 3, is_forged) {
            (1, true) => {
                let head = whole.len() - rest_of_reckoned(whole).len();
                let rest = edited(&whole[head..], edits);
                [&whole[..head - 4], &crc32fast::hash(&rest).to_le_bytes(), &rest].concat()
            }
            (_, true) => with_check(edited(&whole[..whole.len() - 16], edits)),
            (_, false) => edited(whole, edits),
        };
        // Without an edit it is the program's own.
        let is_forged = is_forged && bytes != *whole;
        match how & 3 {
            0 => in_its_place(room, "shadow.keys", &bytes, is_forged),
            1 => {
                let journal = room.open();
                let told = look_at(&journal, &mut ReportCache::from_memo(&bytes));
                assert!(is_forged || told == look_at(&journal, &mut ReportCache::new()), "something else is told");
            }
            _ => in_its_place(room, "sound.memo", &bytes, is_forged),
        }
    });
}

/// What stands behind the head of a memo of what was reckoned: a title, a number, a check of the rest.
fn rest_of_reckoned(memo: &[u8]) -> &[u8] {
    let number = memo.iter().position(|byte| *byte == b'\n').expect("a title") + 1;
    let ends = (number + 4..=memo.len()).find(|at| crc32fast::hash(&memo[*at..]).to_le_bytes() == memo[at - 4..*at]);
    &memo[ends.expect("its check holds")..]
}

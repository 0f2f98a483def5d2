//! Every reader of bytes from outside, given bytes at random and sound bytes damaged at random: none panics, none
//! believes what is not so, and what is sound is used.

use std::collections::BTreeSet;

use fellmark_journal::{Entry, EntryDraft, Journal, Key, Kind, Place, RecordId, Refusal, RunningLog, Segment, photos};
use fellmark_tests::journal::{self, SharedFolder, fields, picture};
use proptest::prelude::*;
use serde_json::json;

fn config(cases: u32) -> ProptestConfig {
    ProptestConfig { cases, failure_persistence: None, ..ProptestConfig::default() }
}

/// A sound file with a few entries.
fn sound() -> Vec<u8> {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf “with” a \\ name 🎁");
    for i in 0..4 {
        let sitting = journal::log_sitting(&mut laptop, &warp, i, i);
        let shown = laptop.state().record(&sitting).unwrap().clone();
        let set = fields(json!({"note": "a\nb\u{1}", "list": [1, 2.5, null, {"x": [[]]}], "gone": i == 2}));
        laptop.write(vec![EntryDraft::on(&shown, set)]).unwrap();
    }
    std::fs::read(shared.entry_files().remove(0)).unwrap()
}

/// What happens to bytes on their way.
#[derive(Debug, Clone)]
enum Damage {
    Flip(prop::sample::Index, u8),
    Cut(prop::sample::Index),
    Repeat(prop::sample::Index, prop::sample::Index),
    Drop(prop::sample::Index, prop::sample::Index),
    Insert(prop::sample::Index, Vec<u8>),
    Zero(prop::sample::Index, prop::sample::Index),
}

fn damage() -> impl Strategy<Value = Damage> {
    use prop::sample::Index;
    let token = prop_oneof![
        any::<Vec<u8>>(),
        Just(b"{\"key\":\"".to_vec()),
        Just(b"\n<<<<<<< HEAD\n".to_vec()),
        Just(b"\"]}\\".to_vec()),
        Just(vec![b'['; 3000]),
        Just("\u{feff}\r\n\u{2028}".as_bytes().to_vec()),
    ];
    prop_oneof![
        (any::<Index>(), 1u8..).prop_map(|(at, bits)| Damage::Flip(at, bits)),
        any::<Index>().prop_map(Damage::Cut),
        (any::<Index>(), any::<Index>()).prop_map(|(a, b)| Damage::Repeat(a, b)),
        (any::<Index>(), any::<Index>()).prop_map(|(a, b)| Damage::Drop(a, b)),
        (any::<Index>(), token).prop_map(|(at, bytes)| Damage::Insert(at, bytes)),
        (any::<Index>(), any::<Index>()).prop_map(|(a, b)| Damage::Zero(a, b)),
    ]
}

fn damaged(bytes: &[u8], damages: &[Damage]) -> Vec<u8> {
    let mut bytes = bytes.to_vec();
    for damage in damages {
        let at = |index: &prop::sample::Index| index.index(bytes.len() + 1);
        let range = |a, b| if at(a) <= at(b) { at(a)..at(b) } else { at(b)..at(a) };
        match damage {
            Damage::Flip(i, bits) => {
                let i = at(i);
                if let Some(byte) = bytes.get_mut(i) {
                    *byte ^= bits;
                }
            }
            Damage::Cut(i) => bytes.truncate(at(i)),
            Damage::Repeat(a, b) => {
                let range = range(a, b);
                let part = bytes[range.clone()].to_vec();
                bytes.splice(range.end..range.end, part);
            }
            Damage::Drop(a, b) => drop(bytes.drain(range(a, b))),
            Damage::Insert(i, token) => {
                let i = at(i);
                bytes.splice(i..i, token.iter().copied());
            }
            Damage::Zero(a, b) => {
                let range = range(a, b);
                bytes[range].fill(0);
            }
        }
    }
    bytes
}

proptest! {
    #![proptest_config(config(3_000))]

    #[test]
    fn a_file_of_any_bytes(bytes in any::<Vec<u8>>()) {
        prop_assert!(Segment::read(&bytes).entries.is_empty());
        prop_assert!(Entry::from_line(&bytes).is_err());
    }
}

proptest! {
    #![proptest_config(config(1_000))]

    #[test]
    fn a_damaged_file_gives_no_entry_that_was_not_written(
        damages in proptest::collection::vec(damage(), 1..5),
        layout in 0..3,
    ) {
        thread_local!(static SOUND: Vec<u8> = sound());
        let sound = SOUND.with(Clone::clone);
        let written: BTreeSet<String> =
            Segment::read(&sound).entries.iter().map(|entry| entry.line().to_owned()).collect();
        prop_assert_eq!(written.len(), 9);
        let value: serde_json::Value = serde_json::from_slice(&sound).unwrap();
        let laid_out = match layout {
            0 => sound,
            1 => serde_json::to_vec_pretty(&value).unwrap(),
            _ => String::from_utf8(sound).unwrap().replace('\n', "\r\n").into_bytes(),
        };
        let bytes = damaged(&laid_out, &damages);
        let segment = Segment::read(&bytes);
        for entry in &segment.entries {
            prop_assert!(written.contains(entry.line()), "{}", entry.line());
        }
        // Every line that came through whole is used.
        let found: BTreeSet<&str> = segment.entries.iter().map(Entry::line).collect();
        for line in bytes.split(|b| *b == b'\n') {
            let line = line.trim_ascii();
            if let Ok(line) = std::str::from_utf8(line.strip_suffix(b",").unwrap_or(line)) {
                prop_assert!(!written.contains(line) || found.contains(line));
            }
        }
    }
}

proptest! {
    #![proptest_config(config(150))]

    #[test]
    fn a_photo_of_any_or_damaged_bytes(
        damages in proptest::collection::vec(damage(), 0..4),
        start in 0usize..4,
        noise in any::<Vec<u8>>(),
    ) {
        thread_local!(static PHOTOS: Vec<Vec<u8>> = {
            let jpeg = picture(48, 32);
            let as_format = |format| {
                let mut bytes = std::io::Cursor::new(Vec::new());
                image::load_from_memory(&jpeg).unwrap().write_to(&mut bytes, format).unwrap();
                bytes.into_inner()
            };
            vec![jpeg.clone(), as_format(image::ImageFormat::Png), as_format(image::ImageFormat::WebP), Vec::new()]
        });
        let mut bytes = PHOTOS.with(|photos| damaged(&photos[start], &damages));
        if start == 3 {
            bytes = noise;
        }
        if let Ok(stored) = photos::prepare(&bytes) {
            prop_assert!(stored.width.max(stored.height) <= photos::LONG_SIDE_PX);
            prop_assert!(photos::prepare(&stored.jpeg).is_ok());
        }
        let _ = photos::thumbnail(&bytes, 64);
    }

    #[test]
    fn markers_and_local_data_of_any_bytes(
        noise in proptest::collection::vec(any::<Vec<u8>>(), 5),
        damages in proptest::collection::vec(damage(), 1..3),
    ) {
        let shared = SharedFolder::new();
        let mut laptop = shared.open("laptop");
        let warp = journal::begin_warp(&mut laptop, "Scarf");
        let sitting = journal::log_sitting(&mut laptop, &warp, 1, 2);
        drop(laptop);
        let mut phone = shared.open("phone");
        journal::log_sitting(&mut phone, &warp, 3, 4);
        drop(phone);
        std::fs::write(shared.folder().join("devices/any.json"), &noise[0]).unwrap();
        let local = shared.local("laptop");
        for (name, noise) in ["device.json", "shadow.lines", "unsent.lines", "running.lines"].iter().zip(&noise[1..]) {
            let file = local.join(name);
            let before = std::fs::read(&file).unwrap_or_default();
            std::fs::write(&file, if noise.len() % 2 == 0 { noise.clone() } else { damaged(&before, &damages) }).unwrap();
        }
        let mut laptop = shared.open("laptop");
        prop_assert!(laptop.state().record(&sitting).is_some());
        prop_assert_eq!(laptop.state().records().count(), 3);
        let id = RecordId::new();
        let draft = EntryDraft::new(Place::warp(&warp), id.clone(), Kind::SITTING, fields(json!({"minutes": 5})));
        laptop.write(vec![draft]).unwrap();
        let mut running = RunningLog::open(&local).unwrap();
        let before = running.read_all().unwrap().len();
        running.append(&json!({"picks": 1})).unwrap();
        prop_assert_eq!(running.read_all().unwrap().len(), before + 1);
        let _ = Journal::check(&shared.folder());
        prop_assert!(shared.open("tablet").state().record(&id).is_some());
    }
}

// What the fuzz targets found.

#[test]
fn found_a_file_whose_first_line_the_program_would_not_write_is_not_as_written() {
    let sound = String::from_utf8(sound()).unwrap();
    assert!(Segment::read(sound.as_bytes()).as_written);
    for (here, there) in
        [("\"schema\":1", "\"schema\":0"), ("\"schema\":1", "\"schema\": 1"), ("{\"format\"", "{ \"format\"")]
    {
        let other = Segment::read(sound.replacen(here, there, 1).as_bytes());
        assert_eq!((other.entries.len(), other.head.is_some(), other.as_written), (9, true, false), "{there}");
    }
}

#[test]
fn found_an_entry_laid_out_over_two_lines_is_read_and_the_file_not_as_written() {
    let sound = String::from_utf8(sound()).unwrap();
    let torn = Segment::read(sound.replacen("\"kind\":", "\"kind\"\n:", 1).as_bytes());
    assert_eq!((torn.entries.len(), torn.refused.len(), torn.as_written), (9, 0, false));
}

#[test]
fn found_a_member_that_is_only_carried_must_be_sound_too() {
    let read = |more: &str| {
        let rest = format!(r#""kind":"x","of":"a","by":"b","at":"","set":{{"n":1}},"more":{more}}}"#);
        let line = format!("{{\"key\":\"{}\",{rest}", Key::of_rest(rest.as_bytes()));
        Entry::from_line(line.as_bytes()).map(|entry| entry.line() == line)
    };
    assert_eq!(read(r#"[1.5,"\ud83c\udf81",{"a":{"b":null}}]"#), Ok(true));
    for odd in ["[1e999]", r#""\ud83c""#, r#"{"a":1,"a":2}"#, r#"[1],"more":[2]"#] {
        assert_eq!(read(odd), Err(Refusal::Meaning), "{odd}");
    }
}

#[test]
fn found_what_would_end_elsewhere_in_a_file_is_no_line() {
    let line = |rest: &str| format!("{{\"key\":\"{}\",{rest}", Key::of_rest(rest.as_bytes()));
    let rest = r#""kind":"x","of":"a","by":"b","at":"","set":{"n":1},"more":[0]}"#;
    assert!(Entry::from_line(line(rest).as_bytes()).is_ok());
    for odd in [rest.replace(r#","more""#, ",\n\"more\""), format!("{rest} "), format!("{rest}\r"), format!("{rest}\n")]
    {
        assert_eq!(Entry::from_line(line(&odd).as_bytes()).unwrap_err(), Refusal::Shape, "{odd:?}");
    }
}

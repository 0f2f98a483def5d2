//! The format of the folder: its page, its schema, and the folders of old that must stay readable.

use std::path::{Path, PathBuf};

use chrono::{DateTime, Utc};
use fellmark_journal::{
    CompetingValue, Entry, EntryDraft, Field, Journal, Key, Kind, Options, Place, Record, RecordId, Segment,
    TimeSource, schema,
};
use fellmark_tests::journal::{self, SharedFolder, fields};
use serde_json::{Value, json};

/// Set to write the kept copies anew instead of comparing with them.
const RENEW: &str = "FELLMARK_RENEW";

fn repo() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap().to_owned()
}

fn same_as_kept(path: &Path, made: &str) {
    if std::env::var_os(RENEW).is_some() {
        std::fs::write(path, made).unwrap();
    }
    let kept = std::fs::read_to_string(path).unwrap_or_default();
    assert!(kept == made, "{} is not what the program makes; run with {RENEW}=1 and look at it", path.display());
}

fn pretty(value: &Value) -> String {
    let mut value = value.clone();
    value.sort_all_objects();
    format!("{}\n", serde_json::to_string_pretty(&value).unwrap())
}

#[test]
fn the_schema_is_that_of_the_types() {
    same_as_kept(&repo().join("docs/format.schema.json"), &pretty(&schema::entries_file()));
    same_as_kept(&repo().join("docs/marker.schema.json"), &pretty(&schema::marker()));
}

/// A small folder with every name and time fixed.
fn example(shared: &SharedFolder) -> (String, String) {
    let folder = shared.folder();
    let local = shared.local("laptop");
    std::fs::create_dir_all(folder.join("devices")).unwrap();
    std::fs::create_dir_all(&local).unwrap();
    let marker = r#"{"format":"fellmark","schema":1,"journal":"m4x0vd7k2q","device":"laptop-k3m8pq","name":"Before"}"#;
    std::fs::write(folder.join("devices/laptop-k3m8pq.json"), marker).unwrap();
    let about = r#"{"device":"laptop-k3m8pq","journals":["m4x0vd7k2q"]}"#;
    let check = Key::of_rest(about.as_bytes());
    std::fs::write(local.join("device.json"), format!("{about}\n{check}\n")).unwrap();

    let now: DateTime<Utc> = "2026-05-31T18:04:05.123Z".parse().unwrap();
    let options = Options::new(&folder, local, "Laptop").at(TimeSource::fixed(now));
    let mut journal = Journal::open(options).unwrap();
    let warp: RecordId = "t9c3x6q0m2w5r8k1f7hz".parse().unwrap();
    let sitting: RecordId = "b2v8n4j6d0s3g5p7y9ka".parse().unwrap();
    let place = Place::warp(&warp);
    let set = fields(json!({"name": "Grey scarf", "wound_mm": 2750, "waste_mm": 500}));
    journal.write(vec![EntryDraft::new(place.clone(), warp, Kind::WARP, set)]).unwrap();
    let set = fields(json!({"minutes": 42, "picks": 118}));
    journal.write(vec![EntryDraft::new(place, sitting.clone(), Kind::SITTING, set)]).unwrap();
    let shown = journal.state().record(&sitting).unwrap().clone();
    journal.write(vec![EntryDraft::on(&shown, fields(json!({"picks": 120})))]).unwrap();
    let read = |file: &str| std::fs::read_to_string(folder.join(file)).unwrap();
    (read("warps/grey-scarf-t9c3x6q0/laptop-k3m8pq.0001.json"), read("devices/laptop-k3m8pq.json"))
}

#[test]
fn the_page_shows_what_the_program_writes() {
    let (entries, marker) = example(&SharedFolder::new());
    let page = repo().join("docs/format.md");
    let mut text = std::fs::read_to_string(&page).unwrap();
    for (name, made) in [("entries", entries), ("marker", marker)] {
        let opening = format!("<!-- example: {name} -->\n```json\n");
        let start = text.find(&opening).unwrap() + opening.len();
        let end = start + text[start..].find("```\n<!-- end -->").unwrap();
        text.replace_range(start..end, &made);
    }
    same_as_kept(&page, &text);
}

/// The key calculated as the page asks other programs to, without the journal's own code for it.
#[test]
fn another_program_can_check_a_key() {
    let (entries, _) = example(&SharedFolder::new());
    let dir = tempfile::tempdir().unwrap();
    let file = dir.path().join("file.json");
    std::fs::write(&file, entries.replace('\n', "\r\n")).unwrap();
    let page = std::fs::read_to_string(repo().join("docs/format.md")).unwrap();
    let start = page.find("```sh\n").unwrap() + 6;
    let command = page[start..start + page[start..].find("```").unwrap()].replace("FILE", "\"$1\"");
    let output = std::process::Command::new("sh").args(["-c", &command, "sh"]).arg(&file).output().unwrap();
    let calculated = String::from_utf8(output.stdout).unwrap();
    let line = entries.lines().nth(1).unwrap();
    assert_eq!(calculated.trim(), &line[8..40], "{command}");
    assert!(Entry::from_line(line.trim_end_matches(',').as_bytes()).is_ok());
}

#[test]
fn what_is_written_fits_the_schema_and_what_does_not_is_reported() {
    let (entries, marker) = example(&SharedFolder::new());
    let of_entries = jsonschema::validator_for(&schema::entries_file()).unwrap();
    let of_marker = jsonschema::validator_for(&schema::marker()).unwrap();
    let entries: Value = serde_json::from_str(&entries).unwrap();
    assert!(of_entries.is_valid(&entries));
    assert!(of_marker.is_valid(&serde_json::from_str(&marker).unwrap()));
    // What a newer version may add still fits.
    let mut newer = entries.clone();
    newer["entries"][0]["mood"] = json!("calm");
    newer["entries"][0]["set"]["colour"] = json!({"l": 1});
    assert!(of_entries.is_valid(&newer));
    for (member, value) in [("key", json!("short")), ("of", json!("a b")), ("over", json!("x")), ("set", json!([]))] {
        let mut wrong = entries.clone();
        wrong["entries"][0][member] = value;
        assert!(!of_entries.is_valid(&wrong), "{member}");
    }
    for file in journal::all_files(&golden("v1")) {
        let text = std::fs::read_to_string(&file).unwrap();
        let Ok(value) = serde_json::from_str::<Value>(&text) else { continue };
        let in_devices = file.parent().unwrap().ends_with("devices");
        let validator = if in_devices { &of_marker } else { &of_entries };
        if file.extension().is_some_and(|end| end == "json") {
            assert!(validator.is_valid(&value), "{}", file.display());
        }
    }
}

fn golden(version: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/journal/golden").join(version)
}

fn reported(record: &Record) -> Value {
    let answer = |a: &CompetingValue| json!({"value": a.value, "by": a.by, "at": a.at, "key": a.key});
    let fields: serde_json::Map<String, Value> = record
        .fields
        .iter()
        .map(|(name, field)| {
            let value = match field {
                Field::Single(value) => json!({"one": value}),
                Field::Conflict(values) => {
                    json!({"used": field.used(), "answers": values.iter().map(answer).collect::<Vec<_>>()})
                }
            };
            (name.to_owned(), value)
        })
        .collect();
    let mut heads = record.heads.clone();
    heads.sort();
    json!({
        "id": record.id, "kind": record.kind, "warp": record.place.warp_id(), "fields": fields,
        "presence": format!("{:?}", record.presence), "heads": heads, "first_at": record.first_at, "by": record.by,
    })
}

/// A folder written in version 1, by three devices and carried by synchronisers that left their traces. It is
/// never written anew: what it held must be read by every later version.
#[test]
fn the_folder_of_version_1_stays_readable() {
    let shared = SharedFolder::new();
    journal::copy_dir(&golden("v1"), &shared.folder());
    let before = journal::contents(&shared.folder());
    let journal = Journal::open(Options::new(shared.folder(), shared.local("reader"), "reader").read_only()).unwrap();
    let reported: Vec<Value> = journal.state().records().map(reported).collect();
    let expected = std::fs::read_to_string(golden("v1.expected.json")).unwrap();
    let expected: Vec<Value> = serde_json::from_str(&expected).unwrap();
    assert!(expected.len() >= 6);
    assert_eq!(reported, expected);
    assert_eq!(journal::contents(&shared.folder()), before, "reading changed the folder");
    // Opened for writing, nothing that lay there is changed, only added to.
    let mut journal = shared.open("writer");
    journal::begin_warp(&mut journal, "New");
    for (file, bytes) in before {
        assert_eq!(std::fs::read(shared.folder().join(&file)).unwrap(), bytes, "{}", file.display());
    }
}

/// What a newer version wrote in an older file is carried byte for byte.
#[test]
fn unknown_kinds_fields_and_members_survive_being_rewritten() {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    let mut phone = shared.open("phone");
    journal::log_sitting(&mut phone, &warp, 42, 118);
    // The phone's next version writes a kind, a member and a number form that this one does not know.
    let rest = format!(
        r#""of":"n1","kind":"mood-board","warp":"{warp}","by":"{}","at":"2026-05-31T18:04:05.123Z.0000","over":[],"#,
        phone.device()
    );
    let rest = format!(r#"{rest}"set":{{"tint":[1.50,{{"deep":"\u00e4"}}]}},"extra":{{"z":1,"a":2}}}}"#);
    let line = format!(r#"{{"key":"{}",{rest}"#, Key::of_rest(rest.as_bytes()));
    let file = shared.entry_files().into_iter().find(|file| file.to_string_lossy().contains("phone")).unwrap();
    let text = std::fs::read_to_string(&file).unwrap();
    std::fs::write(&file, text.replace("\n]}", &format!(",\n{line}\n]}}"))).unwrap();
    laptop.refresh(&[]).unwrap();
    let record = laptop.state().record(&"n1".parse().unwrap()).unwrap().clone();
    assert_eq!((record.kind.as_str(), record.place.clone()), ("mood-board", Place::warp(&warp)));
    // The file vanishes, and the laptop writes it back.
    std::fs::remove_file(&file).unwrap();
    laptop.refresh(&[]).unwrap();
    laptop.write_back().unwrap();
    let written: Vec<String> = shared.entry_files().iter().map(|f| std::fs::read_to_string(f).unwrap()).collect();
    assert!(written.iter().any(|text| text.contains(&format!("{line}\n")) || text.contains(&format!("{line},\n"))));
    // An edit by this version leaves the unknown field standing.
    laptop.write(vec![EntryDraft::on(&record, fields(json!({"name": "x"})))]).unwrap();
    assert!(laptop.state().record(&record.id).unwrap().get("tint").is_some());
}

#[test]
fn a_newer_schema_is_read_and_never_rewritten() {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    let file = shared.entry_files().remove(0);
    let text = std::fs::read_to_string(&file).unwrap().replace("\"schema\":1", "\"schema\":2");
    std::fs::write(&file, &text).unwrap();
    laptop.refresh(&[]).unwrap();
    assert!(
        laptop
            .status()
            .problems
            .iter()
            .any(|problem| fellmark_present::folder_words::problem_sentence(&problem.kind).contains("newer Fellmark"))
    );
    journal::log_sitting(&mut laptop, &warp, 1, 2);
    assert_eq!(std::fs::read_to_string(&file).unwrap(), text);
    assert_eq!(shared.entry_files().len(), 2);
    let segment = Segment::read(&std::fs::read(&shared.entry_files()[1]).unwrap());
    assert_eq!((segment.head.unwrap().segment, segment.entries.len()), (2, 1));
}

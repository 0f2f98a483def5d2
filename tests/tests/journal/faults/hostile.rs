//! Faults 35 to 40: files made to do harm.

use std::io::Write;
use std::time::{Duration, Instant};

use fellmark_journal::{Error, Journal, Key, PhotoError, Presence, RecordId, photos};

use fellmark_tests::journal::{self, SharedFolder, picture};
use sha2::{Digest, Sha256};

fn with_key(rest: &str) -> String {
    format!(r#"{{"key":"{}",{rest}"#, Key::of_rest(rest.as_bytes()))
}

/// An entry about a record of its own, whose fields are the text given.
fn entry(of: &str, set: &str) -> String {
    with_key(&format!(r#""of":"{of}","kind":"sitting","by":"x","at":"2026","over":[],"set":{set}}}"#))
}

fn file_of(lines: &[String]) -> String {
    let head = r#"{"format":"fellmark","schema":1,"device":"x","segment":1,"entries":["#;
    format!("{head}\n{}\n]}}\n", lines.join(",\n"))
}

/// A log, and a hostile file in its shelf.
fn with_file(bytes: &[u8]) -> (SharedFolder, Journal) {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    journal::begin_warp(&mut laptop, "Scarf");
    std::fs::create_dir_all(shared.folder().join("shelf")).unwrap();
    std::fs::write(shared.folder().join("shelf/x.0001.json"), bytes).unwrap();
    laptop.refresh(&[]).unwrap();
    (shared, laptop)
}

#[test]
fn fault_35_lines_that_no_reader_should_trust_are_refused() {
    let deep = format!("{}1{}", "[".repeat(400_000), "]".repeat(400_000));
    let hostile = [
        entry("deep", &format!(r#"{{"a":{deep}}}"#)),
        entry("deep-objects", &format!(r#"{{"a":{}1{}}}"#, r#"{"a":"#.repeat(100_000), "}".repeat(100_000))),
        entry("nan", r#"{"a":NaN}"#),
        entry("infinite", r#"{"a":1e999}"#),
        entry("twice", r#"{"a":1,"a":2}"#),
        entry("twice-within", r#"{"a":{"b":1,"b":2}}"#),
        entry("half-a-pair", r#"{"a":"\ud800"}"#),
        entry("half-a-name", r#"{"\udc00":1}"#),
        with_key(r#""of":"a","of":"b","kind":"sitting","by":"x","at":"","over":[],"set":{}}"#),
        with_key(r#""of":"../x","kind":"sitting","by":"x","at":"","over":[],"set":{"a":1}}"#),
        with_key(r#""of":"a","kind":"sitting","by":"../../x","at":"","over":[],"set":{"a":1}}"#),
        with_key(r#""of":"a","kind":"sitting","warp":"a/b","by":"x","at":"","over":[],"set":{"a":1}}"#),
        with_key(r#""of":"a","kind":"sitting","by":"x","at":"","over":["no key"],"set":{"a":1}}"#),
        with_key(r#""of":"a","kind":"sitting","by":"x","at":"","over":[],"set":[]}"#),
        with_key(&format!(r#""of":"a","kind":"sitting","by":"x","at":"{}","over":[],"set":{{}}}}"#, "9".repeat(65))),
        with_key("}"),
    ];
    for line in &hostile {
        let good = entry("good", r#"{"a":1}"#);
        let (_bench, laptop) = with_file(file_of(&[line.clone(), good]).as_bytes());
        let shown: String = line.chars().take(120).collect();
        assert_eq!(laptop.state().len(), 2, "{shown}");
        assert!(laptop.state().record(&"good".parse().unwrap()).is_some());
        assert_eq!(laptop.status().problems.len(), 1, "{shown}");
        assert_eq!(laptop.status().problems[0].line, Some(2), "{shown}");
    }
    // The whole file nested without end, as text, and as bytes that are no text.
    let levels = "[".repeat(1_000_000);
    for bytes in [levels.as_bytes(), format!("{{\"format\":{levels}").as_bytes(), &[0xff; 100_000][..]] {
        let (_bench, laptop) = with_file(bytes);
        assert_eq!((laptop.state().len(), laptop.status().problems.len()), (1, 1));
    }
}

#[test]
fn fault_36_a_file_of_two_gigabytes_and_a_line_of_fifty_megabytes() {
    let began = Instant::now();
    let good = entry("good", r#"{"a":1}"#);
    let (shared, mut laptop) = with_file(file_of(std::slice::from_ref(&good)).as_bytes());
    let huge = shared.folder().join("shelf/huge.json");
    let mut file = std::fs::File::create(&huge).unwrap();
    file.write_all(file_of(&[entry("first", r#"{"a":1}"#)]).as_bytes()).unwrap();
    file.set_len(2 << 30).unwrap();
    drop(file);
    laptop.refresh(std::slice::from_ref(&huge)).unwrap();
    assert!(laptop.state().record(&"first".parse().unwrap()).is_some(), "what stands in its beginning is read");
    let problems = laptop.status().problems;
    assert!(
        problems.len() == 1
            && fellmark_present::folder_words::problem_sentence(&problems[0].kind).contains("2048 MB long"),
        "{problems:?}"
    );
    std::fs::remove_file(&huge).unwrap();

    let long = shared.folder().join("shelf/long.json");
    let line = entry("long", &format!(r#"{{"a":"{}"}}"#, "x".repeat(25 << 20)));
    std::fs::write(&long, file_of(&[line, entry("after", r#"{"a":1}"#)])).unwrap();
    laptop.refresh(&[]).unwrap();
    assert!(laptop.state().record(&"long".parse().unwrap()).is_none());
    assert!(laptop.state().record(&"after".parse().unwrap()).is_some());
    let problems = laptop.status().problems;
    assert!(
        problems.len() == 1
            && fellmark_present::folder_words::problem_sentence(&problems[0].kind).contains("longer than any entry"),
        "{problems:?}"
    );
    std::fs::write(&long, file_of(&[entry("long", &format!(r#"{{"a":"{}"}}"#, "x".repeat(50 << 20)))])).unwrap();
    laptop.refresh(&[]).unwrap();
    assert!(
        fellmark_present::folder_words::problem_sentence(&laptop.status().problems[0].kind).contains("MB long"),
        "{:?}",
        laptop.status().problems
    );

    // Made to be slow: entries begun and begun again without an end.
    std::fs::write(&long, "{\"key\":".repeat(1 << 20)).unwrap();
    laptop.refresh(&[]).unwrap();
    assert_eq!(laptop.status().problems.len(), 1);
    let took = began.elapsed();
    assert!(took < Duration::from_secs(60), "{took:?}");
}

#[test]
fn fault_37_over_that_names_itself_the_unknown_or_foreign_records_is_ignored() {
    let first = entry("r1", r#"{"a":1}"#);
    let key = &first[8..40];
    let foreign = with_key(&format!(
        r#""of":"r2","kind":"sitting","by":"x","at":"2027","over":["{key}","{}"],"set":{{"a":2,"gone":true}}}}"#,
        "0".repeat(32)
    ));
    // An entry cannot hold its own key; one that claims to is torn.
    let itself = format!(
        r#"{{"key":"{}","of":"r3","kind":"sitting","by":"x","at":"","over":["{}"],"set":{{"a":3}}}}"#,
        "1".repeat(32),
        "1".repeat(32)
    );
    let twice = with_key(&format!(
        r#""of":"r1","kind":"sitting","by":"x","at":"2028","over":["{0}","{0}"],"set":{{"b":{{"c":1}}}}}}"#,
        "2".repeat(32)
    ));
    let (_bench, laptop) = with_file(file_of(&[first.clone(), foreign, itself, twice]).as_bytes());
    let record = |id: &str| laptop.state().record(&id.parse::<RecordId>().unwrap());
    assert_eq!(record("r1").unwrap().get("a"), Some(&1.into()));
    assert_eq!(record("r1").unwrap().presence, Presence::Here);
    assert_eq!(record("r1").unwrap().heads.len(), 2);
    assert_eq!(record("r2").unwrap().get("a"), Some(&2.into()));
    assert!(record("r3").is_none());
    assert_eq!(laptop.status().problems.len(), 1);
}

#[cfg(unix)]
#[test]
fn fault_38_links_pipes_and_devices_are_not_followed() {
    use std::os::unix::fs::symlink;
    let (shared, laptop) = with_file(b"");
    drop(laptop);
    let outside = shared.root().join("outside");
    std::fs::create_dir(&outside).unwrap();
    std::fs::write(outside.join("secret.json"), file_of(&[entry("secret", r#"{"a":1}"#)])).unwrap();
    let shelf = shared.folder().join("shelf");
    symlink(outside.join("secret.json"), shelf.join("link.json")).unwrap();
    symlink(&outside, shelf.join("dir.json")).unwrap();
    symlink(&shelf, shelf.join("round-and-round")).unwrap();
    symlink("/dev/zero", shelf.join("zero.json")).unwrap();
    symlink(&outside, shared.folder().join("warps-elsewhere")).unwrap();
    let pipe = shelf.join("pipe.json");
    assert!(std::process::Command::new("mkfifo").arg(&pipe).status().unwrap().success());
    let device = shelf.join("device.json");
    let made = std::process::Command::new("mknod").arg(&device).args(["c", "1", "5"]).output();
    if !made.is_ok_and(|made| made.status.success()) {
        eprintln!("NOT TRIED on this machine: a device node cannot be made here.");
    }
    let began = Instant::now();
    let mut laptop = shared.open("laptop");
    assert!(began.elapsed() < Duration::from_secs(5));
    assert!(laptop.state().record(&"secret".parse().unwrap()).is_none());
    let reported = laptop
        .status()
        .problems
        .iter()
        .filter(|p| fellmark_present::folder_words::problem_sentence(&p.kind).contains("not followed"))
        .count();
    assert!(reported >= 4, "{:?}", laptop.status().problems);
    // Named one by one they are no more followed than found in a walk.
    laptop.refresh(&[pipe, shelf.join("link.json"), shelf.join("zero.json"), shelf.join("dir.json")]).unwrap();
    assert!(laptop.state().record(&"secret".parse().unwrap()).is_none());
    // A link under the name of this device's next file is not written through.
    let next = shelf.join(format!("{}.0001.json", laptop.device()));
    let target = outside.join("target.json");
    symlink(&target, &next).unwrap();
    let id = RecordId::new();
    let set = journal::fields(serde_json::json!({"name": "wool"}));
    let place = fellmark_journal::Place::Shelf;
    laptop
        .write(vec![fellmark_journal::EntryDraft::new(place, id.clone(), fellmark_journal::Kind::YARN, set)])
        .unwrap();
    assert!(!target.exists() && std::fs::symlink_metadata(&next).unwrap().is_symlink());
    assert!(shared.open("phone").state().record(&id).is_some());
}

#[test]
fn fault_39_photo_names_that_lead_elsewhere_are_refused() {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    let added = laptop.photo_add(&warp, &picture(20, 20)).unwrap();
    let good = added.hash.clone();
    let hostile = [
        "../../x".to_owned(),
        "CON".to_owned(),
        "a:b".to_owned(),
        "x.".to_owned(),
        String::new(),
        format!("../{}", &good[3..]),
        good.to_uppercase(),
        format!("{good}0"),
        format!("{good}.jpg"),
        format!("{}\0", &good[1..]),
        "\u{ff10}".repeat(64),
    ];
    for name in &hostile {
        let refused = |error: Error| matches!(error, Error::Photo(PhotoError::Name { .. }));
        assert!(refused(laptop.photo_path(&warp, name).unwrap_err()), "{name}");
        assert!(refused(laptop.thumbnail(&warp, name, 100).unwrap_err()), "{name}");
    }
    let dir = laptop.photo_path(&warp, &good).unwrap().parent().unwrap().to_owned();
    for name in ["CON", "a:b", "x.", "x.jpg", "CON.jpg"] {
        std::fs::write(dir.join(name), "x").unwrap();
    }
    assert_eq!(laptop.photos(&warp), [good].into());
}

fn png_header(width: u32, height: u32) -> Vec<u8> {
    // A header with a right checksum, and no pixels behind it.
    let mut chunk = b"IHDR".to_vec();
    chunk.extend(width.to_be_bytes());
    chunk.extend(height.to_be_bytes());
    chunk.extend([8, 6, 0, 0, 0]);
    let mut crc = !0u32;
    for byte in &chunk {
        crc ^= u32::from(*byte);
        for _ in 0..8 {
            crc = if crc & 1 == 1 { crc >> 1 ^ 0xedb8_8320 } else { crc >> 1 };
        }
    }
    let mut png = b"\x89PNG\r\n\x1a\n\0\0\0\x0d".to_vec();
    png.extend(chunk);
    png.extend((!crc).to_be_bytes());
    // The beginning of pixels, so that only the header shows what would come.
    png.extend(b"\0\0\x10\0IDAT");
    png.extend([0x78, 0x9c]);
    png.extend([0u8; 4096]);
    png
}

#[test]
fn fault_40_a_decompression_bomb_is_refused_from_its_header() {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    let mut jpeg = picture(64, 64);
    let size = jpeg.windows(2).position(|two| two == [0xff, 0xc0]).unwrap() + 5;
    jpeg[size..size + 4].fill(0xff);
    let began = Instant::now();
    for bomb in [png_header(60_000, 60_000), png_header(20_000, 20_000), png_header(1, 20_001), jpeg] {
        let error = laptop.photo_add(&warp, &bomb).unwrap_err();
        assert!(matches!(error, Error::Photo(PhotoError::TooLarge { .. })), "{error}");
        assert!(error.to_string().contains("make it smaller"), "{error}");
    }
    assert!(matches!(photos::prepare(&png_header(0, 5)), Err(PhotoError::Damaged { .. })));
    assert!(began.elapsed() < Duration::from_secs(5));
    assert!(laptop.photos(&warp).is_empty());
    let no_photo = |bytes: &[u8]| photos::prepare(bytes).unwrap_err().to_string();
    assert!(no_photo(b"").contains("no JPEG, PNG or WebP"));
    assert!(no_photo(b"\0\0\0\x18ftypheic\0\0\0\0mif1heic").contains("export it as JPEG"));
}

/// A file that something else has put beside a warp's photos, under a photo's name.
fn planted(shared: &SharedFolder, bytes: &[u8], name: Option<&str>) -> (Journal, RecordId, String) {
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    let added = laptop.photo_add(&warp, &picture(20, 20)).unwrap();
    let beside = laptop.photo_path(&warp, &added.hash).unwrap();
    let hash = name.map_or_else(|| sha256(bytes), str::to_owned);
    std::fs::write(beside.with_file_name(format!("{hash}.jpg")), bytes).unwrap();
    (laptop, warp, hash)
}

fn sha256(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().map(|byte| format!("{byte:02x}")).collect()
}

#[test]
fn a_photo_is_shown_only_as_what_its_name_was_made_of() {
    let other = "ab".repeat(32);
    let shared = SharedFolder::new();
    let (laptop, warp, hash) = planted(&shared, &picture(30, 20), Some(&other));
    let photo = laptop.stored_photo(&warp, &hash).unwrap();
    for shown in [photo.picture(), photo.thumbnail(100)] {
        assert!(matches!(shown, Err(Error::Photo(PhotoError::NotHere))), "{shown:?}");
    }
    // What is no picture is none under any name.
    let shared = SharedFolder::new();
    let (laptop, warp, hash) = planted(&shared, b"<svg onload=\"alert(1)\"/>", None);
    let shown = laptop.stored_photo(&warp, &hash).unwrap().picture();
    assert!(matches!(shown, Err(Error::Photo(PhotoError::Unknown))), "{shown:?}");
}

#[test]
fn a_photo_too_long_or_of_too_many_pixels_is_not_shown() {
    let shared = SharedFolder::new();
    let (laptop, warp, hash) = planted(&shared, &png_header(60_000, 60_000), None);
    let photo = laptop.stored_photo(&warp, &hash).unwrap();
    for shown in [photo.picture(), photo.thumbnail(100)] {
        assert!(matches!(shown, Err(Error::Photo(PhotoError::TooLarge { .. }))), "{shown:?}");
    }
    // More pixels than this program stores are made fewer before anything shows them.
    let shared = SharedFolder::new();
    let (laptop, warp, hash) = planted(&shared, &picture(3000, 30), None);
    let shown = image::load_from_memory(&laptop.stored_photo(&warp, &hash).unwrap().picture().unwrap()).unwrap();
    assert_eq!((shown.width(), shown.height()), (photos::LONG_SIDE_PX, 20));

    let shared = SharedFolder::new();
    let (laptop, warp, hash) = planted(&shared, b"short", Some(&"cd".repeat(32)));
    let sound = laptop.photos(&warp).into_iter().find(|other| *other != hash).unwrap();
    let beside = laptop.photo_path(&warp, &sound).unwrap();
    let long = std::fs::File::create(beside.with_file_name(format!("{hash}.jpg"))).unwrap();
    long.set_len(photos::PHOTO_FILE_MAX_BYTES as u64 + 1).unwrap();
    let began = Instant::now();
    let shown = laptop.stored_photo(&warp, &hash).unwrap().picture();
    assert!(matches!(shown, Err(Error::Photo(PhotoError::NotHere))), "{shown:?}");
    assert!(began.elapsed() < Duration::from_secs(5), "so long a file is not read");
}

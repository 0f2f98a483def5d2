//! One function for each reader: whatever the bytes, it does not panic, and what it takes is what it says.

use std::cell::RefCell;
use std::collections::BTreeSet;
use std::path::PathBuf;

use fellmark_cloth::quantity::YarnSystem;
use fellmark_cloth::read::{self, DecimalMark, DensityUnit, LengthUnit, MassUnit};
use fellmark_cloth::sequence::rows_from_words;
use fellmark_journal::{Entry, EntrySet, Key, RunningLog, Segment, journal_in, photos};
use fellmark_model::display_format::DisplayFormat;
use fellmark_present::import;
use fellmark_present::view::ImportForm;
use fellmark_reports::report_cache::ReportCache;

/// A file of entries.
pub fn segment(bytes: &[u8]) {
    let segment = Segment::read(bytes);
    let mut state = EntrySet::new();
    let mut keys = BTreeSet::new();
    for entry in segment.entries {
        let again = Entry::from_line(entry.line().as_bytes()).expect("what was read is read again");
        assert_eq!((again.key(), again.set()), (entry.key(), entry.set()));
        keys.insert(entry.key());
        state.insert(entry);
    }
    assert_eq!(state.len(), keys.len());
    let written: usize = state.records().map(|record| record.heads.len()).sum();
    assert!(written <= state.len());
    if segment.as_written {
        let head = segment.head.expect("a file as written has its head");
        let again = Segment::read(bytes);
        let lines = again.entries.iter().map(Entry::line);
        assert_eq!(fellmark_journal::render(&head.device, head.segment, lines), bytes);
    }
}

/// An entry's line. The key is made to fit, so that what stands behind it is reached; and all is read as it came, too.
pub fn line(bytes: &[u8]) {
    let _ = Entry::from_line(bytes);
    let mut line = format!("{{\"key\":\"{}\",", Key::of_rest(bytes)).into_bytes();
    line.extend_from_slice(bytes);
    if let Ok(entry) = Entry::from_line(&line) {
        assert_eq!(entry.line().as_bytes(), line);
        let whole: serde_json::Value = serde_json::from_slice(&line).expect("an entry's line is JSON");
        assert_eq!(whole["set"].as_object(), Some(entry.set()));
        assert_eq!(whole["of"].as_str(), Some(entry.of().as_str()));
        assert_eq!(whole["by"].as_str(), Some(entry.by().as_str()));
        assert_eq!(whole["at"], entry.at().to_string().as_str());
        let mut state = EntrySet::new();
        assert!(state.insert(entry.clone()));
        let record = state.record(entry.of()).expect("an entry makes a record");
        let fields = entry.set().iter().filter(|(name, _)| *name != fellmark_journal::GONE);
        assert!(fields.clone().all(|(name, value)| record.get(name) == Some(value)));
        assert_eq!(record.fields.len(), fields.count());
        let mut file = br#"{"format":"fellmark","schema":1,"device":"a","segment":1,"entries":["#.to_vec();
        file.push(b'\n');
        file.extend_from_slice(&line);
        file.extend_from_slice(b"\n]}\n");
        assert_eq!(Segment::read(&file).entries, [entry]);
    }
}

thread_local! {
    static PLACE: RefCell<Option<tempfile::TempDir>> = const { RefCell::new(None) };
}

/// A directory of this thread's own.
fn place() -> PathBuf {
    PLACE.with(|place| {
        let mut place = place.borrow_mut();
        place.get_or_insert_with(|| tempfile::tempdir().expect("a temporary directory")).path().to_owned()
    })
}

/// A device's marker.
pub fn marker(bytes: &[u8]) {
    let folder = place();
    std::fs::create_dir_all(folder.join("devices")).expect("a temporary directory");
    std::fs::write(folder.join("devices/any.json"), bytes).expect("a temporary file");
    if let Some(journal) = journal_in(&folder) {
        let text = std::str::from_utf8(bytes).expect("a marker is text");
        let whole: serde_json::Value = serde_json::from_str(text.trim_start_matches('\u{feff}')).expect("and JSON");
        assert_eq!(whole["journal"].as_str(), Some(journal.as_str()));
    }
}

/// A photograph.
pub fn photo(bytes: &[u8]) {
    if let Ok(stored) = photos::prepare(bytes) {
        assert!(stored.width.max(stored.height) <= photos::LONG_SIDE_PX);
        assert!(photos::prepare(&stored.jpeg).is_ok());
    }
    let _ = photos::thumbnail(bytes, 64);
}

/// The log of the sitting that runs.
pub fn running(bytes: &[u8]) {
    let local = place();
    std::fs::write(local.join("running.lines"), bytes).expect("a temporary file");
    let mut log = RunningLog::open(&local).expect("it opens");
    let before = log.read_all().expect("it reads");
    log.append(&serde_json::json!({"picks": 1})).expect("it takes a value");
    let after = log.read_all().expect("it reads");
    assert_eq!(after.len(), before.len() + 1);
    assert_eq!(after[..before.len()], before);
}

/// Measures as people write them.
pub fn measures(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    for mark in [DecimalMark::Point, DecimalMark::Comma] {
        for unit in [LengthUnit::Mm, LengthUnit::M, LengthUnit::Inch, LengthUnit::Yard] {
            if let Ok(length) = read::length(&text, unit, mark) {
                assert!(length.mm().is_finite() && length.mm() >= 0.0);
            }
        }
        if let Ok(mass) = read::mass(&text, MassUnit::Ounce, mark) {
            assert!(mass.g().is_finite() && mass.g() >= 0.0);
        }
        if let Ok(density) = read::density(&text, DensityUnit::PerInch, mark) {
            assert!(density.per_cm().is_finite() && density.per_cm() > 0.0);
        }
        if let Ok(yarn) = read::yarn_number(&text, YarnSystem::ALL[0], mark) {
            assert!(yarn.tex().is_finite() && yarn.tex() > 0.0);
        }
        if let Ok(percent) = read::percent(&text, mark) {
            assert!(percent.is_finite());
        }
    }
    let _ = read::whole_number(&text);
}

/// Rows of a pick sequence as people write them.
pub fn rows(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    if let Err(refused) = rows_from_words(&text) {
        assert!(!refused.to_string().is_empty());
    }
}

/// A table that is brought in: read as it would be before anything is written, into a log that has a warp of the seeds' name.
pub fn table(bytes: &[u8]) {
    let text = import::decode(bytes);
    let today = chrono::NaiveDate::from_ymd_opt(2026, 11, 25).expect("a day");
    let mut state = EntrySet::new();
    #[rustfmt::skip]
    let warp = br#""of":"t9c3x6q0m2w5r8k1f7hz","kind":"warp","warp":"t9c3x6q0m2w5r8k1f7hz","by":"a","at":"2026-05-31T18:04:05.123Z.0000","over":[],"set":{"begun_on":"2026-05-01","name":"Scarf"}}"#;
    let mut line = format!("{{\"key\":\"{}\",", Key::of_rest(warp)).into_bytes();
    line.extend_from_slice(warp);
    state.insert(Entry::from_line(&line).expect("a sound line"));
    for format in
        [DisplayFormat::default(), DisplayFormat { decimal_mark: ',', month_first: true, ..DisplayFormat::default() }]
    {
        for list in ["", "sittings", "warps", "wefts", "finishing"] {
            let form = ImportForm { text: text.clone(), list: list.to_owned(), ..ImportForm::default() };
            if let Ok(view) = import::preview(&state, &mut ReportCache::new(), &form, &format, today, &mut |_, _| true)
            {
                assert!(view.shown.len() <= view.good && !view.line.is_empty());
                assert!(view.refused.iter().all(|row| !row.why.is_empty()));
                let taken = view.columns.iter().filter(|column| column.field != "-").count();
                assert!(view.shown.iter().all(|row| row.len() == taken));
            }
        }
    }
}

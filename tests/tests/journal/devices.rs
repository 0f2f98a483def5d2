//! The journal from outside: a folder, several devices, what each of them sees.

use fellmark_journal::{EntryDraft, Error, Field, FolderState, Journal, Kind, Options, Place, Presence, RecordId};
use fellmark_tests::journal::{self, SharedFolder, fields};
use serde_json::json;

/// What waits for a person to resolve: fields in conflict, and records removed on one device and edited on another.
fn conflicts(journal: &Journal) -> usize {
    let visible = journal.state().records().filter(|record| record.is_visible());
    visible
        .map(|record| record.conflicts().count() + usize::from(record.presence == Presence::RemovedHereEditedThere))
        .sum()
}

#[test]
fn what_one_device_writes_another_reads() {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Blue scarf");
    let sitting = journal::log_sitting(&mut laptop, &warp, 42, 118);
    assert_eq!(laptop.status().waiting_to_write, 0);

    let mut phone = shared.open("phone");
    let record = phone.state().record(&sitting).unwrap();
    assert_eq!(record.get("minutes"), Some(&json!(42)));
    assert_eq!(record.kind, Kind::SITTING);
    assert_eq!(record.place, Place::warp(&warp));

    let draft = EntryDraft::on(record, fields(json!({"minutes": 45})));
    phone.write(vec![draft]).unwrap();
    let changes = laptop.refresh(&[]).unwrap();
    assert_eq!(changes.records, [sitting.clone()].into());
    assert_eq!(changes.warps, [warp].into());
    assert_eq!(laptop.state().record(&sitting).unwrap().fields["minutes"], Field::Single(json!(45)));
    assert_eq!(laptop.state(), phone.state());
    let names: Vec<String> = laptop.devices().into_iter().map(|device| device.name).collect();
    assert_eq!(names, ["laptop", "phone"]);
}

#[test]
fn the_folder_is_laid_out_for_people() {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("Ann’s Laptop");
    let warp = journal::begin_warp(&mut laptop, "Blue Scarf!");
    journal::log_sitting(&mut laptop, &warp, 42, 118);
    let device = laptop.device().to_string();
    assert!(device.starts_with("anns-laptop-"), "{device}");
    let file = format!("warps/blue-scarf-{}/{device}.0001.json", warp.short());
    assert_eq!(shared.files(), [format!("devices/{device}.json"), file.clone()]);
    let text = std::fs::read_to_string(shared.folder().join(&file)).unwrap();
    let whole: serde_json::Value = serde_json::from_str(&text).unwrap();
    assert_eq!(whole["format"], "fellmark");
    assert_eq!(whole["entries"].as_array().unwrap().len(), 2);
    assert_eq!(text.lines().count(), 4);
    // A later name does not move the directory.
    let record = laptop.state().record(&warp).unwrap();
    let draft = EntryDraft::on(record, fields(json!({"name": "Green scarf"})));
    laptop.write(vec![draft]).unwrap();
    assert!(shared.folder().join(&file).exists());
}

#[test]
fn a_field_edited_twice_is_kept_twice_and_settled() {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    let sitting = journal::log_sitting(&mut laptop, &warp, 42, 118);
    let mut phone = shared.open("phone");
    let shown = laptop.state().record(&sitting).unwrap().clone();
    laptop.write(vec![EntryDraft::on(&shown, fields(json!({"minutes": 40})))]).unwrap();
    phone.write(vec![EntryDraft::on(&shown, fields(json!({"minutes": 50})))]).unwrap();
    laptop.refresh(&[]).unwrap();
    let both = laptop.state().record(&sitting).unwrap().clone();
    let Field::Conflict(answers) = &both.fields["minutes"] else { panic!("{both:?}") };
    assert_eq!(answers.iter().map(|a| a.value.clone()).collect::<Vec<_>>(), [json!(40), json!(50)]);
    assert_eq!(conflicts(&laptop), 1);
    laptop.write(vec![EntryDraft::on(&both, fields(json!({"minutes": 40})))]).unwrap();
    assert_eq!(laptop.state().record(&sitting).unwrap().fields["minutes"], Field::Single(json!(40)));
    assert_eq!(conflicts(&laptop), 0);
}

#[test]
fn removed_here_and_edited_there_stays_visible() {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    let sitting = journal::log_sitting(&mut laptop, &warp, 42, 118);
    let mut phone = shared.open("phone");
    let shown = laptop.state().record(&sitting).unwrap().clone();
    laptop.write(vec![EntryDraft::removal(&shown)]).unwrap();
    assert_eq!(laptop.state().record(&sitting).unwrap().presence, Presence::Gone);
    phone.write(vec![EntryDraft::on(&shown, fields(json!({"picks": 120})))]).unwrap();
    laptop.refresh(&[]).unwrap();
    let both = laptop.state().record(&sitting).unwrap().clone();
    assert_eq!(both.presence, Presence::RemovedHereEditedThere);
    laptop.write(vec![EntryDraft::restoring(&both)]).unwrap();
    let restored = laptop.state().record(&sitting).unwrap().clone();
    assert_eq!((restored.presence, restored.get("picks")), (Presence::Here, Some(&json!(120))));
    laptop.write(vec![EntryDraft::removal(&restored)]).unwrap();
    assert_eq!(laptop.state().record(&sitting).unwrap().presence, Presence::Gone);
}

#[test]
fn a_folder_without_a_journal_is_reported_in_a_sentence() {
    let shared = SharedFolder::new();
    let empty = shared.root().join("empty");
    std::fs::create_dir(&empty).unwrap();
    let open = |folder: &std::path::Path, create: bool| {
        let mut options = Options::new(folder, shared.root().join("nobody"), "nobody");
        options.create = create;
        Journal::open(options).map(|_| ())
    };
    assert!(matches!(open(&empty, false), Err(Error::NotAJournal { .. })));
    assert!(matches!(open(&shared.root().join("none"), false), Err(Error::NotAJournal { .. })));
    std::fs::write(empty.join("letter.txt"), "Dear Ann").unwrap();
    let error = open(&empty, true).unwrap_err().to_string();
    assert!(error.ends_with("it holds other things; choose an empty folder, or make a new one inside it"), "{error}");
}

#[test]
fn entries_that_vanish_stay_visible_and_can_be_written_back() {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    let mut phone = shared.open("phone");
    let sitting = journal::log_sitting(&mut phone, &warp, 42, 118);
    laptop.refresh(&[]).unwrap();
    for file in shared.files() {
        if file.contains("phone") && file.starts_with("warps") {
            std::fs::remove_file(shared.folder().join(file)).unwrap();
        }
    }
    laptop.refresh(&[]).unwrap();
    assert_eq!(laptop.status().vanished, 1);
    assert!(laptop.state().record(&sitting).is_some());
    drop(laptop);
    let mut laptop = shared.open("laptop");
    assert_eq!(laptop.status().vanished, 1);
    laptop.write_back().unwrap();
    assert_eq!((laptop.status().vanished, laptop.status().folder), (0, FolderState::Ok));
    let tablet = shared.open("tablet");
    assert!(tablet.state().record(&sitting).is_some());
}

#[test]
fn many_entries_make_further_files() {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    let note = "x".repeat(60_000);
    for _ in 0..10 {
        let set = fields(json!({"note": note, "minutes": 1}));
        laptop.write(vec![EntryDraft::new(Place::warp(&warp), RecordId::new(), Kind::SITTING, set)]).unwrap();
    }
    let sizes: Vec<u64> = shared.entry_files().iter().map(|file| file.metadata().unwrap().len()).collect();
    assert_eq!(sizes.len(), 3);
    assert!(sizes.iter().all(|size| *size <= 256 * 1024), "{sizes:?}");
    assert_eq!(shared.open("phone").state(), laptop.state());
}

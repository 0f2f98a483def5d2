//! Faults 33 and 34: a clock that is wrong.

use chrono::{DateTime, TimeDelta, Utc};
use fellmark_journal::{EntryDraft, Field, Journal, TimeSource};
use serde_json::json;

use fellmark_tests::journal::{self, SharedFolder, fields};

fn time(text: &str) -> DateTime<Utc> {
    text.parse().unwrap()
}

fn open_at(shared: &SharedFolder, device: &str, at: &str) -> Journal {
    Journal::open(shared.options(device).at(TimeSource::fixed(time(at)))).unwrap()
}

#[test]
fn fault_33_a_clock_in_2099_and_back() {
    let shared = SharedFolder::new();
    let mut laptop = open_at(&shared, "laptop", "2026-05-31T18:00:00Z");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    let sitting = journal::log_sitting(&mut laptop, &warp, 42, 118);
    // The phone's clock is wrong by decades for a day.
    let mut phone = open_at(&shared, "phone", "2099-01-01T00:00:00Z");
    let shown = phone.state().record(&sitting).unwrap().clone();
    phone.write(vec![EntryDraft::on(&shown, fields(json!({"picks": 999})))]).unwrap();
    let far = journal::log_sitting(&mut phone, &warp, 1, 1);
    assert_eq!(phone.state().record(&far).unwrap().first_at.time(), Some(time("2099-01-01T00:00:00Z")));
    drop(phone);
    // Edits by right clocks, over what was written by the wrong one, are answers to it all the same.
    laptop.refresh(&[]).unwrap();
    let shown = laptop.state().record(&sitting).unwrap().clone();
    assert_eq!(shown.get("picks"), Some(&json!(999)));
    laptop.write(vec![EntryDraft::on(&shown, fields(json!({"picks": 120})))]).unwrap();
    assert_eq!(laptop.state().record(&sitting).unwrap().fields["picks"], Field::Single(json!(120)));
    let at = laptop.state().record(&sitting).unwrap().last_at.time().unwrap();
    assert!(at >= time("2099-01-01T00:00:00Z"), "the latest in the record is still the wrong clock's");
    // What the right clock writes is at most a day ahead of it.
    let near = journal::log_sitting(&mut laptop, &warp, 2, 2);
    let at = laptop.state().record(&near).unwrap().first_at.time().unwrap();
    assert!(at <= time("2026-05-31T18:00:00Z") + TimeDelta::hours(24), "{at}");
    // The phone's clock is right again: its entries are of now, and nothing is lost.
    let mut phone = open_at(&shared, "phone", "2026-06-01T18:00:00Z");
    let back = journal::log_sitting(&mut phone, &warp, 3, 3);
    let at = phone.state().record(&back).unwrap().first_at.time().unwrap();
    assert!(at <= time("2026-06-02T18:00:00Z"), "{at}");
    laptop.refresh(&[]).unwrap();
    assert_eq!((laptop.state(), laptop.state().len()), (phone.state(), 7));
}

#[test]
fn fault_34_a_clock_in_1970() {
    let shared = SharedFolder::new();
    let mut laptop = open_at(&shared, "laptop", "1970-01-01T00:00:00Z");
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    let sitting = journal::log_sitting(&mut laptop, &warp, 42, 118);
    let mut phone = open_at(&shared, "phone", "2026-05-31T18:00:00Z");
    let shown = phone.state().record(&sitting).unwrap().clone();
    phone.write(vec![EntryDraft::on(&shown, fields(json!({"picks": 120})))]).unwrap();
    laptop.refresh(&[]).unwrap();
    let shown = laptop.state().record(&sitting).unwrap().clone();
    laptop.write(vec![EntryDraft::on(&shown, fields(json!({"picks": 121})))]).unwrap();
    phone.refresh(&[]).unwrap();
    assert_eq!(phone.state().record(&sitting).unwrap().fields["picks"], Field::Single(json!(121)));
    assert_eq!(phone.state(), laptop.state());
    // Before any calendar, and after all.
    for at in ["0001-01-01T00:00:00Z", "9999-12-31T23:59:59Z"] {
        let mut odd = open_at(&shared, &format!("odd {at}"), at);
        let id = journal::log_sitting(&mut odd, &warp, 5, 5);
        laptop.refresh(&[]).unwrap();
        assert!(laptop.state().record(&id).is_some(), "{at}");
    }
}

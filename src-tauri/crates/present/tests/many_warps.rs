//! What is reported of many warps at once reads no more of them than it needs, and says what reading all of each would say.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

use std::cmp::Reverse;

use chrono::{Days, NaiveDate};
use fellmark_journal::{EntrySet, Journal, Options, RecordId};
use fellmark_model as model;
use fellmark_model::commands::Commands;
use fellmark_model::display_format::DisplayFormat;
use fellmark_model::tables;
use fellmark_present::export;
use fellmark_present::import;
use fellmark_present::plan;
use fellmark_present::view::{ImportForm, ImportView, SittingForm, WarpForm, WarpState};
use fellmark_reports::report_cache::ReportCache;
use fellmark_session::sample;
use serde_json::Value;
use tempfile::TempDir;

/// More than are offered to be copied.
const WARPS: u64 = 47;

fn today() -> NaiveDate {
    "2026-11-25".parse().unwrap()
}

/// The example, and many small warps: several of one name, some removed, some without a day, each with the same sitting.
fn many() -> (TempDir, Journal) {
    let place = tempfile::tempdir().unwrap();
    std::fs::create_dir(place.path().join("folder")).unwrap();
    let options = Options::new(place.path().join("folder"), place.path().join("local"), "laptop").create();
    let mut journal = Journal::open(options).unwrap();
    sample::fill(&mut journal, today()).unwrap();
    let mut commands = Commands { journal: &mut journal, format: DisplayFormat::default(), today: today() };
    for n in 0..WARPS {
        let begun_on = if n % 9 == 4 { String::new() } else { (today() - Days::new(n * 31 % 400)).to_string() };
        let name = if n % 11 == 3 { "Twin".to_owned() } else { format!("Small {n}") };
        let form = WarpForm { name, begun_on, wound: "2 m".into(), picks: "40".into(), ..WarpForm::default() };
        let warp = commands.begin_warp(&form).unwrap();
        let sitting = SittingForm { on: "2026-11-20".into(), picks: "30".into(), ..SittingForm::default() };
        commands.log_sitting(&warp, &sitting, None).unwrap();
        if n % 7 == 2 {
            commands.remove(&warp).unwrap();
        }
    }
    (place, journal)
}

#[test]
fn the_latest_begun_warps_are_offered_to_be_copied() {
    let (_place, journal) = many();
    let (state, format) = (journal.state(), DisplayFormat::default());
    let logs = model::warp_logs(state);
    let mut known: Vec<_> = logs.values().filter(|log| log.warp.state != WarpState::Removed).collect();
    known.sort_by_key(|log| (Reverse(log.warp.begun_on), log.warp.id.clone()));
    let copy = |log: &&model::WarpLog| {
        (log.warp.id.to_string(), log.warp.name.clone(), model::plan::plan_form_from_warp(state, log, &format))
    };
    let all: Vec<_> = known.into_iter().map(|log| copy(&log)).collect();
    let offered = plan::earlier_plans(state, &mut ReportCache::new(), &format);
    assert!(offered.len() == 40 && all.len() > 40, "{} of {}", offered.len(), all.len());
    for (one, (warp, name, form)) in offered.iter().zip(&all) {
        assert_eq!((&one.warp, &one.name, &one.form), (warp, name, form));
    }
}

#[test]
fn what_is_taken_out_of_one_warp_is_its_part_of_the_whole() {
    let (_place, journal) = many();
    let state = journal.state();
    let everything = export::everything(state, None);
    for list in tables::LISTS {
        let whole = rows(&export::list_csv(state, list.name, None).unwrap());
        let mut parts = Vec::new();
        for warp in state.warp_ids() {
            let part = rows(&export::list_csv(state, list.name, Some(warp)).unwrap());
            let of_it = |row: &&Vec<(String, String)>| row.contains(&("warp_id".into(), warp.to_string()));
            assert!(part.iter().eq(whole.iter().filter(of_it)), "{} of {warp}", list.name);
            parts.extend(part);
        }
        assert_eq!(parts.len(), whole.len(), "{}", list.name);
        let is_there = ["warps", "sittings", "wefts", "finishing", "photos"].contains(&list.name);
        assert!(!whole.is_empty() || !is_there, "{}", list.name);
    }
    for warp in state.warp_ids() {
        let of_it = |record: &&Value| record["warp"] == warp.as_str();
        let part = export::everything(state, Some(warp));
        assert!(records(&part).iter().eq(records(&everything).iter().filter(of_it)), "{warp}");
    }
}

fn records(all: &Value) -> &Vec<Value> {
    all["records"].as_array().unwrap()
}

/// The rows of a table, each cell that says something with its heading.
fn rows(text: &str) -> Vec<Vec<(String, String)>> {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let headings: Vec<String> = reader.headers().unwrap().iter().map(str::to_owned).collect();
    let rows = reader.records().map(|row| {
        let row = row.unwrap();
        let cells = headings.iter().cloned().zip(row.iter().map(str::to_owned));
        cells.filter(|(_, cell)| !cell.is_empty()).collect()
    });
    rows.collect()
}

fn looked_at(state: &EntrySet, text: String, warp: &str) -> ImportView {
    let form = ImportForm { text, warp: warp.into(), ..ImportForm::default() };
    import::preview(state, &mut ReportCache::new(), &form, &DisplayFormat::default(), today(), &mut |_, _| true)
        .unwrap()
}

#[test]
fn a_row_is_the_same_only_as_what_its_own_warp_holds() {
    let (_place, journal) = many();
    let state = journal.state();
    let logs = model::warp_logs(state);
    let of = |text: &str| -> Vec<&RecordId> {
        logs.values().filter(|log| log.warp.name == text).map(|log| &log.warp.id).collect()
    };
    let here = of("Small 5")[0];
    // The sitting that each small warp has is not one of the example's.
    let elsewhere = logs.values().find(|log| log.warp.name.contains("scarf")).unwrap().warp.id.clone();
    let removed = of("Small 2")[0];
    let sitting = "on,picks\n2026-11-20,30\n2026-11-20,31\n2026-11-20,31\n";
    for (warp, good) in [(here, 1), (&elsewhere, 2), (removed, 1)] {
        let view = looked_at(state, sitting.into(), warp.as_str());
        assert_eq!(view.good, good, "{warp}: {:?}", view.refused);
        assert!(view.refused.iter().all(|row| row.why.contains("here already")));
    }
    // By name and by id, one table for several warps.
    let named =
        format!("warp,warp_id,on,picks\nSmall 5,,2026-11-20,30\n,{elsewhere},2026-11-20,30\nSmall 6,,2026-11-20,30\n");
    assert_eq!(looked_at(state, named, "").good, 1);
    let twins = of("Twin");
    let begun = |id: &RecordId| logs[id].warp.begun_on.map(|day| day.to_string()).unwrap_or_default();
    assert!(twins.len() > 2);
    for twin in twins {
        let table = format!("name,begun_on\nTwin,{}\nTwin,1999-01-01\ntwin,{}\n", begun(twin), begun(twin));
        let removed = logs[twin].warp.state == WarpState::Removed;
        assert_eq!(looked_at(state, table, "").good, if removed { 3 } else { 2 }, "{twin}");
    }
}

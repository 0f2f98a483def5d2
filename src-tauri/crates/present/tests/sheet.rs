//! The record sheet on paper: the warp and its pictures are there, black on white, and nothing is torn apart.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

use chrono::NaiveDate;
use fellmark_journal::{Journal, Options};
use fellmark_model as model;
use fellmark_model::display_format::DisplayFormat;
use fellmark_present::export::{ExportRequest, export_file};
use fellmark_present::figures::loose;
use fellmark_reports::report_cache::ReportCache;
use fellmark_session::sample;

fn today() -> NaiveDate {
    "2026-11-25".parse().unwrap()
}

/// The example's warp of this name as a sheet, and as the picture for the one who gets it.
fn taken(name: &str) -> (String, String) {
    let place = tempfile::tempdir().unwrap();
    std::fs::create_dir(place.path().join("folder")).unwrap();
    let options = Options::new(place.path().join("folder"), place.path().join("local"), "laptop").create();
    let mut journal = Journal::open(options).unwrap();
    sample::fill(&mut journal, today()).unwrap();
    let logs = model::warp_logs(journal.state());
    let warp = logs.values().find(|log| log.warp.name.starts_with(name)).unwrap().warp.id.clone();
    let text = |what: &str| {
        let request = ExportRequest { what: what.into(), warp: Some(warp.clone()), split: String::new() };
        String::from_utf8(
            export_file(&journal, &mut ReportCache::new(), &request, &DisplayFormat::default(), today()).unwrap().bytes,
        )
        .unwrap()
    };
    (text("sheet"), text("progress"))
}

#[test]
fn a_sheet_holds_the_warp_its_pictures_and_its_sittings() {
    let (sheet, _) = taken("Moss and walnut scarf");
    let sheet = loose(&sheet);
    assert_eq!(sheet.matches("<svg").count(), 1, "the warp to scale");
    for pattern in ["p-woven", "p-to-weave", "p-waste"] {
        assert!(sheet.contains(&format!("url(#{pattern})")), "{pattern}");
    }
    assert!(sheet.contains(">fell<") && sheet.contains("119 cm of cloth woven"), "and in words");
    assert_eq!(sheet.matches("data:image/jpeg;base64,").count(), 3);
    assert!(sheet.contains("Saturday 17 October, 22 cm woven"), "a picture says how far the cloth was");
    assert!(sheet.contains("<dd>13 October 2026</dd>"), "a day says its year");
    assert!(sheet.contains("up \u{b7} stick \u{b7} up \u{b7} down"), "a repeat takes one line");
    assert_eq!(sheet.matches("<tr>").count(), 3 + 1 + 9, "three parts of the sequence, a heading, nine sittings");
}

#[test]
fn it_is_made_for_paper() {
    let (sheet, _) = taken("Moss and walnut scarf");
    for rule in ["@page{size:A4", "break-inside:avoid", "break-after:avoid", "table-header-group", "@media print"] {
        assert!(sheet.contains(rule), "{rule}");
    }
    // Black on white: no ink is of a colour, and nothing comes from elsewhere.
    let inks = sheet.match_indices('#').filter_map(|(at, _)| {
        let word: String = sheet[at + 1..].chars().take_while(char::is_ascii_alphanumeric).collect();
        ([3, 6].contains(&word.len()) && word.bytes().all(|b| b.is_ascii_hexdigit())).then_some(word)
    });
    let inks: std::collections::BTreeSet<String> = inks.collect();
    assert!(inks.iter().all(|ink| ["000", "999", "fff"].contains(&ink.as_str())), "{inks:?}");
    assert!(!sheet.contains("<script") && !sheet.contains("http://localhost") && !sheet.contains("src=\"photo:"));
}

#[test]
fn a_finished_warp_shows_its_results_and_not_to_cut_it_off() {
    let (sheet, progress) = taken("Four kitchen towels");
    assert!(sheet.contains("Planned, and as it came out") && sheet.contains("still to do: press"));
    assert!(!sheet.contains("ready to cut off"));
    assert!(progress.contains("All of it is woven."), "{progress}");
}

#[test]
fn the_picture_for_the_one_who_gets_it_fits_its_frame() {
    let (_, progress) = taken("Moss and walnut scarf");
    let number = |text: &str, name: &str| -> f64 {
        let from = text.find(&format!(" {name}=\"")).unwrap() + name.len() + 3;
        text[from..].split('"').next().unwrap().parse().unwrap()
    };
    // A wide serif letter takes some six tenths of its size.
    for text in progress.split("<text").skip(1) {
        let words = text.split('>').nth(1).unwrap().split('<').next().unwrap();
        let width = words.chars().count() as f64 * number(text, "font-size") * 0.6;
        assert!(number(text, "x") + width < 1080.0, "{words}");
    }
    let cloth: Vec<&str> = progress.split("<rect").filter(|rect| rect.contains("url(#cloth)")).collect();
    assert_eq!(cloth.len(), 1);
    let share = number(cloth[0], "width") / 936.0 * 100.0;
    assert!(progress.contains(&format!("{:.0} per cent is woven.", share.floor())), "{share}");
}

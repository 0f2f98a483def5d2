//! Tables taken out and brought in again.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

use std::collections::BTreeMap;

use chrono::NaiveDate;
use fellmark_journal::{Journal, Options};
use fellmark_model as model;
use fellmark_model::commands::Commands;
use fellmark_model::display_format::DisplayFormat;
use fellmark_model::tables;
use fellmark_present::export;
use fellmark_present::import;
use fellmark_present::plan;
use fellmark_present::undo;
use fellmark_present::view::{
    ImportForm, PlaceForm, PlanForm, ReadingForm, WarpForm, WarpState, YarnForm, YarnLeftForm,
};
use fellmark_reports::report_cache::ReportCache;
use fellmark_session::sample;
use serde_json::Value;
use tempfile::TempDir;

fn today() -> NaiveDate {
    "2026-11-25".parse().unwrap()
}

fn journal(device: &str) -> (TempDir, Journal) {
    let place = tempfile::tempdir().unwrap();
    std::fs::create_dir(place.path().join("folder")).unwrap();
    let options = Options::new(place.path().join("folder"), place.path().join("local"), device).create();
    let journal = Journal::open(options).unwrap();
    (place, journal)
}

fn sentence(error: &model::UserError) -> String {
    fellmark_present::messages::text(&error.message, &DisplayFormat::default())
}

fn commands(journal: &mut Journal, format: DisplayFormat) -> Commands<'_> {
    Commands { journal, format, today: today() }
}

/// What every record of the lists says, by its id: fields that hold nothing say nothing.
fn state_of(journal: &Journal) -> BTreeMap<String, Value> {
    let everything = export::everything(journal.state(), None);
    let kinds: Vec<&str> = tables::LISTS.iter().map(|list| list.kind).collect();
    let records = everything["records"].as_array().unwrap().iter();
    let records =
        records.filter(|record| kinds.contains(&record["kind"].as_str().unwrap()) && record["presence"] == "here");
    records
        .filter(|record| record["kind"] != "photo")
        .map(|record| {
            let mut record = record.clone();
            let fields = record["fields"].as_object_mut().unwrap();
            fields.retain(|name, value| name != "act" && !value.is_null());
            (record["id"].as_str().unwrap().to_owned(), record)
        })
        .collect()
}

#[test]
fn a_log_taken_out_and_brought_into_an_empty_folder_is_the_same() {
    let (_from, mut from) = journal("laptop");
    sample::fill(&mut from, today()).unwrap();
    note_everything(&mut from);
    for format in [DisplayFormat::default(), DisplayFormat::of_locale("de-DE"), DisplayFormat::of_locale("en-US")] {
        let (_to, mut to) = journal("other");
        let lists = ["warps", "plans", "wefts", "sittings", "finishing", "readings", "weighings", "joins", "places"];
        for list in lists {
            let text = export::list_csv(from.state(), list, None).unwrap();
            let form = ImportForm { text, ..ImportForm::default() };
            let reported =
                import::import_table(&mut commands(&mut to, format), &mut ReportCache::new(), &form, &mut |_, _| true)
                    .unwrap();
            assert_eq!((reported.list.as_str(), reported.refused.len()), (list, 0), "{:?}", reported.refused);
        }
        assert_eq!(state_of(&from), state_of(&to));
        // Brought in twice, every row is reported as present.
        let text = export::sittings_csv(from.state(), None).unwrap();
        let again = import::import_table(
            &mut commands(&mut to, format),
            &mut ReportCache::new(),
            &ImportForm { text, ..ImportForm::default() },
            &mut |_, _| true,
        )
        .unwrap_err();
        assert!(sentence(&again).contains("here already"), "{again:?}");
    }
}

/// One of each thing that is noted between sittings, and the fields that the example leaves empty.
fn note_everything(journal: &mut Journal) {
    let logs = model::warp_logs(journal.state());
    let log = logs.values().find(|log| !log.sittings.is_empty() && !log.warp.rows.repeat.is_empty()).unwrap();
    let warp = log.warp.id.clone();
    let mut commands = commands(journal, DisplayFormat::default());
    let form = WarpForm {
        wanted: "120, 40, 40 cm".into(),
        pieces: String::new(),
        gap: "5 cm".into(),
        weaving_days: "Sat, Sun".into(),
        ..fellmark_present::fill_forms::show_warp_form(&log.warp, log.wefts.first(), &DisplayFormat::default())
    };
    commands.change_warp(&warp, &form, &[]).unwrap();

    let yarn = commands
        .add_yarn(
            &warp,
            &YarnForm { name: "Oak".into(), mass: "about 90 g".into(), tare: "28 g".into(), ..YarnForm::default() },
        )
        .unwrap();
    let left = YarnLeftForm { yarn: yarn.to_string(), left: "~ 70 g".into(), on_shuttle: true };
    let reading = ReadingForm {
        measured: "42 cm".into(),
        mark_set: true,
        warp_mark: "50 cm".into(),
        yarns_left: vec![left],
        take_up: yarn.to_string(),
        ..ReadingForm::default()
    };
    commands.add_note(&warp, &reading, &None).unwrap();
    commands
        .set_place(&warp, &PlaceForm { section: "repeat".into(), repeat: "3".into(), ..PlaceForm::default() }, &None)
        .unwrap();
    let form = PlanForm {
        name: "Planned".into(),
        length: "120 cm".into(),
        width: "25 cm".into(),
        sett: "40".into(),
        further: "40 cm; 35.5 cm".into(),
        ..PlanForm::default()
    };
    let history = ReportCache::of_state(commands.journal.state()).history();
    let planned = plan::planned_warp(&history, &form, &commands.format, commands.today).unwrap();
    commands.begin_planned(&planned, None).unwrap();
    let sitting = log.sittings.last().unwrap().id.clone();
    commands
        .set_place(&warp, &PlaceForm { section: "repeat".into(), ..PlaceForm::default() }, &Some((sitting, 3)))
        .unwrap();
}

#[test]
fn a_list_that_leans_on_another_says_which_is_missing_and_photos_do_not_come_in() {
    let (_from, mut from) = journal("laptop");
    sample::fill(&mut from, today()).unwrap();
    note_everything(&mut from);
    let (_to, mut to) = journal("other");
    let csv =
        |list: &str| ImportForm { text: export::list_csv(from.state(), list, None).unwrap(), ..ImportForm::default() };
    import::import_table(
        &mut commands(&mut to, DisplayFormat::default()),
        &mut ReportCache::new(),
        &csv("warps"),
        &mut |_, _| true,
    )
    .unwrap();
    let view = import::preview(
        to.state(),
        &mut ReportCache::new(),
        &csv("weighings"),
        &DisplayFormat::default(),
        today(),
        &mut |_, _| true,
    )
    .unwrap();
    assert!(view.good == 0 && view.refused[0].why.contains("Bring the yarns in first"), "{:?}", view.refused);
    let photos = ImportForm { list: "photos".into(), ..csv("photos") };
    let refused = import::preview(
        to.state(),
        &mut ReportCache::new(),
        &photos,
        &DisplayFormat::default(),
        today(),
        &mut |_, _| true,
    )
    .unwrap_err();
    assert!(sentence(&refused).contains("add the pictures themselves"), "{refused:?}");
    // Every weighing goes out with its yarn, its moment and what was taken off.
    let text = csv("weighings").text;
    assert!(
        text.starts_with("warp,warp_id,weighing_id,on,sitting,picks_into,weft,left_g,left_mm,tare_g,rough,"),
        "{text}"
    );
    assert!(text.contains(",42.0,,28.0,yes,"), "{text}");
}

fn with_a_warp() -> (TempDir, Journal) {
    let (place, mut journal) = journal("laptop");
    let form = WarpForm { name: "Sea runner".into(), ..WarpForm::default() };
    commands(&mut journal, DisplayFormat::default()).begin_warp(&form).unwrap();
    (place, journal)
}

#[test]
fn a_foreign_table_is_understood_and_bad_rows_are_refused_with_a_reason() {
    let (_place, mut journal) = with_a_warp();
    let text = "Project;Date;Minutes;Rows;Length;Remarks\n\
                Sea runner;3.11.2026;1:20;118;41,5 cm;\n\
                Sea runner;2026-11-05;50;many;;\n\
                sea runner;07.11.2026;45;;;only time\n\
                Moon runner;08.11.2026;45;100;;\n\
                Sea runner;31.02.2026;45;100;;\n\
                Sea runner;;45;100;;\n\
                Sea runner;3.11.2026;1:20;118;41,5 cm;\n";
    let form = ImportForm { text: text.into(), ..ImportForm::default() };
    let format = DisplayFormat::of_locale("de-DE");
    let view =
        import::preview(journal.state(), &mut ReportCache::new(), &form, &format, today(), &mut |_, _| true).unwrap();
    let taken: Vec<&str> = view.columns.iter().map(|column| column.field.as_str()).collect();
    assert_eq!(taken, ["warp", "on", "minutes", "picks", "measured_mm", "note"]);
    let refused: Vec<(usize, &str)> = view.refused.iter().map(|row| (row.line, row.why.as_str())).collect();
    assert_eq!(refused.iter().map(|(line, _)| *line).collect::<Vec<_>>(), [3, 5, 6, 7, 8], "{refused:?}");
    assert!(refused[0].1.starts_with("Picks: "), "{refused:?}");
    assert!(refused[1].1.contains("No warp is called \u{201c}Moon runner\u{201d}"), "{refused:?}");
    assert!(refused[2].1.contains("31.02.2026") && refused[3].1 == "Day is missing.", "{refused:?}");
    assert_eq!(refused[4].1, "The same is here already.");
    assert_eq!((view.good, view.line.as_str()), (2, "2 sittings would be brought in, 5 rows refused."));
    assert_eq!(journal.state().entries().count(), 1, "a preview writes nothing");

    let reported =
        import::import_table(&mut commands(&mut journal, format), &mut ReportCache::new(), &form, &mut |_, _| true)
            .unwrap();
    assert_eq!(reported.line, "2 sittings were brought in, 5 rows refused.");
    let logs = model::warp_logs(journal.state());
    let log = logs.values().next().unwrap();
    assert_eq!(log.sittings.len(), 2);
    let first = &log.sittings[0];
    assert_eq!((first.on.to_string().as_str(), first.minutes, first.picks), ("2026-11-03", Some(80.0), Some(118)));
    assert_eq!(first.tape.map(|tape| (tape.mm, tape.from_mark, tape.relaxed)), Some((415.0, false, false)));

    // What a form would write is written: where the tape started, and how the warp was.
    let kept = state_of(&journal).into_values().find(|record| record["fields"]["picks"] == 118).unwrap();
    assert_eq!(kept["fields"]["measured_from"], "start");
    assert_eq!(kept["fields"]["measured_tension"], "tight");

    // It was one action: one undo takes all of it back.
    let undone = commands(&mut journal, format).undo().unwrap().unwrap();
    let undone = undo::undone(&undone, &journal);
    assert_eq!(undone.what, "2 sittings were brought in");
    assert!(model::warp_logs(journal.state()).values().all(|log| log.sittings.is_empty()));
}

/// Undo takes it away as a whole; it was never on the loom here.
#[test]
fn one_warp_that_came_in_off_the_loom_was_not_cut_off_here() {
    let (_place, mut journal) = journal("laptop");
    let text = "Name,Date begun,Date finished\nSea runner,2025-03-11,2025-04-02\n";
    let form = ImportForm { text: text.into(), ..ImportForm::default() };
    import::import_table(
        &mut commands(&mut journal, DisplayFormat::default()),
        &mut ReportCache::new(),
        &form,
        &mut |_, _| true,
    )
    .unwrap();
    assert_eq!(undo::words(&journal).as_deref(), Some("the warp was brought in"));
    commands(&mut journal, DisplayFormat::default()).undo().unwrap();
    let warp = model::warp_logs(journal.state()).into_keys().next().unwrap();
    assert!(!journal.state().record(&warp).unwrap().is_visible());
}

/// A list of scarves as people keep one: days begun and finished, and figures whose unit stands in the heading.
#[test]
fn headings_say_the_unit_and_a_warp_with_an_end_is_off_the_loom() {
    let (_place, mut journal) = journal("laptop");
    let text = "Name,Date begun,Date finished,Reed width (in),PPI,Warp length (cm)\n\
                Sea runner,3/11/2025,4/2/2025,10,8,250\n\
                Moon runner,5/1/2026,,12 1/2,9,2 m\n";
    let form = ImportForm { text: text.into(), ..ImportForm::default() };
    // The settings use other units.
    let format = DisplayFormat { month_first: true, ..DisplayFormat::of_locale("de-DE") };
    let view =
        import::import_table(&mut commands(&mut journal, format), &mut ReportCache::new(), &form, &mut |_, _| true)
            .unwrap();
    let taken: Vec<&str> = view.columns.iter().map(|column| column.field.as_str()).collect();
    let wanted = ["name", "begun_on", "state_on", "reed_width_mm", "picks_per_10cm", "wound_mm"];
    assert_eq!((view.list.as_str(), taken.as_slice()), ("warps", wanted.as_slice()));
    let shown: Vec<String> = view.shown[0].iter().map(|cell| cell.replace('\u{a0}', " ")).collect();
    assert_eq!(
        shown,
        ["Sea runner", "March 11, 2025", "off the loom, April 2, 2025", "25,5 cm", "31,5 per 10 cm", "250 cm"]
    );

    let logs = model::warp_logs(journal.state());
    let warp = |name: &str| &logs.values().find(|log| log.warp.name == name).unwrap().warp;
    let (sea, moon) = (warp("Sea runner"), warp("Moon runner"));
    assert_eq!((sea.state, moon.state), (WarpState::OffTheLoom, WarpState::OnTheLoom));
    assert_eq!(sea.state_on.unwrap().to_string(), "2025-04-02");
    assert!((sea.reed_width_mm.unwrap() - 254.0).abs() < 1e-9 && (moon.reed_width_mm.unwrap() - 317.5).abs() < 1e-9);
    assert!((sea.picks_per_10cm.unwrap() - 8.0 / 2.54 * 10.0).abs() < 1e-9);
    assert_eq!((sea.wound_mm, moon.wound_mm), (Some(2500.0), Some(2000.0)));

    // Hours are no minutes.
    let text = "warp,date,hours,picks\nMoon runner,5/2/2026,1.5,90\nMoon runner,5/3/2026,0:40,40\n";
    let form = ImportForm { text: text.into(), ..ImportForm::default() };
    let view =
        import::import_table(&mut commands(&mut journal, format), &mut ReportCache::new(), &form, &mut |_, _| true)
            .unwrap();
    assert_eq!(view.shown[0][2].replace('\u{a0}', " "), "1 h 30 min");
    let logs = model::warp_logs(journal.state());
    let minutes: Vec<_> = logs.values().flat_map(|log| &log.sittings).map(|sitting| sitting.minutes).collect();
    assert_eq!(minutes, [Some(90.0), Some(40.0)]);
}

#[test]
fn columns_can_be_chosen_and_rows_without_a_warp_get_the_one_chosen() {
    let (_place, mut journal) = with_a_warp();
    let warp = model::warp_logs(journal.state()).keys().next().unwrap().to_string();
    let mut form = ImportForm {
        text: "a,b\n2026-11-03,40\n2026-11-04,55\n".into(),
        list: "sittings".into(),
        ..ImportForm::default()
    };
    let format = DisplayFormat::default();
    let view =
        import::preview(journal.state(), &mut ReportCache::new(), &form, &format, today(), &mut |_, _| true).unwrap();
    assert!(view.needs_warp && view.good == 0, "{view:?}");
    form.columns = vec!["on".into(), "picks".into()];
    form.warp = warp;
    assert_eq!(
        import::preview(journal.state(), &mut ReportCache::new(), &form, &format, today(), &mut |_, _| true)
            .unwrap()
            .good,
        2
    );
    form.columns = vec!["on".into(), "on".into()];
    let twice =
        import::import_table(&mut commands(&mut journal, format), &mut ReportCache::new(), &form, &mut |_, _| true)
            .unwrap_err();
    assert_eq!(twice.field.as_deref(), Some("columns"));
}

#[test]
fn what_is_no_table_is_refused_and_strokes_follow_the_reader() {
    let (_place, mut journal) = with_a_warp();
    let refused = |text: &str| {
        let form = ImportForm { text: text.into(), ..ImportForm::default() };
        import::preview(
            journal.state(),
            &mut ReportCache::new(),
            &form,
            &DisplayFormat::default(),
            today(),
            &mut |_, _| true,
        )
        .is_err()
    };
    assert!(refused("") && refused("\n\n"));
    let form = ImportForm { text: "warp,date,picks\nSea runner,11/03/2026,40\n".into(), ..ImportForm::default() };
    import::import_table(
        &mut commands(&mut journal, DisplayFormat::of_locale("en-US")),
        &mut ReportCache::new(),
        &form,
        &mut |_, _| true,
    )
    .unwrap();
    let logs = model::warp_logs(journal.state());
    assert_eq!(logs.values().next().unwrap().sittings[0].on.to_string(), "2026-11-03");
    assert_eq!(import::decode(b"\xef\xbb\xbfna\xc3\xafve"), "na\u{ef}ve");
    assert_eq!(import::decode(b"na\xefve"), "na\u{ef}ve");
}

/// The same spreadsheet is brought in again after some more evenings: only what is new comes in, with ids and without.
#[test]
fn what_is_here_already_does_not_come_in_twice() {
    let (_place, mut journal) = with_a_warp();
    let mut bring = |list: &str, text: &str| {
        let form = ImportForm { text: text.into(), list: list.into(), ..ImportForm::default() };
        let reported = import::import_table(
            &mut commands(&mut journal, DisplayFormat::default()),
            &mut ReportCache::new(),
            &form,
            &mut |_, _| true,
        );
        reported.map(|reported| {
            (reported.good, reported.refused.into_iter().map(|row| (row.line, row.why)).collect::<Vec<_>>())
        })
    };
    let same = "The same is here already.";
    let rows = "warp,on,picks\nSea runner,2026-11-03,40\nSea runner,2026-11-04,55\n";
    assert_eq!(bring("sittings", rows).unwrap(), (2, vec![]));
    assert!(sentence(&bring("sittings", rows).unwrap_err()).contains(same));
    let longer = format!("{rows}Sea runner,2026-11-05,55\n");
    assert_eq!(bring("sittings", &longer).unwrap(), (1, vec![(2, same.into()), (3, same.into())]));

    // A row that goes by its id is the same though something else of it changed, here and within one table.
    let by_id = "It is here already, under the same id.";
    let with_ids = "warp,sitting_id,on,picks\nSea runner,s1,2026-11-06,40\nSea runner,s1,2026-11-07,41\n";
    assert_eq!(bring("sittings", with_ids).unwrap(), (1, vec![(3, by_id.into())]));
    let changed = with_ids.replace(",40", ",90").replace(",41", ",91");
    assert!(sentence(&bring("sittings", &changed).unwrap_err()).contains(by_id));

    // A warp is known by its name and the day it was begun.
    let warps = "name,begun_on,note\nMoon runner,2025-03-09,one\nMoon runner,2026-03-09,another\n";
    assert_eq!(bring("warps", warps).unwrap(), (2, vec![]));
    assert!(sentence(&bring("warps", &warps.replace("one", "other words")).unwrap_err()).contains(same));
}

#[test]
fn days_are_read_in_one_order_or_refused() {
    let read_as = |locale: &str, day: &str| {
        let (_place, mut journal) = with_a_warp();
        let text = format!("warp;date;picks\nSea runner;{day};40\n");
        let form = ImportForm { text, ..ImportForm::default() };
        let reported = import::import_table(
            &mut commands(&mut journal, DisplayFormat::of_locale(locale)),
            &mut ReportCache::new(),
            &form,
            &mut |_, _| true,
        );
        let logs = model::warp_logs(journal.state());
        let kept = logs.values().next().unwrap().sittings.first().map(|sitting| sitting.on.to_string());
        assert_eq!(reported.is_ok(), kept.is_some());
        kept.unwrap_or_else(|| sentence(&reported.unwrap_err()))
    };
    for (locale, day, wanted) in [
        // With strokes in the order of the settings, unless it can only be the other.
        ("en-US", "11/03/2026", "2026-11-03"),
        ("en-GB", "11/03/2026", "2026-03-11"),
        ("en-US", "13/03/2026", "2026-03-13"),
        ("en-GB", "03/13/2026", "2026-03-13"),
        // With points the day stands first, and the year first is never turned round.
        ("en-US", "11.03.2026", "2026-03-11"),
        ("de-DE", "11.03.2026", "2026-03-11"),
        ("en-US", "2026-03-11", "2026-03-11"),
        ("en-GB", "2026/03/11", "2026-03-11"),
    ] {
        assert_eq!(read_as(locale, day), wanted, "{day} in {locale}");
    }
    // Month and day are not exchanged to make a day of it, no day is invented, and no century is guessed.
    for (locale, day) in [
        ("de-DE", "11.13.2026"),
        ("en-GB", "2026-13-03"),
        ("en-US", "13/13/2026"),
        ("en-GB", "31/02/2026"),
        ("en-US", "11/03/26"),
        ("de-DE", "3.11.26"),
    ] {
        let why = read_as(locale, day);
        assert!(why.contains(day) && why.contains("is no day"), "{day} in {locale}: {why}");
    }
}

#[test]
fn what_could_be_misread_is_shown_as_it_was_understood() {
    let (_place, mut journal) = with_a_warp();
    let shown = |journal: &mut Journal, locale: &str| {
        let text = "warp;date;picks;measured\nSea runner;03/11/2026;40;12\n".to_owned();
        let form = ImportForm { text, ..ImportForm::default() };
        let format = DisplayFormat::of_locale(locale);
        import::preview(journal.state(), &mut ReportCache::new(), &form, &format, today(), &mut |_, _| true)
            .unwrap()
            .shown
            .concat()
    };
    assert_eq!(shown(&mut journal, "de-DE"), ["Sea runner", "3 November 2026", "40", "12\u{a0}cm"]);
    assert_eq!(shown(&mut journal, "en-US"), ["Sea runner", "March 11, 2026", "40", "12\u{a0}in"]);
}

#[test]
fn a_table_stopped_at_any_row_leaves_nothing_behind() {
    let (_from, mut from) = journal("laptop");
    sample::fill(&mut from, today()).unwrap();
    let form = ImportForm { text: export::sittings_csv(from.state(), None).unwrap(), ..ImportForm::default() };
    let warps = ImportForm { text: export::list_csv(from.state(), "warps", None).unwrap(), ..ImportForm::default() };
    let (_to, mut to) = journal("other");
    import::import_table(
        &mut commands(&mut to, DisplayFormat::default()),
        &mut ReportCache::new(),
        &warps,
        &mut |_, _| true,
    )
    .unwrap();
    let before = to.state().len();
    let mut reports = 0;
    let mut look = |_, _| {
        reports += 1;
        true
    };
    import::preview(to.state(), &mut ReportCache::new(), &form, &DisplayFormat::default(), today(), &mut look).unwrap();
    assert!(reports > 2, "{reports}");
    for stop_at in 1..=reports {
        let mut received = 0;
        let mut heed = |_, _| {
            received += 1;
            received < stop_at
        };
        let stopped = import::import_table(
            &mut commands(&mut to, DisplayFormat::default()),
            &mut ReportCache::new(),
            &form,
            &mut heed,
        )
        .unwrap_err();
        assert_eq!((stopped.field.as_deref(), received), (Some(import::STOPPED), stop_at));
        assert_eq!(to.state().len(), before);
    }
}

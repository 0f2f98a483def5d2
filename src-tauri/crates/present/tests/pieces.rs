//! Pieces of different sizes on one warp: a scarf and two mug rugs, from the plan to the last pick.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

use chrono::NaiveDate;
use fellmark_journal::{EntryDraft, Journal, Options, RecordId};
use fellmark_model as model;
use fellmark_model::commands::Commands;
use fellmark_model::display_format::DisplayFormat;
use fellmark_present::figures::loose;
use fellmark_present::overview;
use fellmark_present::plan;
use fellmark_present::view::{BandKind, LoomView, OffForm, PlanForm, SittingForm, WarpForm};
use fellmark_reports::report_cache::ReportCache;
use serde_json::json;
use tempfile::TempDir;

fn today() -> NaiveDate {
    "2026-11-25".parse().unwrap()
}

struct Room {
    _place: TempDir,
    journal: Journal,
}

impl Room {
    fn new() -> Self {
        let place = tempfile::tempdir().unwrap();
        std::fs::create_dir(place.path().join("folder")).unwrap();
        let options = Options::new(place.path().join("folder"), place.path().join("local"), "laptop").create();
        Self { journal: Journal::open(options).unwrap(), _place: place }
    }

    fn commands(&mut self) -> Commands<'_> {
        Commands { journal: &mut self.journal, format: DisplayFormat::default(), today: today() }
    }

    fn look(&self, warp: &RecordId) -> LoomView {
        overview::warp_view(&self.journal, warp, 0, &DisplayFormat::default(), today()).unwrap()
    }

    fn log(&mut self, warp: &RecordId, picks: &str, measured: &str) {
        let form = SittingForm { picks: picks.into(), measured: measured.into(), ..SittingForm::default() };
        self.commands().log_sitting(warp, &form, None).unwrap();
    }
}

/// 180 cm and twice 15 cm as they lie on the loom, no loss, no take-up: plain sums.
fn scarf_and_rugs() -> WarpForm {
    WarpForm {
        name: "Scarf and mug rugs".into(),
        wound: "280 cm".into(),
        waste: "50 cm".into(),
        wanted: "180, 15, 15 cm".into(),
        wanted_state: "under_tension".into(),
        fringe: "2 cm".into(),
        gap: "3 cm".into(),
        picks: "40".into(),
        warp_per_100: "100".into(),
        ..WarpForm::default()
    }
}

fn close(got: f64, wanted: f64) {
    assert!((got - wanted).abs() < 1e-6, "{got} is not {wanted}");
}

#[test]
fn each_piece_has_its_own_length() {
    let mut room = Room::new();
    let warp = room.commands().begin_warp(&scarf_and_rugs()).unwrap();
    let view = room.look(&warp);
    close(view.figures.wanted_mm, 2100.0);
    // 280 - 50 of waste - 6 x 2 of fringe - 2 x 3 between.
    close(view.figures.warp_left_mm.unwrap(), 2120.0);
    let why = loose(&view.warp_reach.why.join("\n"));
    assert!(why.contains("12 cm fringe") && why.contains("6 cm between pieces"), "{why}");

    // Each piece to scale, with fringe and gap between them.
    let drawn: Vec<(BandKind, f64)> =
        view.picture.bands.iter().map(|band| (band.kind, (band.to_mm - band.from_mm).round())).collect();
    let cloth: Vec<f64> = drawn.iter().filter(|(kind, _)| *kind == BandKind::ToWeave).map(|(_, mm)| *mm).collect();
    assert_eq!(cloth, [1800.0, 150.0, 150.0]);
    let gaps = view.picture.bands.iter().filter(|band| band.label.starts_with("gap between pieces"));
    assert_eq!(gaps.map(|band| (band.to_mm - band.from_mm).round()).collect::<Vec<_>>(), [30.0, 30.0]);
    close(view.picture.whole_mm, 2800.0);

    for (picks, measured, reported) in [
        ("200", "50 cm", "Piece 1 of 3: 50 cm of 180 cm."),
        ("552", "188 cm", "Piece 2 of 3: 8 cm of 15 cm."),
        ("48", "200 cm", "Piece 3 of 3: 5 cm of 15 cm."),
    ] {
        room.log(&warp, picks, measured);
        let more = room.look(&warp).progress.more;
        assert!(more.iter().any(|line| loose(line) == reported), "{reported} in {more:?}");
    }
    assert_eq!(room.look(&warp).figures.to_weave_picks, 40);
    let woven: f64 = {
        let bands = room.look(&warp).picture.bands;
        bands.iter().filter(|band| band.kind == BandKind::Woven).map(|band| band.to_mm - band.from_mm).sum()
    };
    close(woven, 2000.0);
    // What is planned beside what came out is of all three together.
    room.commands().cut_off(&warp, &OffForm { off_loom: "200 cm".into(), ..OffForm::default() }, &[]).unwrap();
    let rows = room.look(&warp).off.planned_and_actual;
    let row = rows.iter().find(|row| row.what.starts_with("Woven on the loom")).unwrap();
    assert_eq!((row.what.as_str(), loose(&row.planned)), ("Woven on the loom, 3 pieces together", "210 cm".into()));
}

#[test]
fn a_warp_too_short_says_how_far_it_reaches() {
    let mut room = Room::new();
    let warp = room.commands().begin_warp(&WarpForm { wound: "265 cm".into(), ..scarf_and_rugs() }).unwrap();
    let more = room.look(&warp).warp_reach.more;
    // 197 cm are possible, some less surely: the first rug not quite, and nothing after it.
    let reported = more.iter().find(|line| line.starts_with("For a 90% chance: ")).unwrap();
    assert!(reported.contains(" on the loom for piece 2,") && reported.ends_with("no piece after it."), "{reported}");
}

#[test]
fn a_warp_too_short_for_any_piece_speaks_of_none() {
    let mut room = Room::new();
    for form in [scarf_and_rugs(), WarpForm { wanted: "180 cm".into(), pieces: "1".into(), ..scarf_and_rugs() }] {
        let warp = room.commands().begin_warp(&WarpForm { wound: "56 cm".into(), ..form }).unwrap();
        let view = room.look(&warp);
        assert!(view.warp_reach.headline.starts_with("Not enough warp"), "{}", view.warp_reach.headline);
        let more = view.warp_reach.more.join(" ");
        assert!(!more.contains("piece"), "{more}");
    }
}

#[test]
fn the_form_takes_lengths_as_written_and_counts_the_pieces() {
    let mut room = Room::new();
    let warp = room.commands().begin_warp(&scarf_and_rugs()).unwrap();
    let fields = |room: &Room| room.journal.state().record(&warp).unwrap().fields.clone();
    let value = |room: &Room, name: &str| fields(room).get(name).map(|field| field.used().clone());
    assert_eq!(value(&room, "wanted_each_mm"), Some(json!([1800.0, 150.0, 150.0])));
    assert_eq!(value(&room, "pieces"), Some(json!(3)));
    assert_eq!(value(&room, "wanted_mm"), Some(json!(700.0)), "the mean, for versions that know one length only");

    // The form comes back as it stands, and keeping it changes nothing.
    let form = room.look(&warp).form;
    assert_eq!((form.wanted.as_str(), form.pieces.as_str(), form.gap.as_str()), ("180 cm; 15 cm; 15 cm", "", "3 cm"));
    let entries = room.journal.state().entries().count();
    for format in [DisplayFormat::default(), DisplayFormat::of_locale("en-US"), DisplayFormat::of_locale("de-DE")] {
        let form = overview::warp_view(&room.journal, &warp, 0, &format, today()).unwrap().form;
        let mut commands = Commands { journal: &mut room.journal, format, today: today() };
        commands.change_warp(&warp, &form, &[]).unwrap();
    }
    assert_eq!(room.journal.state().entries().count(), entries);

    let refused =
        room.commands().change_warp(&warp, &WarpForm { pieces: "2".into(), ..form.clone() }, &[]).unwrap_err();
    assert_eq!(refused.field.as_deref(), Some("pieces"));
    let refused = fellmark_present::messages::error_view(refused, &DisplayFormat::default());
    assert!(refused.sentence.starts_with("3 lengths are wanted"), "{refused:?}");
    room.commands().change_warp(&warp, &WarpForm { wanted: "180; 20 cm".into(), ..form.clone() }, &[]).unwrap();
    assert_eq!((value(&room, "pieces"), value(&room, "wanted_mm")), (Some(json!(2)), Some(json!(1000.0))));
    // All alike again: one length and a number.
    room.commands().change_warp(&warp, &WarpForm { wanted: "60 cm".into(), pieces: "4".into(), ..form }, &[]).unwrap();
    assert_eq!((value(&room, "pieces"), value(&room, "wanted_each_mm")), (Some(json!(4)), Some(json!(null))));
    close(room.look(&warp).figures.wanted_mm, 2400.0);
    // Undo brings number, mean and lengths back together.
    room.commands().undo().unwrap();
    close(room.look(&warp).figures.wanted_mm, 2000.0);
    assert_eq!(room.look(&warp).form.wanted, "180 cm; 20 cm");
}

#[test]
fn a_version_that_knows_one_length_only_is_believed() {
    let mut room = Room::new();
    let warp = room.commands().begin_warp(&scarf_and_rugs()).unwrap();
    // It writes number or mean alone, and carries the lengths it does not know.
    for (field, value, wanted_mm) in [("pieces", json!(2), 1400.0), ("wanted_mm", json!(900.0), 1800.0)] {
        let mut set = serde_json::Map::new();
        set.insert(field.into(), value);
        let draft = EntryDraft::on(room.journal.state().record(&warp).unwrap(), set);
        room.journal.write(vec![draft]).unwrap();
        let log = model::warp_log(room.journal.state(), &warp).unwrap();
        assert!(log.warp.wanted_each_mm.is_empty(), "{field}");
        close(room.look(&warp).figures.wanted_mm, wanted_mm);
    }
}

#[test]
fn what_was_planned_becomes_what_is_woven() {
    let mut room = Room::new();
    let form = PlanForm {
        name: "Scarf and mug rugs".into(),
        length: "180 cm".into(),
        further: "2 x 15 cm".into(),
        width: "15 cm".into(),
        sett: "40".into(),
        gap: "4 cm".into(),
        edge: "hem".into(),
        edge_length: "1 cm".into(),
        waste: "50 cm".into(),
        ..PlanForm::default()
    };
    let view = plan::plan_view_of_state(room.journal.state(), &form, &DisplayFormat::default(), today());
    assert!(loose(&view.headline).contains("180 cm and 2 pieces of 15 cm"), "{}", view.headline);
    assert!(view.warnings.is_empty(), "{:?}", view.warnings);
    let history = ReportCache::of_state(room.journal.state()).history();
    let planned = plan::planned_warp(&history, &form, &DisplayFormat::default(), today()).unwrap();
    let warp = room.commands().begin_planned(&planned, None).unwrap();
    let log = model::warp_log(room.journal.state(), &warp).unwrap();
    // Hems are woven with their piece.
    assert_eq!(log.warp.wanted_each_mm, [1820.0, 170.0, 170.0]);
    close(log.warp.gap_mm, 40.0);
    close(log.warp.waste_mm.unwrap(), 500.0);
    let (wanted, planned) = (
        log.warp.piece_ends(fellmark_cloth::change::Release::NONE).whole().unwrap().mm(),
        view.plain.woven_mm.unwrap(),
    );
    assert!((wanted - planned).abs() < 1.0, "{wanted} {planned}");
    // The whole of it is the warp that was to be wound, to the rounding.
    let spare = view.plain.warp_mm.unwrap() - view.plain.warp_exact_mm.unwrap();
    let picture = room.look(&warp).picture;
    let drawn: f64 =
        picture.bands.iter().filter(|band| band.kind == BandKind::Spare).map(|band| band.to_mm - band.from_mm).sum();
    assert!((drawn - spare).abs() < 3.0, "{drawn} {spare}");
    // Copied into the next plan it is the same wish.
    let copied = &plan::earlier_plans(room.journal.state(), &mut ReportCache::new(), &DisplayFormat::default())[0].form;
    assert_eq!((copied.length.as_str(), copied.pieces.as_str()), ("180 cm", "1"));
    assert_eq!((copied.further.as_str(), copied.gap.as_str()), ("15 cm; 15 cm", "4 cm"));
}

//! What is kept of each warp: that it is what calculating everything again would give, and that nothing is calculated needlessly.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

use std::collections::BTreeSet;

use chrono::NaiveDate;
use fellmark_journal::{At, Entry, EntryDraft, EntrySet, GONE, Journal, Key, Kind, Options, Place, RecordId};
use fellmark_model::commands::Commands;
use fellmark_model::display_format::DisplayFormat;
use fellmark_model::running::{Running, Tap};
use fellmark_model::undo;
use fellmark_present::export::{self, ExportRequest};
use fellmark_present::import;
use fellmark_present::overview::{self, Presenter};
use fellmark_present::pace::{self, PaceQuery};
use fellmark_present::plan;
use fellmark_present::view::{ImportForm, OffForm, PlanForm, SittingForm, WarpForm, WarpState};
use fellmark_reports::report_cache::ReportCache;
use proptest::prelude::*;
use serde_json::{Value, json};
use tempfile::TempDir;

const DEVICES: [&str; 2] = ["laptop", "phone"];

fn today() -> NaiveDate {
    "2026-11-25".parse().unwrap()
}

/// Two devices on one folder.
struct Two {
    place: TempDir,
    journals: Vec<Journal>,
}

impl Two {
    fn new() -> Self {
        let place = tempfile::tempdir().unwrap();
        std::fs::create_dir(place.path().join("folder")).unwrap();
        let open = |device: &str| {
            let options = Options::new(place.path().join("folder"), place.path().join(device), device).create();
            Journal::open(options).unwrap()
        };
        let journals = DEVICES.map(open).into();
        Self { place, journals }
    }

    fn commands(&mut self, device: usize) -> Commands<'_> {
        Commands { journal: &mut self.journals[device], format: DisplayFormat::default(), today: today() }
    }

    fn begin(&mut self, name: &str) -> RecordId {
        self.commands(0).begin_warp(&warp(name)).unwrap()
    }

    /// What the first device sees once everything has arrived.
    fn arrive(&mut self) -> &Journal {
        for journal in &mut self.journals {
            journal.refresh(&[]).unwrap();
        }
        &self.journals[0]
    }
}

fn warp(name: &str) -> WarpForm {
    WarpForm {
        name: name.into(),
        wound: "250 cm".into(),
        waste: "45 cm".into(),
        wanted: "180 cm".into(),
        wanted_state: "under_tension".into(),
        picks: "40".into(),
        warp_per_100: "110".into(),
        weft_name: "grey".into(),
        weft_mass: "90 g".into(),
        ..WarpForm::default()
    }
}

fn sitting(on: &str, picks: u32) -> SittingForm {
    SittingForm { on: on.into(), picks: picks.to_string(), minutes: "40".into(), ..SittingForm::default() }
}

fn going(warp: &RecordId) -> Running {
    Running::begun(&Tap {
        sitting: "s0000000000000000009".parse().unwrap(),
        warp: warp.clone(),
        by: 3,
        begun: None,
        pause: None,
        at_ms: 0,
        local: "2026-11-25T19:00".into(),
    })
}

/// Everything that is shown of a journal, from the cache.
fn reported(journal: &Journal, kept: &mut ReportCache) -> Vec<String> {
    let format = DisplayFormat::default();
    let mut look = Presenter::new(journal, kept, &format, today());
    let lines = look.warp_lines();
    let mut all = vec![format!("{lines:?}"), format!("{:?}", look.folder(&chrono::Utc))];
    for line in &lines {
        let id = line.id.parse().unwrap();
        all.push(format!("{:?}", look.loom(&id, None)));
        all.push(format!("{:?}", look.loom(&id, Some(&going(&id)))));
    }
    all.push(format!("{:?}", pace::view_of(kept, &PaceQuery::default(), &format, today())));
    let form = PlanForm {
        length: "180 cm".into(),
        width: "20 cm".into(),
        sett: "40".into(),
        weft_name: "grey".into(),
        ..PlanForm::default()
    };
    all.push(format!("{:?}", plan::plan_view(&kept.history(), &form, &format, today())));
    all.push(format!("{:?}", plan::earlier_plans(journal.state(), kept, &format)));
    let about = lines.first().and_then(|line| line.id.parse().ok());
    for what in ["sheet", "progress", "pace", "chart-length", "sittings"] {
        let wanted = ExportRequest { what: what.into(), warp: about.clone(), split: String::new() };
        all.push(format!("{:?}", export::export_file(journal, kept, &wanted, &format, today())));
    }
    let table = ImportForm {
        text: "warp,on,minutes,picks\nwarp,2026-11-20,40,30\nwarp 1,2026-11-20,40,50".into(),
        ..ImportForm::default()
    };
    all.push(format!("{:?}", import::preview(journal.state(), kept, &table, &format, today(), &mut |_, _| true)));
    all
}

fn reported_afresh(journal: &Journal) -> Vec<String> {
    reported(journal, &mut ReportCache::new())
}

#[test]
fn one_file_that_arrives_costs_one_warp() {
    let mut two = Two::new();
    let warps: Vec<RecordId> = (0..6).map(|n| two.begin(&format!("warp {n}"))).collect();
    for (n, warp) in warps.iter().enumerate() {
        two.commands(0).log_sitting(warp, &sitting("2026-11-20", 30 + n as u32), None).unwrap();
        if n < 3 {
            two.commands(0).set_warp_state(warp, WarpState::OffTheLoom).unwrap();
        }
    }
    two.arrive();
    let mut kept = ReportCache::new();
    let before = reported(&two.journals[0], &mut kept);
    // Of a warp off the loom the lists need only a sum; the whole of it was asked for besides.
    assert_eq!(kept.count(), 6 + 3);
    assert_eq!(reported(&two.journals[0], &mut kept), before);
    assert_eq!(kept.count(), 9, "nothing changed");
    for (n, warp) in [(3, &warps[3]), (4, &warps[4])] {
        two.commands(1).log_sitting(warp, &sitting("2026-11-24", 50), None).unwrap();
        let now = reported(two.arrive(), &mut kept);
        assert_eq!(kept.count(), 10 + n - 3, "one warp, and that one once");
        assert_ne!(now, before);
        assert_eq!(now, reported_afresh(&two.journals[0]));
    }
}

#[test]
fn what_depends_on_the_day_and_the_format_is_not_kept() {
    let mut two = Two::new();
    let warp = two.begin("warp");
    two.commands(0).log_sitting(&warp, &sitting("2026-11-20", 30), None).unwrap();
    let journal = &two.journals[0];
    let mut kept = ReportCache::new();
    let imperial = DisplayFormat::default().in_units(fellmark_model::display_format::Units::Imperial);
    for format in [DisplayFormat::default(), imperial] {
        for day in ["2026-11-25", "2026-12-24", "2026-11-25"] {
            let day = day.parse().unwrap();
            let lines = Presenter::new(journal, &mut kept, &format, day).warp_lines();
            assert_eq!(lines, overview::warp_lines(journal, &format, day));
        }
    }
    assert_eq!(kept.count(), 1);
}

#[test]
fn entries_that_come_one_by_one_amount_to_what_they_do_together() {
    let two = Two::new();
    let mut journal = two.journals.into_iter().next().unwrap();
    fellmark_session::sample::fill(&mut journal, today()).unwrap();
    for n in 0..30 {
        let mut commands = Commands { journal: &mut journal, format: DisplayFormat::default(), today: today() };
        let warp = commands.begin_warp(&warp(&format!("warp {n}"))).unwrap();
        commands.log_sitting(&warp, &sitting("2026-11-20", 30 + n), None).unwrap();
    }
    let together = ReportCache::of_state(journal.state());
    let mut one_by_one = EntrySet::new();
    let mut kept = ReportCache::new();
    for entry in journal.state().entries() {
        one_by_one.insert(entry.clone());
        if one_by_one.len().is_multiple_of(7) {
            kept.refresh(&one_by_one);
        }
    }
    kept.refresh(&one_by_one);
    assert!(together.summaries().count() == 42 && together.summaries().eq(kept.summaries()));
}

/// Something done on one of the devices, with or without having seen what the other did.
#[derive(Clone, Debug)]
enum TestAction {
    Begin,
    Log { warp: usize, day: u32, picks: u32, measured: bool },
    Correct { warp: usize, sitting: usize, picks: u32 },
    Remove { warp: usize, sitting: usize },
    Rename { warp: usize, name: String },
    EntrySet { warp: usize, state: usize },
    CutOff { warp: usize },
    Tick { warp: usize },
    RemoveWarp { warp: usize },
    Undo,
    Arrive,
}

fn action() -> impl Strategy<Value = TestAction> {
    let (warp, sitting) = (0_usize..4, 0_usize..4);
    prop_oneof![
        1 => Just(TestAction::Begin),
        4 => (warp.clone(), 1_u32..25, 1_u32..200, any::<bool>())
            .prop_map(|(warp, day, picks, measured)| TestAction::Log { warp, day, picks, measured }),
        2 => (warp.clone(), sitting.clone(), 1_u32..200)
            .prop_map(|(warp, sitting, picks)| TestAction::Correct { warp, sitting, picks }),
        1 => (warp.clone(), sitting).prop_map(|(warp, sitting)| TestAction::Remove { warp, sitting }),
        1 => (warp.clone(), "[a-c]{1,2}").prop_map(|(warp, name)| TestAction::Rename { warp, name }),
        2 => (warp.clone(), 0_usize..3).prop_map(|(warp, state)| TestAction::EntrySet { warp, state }),
        1 => warp.clone().prop_map(|warp| TestAction::CutOff { warp }),
        1 => warp.clone().prop_map(|warp| TestAction::Tick { warp }),
        1 => warp.prop_map(|warp| TestAction::RemoveWarp { warp }),
        1 => Just(TestAction::Undo),
        3 => Just(TestAction::Arrive),
    ]
}

fn nth<T: Clone>(all: impl Iterator<Item = T>, n: usize) -> Option<T> {
    let all: Vec<T> = all.collect();
    all.get(n % all.len().max(1)).cloned()
}

/// Does it, where there is something to do it to; what is refused is refused.
fn done(two: &mut Two, device: usize, action: &TestAction) {
    let of = |two: &Two, n: usize| nth(two.journals[device].state().warp_ids().cloned(), n);
    let sitting_of = |two: &Two, warp: usize, n: usize| {
        let (state, warp) = (two.journals[device].state(), of(two, warp)?);
        let records = state.of_warp(&warp).filter(|record| record.kind == Kind::SITTING);
        nth(records.map(|record| record.id.clone()), n)
    };
    match action {
        TestAction::Begin => drop(two.commands(device).begin_warp(&warp("another"))),
        TestAction::Log { warp, day, picks, measured } => {
            let Some(warp) = of(two, *warp) else { return };
            let measured = if *measured { format!("{picks} cm") } else { String::new() };
            let form = SittingForm { measured, ..sitting(&format!("2026-11-{day:02}"), *picks) };
            drop(two.commands(device).log_sitting(&warp, &form, None));
        }
        TestAction::Correct { warp, sitting: n, picks } => {
            let Some(id) = sitting_of(two, *warp, *n) else { return };
            drop(two.commands(device).correct_sitting(&id, &sitting("2026-11-12", *picks), &[]));
        }
        TestAction::Remove { warp, sitting } => {
            let Some(id) = sitting_of(two, *warp, *sitting) else { return };
            drop(two.commands(device).remove(&id));
        }
        TestAction::Rename { warp: n, name } => {
            let Some(id) = of(two, *n) else { return };
            drop(two.commands(device).change_warp(&id, &warp(name), &[]));
        }
        TestAction::EntrySet { warp, state } => {
            let Some(id) = of(two, *warp) else { return };
            let state = [WarpState::OnTheLoom, WarpState::Resting, WarpState::OffTheLoom][*state];
            drop(two.commands(device).set_warp_state(&id, state));
        }
        TestAction::CutOff { warp } => {
            let Some(id) = of(two, *warp) else { return };
            let form = OffForm { finished: "160 cm".into(), thrums: "30 cm".into(), ..OffForm::default() };
            drop(two.commands(device).cut_off(&id, &form, &[]));
        }
        TestAction::Tick { warp } => {
            let Some(id) = of(two, *warp) else { return };
            let Ok(step) = format!("{id}-wash").parse() else { return };
            drop(two.commands(device).tick_step(&id, &step, Some("")));
        }
        TestAction::RemoveWarp { warp } => {
            let Some(id) = of(two, *warp) else { return };
            drop(two.commands(device).remove(&id));
        }
        TestAction::Undo => drop(two.commands(device).undo()),
        TestAction::Arrive => drop(two.arrive()),
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, max_shrink_iters: 200, ..ProptestConfig::default() })]

    /// Whatever is done on two devices, what is kept says what making every report again would say.
    #[test]
    fn the_cache_reports_what_a_fresh_calculation_would(actions in prop::collection::vec((0_usize..2, action()), 1..24)) {
        let mut two = Two::new();
        two.begin("first");
        two.arrive();
        let mut kept = ReportCache::new();
        for (n, (device, action)) in actions.iter().enumerate() {
            done(&mut two, *device, action);
            for journal in &two.journals {
                let found = undo::undoable(journal.state(), journal.device()).map(|found| act_taken_back(&found));
                prop_assert_eq!(found, latest_act(journal), "after {} {:?}", n, action);
            }
            let anew = reported_afresh(&two.journals[0]);
            prop_assert_eq!(&reported(&two.journals[0], &mut kept), &anew, "after {} {:?}", n, action);
        }
        drop(two.place);
    }
}

/// The name of the action that an undo would take back.
fn act_taken_back(found: &undo::Undoable) -> String {
    let act = found.drafts.first().and_then(|draft| draft.set.get("act")).and_then(Value::as_str);
    act.and_then(|act| act.strip_prefix("undo ")).unwrap_or_default().to_owned()
}

fn act(entry: &Entry) -> Option<&str> {
    entry.set().get("act").and_then(Value::as_str)
}

/// The same, looked for among all entries: the latest action of the device that was not taken back, of which a field shows
/// what it wrote.
fn latest_act(journal: &Journal) -> Option<String> {
    let all: Vec<&Entry> = journal.state().entries().map(std::sync::Arc::as_ref).collect();
    let own = || all.iter().copied().filter(|entry| entry.by() == journal.device());
    let undone: Vec<&str> = own().filter_map(|entry| act(entry)?.strip_prefix("undo ")).collect();
    let mut shown = BTreeSet::new();
    for head in &all {
        for field in head.set().keys().filter(|field| *field != "act") {
            if !all.iter().any(|later| later.over().contains(&head.key()) && later.set().contains_key(field)) {
                shown.extend(shown_in(&all, head, field));
            }
        }
    }
    let stands = |entry: &&Entry| shown.contains(&entry.key());
    let standing = own().filter(stands).filter_map(|entry| Some((entry.at(), entry.key(), act(entry)?)));
    let fresh = standing.filter(|(_, _, act)| !act.starts_with("undo ") && !undone.contains(act));
    fresh.max().map(|(_, _, act)| act.to_owned())
}

/// The entry whose answer a field shows where this one is the latest: what was there before the action that it took back.
fn shown_in(all: &[&Entry], latest: &Entry, field: &str) -> Option<Key> {
    let Some(undone) = act(latest).and_then(|act| act.strip_prefix("undo ")) else { return Some(latest.key()) };
    let wrote = |entry: &&&Entry| entry.of() == latest.of() && entry.set().contains_key(field);
    let undone = all.iter().filter(wrote).find(|entry| act(entry) == Some(undone) && entry.by() == latest.by())?;
    let before = all.iter().filter(wrote).filter(|entry| undone.over().contains(&entry.key()));
    shown_in(all, before.max_by_key(|entry| (entry.at(), entry.key()))?, field)
}

/// An entry of any shape: of few records and places, so that they meet.
fn entry() -> impl Strategy<Value = Entry> {
    let id = |n: usize| -> RecordId { ["w1", "w2", "r1", "r2", "r3"][n].parse().unwrap() };
    let kind = |n: usize| Kind::new(["warp", "sitting", "weft", "finishing", "photo", "reading"][n]).unwrap();
    let field = prop_oneof![
        Just(("state", json!("off_the_loom"))),
        Just(("state_on", json!("2026-11-02"))),
        Just(("done_on", json!("2026-11-03"))),
        (1..30_u32).prop_map(|day| ("on", json!(format!("2026-11-{day:02}")))),
        any::<i64>().prop_map(|picks| ("picks", json!(picks))),
        any::<f64>().prop_map(|minutes| ("minutes", json!(minutes))),
        (0..9_u32).prop_map(|mm| ("measured_mm", json!(f64::from(mm) * 100.0))),
        (-2..9_i32).prop_map(|mm| ("finished_mm", json!(mm * 100))),
        (1..300_i32).prop_map(|picks| ("picks_per_10cm", json!(picks))),
        (1..5000_i32).prop_map(|mm| ("wanted_mm", json!(mm))),
        any::<bool>().prop_map(|gone| (GONE, json!(gone))),
        Just(("name", Value::Null)),
    ];
    let set = prop::collection::vec(field, 1..5);
    (0..5_usize, 0..3_usize, 0..6_usize, set, 0..60_u32).prop_map(move |(of, place, which, set, minute)| {
        let place = if place == 2 { Place::Shelf } else { Place::warp(&id(place)) };
        // Mostly what a warp's record is.
        let (kind, place) = if of < 2 && which > 0 { (kind(0), Place::warp(&id(of))) } else { (kind(which), place) };
        let set = set.into_iter().map(|(field, value)| (field.to_owned(), value)).collect();
        let at: At = serde_json::from_value(json!(format!("2026-11-25T10:{minute:02}:00.000Z.0000"))).unwrap();
        Entry::from_draft(EntryDraft::new(place, id(of), kind, set), &"laptop-k3m8pq".parse().unwrap(), at).unwrap()
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    /// Entries as no program of ours writes them: records that move between warps, nonsense in every field.
    #[test]
    fn strange_entries_leave_nothing_stale(entries in prop::collection::vec(entry(), 1..40)) {
        let mut state = EntrySet::new();
        let mut kept = ReportCache::new();
        for entry in entries {
            state.insert(entry);
            kept.refresh(&state);
            let anew = ReportCache::of_state(&state);
            prop_assert_eq!(shown(&kept), shown(&anew));
        }
    }
}

/// The summaries in words, so that a figure that is no number equals itself.
fn shown(all: &ReportCache) -> Vec<String> {
    all.summaries().map(|one| format!("{one:?}")).collect()
}

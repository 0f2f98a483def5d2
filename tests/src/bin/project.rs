//! Twenty years of one weaver, invented: 400 warps, 30,000 sittings. How long one warp's projection takes with all the others behind
//! it, and how long the reports of all 400 take beside opening the folder: at the start, after one file came, and when nothing
//! changed.
//!
//! `project [ROUNDS]`
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::fs;
use std::hint::black_box;
use std::path::Path;
use std::time::{Duration, Instant};

use chrono::{Days, NaiveDate};
use fellmark_journal::{At, DeviceId, Entry, EntryDraft, Journal, Kind, Options, Place, RecordId, render};
use fellmark_model::display_format::DisplayFormat;
use fellmark_present::overview::Presenter;
use fellmark_present::view::WarpState;
use fellmark_reports::finish_date::finish_date;
use fellmark_reports::history::History;
use fellmark_reports::report_cache::ReportCache;
use fellmark_reports::warp_report::WarpReport;
use fellmark_reports::warp_summary::WarpSummary;
use serde_json::{Value, json};

const WARPS: usize = 400;
const ON_THE_LOOM: usize = 4;
const SITTINGS_EACH: usize = 75;
/// As many finished warps as a weaver of a few years has.
const FEW: usize = 12;

fn main() {
    let rounds = std::env::args().nth(1).map_or(15, |word| word.parse().expect("a number of rounds"));
    let root = std::env::temp_dir().join(format!("fellmark-project-{}", std::process::id()));
    generate(&root);
    one_warp(&root);
    all_warps(&root, rounds);
    fs::remove_dir_all(&root).unwrap();
}

fn open(root: &Path, device: &str) -> Journal {
    Journal::open(Options::new(root.join("log"), root.join(device), device).create()).unwrap()
}

fn today() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 11, 25).unwrap()
}

/// The steps from one warp's records to its answer, each over and over.
fn one_warp(root: &Path) {
    let journal = open(root, "reader");
    let state = journal.state();
    let mut all = ReportCache::of_state(state);
    let history = all.history();
    let ids: Vec<RecordId> =
        all.summaries().filter(|one| one.state == WarpState::OnTheLoom).map(|one| one.id.clone()).collect();
    assert_eq!(ids.len(), ON_THE_LOOM);
    let wholes: Vec<WarpReport> = ids.iter().filter_map(|id| WarpReport::of(state, id)).collect();
    let repeat_and_time = |what: &str, step: &mut dyn FnMut(usize)| {
        let times = (0..2000).map(|n| {
            let began = Instant::now();
            step(n % ids.len());
            began.elapsed()
        });
        let times = sorted(times);
        let at = |share: f64| times[((times.len() - 1) as f64 * share) as usize].as_secs_f64() * 1e6;
        println!("one warp, {what:46} {:8.1} µs in the middle, {:8.1} µs 99 times in 100", at(0.5), at(0.99));
    };
    repeat_and_time("from its records to their summary", &mut |n| {
        black_box(WarpReport::of(state, &ids[n]).map(|whole| WarpSummary::of_report(&whole)));
    });
    let few = all.summaries().rev().filter(|one| one.state == WarpState::OffTheLoom).take(FEW);
    let few = History::of(few.map(AsRef::as_ref));
    for (behind, history) in [(FEW, &few), (WARPS - ON_THE_LOOM, &history)] {
        repeat_and_time(&format!("from there to its projection, {behind} behind it"), &mut |n| {
            black_box(finish_date(&wholes[n].log, &wholes[n].progress, history, today()));
        });
    }
    let format = DisplayFormat::default();
    repeat_and_time("everything that is shown of it, nothing changed", &mut |n| {
        black_box(Presenter::new(&journal, &mut all, &format, today()).loom(&ids[n], None));
    });
}

/// Opening, and then what is shown of all warps.
fn all_warps(root: &Path, rounds: usize) {
    let format = DisplayFormat::default();
    let mut other = open(root, "other");
    let mut runs: [Vec<Duration>; 5] = Default::default();
    for round in 0..rounds {
        let began = Instant::now();
        drop(open(root, &format!("new-{round}")));
        runs[4].push(began.elapsed());
        let began = Instant::now();
        let mut journal = open(root, "reader");
        runs[0].push(began.elapsed());
        let show_everything = |journal: &Journal, kept: &mut ReportCache| {
            let mut presenter = Presenter::new(journal, kept, &format, today());
            let lines = presenter.warp_lines();
            assert_eq!(lines.len(), WARPS);
            let first = lines[0].id.parse().unwrap();
            black_box((presenter.loom(&first, None), presenter.folder(&chrono::Utc), lines));
        };
        let elapsed_of = |step: &mut dyn FnMut()| {
            let began = Instant::now();
            step();
            began.elapsed()
        };
        let mut kept = ReportCache::new();
        runs[1].push(elapsed_of(&mut || show_everything(&journal, &mut kept)));
        let warp = kept.summaries().find(|one| one.state == WarpState::OnTheLoom).unwrap().id.clone();
        let set = json!({"on": today(), "minutes": 40, "picks": 30 + round});
        let set = set.as_object().unwrap().clone();
        other.write(vec![EntryDraft::new(Place::warp(&warp), RecordId::new(), Kind::SITTING, set)]).unwrap();
        journal.refresh(&[]).unwrap();
        let before = kept.count();
        runs[2].push(elapsed_of(&mut || show_everything(&journal, &mut kept)));
        assert_eq!(kept.count() - before, 1, "one warp changed");
        runs[3].push(elapsed_of(&mut || show_everything(&journal, &mut kept)));
    }
    let [opening, ..] = runs.each_ref().map(|run| sorted(run.iter().copied())[run.len() / 2].as_secs_f64());
    let names = [
        "opening",
        "everything shown, at the start",
        "everything shown, after one file came",
        "everything shown, nothing changed",
        "opening, on a device that never did",
    ];
    for (name, run) in names.iter().zip(&runs) {
        let middle = sorted(run.iter().copied())[run.len() / 2];
        println!("{WARPS} warps, {name:38} {middle:>10.1?} {:6.3} times opening", middle.as_secs_f64() / opening);
    }
}

fn sorted(times: impl Iterator<Item = Duration>) -> Vec<Duration> {
    let mut times: Vec<Duration> = times.collect();
    times.sort();
    times
}

/// A linear congruential generator: the same numbers in every run.
struct Lcg(u64);

impl Lcg {
    fn below(&mut self, end: u64) -> u64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % end
    }

    fn id(&mut self) -> RecordId {
        format!("{:010}{:010}", self.below(1 << 31), self.below(1 << 31)).parse().unwrap()
    }
}

/// Writes the folder as one device would: lengths measured now and then, a photo with most sittings, steps after cutting off.
fn generate(root: &Path) {
    let device = open(root, "writer").device().clone();
    let mut random = Lcg(11);
    for nth in 0..WARPS {
        let begun = NaiveDate::from_ymd_opt(2007, 1, 5).unwrap() + Days::new(nth as u64 * 18);
        let mut file = WarpFile { device: &device, warp: random.id(), day: begun, lines: Vec::new() };
        let off = nth + ON_THE_LOOM < WARPS;
        let warp = file.warp.clone();
        file.write(
            &warp,
            Kind::WARP,
            json!({
                "name": format!("Warp {nth}"), "begun_on": begun, "state": if off { "off_the_loom" } else { "on_the_loom" },
                "state_on": begun + Days::new(if off { 20 } else { 0 }), "wound_mm": 2750, "waste_mm": 450, "wanted_mm": 1800,
                "wanted_state": "under_tension", "picks_per_10cm": 40, "warp_per_100_cloth": 108, "finished_mm": 1640,
                "opening_rows": ["up", "down"], "repeat_rows": ["up", "stick", "up", "down"],
            }),
        );
        let mut picks = 0;
        for n in 0..SITTINGS_EACH {
            let (id, woven) = (random.id(), 4 + random.below(9));
            picks += woven;
            let on = begun + Days::new(n as u64 / 4);
            let measured = if n % 8 == 7 { json!(picks * 5 / 2) } else { Value::Null };
            let minutes = 10 + random.below(60);
            file.write(
                &id,
                Kind::SITTING,
                json!({
                    "on": on, "started": format!("{:02}:15", 8 + n % 12), "minutes": minutes, "picks": woven,
                    "measured_mm": measured, "note": "a quiet evening",
                }),
            );
            if n % 3 > 0 {
                let hash = format!("{:064x}", random.below(1 << 31));
                file.write(&random.id(), Kind::PHOTO, json!({"hash": hash, "sitting": id}));
            }
        }
        for (position, name) in (1..).zip(["Fringe", "Wash", "Dry", "Press"]).filter(|_| off) {
            let done = json!({"name": name, "position": position, "done_on": begun + Days::new(20 + position)});
            file.write(&random.id(), Kind::new("finishing").unwrap(), done);
        }
        let dir = root.join(format!("log/warps/warp-{nth}-{}", warp.short()));
        fs::create_dir_all(&dir).unwrap();
        let bytes = render(&device, 1, file.lines.iter().map(String::as_str));
        fs::write(dir.join(format!("{device}.0001.json")), bytes).unwrap();
    }
}

/// One warp's entries.
struct WarpFile<'a> {
    device: &'a DeviceId,
    warp: RecordId,
    day: NaiveDate,
    lines: Vec<String>,
}

impl WarpFile<'_> {
    fn write(&mut self, of: &RecordId, kind: Kind, set: Value) {
        let n = self.lines.len();
        let at = format!("{}T{:02}:{:02}:04.000Z.0000", self.day, n / 60 % 24, n % 60);
        let at: At = serde_json::from_value(Value::String(at)).unwrap();
        let set = set.as_object().cloned().unwrap();
        let draft = EntryDraft::new(Place::warp(&self.warp), of.clone(), kind, set);
        self.lines.push(Entry::from_draft(draft, self.device, at).unwrap().line().to_owned());
    }
}

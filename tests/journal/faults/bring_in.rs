//! The program dies, or the power fails, while a table is brought in: then all of it is there at the next start, or nothing, and
//! the same table brought in again leaves every row there once.

use std::collections::BTreeMap;

use fellmark_answers::manner::Manner;
use fellmark_answers::pen::Pen;
use fellmark_answers::reckoned::Reckonings;
use fellmark_answers::view::ImportForm;
use fellmark_journal::{Journal, Kind};

use crate::bench::{self, Bench};
use crate::crash::{all_files_are_whole, replay};
use crate::faulty::Faulty;

const WARPS: [&str; 3] = ["Scarf", "Runner", "Towels"];
const ROWS: usize = 12;

fn form() -> ImportForm {
    let mut text = "warp,on,picks,minutes\n".to_owned();
    for row in 0..ROWS {
        text += &format!("{},2026-11-{:02},{},30\n", WARPS[row % WARPS.len()], 10 + row, 40 + row);
    }
    ImportForm { text, ..ImportForm::default() }
}

fn bring_in(journal: &mut Journal) -> bool {
    let mut pen = Pen { journal, manner: Manner::default(), today: "2026-11-25".parse().unwrap() };
    pen.bring_in(&mut Reckonings::new(), &form(), &mut |_, _| true).is_ok()
}

/// A device with warps that the table is about.
fn begun() -> Bench {
    let bench = Bench::new();
    let mut laptop = bench.open("laptop");
    for name in WARPS {
        bench::begin_warp(&mut laptop, name);
    }
    drop(laptop);
    bench
}

/// How often each row is shown, by its picks.
fn shown(journal: &Journal) -> BTreeMap<u64, usize> {
    let mut rows = BTreeMap::new();
    for sitting in journal.state().of_kind(&Kind::SITTING).filter(|record| record.is_visible()) {
        *rows.entry(sitting.get("picks").unwrap().as_u64().unwrap()).or_default() += 1;
    }
    rows
}

/// Starts again, brings the same table in again and looks; how many rows were there at the start.
fn look_after(bench: &Bench, acknowledged: bool, death: &str) -> usize {
    all_files_are_whole(bench);
    let mut again = bench.open("laptop");
    let came = shown(&again).len();
    assert!(came == 0 && !acknowledged || came == ROWS, "{death}: {came} of {ROWS} rows came in");
    assert_eq!((again.status().waiting_to_write, again.status().vanished), (0, 0), "{death}");
    assert_eq!(bench.open("phone").state(), again.state(), "{death}: another device sees something else");
    // What came in is one action; without it, nothing of it is left.
    if came > 0 {
        let mut pen = Pen { journal: &mut again, manner: Manner::default(), today: "2026-11-25".parse().unwrap() };
        let undone = pen.undo().unwrap().map(|undone| undone.what);
        assert_eq!(undone, Some(format!("{ROWS} sittings were brought in")), "{death}");
        assert_eq!(shown(&again).len(), 0, "{death}");
    }
    assert!(bring_in(&mut again), "{death}: the same table is refused");
    assert!(!bring_in(&mut again), "{death}: the same table comes in twice");
    let once = (0..ROWS as u64).map(|row| (40 + row, 1)).collect();
    assert_eq!(shown(&again), once, "{death}: not every row is there once");
    assert_eq!((again.status().waiting_to_write, again.status().vanished), (0, 0), "{death}");
    assert_eq!(bench.open("phone").state(), again.state(), "{death}: another device sees something else");
    all_files_are_whole(bench);
    came
}

#[test]
fn fault_01_killed_in_each_operation_of_a_table_that_is_brought_in() {
    let mut came = Vec::new();
    for at in 0.. {
        let bench = begun();
        let faulty = Faulty::new();
        let mut journal = Journal::open_on(bench.options("laptop"), faulty.disk()).unwrap();
        faulty.die_at(at);
        let acknowledged = bring_in(&mut journal);
        let died = faulty.is_dead();
        drop(journal);
        came.push(look_after(&bench, acknowledged, &format!("dying in operation {at}")));
        if !died {
            break;
        }
    }
    assert!(came.len() > 12 && came[0] == 0 && came.ends_with(&[ROWS]), "{came:?}");
}

#[test]
fn fault_03_power_fails_after_each_operation_of_a_table_that_is_brought_in() {
    let bench = begun();
    let start = bench.root().join("start");
    bench::copy_dir(&bench.folder(), &start.join("log"));
    bench::copy_dir(&bench.local("laptop"), &start.join("local/laptop"));
    let faulty = Faulty::new();
    let mut journal = Journal::open_on(bench.options("laptop"), faulty.disk()).unwrap();
    faulty.take_log();
    assert!(bring_in(&mut journal));
    let log = faulty.take_log();
    drop(journal);
    for upto in 0..=log.len() {
        for (lazy_bytes, lazy_names) in [(false, false), (true, false), (false, true), (true, true)] {
            let again = Bench::new();
            bench::copy_dir(&start, again.root());
            replay(&log, upto, bench.root(), again.root(), lazy_bytes, lazy_names);
            let death = format!("power failing after {upto} of {} ({lazy_bytes}, {lazy_names})", log.len());
            look_after(&again, upto == log.len(), &death);
        }
    }
}

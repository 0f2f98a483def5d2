//! The program dies, the power fails, or the disks refuse while a table is brought in: then all of it is there at the next start, or
//! nothing, and the same table brought in again leaves every row there once.

use std::collections::{BTreeMap, BTreeSet};
use std::io::ErrorKind;
use std::sync::{Arc, Mutex};

use fellmark_journal::{Journal, Kind};
use fellmark_model::commands::Commands;
use fellmark_model::display_format::DisplayFormat;
use fellmark_present::view::ImportForm;
use fellmark_reports::report_cache::ReportCache;

use super::crash::{all_files_are_whole, replay};
use fellmark_tests::journal::faulty_disk::FaultyDisk;
use fellmark_tests::journal::{self, SharedFolder};

const WARPS: [&str; 3] = ["Scarf", "Runner", "Towels"];
const ROWS: usize = 12;

/// A table about so many of the warps.
fn form(warps: usize) -> ImportForm {
    let mut text = "warp,on,picks,minutes\n".to_owned();
    for row in 0..ROWS {
        text += &format!("{},2026-11-{:02},{},30\n", WARPS[row % warps], 10 + row, 40 + row);
    }
    ImportForm { text, ..ImportForm::default() }
}

fn import(journal: &mut Journal, warps: usize) -> Result<(), String> {
    let mut commands = Commands { journal, format: DisplayFormat::default(), today: "2026-11-25".parse().unwrap() };
    let imported =
        fellmark_present::import::import_table(&mut commands, &mut ReportCache::new(), &form(warps), &mut |_, _| true);
    imported.map(drop).map_err(|error| {
        fellmark_present::messages::text(&error.message, &fellmark_model::display_format::DisplayFormat::default())
    })
}

/// A device with warps that the table is about.
fn begun() -> SharedFolder {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    for name in WARPS {
        journal::begin_warp(&mut laptop, name);
    }
    drop(laptop);
    shared
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
fn look_after(shared: &SharedFolder, warps: usize, acknowledged: bool, death: &str) -> usize {
    all_files_are_whole(shared);
    let mut again = shared.open("laptop");
    let came = shown(&again).len();
    assert!(came == 0 && !acknowledged || came == ROWS, "{death}: {came} of {ROWS} rows came in");
    assert_eq!((again.status().waiting_to_write, again.status().vanished), (0, 0), "{death}");
    assert_eq!(shared.open("phone").state(), again.state(), "{death}: another device sees something else");
    // What came in is one action; without it, nothing of it is left.
    if came > 0 {
        let mut commands =
            Commands { journal: &mut again, format: DisplayFormat::default(), today: "2026-11-25".parse().unwrap() };
        let undone = commands.undo().unwrap();
        let undone = undone.map(|found| fellmark_present::undo::undone(&found, commands.journal).what);
        assert_eq!(undone, Some(format!("{ROWS} sittings were brought in")), "{death}");
        assert_eq!(shown(&again).len(), 0, "{death}");
    }
    assert_eq!(import(&mut again, warps), Ok(()), "{death}: the same table is refused");
    assert!(import(&mut again, warps).is_err(), "{death}: the same table comes in twice");
    let once = (0..ROWS as u64).map(|row| (40 + row, 1)).collect();
    assert_eq!(shown(&again), once, "{death}: not every row is there once");
    assert_eq!((again.status().waiting_to_write, again.status().vanished), (0, 0), "{death}");
    assert_eq!(shared.open("phone").state(), again.state(), "{death}: another device sees something else");
    all_files_are_whole(shared);
    came
}

#[test]
fn fault_01_killed_in_each_operation_of_a_table_that_is_brought_in() {
    let mut came = Vec::new();
    for at in 0.. {
        let shared = begun();
        let faulty = FaultyDisk::new();
        let mut journal = Journal::open_on(shared.options("laptop"), faulty.disk()).unwrap();
        faulty.die_at(at);
        let acknowledged = import(&mut journal, WARPS.len()).is_ok();
        let died = faulty.is_dead();
        drop(journal);
        came.push(look_after(&shared, WARPS.len(), acknowledged, &format!("dying in operation {at}")));
        if !died {
            break;
        }
    }
    assert!(came.len() > 12 && came[0] == 0 && came.ends_with(&[ROWS]), "{came:?}");
}

#[test]
fn fault_03_power_fails_after_each_operation_of_a_table_that_is_brought_in() {
    let shared = begun();
    let start = shared.root().join("start");
    journal::copy_dir(&shared.folder(), &start.join("log"));
    journal::copy_dir(&shared.local("laptop"), &start.join("local/laptop"));
    let faulty = FaultyDisk::new();
    let mut journal = Journal::open_on(shared.options("laptop"), faulty.disk()).unwrap();
    faulty.take_log();
    import(&mut journal, WARPS.len()).unwrap();
    let log = faulty.take_log();
    drop(journal);
    for upto in 0..=log.len() {
        for (lazy_bytes, lazy_names) in [(false, false), (true, false), (false, true), (true, true)] {
            let again = SharedFolder::new();
            journal::copy_dir(&start, again.root());
            replay(&log, upto, shared.root(), again.root(), lazy_bytes, lazy_names);
            let death = format!("power failing after {upto} of {} ({lazy_bytes}, {lazy_names})", log.len());
            look_after(&again, WARPS.len(), upto == log.len(), &death);
        }
    }
}

/// From then on the folder refuses to be changed, and this device's own disk.
#[derive(Clone, Copy, Debug)]
struct Refusing {
    folder_from: usize,
    local_from: usize,
}

/// Opens the laptop, brings the table in while the disks refuse, and lets them be written again. What was said, and which
/// operations were in the folder, and which on this device's own disk.
fn refused(shared: &SharedFolder, warps: usize, refusing: Refusing) -> (Journal, Result<(), String>, [Vec<usize>; 2]) {
    let faulty = FaultyDisk::new();
    let mut journal = Journal::open_on(shared.options("laptop"), faulty.disk()).unwrap();
    let operations = Arc::new(Mutex::new(Vec::new()));
    let (local, seen) = (shared.local("laptop"), Arc::clone(&operations));
    faulty.refuse(move |path, change| {
        if !change {
            return None;
        }
        let mut seen = seen.lock().unwrap();
        let is_local = path.starts_with(&local);
        let (at, from) = (seen.len(), if is_local { refusing.local_from } else { refusing.folder_from });
        seen.push(is_local);
        (at >= from).then_some(ErrorKind::StorageFull)
    });
    let said = import(&mut journal, warps);
    faulty.allow_all();
    let operations = std::mem::take(&mut *operations.lock().unwrap());
    let where_is = |is_local| (0..operations.len()).filter(|at| operations[*at] == is_local).collect();
    (journal, said, [where_is(false), where_is(true)])
}

/// What the user sees when the table is refused, or that it came in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Told {
    In,
    Out,
    Uncertain,
}

impl Told {
    fn by(said: &Result<(), String>) -> Self {
        match said {
            Ok(()) => Self::In,
            Err(sentence) if sentence.starts_with("It is not certain") => Self::Uncertain,
            Err(sentence) if sentence.contains("Do not enter it again") => Self::In,
            Err(_) => Self::Out,
        }
    }

    /// Whether so many rows at the next start are what was reported.
    fn is_borne_out_by(self, rows: usize) -> bool {
        match self {
            Self::In => rows == ROWS,
            Self::Out => rows == 0,
            Self::Uncertain => [0, ROWS].contains(&rows),
        }
    }
}

/// The table with so many warps is refused from every operation on, in folder and device; what was reported, and how many rows came
/// at the next start.
fn refused_from_every_operation_on(warps: usize) -> BTreeSet<(Told, usize)> {
    const NEVER: usize = usize::MAX;
    let (_, said, [in_folder, local]) = refused(&begun(), warps, Refusing { folder_from: NEVER, local_from: NEVER });
    assert!(said.is_ok() && in_folder.len() > 4 && local.len() > 2, "{in_folder:?} {local:?}");
    let mut outcomes = BTreeSet::new();
    for folder_from in in_folder.into_iter().chain([NEVER]) {
        for local_from in local.iter().copied().chain([NEVER]) {
            let refusing = Refusing { folder_from, local_from };
            for starts_again in [true, false] {
                let shared = begun();
                let (mut journal, said, _) = refused(&shared, warps, refusing);
                let case = format!("{warps} warps, {refusing:?}: {said:?}");
                // What the user sees is true.
                let reported = Told::by(&said);
                let is_in = reported == Told::In;
                assert_eq!(shown(&journal).len(), if is_in { ROWS } else { 0 }, "{case}");
                if starts_again {
                    drop(journal);
                    let came = look_after(&shared, warps, is_in, &case);
                    assert!(reported.is_borne_out_by(came), "{case}: {came} rows came in at the next start");
                    outcomes.insert((reported, came));
                    continue;
                }
                // In the same program, and at the start after that, the table is there once.
                assert_eq!(import(&mut journal, warps).is_err(), is_in, "{case}: the same table again");
                journal.refresh(&[]).unwrap();
                let once: BTreeMap<u64, usize> = (0..ROWS as u64).map(|row| (40 + row, 1)).collect();
                assert_eq!(shown(&journal), once, "{case}");
                drop(journal);
                let again = shared.open("laptop");
                assert_eq!(shown(&again), once, "{case}: after the next start");
                assert_eq!(shared.open("phone").state(), again.state(), "{case}");
            }
        }
    }
    outcomes
}

#[test]
fn fault_07_folder_and_device_refuse_from_some_operation_on_of_a_table_that_is_brought_in() {
    for warps in [WARPS.len(), 1] {
        let outcomes = refused_from_every_operation_on(warps);
        let all = [(Told::In, ROWS), (Told::Out, 0), (Told::Uncertain, ROWS)];
        assert!(all.iter().all(|one| outcomes.contains(one)), "{warps} warps: {outcomes:?}");
    }
}

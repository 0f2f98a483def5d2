//! `kill -9` at random moments while a device taps, logs, corrects and adds photos: nothing that was acknowledged may be lost.
//!
//! `kills [TIMES] [SEED]`: a child process does one thing after the other through the session that window and command line hold, and
//! writes a line when each has returned. It is killed after a random time: every fourth from its start on, while it opens the folder,
//! the others while they work. After each kill the folder is opened again as the next start would, and everything acknowledged must be there: each tap of
//! the running sitting, each sitting with its picks, each photo with its bytes. At the end a device that has never seen the folder
//! must read the same from the folder alone.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::collections::BTreeMap;
use std::io::{BufRead, BufReader, Read, Write};
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use fellmark_journal::{Journal, RecordId};
use fellmark_model::display_format::DisplayFormat;
use fellmark_model::forms::{SittingForm, WarpForm};
use fellmark_session::{DeviceClock, OpenOptions, Session, prepare_photo};
use fellmark_tests::journal::picture;

const TIMES: usize = 1000;
/// The longest that a child is let work, in milliseconds.
const LONGEST_MS: u64 = 180;

/// Steele and Vigna's `SplitMix64` ("Fast splittable pseudorandom number generators", 2014): the same run for the same seed.
struct Dice(u64);

impl Dice {
    fn below(&mut self, most: u64) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        (mixed ^ (mixed >> 31)) % most
    }
}

fn main() {
    let words: Vec<String> = std::env::args().skip(1).collect();
    match words.iter().map(String::as_str).collect::<Vec<_>>().as_slice() {
        ["child", root, seed] => work(Path::new(root), seed.parse().unwrap()),
        [] => run(TIMES, 1),
        [times] => run(times.parse().expect("a number of kills"), 1),
        [times, seed] => run(times.parse().expect("a number of kills"), seed.parse().expect("a seed")),
        _ => eprintln!("usage: kills [TIMES] [SEED]"),
    }
}

fn open(root: &Path) -> Session {
    let options = OpenOptions {
        folder: root.join("folder"),
        local: root.join("local"),
        device: "laptop".to_owned(),
        create: true,
        interactive: true,
        locale: DisplayFormat::default(),
        units: None,
        weights: None,
        clock: DeviceClock::default(),
    };
    Session::open(options).expect("the folder opens again after every kill")
}

/// One line on standard output, with one write: whoever reads it has it whole or not at all.
fn say(line: &str) {
    std::io::stdout().write_all(format!("{line}\n").as_bytes()).unwrap();
}

/// What the child does until it is killed.
fn work(root: &Path, seed: u64) {
    let mut dice = Dice(seed);
    let mut session = open(root);
    let there = session.state().warp_ids().next().cloned();
    let warp: RecordId = match there {
        Some(warp) => warp,
        None => {
            let form =
                WarpForm { name: "Scarf".into(), wound: "30 m".into(), picks: "40".into(), ..WarpForm::default() };
            let warp = session.begin_warp(&form).unwrap();
            say("warp");
            warp
        }
    };
    session.show_warp(warp.clone());
    let mut logged: Vec<RecordId> = Vec::new();
    loop {
        match dice.below(100) {
            0..70 => {
                let view = session.tap(1).unwrap();
                say(&format!("tapped {} {}", view.sitting, view.picks));
            }
            70..80 => {
                let Ok(finish) = session.finish_form() else { continue };
                let picks = finish.form.picks.clone();
                let done = session.finish_sitting(&finish.form).unwrap();
                say(&format!("sitting {} {picks}", done.sitting));
                logged.push(done.sitting);
            }
            80..90 => {
                let picks = 1 + dice.below(500);
                let form = SittingForm { picks: picks.to_string(), ..SittingForm::default() };
                let done = session.log_sitting(&warp, &form).unwrap();
                say(&format!("sitting {} {picks}", done.sitting));
                logged.push(done.sitting);
            }
            90..96 => {
                let Some(sitting) = logged.last().cloned() else { continue };
                let picks = 1 + dice.below(500);
                let seen = session.state().record(&sitting).unwrap().heads.clone();
                let form = SittingForm { picks: picks.to_string(), ..SittingForm::default() };
                // What is under way when the kill comes may be there or not.
                say(&format!("correcting {sitting} {picks}"));
                session.correct_sitting(&sitting, &form, &seen).unwrap();
                say(&format!("sitting {sitting} {picks}"));
            }
            _ => {
                let Some(sitting) = logged.last().cloned() else { continue };
                let side = 8 + dice.below(400) as u32;
                let photo = prepare_photo(&picture(side, 20), &DisplayFormat::default()).unwrap();
                let hash = photo.hash.clone();
                let record = session.add_photo(&sitting, photo).unwrap();
                say(&format!("photo {record} {hash}"));
            }
        }
    }
}

/// What was acknowledged up to now.
#[derive(Default)]
struct Acknowledged {
    has_warp: bool,
    /// Picks of each sitting.
    sittings: BTreeMap<String, i64>,
    /// A correction that was under way.
    correcting: Option<(String, i64)>,
    /// The running sitting and its picks.
    running: Option<(String, i64)>,
    /// Photo records and the names of their bytes.
    photos: BTreeMap<String, String>,
    actions: usize,
}

impl Acknowledged {
    fn note(&mut self, line: &str) {
        let words: Vec<&str> = line.split(' ').collect();
        match words.as_slice() {
            ["warp"] => self.has_warp = true,
            ["tapped", sitting, picks] => self.running = Some(((*sitting).to_owned(), picks.parse().unwrap())),
            ["correcting", sitting, picks] => {
                self.correcting = Some(((*sitting).to_owned(), picks.parse().unwrap()));
                return;
            }
            ["sitting", sitting, picks] => {
                self.sittings.insert((*sitting).to_owned(), picks.parse().unwrap());
                self.correcting = None;
                if self.running.as_ref().is_some_and(|(running, _)| running == sitting) {
                    self.running = None;
                }
            }
            ["photo", record, hash] => {
                self.photos.insert((*record).to_owned(), (*hash).to_owned());
            }
            _ => panic!("the child wrote {line:?}"),
        }
        self.actions += 1;
    }

    /// Fails where something acknowledged is missing; takes in what was under way and is there.
    fn check(&mut self, session: &mut Session) {
        let view = session.view();
        let picks_of = |session: &Session, sitting: &str| {
            let record = session.state().record(&sitting.parse().unwrap())?;
            record.get("picks")?.as_i64()
        };
        if let Some((sitting, picks)) = self.running.take() {
            match view.running.filter(|running| running.sitting == sitting) {
                Some(running) => {
                    assert!((picks..=picks + 1).contains(&running.picks), "{picks} tapped, {} there", running.picks);
                    self.running = Some((sitting, running.picks));
                }
                // It was being finished when the kill came.
                None => {
                    let there =
                        picks_of(session, &sitting).unwrap_or_else(|| panic!("{picks} picks of {sitting} are lost"));
                    assert!((picks..=picks + 1).contains(&there), "{picks} tapped, {there} logged");
                    self.sittings.insert(sitting, there);
                }
            }
        } else if let Some(running) = view.running {
            // Its first tap was under way.
            assert_eq!(running.picks, 1, "a sitting came back that was finished");
            self.running = Some((running.sitting, running.picks));
        }
        if let Some((sitting, picks)) = self.correcting.take()
            && picks_of(session, &sitting) == Some(picks)
        {
            self.sittings.insert(sitting, picks);
        }
        self.check_records(session.journal());
    }

    fn check_records(&self, journal: &Journal) {
        for (sitting, picks) in &self.sittings {
            let record = journal.state().record(&sitting.parse().unwrap());
            let there = record.and_then(|record| record.get("picks")?.as_i64());
            assert_eq!(there, Some(*picks), "sitting {sitting}");
        }
        // There is one warp, which may be there though the kill came before that was acknowledged.
        let Some(warp) = journal.state().warp_ids().next() else {
            assert!(!self.has_warp, "the warp is lost");
            return;
        };
        let stored = journal.photos(warp);
        for (record, hash) in &self.photos {
            assert!(journal.state().record(&record.parse().unwrap()).is_some(), "photo {record}");
            assert!(stored.contains(hash), "the bytes of photo {record}");
        }
    }
}

fn run(times: usize, seed: u64) {
    let root = tempfile::tempdir().unwrap();
    let mut dice = Dice(seed);
    let mut acknowledged = Acknowledged::default();
    let (mut before_any, mut began) = (0, Instant::now());
    for nth in 1..=times {
        let mut child = Command::new(std::env::current_exe().unwrap())
            .arg("child")
            .arg(root.path())
            .arg((seed + nth as u64).to_string())
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let mut said = String::new();
        let mut output = BufReader::new(child.stdout.take().unwrap());
        // Every fourth is killed at any time from its start, while it opens the folder; the others while they work.
        if nth % 4 != 0 {
            output.read_line(&mut said).unwrap();
        }
        std::thread::sleep(Duration::from_micros(dice.below(LONGEST_MS * 1000)));
        child.kill().unwrap();
        output.read_to_string(&mut said).unwrap();
        let status = child.wait().unwrap();
        assert!(status.code().is_none(), "the child ended by itself: {status}");
        before_any += usize::from(said.is_empty());
        said.lines().for_each(|line| acknowledged.note(line));
        acknowledged.check(&mut open(root.path()));
        if began.elapsed() > Duration::from_secs(30) {
            println!("{nth} kills, {} acknowledged actions, none lost", acknowledged.actions);
            began = Instant::now();
        }
    }
    // Taps that wait are sent by opening; then another device reads the folder alone.
    drop(open(root.path()));
    let options = fellmark_journal::Options::new(root.path().join("folder"), root.path().join("other"), "phone");
    let fresh = Journal::open(options).unwrap();
    acknowledged.check_records(&fresh);
    let folder = root.path().join("folder");
    let problems: Vec<String> = Journal::check(&folder)
        .iter()
        .map(|problem| format!("{}: {:?}", problem.file.display(), problem.kind))
        .collect();
    println!(
        "{times} kills (seed {seed}; {before_any} before anything was acknowledged): {} acknowledged actions, among them {} sittings and \
         {} photos; 0 lost, on this device and on one that reads the folder for the first time; problems in the folder: {problems:?}",
        acknowledged.actions,
        acknowledged.sittings.len(),
        acknowledged.photos.len()
    );
}

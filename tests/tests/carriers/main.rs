//! Real synchronisers carry real folders between devices: one that runs between peers, one that mirrors two ways,
//! and version control. They are stopped and started while three devices write at random; at the end all devices
//! show the same, and every sitting.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

mod git;
mod mirror;
mod peers;

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use fellmark_journal::{EntryDraft, Journal, Options, Presence, RecordId};
use fellmark_tests::journal::{self, fields};
use serde_json::json;

const NAMES: [&str; 3] = ["laptop", "phone", "tablet"];

/// What carries the folders. Created stopped.
trait Carrier {
    fn start(&mut self);
    fn stop(&mut self);
    /// Does some of its work, if it is not at work all the time.
    fn work(&mut self);
}

/// Numbers that look like chance and are the same each time.
struct Chance(u64);

impl Chance {
    fn below(&mut self, end: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        ((self.0 >> 33) as usize) % end
    }
}

struct Devices {
    root: tempfile::TempDir,
}

impl Devices {
    fn new() -> Self {
        let devices = Self { root: tempfile::tempdir().unwrap() };
        for name in NAMES {
            std::fs::create_dir(devices.folder(name)).unwrap();
        }
        devices
    }
    fn folder(&self, name: &str) -> PathBuf {
        self.root.path().join(name)
    }
    fn folders(&self) -> Vec<PathBuf> {
        NAMES.iter().map(|name| self.folder(name)).collect()
    }
    fn options(&self, name: &str) -> Options {
        Options::new(self.folder(name), self.root.path().join("local").join(name), name)
    }
    /// Opens a journal once its folder has arrived.
    fn join(&self, name: &str, carrier: &mut dyn Carrier) -> Journal {
        let began = Instant::now();
        loop {
            match Journal::open(self.options(name)) {
                Ok(journal) => return journal,
                Err(error) => assert!(began.elapsed() < Duration::from_secs(60), "{name}: {error}"),
            }
            carrier.work();
            std::thread::sleep(Duration::from_millis(100));
        }
    }
}

/// Writes at random on three devices, with the carrier going and stopping; then a device and its clone write the
/// same file without sight of each other. What every device shows at the end is compared.
fn carry(devices: &Devices, carrier: &mut dyn Carrier, seed: u64, is_conflict: impl Fn(&Path) -> bool) {
    let mut laptop = Journal::open(devices.options("laptop").create()).unwrap();
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    carrier.start();
    let mut journals = vec![laptop, devices.join("phone", carrier), devices.join("tablet", carrier)];

    let mut chance = Chance(seed);
    let mut sittings: Vec<RecordId> = Vec::new();
    let mut removed: BTreeSet<RecordId> = BTreeSet::new();
    let mut going = true;
    for step in 0..90u32 {
        let journal = &mut journals[chance.below(3)];
        journal.refresh(&[]).unwrap();
        let known: Vec<RecordId> = sittings.iter().filter(|id| journal.state().record(id).is_some()).cloned().collect();
        match chance.below(10) {
            0..=5 => sittings.push(journal::log_sitting(journal, &warp, step, step)),
            6..=8 if !known.is_empty() => {
                let record = journal.state().record(&known[chance.below(known.len())]).unwrap();
                let draft = EntryDraft::on(record, fields(json!({"picks": 1000 + step})));
                journal.write(vec![draft]).unwrap();
            }
            9 if !known.is_empty() => {
                let record = journal.state().record(&known[chance.below(known.len())]).unwrap();
                removed.insert(record.id.clone());
                let draft = EntryDraft::removal(record);
                journal.write(vec![draft]).unwrap();
            }
            _ => {}
        }
        if chance.below(12) == 0 {
            going = !going;
            if going { carrier.start() } else { carrier.stop() }
        }
        if going {
            carrier.work();
        }
        std::thread::sleep(Duration::from_millis(chance.below(60) as u64));
    }
    if !going {
        carrier.start();
    }
    settle(carrier, &mut journals, &sittings);
    let found = devices.folders().iter().flat_map(|folder| journal::all_files(folder)).find(|file| is_conflict(file));
    assert_eq!(found, None, "one writer per file left something to settle");

    // A copy of the laptop's disk wakes up on the tablet's folder, and both write the laptop's file.
    carrier.stop();
    let clone_local = devices.root.path().join("local/clone");
    journal::copy_dir(&devices.root.path().join("local/laptop"), &clone_local);
    let mut clone = Journal::open(Options::new(devices.folder("tablet"), clone_local, "laptop")).unwrap();
    assert_eq!(clone.device(), journals[0].device());
    sittings.push(journal::log_sitting(&mut clone, &warp, 501, 501));
    // Not in one tick of the clock and of one size: carriers miss such a change.
    std::thread::sleep(Duration::from_millis(30));
    sittings.push(journal::log_sitting(&mut clone, &warp, 503, 503));
    sittings.push(journal::log_sitting(&mut journals[0], &warp, 502, 502));
    carrier.start();
    let began = Instant::now();
    let mut conflict = None;
    while conflict.is_none() && began.elapsed() < Duration::from_secs(60) {
        carrier.work();
        std::thread::sleep(Duration::from_millis(100));
        let files = devices.folders();
        conflict = files.iter().flat_map(|folder| journal::all_files(folder)).find(|file| is_conflict(file));
    }
    println!("conflict: {}", conflict.expect("the carrier made no conflict of it").display());
    journals.push(clone);
    settle(carrier, &mut journals, &sittings);
    assert_ne!(journals[0].device(), journals[3].device());

    for id in &sittings {
        let presence = journals[0].state().record(id).unwrap().presence;
        assert!(presence == Presence::Here || removed.contains(id), "{id} was removed by no one");
    }
    carrier.stop();
}

/// Waits until all devices show the same and every sitting.
fn settle(carrier: &mut dyn Carrier, journals: &mut [Journal], sittings: &[RecordId]) {
    let began = Instant::now();
    loop {
        carrier.work();
        for journal in journals.iter_mut() {
            journal.refresh(&[]).unwrap();
        }
        let alike = journals.windows(2).all(|two| two[0].state() == two[1].state());
        let complete = sittings.iter().all(|id| journals[0].state().record(id).is_some());
        let unhurt = journals.iter().all(|journal| journal.status().vanished == 0);
        if alike && complete && unhurt {
            println!("{} sittings on all devices after {:?}", sittings.len(), began.elapsed());
            return;
        }
        let reported: Vec<_> = journals.iter().map(|j| (j.state().len(), j.status())).collect();
        assert!(began.elapsed() < Duration::from_secs(90), "alike {alike}, complete {complete}: {reported:#?}");
        std::thread::sleep(Duration::from_millis(150));
    }
}

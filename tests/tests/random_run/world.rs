//! Three devices, what happens to them, and what they must still know in the end.

use std::collections::{BTreeMap, BTreeSet, VecDeque};
use std::io::Read;
use std::path::PathBuf;
use std::process::{Output, Stdio};
use std::thread::JoinHandle;
use std::time::{Duration, Instant};

use fellmark_journal::Key;
use fellmark_tests::command_line::CommandLineDevice;
use fellmark_tests::journal::mount::Mount;
use serde_json::Value;

use super::folders;
use super::known::{KnownSitting, KnownWrite};
use super::losses::says;
use super::places::EntryPlaces;
use super::steps::{RunStep, STEPS};

/// No command may take longer.
const PATIENCE: Duration = Duration::from_secs(60);
pub(super) const NAMES: [&str; 3] = ["laptop", "phone", "tablet"];

/// How sure it is that a command did what it was asked.
#[derive(Clone, Copy, PartialEq)]
enum Ended {
    Done,
    /// Refused, and not written.
    Refused,
    Unsure,
}

/// What a device did: the sitting, and what was known of it before.
#[derive(Clone)]
pub(super) struct Done {
    sitting: String,
    picks: i64,
    removed: bool,
}

/// What became of a command that writes.
struct Written {
    ended: Ended,
    answer: Value,
    /// The keys of the entries it wrote.
    keys: BTreeSet<Key>,
    /// The entries that the device had before.
    pub(super) known: BTreeSet<Key>,
}

/// Reads all that a command writes.
fn reads(mut from: impl Read + Send + 'static) -> JoinHandle<Vec<u8>> {
    std::thread::spawn(move || {
        let mut bytes = Vec::new();
        from.read_to_end(&mut bytes).unwrap();
        bytes
    })
}

pub struct World {
    seed: u64,
    random: u64,
    pub(super) devices: Vec<CommandLineDevice>,
    warp: String,
    pub(super) known: BTreeMap<String, KnownSitting>,
    pub(super) places: EntryPlaces,
    /// The entries of acknowledged writes, each with its sitting.
    pub(super) acknowledged: BTreeMap<Key, String>,
    /// Those of them that lie anywhere.
    pub(super) lying: BTreeSet<Key>,
    /// For each device, entries of which it said last that they lie in its folder alone.
    pub(super) alone: [BTreeSet<Key>; 3],
    copies: Vec<Vec<(PathBuf, Vec<u8>)>>,
    /// The folder of the last device lies on a small file system of its own, where this machine allows it.
    pub(super) mount: Option<Mount>,
    /// So does the own data of the second one.
    pub(super) local_mount: Option<Mount>,
    /// What each device did, the latest last. Nothing where what was done is not sure.
    pub(super) done: [Vec<Option<Done>>; 3],
    /// The acknowledged entries of each device.
    written: [BTreeSet<Key>; 3],
    /// How many of the next actions of each device may get the number of an earlier one that it has forgotten.
    numbered_twice: [usize; 3],
    /// Picks of sittings that were refused.
    pub(super) refused: BTreeSet<i64>,
    /// Every sitting has other picks, so that each is known again.
    last_picks: i64,
    plain: bool,
    trace: VecDeque<String>,
    commands: u64,
    /// Commands that were killed before they ended.
    kills: u64,
    pub(super) faults: u64,
    carried: u64,
    /// Acknowledged writes that reached the folder alone, which was said.
    pub(super) in_folder_alone: u64,
    /// Acknowledged writes that wait on the device that wrote them, which was said.
    pub(super) waiting: u64,
    /// Entries of the former that were overwritten before they reached another place, and those of these that came back.
    pub(super) gone: u64,
    pub(super) back: u64,
}

impl World {
    pub fn new(seed: u64) -> Self {
        let devices: Vec<CommandLineDevice> = NAMES.iter().map(|name| CommandLineDevice::new(name)).collect();
        let mount = Mount::memory(&devices[2].folder(), "size=1m");
        let local_mount = Mount::memory(&devices[1].home().join("data"), "size=8m");
        let random = seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1;
        let mut world = Self {
            seed,
            random,
            devices,
            warp: String::new(),
            known: BTreeMap::new(),
            places: EntryPlaces::default(),
            acknowledged: BTreeMap::new(),
            lying: BTreeSet::new(),
            alone: Default::default(),
            copies: Vec::new(),
            mount,
            local_mount,
            done: Default::default(),
            written: Default::default(),
            numbered_twice: [0; 3],
            refused: BTreeSet::new(),
            last_picks: 0,
            plain: std::env::var_os("FELLMARK_PLAIN_CLOCK").is_some(),
            trace: VecDeque::new(),
            commands: 0,
            kills: 0,
            faults: 0,
            carried: 0,
            in_folder_alone: 0,
            waiting: 0,
            gone: 0,
            back: 0,
        };
        let begun = world.json(0, &["begin", "Scarf", "--wound", "3 m", "--waste", "50 cm", "--picks", "40"]);
        world.warp = begun["warp"].as_str().unwrap().to_owned();
        world.carry_all();
        for device in 0..3 {
            // From now on each knows the folder, even if all markers are gone from it.
            world.json(device, &["warps"]);
        }
        world
    }

    pub fn figures(&self) -> String {
        format!(
            "{} commands, {} kills that hit, {} faults, {} transfers; {} sittings acknowledged, {} refused; announced: {} \
             writes in the folder alone, {} waiting on the device; {} of the former overwritten, {} of these came back",
            self.commands,
            self.kills,
            self.faults,
            self.carried,
            self.known.len(),
            self.refused.len(),
            self.in_folder_alone,
            self.waiting,
            self.gone,
            self.back,
        )
    }

    fn below(&mut self, most: usize) -> usize {
        self.random ^= self.random << 13;
        self.random ^= self.random >> 7;
        self.random ^= self.random << 17;
        (self.random % most.max(1) as u64) as usize
    }

    pub(super) fn note(&mut self, what: String) {
        if std::env::var_os("FELLMARK_TRACE").is_some() {
            println!("{what}");
        }
        self.trace.push_back(what);
        if self.trace.len() > 60 {
            self.trace.pop_front();
        }
    }

    pub(super) fn fail(&self, what: &str) -> ! {
        let steps: Vec<&str> = self.trace.iter().map(String::as_str).collect();
        panic!("seed {}: {what}\nthe last steps:\n{}", self.seed, steps.join("\n"))
    }

    /// Runs a command to its end; any end that its description has is fine.
    pub(super) fn run(&mut self, device: usize, arguments: &[&str]) -> Output {
        self.commands += 1;
        let mut command = self.devices[device].command(&[&["--json"], arguments].concat());
        let mut child = command.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
        // Answers may be longer than a pipe holds, so they are read while the command runs.
        let (out, err) = (reads(child.stdout.take().unwrap()), reads(child.stderr.take().unwrap()));
        let start = Instant::now();
        let status = loop {
            if let Some(status) = child.try_wait().unwrap() {
                break status;
            }
            if start.elapsed() > PATIENCE {
                let _ = child.kill();
                self.fail(&format!("{} {arguments:?} hangs", NAMES[device]));
            }
            std::thread::sleep(Duration::from_millis(2));
        };
        let output = Output { status, stdout: out.join().unwrap(), stderr: err.join().unwrap() };
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        let says_alone = says(&output, "no_local_copy");
        let alone = if says_alone { ", in the folder alone" } else { "" };
        self.note(format!("{} {arguments:?}: {:?}{alone} {said}", NAMES[device], status.code()));
        if !status.code().is_some_and(|code| (0..=4).contains(&code)) || said.contains("panicked") {
            self.fail(&format!("{} {arguments:?} ended with {status}: {said}", NAMES[device]));
        }
        self.heed_what_is_alone(device, says_alone);
        self.nothing_went(&format!("{} {arguments:?}", NAMES[device]));
        output
    }

    pub(super) fn json(&mut self, device: usize, arguments: &[&str]) -> Value {
        let output = self.run(device, arguments);
        if !matches!(output.status.code(), Some(0 | 1)) {
            self.fail(&format!("{} {arguments:?}: {}", NAMES[device], String::from_utf8_lossy(&output.stderr)));
        }
        serde_json::from_slice(&output.stdout).unwrap_or_else(|error| self.fail(&format!("{arguments:?}: {error}")))
    }

    pub fn step(&mut self) {
        let mut at = self.below(STEPS.iter().map(|(weight, _)| *weight as usize).sum()) as u64;
        let step = STEPS.iter().find(|(weight, _)| {
            let found = at < *weight;
            at = at.saturating_sub(*weight);
            found
        });
        let step = step.unwrap().1;
        let device = self.below(3);
        self.note(format!("{step:?} on {}", NAMES[device]));
        let other = (device + 1 + self.below(2)) % 3;
        let (from, to) = (self.devices[device].folder(), self.devices[other].folder());
        let nth = self.below(1_000);
        match step {
            RunStep::Log => self.log(device),
            RunStep::Correct | RunStep::Remove | RunStep::Restore => self.change(device, step, None),
            RunStep::Undo => self.undo(device),
            RunStep::Kill => {
                let after = Duration::from_micros(self.below(20_000) as u64);
                if self.below(2) == 0 {
                    let step = [RunStep::Correct, RunStep::Remove, RunStep::Restore][self.below(3)];
                    self.change(device, step, Some(after));
                } else {
                    let picks = self.next_picks().to_string();
                    let warp = self.warp.clone();
                    self.done[device].push(None);
                    self.kill(device, &["log", &warp, "--picks", &picks, "--minutes", "5"], after);
                }
            }
            RunStep::Carry => {
                self.carried += 1;
                let mut chances: Vec<bool> = (0..64).map(|_| self.below(4) > 0).collect();
                self.happens(|_| folders::carry(&from, &to, || chances.pop().unwrap_or(true)));
            }
            RunStep::CarryPart => {
                self.faults += 1;
                self.happens(|_| folders::carry_a_part(&from, &to, nth));
            }
            RunStep::Copy => self.copies.push(folders::copy(&from)),
            RunStep::OldVersion => {
                self.faults += 1;
                let which = self.below(self.copies.len());
                if let Some(copy) = self.copies.get(which).cloned() {
                    self.happens(|_| folders::restore(&copy, &from, nth));
                }
            }
            RunStep::Clock if self.plain => {}
            RunStep::Clock => {
                self.faults += 1;
                let clock = [None, Some("+3d"), Some("-2d"), Some("+2h"), Some("+400d")][self.below(5)];
                self.devices[device].set_clock(clock);
                self.note(format!("{}'s clock: {clock:?}", NAMES[device]));
            }
            RunStep::Disk => {
                self.faults += 1;
                self.change_disk(nth);
            }
            RunStep::LocalDisk => {
                self.faults += 1;
                self.change_local_disk(nth.is_multiple_of(2));
            }
            RunStep::CutReplica => self.cut_replica(device, nth),
            RunStep::Link => self.link(device.min(1), nth),
            RunStep::NoMarkers => self.lose_markers(device),
            RunStep::Plant => {
                self.faults += 1;
                self.happens(|_| folders::plant(&from, nth));
                self.run(device, &["check"]);
            }
        }
    }

    fn next_picks(&mut self) -> i64 {
        self.last_picks += 1;
        self.last_picks
    }

    /// Runs a command that writes. A disk may refuse; nothing else may.
    fn writes(&mut self, device: usize, arguments: &[&str]) -> Written {
        let known = self.lying_on(device);
        let output = self.run(device, arguments);
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        let ended = match output.status.code() {
            Some(0 | 1) => Ended::Done,
            Some(4) if said.contains("othing could be saved") || said.contains("othing was saved") => Ended::Refused,
            // This device's own data could not even be opened for writing.
            Some(4)
                if said.contains("annot write ") || said.contains("annot make ") || said.contains("annot open ") =>
            {
                Ended::Refused
            }
            Some(4) if said.contains("not enter it again") => Ended::Unsure,
            _ => self.fail(&format!("{} {arguments:?}: {said}", NAMES[device])),
        };
        let (mut answer, mut keys) = (Value::Null, BTreeSet::new());
        if ended == Ended::Done {
            answer = serde_json::from_slice(&output.stdout).unwrap();
            keys = &self.lying_on(device) - &known;
            self.reached_two_places_or_said_so(device, arguments, &output, &keys);
        }
        Written { ended, answer, keys, known }
    }

    /// Notes what was acknowledged of a sitting, or may have been written, where these entries were known.
    fn add_write(&mut self, sitting: &str, write: KnownWrite, known: &BTreeSet<Key>) {
        let one = self.known.get_mut(sitting).unwrap();
        self.acknowledged.extend(write.keys.iter().map(|key| (*key, sitting.to_owned())));
        self.lying.extend(&write.keys);
        self.written[one.writer].extend(&write.keys);
        one.add(write, known);
    }

    /// Notes that a device did something, where these entries were known.
    fn add_done(&mut self, device: usize, done: Option<Done>, known: &BTreeSet<Key>) {
        let forgotten = self.written[device].difference(known).count();
        let twice = &mut self.numbered_twice[device];
        *twice = forgotten.max(twice.saturating_sub(1));
        self.done[device].push(done.filter(|_| *twice == 0));
    }

    pub(super) fn log(&mut self, device: usize) {
        let picks = self.next_picks();
        let warp = self.warp.clone();
        let written = self.writes(device, &["log", &warp, "--picks", &picks.to_string(), "--minutes", "5"]);
        let known = written.known;
        match written.ended {
            Ended::Refused => _ = self.refused.insert(picks),
            Ended::Unsure => self.add_done(device, None, &known),
            Ended::Done => {
                let id = written.answer["sitting"].as_str().unwrap().to_owned();
                let done = Done { sitting: id.clone(), picks, removed: true };
                self.add_done(device, Some(done), &known);
                self.wrote_something(&id, &written.keys);
                self.known.insert(id.clone(), KnownSitting { writer: device, writes: Vec::new() });
                self.add_write(&id, KnownWrite::new(written.keys, Some(picks), Some(false), true), &known);
            }
        }
    }

    fn wrote_something(&self, sitting: &str, keys: &BTreeSet<Key>) {
        if keys.is_empty() {
            self.fail(&format!("what was acknowledged of sitting {sitting} lies nowhere"));
        }
    }

    /// Changes a sitting of this device's own; killed after a time, if one is given.
    fn change(&mut self, device: usize, step: RunStep, killed: Option<Duration>) {
        // What only another device still has is not known to this one.
        let there = self.lying_on(device);
        let own =
            self.known.iter().filter(|(_, known)| known.writer == device && known.writes[0].keys.is_subset(&there));
        let own: Vec<String> = own.map(|(id, _)| id.clone()).collect();
        let nth = self.below(own.len());
        let Some(id) = own.get(nth) else { return };
        let picks = self.next_picks();
        let text = picks.to_string();
        let (picks_before, removed) = (self.known[id].picks(), self.known[id].removed());
        let arguments: Vec<&str> = match step {
            // After a kill nobody knows whether it is removed; what is asked for must make sense.
            RunStep::Correct | RunStep::Remove if removed != [false].into() => return,
            RunStep::Restore if !removed.contains(&true) => return,
            RunStep::Correct => vec!["correct", id, "--picks", &text],
            RunStep::Remove => vec!["remove", id],
            _ => vec!["restore", id],
        };
        let written = match killed {
            Some(after) => {
                self.kill(device, &arguments, after);
                Written { ended: Ended::Unsure, answer: Value::Null, keys: BTreeSet::new(), known: there }
            }
            None => self.writes(device, &arguments),
        };
        let Written { ended, keys, known, .. } = written;
        if ended == Ended::Refused {
            return;
        }
        let sure = ended == Ended::Done;
        let was_sure = picks_before.len() == 1 && removed.len() == 1;
        if sure && was_sure {
            self.wrote_something(id, &keys);
        }
        let before = picks_before.first().zip(removed.first()).filter(|_| sure && was_sure);
        let done = before.map(|(picks, removed)| Done { sitting: id.clone(), picks: *picks, removed: *removed });
        self.add_done(device, done, &known);
        let write = match step {
            RunStep::Correct => KnownWrite::new(keys, Some(picks), None, sure),
            step => KnownWrite::new(keys, None, Some(matches!(step, RunStep::Remove)), sure),
        };
        self.add_write(id, write, &known);
    }

    /// Takes back what a device did last, if that is known.
    fn undo(&mut self, device: usize) {
        let there = self.lying_on(device);
        if !self.written[device].is_subset(&there) {
            // What it did last is not what it knows to have done last.
            return self.done[device].clear();
        }
        let Some(Some(last)) = self.done[device].last().cloned() else { return };
        let id = last.sitting;
        let Written { ended, answer, keys, known } = self.writes(device, &["undo"]);
        let picks = (self.known[&id].picks() != [last.picks].into()).then_some(last.picks);
        let removed = (self.known[&id].removed() != [last.removed].into()).then_some(last.removed);
        match ended {
            Ended::Refused => return,
            Ended::Done if answer["undone"].is_null() => {
                self.fail(&format!("{} has nothing to take back, but wrote sitting {id} last", NAMES[device]));
            }
            Ended::Done => {
                self.wrote_something(&id, &keys);
                self.done[device].pop();
            }
            Ended::Unsure => self.done[device].push(None),
        }
        self.add_write(&id, KnownWrite::new(keys, picks, removed, ended == Ended::Done), &known);
    }

    fn kill(&mut self, device: usize, arguments: &[&str], after: Duration) {
        self.commands += 1;
        let mut command = self.devices[device].command(arguments);
        let mut child = command.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap();
        std::thread::sleep(after);
        let _ = child.kill();
        let ended = child.wait().unwrap();
        let hit = ended.code().is_none();
        self.kills += u64::from(hit);
        let hit = if hit { "killed" } else { "ended before it was killed" };
        self.note(format!("{} {arguments:?} {hit} after {after:?}", NAMES[device]));
        self.nothing_went(&format!("{} {arguments:?}, killed,", NAMES[device]));
    }

    pub fn carry_all(&mut self) {
        for _ in 0..2 {
            for (from, to) in [(0, 1), (1, 2), (2, 0), (0, 2), (2, 1), (1, 0)] {
                self.carried += 1;
                self.happens(|devices| folders::carry(&devices[from].folder(), &devices[to].folder(), || true));
            }
        }
    }
}

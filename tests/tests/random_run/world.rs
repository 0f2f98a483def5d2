//! Three devices, what happens to them, and what they must still know in the end.

use std::collections::{BTreeMap, BTreeSet, VecDeque};
use std::io::Read;
use std::path::PathBuf;
use std::process::{Output, Stdio};
use std::thread::JoinHandle;
use std::time::{Duration, Instant};

use fellmark_tests::command_line::CommandLineDevice;
use fellmark_tests::journal::mount::Mount;
use serde_json::Value;

use super::folders;
use super::steps::{RunStep, STEPS};

/// No command may take longer.
const PATIENCE: Duration = Duration::from_secs(60);
pub(super) const NAMES: [&str; 3] = ["laptop", "phone", "tablet"];

/// What is known of a sitting: values it may have. More than one after a command was killed.
#[derive(Clone, PartialEq)]
pub(super) struct KnownRecord {
    writer: usize,
    picks: BTreeSet<i64>,
    removed: BTreeSet<bool>,
}

/// How sure it is that a command did what it was asked.
#[derive(Clone, Copy, PartialEq)]
enum Ended {
    Done,
    /// Refused, and not written.
    Refused,
    Unsure,
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
    known: BTreeMap<String, KnownRecord>,
    copies: Vec<Vec<(PathBuf, Vec<u8>)>>,
    /// The folder of the last device lies on a small file system of its own, where this machine allows it.
    pub(super) mount: Option<Mount>,
    /// So does the own data of the second one.
    pub(super) local_mount: Option<Mount>,
    /// Some of what the second one wrote may lie in its folder alone.
    pub(super) local_is_full: bool,
    /// What each device did, the latest last: a sitting, and what was known of it before. Nothing where what was done is not sure.
    pub(super) done: [Vec<Option<(String, KnownRecord)>>; 3],
    /// Picks of sittings that were refused.
    refused: BTreeSet<i64>,
    /// Every sitting has other picks, so that each is known again.
    last_picks: i64,
    plain: bool,
    trace: VecDeque<String>,
    commands: u64,
    kills: u64,
    pub(super) faults: u64,
    carried: u64,
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
            copies: Vec::new(),
            mount,
            local_mount,
            local_is_full: false,
            done: [Vec::new(), Vec::new(), Vec::new()],
            refused: BTreeSet::new(),
            last_picks: 0,
            plain: std::env::var_os("FELLMARK_PLAIN_CLOCK").is_some(),
            trace: VecDeque::new(),
            commands: 0,
            kills: 0,
            faults: 0,
            carried: 0,
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
            "{} commands, {} kills, {} faults, {} transfers; {} sittings acknowledged, {} refused",
            self.commands,
            self.kills,
            self.faults,
            self.carried,
            self.known.len(),
            self.refused.len()
        )
    }

    fn below(&mut self, most: usize) -> usize {
        self.random ^= self.random << 13;
        self.random ^= self.random >> 7;
        self.random ^= self.random << 17;
        (self.random % most.max(1) as u64) as usize
    }

    pub(super) fn note(&mut self, what: String) {
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
        self.note(format!("{} {arguments:?}: {:?} {said}", NAMES[device], status.code()));
        if !status.code().is_some_and(|code| (0..=4).contains(&code)) || said.contains("panicked") {
            self.fail(&format!("{} {arguments:?} ended with {status}: {said}", NAMES[device]));
        }
        output
    }

    fn json(&mut self, device: usize, arguments: &[&str]) -> Value {
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
                self.kills += 1;
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
            // A longer copy of its own file that another device still has would take the place of what lies in its folder alone.
            RunStep::Carry if other == 1 && self.local_is_full => {}
            RunStep::Carry => {
                self.carried += 1;
                let mut chances: Vec<bool> = (0..64).map(|_| self.below(4) > 0).collect();
                folders::carry(&from, &to, || chances.pop().unwrap_or(true));
            }
            RunStep::CarryPart => {
                self.faults += 1;
                folders::carry_a_part(&from, &to, nth);
            }
            RunStep::Copy => self.copies.push(folders::copy(&from)),
            RunStep::OldVersion => {
                self.faults += 1;
                let which = self.below(self.copies.len());
                // What reached one place alone, as was said when it was written, is not there when that place loses it.
                if device == 1 && self.local_is_full {
                    return;
                }
                if let Some(copy) = self.copies.get(which) {
                    folders::restore(copy, &from, nth);
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
                folders::plant(&from, nth);
                self.run(device, &["check"]);
            }
        }
    }

    fn next_picks(&mut self) -> i64 {
        self.last_picks += 1;
        self.last_picks
    }

    /// Runs a command that writes, and says whether it did. A disk may refuse; nothing else may.
    fn writes(&mut self, device: usize, arguments: &[&str]) -> (Ended, Value) {
        let output = self.run(device, arguments);
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        match output.status.code() {
            Some(0 | 1) => (Ended::Done, serde_json::from_slice(&output.stdout).unwrap()),
            Some(4) if said.contains("othing could be saved") || said.contains("othing was saved") => {
                (Ended::Refused, Value::Null)
            }
            // This device's own data could not even be opened for writing.
            Some(4)
                if said.contains("annot write ") || said.contains("annot make ") || said.contains("annot open ") =>
            {
                (Ended::Refused, Value::Null)
            }
            Some(4) if said.contains("not enter it again") => (Ended::Unsure, Value::Null),
            _ => self.fail(&format!("{} {arguments:?}: {said}", NAMES[device])),
        }
    }

    pub(super) fn log(&mut self, device: usize) {
        let picks = self.next_picks();
        let warp = self.warp.clone();
        let (ended, logged) = self.writes(device, &["log", &warp, "--picks", &picks.to_string(), "--minutes", "5"]);
        match ended {
            Ended::Refused => _ = self.refused.insert(picks),
            Ended::Unsure => self.done[device].push(None),
            Ended::Done => {
                let id = logged["sitting"].as_str().unwrap().to_owned();
                let known = KnownRecord { writer: device, picks: [picks].into(), removed: [false].into() };
                self.known.insert(id.clone(), known.clone());
                self.done[device].push(Some((id, KnownRecord { removed: [true].into(), ..known })));
            }
        }
    }

    /// Changes a sitting of this device's own; killed after a time, if one is given.
    fn change(&mut self, device: usize, step: RunStep, killed: Option<Duration>) {
        let own: Vec<String> =
            self.known.iter().filter(|(_, known)| known.writer == device).map(|(id, _)| id.clone()).collect();
        let nth = self.below(own.len());
        let Some(id) = own.get(nth) else { return };
        let picks = self.next_picks();
        let text = picks.to_string();
        let before = self.known[id].clone();
        let removed = &before.removed;
        let arguments: Vec<&str> = match step {
            // After a kill nobody knows whether it is removed; what is asked for must make sense.
            RunStep::Correct | RunStep::Remove if *removed != [false].into() => return,
            RunStep::Restore if !removed.contains(&true) => return,
            RunStep::Correct => vec!["correct", id, "--picks", &text],
            RunStep::Remove => vec!["remove", id],
            _ => vec!["restore", id],
        };
        let ended = match killed {
            Some(after) => {
                self.kill(device, &arguments, after);
                Ended::Unsure
            }
            None => self.writes(device, &arguments).0,
        };
        if ended == Ended::Refused {
            return;
        }
        let sure = ended == Ended::Done;
        let known = self.known.get_mut(id).unwrap();
        match step {
            RunStep::Correct => {
                if sure {
                    known.picks.clear();
                }
                known.picks.insert(picks);
            }
            step => {
                if sure {
                    known.removed.clear();
                }
                known.removed.insert(matches!(step, RunStep::Remove));
            }
        }
        let was_sure = before.picks.len() == 1 && before.removed.len() == 1;
        self.done[device].push((sure && was_sure).then(|| (id.clone(), before)));
    }

    /// Takes back what a device did last, if that is known.
    fn undo(&mut self, device: usize) {
        let Some(Some((id, before))) = self.done[device].last().cloned() else { return };
        let (ended, answer) = self.writes(device, &["undo"]);
        match ended {
            Ended::Refused => return,
            Ended::Done if answer["undone"].is_null() => {
                self.fail(&format!("{} has nothing to take back, but wrote sitting {id} last", NAMES[device]));
            }
            Ended::Done => _ = self.known.insert(id, before),
            Ended::Unsure => {
                let known = self.known.get_mut(&id).unwrap();
                known.picks.extend(before.picks);
                known.removed.extend(before.removed);
                self.done[device].push(None);
                return;
            }
        }
        self.done[device].pop();
    }

    fn kill(&mut self, device: usize, arguments: &[&str], after: Duration) {
        self.commands += 1;
        let mut command = self.devices[device].command(arguments);
        let mut child = command.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap();
        std::thread::sleep(after);
        let _ = child.kill();
        child.wait().unwrap();
        self.note(format!("{} {arguments:?} killed after {after:?}", NAMES[device]));
    }

    fn carry_all(&mut self) {
        for _ in 0..2 {
            for (from, to) in [(0, 1), (1, 2), (2, 0), (0, 2), (2, 1), (1, 0)] {
                self.carried += 1;
                folders::carry(&self.devices[from].folder(), &self.devices[to].folder(), || true);
            }
        }
    }

    /// Everything a device has goes: to see that this is found.
    pub fn forget_everything_of_one_device(&mut self) {
        self.change_disk(3);
        self.log(0);
        let home = self.devices[0].home().to_owned();
        std::fs::remove_dir_all(home.join("data")).unwrap();
        for device in &self.devices {
            for file in fellmark_tests::journal::all_files(&device.folder()) {
                let is_marker = file.parent().unwrap().ends_with("devices");
                if !is_marker && file.file_name().unwrap().to_string_lossy().starts_with("laptop-") {
                    std::fs::remove_file(file).unwrap();
                }
            }
        }
    }

    /// All disks and clocks are right again, everything is carried everywhere, and all that was acknowledged is looked for.
    pub fn settle_and_check(&mut self) {
        self.change_disk(3);
        self.change_local_disk(false);
        self.devices.iter_mut().for_each(|device| device.set_clock(None));
        for device in 0..3 {
            // Refused where the markers are there.
            self.run(device, &["mark-folder", "--confirm"]);
        }
        for _ in 0..2 {
            for device in 0..3 {
                self.json(device, &["write-back"]);
            }
            self.carry_all();
        }
        let all: Vec<Value> = (0..3).map(|device| self.json(device, &["export", "everything"])).collect();
        for (device, one) in all.iter().enumerate().skip(1) {
            if *one != all[0] {
                let records = |value: &Value| -> BTreeMap<String, Value> {
                    let list = value["records"].as_array().cloned().unwrap_or_default();
                    list.into_iter().map(|one| (one["id"].to_string(), one)).collect()
                };
                let (first, other) = (records(&all[0]), records(one));
                let ids = first.keys().chain(other.keys()).filter(|id| first.get(*id) != other.get(*id));
                let apart: Vec<String> =
                    ids.map(|id| format!("{:?}\n  {:?}", first.get(id), other.get(id))).take(4).collect();
                self.fail(&format!("{} and {} differ:\n{}", NAMES[0], NAMES[device], apart.join("\n")));
            }
        }
        let records = all[0]["records"].as_array().unwrap();
        let records: BTreeMap<&str, &Value> = records.iter().map(|one| (one["id"].as_str().unwrap(), one)).collect();
        for record in records.values() {
            if record["kind"] == "sitting"
                && let Some(picks) = record["fields"]["picks"].as_i64()
                && self.refused.contains(&picks)
            {
                self.fail(&format!("a sitting of {picks} picks was refused and is there"));
            }
        }
        for (id, known) in &self.known {
            let Some(record) = records.get(id.as_str()) else { self.fail(&format!("sitting {id} is lost")) };
            let picks = record["fields"]["picks"].as_i64().unwrap_or_default();
            if !known.picks.contains(&picks) {
                self.fail(&format!("sitting {id} has {picks} picks: what was acknowledged is lost: {:?}", known.picks));
            }
            let is_removed = record["presence"] != "here";
            if !known.removed.contains(&is_removed) {
                self.fail(&format!("sitting {id}: that it was removed or restored is lost: {record}"));
            }
        }
    }
}

//! Three devices, what happens to them, and what they must still know in the end.

use std::collections::{BTreeMap, BTreeSet, VecDeque};
use std::io::Read;
use std::path::PathBuf;
use std::process::{Output, Stdio};
use std::thread::JoinHandle;
use std::time::{Duration, Instant};

use fellmark_tests::command_line::Device;
use fellmark_tests::journal::mount::Mount;
use serde_json::Value;

use super::folders;

/// No command may take longer.
const PATIENCE: Duration = Duration::from_secs(60);
const NAMES: [&str; 3] = ["laptop", "phone", "tablet"];

/// What is left out as long as a fault that is known makes it fail: `undo` has tests of its own and is no part of the list of what
/// was acknowledged; cutting the local replica, a full disk for this device's own data, links in the folder, and a folder without
/// device markers are faults that are still open.
const STEPS: [(u64, Step); 12] = [
    (30, Step::Log),
    (14, Step::Correct),
    (6, Step::Remove),
    (6, Step::Restore),
    (14, Step::Kill),
    (14, Step::Carry),
    (6, Step::CarryPart),
    (3, Step::Copy),
    (4, Step::OldVersion),
    (6, Step::Clock),
    (4, Step::Disk),
    (3, Step::Plant),
];

#[derive(Clone, Copy, Debug)]
enum Step {
    /// A sitting is logged.
    Log,
    /// A sitting is corrected by the device that logged it.
    Correct,
    Remove,
    Restore,
    /// A command is killed while it runs.
    Kill,
    /// A synchroniser carries some files.
    Carry,
    /// A synchroniser is stopped in the middle of a file.
    CarryPart,
    /// A copy of the folder is put by.
    Copy,
    /// A file comes back as it was in an earlier copy.
    OldVersion,
    /// A device's clock jumps.
    Clock,
    /// The disk of one device's folder becomes full or read-only, or is as it should be again.
    Disk,
    /// A file turns up that nobody should trust.
    Plant,
}

/// What is known of a sitting: values it may have. More than one after a command was killed.
struct Known {
    writer: usize,
    picks: BTreeSet<i64>,
    removed: BTreeSet<bool>,
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
    devices: Vec<Device>,
    warp: String,
    known: BTreeMap<String, Known>,
    copies: Vec<Vec<(PathBuf, Vec<u8>)>>,
    /// The folder of the last device lies on a small file system of its own, where this machine allows it.
    mount: Option<Mount>,
    trace: VecDeque<String>,
    commands: u64,
    kills: u64,
    faults: u64,
    carried: u64,
}

impl World {
    pub fn new(seed: u64) -> Self {
        let devices: Vec<Device> = NAMES.iter().map(|name| Device::new(name)).collect();
        let mount = Mount::memory(&devices[2].folder(), "size=1m");
        let random = seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1;
        let mut world = Self {
            seed,
            random,
            devices,
            warp: String::new(),
            known: BTreeMap::new(),
            copies: Vec::new(),
            mount,
            trace: VecDeque::new(),
            commands: 0,
            kills: 0,
            faults: 0,
            carried: 0,
        };
        let begun = world.json(0, &["begin", "Scarf", "--wound", "3 m", "--waste", "50 cm", "--picks", "40"]);
        world.warp = begun["warp"].as_str().unwrap().to_owned();
        world.carry_all();
        world
    }

    pub fn figures(&self) -> String {
        format!(
            "{} commands, {} kills, {} faults, {} transfers; {} sittings acknowledged",
            self.commands,
            self.kills,
            self.faults,
            self.carried,
            self.known.len()
        )
    }

    fn below(&mut self, most: usize) -> usize {
        self.random ^= self.random << 13;
        self.random ^= self.random >> 7;
        self.random ^= self.random << 17;
        (self.random % most.max(1) as u64) as usize
    }

    fn note(&mut self, what: String) {
        self.trace.push_back(what);
        if self.trace.len() > 60 {
            self.trace.pop_front();
        }
    }

    fn fail(&self, what: &str) -> ! {
        let steps: Vec<&str> = self.trace.iter().map(String::as_str).collect();
        panic!("seed {}: {what}\nthe last steps:\n{}", self.seed, steps.join("\n"))
    }

    /// Runs a command to its end; any end that its description has is fine.
    fn run(&mut self, device: usize, arguments: &[&str]) -> Output {
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
            Step::Log => self.log(device),
            Step::Correct | Step::Remove | Step::Restore => self.change(device, step, None),
            Step::Kill => {
                let after = Duration::from_micros(self.below(20_000) as u64);
                self.kills += 1;
                if self.below(2) == 0 {
                    let step = [Step::Correct, Step::Remove, Step::Restore][self.below(3)];
                    self.change(device, step, Some(after));
                } else {
                    let picks = self.below(500).to_string();
                    let warp = self.warp.clone();
                    self.kill(device, &["log", &warp, "--picks", &picks, "--minutes", "5"], after);
                }
            }
            Step::Carry => {
                self.carried += 1;
                let mut chances: Vec<bool> = (0..64).map(|_| self.below(4) > 0).collect();
                folders::carry(&from, &to, || chances.pop().unwrap_or(true));
            }
            Step::CarryPart => {
                self.faults += 1;
                folders::carry_a_part(&from, &to, nth);
            }
            Step::Copy => self.copies.push(folders::copy(&from)),
            Step::OldVersion => {
                self.faults += 1;
                let which = self.below(self.copies.len());
                if let Some(copy) = self.copies.get(which) {
                    folders::restore(copy, &from, nth);
                }
            }
            Step::Clock => {
                self.faults += 1;
                let clock = [None, Some("+3d"), Some("-2d"), Some("+2h"), Some("+400d")][self.below(5)];
                self.devices[device].set_clock(clock);
                self.note(format!("{}'s clock: {clock:?}", NAMES[device]));
            }
            Step::Disk => {
                self.faults += 1;
                self.change_disk(nth);
            }
            Step::Plant => {
                self.faults += 1;
                folders::plant(&from, nth);
                self.run(device, &["check"]);
            }
        }
    }

    fn log(&mut self, device: usize) {
        let picks = self.below(500) as i64 + 1;
        let warp = self.warp.clone();
        let logged = self.json(device, &["log", &warp, "--picks", &picks.to_string(), "--minutes", "5"]);
        let id = logged["sitting"].as_str().unwrap().to_owned();
        self.known.insert(id, Known { writer: device, picks: [picks].into(), removed: [false].into() });
    }

    /// Changes a sitting of this device's own; killed after a time, if one is given.
    fn change(&mut self, device: usize, step: Step, killed: Option<Duration>) {
        let own: Vec<String> =
            self.known.iter().filter(|(_, known)| known.writer == device).map(|(id, _)| id.clone()).collect();
        let nth = self.below(own.len());
        let Some(id) = own.get(nth) else { return };
        let picks = self.below(500) as i64 + 1;
        let text = picks.to_string();
        let removed = self.known[id].removed.clone();
        let arguments: Vec<&str> = match step {
            // After a kill nobody knows whether it is removed; what is asked for must make sense.
            Step::Correct | Step::Remove if removed != [false].into() => return,
            Step::Restore if !removed.contains(&true) => return,
            Step::Correct => vec!["correct", id, "--picks", &text],
            Step::Remove => vec!["remove", id],
            _ => vec!["restore", id],
        };
        let sure = match killed {
            Some(after) => {
                self.kill(device, &arguments, after);
                false
            }
            None => {
                self.json(device, &arguments);
                true
            }
        };
        let known = self.known.get_mut(id).unwrap();
        match step {
            Step::Correct => {
                if sure {
                    known.picks.clear();
                }
                known.picks.insert(picks);
            }
            step => {
                if sure {
                    known.removed.clear();
                }
                known.removed.insert(matches!(step, Step::Remove));
            }
        }
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

    fn change_disk(&mut self, nth: usize) {
        let Some(mount) = &self.mount else { return };
        let filler = self.devices[2].folder().join(".filler");
        match nth % 4 {
            0 => mount.remount("ro"),
            1 => {
                mount.remount("rw");
                let _ = std::fs::write(&filler, vec![0u8; 2 << 20]);
            }
            _ => {
                mount.remount("rw");
                let _ = std::fs::remove_file(&filler);
            }
        }
        self.note(format!("the tablet's disk: {}", ["read-only", "full", "fine", "fine"][nth % 4]));
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
        self.devices.iter_mut().for_each(|device| device.set_clock(None));
        for _ in 0..2 {
            for device in 0..3 {
                self.json(device, &["write-back"]);
            }
            self.carry_all();
        }
        let all: Vec<Value> = (0..3).map(|device| self.json(device, &["export", "everything"])).collect();
        for (device, one) in all.iter().enumerate().skip(1) {
            if *one != all[0] {
                self.fail(&format!("{} and {} show something else", NAMES[0], NAMES[device]));
            }
        }
        let records = all[0]["records"].as_array().unwrap();
        let records: BTreeMap<&str, &Value> = records.iter().map(|one| (one["id"].as_str().unwrap(), one)).collect();
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

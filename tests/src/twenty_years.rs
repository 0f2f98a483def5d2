//! A folder of twenty years of one weaver, invented, the same in every run: what benchmarks open.
#![allow(clippy::expect_used, clippy::missing_panics_doc)]

use std::fs::{self, File};
use std::path::Path;

use chrono::NaiveDate;
use fellmark_journal::{At, DeviceId, Entry, EntryDraft, Journal, Key, Kind, Options, Place, RecordId, render};
use serde_json::{Map, Value, json};

const DEVICES: usize = 5;
const PHOTOS_PER_3_SITTINGS: usize = 2;
/// Warps that are not off the loom yet.
const ON_THE_LOOM: usize = 4;

/// Writes the folder `log` below a root as the devices would; each entry, and what it sets, is reported too.
pub fn generate(root: &Path, warps: usize, sittings: usize, mut reported: impl FnMut(&Entry, &Map<String, Value>)) {
    let log = root.join("log");
    let devices: Vec<DeviceId> = (0..DEVICES)
        .map(|device| {
            let name = format!("device{device}");
            let options = Options::new(&log, root.join("local").join(&name), name).create();
            Journal::open(options).expect("a temporary folder can be written").device().clone()
        })
        .collect();
    let mut random = PseudoRandomIds(7);
    let per_warp = sittings / warps;
    for w in 0..warps {
        let warp = random.id();
        let dir = log.join(format!("warps/warp-{w}-{}", warp.short()));
        fs::create_dir_all(dir.join("photos")).expect("a temporary folder can be written");
        let mut lines: Vec<Vec<String>> = vec![Vec::new(); DEVICES];
        let begun = day(2007, 1, 5) + chrono::Days::new((w * 18) as u64);
        let mut minute = 0;
        let mut write = |device: usize, of: &RecordId, kind: Kind, over: Vec<Key>, set: Value| {
            minute += 1;
            let at = format!("{begun}T{:02}:{:02}:04.{:03}Z.0000", minute / 60 % 24, minute % 60, minute % 1000);
            let at: At = serde_json::from_value(Value::String(at)).expect("it is a time");
            let set = set.as_object().cloned().unwrap_or_default();
            let draft = EntryDraft { place: Place::warp(&warp), of: of.clone(), kind, over, set: set.clone() };
            let entry = Entry::from_draft(draft, &devices[device], at).expect("it is small");
            reported(&entry, &set);
            lines[device].push(entry.line().to_owned());
            entry.key()
        };
        let state = if w + ON_THE_LOOM < warps { "off_the_loom" } else { "on_the_loom" };
        let set = json!({
            "name": format!("Warp {w}"), "begun_on": begun, "state": state, "wound_mm": 2750, "waste_mm": 450,
            "wanted_mm": 1800, "wanted_state": "under_tension", "picks_per_10cm": 40, "warp_per_100_cloth": 108,
        });
        write(0, &warp, Kind::WARP, Vec::new(), set);
        for n in 0..per_warp {
            let (device, id) = (n % DEVICES, random.id());
            let on = begun + chrono::Days::new(n as u64 / 4);
            let picks = 4 + random.next() % 9;
            let set = json!({
                "on": on, "started": format!("{:02}:15", 8 + n % 12), "minutes": 10 + random.next() % 60, "picks": picks,
                "note": "a quiet evening",
            });
            let key = write(device, &id, Kind::SITTING, Vec::new(), set);
            if n % 10 == 9 {
                write((device + 1) % DEVICES, &id, Kind::SITTING, vec![key], json!({"picks": picks + 1}));
            }
            if n % 3 < PHOTOS_PER_3_SITTINGS {
                let hash: String = (0..8).map(|_| format!("{:08x}", random.next() as u32)).collect();
                File::create(dir.join("photos").join(format!("{hash}.jpg"))).expect("a temporary file can be made");
                let set = json!({"hash": hash, "sitting": id, "taken_at": format!("{on}T19:04:11")});
                write(device, &random.id(), Kind::PHOTO, Vec::new(), set);
            }
        }
        for (device, lines) in devices.iter().zip(&lines) {
            let bytes = render(device, 1, lines.iter().map(String::as_str));
            fs::write(dir.join(format!("{device}.0001.json")), bytes).expect("a temporary file can be written");
        }
    }
}

fn day(year: i32, month: u32, day: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(year, month, day).expect("it is a day")
}

/// Pseudo-random ids, the same in every run.
struct PseudoRandomIds(u64);

impl PseudoRandomIds {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        self.0 >> 33
    }

    fn id(&mut self) -> RecordId {
        const LETTERS: &[u8; 32] = b"0123456789abcdefghjkmnpqrstvwxyz";
        let text: String = (0..20).map(|_| char::from(LETTERS[self.next() as usize % 32])).collect();
        text.parse().expect("it is an id")
    }
}

//! The end of a run: what was acknowledged is looked for on all devices.

use std::collections::BTreeMap;

use serde_json::Value;

use super::world::{NAMES, World};

impl World {
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
            let Some(record) = records.get(id.as_str()) else {
                if known.is_there() {
                    self.fail(&format!("sitting {id} is lost"));
                }
                continue;
            };
            let picks = record["fields"]["picks"].as_i64().unwrap_or_default();
            let expected = known.picks();
            if !expected.is_empty() && !expected.contains(&picks) {
                self.fail(&format!("sitting {id} has {picks} picks: what was acknowledged is lost: {expected:?}"));
            }
            let is_removed = record["presence"] != "here";
            let expected = known.removed();
            if !expected.is_empty() && !expected.contains(&is_removed) {
                self.fail(&format!("sitting {id}: that it was removed or restored is lost: {record}"));
            }
        }
    }
}

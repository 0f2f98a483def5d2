//! What may be lost and what may not: each acknowledged entry lies in two places, or was announced to lie in one.

use std::collections::BTreeSet;
use std::process::Output;

use fellmark_journal::Key;
use fellmark_tests::command_line::CommandLineDevice;
use serde_json::Value;

use super::world::{NAMES, World};

impl World {
    /// Of the acknowledged entries, those that lie anywhere.
    fn acknowledged_anywhere(&mut self) -> BTreeSet<Key> {
        let all = self.places.anywhere(&self.devices);
        all.into_iter().filter(|key| self.acknowledged.contains_key(key)).collect()
    }

    /// Notes which entries a device says to lie in its folder alone, after a command that said so or not.
    pub(super) fn heed_what_is_alone(&mut self, device: usize, says_alone: bool) {
        let own = self.places.in_own_data(&self.devices[device]);
        if says_alone {
            let folder = self.places.in_folder(&self.devices[device]);
            self.alone[device] = &folder - &own;
        } else {
            self.alone[device].retain(|key| !own.contains(key));
        }
    }

    /// No command takes away the last copy of an acknowledged entry.
    pub(super) fn nothing_went(&mut self, command: &str) {
        let now = self.acknowledged_anywhere();
        if let Some(key) = self.lying.difference(&now).next() {
            self.fail(&format!("{command} took the last copy of {key}, of sitting {}", self.acknowledged[key]));
        }
        self.lying = now;
    }

    /// Something happens to the devices from outside. Where it takes the last copy of an acknowledged entry, that this was the
    /// only copy was announced.
    pub(super) fn happens(&mut self, what: impl FnOnce(&[CommandLineDevice])) {
        what(&self.devices);
        let now = self.acknowledged_anywhere();
        let gone: Vec<Key> = self.lying.difference(&now).copied().collect();
        let back: Vec<Key> = now.difference(&self.lying).copied().collect();
        self.lying = now;
        for key in gone {
            let sitting = self.acknowledged[&key].clone();
            if !self.alone.iter().any(|alone| alone.contains(&key)) {
                self.fail(&format!("an entry of sitting {sitting} lay in one place alone, unannounced: it is lost"));
            }
            self.note(format!(
                "an entry of sitting {sitting}, announced to be in one place alone, is overwritten there"
            ));
            self.gone += 1;
            self.set_gone(&sitting, key, true);
        }
        for key in back {
            let sitting = self.acknowledged[&key].clone();
            self.note(format!("an entry of sitting {sitting} came back"));
            self.back += 1;
            self.set_gone(&sitting, key, false);
        }
    }

    fn set_gone(&mut self, sitting: &str, key: Key, is_gone: bool) {
        let writes = &mut self.known.get_mut(sitting).unwrap().writes;
        writes.iter_mut().filter(|write| write.keys.contains(&key)).for_each(|write| write.is_gone = is_gone);
    }

    /// The entries in a device's copy of the folder and in its own data.
    pub(super) fn lying_on(&mut self, device: usize) -> BTreeSet<Key> {
        let device = &self.devices[device];
        &self.places.in_folder(device) | &self.places.in_own_data(device)
    }

    pub(super) fn reached_two_places_or_said_so(
        &mut self,
        device: usize,
        arguments: &[&str],
        output: &Output,
        keys: &BTreeSet<Key>,
    ) {
        let (folder, own) =
            (self.places.in_folder(&self.devices[device]), self.places.in_own_data(&self.devices[device]));
        let command = format!("{} {arguments:?}", NAMES[device]);
        let is_in_folder_alone = !keys.is_subset(&own);
        if is_in_folder_alone && !says(output, "no_local_copy") {
            self.fail(&format!("{command} does not say that what it wrote is in the folder alone"));
        }
        let is_waiting = !keys.is_subset(&folder);
        if is_waiting && !says(output, "waiting") {
            self.fail(&format!("{command} does not say that what it wrote waits on this device"));
        }
        self.in_folder_alone += u64::from(is_in_folder_alone);
        self.waiting += u64::from(is_waiting);
    }

    /// Looks at where entries lie anew, as if nothing had been lost until now.
    pub(super) fn take_the_loss_for_granted(&mut self) {
        self.lying = self.acknowledged_anywhere();
    }
}

/// Whether an answer has this member.
pub fn says(output: &Output, member: &str) -> bool {
    let answer: Value = serde_json::from_slice(&output.stdout).unwrap_or_default();
    answer.get(member).is_some()
}

//! Faults of disks and folders.

use std::path::PathBuf;

use fellmark_tests::command_line::CommandLineDevice;

use super::world::{NAMES, World};

/// Where a directory of a device's folder lies while a link stands in its place.
pub(super) fn outside(device: &CommandLineDevice) -> PathBuf {
    device.home().join("outside")
}

impl World {
    /// The file of a device's local replica.
    fn replica(&self, device: usize) -> Option<PathBuf> {
        let local = self.devices[device].home().join("data/fellmark/command-line");
        let dirs = std::fs::read_dir(local).ok()?.flatten();
        dirs.map(|dir| dir.path().join("shadow.lines")).find(|file| file.is_file())
    }

    /// The end of a replica is lost while the folder is whole; the device is started before anything else happens to it.
    pub(super) fn cut_replica(&mut self, device: usize, nth: usize) {
        let Some(file) = self.replica(device) else { return };
        if self.run(device, &["write-back"]).status.code() != Some(0) {
            return;
        }
        self.faults += 1;
        let bytes = std::fs::metadata(&file).unwrap().len();
        self.happens(|_| {
            let cut = std::fs::OpenOptions::new().write(true).open(&file);
            cut.unwrap().set_len(bytes.saturating_sub(nth as u64)).unwrap();
        });
        self.note(format!("{} bytes are cut off the replica of {}", nth, NAMES[device]));
        self.run(device, &["warps"]);
        // Where the replica knows nothing of what the folder holds, another device may write there too, and this one takes a new id.
        self.done[device].clear();
    }

    pub(super) fn link(&mut self, device: usize, nth: usize) {
        let dir = self.devices[device].folder().join(["warps", "shelf", "devices"][nth % 3]);
        if !dir.is_dir() {
            return;
        }
        self.faults += 1;
        let outside = outside(&self.devices[device]);
        std::fs::rename(&dir, &outside).unwrap();
        std::os::unix::fs::symlink(&outside, &dir).unwrap();
        let before = fellmark_tests::journal::contents(&outside);
        self.log(device);
        let check = self.run(device, &["check"]);
        if check.status.code() != Some(1) {
            self.fail(&format!("{} says nothing of a link in the place of {}", NAMES[device], dir.display()));
        }
        if fellmark_tests::journal::contents(&outside) != before {
            self.fail(&format!("{} writes through a link in the place of {}", NAMES[device], dir.display()));
        }
        std::fs::remove_file(&dir).unwrap();
        std::fs::rename(&outside, &dir).unwrap();
    }

    pub(super) fn lose_markers(&mut self, device: usize) {
        if std::fs::remove_dir_all(self.devices[device].folder().join("devices")).is_err() {
            return;
        }
        self.faults += 1;
        self.log(device);
        self.run(device, &["mark-folder", "--confirm"]);
    }

    pub(super) fn change_local_disk(&mut self, full: bool) {
        if self.local_mount.is_none() {
            return;
        }
        let filler = self.devices[1].home().join("data/filler");
        if full {
            let _ = std::fs::write(&filler, vec![0u8; 10 << 20]);
        } else {
            let _ = std::fs::remove_file(&filler);
            // By this start it remembers what it could not until now.
            self.run(1, &["warps"]);
        }
        self.note(format!("the disk of {}'s own data is {}", NAMES[1], if full { "full" } else { "fine" }));
    }

    pub(super) fn change_disk(&mut self, nth: usize) {
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
}

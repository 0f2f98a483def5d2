//! Unison, which mirrors two directories when it is run: each device's folder with one in the middle.

use std::path::PathBuf;
use std::process::Command;

use crate::{Carrier, Devices, carry};

struct Mirror {
    folders: Vec<PathBuf>,
    middle: PathBuf,
    archives: PathBuf,
}

impl Carrier for Mirror {
    fn start(&mut self) {}
    fn stop(&mut self) {}
    fn work(&mut self) {
        for folder in &self.folders {
            let output = Command::new("unison")
                .arg(folder)
                .arg(&self.middle)
                .args(["-ui", "text", "-batch", "-auto", "-times", "-prefer", "newer", "-copyonconflict"])
                .args(["-confirmbigdel=false", "-ignore", "Name .*.tmp"])
                .env("UNISON", &self.archives)
                .output();
            let output = output.expect("unison is needed for this test: apt-get install unison");
            // 0: all mirrored, 1: something was skipped, 2: something failed and is tried again next time.
            assert!(output.status.code().is_some_and(|code| code <= 2), "{output:?}");
        }
    }
}

#[test]
fn unison_between_three_folders_and_one_in_the_middle() {
    let devices = Devices::new();
    let middle = devices.root.path().join("middle");
    let archives = devices.root.path().join("unison");
    std::fs::create_dir_all(&middle).unwrap();
    std::fs::create_dir_all(&archives).unwrap();
    let mut mirror = Mirror { folders: devices.folders(), middle, archives };
    carry(&devices, &mut mirror, 2, |file| file.to_string_lossy().contains("(conflict"));
}

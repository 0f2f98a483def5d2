//! Git as a carrier: every device's folder is a clone of one bare repository.

use std::path::{Path, PathBuf};
use std::process::Command;

use crate::{Carrier, Devices, carry};

struct Git {
    folders: Vec<PathBuf>,
    clones: usize,
    hub: PathBuf,
}

fn git(dir: &Path, args: &[&str]) -> bool {
    let output = Command::new("git")
        .current_dir(dir)
        .args(["-c", "user.name=Ann", "-c", "user.email=ann@example.org", "-c", "init.defaultBranch=main"])
        .args(["-c", "gc.auto=0"])
        .args(args)
        .env("GIT_CONFIG_GLOBAL", "/dev/null")
        .output();
    output.expect("git is needed for this test: apt-get install git").status.success()
}

impl Git {
    fn new(devices: &Devices) -> Self {
        let hub = devices.root.path().join("hub");
        std::fs::create_dir(&hub).unwrap();
        assert!(git(&hub, &["init", "-q", "--bare"]));
        Self { folders: devices.folders(), clones: 0, hub }
    }
}

impl Carrier for Git {
    fn start(&mut self) {}
    fn stop(&mut self) {}
    fn work(&mut self) {
        let hub = self.hub.to_string_lossy().into_owned();
        for (i, folder) in self.folders.iter().enumerate() {
            if self.clones <= i {
                // The first makes the repository, the others begin as clones of it.
                assert!(git(folder, &["init", "-q"]) && git(folder, &["remote", "add", "origin", &hub]));
                if i > 0 {
                    assert!(git(folder, &["pull", "-q", "origin", "main"]));
                }
                self.clones += 1;
            }
            git(folder, &["add", "-A"]);
            git(folder, &["commit", "-q", "-m", "carried"]);
            if !git(folder, &["pull", "-q", "--no-rebase", "--no-edit", "origin", "main"]) {
                // A conflict: committed with its markers, as someone in a hurry does.
                git(folder, &["add", "-A"]);
                git(folder, &["commit", "-q", "-m", "carried, with markers"]);
            }
            git(folder, &["push", "-q", "origin", "HEAD:main"]);
        }
    }
}

#[test]
fn git_between_three_clones() {
    let devices = Devices::new();
    let mut carrier = Git::new(&devices);
    let has_markers = |file: &Path| {
        !file.components().any(|part| part.as_os_str() == ".git")
            && std::fs::read(file).is_ok_and(|bytes| bytes.windows(8).any(|window| window == b"\n<<<<<<<"))
    };
    carry(&devices, &mut carrier, 3, has_markers);
}

//! What a test needs of the machine: the right to mount. Where it is missing the test says so and ends.
#![allow(missing_docs, clippy::unwrap_used, clippy::panic)] // The names are those of the operations.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// A mounted file system, unmounted when dropped.
pub struct Mount {
    at: PathBuf,
}

fn run(program: &str, args: &[&str]) -> bool {
    let status = Command::new(program).args(args).stdout(Stdio::null()).stderr(Stdio::null()).status();
    status.is_ok_and(|status| status.success())
}

impl Mount {
    /// A small file system in memory. `None`, with a word on standard error, where this may not mount.
    pub fn memory(at: &Path, options: &str) -> Option<Self> {
        std::fs::create_dir_all(at).unwrap();
        let mounted = run("mount", &["-t", "tmpfs", "-o", options, "tmpfs", &at.to_string_lossy()]);
        said(mounted, "mounting a file system in memory is not allowed here").then(|| Self { at: at.to_owned() })
    }

    /// A file system in an image file.
    pub fn image(image: &Path, at: &Path) -> Option<Self> {
        Self::image_with(image, at, "loop")
    }

    pub fn image_with(image: &Path, at: &Path, options: &str) -> Option<Self> {
        std::fs::create_dir_all(at).unwrap();
        let mounted = run("mount", &["-o", options, &image.to_string_lossy(), &at.to_string_lossy()]);
        said(mounted, "mounting an image file is not allowed here").then(|| Self { at: at.to_owned() })
    }

    pub fn remount(&self, options: &str) {
        assert!(run("mount", &["-o", &format!("remount,{options}"), &self.at.to_string_lossy()]));
    }

    pub fn unmount(self) {}
}

impl Drop for Mount {
    fn drop(&mut self) {
        let at = self.at.to_string_lossy().into_owned();
        if !run("umount", &[&at]) {
            run("umount", &["-l", &at]);
        }
    }
}

fn said(can: bool, what: &str) -> bool {
    if !can {
        eprintln!("NOT TRIED on this machine: {what}.");
    }
    can
}

/// Makes an image file with an empty file system of a kind. `None` where its maker is not installed.
pub fn make_image(kind: &str, image: &Path, megabytes: u64) -> Option<()> {
    std::fs::File::create(image).unwrap().set_len(megabytes << 20).unwrap();
    let maker = format!("mkfs.{kind}");
    said(run(&maker, &["-q", &image.to_string_lossy()]), &format!("{maker} is not installed, or fails")).then_some(())
}

//! The package in a clean Debian system: installed, used, upgraded and removed.

use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};

use crate::package;
use crate::setup::{self, Purpose};
use crate::step::{self, StepResult};

/// What is done in the clean system, from installing to removing.
const SCRIPT: &str = include_str!("package-test.sh");
const RELEASE: &str = "bookworm";

/// Builds the package and takes it through its life in a system made for that in `target/package-test`.
///
/// Needs root, for `debootstrap` and `chroot`; without, it says so and fails.
pub fn package_test() -> StepResult {
    let user = Command::new("id").arg("-u").output().map_err(|error| format!("id: {error}"))?;
    if user.stdout.trim_ascii() != b"0" {
        return Err("The package is installed in a root folder of its own, which needs root: sudo ./dev package-test"
            .to_owned());
    }
    setup::setup(Purpose::PackageTest)?;
    let target = step::target();
    let current = package::build_package(&step::top(), &target.join("package"))?;
    let folder = target.join("package-test");
    fs::create_dir_all(&folder).map_err(|error| format!("{}: {error}", folder.display()))?;
    let former = folder.join("former.deb");
    package::build_lower_version(&target.join("package"), &former)?;

    let root = folder.join("root");
    if !root.join("installed").exists() {
        bare_system(&root)?;
    }
    let packages = root.join("packages");
    fs::create_dir_all(&packages).map_err(|error| format!("{}: {error}", packages.display()))?;
    for (from, name) in [(&former, "former.deb"), (&current, "current.deb")] {
        fs::copy(from, packages.join(name)).map_err(|error| format!("{}: {error}", from.display()))?;
    }
    let script = root.join("packages/test.sh");
    fs::write(&script, SCRIPT).map_err(|error| format!("{}: {error}", script.display()))?;
    inside(&root, "sh /packages/test.sh")
}

/// A minimal Debian with the package sources of this machine.
fn bare_system(root: &Path) -> StepResult {
    if root.exists() {
        fs::remove_dir_all(root).map_err(|error| format!("{}: {error}", root.display()))?;
    }
    let mut bootstrap = Command::new("debootstrap");
    bootstrap.args(["--variant=minbase", RELEASE]).arg(root).arg(mirror()?);
    step::run(bootstrap.stdout(Stdio::null()))?;
    // Its own list of sources names the same ones again.
    let list = root.join("etc/apt/sources.list");
    fs::remove_file(&list).map_err(|error| format!("{}: {error}", list.display()))?;
    let apt = root.join("etc/apt");
    step::run(Command::new("cp").args(["--archive", "/etc/apt/."]).arg(&apt))?;
    fs::write(root.join("installed"), "").map_err(|error| format!("{}: {error}", root.display()))
}

/// Where this machine gets its Debian packages from.
fn mirror() -> Result<String, String> {
    let targets = Command::new("apt-get")
        .args(["indextargets", "--format", "$(RELEASE) $(REPO_URI)", "Created-By: Packages"])
        .output()
        .map_err(|error| format!("apt-get: {error}"))?;
    let printed = String::from_utf8_lossy(&targets.stdout).into_owned();
    let mirror = printed.lines().find_map(|line| line.strip_prefix(RELEASE)?.strip_prefix(' '));
    mirror.map(str::to_owned).ok_or_else(|| format!("This machine has no package source for Debian {RELEASE}."))
}

/// Runs a command in the system, whose mounts end with it.
fn inside(root: &Path, command: &str) -> StepResult {
    let script = format!(
        "set -eu\nmount --bind \"$0\" \"$0\"\nmount -t proc proc \"$0/proc\"\nmount --rbind /dev \"$0/dev\"\n\
         cp /etc/resolv.conf \"$0/etc/resolv.conf\" 2>/dev/null || true\n\
         exec chroot \"$0\" /usr/bin/env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin HOME=/root LC_ALL=C.UTF-8 {command}"
    );
    step::run(
        Command::new("unshare").args(["--mount", "--pid", "--fork", "--kill-child", "sh", "-c", &script]).arg(root),
    )
}

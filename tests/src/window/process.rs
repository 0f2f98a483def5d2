//! Child processes that end with the test, whatever becomes of it.

use std::ffi::OsStr;
use std::os::unix::process::CommandExt;
use std::process::{Child, Command};

use rustix::process::{Pid, Signal, kill_process_group};

/// A command whose process gets a group of its own, and is killed by the kernel when the thread that started it is gone
/// (`PR_SET_PDEATHSIG`, set by util-linux's `setpriv`, which then becomes the program).
pub fn tied(program: impl AsRef<OsStr>) -> Command {
    let mut command = Command::new("setpriv");
    command.args(["--pdeathsig", "KILL", "--"]).arg(program).process_group(0);
    command
}

/// A started process group; all of it is killed when this is dropped.
pub struct Group(Child);

impl Group {
    /// Starts a command made by [`tied`].
    pub fn start(command: &mut Command) -> Self {
        let child = command.spawn().unwrap_or_else(|error| panic!("{command:?} could not be started: {error}"));
        Self(child)
    }

    /// The group's id, which is its first process's.
    pub fn id(&self) -> u32 {
        self.0.id()
    }

    /// The first process.
    pub fn child(&mut self) -> &mut Child {
        &mut self.0
    }
}

impl Drop for Group {
    fn drop(&mut self) {
        // An error means that all of it is gone already.
        let _ = kill_process_group(Pid::from_child(&self.0), Signal::KILL);
        let _ = self.0.wait();
    }
}

/// Processes of the group that run this program.
pub fn members(group: u32, program: &std::path::Path) -> Vec<Pid> {
    let Ok(processes) = std::fs::read_dir("/proc") else {
        return Vec::new();
    };
    processes
        .flatten()
        .filter(|process| std::fs::read_link(process.path().join("exe")).is_ok_and(|exe| exe == program))
        .filter_map(|process| {
            let stat = std::fs::read_to_string(process.path().join("stat")).ok()?;
            // pid (name) state parent group …; the name may hold anything, so count from its end.
            let its_group = stat.rsplit_once(") ")?.1.split(' ').nth(2)?.parse::<u32>().ok()?;
            let pid = process.file_name().to_str()?.parse().ok()?;
            if its_group == group { Pid::from_raw(pid) } else { None }
        })
        .collect()
}

//! Child processes that end with the test, whatever becomes of it.

use std::ffi::OsStr;
use std::os::unix::process::CommandExt;
use std::path::PathBuf;
use std::process::{Child, Command};
use std::time::{Duration, Instant};

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
        // A killed process holds its locks until it has come to its end, and the next one may want them.
        let start = Instant::now();
        while start.elapsed() < Duration::from_secs(5) && members(self.id()).any(|member| !member.ended) {
            std::thread::sleep(Duration::from_millis(5));
        }
    }
}

/// A process as `/proc` shows it.
pub struct Member {
    pub pid: Pid,
    /// Whether only its number is left, and no thread that might still hold its files.
    pub ended: bool,
    /// What it runs, as long as it runs.
    pub program: Option<PathBuf>,
}

/// The processes of a group.
pub fn members(group: u32) -> impl Iterator<Item = Member> {
    let processes = std::fs::read_dir("/proc").into_iter().flatten().flatten();
    processes.filter_map(move |process| {
        let pid = Pid::from_raw(process.file_name().to_str()?.parse().ok()?)?;
        let stat = std::fs::read_to_string(process.path().join("stat")).ok()?;
        // pid (name) state parent group …; the name may hold anything, so count from its end.
        let mut fields = stat.rsplit_once(") ")?.1.split(' ');
        let ended =
            fields.next()? == "Z" && process.path().join("task").read_dir().is_ok_and(|tasks| tasks.count() < 2);
        let its_group = fields.nth(1)?.parse::<u32>().ok()?;
        let program = std::fs::read_link(process.path().join("exe")).ok();
        (its_group == group).then_some(Member { pid, ended, program })
    })
}

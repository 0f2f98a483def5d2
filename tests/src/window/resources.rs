//! What an open window holds of the machine, as the kernel counts it.

use std::fs;
use std::path::PathBuf;

use super::process::members;
use super::session::Window;

/// What the program and the processes of its web view hold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Resources {
    /// Memory of the program's own process in kB; pages shared with other processes count by their share.
    pub program_kb: u64,
    /// The same of the web view's processes.
    pub web_view_kb: u64,
    /// Open file descriptors of the program.
    pub descriptors: usize,
    /// Directories that the program watches.
    pub watches: usize,
    /// Threads of the program.
    pub threads: usize,
}

impl Window {
    /// What it holds now.
    pub fn resources(&self) -> Resources {
        let program = self.program().expect("the program runs").as_raw_nonzero().get();
        let others = members(self.driver_id()).filter(|member| {
            let name = member.program.as_ref().and_then(|path| path.file_name());
            member.pid.as_raw_nonzero().get() != program && name.is_some_and(|name| name != "WebKitWebDriver")
        });
        let folder = PathBuf::from(format!("/proc/{program}"));
        let entries = |name: &str| fs::read_dir(folder.join(name)).expect("the program runs").flatten();
        let watched = |path: PathBuf| {
            let text = fs::read_to_string(path).unwrap_or_default();
            text.lines().filter(|line| line.starts_with("inotify wd:")).count()
        };
        Resources {
            program_kb: share_of_memory_kb(program),
            web_view_kb: others.map(|member| share_of_memory_kb(member.pid.as_raw_nonzero().get())).sum(),
            descriptors: entries("fd").count(),
            watches: entries("fdinfo").map(|entry| watched(entry.path())).sum(),
            threads: entries("task").count(),
        }
    }
}

fn share_of_memory_kb(process: i32) -> u64 {
    // A process that has just ended holds nothing.
    let text = fs::read_to_string(format!("/proc/{process}/smaps_rollup")).unwrap_or_default();
    let line = text.lines().find_map(|line| line.strip_prefix("Pss:")?.trim().strip_suffix(" kB"));
    line.and_then(|number| number.trim().parse().ok()).unwrap_or(0)
}

//! The window and the command line open no network socket: every socket they and all their children ask the system for is
//! recorded, and only those that never leave the machine may be among them.
#![cfg(target_os = "linux")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use std::time::{Duration, Instant};

use fellmark_tests::window::{Group, app, command_line, tied};
use tempfile::TempDir;

/// Socket families that reach nothing but this machine: other programs' named sockets, and what the kernel reports of itself.
const STAYS_HERE: [&str; 2] = ["AF_UNIX", "AF_NETLINK"];

/// What a program and its children asked of the system, as `strace` wrote it, one file for each process.
struct Trace {
    dir: TempDir,
}

impl Trace {
    fn new() -> Self {
        Self { dir: tempfile::tempdir().unwrap() }
    }

    /// A command under the eyes of `strace`.
    fn of(&self, program: &Path) -> Command {
        let mut command = tied("strace");
        command.args(["-ff", "--seccomp-bpf", "-qq", "-e", "trace=%network,execve", "-e", "signal=none", "-o"]);
        command.arg(self.dir.path().join("trace")).arg(program);
        command
    }

    fn lines(&self) -> Vec<(String, String)> {
        let mut lines = Vec::new();
        for file in fs::read_dir(&self.dir).unwrap().flatten() {
            let process = file.path().extension().unwrap().to_string_lossy().into_owned();
            let text = String::from_utf8_lossy(&fs::read(file.path()).unwrap()).into_owned();
            lines.extend(text.lines().map(|line| (process.clone(), line.to_owned())));
        }
        lines
    }

    /// The programs that ran.
    fn programs(&self) -> BTreeSet<String> {
        let started = self.lines().into_iter().filter(|(_, line)| line.starts_with("execve(") && line.ends_with("= 0"));
        started
            .filter_map(|(_, line)| {
                Some(Path::new(line.split('"').nth(1)?).file_name()?.to_string_lossy().into_owned())
            })
            .collect()
    }

    /// Calls that make a socket, by family.
    fn sockets(&self) -> BTreeMap<String, Vec<String>> {
        let mut families: BTreeMap<String, Vec<String>> = BTreeMap::new();
        for (_, line) in self.lines() {
            for call in ["socket(", "socketpair("] {
                if let Some(arguments) = line.strip_prefix(call) {
                    let family = arguments.split([',', ')']).next().unwrap_or_default().to_owned();
                    families.entry(family).or_default().push(line.clone());
                }
            }
        }
        families
    }

    /// Sockets that could leave the machine, and addresses of a network in any call at all.
    fn network(&self) -> Vec<String> {
        let sockets = self.sockets().into_iter().filter(|(family, _)| !STAYS_HERE.contains(&family.as_str()));
        let mut found: Vec<String> = sockets.flat_map(|(_, calls)| calls).collect();
        let addresses =
            self.lines().into_iter().map(|(_, line)| line).filter(|line| line.contains("sa_family=AF_INET"));
        found.extend(addresses);
        found
    }

    fn json_of(&self) -> String {
        let families: Vec<String> =
            self.sockets().iter().map(|(family, calls)| format!("{family} {}", calls.len())).collect();
        format!("programs: {:?}; sockets: {}", self.programs(), families.join(", "))
    }
}

/// A device's home, and a folder with a log in it.
struct Home {
    root: TempDir,
}

impl Home {
    fn new() -> Self {
        let root = tempfile::Builder::new().prefix("home-").tempdir().unwrap();
        for dir in ["run", "data", "config", "cache"] {
            fs::create_dir(root.path().join(dir)).unwrap();
        }
        Self { root }
    }

    fn path(&self, name: &str) -> PathBuf {
        self.root.path().join(name)
    }

    fn surround<'a>(&self, command: &'a mut Command) -> &'a mut Command {
        command
            .env_clear()
            .env("PATH", std::env::var_os("PATH").unwrap_or_default())
            .env("HOME", self.root.path())
            .env("XDG_DATA_HOME", self.path("data"))
            .env("XDG_CONFIG_HOME", self.path("config"))
            .env("XDG_CACHE_HOME", self.path("cache"))
            .env("XDG_RUNTIME_DIR", self.path("run"))
            .env("LC_ALL", "C.UTF-8")
            .env("GDK_BACKEND", "x11")
            .env("LIBGL_ALWAYS_SOFTWARE", "1")
            .env("NO_AT_BRIDGE", "1")
            .env("DBUS_SESSION_BUS_ADDRESS", "disabled:")
            .env("GSETTINGS_BACKEND", "memory")
            .stdin(Stdio::null())
    }

    /// Runs `fell` on the folder, as one of the devices.
    fn fell(&self, mut command: Command, device: &str, words: &[&str]) -> Output {
        let folder = self.path("log");
        command
            .args(["--folder", folder.to_str().unwrap(), "--create-folder", "--device", device, "--json"])
            .args(words);
        let output = self.surround(&mut command).output().unwrap();
        assert!(output.status.success(), "{words:?}: {}", String::from_utf8_lossy(&output.stderr));
        output
    }
}

const BEGIN: [&str; 12] = [
    "begin",
    "Scarf",
    "--wound",
    "250 cm",
    "--waste",
    "45 cm",
    "--wanted",
    "180",
    "--picks",
    "40",
    "--warp-per-100",
    "110",
];

/// The lines of every shadow of entries under a directory: what a running program took in.
fn shadow_lines(dir: &Path) -> usize {
    let mut lines = 0;
    for item in fs::read_dir(dir).into_iter().flatten().flatten() {
        if item.path().is_dir() {
            lines += shadow_lines(&item.path());
        } else if item.file_name() == "shadow.lines" {
            lines += fs::read_to_string(item.path())
                .unwrap_or_default()
                .split_whitespace()
                .filter(|word| word.starts_with("{\"key\""))
                .count();
        }
    }
    lines
}

/// A display of its own, which listens to no network either.
fn display() -> (Group, String) {
    let mut server = tied("Xvfb");
    server.args("-displayfd 1 -screen 0 1280x1000x24 -nolisten tcp -noreset".split(' '));
    let mut server = Group::start(server.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::null()));
    let mut number = String::new();
    BufReader::new(server.child().stdout.take().unwrap()).read_line(&mut number).unwrap();
    (server, format!(":{}", number.trim()))
}

fn wait_until(what: &str, mut is_so: impl FnMut() -> bool) {
    let start = Instant::now();
    while !is_so() {
        assert!(start.elapsed() < Duration::from_secs(60), "{what} did not come in a minute");
        std::thread::sleep(Duration::from_millis(50));
    }
}

#[test]
fn the_window_opens_no_network_socket() {
    let home = Home::new();
    let other = || Command::new(command_line());
    home.fell(other(), "phone", &BEGIN);
    home.fell(other(), "phone", &["log", "Scarf", "--minutes", "50", "--picks", "100"]);
    let trace = Trace::new();
    let (_server, display) = display();
    let mut command = trace.of(app());
    command.args(["--folder", home.path("log").to_str().unwrap(), "--device", "laptop"]);
    home.surround(&mut command).env("DISPLAY", display).stdout(Stdio::null()).stderr(Stdio::null());
    // The phone keeps its own data where the window's are not looked for.
    fs::rename(home.path("data"), home.path("phone")).unwrap();
    fs::create_dir(home.path("data")).unwrap();
    let written = shadow_lines(&home.path("phone"));
    let window = Group::start(&mut command);
    // The page is loaded by its own process, and the log is read and watched: what is written now arrives.
    wait_until("the page", || {
        trace.programs().contains("WebKitWebProcess") && shadow_lines(&home.path("data")) == written
    });
    std::thread::sleep(Duration::from_secs(2));
    let mut tablet = other();
    tablet.args(["--local", home.path("tablet").to_str().unwrap()]);
    home.fell(tablet, "tablet", &["log", "Scarf", "--minutes", "30", "--picks", "70"]);
    wait_until("the tablet's sitting", || shadow_lines(&home.path("data")) > written);
    std::thread::sleep(Duration::from_secs(3));
    drop(window);
    println!("the window: {}", trace.json_of());
    assert!(trace.sockets().contains_key("AF_UNIX"), "the display is reached by a socket, so nothing was recorded");
    assert_eq!(trace.network(), Vec::<String>::new());
}

#[test]
fn the_command_line_opens_no_socket_at_all() {
    let home = Home::new();
    let traces: Vec<Trace> = [
        &BEGIN[..],
        &["log", "Scarf", "--minutes", "50", "--picks", "100"],
        &["answers", "--why"],
        &["export", "everything"],
        &["check"],
    ]
    .into_iter()
    .map(|words| {
        let trace = Trace::new();
        home.fell(trace.of(command_line()), "laptop", words);
        trace
    })
    .collect();
    for trace in traces {
        assert!(trace.programs().contains("fell"), "nothing was recorded: {}", trace.json_of());
        assert_eq!(trace.sockets(), BTreeMap::new());
        assert_eq!(trace.network(), Vec::<String>::new());
    }
}

/// Neither program so much as links a function that makes a socket, or asks for a name's address.
#[test]
fn neither_program_links_network_functions() {
    const NETWORK: [&str; 8] =
        ["socket", "connect", "bind", "listen", "accept", "accept4", "getaddrinfo", "gethostbyname"];
    let imports = |program: &Path| -> BTreeSet<String> {
        let output = Command::new("nm").args(["--dynamic", "--undefined-only"]).arg(program).output().unwrap();
        let text = String::from_utf8(output.stdout).unwrap();
        let names =
            text.lines().filter_map(|line| line.split_whitespace().last()?.split('@').next().map(str::to_owned));
        names.collect()
    };
    for program in [app(), command_line()] {
        let imports = imports(program);
        assert!(imports.contains("write"), "the imports of {} were not read", program.display());
        let found: Vec<&str> = NETWORK.into_iter().filter(|name| imports.contains(*name)).collect();
        assert_eq!(found, Vec::<&str>::new(), "{}", program.display());
    }
    // This test's own program links them, since the next test uses them.
    assert!(imports(&std::env::current_exe().unwrap()).contains("socket"));
}

/// Opens the sockets that must not go unseen. Only the next test starts it so.
#[test]
fn helper_that_opens_sockets() {
    let Some(which) = std::env::var_os("FELLMARK_OPEN_SOCKET") else { return };
    match which.to_str().unwrap() {
        "tcp" => drop(std::net::TcpListener::bind("127.0.0.1:0").unwrap()),
        "udp" => {
            drop(std::net::UdpSocket::bind("[::1]:0").or_else(|_| std::net::UdpSocket::bind("0.0.0.0:0")).unwrap())
        }
        "child" => {
            let own = std::env::current_exe().unwrap();
            let mut child = Command::new(own);
            child.args(["--exact", "helper_that_opens_sockets"]).env("FELLMARK_OPEN_SOCKET", "tcp");
            assert!(child.status().unwrap().success());
        }
        _ => drop(std::os::unix::net::UnixDatagram::unbound().unwrap()),
    }
}

#[test]
fn a_network_socket_is_seen_in_a_program_and_in_its_children() {
    for (which, seen) in [("tcp", true), ("udp", true), ("child", true), ("unix", false)] {
        let trace = Trace::new();
        let mut command = trace.of(&std::env::current_exe().unwrap());
        command.args(["--exact", "helper_that_opens_sockets"]).env("FELLMARK_OPEN_SOCKET", which);
        assert!(command.output().unwrap().status.success());
        assert_eq!(!trace.network().is_empty(), seen, "{which}: {}", trace.json_of());
    }
}

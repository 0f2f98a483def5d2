//! One open window.

use std::fs::{self, File};
use std::future::Future;
use std::net::{TcpListener, TcpStream};
use std::path::PathBuf;
use std::process::Stdio;
use std::sync::Arc;
use std::time::{Duration, Instant};

use fantoccini::{Client, ClientBuilder};
use hyper_util::client::legacy::connect::HttpConnector;
use rustix::process::{Pid, Signal, kill_process};
use serde_json::{Value, json};
use tempfile::TempDir;
use tokio::runtime::Runtime;

use super::app::app;
use super::device::Device;
use super::options::WindowOptions;
use super::process::{Group, members, tied};
use super::steps::plain;

/// How much slower than a quiet machine a busy one may be.
const SLACK: f64 = 5.0;
/// How long a session, or any one answer of the page, may take.
const PATIENCE: Duration = Duration::from_secs(15);

/// The window of a running program. Dropping it closes the program.
pub struct Window {
    runtime: Runtime,
    client: Option<Client>,
    driver: Group,
    printed: PathBuf,
    pub(super) options: WindowOptions,
    /// Dropped last: the program's files must outlive it.
    _home: Arc<TempDir>,
}

impl Window {
    /// Starts the program, and waits until the page has shown its first view.
    pub(super) fn open(device: &Device, options: &WindowOptions) -> Self {
        let window = Self::begin(device, options);
        window.wait_ready();
        window
    }

    /// Starts a driver, which starts the program; once more if nothing comes of it.
    pub(super) fn begin(device: &Device, options: &WindowOptions) -> Self {
        let window = match Self::start(device, options) {
            Ok(window) => window,
            Err(first) => {
                Self::start(device, options).unwrap_or_else(|second| panic!("no window: {first}; again: {second}"))
            }
        };
        window.fit();
        window
    }

    fn start(device: &Device, options: &WindowOptions) -> Result<Self, String> {
        let app = options.program.as_deref().unwrap_or_else(|| app());
        let port =
            TcpListener::bind("127.0.0.1:0").and_then(|free| free.local_addr()).map_err(|e| e.to_string())?.port();
        let printed = device.home().join("window.log");
        let log = File::create(&printed).map_err(|e| e.to_string())?;
        let mut command = tied("WebKitWebDriver");
        command.arg(format!("--port={port}"));
        device.surround(&mut command, options);
        command.stdin(Stdio::null()).stdout(log.try_clone().map_err(|e| e.to_string())?).stderr(log);
        let driver = Group::start(&mut command);

        let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().map_err(|e| e.to_string())?;
        let start = Instant::now();
        while TcpStream::connect(("127.0.0.1", port)).is_err() {
            if start.elapsed() > PATIENCE {
                return Err("the driver did not start".to_owned());
            }
            std::thread::sleep(Duration::from_millis(10));
        }
        let mut args: Vec<&str> = device.name().iter().flat_map(|name| ["--device", name]).collect();
        args.extend(options.folder.iter().filter_map(|folder| folder.to_str()).flat_map(|folder| ["--folder", folder]));
        let wanted = json!({ "webkitgtk:browserOptions": { "binary": app, "args": args } });
        let Value::Object(wanted) = wanted else {
            return Err("capabilities are an object".to_owned());
        };
        let mut builder = ClientBuilder::new(HttpConnector::new());
        builder.capabilities(wanted);
        let url = format!("http://127.0.0.1:{port}");
        let session = runtime.block_on(async { tokio::time::timeout(PATIENCE, builder.connect(&url)).await });
        match session {
            Ok(Ok(client)) => Ok(Self {
                runtime,
                client: Some(client),
                driver,
                printed,
                options: options.clone(),
                _home: device.keep(),
            }),
            Ok(Err(error)) => Err(format!("{error}; printed: {}", fs::read_to_string(&printed).unwrap_or_default())),
            Err(_) => Err(format!("no session in {} s", PATIENCE.as_secs())),
        }
    }

    /// Runs one step of the driver's client to its end; that it fails is a failed test.
    pub(super) fn now<T, E: std::fmt::Debug>(&self, what: &str, step: impl Future<Output = Result<T, E>>) -> T {
        self.attempt(step).unwrap_or_else(|why| panic!("{what}: {why}"))
    }

    /// Runs one step that may fail.
    pub(super) fn attempt<T, E: std::fmt::Debug>(&self, step: impl Future<Output = Result<T, E>>) -> Result<T, String> {
        match self.runtime.block_on(async { tokio::time::timeout(PATIENCE, step).await }) {
            Ok(outcome) => outcome.map_err(|error| format!("{error:?}")),
            Err(_) => Err(format!("no answer in {} s", PATIENCE.as_secs())),
        }
    }

    pub(super) fn client(&self) -> &Client {
        self.client.as_ref().expect("an open window has a session")
    }

    /// Gives the page the size asked for: the window's border, if any, comes on top.
    fn fit(&self) {
        let (width, height) = (self.options.width, self.options.height);
        self.now("resizing", self.client().set_window_size(width, height));
        let fits = format!("return innerWidth === {width} && innerHeight === {height}");
        self.wait("the page has the size asked for", 10.0, |window| window.run(&fits) == json!(true));
    }

    /// Waits until the page has shown its first view.
    pub fn wait_ready(&self) {
        let ready = "return document.documentElement.dataset.ready === 'yes'";
        self.wait("the page is ready", 15.0, |window| window.run(ready) == json!(true));
    }

    /// Tries until it holds, and gives how long that took. Fails the test when it takes many times the seconds it should on a quiet
    /// machine: a busy one is no fault of the window's, and speed is measured elsewhere.
    pub fn wait(&self, what: &str, seconds: f64, holds: impl Fn(&Self) -> bool) -> Duration {
        let seconds = seconds * SLACK;
        let start = Instant::now();
        loop {
            if holds(self) {
                return start.elapsed();
            }
            assert!(start.elapsed().as_secs_f64() < seconds, "not within {seconds} s: {what}\n{}", self.page());
            std::thread::sleep(Duration::from_millis(20));
        }
    }

    /// Runs a script in the page and gives what it returns.
    pub fn run(&self, script: &str) -> Value {
        self.now("a script", self.client().execute(script, Vec::new()))
    }

    /// Runs a script that answers by calling its last argument.
    pub fn run_async(&self, script: &str) -> Value {
        self.now("a script", self.client().execute_async(script, Vec::new()))
    }

    /// Everything that can be read in the page now.
    pub fn page(&self) -> String {
        let text = self.run("return document.body ? document.body.innerText : ''");
        plain(text.as_str().unwrap_or_default())
    }

    /// Kills the program as a power cut would: no signal it could answer.
    pub fn kill_9(self) {
        kill_process(self.program().expect("the program runs"), Signal::KILL).expect("one's own child can be killed");
        // Dropping the rest kills the driver and what WebKit left.
    }

    /// The process of the program in this window, while it runs.
    pub(super) fn program(&self) -> Option<Pid> {
        let app = self.options.program.as_deref().unwrap_or_else(|| app());
        members(self.driver.id()).find(|member| member.program.as_deref() == Some(app)).map(|member| member.pid)
    }

    /// The process group of the driver, the program and its web view.
    pub(super) fn driver_id(&self) -> u32 {
        self.driver.id()
    }

    /// When the program was started, in milliseconds since 1970; the kernel keeps it to 10 ms.
    pub fn started_at_ms(&self) -> f64 {
        let pid = self.program().expect("the program runs").as_raw_nonzero();
        let stat = fs::read_to_string(format!("/proc/{pid}/stat")).expect("the program runs");
        // The 22nd field, counted from behind the name: hundredths of a second from the machine's start.
        let ticks = stat.rsplit_once(") ").and_then(|(_, rest)| rest.split(' ').nth(19)?.parse::<f64>().ok());
        let uptime = fs::read_to_string("/proc/uptime").expect("the kernel knows its age");
        let uptime = uptime.split(' ').next().and_then(|seconds| seconds.parse::<f64>().ok());
        let now = std::time::SystemTime::UNIX_EPOCH.elapsed().expect("it is after 1970").as_secs_f64();
        let age = uptime.expect("a number") - ticks.expect("a number") / 100.0;
        (now - age) * 1000.0
    }

    /// Closes the program in good order.
    pub fn close(mut self) {
        self.end();
    }

    fn end(&mut self) {
        if let Some(client) = self.client.take() {
            let _ = self.runtime.block_on(async { tokio::time::timeout(Duration::from_secs(5), client.close()).await });
        }
    }
}

impl Drop for Window {
    fn drop(&mut self) {
        if std::thread::panicking() {
            let test = std::thread::current().name().unwrap_or("test").replace("::", "-");
            let seen = self.client.as_ref().and_then(|client| {
                let shot = async { tokio::time::timeout(Duration::from_secs(5), client.screenshot()).await };
                self.runtime.block_on(shot).ok()?.ok()
            });
            if let Some(png) = seen {
                let path = super::picture::folder().join(format!("failed-{test}-{}.png", self.options.name()));
                let _ = fs::write(&path, png);
                eprintln!("what the window showed: {}", path.display());
            }
            eprintln!("what the program printed:\n{}", fs::read_to_string(&self.printed).unwrap_or_default());
        }
        // After a kill there is no one left to close.
        if self.program().is_some() {
            self.end();
        }
    }
}

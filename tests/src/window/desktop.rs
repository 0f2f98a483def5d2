//! A desktop's session bus with nothing on it but one invented service that keeps a screen awake, and notes who has asked it to. Similarity
//! the real ones it releases when it is asked to, or when whoever asked is gone from the bus.

use std::collections::BTreeMap;
use std::os::unix::net::UnixStream;
use std::process::Stdio;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::thread::JoinHandle;
use std::time::{Duration, Instant};

use gio::glib::variant::{ObjectPath, ToVariant, Variant};
use gio::glib::{MainContext, MainLoop};
use gio::{
    Cancellable, DBusCallFlags, DBusConnection, DBusConnectionFlags, DBusMethodInvocation, DBusNodeInfo,
    DBusSignalFlags,
};
use tempfile::TempDir;

use super::process::{Group, tied};

/// Which of the known services it behaves like.
#[derive(Clone, Copy, Debug)]
pub enum DesktopService {
    /// `org.gnome.SessionManager`.
    Session,
    /// `org.freedesktop.ScreenSaver`.
    ScreenSaver,
    /// `org.freedesktop.portal.Desktop`.
    Portal,
    /// None: there is only the bus.
    Nothing,
}

/// Name, path, and interfaces as far as they are used, after the published descriptions.
impl DesktopService {
    fn name(self) -> (&'static str, &'static str) {
        match self {
            Self::Session => ("org.gnome.SessionManager", "/org/gnome/SessionManager"),
            Self::ScreenSaver => ("org.freedesktop.ScreenSaver", "/org/freedesktop/ScreenSaver"),
            Self::Portal | Self::Nothing => ("org.freedesktop.portal.Desktop", "/org/freedesktop/portal/desktop"),
        }
    }

    fn interface(self) -> &'static str {
        match self {
            Self::Session => {
                "<node><interface name='org.gnome.SessionManager'>
                   <method name='Inhibit'>
                     <arg type='s' direction='in'/><arg type='u' direction='in'/>
                     <arg type='s' direction='in'/><arg type='u' direction='in'/><arg type='u' direction='out'/>
                   </method>
                   <method name='Uninhibit'><arg type='u' direction='in'/></method>
                 </interface></node>"
            }
            Self::ScreenSaver => {
                "<node><interface name='org.freedesktop.ScreenSaver'>
                   <method name='Inhibit'>
                     <arg type='s' direction='in'/><arg type='s' direction='in'/><arg type='u' direction='out'/>
                   </method>
                   <method name='UnInhibit'><arg type='u' direction='in'/></method>
                 </interface></node>"
            }
            Self::Portal | Self::Nothing => {
                "<node><interface name='org.freedesktop.portal.Inhibit'>
                   <method name='Inhibit'>
                     <arg type='s' direction='in'/><arg type='u' direction='in'/>
                     <arg type='a{sv}' direction='in'/><arg type='o' direction='out'/>
                   </method>
                 </interface></node>"
            }
        }
    }
}

const REQUEST: &str = "/org/freedesktop/portal/desktop/request/fellmark/1";
const REQUEST_INTERFACE: &str =
    "<node><interface name='org.freedesktop.portal.Request'><method name='Close'/></interface></node>";

/// What was asked of the service.
#[derive(Default)]
struct ServiceLog {
    /// By cookie: who asked, and the reason given.
    held: BTreeMap<u32, (String, String)>,
    asked: u32,
    let_go: u32,
    gone: u32,
}

/// The bus and its service. Ends when dropped.
pub struct Desktop {
    address: String,
    book: Arc<Mutex<ServiceLog>>,
    service: MainLoop,
    thread: Option<JoinHandle<()>>,
    _daemon: Group,
    _dir: TempDir,
}

impl Desktop {
    /// A desktop with this service.
    pub fn new(kind: DesktopService) -> Self {
        let dir = tempfile::tempdir().expect("a temporary folder can be made");
        let socket = dir.path().join("bus");
        let address = format!("unix:path={}", socket.display());
        let config = dir.path().join("bus.conf");
        // No directory of services: nothing that is installed here is started.
        let text = format!(
            "<!DOCTYPE busconfig PUBLIC \"-//freedesktop//DTD D-BUS Bus Configuration 1.0//EN\" \
             \"http://www.freedesktop.org/standards/dbus/1.0/busconfig.dtd\">\
             <busconfig><type>session</type><listen>{address}</listen><auth>EXTERNAL</auth>\
             <policy context=\"default\"><allow send_destination=\"*\"/><allow receive_sender=\"*\"/><allow own=\"*\"/></policy></busconfig>"
        );
        std::fs::write(&config, text).expect("a temporary folder can be written");
        let mut daemon = tied("dbus-daemon");
        daemon.args(["--nofork", "--nopidfile", "--config-file"]).arg(&config);
        let daemon = Group::start(daemon.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null()));
        let start = Instant::now();
        // The socket is there a moment before anybody listens on it.
        while UnixStream::connect(&socket).is_err() {
            assert!(start.elapsed() < Duration::from_secs(20), "dbus-daemon did not start");
            std::thread::sleep(Duration::from_millis(10));
        }

        let book = Arc::new(Mutex::new(ServiceLog::default()));
        let context = MainContext::new();
        let service = MainLoop::new(Some(&context), false);
        let (running, noted, at) = (service.clone(), Arc::clone(&book), address.clone());
        let (ready, is_ready) = std::sync::mpsc::channel();
        let thread = std::thread::spawn(move || {
            let served = context.with_thread_default(|| {
                let bus = serve(kind, &at, &noted);
                ready.send(()).expect("someone waits for it");
                running.run();
                drop(bus);
            });
            served.expect("the context is this thread's own");
        });
        is_ready.recv_timeout(Duration::from_secs(20)).expect("the service starts");
        Self { address, book, service, thread: Some(thread), _daemon: daemon, _dir: dir }
    }

    pub(super) fn address(&self) -> &str {
        &self.address
    }

    fn book(&self) -> MutexGuard<'_, ServiceLog> {
        self.book.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// The reasons given by those for whom the screen is kept awake now.
    pub fn inhibitors(&self) -> Vec<String> {
        self.book().held.values().map(|(_, reason)| reason.clone()).collect()
    }

    /// How often it was asked to keep awake, asked to release, and released because the one who had asked was gone.
    pub fn request_counts(&self) -> (u32, u32, u32) {
        let book = self.book();
        (book.asked, book.let_go, book.gone)
    }
}

impl Drop for Desktop {
    fn drop(&mut self) {
        self.service.quit();
        if let Some(thread) = self.thread.take() {
            let _ = thread.join();
        }
    }
}

/// Puts the service on the bus; it answers on this thread's context.
fn serve(service: DesktopService, address: &str, book: &Arc<Mutex<ServiceLog>>) -> DBusConnection {
    let flags = DBusConnectionFlags::AUTHENTICATION_CLIENT | DBusConnectionFlags::MESSAGE_BUS_CONNECTION;
    let bus = DBusConnection::for_address_sync(address, flags, None, None::<&Cancellable>).expect("the bus answers");
    if matches!(service, DesktopService::Nothing) {
        return bus;
    }
    let (name, path) = service.name();
    offer(&bus, path, service.interface(), book);
    if matches!(service, DesktopService::Portal) {
        offer(&bus, REQUEST, REQUEST_INTERFACE, book);
    }
    let noted = Arc::clone(book);
    bus.signal_subscribe(
        Some("org.freedesktop.DBus"),
        Some("org.freedesktop.DBus"),
        Some("NameOwnerChanged"),
        None,
        None,
        DBusSignalFlags::NONE,
        move |_, _, _, _, _, changed| {
            let Some((who, _, now)) = changed.get::<(String, String, String)>() else { return };
            let mut book = noted.lock().unwrap_or_else(PoisonError::into_inner);
            let before = book.held.len();
            book.held.retain(|_, (holder, _)| *holder != who || !now.is_empty());
            book.gone += (before - book.held.len()) as u32;
        },
    );
    let own = (name, 4u32).to_variant();
    let bus_itself = "org.freedesktop.DBus";
    bus.call_sync(
        Some(bus_itself),
        "/org/freedesktop/DBus",
        bus_itself,
        "RequestName",
        Some(&own),
        None,
        DBusCallFlags::NONE,
        5000,
        None::<&Cancellable>,
    )
    .expect("the name is free");
    bus
}

fn offer(bus: &DBusConnection, path: &str, interface: &str, book: &Arc<Mutex<ServiceLog>>) {
    let node = DBusNodeInfo::for_xml(interface).expect("the description is well formed");
    let interface = node.interfaces().first().expect("it has one interface");
    let noted = Arc::clone(book);
    bus.register_object(
        path,
        interface,
        move |_, sender, _, _, method, asked, answer| {
            let mut book = noted.lock().unwrap_or_else(PoisonError::into_inner);
            answered(&mut book, sender, method, &asked, answer);
        },
        |_, _, _, _, _| ().to_variant(),
        |_, _, _, _, _, _| false,
    )
    .expect("the path is free");
}

fn answered(book: &mut ServiceLog, sender: &str, method: &str, asked: &Variant, answer: DBusMethodInvocation) {
    if method == "Inhibit" {
        book.asked += 1;
        let cookie = book.asked;
        book.held.insert(cookie, (sender.to_owned(), asked.to_string()));
        let is_portal = asked.n_children() == 3;
        let request = ObjectPath::try_from(REQUEST).expect("a path");
        answer.return_value(Some(&if is_portal { (request,).to_variant() } else { (cookie,).to_variant() }));
        return;
    }
    // The portal's request is closed by name; the others say which cookie.
    let cookie = asked.get::<(u32,)>().map(|(cookie,)| cookie).or(book.held.keys().next().copied());
    // Only the one who asked may let go.
    let theirs = cookie.filter(|cookie| book.held.get(cookie).is_some_and(|(holder, _)| holder == sender));
    if let Some(cookie) = theirs {
        book.held.remove(&cookie);
        book.let_go += 1;
    }
    answer.return_value(None);
}

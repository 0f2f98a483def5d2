//! The services of Linux desktops that keep a screen awake, asked over the session bus. The bus is a socket of this machine, and
//! the library that speaks to it is the one the window itself is drawn with.

use gio::glib::variant::{DictEntry, FromVariant, ObjectPath, ToVariant, Variant};
use gio::{BusType, Cancellable, DBusCallFlags, DBusConnection, DBusConnectionFlags};

const WHO: &str = "Fellmark";
const WHY: &str = "A sitting at the loom is going on";
/// The flag of "the session must not count as idle", the same for the session manager and the portal.
const NOT_IDLE: u32 = 8;
/// Longest wait for a service, in milliseconds.
const PATIENCE_MS: i32 = 3000;

/// An object of a service on the session bus, and which of its interfaces is spoken to.
#[derive(Clone, Copy)]
struct Service<'a> {
    name: &'a str,
    path: &'a str,
    interface: &'a str,
    /// Whether the bus may start it if it does not run.
    may_start: bool,
}

/// GNOME's, which Cinnamon and MATE have too.
const SESSION: Service<'_> = Service {
    name: "org.gnome.SessionManager",
    path: "/org/gnome/SessionManager",
    interface: "org.gnome.SessionManager",
    may_start: false,
};
/// freedesktop.org's idle inhibition, of KDE, Xfce and others.
const SCREEN_SAVER: Service<'_> = Service {
    name: "org.freedesktop.ScreenSaver",
    path: "/org/freedesktop/ScreenSaver",
    interface: "org.freedesktop.ScreenSaver",
    may_start: false,
};
/// The desktop portal's, all that a sandbox lets through.
const PORTAL: Service<'_> = Service {
    name: "org.freedesktop.portal.Desktop",
    path: "/org/freedesktop/portal/desktop",
    interface: "org.freedesktop.portal.Inhibit",
    may_start: true,
};

/// What a service gave, to be handed back.
enum Given {
    Session(u32),
    ScreenSaver(u32),
    Portal(ObjectPath),
}

/// A screen kept awake until this is dropped.
pub struct DesktopInhibitor {
    /// Its own, closed when this is dropped: then the service lets go even if it was not asked to.
    bus: DBusConnection,
    given: Given,
}

impl DesktopInhibitor {
    /// Asks one service after another; nothing when there is no bus, or none of them will.
    pub fn ask() -> Option<Self> {
        let bus = session_bus()?;
        let given = session(&bus).or_else(|| screen_saver(&bus)).or_else(|| portal(&bus))?;
        Some(Self { bus, given })
    }

    /// Whether the bus is still there.
    pub fn is_active(&self) -> bool {
        !self.bus.is_closed()
    }
}

impl Drop for DesktopInhibitor {
    fn drop(&mut self) {
        // A service that does not answer learns it from the connection's end.
        let _: Option<()> = match &self.given {
            Given::Session(cookie) => SESSION.call(&self.bus, "Uninhibit", &(*cookie,).to_variant()),
            Given::ScreenSaver(cookie) => SCREEN_SAVER.call(&self.bus, "UnInhibit", &(*cookie,).to_variant()),
            Given::Portal(request) => {
                let request = Service { path: request, interface: "org.freedesktop.portal.Request", ..PORTAL };
                request.call(&self.bus, "Close", &().to_variant())
            }
        };
        let _ = self.bus.close_sync(None::<&Cancellable>);
    }
}

impl Service<'_> {
    /// What it answers; nothing when it is not there, refuses, or answers something else.
    fn call<T: FromVariant>(&self, bus: &DBusConnection, method: &str, asked: &Variant) -> Option<T> {
        let flags = if self.may_start { DBusCallFlags::NONE } else { DBusCallFlags::NO_AUTO_START };
        let answer = bus.call_sync(
            Some(self.name),
            self.path,
            self.interface,
            method,
            Some(asked),
            None,
            flags,
            PATIENCE_MS,
            None::<&Cancellable>,
        );
        answer.ok()?.get()
    }
}

/// A connection of its own: one that is shared may end the program when the bus does. Only a bus on this machine is spoken to.
fn session_bus() -> Option<DBusConnection> {
    let address = gio::dbus_address_get_for_bus_sync(BusType::Session, None::<&Cancellable>).ok()?;
    if !address.split(';').all(|one| one.starts_with("unix:")) {
        return None;
    }
    let flags = DBusConnectionFlags::AUTHENTICATION_CLIENT | DBusConnectionFlags::MESSAGE_BUS_CONNECTION;
    DBusConnection::for_address_sync(&address, flags, None, None::<&Cancellable>).ok()
}

fn session(bus: &DBusConnection) -> Option<Given> {
    let no_window = 0u32;
    let (cookie,) = SESSION.call(bus, "Inhibit", &(WHO, no_window, WHY, NOT_IDLE).to_variant())?;
    Some(Given::Session(cookie))
}

fn screen_saver(bus: &DBusConnection) -> Option<Given> {
    let (cookie,) = SCREEN_SAVER.call(bus, "Inhibit", &(WHO, WHY).to_variant())?;
    Some(Given::ScreenSaver(cookie))
}

fn portal(bus: &DBusConnection) -> Option<Given> {
    let options =
        Variant::array_from_iter::<DictEntry<String, Variant>>([
            DictEntry::new("reason".to_owned(), WHY.to_variant()).to_variant()
        ]);
    let asked = Variant::tuple_from_iter(["".to_variant(), NOT_IDLE.to_variant(), options]);
    let (request,) = PORTAL.call(bus, "Inhibit", &asked)?;
    Some(Given::Portal(request))
}

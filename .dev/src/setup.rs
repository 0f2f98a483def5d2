//! Installs the Debian packages that are missing, and says what to install elsewhere.

use std::path::Path;
use std::process::{Command, Stdio};

use crate::step::{self, StepResult};
use crate::typefaces;

/// What the machine is made ready for.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Purpose {
    /// Building and running the window.
    Window,
    /// Everything for the window, and all tests.
    Tests,
    /// Building a package.
    Package,
    /// Installing a package in a system of its own.
    PackageTest,
    /// Everything the tests need, and pictures small enough for the repository.
    Pictures,
    /// Everything the tests need, and an office suite to compare with.
    Benchmarks,
    /// Drawing the icons.
    Icons,
}

/// A Debian package, and how to see that it is there.
struct Need {
    package: &'static str,
    /// A program or file whose presence is enough, however it came; empty asks dpkg.
    sign: &'static str,
    purpose: Purpose,
}

const fn need(package: &'static str, sign: &'static str, purpose: Purpose) -> Need {
    Need { package, sign, purpose }
}

const NEEDS: &[Need] = &[
    need("gcc", "cc", Purpose::Window),
    need("libc6-dev", "", Purpose::Window),
    need("pkg-config", "pkg-config", Purpose::Window),
    need("libwebkit2gtk-4.1-dev", "", Purpose::Window),
    // npm fetches the typefaces, and what checks the interface: types, format, and barriers on every screen.
    need("npm", "npm", Purpose::Window),
    // The window driven from outside, on a display of its own, with letters in it.
    need("webkit2gtk-driver", "WebKitWebDriver", Purpose::Tests),
    need("xvfb", "Xvfb", Purpose::Tests),
    // A desktop's bus to speak to, and a clock that can be set.
    need("dbus-daemon", "dbus-daemon", Purpose::Tests),
    need("faketime", "faketime", Purpose::Tests),
    need("fonts-dejavu-core", "", Purpose::Tests),
    need("locales", "/usr/share/i18n/locales/en_GB", Purpose::Tests),
    // Another program's eyes on stored photos; real carriers of the folder; what a save asks of the system.
    need("libimage-exiftool-perl", "exiftool", Purpose::Tests),
    need("git", "git", Purpose::Tests),
    need("syncthing", "syncthing", Purpose::Tests),
    need("unison", "unison", Purpose::Tests),
    need("strace", "strace", Purpose::Tests),
    need("pngquant", "pngquant", Purpose::Pictures),
    need("dpkg-dev", "dpkg-shlibdeps", Purpose::Package),
    need("desktop-file-utils", "desktop-file-validate", Purpose::Package),
    need("appstream", "appstreamcli", Purpose::Package),
    need("debootstrap", "debootstrap", Purpose::PackageTest),
    need("libreoffice-calc-nogui", "soffice", Purpose::Benchmarks),
    need("librsvg2-bin", "rsvg-convert", Purpose::Icons),
    need("icoutils", "icotool", Purpose::Icons),
    need("icnsutils", "png2icns", Purpose::Icons),
];

impl Purpose {
    /// Whether this purpose needs all that another one needs.
    fn includes(self, other: Self) -> bool {
        let basis: &[Self] = match self {
            Self::Window | Self::Icons => &[],
            Self::Tests | Self::Package => &[Self::Window],
            Self::PackageTest => &[Self::Window, Self::Package],
            Self::Pictures | Self::Benchmarks => &[Self::Window, Self::Tests],
        };
        self == other || basis.contains(&other)
    }
}

impl Need {
    fn is_met(&self) -> bool {
        if self.sign.starts_with('/') {
            return Path::new(self.sign).exists();
        }
        (!self.sign.is_empty() && step::on_path(self.sign)) || installed(self.package)
    }
}

/// Installs what is missing for the purpose, and the typefaces of the window.
pub fn setup(purpose: Purpose) -> StepResult {
    install(purpose)?;
    if purpose.includes(Purpose::Window) { typefaces::fetch() } else { Ok(()) }
}

fn install(purpose: Purpose) -> StepResult {
    if !cfg!(target_os = "linux") {
        return Ok(());
    }
    let wanted = NEEDS.iter().filter(|need| purpose.includes(need.purpose));
    if !step::on_path("dpkg-query") {
        let names: Vec<&str> = wanted.map(|need| need.package).collect();
        eprintln!(
            "This is no Debian system, so nothing is installed here. What Debian calls {} is needed.",
            names.join(", ")
        );
        return Ok(());
    }
    let missing: Vec<&str> = wanted.filter(|need| !need.is_met()).map(|need| need.package).collect();
    if purpose.includes(Purpose::Tests) {
        components()?;
    }
    if missing.is_empty() {
        return Ok(());
    }
    println!("Installing {}", missing.join(", "));
    step::run(apt()?.args(["update", "-qq"]))?;
    step::run(apt()?.args(["install", "-y", "-qq", "-o", "Dpkg::Use-Pty=0", "--no-install-recommends"]).args(&missing))
}

/// The Rust components that a minimal installation leaves out.
fn components() -> StepResult {
    for (component, word) in [("rustfmt", "fmt"), ("clippy", "clippy")] {
        let found = step::cargo(word, &["--version"]).stdout(Stdio::null()).stderr(Stdio::null()).status();
        if !found.is_ok_and(|status| status.success()) {
            return Err(format!("cargo {word} is missing. Run: rustup component add {component}"));
        }
    }
    Ok(())
}

fn installed(package: &str) -> bool {
    Command::new("dpkg-query")
        .args(["--show", "--showformat=${db:Status-Status}", package])
        .stderr(Stdio::null())
        .output()
        .is_ok_and(|answer| answer.stdout.starts_with(b"installed"))
}

fn apt() -> Result<Command, String> {
    let root = Command::new("id").arg("-u").output().is_ok_and(|answer| answer.stdout.trim_ascii() == b"0");
    let mut command = if root {
        Command::new("env")
    } else if step::on_path("sudo") {
        let mut sudo = Command::new("sudo");
        sudo.arg("env");
        sudo
    } else {
        return Err("Packages are missing and there is no sudo: run `./dev setup` once as root.".to_owned());
    };
    command.args(["DEBIAN_FRONTEND=noninteractive", "apt-get"]).stdin(Stdio::null());
    Ok(command)
}

//! Where the built program is.

use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::OnceLock;

/// The folder that holds `debug` or `release`.
pub fn target() -> PathBuf {
    profile().parent().expect("a build has a folder of its own").to_owned()
}

/// The window's program beside the running test.
pub fn app() -> &'static Path {
    static APP: OnceLock<PathBuf> = OnceLock::new();
    APP.get_or_init(|| built("fellmark"))
}

/// The command line's program beside the running test.
pub fn command_line() -> &'static Path {
    static APP: OnceLock<PathBuf> = OnceLock::new();
    APP.get_or_init(|| built("fell"))
}

/// Built once if need be: cargo builds programs only for tests in their own package. `FELLMARK_BUILT` says that they are built.
/// The whole workspace is named so that the dependencies keep the features, and so the builds, that the tests already have.
fn built(program: &str) -> PathBuf {
    let profile = profile();
    if std::env::var_os("FELLMARK_BUILT").is_none() {
        let mut cargo = Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
        cargo.args(["build", "--quiet", "--workspace", "--bin", program]);
        cargo.current_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/.."));
        if profile.ends_with("release") {
            cargo.arg("--release");
        }
        let status = cargo.status().expect("cargo starts");
        assert!(status.success(), "{program} could not be built");
    }
    let app = profile.join(program);
    assert!(app.is_file(), "there is no program at {}", app.display());
    app
}

/// `target/debug` or `target/release`: tests are in `deps` below it, programs in it.
fn profile() -> PathBuf {
    let own = std::env::current_exe().expect("a test knows its own path");
    let folder = own.parent().expect("a program is in a folder");
    if folder.ends_with("deps") {
        folder.parent().expect("deps is below a profile").to_owned()
    } else {
        folder.to_owned()
    }
}

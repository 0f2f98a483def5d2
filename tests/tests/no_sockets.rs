//! The journal opens no socket. In a test program of its own, because what counts is all that the process holds open.
#![cfg(target_os = "linux")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

use fellmark_journal::{RunningLog, watch};
use fellmark_tests::journal::{self, SharedFolder};
use serde_json::json;

/// All the journal does, and then what this process holds open: no socket of any kind.
#[test]
fn no_socket_is_opened() {
    let shared = SharedFolder::new();
    let mut laptop = shared.open("laptop");
    let _watcher = watch(&shared.folder(), |_| {}).unwrap();
    let warp = journal::begin_warp(&mut laptop, "Scarf");
    let added = laptop.photo_add(&warp, &journal::picture(20, 20)).unwrap();
    laptop.thumbnail(&warp, &added.hash, 10).unwrap();
    laptop.refresh(&[]).unwrap();
    let mut running = RunningLog::open(&shared.local("laptop")).unwrap();
    running.append(&json!(1)).unwrap();
    let sockets = || {
        std::fs::read_dir("/proc/self/fd")
            .unwrap()
            .filter_map(|item| std::fs::read_link(item.unwrap().path()).ok())
            .filter(|target| target.to_string_lossy().starts_with("socket:"))
            .count()
    };
    assert_eq!(sockets(), 0);
    // The count would tell: one that is opened here is seen.
    let socket = std::os::unix::net::UnixDatagram::unbound().unwrap();
    assert_eq!(sockets(), 1);
    drop(socket);
}

//! The journal from outside: folders, devices, merge, faults, format.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

mod devices;
mod faults;
mod format;
mod fuzz;
mod merge;
mod photos;
mod read_progress;
mod readers;
mod replica;
mod watch;

//! Forty faults, numbered and named by what breaks, each with what must come of it. What this machine cannot do
//! says so in its place.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

#[path = "../journal/bench.rs"]
mod bench;
#[path = "../journal/faulty.rs"]
mod faulty;
#[path = "../journal/machine.rs"]
mod machine;

#[path = "../journal/faults/bring_in.rs"]
mod bring_in;
#[path = "../journal/faults/clock.rs"]
mod clock;
#[path = "../journal/faults/conflicts.rs"]
mod conflicts;
#[path = "../journal/faults/crash.rs"]
mod crash;
#[path = "../journal/faults/disk.rs"]
mod disk;
#[path = "../journal/faults/folder.rs"]
mod folder;
#[path = "../journal/faults/hostile.rs"]
mod hostile;
#[path = "../journal/faults/synced.rs"]
mod synced;

//! End to end: the real built window, driven as a weaver would use it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

#[path = "window/harness.rs"]
mod harness;

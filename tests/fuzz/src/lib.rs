//! The readers of bytes from outside, each with what must hold of it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)] // A failed expectation is how a reader fails.

pub mod readers;

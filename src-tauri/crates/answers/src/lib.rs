//! From the journal to what the weaver is told.
//!
//! [`model`] says what the journal's records mean, [`progress`] reckons how far a warp is, and [`where_am_i`], [`reach`] and
//! [`when`] answer her three questions from that one reckoning. [`desk`] puts the answers together as [`view`]s, plain data
//! that the window and the command line show. [`pen`] is the other way: everything she can do to the log. No clock is read
//! here; today and the time are passed in.

#![cfg_attr(test, allow(clippy::unwrap_used, clippy::expect_used, clippy::panic))]

pub mod model;
pub mod present;
pub mod reports;

//! From the journal to what the weaver is told.
//!
//! [`model`] says what the journal's records mean, [`progress`] reckons how far a warp is, and [`where_am_i`], [`reach`] and
//! [`when`] answer her three questions from that one reckoning. [`desk`] puts the answers together as [`view`]s, plain data
//! that the window and the command line show. [`pen`] is the other way: everything she can do to the log. No clock is read
//! here; today and the time are passed in.

#![cfg_attr(test, allow(clippy::unwrap_used, clippy::expect_used, clippy::panic))]

pub mod at_loom;
pub mod availability;
pub mod came_out;
pub mod chart;
pub mod desk;
pub mod draft;
pub mod example;
pub mod export;
pub mod fields;
pub mod finishing;
pub mod forms;
pub mod import;
pub mod kinds;
pub mod learnt;
pub mod ledger;
pub mod manner;
pub mod measures;
pub mod model;
pub mod moments;
pub mod notes;
pub mod off_loom;
pub mod pace;
pub mod pen;
pub mod picture;
pub mod plan;
pub mod progress;
pub mod progress_picture;
pub mod reach;
pub mod reckoned;
pub mod reconcile;
pub mod rough;
pub mod running;
pub mod sequence;
pub mod shafts;
pub mod sheet;
pub mod tables;
pub mod take_out;
pub mod trouble;
pub mod undo;
pub mod view;
pub mod wanted;
pub mod warp_on_paper;
pub mod weft_reach;
pub mod when;
pub mod where_am_i;
mod words;

//! The command line, driven as a person or a script drives it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

mod at_the_loom;
mod backup;
mod corrections;
mod data_safety;
mod exit_codes;
mod first_evening;
mod hostile;
mod off_the_loom;
mod pencil;
mod plan;
mod refusals;
mod saved_plans;
mod scripts;
mod time;
mod undo_order;

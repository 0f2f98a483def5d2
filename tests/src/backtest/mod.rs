//! Cases whose end is known, what the projection says of them, and how its answers are scored.
#![allow(missing_docs)] // Each field is named as in the case files.

pub mod cases;
pub mod mersenne;
pub mod score;
pub mod table;

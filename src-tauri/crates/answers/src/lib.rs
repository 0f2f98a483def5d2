//! From the journal to what the weaver is told.

pub mod manner;
pub mod view;

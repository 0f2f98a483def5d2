//! The sample data.

pub mod example;

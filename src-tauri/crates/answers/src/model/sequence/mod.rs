//! The pick sequence as she wrote it, and the place in it.

mod place;
mod places;
mod room;
mod rows;
mod spot;
#[cfg(test)]
mod tests;

pub use place::place;
pub use places::{places, read_place};
pub(crate) use rows::{Row, fitted, instruction, read, sequence, sticks};
pub use rows::{check_rows, has_rows};

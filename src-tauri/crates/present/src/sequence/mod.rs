//! The place in the pick sequence, in words.

pub(crate) mod instruction;
mod place;
mod places;
#[cfg(test)]
mod tests;

pub use place::place;
pub use places::places;

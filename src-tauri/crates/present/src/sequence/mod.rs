//! The place in the pick sequence, in words.

mod place;
mod places;
#[cfg(test)]
mod tests;

pub use place::place;
pub use places::places;

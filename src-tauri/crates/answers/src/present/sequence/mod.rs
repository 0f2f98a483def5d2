//! The place in the pick sequence, in words.

mod place;
mod places;
mod remaining_picks;
#[cfg(test)]
mod tests;

pub use place::place;
pub use places::places;

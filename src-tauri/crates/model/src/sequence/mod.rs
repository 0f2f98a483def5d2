//! The pick sequence as it was written, and the place in it.

mod read_place;
mod rows;
mod spot;
mod typed;

pub use read_place::read_place;
pub use read_place::rows_of;
pub use rows::{Row, fitted, positions, same_shed, sequence, sticks};
pub use rows::{check_rows, has_rows};
pub use spot::{Spot, spot_now};
pub use typed::{PickUpEnds, TypedSequence, read_typed_sequence};

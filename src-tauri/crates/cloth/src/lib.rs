//! The trade's arithmetic: quantities and how people write them, yarn, sett, warp, weft and pick sequences.

pub mod change;
pub mod error;
pub mod left;
pub mod quantity;
pub mod read;
pub mod reed;
pub mod sequence;
pub mod span;
pub mod state;
pub mod warp;
pub mod weft;
pub mod write;

pub use error::Refused;

//! The trade's arithmetic: quantities and how people write them, yarn, sett, warp, weft and pick sequences.

pub mod change;
pub mod cover;
pub mod error;
pub mod geometry;
pub mod learnt;
pub mod left;
pub mod quantity;
pub mod read;
pub mod reed;
pub mod sequence;
pub mod sett;
pub mod span;
pub mod state;
pub mod supply;
pub mod warp;
pub mod weft;
pub mod write;

pub use error::Refused;

//! The warp as ordered segments: from the pieces wanted to what to wind, from what was wound to what is possible.
//!
//! W = Σ finished ÷ ((1−s)(1−T)) + fringes + gaps + header + sample + waste. The waste counts once per warp; take-up
//! and shrinkage act on cloth only.

mod changes;
mod layout;
mod loom_waste;
mod piece_ends;
mod rules_of_thumb;
mod segment;
mod unwoven;

pub use changes::LengthChanges;
pub use layout::{Edge, Piece, PiecePosition, PossiblePieces, WarpLayout};
pub use loom_waste::{FRONT_SHARE_OF_WASTE, LoomWaste};
pub use piece_ends::{PieceAt, PieceEnds};
pub use rules_of_thumb::{
    warp_by_adding_percents, warp_by_multiplying_percents, warp_by_rule_of_thumb, warp_from_stretches,
};
pub use segment::{SegmentKind, WarpSegment};
pub use unwoven::Unwoven;

use crate::error::Refused;
use crate::quantity::Length;
use crate::state::{Extent, WarpLength};

/// Yarn in a warp: ends × length.
/// # Errors
/// If the product is absurd.
pub fn warp_yarn(ends: u32, warp: WarpLength) -> Result<Length, Refused> {
    warp.length().times(f64::from(ends))
}

/// The warp that a length of yarn makes at so many ends.
/// # Errors
/// If there are no ends.
pub fn warp_from_yarn(yarn: Length, ends: u32) -> Result<WarpLength, Refused> {
    WarpLength::from_mm(crate::quantity::divide("the number of ends", yarn.mm(), f64::from(ends))?)
}

/// Warp on a beam of round section, turn on turn: π·N·(D₀ + N·t), the mean of the layers' centre lines (geometry;
/// π·N·D₀ alone is 18 % low after six turns of 3 mm on 8 cm). `layer` is what one turn of warp and packing adds to the
/// radius.
/// # Errors
/// If the turns are negative, no number, or the length absurd.
pub fn warp_on_beam(bare_diameter: Length, turns: f64, layer: Length) -> Result<WarpLength, Refused> {
    crate::error::Limits { what: "the turns", unit: "turns", least: 0.0, most: 100_000.0, zero: true }.take(turns)?;
    Extent::from_mm(std::f64::consts::PI * turns * (bare_diameter.mm() + turns * layer.mm()))
}

/// Turns that put a length of warp on a beam: the inverse of [`warp_on_beam`].
/// # Errors
/// If the beam has no thickness at all.
pub fn turns_on_beam(warp: WarpLength, bare_diameter: Length, layer: Length) -> Result<f64, Refused> {
    let around = warp.mm() / std::f64::consts::PI;
    let (d, t) = (bare_diameter.mm(), layer.mm());
    if t == 0.0 {
        return crate::quantity::divide("the beam's diameter", around, d);
    }
    Ok(((d * d + 4.0 * t * around).sqrt() - d) / (2.0 * t))
}

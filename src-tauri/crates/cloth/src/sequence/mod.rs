//! Pick sequences: opening border, repeat, balance, closing border; the place in them after any net number of picks;
//! what interlaces with what, and the floats that come of it.
//!
//! Rows are [`HeddleRow`]s on a rigid heddle (one or two pick-up sticks) or numbered [`Shed`]s on any other loom; both
//! are drawn down through [`WeavingDraft`].

mod examples;
mod interlacement;
mod numbered;
mod order;
mod pick_up;
mod rigid;
mod words;

pub use examples::{lace, plain, warp_float, weft_float};
pub use interlacement::{Drawdown, Float, FloatKind, LONG_FLOAT_MM, SameShed, WeavingDraft, same_sheds};
pub use numbered::{NumberedSheds, Shed};
pub use order::{Fitted, PickPosition, Section, Sequence, Side, Where};
pub use pick_up::{Fitting, PickUpAcross};
pub use rigid::{Heddle, HeddleRow, Lies, RigidWarp, Stick};
pub use words::rows_from_words;

//! The trade's arithmetic: quantities and how people write them, yarn, sett, warp, weft, pick sequences, what is left,
//! what was learned. No input or output, no clock: the same values give the same answers.
//!
//! # What to know first
//! - **Quantities** ([`quantity`]) carry their unit and refuse what can't be meant with a sentence ([`Refused`]).
//! - **Lengths, widths and thread counts belong to a state** ([`state`]): straight yarn, in the reed, under tension, off
//!   the loom, finished. The compiler keeps them apart; a [`change::ExtentChange`] leads from one to the next and remembers
//!   which two it compares.
//! - **Every relation has one function**, in the table below, with the denominator that its result is a share of.
//! - **What is not known exactly is an [`span::Estimate`]**; its [`span::Span`] says how often it claims to hold.
//!
//! ```
//! use fellmark_cloth::change::{WarpUse, WashLength};
//! use fellmark_cloth::state::{FinishedLength, WarpLength};
//! use fellmark_cloth::take_up::TakeUp;
//! use fellmark_cloth::warp::{LengthChanges, LoomWaste, Piece, WarpLayout};
//!
//! # fn main() -> Result<(), fellmark_cloth::Refused> {
//! // A scarf of 72 in; 10 % take-up, 10 % shrinkage, 20 in of loom waste.
//! let take_up = WarpUse::from_take_up(TakeUp::from_percent(10.0)?);
//! let layout = WarpLayout {
//!     pieces: vec![Piece::plain(FinishedLength::from_inches(72.0)?)],
//!     gap: WarpLength::ZERO,
//!     header: WarpLength::ZERO,
//!     sample: WarpLength::ZERO,
//!     waste: LoomWaste::new(WarpLength::from_inches(8.0)?, WarpLength::from_inches(12.0)?),
//!     changes: LengthChanges::from_relaxed(take_up, None, WashLength::from_shrinkage_percent(10.0)?)?,
//! };
//! assert_eq!(layout.warp_needed()?.inches().ceil(), 109.0);
//! # Ok(())
//! # }
//! ```
//!
//! # Relations
//!
//! | relation | function | denominator, state | source |
//! | --- | --- | --- | --- |
//! | crimp C = (yarn − cloth) ÷ cloth | [`change::ExtentChange::crimp`] | length in the cloth | ASTM D3883-04(2020) §4 |
//! | take-up T = (yarn − cloth) ÷ yarn | [`change::ExtentChange::take_up`] | yarn straightened | ASTM D3883-04(2020) §4 |
//! | C = T ÷ (1−T), T = C ÷ (1+C) | [`take_up::TakeUp::crimp`], [`take_up::Crimp::take_up`] | – | definition |
//! | yarn for cloth, cloth from yarn | [`change::ExtentChange::yarn_for`], [`change::ExtentChange::cloth_from`] | – | definition |
//! | shrinkage, positive when smaller | [`change::ExtentChange::shrinkage_percent`] | before | as weavers say it |
//! | dimensional change, negative when smaller | [`change::ExtentChange::dimensional_change_percent`] | before | ISO 5077, AATCC 135 |
//! | before = after ÷ (1−s) | [`change::ExtentChange::before`] | before | definition |
//! | stages one after the other | [`change::ExtentChange::then`] | – | ratios multiply |
//! | draw-in | [`change::DrawIn`] | width in the reed | definition |
//! | density after a change | [`change::ExtentChange::density_after`] | threads are conserved | definition |
//! | contraction by rule | [`take_up::taylor_contraction`] | yarn | Taylor 1909, ch. XII |
//! | named allowance | [`change::Allowance::added_to`] | the length it is added to | hand-outs |
//! | waste per cent | [`quantity::waste_percent`] | yarn used | Brooks 1892 |
//! | yarn numbers | [`quantity::YarnNumber`] | – | ASTM D2260-03(2013) Table 1 |
//! | folding, its inverse, with twist take-up | [`quantity::fold`], [`quantity::unfold`], [`quantity::folded_with`] | – | Brooks, Taylor |
//! | yarn balance | [`quantity::balance_yarn_number`] | arm of 1/3600 lb | maker's figure |
//! | fringes and gaps beside the waste | [`warp::Unwoven`] | warp | definition |
//! | where each piece ends | [`warp::PieceEnds`] | under tension | definition |
//! | warp to wind, what is possible | [`warp::WarpLayout`] | waste once per warp | definition |
//! | rules of thumb beside it | [`warp::warp_by_rule_of_thumb`] and others | – | common practice, no source |
//! | warp yarn = ends × length, inverse | [`warp::warp_yarn`], [`warp::warp_from_yarn`] | – | definition |
//! | warp on a beam, turns | [`warp::warp_on_beam`], [`warp::turns_on_beam`] | – | geometry |
//! | reed numbers, ends | [`reed::ReedSystem`], [`reed::ends`], [`reed::ends_by_dents`] | in the reed | Taylor, Brooks |
//! | a pick, from the reed or from the cloth | [`weft::pick_from_reed`], [`weft::pick_from_cloth`] | never both | definition |
//! | allowance over the reed from a weft use | [`weft::allowance_over_reed`] | width in the reed | definition |
//! | weft by the scale for picks | [`weft::weft_g_per_reed_metre`], [`weft::weft_mass_by_scale`] | sums divided | weighings |
//! | weft, picks | [`weft::weft_yarn`], [`weft::picks`], [`weft::picks_from_yarn`], [`weft::picks_from_mass`] | – | definition |
//! | picks per length of several stretches | [`state::ThreadsIn::from_counts`] | sum of lengths | sums divided |
//! | sett from wraps; largest sett | [`sett::sett_from_wraps`], [`sett::largest_sett`] | k named | Ashenhurst |
//! | same firmness: weave, yarn, weight | [`sett::same_firmness_in_weave`] and others | – | Taylor 1909 |
//! | what can be beaten in | [`sett::beaten_in`] | under tension | Peirce's jammed cloth |
//! | diameters, crimp height, thickness | [`geometry`] | – | Peirce 1937, secondary |
//! | cover factor, of the cloth | [`cover::CoverFactor`] | 28 = full | Peirce |
//! | weight by area | [`cover::cloth_weight`] | all from one state | definition |
//! | warp left, longest cloth still | [`warp_left::warp_left`], [`warp_left::cloth_still`] | u on cloth under tension | definition |
//! | cloth woven from tape and counts | [`tape_and_counts::cloth_woven`] | under tension | tape over counts |
//! | take-up shown by a warp mark | [`warp_left::WarpMark::warp_use`] | under tension | definition |
//! | weft by the scale | [`weft_left::cloth_by_scale`], [`weft_left::weft_left_by_scale`] | cloth under tension | weighings |
//! | weft by its length, by another yarn, several together | [`weft_left::weft_left_by_length`], [`weft_left::weft_left_as_other_yarn`], [`weft_left::cloth_of_yarns`] | cloth under tension | definition |
//! | sizes from yarn | [`sizes_from_yarn::SizePlan`] | – | the relations above |
//! | pick-up across: N = 2a + k·u + (k−1)·d | [`sequence::PickUpAcross`] | slot ends | common practice |
//! | total = opening + n·repeat + balance + closing | [`sequence::Sequence::picks`] | – | common practice |
//! | floats | [`sequence::Drawdown::floats`] | threads crossed ÷ their density | definition |
//! | what was learned | [`learned::learn`], [`learned::learn_length_loss`], [`learned::learn_picks_per_hour`] | sums divided | definition |
//!
//! # Limits
//! Crimp from geometry is good to a point or so. Two sticks in one row are taken to lift the ends of both, whether or
//! not one stick can pass the other. The weights by which unlike warps count and the habits of measuring are judgement,
//! said to be so where they stand, and are arguments.

pub mod change;
pub mod cover;
pub mod error;
pub mod fibre;
pub mod geometry;
pub mod learned;
pub mod measurement_errors;
pub mod quantity;
pub mod read;
pub mod reed;
pub mod sequence;
pub mod sett;
pub mod sizes_from_yarn;
pub mod span;
pub mod state;
pub mod take_up;
pub mod tape_and_counts;
pub mod warp;
pub mod warp_left;
pub mod weft;
pub mod weft_left;
pub mod write;

pub use error::Refused;

//! What must hold whatever the values: parsers never panic, round trips lose nothing a tape could see, wish and warp
//! lead to each other, spans hold the truth as often as they claim.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

mod constants;
mod parsers;
mod sequences;
mod spans;
mod supplies;
mod tape_and_counts;
mod warps;

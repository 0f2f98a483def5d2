//! From the records to figures: progress, reach, the finish date, learned values, pace and plans.

#![cfg_attr(test, allow(clippy::unwrap_used, clippy::expect_used, clippy::panic))]

pub mod cautions;
pub mod finish_date;
pub mod history;
pub mod learned;
mod learned_release;
pub mod pace;
pub mod pick_sequence;
pub mod plan;
pub mod planned_and_actual;
pub mod progress;
pub mod reach;
pub mod relaxation;
pub mod remaining_picks;
pub mod report_cache;
pub mod tape_and_counts;
pub mod usual_hours;
pub mod warp_report;
pub mod warp_summary;
pub mod warp_to_scale;
pub mod weave_kinds;
pub mod weft;
pub mod weft_ledger;

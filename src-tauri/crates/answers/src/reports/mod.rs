//! From the records to figures: progress, reach, the finish date, learned values, pace and plans.

pub mod came_out;
pub mod kinds;
pub mod learnt;
pub mod ledger;
pub mod pace;
pub mod plan;
pub mod progress;
pub mod reach;
pub mod reckoned;
pub mod reconcile;
pub mod weft_reach;
pub mod when;
pub mod where_am_i;

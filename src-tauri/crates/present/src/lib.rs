//! From reports to what is shown: sentences, view models, charts, the record sheet and tables.

#![cfg_attr(test, allow(clippy::unwrap_used, clippy::expect_used, clippy::panic))]

pub mod availability;
pub mod cautions;
pub mod chart;
mod column_labels;
pub mod export;
pub mod fill_forms;
pub mod finish_date;
pub mod finish_form;
pub mod folder_words;
mod glance;
pub mod guide;
pub mod import;
pub mod learned;
pub(crate) mod lists_and_numbers;
pub mod messages;
pub mod notes;
pub mod overview;
pub mod pace;
pub(crate) mod palette;
pub mod pick_sequence;
pub mod plan;
pub mod planned_and_actual;
pub mod progress;
pub mod progress_picture;
pub mod reach;
pub mod record_sheet;
pub mod running_sitting;
pub mod sequence;
pub mod tape_and_counts;
pub mod understood;
pub mod undo;
pub mod view;
pub mod warp_on_paper;
pub mod warp_picture;
pub mod weft;

pub use messages::{chances, dates, figures};

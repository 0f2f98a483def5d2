//! From reports to what is shown: sentences, view models, charts, the record sheet and tables.

pub mod at_loom;
pub mod availability;
pub mod chart;
pub mod desk;
pub mod draft;
pub mod export;
pub mod fill_forms;
pub mod finish_form;
pub mod import;
pub mod messages;
pub mod notes;
pub(crate) mod palette;
pub mod picture;
pub mod plan;
pub mod progress_picture;
pub mod sequence;
pub mod sheet;
pub mod take_out;
pub mod trouble;
pub mod understood;
pub mod undo;
pub mod view;
pub mod warp_on_paper;
pub(crate) mod words;

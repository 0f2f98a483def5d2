//! Pace compared.

use fellmark_journal::RecordId;
use fellmark_present::chart::Frame;
use fellmark_present::pace::{self, PaceQuery};
use fellmark_present::view::PaceView;

use crate::Session;

impl Session {
    /// Pace over finished and running warps: `split` is the typed length that parts short from long, `within` the warp that is
    /// shown over its own time, and `frame` what the charts are drawn for.
    pub fn pace(&mut self, split: &str, within: Option<RecordId>, frame: Frame) -> PaceView {
        let (format, today) = (self.format(), self.clock.today());
        self.reports.refresh(self.journal.state());
        pace::view_of(&self.reports, &PaceQuery { split: split.to_owned(), within, frame }, &format, today)
    }
}

//! The report of one warp: its log, and what that amounts to.

use fellmark_journal::{EntrySet, RecordId};
use fellmark_model::{WarpLog, warp_log};

use crate::progress::Progress;

/// One warp with what its records amount to.
#[derive(Clone, Debug)]
pub struct WarpReport {
    /// All that belongs to it.
    pub log: WarpLog,
    /// How far it is, without a sitting that is going on.
    pub progress: Progress,
}

impl WarpReport {
    /// The report of a warp's log.
    #[must_use]
    pub fn of_log(log: WarpLog) -> Self {
        let progress = Progress::of(&log, 0);
        Self { log, progress }
    }

    /// Makes the report of a warp; nothing where its own record has not arrived.
    #[must_use]
    pub fn of(state: &EntrySet, warp: &RecordId) -> Option<Self> {
        warp_log(state, warp).map(Self::of_log)
    }
}

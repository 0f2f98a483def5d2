//! What earlier warps say to a plan.

use fellmark_cloth::learnt::Lessons;
use fellmark_journal::State;
use fellmark_projection::EarlierWarp;

use super::typed::Typed;
use crate::learnt::{Figure, Like, from_warps};
use crate::model::{self, WarpLog};
use crate::progress::Progress;
use crate::view::{PlanForm, WarpState};
use crate::when;

/// The warps that are off the loom.
pub(super) struct History {
    off: Vec<WarpLog>,
    /// Their sittings, for pace and days.
    pub earlier: Vec<EarlierWarp>,
    /// Her pace in this weave.
    pub pace: Option<Figure>,
}

impl History {
    pub fn of(state: &State) -> Self {
        let off: Vec<WarpLog> =
            model::warp_logs(state).into_values().filter(|log| log.warp.state == WarpState::OffTheLoom).collect();
        let earlier = off.iter().map(|log| when::as_earlier(log, &Progress::of(log, 0))).collect();
        Self { off, earlier, pace: None }
    }

    /// What they teach for a plan like this.
    pub fn learn(&mut self, form: &PlanForm, typed: &Typed) -> Lessons {
        let weave = match form.weave.as_str() {
            "pick_up" => Some("pick_up"),
            "plain" | "" => Some("plain"),
            _ => None,
        };
        let like = Like {
            weave: weave.map(str::to_owned),
            picks_per_10cm: typed.picks.map(|picks| picks.density().per_10cm()),
            weft: Some(form.weft_name.trim().to_owned()).filter(|name| !name.is_empty()),
        };
        let lessons = from_warps(&self.off, &like);
        self.pace = lessons.picks_per_hour;
        lessons.cloth
    }
}

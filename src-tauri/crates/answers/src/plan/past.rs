//! What earlier warps say to a plan.

use fellmark_cloth::learnt::Lessons;
use fellmark_projection::EarlierWarp;

use super::typed::Typed;
use crate::learnt::{Figure, Like, from_taught};
use crate::reckoned;
use crate::view::PlanForm;

/// The warps that are off the loom.
pub(super) struct History<'a> {
    off: &'a reckoned::History,
    /// Her pace in this weave.
    pub pace: Option<Figure>,
}

impl<'a> History<'a> {
    pub fn of(off: &'a reckoned::History) -> Self {
        Self { off, pace: None }
    }

    /// Their sittings, for pace and days.
    pub fn earlier(&self) -> &'a [EarlierWarp] {
        &self.off.earlier
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
        let lessons = from_taught(&self.off.taught, &like);
        self.pace = lessons.picks_per_hour;
        lessons.cloth
    }
}

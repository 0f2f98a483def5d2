//! What earlier warps say to a plan.

use fellmark_cloth::learnt::{LearnedEstimates, OffTheLoom};
use fellmark_projection::EarlierWarp;

use super::basis::ByScale;
use super::typed::Typed;
use crate::present::view::PlanForm;
use crate::reports::learnt::{Figure, Similarity, WarpSample, from_taught};
use crate::reports::reckoned;

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

    /// What their picks weighed where they were woven with the yarn of this name: sums divided, never rates averaged.
    pub fn by_scale(&self, form: &PlanForm) -> Option<ByScale> {
        let wanted = form.weft_name.trim().to_lowercase();
        let of_it = |taught: &&WarpSample| {
            let name = taught.like.weft.as_deref().map(|name| name.trim().to_lowercase());
            !wanted.is_empty() && name.as_deref() == Some(&wanted)
        };
        let weighed = self.off.taught.iter().filter(of_it).filter_map(|taught| {
            let OffTheLoom { weft_used, picks, reed, .. } = taught.measured;
            Some((weft_used?.g(), picks? as f64 * reed?.mm() / 1000.0))
        });
        let (grams, metres, warps) =
            weighed.fold((0.0, 0.0, 0), |(g, m, n), (grams, metres)| (g + grams, m + metres, n + 1));
        (metres > 0.0 && grams > 0.0).then(|| ByScale { g_per_m: grams / metres, warps })
    }

    /// What they teach for a plan like this.
    pub fn learn(&mut self, form: &PlanForm, typed: &Typed) -> LearnedEstimates {
        let weave = match form.weave.as_str() {
            "pick_up" => Some("pick_up"),
            "plain" | "" => Some("plain"),
            _ => None,
        };
        let like = Similarity {
            weave: weave.map(str::to_owned),
            picks_per_10cm: typed.picks.map(|picks| picks.density().per_10cm()),
            weft: Some(form.weft_name.trim().to_owned()).filter(|name| !name.is_empty()),
        };
        let lessons = from_taught(&self.off.taught, &like);
        self.pace = lessons.picks_per_hour;
        lessons.cloth
    }
}

//! What earlier warps show for a plan.

use fellmark_cloth::learned::WarpMeasurements;
use fellmark_cloth::weft::weft_g_per_reed_metre;

use super::assumptions::WeftByScale;
use crate::history::History;
use crate::learned::{LearnedValues, Similarity, WarpSample, from_samples};
use fellmark_model::plan::{PlanInputs, WeaveChoice};

/// What the weft of this name weighed in the earlier warps that were woven with it.
pub(super) fn weft_by_scale(history: &History, inputs: &PlanInputs) -> Option<WeftByScale> {
    let wanted = inputs.weft_name.to_lowercase();
    let same_yarn = |sample: &&WarpSample| {
        let name = sample.like.weft.as_deref().map(|name| name.trim().to_lowercase());
        !wanted.is_empty() && name.as_deref() == Some(&wanted)
    };
    let weighed: Vec<_> = history
        .samples
        .iter()
        .filter(same_yarn)
        .filter_map(|sample| {
            let WarpMeasurements { weft_used, picks, reed, .. } = sample.measured;
            Some((weft_used?, picks?, reed?))
        })
        .collect();
    let warps = weighed.len();
    weft_g_per_reed_metre(weighed).map(|g_per_reed_metre| WeftByScale { g_per_reed_metre, warps })
}

/// What the earlier warps show for a plan like this one.
pub(super) fn learned(history: &History, inputs: &PlanInputs) -> LearnedValues {
    let weave = match inputs.weave {
        WeaveChoice::PickUp => Some("pick_up"),
        WeaveChoice::Plain => Some("plain"),
        WeaveChoice::Twill | WeaveChoice::Other => None,
    };
    let like = Similarity {
        weave: weave.map(str::to_owned),
        picks_per_10cm: inputs.picks.map(|picks| picks.density().per_10cm()),
        weft: Some(inputs.weft_name.clone()).filter(|name| !name.is_empty()),
    };
    from_samples(&history.samples, &like)
}

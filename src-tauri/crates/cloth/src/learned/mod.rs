//! What was learned: from cutting-off and after-wash measures, real take-up, draw-in, waste, shrinkage and weft per
//! length; offered to later plans with how many warps stand behind each, weighted to those like the plan.

mod estimates;
mod priors;

pub use estimates::{
    Learned, LearnedAmount, LearnedEstimates, Likeness, PastWarp, learn, learn_length_loss, learn_picks_per_hour,
};
pub use priors::{
    FibrePrior, Finishing, PICKED_BY_HAND_SPEED, PLAIN_WEAVE_SPEED, PriorLoss, RIGID_HEDDLE_DIRECT_WASTE,
    RelaxationPrior, RowShares, STICK_SPEED, SpeedPrior, USUAL_RELAXATION, WashPrior, WastePrior, fibre_prior,
    wash_priors, waste_priors,
};

use crate::change::{DrawIn, Release, WarpUse, WashLength, WashWidth, WeftUse};
use crate::error::Refused;
use crate::quantity::{Mass, YarnNumber};
use crate::state::{
    FellWidth, Finished, FinishedLength, FinishedWidth, MeasuredState, OffLoom, PickLength, ReedWidth, RelaxedLength,
    RelaxedWidth, UnderTension, WarpLength, WovenLength,
};
use crate::take_up::POSSIBLE_WARP_PER_100;

/// What was measured of one warp, as far as it was. Every field may be missing; everything is of the whole warp.
#[derive(Debug, Clone, Copy, PartialEq, Default, serde::Serialize, serde::Deserialize)]
#[serde(default)]
pub struct WarpMeasurements {
    /// Warp as wound.
    #[serde(rename = "wound_mm")]
    pub wound: Option<WarpLength>,
    /// Cut off in front: knots and what was before the first pick.
    #[serde(rename = "front_mm")]
    pub front: Option<WarpLength>,
    /// Thrums: what was left behind.
    #[serde(rename = "thrums_mm")]
    pub thrums: Option<WarpLength>,
    /// Header, gaps and fringes: warp used that became neither cloth nor waste.
    #[serde(rename = "between_mm")]
    pub between: Option<WarpLength>,
    /// Cloth woven, under tension, all pieces.
    #[serde(rename = "woven_mm")]
    pub woven: Option<WovenLength>,
    /// The same off the loom.
    #[serde(rename = "off_loom_mm")]
    pub off_loom: Option<RelaxedLength>,
    /// The same after the wash.
    #[serde(rename = "finished_mm")]
    pub finished: Option<FinishedLength>,
    /// Width in the reed.
    #[serde(rename = "reed_mm")]
    pub reed: Option<ReedWidth>,
    /// Width at the fell, under tension.
    #[serde(rename = "fell_width_mm")]
    pub fell_width: Option<FellWidth>,
    /// Width off the loom.
    #[serde(rename = "off_loom_width_mm")]
    pub off_loom_width: Option<RelaxedWidth>,
    /// Width after the wash.
    #[serde(rename = "finished_width_mm")]
    pub finished_width: Option<FinishedWidth>,
    /// Picks woven, net.
    pub picks: Option<u64>,
    /// Weft used, by weight.
    #[serde(rename = "weft_used_g")]
    pub weft_used: Option<Mass>,
    /// The weft's number, to tell its length.
    #[serde(rename = "weft_tex")]
    pub weft_yarn: Option<YarnNumber>,
}

impl WarpMeasurements {
    /// Loom waste: front and thrums.
    pub fn waste(&self) -> Option<WarpLength> {
        Some(self.front? + self.thrums?)
    }

    /// Warp that became cloth: wound − front − thrums − what lay between. Front and thrums have to be known, the rest
    /// counts as nothing if it isn't.
    /// # Errors
    /// If that is more than was wound.
    pub fn warp_in_cloth(&self) -> Result<Option<WarpLength>, Refused> {
        let (Some(wound), Some(waste)) = (self.wound, self.waste()) else { return Ok(None) };
        let rest = wound.minus(waste + self.between.unwrap_or(WarpLength::ZERO));
        if rest.mm() <= 0.0 {
            return Err(Refused::DoesNotFit(
                "front, thrums and gaps together are as long as the warp that was wound".into(),
            ));
        }
        WarpLength::new(rest.over()).map(Some)
    }

    /// Warp used against cloth under tension.
    /// # Errors
    /// If the lengths don't fit each other.
    pub fn weaving(&self) -> Result<Option<WarpUse<UnderTension>>, Refused> {
        pair(self.warp_in_cloth()?, self.woven)
            .map(|(warp, cloth)| possible(WarpUse::between(warp, cloth)?))
            .transpose()
    }

    /// Warp used against cloth off the loom.
    /// # Errors
    /// If the lengths don't fit each other.
    pub fn relaxed_use(&self) -> Result<Option<WarpUse<OffLoom>>, Refused> {
        pair(self.warp_in_cloth()?, self.off_loom)
            .map(|(warp, cloth)| possible(WarpUse::between(warp, cloth)?))
            .transpose()
    }

    /// Release of tension, lengthwise.
    /// # Errors
    /// If the lengths don't fit each other.
    pub fn release(&self) -> Result<Option<Release>, Refused> {
        pair(self.woven, self.off_loom).map(|(a, b)| Release::between(a, b)).transpose()
    }

    /// What the wash did to the length.
    /// # Errors
    /// If the lengths don't fit each other.
    pub fn wash(&self) -> Result<Option<WashLength>, Refused> {
        pair(self.off_loom, self.finished).map(|(a, b)| WashLength::between(a, b)).transpose()
    }

    /// What the wash did to the width.
    /// # Errors
    /// If the widths don't fit each other.
    pub fn wash_width(&self) -> Result<Option<WashWidth>, Refused> {
        pair(self.off_loom_width, self.finished_width).map(|(a, b)| WashWidth::between(a, b)).transpose()
    }

    /// Draw-in on the loom.
    /// # Errors
    /// If the widths don't fit each other.
    pub fn draw_in(&self) -> Result<Option<DrawIn<UnderTension>>, Refused> {
        pair(self.reed, self.fell_width).map(|(a, b)| DrawIn::between(a, b)).transpose()
    }

    /// From the reed to the finished width.
    /// # Errors
    /// If the widths don't fit each other.
    pub fn width_in_all(&self) -> Result<Option<DrawIn<Finished>>, Refused> {
        pair(self.reed, self.finished_width).map(|(a, b)| DrawIn::between(a, b)).transpose()
    }

    /// Weft per metre of cloth woven under tension, g/m.
    /// # Errors
    /// If nothing was woven.
    pub fn weft_g_per_m(&self) -> Result<Option<f64>, Refused> {
        pair(self.weft_used, self.woven)
            .map(|(weft, woven)| crate::weft_left::weft_per_length(weft, Mass::ZERO, woven))
            .transpose()
    }

    /// The real length of a pick: weft used over picks.
    /// # Errors
    /// If there were no picks, or the length is absurd.
    pub fn pick_length(&self) -> Result<Option<PickLength>, Refused> {
        let (Some(weft), Some(yarn), Some(picks)) = (self.weft_used, self.weft_yarn, self.picks) else {
            return Ok(None);
        };
        // Far fewer picks than 2⁵³.
        #[allow(clippy::cast_precision_loss)]
        let picks = picks as f64;
        let length = yarn.length_of(weft)?;
        PickLength::from_mm(crate::quantity::divide("the number of picks", length.mm(), picks)?).map(Some)
    }

    /// Weft against finished width: the crimp to use with a finished width, from real picks.
    /// # Errors
    /// As [`Self::pick_length`].
    pub fn weft_use(&self) -> Result<Option<WeftUse<Finished>>, Refused> {
        pair(self.pick_length()?, self.finished_width).map(|(yarn, cloth)| WeftUse::between(yarn, cloth)).transpose()
    }
}

/// A warp use that cloth can have; beyond it one of the measures is wrong or something was left out.
fn possible<S: MeasuredState>(warp_use: WarpUse<S>) -> Result<WarpUse<S>, Refused> {
    let per_100 = warp_use.yarn_per_100();
    if POSSIBLE_WARP_PER_100.contains(&per_100) {
        return Ok(warp_use);
    }
    Err(Refused::DoesNotFit(format!("{per_100:.0} of warp for 100 of cloth is no take-up of woven cloth")))
}

fn pair<A, B>(a: Option<A>, b: Option<B>) -> Option<(A, B)> {
    a.zip(b)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn a_warp_shows_its_results() {
        let off = WarpMeasurements {
            wound: WarpLength::from_inches(90.0).ok(),
            front: WarpLength::from_inches(7.0).ok(),
            thrums: WarpLength::from_inches(10.0).ok(),
            woven: WovenLength::from_inches(75.0).ok(),
            off_loom: RelaxedLength::from_inches(65.0).ok(),
            reed: ReedWidth::from_inches(20.0).ok(),
            finished_width: FinishedWidth::from_inches(17.25).ok(),
            picks: Some(900),
            weft_used: Mass::from_g(100.0).ok(),
            weft_yarn: YarnNumber::try_from(200.0).ok(),
            ..WarpMeasurements::default()
        };
        // Wool, 2025 (The Rogue Weaver): −2.74 % under tension, 10.96 % relaxed, 13.3 % on release.
        assert!((off.weaving().unwrap().unwrap().take_up().percent() + 2.7397).abs() < 1e-3);
        assert!((off.relaxed_use().unwrap().unwrap().take_up().percent() - 10.9589).abs() < 1e-3);
        assert!((off.release().unwrap().unwrap().shrinkage_percent() - 13.333).abs() < 1e-3);
        assert!((off.width_in_all().unwrap().unwrap().shrinkage_percent() - 13.75).abs() < 1e-9);
        assert!((off.pick_length().unwrap().unwrap().cm() - 500.0 * 100.0 / 900.0).abs() < 1e-9);
        assert!((off.weft_g_per_m().unwrap().unwrap() - 100.0 / (75.0 * 0.0254)).abs() < 1e-9);
        assert_eq!(off.wash().unwrap(), None);
    }

    #[test]
    fn figures_that_do_not_fit_are_refused() {
        let off = WarpMeasurements {
            wound: WarpLength::from_inches(10.0).ok(),
            front: WarpLength::from_inches(7.0).ok(),
            thrums: WarpLength::from_inches(5.0).ok(),
            ..WarpMeasurements::default()
        };
        assert!(off.warp_in_cloth().is_err());
        assert_eq!(WarpMeasurements::default().weaving().unwrap(), None);
    }
}

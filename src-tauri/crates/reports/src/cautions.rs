//! What may hurt someone at a warp: which cautions it needs. Their sentences and sources are made where they are shown.

use fellmark_model::{Warp, WarpState};

/// A caution.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Caution {
    /// Cords, fringes and whatever lies around a child's neck.
    ChildNeck,
    /// What a child can pull off and swallow.
    ChildSmallParts,
    /// Sitting long and beating.
    Posture,
    /// Fibre dust in the air.
    Dust,
    /// Hot water and steam of finishing.
    HotWater,
    /// Dyes and mordants, which come out in the wash.
    Dyes,
}

impl Caution {
    /// Its id, by which it is known again.
    #[must_use]
    pub fn id(self) -> &'static str {
        match self {
            Self::ChildNeck => "child_neck",
            Self::ChildSmallParts => "child_small_parts",
            Self::Posture => "posture",
            Self::Dust => "dust",
            Self::HotWater => "hot_water",
            Self::Dyes => "dyes",
        }
    }
}

/// The cautions to be shown with a warp as it stands. Those of weaving itself stand on the weaving screen's settings.
#[must_use]
pub fn cautions_shown(warp: &Warp) -> Vec<Caution> {
    let mut cautions = of_child(warp);
    if warp.state == WarpState::OffTheLoom {
        cautions.extend([Caution::HotWater, Caution::Dyes]);
    }
    cautions
}

/// All cautions of a warp from the first pick to the wash, for its record sheet.
#[must_use]
pub fn cautions_on_paper(warp: &Warp) -> Vec<Caution> {
    let mut cautions = of_child(warp);
    cautions.extend([Caution::Posture, Caution::Dust, Caution::HotWater, Caution::Dyes]);
    cautions
}

fn of_child(warp: &Warp) -> Vec<Caution> {
    if warp.for_child { vec![Caution::ChildNeck, Caution::ChildSmallParts] } else { Vec::new() }
}

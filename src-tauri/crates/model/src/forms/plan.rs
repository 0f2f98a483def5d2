//! What is typed of a plan.

use serde::{Deserialize, Serialize};
#[cfg(any(test, feature = "typescript"))]
use ts_rs::TS;

/// A plan as typed. Every figure is text; empty means not known.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
#[cfg_attr(any(test, feature = "typescript"), derive(TS))]
pub struct PlanForm {
    /// Where it starts: `wish` or `yarn`; empty is `wish`.
    pub way: String,
    /// Name of the warp it becomes.
    pub name: String,
    /// Finished length of each piece.
    pub length: String,
    /// Finished width.
    pub width: String,
    /// How many pieces of that length; empty is one.
    pub pieces: String,
    /// Finished lengths of further pieces on the same warp: "40 cm; 2 × 15 cm".
    pub further: String,
    /// What ends each piece: `none`, `fringe` or `hem`; empty is `none`.
    pub edge: String,
    /// Length of the fringe, or of the cloth turned under, at each end of each piece.
    pub edge_length: String,
    /// Whether the fringes at the two ends of the warp come out of the loom waste.
    pub fringe_from_waste: bool,
    /// Ends in the reed, per 10 cm or per inch as the units go; a heddle's label such as 40/10 is taken.
    pub sett: String,
    /// Wraps of the warp yarn side by side, per 10 cm or per inch as the units go.
    pub wraps: String,
    /// How it is woven: `plain`, `twill` or `pick_up`; empty is `plain`.
    pub weave: String,
    /// Ashenhurst's constant: `usual`, `soft` or `cotton`; empty is `usual`.
    pub k: String,
    /// Number of the warp yarn as its label has it.
    pub warp_count: String,
    /// Number of the weft yarn; empty is that of the warp yarn.
    pub weft_count: String,
    /// Name of the weft yarn.
    pub weft_name: String,
    /// Picks per 10 cm or per inch, under tension.
    pub picks: String,
    /// Width in the reed, in place of the finished width.
    pub reed_width: String,
    /// Rows of the opening border, one to a line.
    pub opening: String,
    /// Rows of the repeat, one to a line.
    pub repeat: String,
    /// Rows that balance the last repeat.
    pub balance: String,
    /// Rows of the closing border.
    pub closing: String,
    /// What the yarn is made of: `cotton`, `linen`, `cottolin`, `wool`, `silk`, `viscose` or `acrylic`; empty is what the warp yarn's
    /// size names.
    pub fibre: String,
    /// How it is finished: `washed` or `fulled`; empty is `washed`.
    pub finish: String,
    /// Warp that 100 of cloth uses: "110".
    pub warp_per_100: String,
    /// Which cloth that is: `off_loom` or `under_tension`; empty is `off_loom`.
    pub take_up_of: String,
    /// Loss of length when the tension goes, per cent.
    pub release_percent: String,
    /// Loss of length in the wash, from cloth off the loom, per cent.
    pub shrinkage_percent: String,
    /// How much narrower the cloth at the fell is than the warp in the reed, per cent.
    pub draw_in_percent: String,
    /// How much narrower the finished cloth is than at the fell, per cent.
    pub width_shrinkage_percent: String,
    /// What one pick is longer than the reed width, per cent.
    pub weft_allowance_percent: String,
    /// Loom waste, front and back together.
    pub waste: String,
    /// Warp for the header.
    pub header: String,
    /// Warp for a sample woven first.
    pub sample: String,
    /// Warp between two pieces, besides their fringes.
    pub gap: String,
    /// Of a sample that was woven: warp that went into it.
    pub sample_warp: String,
    /// Its width in the reed.
    pub sample_reed: String,
    /// Its length off the loom.
    pub sample_length: String,
    /// Its width off the loom.
    pub sample_width: String,
    /// Its length after the wash.
    pub sample_length_washed: String,
    /// Its width after the wash.
    pub sample_width_washed: String,
    /// Whether one yarn serves for warp and weft.
    pub one_yarn: bool,
    /// Length of warp yarn there is.
    pub warp_have: String,
    /// Weight of warp yarn there is.
    pub warp_mass: String,
    /// How well that is known: `measured`, `label` or `rough`; empty is `label`.
    pub warp_sure: String,
    /// Length of weft yarn there is.
    pub weft_have: String,
    /// Weight of weft yarn there is.
    pub weft_mass: String,
    /// How well that is known: `measured`, `label` or `rough`; empty is `label`.
    pub weft_sure: String,
    /// Widest that the loom takes, in the reed.
    pub loom_width: String,
    /// Day of the gift, `YYYY-MM-DD`.
    pub gift_on: String,
    /// About how many days a week the weaver works.
    pub days_a_week: String,
    /// About how many minutes the weaver weaves on such a day.
    pub minutes_a_day: String,
}

//! What is typed of a warp.

use serde::{Deserialize, Serialize};
#[cfg(any(test, feature = "typescript"))]
use ts_rs::TS;

/// The warp as typed into the form. Every figure is text as the weaver writes it; empty means not known.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
#[cfg_attr(any(test, feature = "typescript"), derive(TS))]
pub struct WarpForm {
    /// Name of the warp.
    pub name: String,
    /// Day it was begun, `YYYY-MM-DD`; empty is today.
    pub begun_on: String,
    /// Length of warp wound.
    pub wound: String,
    /// Loom waste, front and back together.
    pub waste: String,
    /// Length wanted of each piece; several where they are not alike: "180, 15, 15 cm".
    pub wanted: String,
    /// What length that is: `finished`, `off_loom` or `under_tension`; empty is finished.
    pub wanted_state: String,
    /// Loss of length from the loom to finished, in per cent.
    pub shrinkage_percent: String,
    /// What the yarn is made of: `cotton`, `linen`, `cottolin`, `wool`, `silk`, `viscose` or `acrylic`; may be empty.
    pub fibre: String,
    /// How it is finished: `washed` or `fulled`; empty is `washed`.
    pub finish: String,
    /// How many pieces; empty is one, or as many as lengths are wanted.
    pub pieces: String,
    /// Fringe left unwoven at each end of each piece; empty is none.
    pub fringe: String,
    /// Whether the fringes at the two ends of the warp come out of the loom waste.
    pub fringe_from_waste: bool,
    /// Warp between two pieces besides their fringes; empty is none.
    pub gap: String,
    /// Picks per 10 cm or per inch, as the units go.
    pub picks: String,
    /// Ends in the reed per 10 cm or per inch, as the units go.
    pub sett: String,
    /// Warp that 100 units of cloth under tension use: "110".
    pub warp_per_100: String,
    /// Width in the reed.
    pub reed_width: String,
    /// What is added to the reed width for one pick, in per cent.
    pub weft_allowance_percent: String,
    /// Name of the weft yarn.
    pub weft_name: String,
    /// Weight of weft at the start.
    pub weft_mass: String,
    /// Length of weft at the start.
    pub weft_length: String,
    /// How it is woven: `plain`, `pick_up` or empty.
    pub weave: String,
    /// Picks that one press counts: `1`, or `2` for there and back; empty is one.
    pub picks_per_tap: String,
    /// Slot ends down at each edge of the pick-up.
    pub stick_edge_ends: String,
    /// Slot ends up in each group of the pick-up; empty: the stick is not described.
    pub stick_up_ends: String,
    /// Slot ends down between groups of the pick-up.
    pub stick_down_ends: String,
    /// Rows of the opening border, one to a line.
    pub opening: String,
    /// Rows of the repeat, one to a line.
    pub repeat: String,
    /// Rows that balance the last repeat.
    pub balance: String,
    /// Rows of the closing border.
    pub closing: String,
    /// Shaft of each end over one repeat of the threading: "1 2 3 4" or "1-4".
    pub threading: String,
    /// What each numbered shed lifts, one shed to a line: "1: 1 2".
    pub shed_lifts: String,
    /// Day of the gift, `YYYY-MM-DD`.
    pub gift_on: String,
    /// About how many days a week the weaver works.
    pub days_a_week: String,
    /// About how many minutes the weaver weaves on such a day.
    pub minutes_a_day: String,
    /// The days of the week the weaver works on: "Sat, Sun" or "weekends".
    pub weaving_days: String,
    /// First day the weaver is away; empty is today.
    pub away_from: String,
    /// Last day the weaver is away.
    pub away_until: String,
    /// First day of a stretch on every day of which the weaver intends to weave; empty is today.
    pub every_day_from: String,
    /// Last day of it.
    pub every_day_until: String,
    /// Whether it is for a young child.
    pub for_child: bool,
    /// A note.
    pub note: String,
}

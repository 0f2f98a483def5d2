//! `plan`: from the wish to what to wind, from the yarn to the piece.

use clap::{Args, ValueEnum};
use fellmark_present::view::PlanForm;

use super::{RowArgs, YesNo};

/// Where a plan starts.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub enum Way {
    /// From the piece that is wished for.
    #[default]
    Wish,
    /// From the yarn there is.
    Yarn,
}

/// Figures of a plan. What is not given is taken from earlier warps, else from common practice, and said to be.
#[derive(Debug, Default, Args)]
pub struct PlanArgs {
    /// Where it starts.
    #[arg(long, value_name = "WAY")]
    pub from: Option<Way>,
    /// Start from an earlier warp's plan; what is given besides is written over it.
    #[arg(long, value_name = "WARP")]
    pub copy: Option<String>,
    /// Start from a plan that was kept.
    #[arg(long, value_name = "PLAN", conflicts_with = "copy")]
    pub saved: Option<String>,
    /// Name of the warp it becomes.
    #[arg(long, value_name = "TEXT")]
    pub name: Option<String>,
    /// Finished length of each piece.
    #[arg(long, value_name = "LENGTH")]
    pub length: Option<String>,
    /// Finished width.
    #[arg(long, value_name = "LENGTH")]
    pub width: Option<String>,
    /// Number of pieces of that length.
    #[arg(long, value_name = "NUMBER")]
    pub pieces: Option<String>,
    /// Finished length of a further piece on the same warp; once for each.
    #[arg(long, value_name = "LENGTH")]
    pub further: Vec<String>,
    /// What ends each piece: none, fringe or hem.
    #[arg(long, value_name = "EDGE", value_parser = ["none", "fringe", "hem"])]
    pub edge: Option<String>,
    /// Length of fringe, or of cloth turned under, at each end of each piece.
    #[arg(long, value_name = "LENGTH")]
    pub edge_length: Option<String>,
    /// The outermost fringes come out of the loom waste (yes or no).
    #[arg(long, value_name = "YES|NO")]
    pub fringe_from_waste: Option<YesNo>,
    /// Ends in the reed: 40, 40/10, "4 per cm", "10 epi".
    #[arg(long, value_name = "DENSITY")]
    pub sett: Option<String>,
    /// Wraps of the warp yarn side by side: "20 per inch".
    #[arg(long, value_name = "DENSITY")]
    pub wraps: Option<String>,
    /// How it is woven: plain, twill or pick_up.
    #[arg(long, value_name = "WEAVE", value_parser = ["plain", "twill", "pick_up"])]
    pub weave: Option<String>,
    /// The k of Ashenhurst's rule: usual (0.9), soft (0.84) or cotton (0.95).
    #[arg(long, value_name = "K", value_parser = ["usual", "soft", "cotton"])]
    pub k: Option<String>,
    /// Number of the warp yarn: "400 m/100 g", "8/2 cotton".
    #[arg(long, value_name = "COUNT")]
    pub warp_count: Option<String>,
    /// Number of the weft yarn; the warp's if not given.
    #[arg(long, value_name = "COUNT")]
    pub weft_count: Option<String>,
    /// Name of the weft yarn.
    #[arg(long, value_name = "TEXT")]
    pub weft: Option<String>,
    /// Picks per 10 cm or per inch, as the units go; as many as ends if not given.
    #[arg(long, value_name = "DENSITY")]
    pub picks: Option<String>,
    /// Width in the reed, in place of the finished width.
    #[arg(long, value_name = "LENGTH")]
    pub reed_width: Option<String>,
    /// The pick sequence.
    #[command(flatten)]
    pub rows: RowArgs,
    /// What the yarn is made of; what the warp yarn's size names if not given.
    #[arg(long, value_name = "FIBRE", value_parser = ["cotton", "linen", "cottolin", "wool", "silk", "viscose", "acrylic"])]
    pub fibre: Option<String>,
    /// How it is finished: washed or fulled.
    #[arg(long, value_name = "FINISH", value_parser = ["washed", "fulled"])]
    pub finish: Option<String>,
    /// Warp that 100 of cloth uses.
    #[arg(long, value_name = "NUMBER")]
    pub warp_per_100: Option<String>,
    /// Which cloth that is: off_loom or under_tension.
    #[arg(long, value_name = "STATE", value_parser = ["off_loom", "under_tension"])]
    pub take_up_of: Option<String>,
    /// Loss of length when the tension goes, per cent.
    #[arg(long, value_name = "PERCENT", allow_hyphen_values = true)]
    pub release: Option<String>,
    /// Loss of length in the wash, per cent.
    #[arg(long, value_name = "PERCENT", allow_hyphen_values = true)]
    pub shrinkage: Option<String>,
    /// How much narrower the cloth at the fell is than the warp in the reed, per cent.
    #[arg(long, value_name = "PERCENT", allow_hyphen_values = true)]
    pub draw_in: Option<String>,
    /// How much narrower the finished cloth is than at the fell, per cent.
    #[arg(long, value_name = "PERCENT", allow_hyphen_values = true)]
    pub width_shrinkage: Option<String>,
    /// What one pick is longer than the width in the reed, per cent.
    #[arg(long, value_name = "PERCENT", allow_hyphen_values = true)]
    pub allowance: Option<String>,
    /// Loom waste, front and back together.
    #[arg(long, value_name = "LENGTH")]
    pub waste: Option<String>,
    /// Warp for the header.
    #[arg(long, value_name = "LENGTH")]
    pub header: Option<String>,
    /// Warp for a sample woven first.
    #[arg(long, value_name = "LENGTH")]
    pub sample: Option<String>,
    /// Warp between two pieces, besides their fringes.
    #[arg(long, value_name = "LENGTH")]
    pub gap: Option<String>,
    /// Of a sample: warp that went into it.
    #[arg(long, value_name = "LENGTH")]
    pub sample_warp: Option<String>,
    /// Of a sample: width in the reed.
    #[arg(long, value_name = "LENGTH")]
    pub sample_reed: Option<String>,
    /// Of a sample: length off the loom.
    #[arg(long, value_name = "LENGTH")]
    pub sample_length: Option<String>,
    /// Of a sample: width off the loom.
    #[arg(long, value_name = "LENGTH")]
    pub sample_width: Option<String>,
    /// Of a sample: length after the wash.
    #[arg(long, value_name = "LENGTH")]
    pub sample_length_washed: Option<String>,
    /// Of a sample: width after the wash.
    #[arg(long, value_name = "LENGTH")]
    pub sample_width_washed: Option<String>,
    /// One yarn serves for warp and weft (yes or no); what there is of it is given as warp.
    #[arg(long, value_name = "YES|NO")]
    pub one_yarn: Option<YesNo>,
    /// Length of warp yarn there is.
    #[arg(long, value_name = "LENGTH")]
    pub warp_have: Option<String>,
    /// Weight of warp yarn there is.
    #[arg(long, value_name = "MASS")]
    pub warp_mass: Option<String>,
    /// How well that is known: measured, label or rough.
    #[arg(long, value_name = "HOW", value_parser = ["measured", "label", "rough"])]
    pub warp_sure: Option<String>,
    /// Length of weft yarn there is.
    #[arg(long, value_name = "LENGTH")]
    pub weft_have: Option<String>,
    /// Weight of weft yarn there is.
    #[arg(long, value_name = "MASS")]
    pub weft_mass: Option<String>,
    /// How well that is known: measured, label or rough.
    #[arg(long, value_name = "HOW", value_parser = ["measured", "label", "rough"])]
    pub weft_sure: Option<String>,
    /// Widest that the loom takes.
    #[arg(long, value_name = "LENGTH")]
    pub loom_width: Option<String>,
    /// Day of the gift, YYYY-MM-DD.
    #[arg(long, value_name = "DAY")]
    pub gift: Option<String>,
    /// About how many days a week you weave.
    #[arg(long, value_name = "NUMBER")]
    pub days_a_week: Option<String>,
    /// About how many minutes you weave on such a day: 45, 1:30.
    #[arg(long, value_name = "MINUTES")]
    pub minutes_a_day: Option<String>,
}

impl PlanArgs {
    /// Writes what was given over a form.
    pub fn over(self, form: &mut PlanForm) {
        if let Some(way) = self.from {
            form.way = if way == Way::Yarn { "yarn" } else { "wish" }.into();
        }
        let one = [
            (&mut form.name, self.name),
            (&mut form.length, self.length),
            (&mut form.width, self.width),
            (&mut form.pieces, self.pieces),
            (&mut form.edge, self.edge),
            (&mut form.edge_length, self.edge_length),
            (&mut form.sett, self.sett),
            (&mut form.wraps, self.wraps),
            (&mut form.weave, self.weave),
            (&mut form.k, self.k),
            (&mut form.warp_count, self.warp_count),
            (&mut form.weft_count, self.weft_count),
            (&mut form.weft_name, self.weft),
            (&mut form.picks, self.picks),
            (&mut form.reed_width, self.reed_width),
            (&mut form.fibre, self.fibre),
            (&mut form.finish, self.finish),
            (&mut form.warp_per_100, self.warp_per_100),
            (&mut form.take_up_of, self.take_up_of),
            (&mut form.release_percent, self.release),
            (&mut form.shrinkage_percent, self.shrinkage),
            (&mut form.draw_in_percent, self.draw_in),
            (&mut form.width_shrinkage_percent, self.width_shrinkage),
            (&mut form.weft_allowance_percent, self.allowance),
            (&mut form.waste, self.waste),
            (&mut form.header, self.header),
            (&mut form.sample, self.sample),
            (&mut form.gap, self.gap),
            (&mut form.sample_warp, self.sample_warp),
            (&mut form.sample_reed, self.sample_reed),
            (&mut form.sample_length, self.sample_length),
            (&mut form.sample_width, self.sample_width),
            (&mut form.sample_length_washed, self.sample_length_washed),
            (&mut form.sample_width_washed, self.sample_width_washed),
            (&mut form.warp_have, self.warp_have),
            (&mut form.warp_mass, self.warp_mass),
            (&mut form.warp_sure, self.warp_sure),
            (&mut form.weft_have, self.weft_have),
            (&mut form.weft_mass, self.weft_mass),
            (&mut form.weft_sure, self.weft_sure),
            (&mut form.loom_width, self.loom_width),
            (&mut form.gift_on, self.gift),
            (&mut form.days_a_week, self.days_a_week),
            (&mut form.minutes_a_day, self.minutes_a_day),
        ];
        for (member, given) in one {
            if let Some(text) = given {
                *member = text;
            }
        }
        if !self.further.is_empty() {
            form.further = self.further.join("; ");
        }
        self.rows.over([&mut form.opening, &mut form.repeat, &mut form.balance, &mut form.closing]);
        for (member, given) in
            [(&mut form.fringe_from_waste, self.fringe_from_waste), (&mut form.one_yarn, self.one_yarn)]
        {
            if let Some(answer) = given {
                *member = answer == YesNo::Yes;
            }
        }
    }
}

/// The argument that fills a member of the plan's form where it is not named like it.
pub fn plan_argument(field: &str) -> Option<&'static str> {
    Some(match field {
        "release_percent" => "--release",
        "shrinkage_percent" => "--shrinkage",
        "draw_in_percent" => "--draw-in",
        "width_shrinkage_percent" => "--width-shrinkage",
        "weft_allowance_percent" => "--allowance",
        "weft_name" => "--weft",
        "gift_on" => "--gift",
        "reed_width" => "--reed-width",
        _ => return None,
    })
}

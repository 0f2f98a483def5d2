//! What is given with the commands for what is measured and noted at the loom.

use clap::Args;
use fellmark_present::view::YarnForm;

use super::TapeArgs;

/// When something was noted, if not now and after the last sitting.
#[derive(Debug, Default, Args)]
pub struct WhenArgs {
    /// The sitting it was noted in.
    #[arg(long, value_name = "SITTING", requires = "after_picks")]
    pub within: Option<String>,
    /// After so many picks of that sitting.
    #[arg(long, value_name = "NUMBER", requires = "within", allow_hyphen_values = true)]
    pub after_picks: Option<i64>,
}

/// A place in the sequence: the row that comes next.
#[derive(Debug, Default, Args)]
pub struct PlaceArgs {
    /// opening, repeat, balance or closing.
    #[arg(long, value_name = "SECTION")]
    pub section: Option<String>,
    /// Which repeat, from 1; in balance and closing border how many were woven.
    #[arg(long, value_name = "NUMBER")]
    pub repeat: Option<String>,
    /// Which row of the section, from 1.
    #[arg(long, value_name = "NUMBER")]
    pub row: Option<String>,
    /// Which piece, from 1.
    #[arg(long, value_name = "NUMBER")]
    pub piece: Option<String>,
}

/// A tape reading, weighings, a yarn taken up.
#[derive(Debug, Default, Args)]
pub struct MeasurementArgs {
    /// The day, YYYY-MM-DD; today if not given.
    #[arg(long, value_name = "DAY")]
    pub on: Option<String>,
    /// What was measured.
    #[command(flatten)]
    pub tape: TapeArgs,
    /// A warp mark is at the fell: how far from the first pick, along the warp, it was tied.
    #[arg(long, value_name = "LENGTH")]
    pub warp_mark: Option<String>,
    /// What is left of a yarn, by weight or by length: "walnut=42 g"; once for each yarn.
    #[arg(long, value_name = "YARN=AMOUNT")]
    pub left: Vec<String>,
    /// The yarn that is woven from here on.
    #[arg(long, value_name = "YARN")]
    pub yarn: Option<String>,
}

/// A weft yarn.
#[derive(Debug, Default, Args)]
pub struct YarnArgs {
    /// Its name.
    #[arg(long, value_name = "TEXT")]
    pub name: Option<String>,
    /// Weight at the start.
    #[arg(long, value_name = "MASS")]
    pub mass: Option<String>,
    /// Length at the start.
    #[arg(long, value_name = "LENGTH")]
    pub length: Option<String>,
    /// What the empty shuttle or bobbin weighs that it is on: "28 g".
    #[arg(long, value_name = "WEIGHT")]
    pub tare: Option<String>,
}

impl YarnArgs {
    /// Writes what was given over a form.
    pub fn over(self, form: &mut YarnForm) {
        for (member, given) in [
            (&mut form.name, self.name),
            (&mut form.mass, self.mass),
            (&mut form.length, self.length),
            (&mut form.tare, self.tare),
        ] {
            if let Some(text) = given {
                *member = text;
            }
        }
    }
}

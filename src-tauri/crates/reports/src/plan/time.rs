//! How long a plan takes: hours at the loom, and the day it can be finished if begun today.

use chrono::NaiveDate;
use fellmark_cloth::learned::{PICK_UP_SPEED, PLAIN_WEAVE_SPEED, SpeedPrior};
use fellmark_cloth::state::WovenLength;
use fellmark_projection::{Availability, LeftToWeave, Projection, Question, SectionKind, project, usual_finishing};

use crate::finish_date::SET_UP_MINUTES;
use crate::history::History;
use crate::learned::Figure;
use fellmark_model::plan::{PlanInputs, WeaveChoice};

/// Half the width of a span that holds four times in five, in standard deviations of a normal distribution.
const FOUR_IN_FIVE_Z: f64 = 1.281_551_565_544_6;

/// Hours at the loom.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HoursSpan {
    /// At the fast pace.
    pub low: f64,
    /// At the likely pace.
    pub likely: f64,
    /// At the slow pace.
    pub high: f64,
}

/// What the hours are calculated from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PaceBasis {
    /// The pace of earlier warps of this weave, picks an hour; four times in five between slow and fast.
    EarlierWarps {
        /// The likely pace, and how many warps it comes from.
        pace: Figure,
        /// Picks an hour.
        slow: f64,
        /// Picks an hour.
        fast: f64,
    },
    /// Common practice for this weave, inches of cloth an hour.
    CommonPractice(SpeedPrior),
}

/// Hours and days of a plan.
#[derive(Clone, Debug)]
pub struct PlanTime {
    /// Picks in all.
    pub picks: f64,
    /// Hours at the loom.
    pub hours: HoursSpan,
    /// What they are calculated from.
    pub pace: PaceBasis,
    /// How it is woven.
    pub kind: SectionKind,
    /// The days, if begun today.
    pub projection: Projection,
}

/// Calculates the time; `None` where it cannot be projected. `pace` is the pace of earlier warps of this weave.
pub(super) fn plan_time(
    inputs: &PlanInputs,
    picks: f64,
    woven: WovenLength,
    history: &History,
    pace: Option<&Figure>,
    today: NaiveDate,
) -> Option<PlanTime> {
    let kind = if inputs.weave == WeaveChoice::PickUp { SectionKind::PickUp } else { SectionKind::Plain };
    let (hours, pace) = hours(picks, woven, &kind, pace);
    let question = Question {
        left: vec![LeftToWeave { kind: kind.clone(), picks, picks_sd: 0.0 }],
        earlier: history.earlier.clone(),
        availability: Availability { days_a_week: inputs.days_a_week, ..Availability::default() },
        finishing: usual_finishing(),
        plan_hours: Some(hours.likely),
        set_up_minutes: SET_UP_MINUTES,
        gift_day: inputs.gift_on,
        ..Question::new(today, picks)
    };
    let projection = project(&question).ok()?;
    Some(PlanTime { picks, hours, pace, kind, projection })
}

fn hours(picks: f64, woven: WovenLength, kind: &SectionKind, pace: Option<&Figure>) -> (HoursSpan, PaceBasis) {
    if let Some(pace) = pace.filter(|pace| pace.value > 0.0) {
        let off = FOUR_IN_FIVE_Z * pace.deviation;
        // No slower than a third of the likely pace.
        let (slow, fast) = ((pace.value - off).max(pace.value / 3.0), pace.value + off);
        let hours = HoursSpan { low: picks / fast, likely: picks / pace.value, high: picks / slow };
        return (hours, PaceBasis::EarlierWarps { pace: *pace, slow, fast });
    }
    let speed = if *kind == SectionKind::PickUp { PICK_UP_SPEED } else { PLAIN_WEAVE_SPEED };
    let inches = woven.inches();
    let hours = HoursSpan { low: inches / speed.fast, likely: inches / speed.usual, high: inches / speed.slow };
    (hours, PaceBasis::CommonPractice(speed))
}

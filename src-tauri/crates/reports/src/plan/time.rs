//! How long a plan takes: hours at the loom, and the day it can be finished if begun today.

use chrono::NaiveDate;
use fellmark_cloth::learned::SpeedPrior;
use fellmark_cloth::span::FOUR_IN_FIVE_Z;
use fellmark_cloth::state::WovenLength;
use fellmark_projection::{Availability, LeftToWeave, Projection, Question, SectionKind, project, usual_finishing};

use crate::finish_date::{BeforeWeaving, SET_UP_MINUTES, before_weaving};
use crate::history::History;
use crate::learned::Figure;
use crate::usual_hours::{HoursSpan, row_shares, usual_hours};
use fellmark_model::plan::{PlanInputs, WeaveChoice};

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
    /// The days, if begun today; what it takes where nothing is known of the weaver.
    pub days: PlanDays,
}

/// When a plan is done, if begun today.
#[derive(Clone, Debug)]
pub enum PlanDays {
    /// By earlier warps, or by what the weaver states.
    Projected(Box<Projection>),
    /// Nothing is known of the weaver: what it takes, and no date.
    BeforeWeaving(Box<BeforeWeaving>),
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
    let speed = row_shares(&inputs.rows, kind == SectionKind::PickUp).speed();
    let (hours, pace) = hours(picks, woven, speed, pace);
    let question = Question {
        left: vec![LeftToWeave { kind: kind.clone(), picks, picks_sd: 0.0 }],
        earlier: history.earlier.clone(),
        availability: Availability { days_a_week: inputs.days_a_week, ..Availability::default() },
        finishing: usual_finishing(),
        plan_hours: Some(hours.likely),
        stated_minutes: inputs.minutes_a_day,
        set_up_minutes: SET_UP_MINUTES,
        gift_day: inputs.gift_on,
        ..Question::new(today, picks)
    };
    let projection = project(&question).ok()?;
    let days = match before_weaving(&question, &projection, woven, speed) {
        Some(before) => PlanDays::BeforeWeaving(Box::new(before)),
        None => PlanDays::Projected(Box::new(projection)),
    };
    Some(PlanTime { picks, hours, pace, kind, days })
}

fn hours(picks: f64, woven: WovenLength, speed: SpeedPrior, pace: Option<&Figure>) -> (HoursSpan, PaceBasis) {
    if let Some(pace) = pace.filter(|pace| pace.value > 0.0) {
        let off = FOUR_IN_FIVE_Z * pace.deviation;
        // No slower than a third of the likely pace.
        let (slow, fast) = ((pace.value - off).max(pace.value / 3.0), pace.value + off);
        let hours = HoursSpan { low: picks / fast, likely: picks / pace.value, high: picks / slow };
        return (hours, PaceBasis::EarlierWarps { pace: *pace, slow, fast });
    }
    (usual_hours(woven, speed), PaceBasis::CommonPractice(speed))
}

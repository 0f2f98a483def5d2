//! What the projection of a warp is asked.

use chrono::NaiveDate;
use fellmark_cloth::learned::SpeedPrior;
use fellmark_cloth::state::WovenLength;
use fellmark_model::WarpLog;
use fellmark_model::WarpState;
use fellmark_model::finishing;
use fellmark_projection::Question;

use super::measure::Measure;
use crate::history::History;
use crate::progress::Progress;
use crate::usual_hours::{row_shares, usual_hours};
use crate::weave_kinds::WeaveKinds;

/// Winding and threading a rigid heddle, minutes: one weaver's itemised account; the practised report 20 to 30 minutes.
pub const SET_UP_MINUTES: f64 = 90.0;

/// Minutes of set-up still to be done: a warp that was planned is begun before it is wound, and on the loom by its first sitting. One
/// begun without a plan is on the loom already.
#[must_use]
pub fn set_up_minutes(log: &WarpLog, progress: &Progress) -> f64 {
    let woven_on = !log.sittings.is_empty() || log.running.is_some() || progress.picks != 0;
    if log.warp.planned_hours.is_some() && !woven_on { SET_UP_MINUTES } else { 0.0 }
}

/// Cloth still to weave.
pub(super) fn cloth_left(progress: &Progress) -> Option<WovenLength> {
    progress.to_weave_mm.and_then(|mm| WovenLength::from_mm(mm.max(0.0)).ok())
}

/// The speed of this weave by common practice.
pub(super) fn usual_speed(log: &WarpLog) -> SpeedPrior {
    row_shares(&log.warp.rows, log.warp.weave.as_deref() == Some("pick_up")).speed()
}

/// What the projection of a warp is asked; nothing when it is not known how much is to be woven.
#[must_use]
pub fn question(log: &WarpLog, progress: &Progress, history: &History, today: NaiveDate) -> Option<Question> {
    let warp = &log.warp;
    let measure = Measure::for_progress(progress);
    let (picks_left, picks_left_sd) = measure.left(progress)?;
    let along = WeaveKinds::of(warp);
    let history = history.without(&warp.id);
    // A day still to come is a slip: it is off the loom, or set aside, as recorded.
    let since = warp.state_on.unwrap_or(today).min(today);
    let usual_hours_left = cloth_left(progress).map(|cloth| usual_hours(cloth, usual_speed(log)).likely);
    Some(Question {
        today,
        sittings: along.sittings(measure.sittings(log, progress)),
        left: along.left(measure.woven(progress), picks_left, picks_left_sd),
        earlier: history.earlier.clone(),
        availability: warp.said.for_projection(warp.days_a_week),
        finishing: finishing::still_to_do(log, &history.waiting_days),
        plan_hours: if log.sittings.is_empty() { usual_hours_left.or(warp.planned_hours) } else { warp.planned_hours },
        stated_minutes: warp.minutes_a_day,
        set_up_minutes: set_up_minutes(log, progress),
        gift_day: warp.gift_on,
        resting_since: (warp.state == WarpState::Resting).then_some(since),
        cut_off: (warp.state == WarpState::OffTheLoom).then_some(since),
    })
}

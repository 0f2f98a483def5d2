//! What would make a gift day that is not safe: more at a time, more often, or less to weave.

use chrono::NaiveDate;
use fellmark_cloth::warp::PieceAt;
use fellmark_projection::{Basis, Goal, Projection, Requirement};

use super::before_weaving::{GiftNeed, LONGEST_ADVISED_MINUTES, SURE_ENOUGH, WeavingWeek, gift_need};
use super::measure::Measure;
use super::question::question;
use crate::history::History;
use crate::progress::Progress;
use fellmark_model::WarpLog;

/// Nor, where no sitting was timed, more than so many times as much: 180 minutes are four sittings as they commonly go.
const MOST_TIMES_ADVISED: f64 = 4.0;
/// Share of the length wanted that must remain where a shorter piece is advised: what is left of a scarf then is still one.
const SHORTEST_ADVISED_SHARE: f64 = 0.5;
/// Less than this is nothing more to weave, millimetres.
const HARDLY_MM: f64 = 5.0;
/// Fewer days a week than this are given as the days from one sitting to the next.
const SELDOM_DAYS_A_WEEK: f64 = 1.25;

/// How often the weaver works now, as it is compared with what is advised.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum DaysAWeek {
    /// Days a week.
    Days(f64),
    /// Less than about once a week: days from one sitting to the next.
    EveryDays(f64),
}

/// Which piece or pieces become shorter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ShorterBy {
    /// The only piece.
    ThePiece,
    /// The only piece, ended where it is now.
    EndingItHere,
    /// All pieces together.
    InAll,
    /// Every piece alike.
    EachPiece,
    /// The last piece.
    LastPiece,
    /// Each of so many pieces that are still to be woven.
    EachStillToWeave(usize),
}

/// One way to make the gift day likely.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Advice {
    /// Longer sittings, in steps of five minutes.
    LongerSittings {
        /// Minutes a sitting.
        minutes: f64,
        /// Minutes a sitting as it usually is.
        usual_minutes: f64,
    },
    /// More at a time, where no sitting was timed; in what [`Measure`] counts.
    MoreAtATime {
        /// Picks a sitting.
        picks: f64,
        /// Picks a sitting as it usually is.
        usual_picks: f64,
    },
    /// A sitting more often, where they are rare.
    SittingEvery {
        /// Days from one sitting to the next.
        days: f64,
        /// The same as it usually is.
        usual_days: f64,
    },
    /// More weaving days a week, in steps of half a day; seven is every day.
    MoreDays {
        /// Days a week.
        days_a_week: f64,
        /// As it usually is.
        usual: DaysAWeek,
    },
    /// More weaving days and longer ones, where neither alone is enough.
    MoreAndLonger(WeavingWeek),
    /// A shorter piece, or shorter pieces.
    Shorter {
        /// By how much, millimetres under tension.
        by_mm: f64,
        /// Which.
        which: ShorterBy,
    },
    /// So many pieces left out at the end.
    FewerPieces(i64),
}

/// What would make the gift day with a chance of four in five; empty where nothing reasonable would.
///
/// Nothing where the projection does not know a need.
#[must_use]
pub fn advice(
    log: &WarpLog,
    progress: &Progress,
    projection: &Projection,
    gift_on: NaiveDate,
    today: NaiveDate,
) -> Option<Vec<Advice>> {
    let need = projection.requirement(Goal::Finished, gift_on, SURE_ENOUGH).ok()?;
    let measure = Measure::for_progress(progress);
    let mut ways: Vec<Advice> = more_at_a_time(&need, projection, measure).into_iter().collect();
    ways.extend(more_often(&need, log));
    if ways.is_empty() && projection.reasons.basis == Basis::Stated {
        ways.extend(more_and_longer(log, progress, gift_on, today));
    }
    if let Some(fewer) = need.picks_fewer.filter(|fewer| *fewer > 0.0) {
        ways.extend(less_to_weave(progress, fewer / measure.picks_per_mm));
    }
    Some(ways)
}

/// The next step up, and the figure as it is now; a step apart at least, so that what is advised is more.
fn stepped(needed: f64, usual: f64, step: f64) -> (f64, f64) {
    let usual = ((usual / step).round() * step).max(step);
    (((needed / step - 1e-6).ceil() * step).max(usual + step), usual)
}

/// Longer sittings, to five minutes; where none was timed, more picks.
fn more_at_a_time(need: &Requirement, projection: &Projection, measure: Measure) -> Option<Advice> {
    if let (Some(minutes), Some(usual)) = (need.minutes_a_day, need.usual_minutes_a_day) {
        let (minutes, usual_minutes) = stepped(minutes, usual, 5.0);
        return (minutes <= LONGEST_ADVISED_MINUTES).then_some(Advice::LongerSittings { minutes, usual_minutes });
    }
    let (times, picks) = (need.times?, need.picks_a_day?);
    // Five picks, or a centimetre.
    let step = if measure.stands_for_lengths { 10.0 * measure.picks_per_mm } else { 5.0 };
    let (picks, usual_picks) = stepped(picks, projection.reasons.picks_a_day, step);
    (times <= MOST_TIMES_ADVISED).then_some(Advice::MoreAtATime { picks, usual_picks })
}

/// More weaving days and longer ones, where only what the weaver states is known.
fn more_and_longer(log: &WarpLog, progress: &Progress, gift_on: NaiveDate, today: NaiveDate) -> Option<Advice> {
    let question = question(log, progress, &History::default(), today)?;
    match gift_need(&question, gift_on) {
        GiftNeed::Ways(ways) => ways.first().copied().map(Advice::MoreAndLonger),
        GiftNeed::TooMuch { .. } | GiftNeed::Past => None,
    }
}

/// More weaving days, to half a day; never more of them than the weaver states.
fn more_often(need: &Requirement, log: &WarpLog) -> Option<Advice> {
    let usual = need.usual_days_a_week;
    let days = need.days_a_week.filter(|days| *days > usual)?;
    let most = log.warp.said.weekdays.map_or(7.0, |week| week.iter().filter(|on| **on).count() as f64);
    let seldom = (usual < SELDOM_DAYS_A_WEEK).then(|| (7.0 / usual).round());
    if let Some(usual_days) = seldom.filter(|_| days < SELDOM_DAYS_A_WEEK) {
        let needed = (7.0 / days + 1e-6).floor().min(usual_days - 1.0);
        return (days <= most).then_some(Advice::SittingEvery { days: needed, usual_days });
    }
    let (days_a_week, usual) = stepped(days, usual, 0.5);
    let usual = seldom.map_or(DaysAWeek::Days(usual), DaysAWeek::EveryDays);
    (days_a_week <= most).then_some(Advice::MoreDays { days_a_week, usual })
}

/// A shorter piece, or so many pieces fewer. What is woven stays woven.
fn less_to_weave(progress: &Progress, fewer_mm: f64) -> Vec<Advice> {
    let Some(wanted) = progress.wanted_mm.filter(|mm| *mm > 0.0) else { return Vec::new() };
    let to_weave = wanted - progress.woven_mm();
    let mut ways: Vec<Advice> = shorter(progress, fewer_mm, to_weave)
        .filter(|_| 1.0 - fewer_mm / wanted >= SHORTEST_ADVISED_SHARE)
        .into_iter()
        .collect();
    // So many of the last pieces left out: where enough is left out, and nothing that is woven.
    let enough = wanted - fewer_mm;
    let ends = progress.piece_ends.ends();
    let remain = ends.iter().filter(|end| end.mm() <= enough + 1e-6).count();
    let last = remain.checked_sub(1).and_then(|last| ends.get(last));
    if progress.pieces > 1 && last.is_some_and(|end| end.mm() >= progress.woven_mm() - HARDLY_MM) {
        ways.push(Advice::FewerPieces(i64::from(progress.pieces) - i64::try_from(remain).unwrap_or(0)));
    }
    ways
}

fn shorter(progress: &Progress, fewer_mm: f64, to_weave_mm: f64) -> Option<Advice> {
    if progress.pieces <= 1 {
        return Some(if to_weave_mm - fewer_mm < HARDLY_MM {
            Advice::Shorter { by_mm: to_weave_mm, which: ShorterBy::EndingItHere }
        } else {
            Advice::Shorter { by_mm: fewer_mm, which: ShorterBy::ThePiece }
        });
    }
    let PieceAt { piece: index, begin, end } = progress.piece_at_fell()?;
    let still = progress.piece_ends.count().saturating_sub(index);
    let each_mm = fewer_mm / still.max(1) as f64;
    // The piece that is begun can only be ended where it is, or later.
    let room = (end.mm() - begin.mm()) - (progress.woven_mm() - begin.mm()).max(0.0);
    if !progress.piece_ends.are_alike() || each_mm > room {
        return Some(Advice::Shorter { by_mm: fewer_mm, which: ShorterBy::InAll });
    }
    let which = match (index, still) {
        (0, _) => ShorterBy::EachPiece,
        (_, 1) => ShorterBy::LastPiece,
        (_, still) => ShorterBy::EachStillToWeave(still),
    };
    Some(Advice::Shorter { by_mm: each_mm, which })
}

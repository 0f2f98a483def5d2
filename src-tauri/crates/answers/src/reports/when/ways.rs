//! The gift day: how likely it is to be made, and what would make it.

use chrono::NaiveDate;
use fellmark_projection::{Basis, Goal, Need, Projection, State};

use super::lengths::Measure;
use super::{CLOSE, WELL, chance_words};
use crate::model::WarpLog;
use crate::model::display_format::DisplayFormat;
use crate::model::measures::show_length;
use crate::present::view::{Answer, Standing};
use crate::present::words::small_number;
use crate::reports::progress::Progress;

/// The chance asked for when saying what it would take.
const SURE_ENOUGH: f64 = 0.8;
/// No one is told to weave longer than this at a time, minutes: it strains (see the caution at the loom).
const LONGEST_ADVISED_MINUTES: f64 = 180.0;
/// Nor, where no sitting was timed, more than so many times as much: 180 minutes are four sittings as they commonly go.
const MOST_TIMES_ADVISED: f64 = 4.0;
/// Share of the length wanted that must remain where a shorter piece is advised: what is left of a scarf then is still one.
const SHORTEST_ADVISED_SHARE: f64 = 0.5;
/// Less than this is nothing more to weave, millimetres.
const HARDLY_MM: f64 = 5.0;
/// Fewer days a week than this are told as the days from one sitting to the next.
const SELDOM_DAYS_A_WEEK: f64 = 1.25;

/// Tells how likely the gift day is, and what would make it where it is not safe.
pub(super) fn gift_words(
    answer: &mut Answer,
    (log, progress): (&WarpLog, &Progress),
    projection: &Projection,
    (gift, chance): (NaiveDate, f64),
    format: &DisplayFormat,
    today: NaiveDate,
) {
    let measure = Measure::of(progress);
    if gift < today {
        answer.more.push(format!("The gift day, {}, is past.", format.weekday_date(gift, today)));
        return;
    }
    let day = format.spoken_day(gift, today);
    let words = chance_words(chance);
    if matches!(projection.state, State::Resting { .. }) {
        answer.more.push(match words.as_str() {
            sure @ ("almost surely" | "hardly at all") => {
                let sure = if sure == "almost surely" { "almost surely" } else { "hardly" };
                format!("Then it would {sure} be finished for {day}.")
            }
            words => format!("Then, finished by {day}: {words}."),
        });
        return;
    }
    answer.standing = match chance {
        c if c >= WELL => Standing::Well,
        c if c >= CLOSE => Standing::Close,
        _ => Standing::Short,
    };
    answer.more.push(match words.as_str() {
        "almost surely" => format!("It will almost surely be finished for {day}."),
        "hardly at all" => format!("It will hardly be finished for {day}."),
        words => format!("Finished by {day}: {words}."),
    });
    // Where only finishing is left, nothing done at the loom would bring the day nearer.
    if chance >= WELL || matches!(projection.state, State::ReadyToCutOff | State::Finishing { .. }) {
        return;
    }
    let Ok(need) = projection.need(Goal::Finished, gift, SURE_ENOUGH) else { return };
    let mut ways: Vec<String> = more_at_a_time(&need, projection, measure, format).into_iter().collect();
    ways.extend(more_often(&need, log, format));
    if let Some(fewer) = need.picks_fewer.filter(|fewer| *fewer > 0.0) {
        ways.extend(less_to_weave(progress, fewer / measure.per_mm, format));
    }
    answer.more.push(if ways.is_empty() {
        let pace = match projection.reasons.basis {
            Basis::CommonPractice => "As weaving commonly goes",
            Basis::EarlierWarps => "At the pace of your earlier warps",
            Basis::OwnSittings => "At your pace so far",
        };
        format!("{pace} nothing would make that day likely; think of another day or another gift.")
    } else {
        format!("To be four times in five in time: {}.", ways.join("; or "))
    });
}

/// The next step up, and the figure as it is now; a step apart at least, so that what is advised is more.
fn stepped(needed: f64, usual: f64, step: f64) -> (f64, f64) {
    let usual = ((usual / step).round() * step).max(step);
    (((needed / step - 1e-6).ceil() * step).max(usual + step), usual)
}

/// Longer sittings, to five minutes; where none was timed, more picks.
fn more_at_a_time(need: &Need, projection: &Projection, measure: Measure, format: &DisplayFormat) -> Option<String> {
    if let (Some(minutes), Some(usual)) = (need.minutes_a_day, need.usual_minutes_a_day) {
        let (minutes, usual) = stepped(minutes, usual, 5.0);
        return (minutes <= LONGEST_ADVISED_MINUTES)
            .then(|| format!("{minutes:.0} minutes a time instead of some {usual:.0}"));
    }
    let (times, picks) = (need.times?, need.picks_a_day?);
    // Five picks, or a centimetre.
    let step = if measure.lengths { 10.0 * measure.per_mm } else { 5.0 };
    let (more, usual) = stepped(picks, projection.reasons.picks_a_day, step);
    (times <= MOST_TIMES_ADVISED).then(|| {
        let usual = measure.words(usual, format);
        format!("{} a time instead of some {}", measure.words(more, format), usual.trim_end_matches(" picks"))
    })
}

/// More weaving days, to half a day; never more of them than she says she has.
fn more_often(need: &Need, log: &WarpLog, format: &DisplayFormat) -> Option<String> {
    let usual = need.usual_days_a_week;
    let days = need.days_a_week.filter(|days| *days > usual)?;
    let most = log.warp.said.weekdays.map_or(7.0, |week| week.iter().filter(|on| **on).count() as f64);
    let seldom = (usual < SELDOM_DAYS_A_WEEK).then(|| (7.0 / usual).round());
    if let Some(between) = seldom.filter(|_| days < SELDOM_DAYS_A_WEEK) {
        let needed = (7.0 / days + 1e-6).floor().min(between - 1.0);
        return (days <= most).then(|| format!("a sitting every {needed:.0} days instead of every {between:.0}"));
    }
    let (days, usual) = stepped(days, usual, 0.5);
    let more = if days < 7.0 { format!("{} days a week", format.number(days, 1)) } else { "every day".into() };
    let instead = match seldom {
        Some(between) => format!("a sitting every {between:.0} days"),
        None if days < 7.0 => format.number(usual, 1),
        None => format!("{} days a week", format.number(usual, 1)),
    };
    (days <= most).then(|| format!("{more} instead of {instead}"))
}

/// A shorter piece, or so many pieces fewer. What is woven stays woven.
fn less_to_weave(progress: &Progress, fewer_mm: f64, format: &DisplayFormat) -> Vec<String> {
    let Some(wanted) = progress.wanted_mm.filter(|mm| *mm > 0.0) else { return Vec::new() };
    let to_weave = wanted - progress.woven_mm();
    let mut ways: Vec<String> = shorter(progress, fewer_mm, to_weave, format)
        .filter(|_| 1.0 - fewer_mm / wanted >= SHORTEST_ADVISED_SHARE)
        .into_iter()
        .collect();
    // So many of the last pieces left out: where enough is left out, and nothing that is woven.
    let enough = wanted - fewer_mm;
    let ends = &progress.piece_ends_mm;
    let remain = ends.iter().filter(|end| **end <= enough + 1e-6).count();
    let last = remain.checked_sub(1).and_then(|last| ends.get(last));
    if progress.pieces > 1 && last.is_some_and(|end| *end >= progress.woven_mm() - HARDLY_MM) {
        let left_out = i64::from(progress.pieces) - i64::try_from(remain).unwrap_or(0);
        ways.push(format!("{} {} fewer", small_number(left_out), if left_out > 1 { "pieces" } else { "piece" }));
    }
    ways
}

fn shorter(progress: &Progress, fewer_mm: f64, to_weave_mm: f64, format: &DisplayFormat) -> Option<String> {
    let length = |mm: f64| show_length(mm, format);
    if progress.pieces <= 1 {
        return Some(if to_weave_mm - fewer_mm < HARDLY_MM {
            format!("ending it where it is, {} shorter", length(to_weave_mm))
        } else {
            format!("{} shorter", length(fewer_mm))
        });
    }
    let (index, from, to) = progress.piece_at(progress.woven_mm())?;
    let still = progress.piece_ends_mm.len().saturating_sub(index);
    let each = fewer_mm / still.max(1) as f64;
    // The piece that is begun can only be ended where it is, or later.
    let room = (to - from) - (progress.woven_mm() - from).max(0.0);
    if !progress.pieces_are_alike() || each > room {
        return Some(format!("{} shorter in all", length(fewer_mm)));
    }
    let which = match (index, still) {
        (0, _) => "each piece".to_owned(),
        (_, 1) => "the last piece".to_owned(),
        (_, still) => format!("each of the {} pieces still to be woven", small_number(still as i64)),
    };
    Some(format!("{which} {} shorter", length(each)))
}

//! The picture of the days: what was woven day by day, and the fan to the end.

use chrono::NaiveDate;
use fellmark_projection::{Note, Projection};

use crate::dates::DateText;
use crate::view::{DayPoint, DayTick, DaysPicture, FanPoint};
use fellmark_model::WarpLog;
use fellmark_model::display_format::DisplayFormat;
use fellmark_reports::progress::Progress;

/// Points of the fan.
const FAN_POINTS: usize = 40;
/// A gift day that lies so many times as far ahead as the rest of the picture is long would leave no room for it.
const FARTHEST_GIFT_TIMES: i64 = 3;
/// A picture of fewer days than this has room for more.
const FEWEST_DAYS: i64 = 60;

/// From the projection's picks to shares of the whole, so that today's is the share of cloth that "where am I" shows.
///
/// The projection guesses a sitting of which nothing is known, and leaves out the one that goes on and what is dated after today: its
/// sum need not be what is woven.
struct Shares {
    now: f64,
    now_picks: f64,
    left_picks: f64,
    /// What is dated after today, or being woven, is cloth all the same: the line rises to it today.
    left_out: bool,
}

impl Shares {
    fn of(progress: &Progress, projection: &Projection) -> Self {
        let future = projection.notes.iter().any(|note| matches!(note, Note::FutureSittings { .. }));
        Self {
            now: progress.share(),
            now_picks: projection.woven.last().map_or(0.0, |(_, picks)| *picks),
            left_picks: projection.reasons.picks_left.max(0.0),
            left_out: future || progress.running_picks != 0,
        }
    }

    fn past(&self, picks: f64) -> f64 {
        if self.left_out || self.now_picks <= 0.0 {
            let whole = if self.now < 1.0 { self.left_picks / (1.0 - self.now) } else { self.now_picks };
            return if whole > 0.0 { (picks / whole).clamp(0.0, 1.0) } else { 0.0 };
        }
        (picks / self.now_picks * self.now).clamp(0.0, 1.0)
    }

    fn to_come(&self, picks: f64) -> f64 {
        let part = if self.left_picks > 0.0 { (picks - self.now_picks) / self.left_picks } else { 0.0 };
        (self.now + part * (1.0 - self.now)).clamp(0.0, 1.0)
    }
}

/// The picture runs from the first sitting to the late end of the span, the gift day included. Without a date (`dated`) it shows
/// what was woven, and nothing to come.
pub(super) fn picture(
    (log, progress): (&WarpLog, &Progress),
    projection: &Projection,
    dated: bool,
    format: &DisplayFormat,
    today: NaiveDate,
) -> Option<DaysPicture> {
    progress.wanted_mm.filter(|mm| *mm > 0.0)?;
    if !dated && projection.woven.is_empty() {
        return None;
    }
    let shares = Shares::of(progress, projection);
    let from = projection.woven.first().map_or(today, |(day, _)| *day).min(today);
    let offset = |day: NaiveDate| (day - from).num_days();
    let span = &projection.finished.quantiles;
    let end = if dated { span.p90.max(today) } else { today };
    let gift = log.warp.gift_on.filter(|day| *day >= from);
    let room = offset(end).max(FEWEST_DAYS) * FARTHEST_GIFT_TIMES;
    let (gift, beyond) = (gift.filter(|day| offset(*day) <= room), gift.filter(|day| offset(*day) > room));
    let to = end.max(gift.unwrap_or(end));
    let mut woven: Vec<DayPoint> = projection
        .woven
        .iter()
        .map(|(day, picks)| DayPoint { day: offset(*day), share: shares.past(*picks) })
        .collect();
    if woven.last().is_some_and(|last| (last.share - shares.now).abs() > 1e-9) || shares.left_out {
        woven.push(DayPoint { day: offset(today), share: shares.now });
    }
    let fan = if dated { projection.fan_chart(FAN_POINTS) } else { Vec::new() };
    let fan = fan.into_iter().map(|point| FanPoint {
        day: offset(point.day),
        low: shares.to_come(point.p10),
        likely: shares.to_come(point.p50),
        high: shares.to_come(point.p90),
    });
    let mut ticks: Vec<DayTick> = Vec::new();
    let mut tick = |day: NaiveDate, label: String| ticks.push(DayTick { day: offset(day), label });
    tick(from, format.date(from, today));
    if today != from {
        tick(today, "today".into());
    }
    let mut text = format!("{} per cent woven by today", format.number(shares.now * 100.0, 0));
    if dated {
        let likely = format.date(span.p50, today);
        text += &if span.p10 == span.p90 {
            format!("; finished {likely}, nearly surely")
        } else {
            let between = format.between(span.p10, span.p90, today);
            format!("; finished likely {likely}, four times in five {between}")
        };
        tick(span.p50, format!("likely {likely}"));
    }
    if let Some(gift) = gift {
        tick(gift, format!("gift day {}", format.date(gift, today)));
    }
    text += ".";
    if let Some(gift) = beyond {
        text += &format!(" The gift day, {}, lies beyond the picture.", format.date(gift, today));
    }
    Some(DaysPicture {
        from: from.to_string(),
        days: offset(to) + 1,
        today: offset(today),
        woven,
        fan: fan.collect(),
        gift: gift.map(offset),
        ticks,
        text,
    })
}

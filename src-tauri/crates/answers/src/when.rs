//! When will it be done: the projection's answer in words, and the picture of its days.

use chrono::{Datelike, NaiveDate};
use fellmark_projection::{Goal, Note, Outlook, Projection, Question, QuestionError, State, project};

use crate::finishing;
use crate::kinds::{Along, Woven};
use crate::manner::{Manner, Units};
use crate::measures::{show_length, show_minutes};
use crate::model::WarpLog;
use crate::progress::Progress;
use crate::reckoned::History;
use crate::view::{Answer, DayPoint, DayTick, DaysPicture, FanPoint, Figures, Standing, WarpState};

/// A chance from which a gift day counts as safe, and below which it does not.
const WELL: f64 = 0.8;
const CLOSE: f64 = 0.4;
/// The chance asked for when saying what it would take.
const SURE_ENOUGH: f64 = 0.8;
/// No one is told to weave longer than this at a time, minutes: it strains (see the caution at the loom).
const LONGEST_ADVISED_MINUTES: f64 = 180.0;
/// Share of the length wanted that must remain where a shorter piece is advised: what is left of a scarf then is still one.
const SHORTEST_ADVISED_SHARE: f64 = 0.5;
/// Points of the fan.
const FAN_POINTS: usize = 40;

/// Winding and threading a rigid heddle: one weaver's itemised account; the practised report 20 to 30 minutes.
pub(crate) const SET_UP_MINUTES: f64 = 90.0;

/// Minutes of set-up still to be done: a warp that was planned is begun before it is wound, and on the loom by its first sitting. One
/// begun without a plan is on the loom already.
fn set_up_minutes(log: &WarpLog, progress: &Progress) -> f64 {
    let woven_on = !log.sittings.is_empty() || log.running.is_some() || progress.picks != 0;
    if log.warp.planned_hours.is_some() && !woven_on { SET_UP_MINUTES } else { 0.0 }
}

/// What the projection of a warp is asked; nothing when it is not known how much is to be woven.
#[must_use]
pub fn question(log: &WarpLog, progress: &Progress, history: &History, today: NaiveDate) -> Option<Question> {
    let warp = &log.warp;
    let picks_left = progress.to_weave_picks?;
    let along = Along::of(warp);
    let history = history.without(&warp.id);
    Some(Question {
        today,
        sittings: along.sittings(Woven::all(log, progress)),
        left: along.left(progress.picks as f64, picks_left, progress.to_weave_picks_sd),
        earlier: history.earlier.clone(),
        availability: warp.said.for_projection(warp.days_a_week),
        finishing: finishing::still_to_do(log, &history.waits),
        plan_hours: warp.planned_hours,
        set_up_minutes: set_up_minutes(log, progress),
        gift_day: warp.gift_on,
        resting_since: (warp.state == WarpState::Resting).then(|| warp.state_on.unwrap_or(today)),
        cut_off: (warp.state == WarpState::OffTheLoom).then(|| warp.state_on.unwrap_or(today)),
    })
}

/// The answer, its figures and its picture.
pub struct When {
    /// In words.
    pub answer: Answer,
    /// Day by day.
    pub days: Option<DaysPicture>,
}

/// When a warp will be done, before it is told.
#[derive(Debug)]
pub enum Projected {
    /// All of it is done, since this day.
    Done(NaiveDate),
    /// It is not known how much is to be woven.
    Unknown,
    /// The projection, or why there is none.
    Asked(Result<Box<Projection>, QuestionError>),
}

/// Projects when a warp will be done.
#[must_use]
pub fn projected(log: &WarpLog, progress: &Progress, history: &History, today: NaiveDate) -> Projected {
    if log.warp.state == WarpState::OffTheLoom
        && let Some(day) = finishing::finished_on(log)
    {
        return Projected::Done(day);
    }
    match question(log, progress, history, today) {
        Some(question) => Projected::Asked(project(&question).map(Box::new)),
        None => Projected::Unknown,
    }
}

/// The first sentence of the answer alone, as a list shows it.
#[must_use]
pub fn headline(
    log: &WarpLog,
    progress: &Progress,
    projected: &Projected,
    manner: &Manner,
    today: NaiveDate,
) -> String {
    match projected {
        Projected::Done(day) => finished(log, *day, manner, today).headline,
        Projected::Unknown => unknown(progress).headline,
        Projected::Asked(Ok(projection)) => likely(projection, manner, today),
        Projected::Asked(Err(error)) => refused(error).headline,
    }
}

/// Answers when a warp will be done, and fills in its figures.
#[must_use]
pub fn answer(
    log: &WarpLog,
    progress: &Progress,
    projected: &Projected,
    manner: &Manner,
    today: NaiveDate,
    figures: &mut Figures,
) -> When {
    figures.gift_on = log.warp.gift_on.map(|day| day.to_string());
    match projected {
        Projected::Done(day) => When { answer: finished(log, *day, manner, today), days: None },
        Projected::Unknown => When { answer: unknown(progress), days: None },
        Projected::Asked(Ok(projection)) => told(log, progress, projection, manner, today, figures),
        Projected::Asked(Err(error)) => When { answer: refused(error), days: None },
    }
}

/// All of it is done.
fn finished(log: &WarpLog, day: NaiveDate, manner: &Manner, today: NaiveDate) -> Answer {
    let mut answer = Answer {
        headline: format!("Finished {}.", manner.spoken_day(day, today)),
        standing: Standing::Well,
        ..Answer::default()
    };
    if let Some(gift) = log.warp.gift_on {
        let day_of = manner.weekday_date(gift, today);
        answer.more.push(if day <= gift { format!("In time for {day_of}.") } else { format!("After {day_of}.") });
    }
    answer.why.push("Every finishing step is ticked; the last tick is the day.".into());
    answer
}

fn unknown(progress: &Progress) -> Answer {
    let missing = if progress.wanted_mm.is_none() { "the length wanted" } else { "the picks per length" };
    Answer {
        headline: format!("There is no date yet: {missing} is not known."),
        more: vec![format!("Give {missing} under \u{201c}change the warp\u{201d}.")],
        ..Answer::default()
    }
}

fn refused(error: &QuestionError) -> Answer {
    let mut sentence = error.to_string();
    if let Some(first) = sentence.chars().next() {
        sentence.replace_range(..first.len_utf8(), &first.to_uppercase().to_string());
    }
    Answer {
        headline: "There is no date: one entry cannot be right.".into(),
        more: vec![format!("{sentence}.")],
        ..Answer::default()
    }
}

/// The likely day, or how things stand instead.
fn likely(projection: &Projection, manner: &Manner, today: NaiveDate) -> String {
    let spoken = |day: NaiveDate| manner.spoken_day(day, today);
    let finished = &projection.finished;
    match projection.state {
        State::NotBegun | State::Running => format!("Likely done {}.", spoken(finished.span.p50)),
        State::ReadyToCutOff => format!("Ready to cut off; likely finished {}.", spoken(finished.span.p50)),
        State::Finishing { .. } if finished.span.p90 <= today => "Off the loom, and likely finished by now.".into(),
        State::Finishing { .. } => format!("Off the loom; likely finished {}.", spoken(finished.span.p50)),
        State::Resting { since } => format!("Resting since {}, so there is no date.", manner.date(since, today)),
        State::NotAtThisPace => "Not within three years at this pace.".into(),
    }
}

fn told(
    log: &WarpLog,
    progress: &Progress,
    projection: &Projection,
    manner: &Manner,
    today: NaiveDate,
    figures: &mut Figures,
) -> When {
    let spoken = |day: NaiveDate| manner.spoken_day(day, today);
    let date = |day: NaiveDate| manner.date(day, today);
    let dated =
        matches!(projection.state, State::NotBegun | State::Running | State::ReadyToCutOff | State::Finishing { .. });
    if dated {
        fill(figures, projection);
    }
    let mut answer = Answer { standing: Standing::Well, ..Answer::default() };
    let finished = &projection.finished;
    answer.headline = likely(projection, manner, today);
    match projection.state {
        State::NotBegun | State::Running => {
            answer.more.push(span_words(finished, manner, today));
            answer.more.push(format!(
                "Off the loom likely {}; fringe or hem, washing and drying come after.",
                spoken(projection.off_loom.span.p50)
            ));
        }
        State::ReadyToCutOff | State::Finishing { .. } => {
            if finished.span.p10 != finished.span.p90 {
                answer.more.push(span_words(finished, manner, today));
            }
        }
        State::Resting { .. } => {
            answer.standing = Standing::Open;
            answer.more.push(format!("Taken up today it would likely be done {}.", spoken(finished.span.p50)));
        }
        State::NotAtThisPace => answer.standing = Standing::Short,
    }
    if matches!(projection.state, State::NotBegun) {
        answer.standing = Standing::Open;
    }
    if let (Some(gift), Some(chance)) = (log.warp.gift_on, projection.gift_chance) {
        figures.gift_chance = dated.then_some(chance);
        gift_words(&mut answer, progress, projection, (gift, chance), manner, today);
    }
    // Days of two years each name theirs.
    let told = match projection.state {
        State::ReadyToCutOff | State::Finishing { .. } => &projection.finished.span,
        _ => &projection.off_loom.span,
    };
    let reference = if told.p10.year() == told.p90.year() { today } else { NaiveDate::MIN };
    answer.why.push(projection.sentence(&|day| manner.date(day, reference)));
    answer.why.push(reckoning(progress, projection, manner));
    answer.why.extend(log.warp.said.in_words(manner, today));
    if set_up_minutes(log, progress) > 0.0 {
        answer.why.push(set_up_words());
    }
    answer.why.push(finishing_words(log));
    for note in &projection.notes {
        let sentence = note.sentence(&date);
        match note {
            Note::AskResting { .. } | Note::AskDaysAWeek | Note::FutureSittings { .. } | Note::FastSitting { .. } => {
                answer.more.push(sentence);
            }
            _ => answer.why.push(sentence),
        }
    }
    let days = dated.then(|| picture(log, progress, projection, manner, today)).flatten();
    When { answer, days }
}

/// What comes before the first pick.
pub(crate) fn set_up_words() -> String {
    format!(
        "{} for winding and threading (one weaver\u{2019}s account; the practised take 20 to 30\u{a0}min).",
        show_minutes(SET_UP_MINUTES)
    )
}

/// What comes after the last pick.
fn finishing_words(log: &WarpLog) -> String {
    let steps = finishing::still_to_do(log, &[]);
    let names: Vec<String> = steps.iter().map(|step| step.name.to_lowercase()).collect();
    match names.as_slice() {
        [] => "Nothing is left to do after the last pick.".into(),
        [one] => format!("After the last pick comes {one}."),
        [first @ .., last] => format!(
            "After the last pick come {} and {last}: two days most often by common practice; your own finished warps count as \
             they come.",
            first.join(", ")
        ),
    }
}

fn fill(figures: &mut Figures, projection: &Projection) {
    let (off, finished) = (&projection.off_loom.span, &projection.finished.span);
    figures.off_loom_likely = Some(off.p50.to_string());
    figures.off_loom_span = Some([off.p10.to_string(), off.p90.to_string()]);
    figures.finished_likely = Some(finished.p50.to_string());
    figures.finished_span = Some([finished.p10.to_string(), finished.p90.to_string()]);
}

/// "give or take four days" where the span is even, else both ends.
pub(crate) fn span_words(outlook: &Outlook, manner: &Manner, today: NaiveDate) -> String {
    let span = &outlook.span;
    let (before, after) = ((span.p50 - span.p10).num_days(), (span.p90 - span.p50).num_days());
    if after == 0 && before == 0 {
        return "That is nearly sure.".into();
    }
    if (before - after).abs() <= 1 && after <= 10 {
        let days = before.max(after);
        let unit = if days == 1 { "day" } else { "days" };
        return format!("Give or take {} {unit}, four times in five.", small_number(days));
    }
    format!("Four times in five {}.", manner.between(span.p10, span.p90, today))
}

fn small_number(number: i64) -> String {
    const WORDS: [&str; 13] =
        ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];
    usize::try_from(number)
        .ok()
        .and_then(|n| WORDS.get(n))
        .map_or_else(|| number.to_string(), |word| (*word).to_owned())
}

/// A chance as people say it.
#[must_use]
pub fn chance_words(chance: f64) -> String {
    if chance >= 0.985 {
        "almost surely".into()
    } else if chance <= 0.015 {
        "hardly at all".into()
    } else {
        format!("{:.0} times in 100", (chance * 100.0).round())
    }
}

fn gift_words(
    answer: &mut Answer,
    progress: &Progress,
    projection: &Projection,
    (gift, chance): (NaiveDate, f64),
    manner: &Manner,
    today: NaiveDate,
) {
    let day = manner.weekday_date(gift, today);
    if gift < today {
        answer.more.push(format!("The gift day, {day}, is past."));
        return;
    }
    if matches!(projection.state, State::Resting { .. }) {
        return;
    }
    answer.standing = match chance {
        c if c >= WELL => Standing::Well,
        c if c >= CLOSE => Standing::Close,
        _ => Standing::Short,
    };
    answer.more.push(match chance_words(chance).as_str() {
        "almost surely" => format!("It will almost surely be finished for {day}."),
        "hardly at all" => format!("It will hardly be finished for {day}."),
        words => format!("Finished by {day}: {words}."),
    });
    if chance >= WELL {
        return;
    }
    let Ok(need) = projection.need(Goal::Finished, gift, SURE_ENOUGH) else { return };
    let mut ways = Vec::new();
    if let (Some(minutes), Some(usual)) = (need.minutes_a_day, need.usual_minutes_a_day)
        && minutes <= LONGEST_ADVISED_MINUTES
    {
        ways.push(format!("{minutes:.0} minutes a time instead of some {usual:.0}"));
    }
    if let Some(days) = need.days_a_week.filter(|days| *days > need.usual_days_a_week) {
        ways.push(format!(
            "{} days a week instead of {}",
            manner.number(days, 1),
            manner.number(need.usual_days_a_week, 1)
        ));
    }
    if let (Some(fewer), Some(per_mm)) = (need.picks_fewer, progress.picks_per_mm)
        && fewer > 0.0
        && per_mm > 0.0
    {
        let remains = progress.wanted_mm.map_or(1.0, |wanted| 1.0 - fewer / per_mm / wanted);
        let pieces = f64::from(progress.pieces.max(1));
        let alike = progress.pieces_are_alike();
        let shorter = show_length(fewer / per_mm / if alike { pieces } else { 1.0 }, manner);
        ways.extend((remains >= SHORTEST_ADVISED_SHARE).then(|| match (progress.pieces, alike) {
            (1, _) => format!("{shorter} shorter"),
            (_, true) => format!("each piece {shorter} shorter"),
            (_, false) => format!("{shorter} shorter in all"),
        }));
        // So many of the last pieces left out: where enough is left out, and a piece remains.
        let enough = progress.wanted_mm.map(|wanted| wanted - fewer / per_mm);
        let remain = enough.map_or(0, |mm| progress.piece_ends_mm.iter().filter(|end| **end <= mm + 1e-6).count());
        if progress.pieces > 1 && remain > 0 {
            let left_out = i64::from(progress.pieces) - i64::try_from(remain).unwrap_or(0);
            ways.push(format!("{} {} fewer", small_number(left_out), if left_out > 1 { "pieces" } else { "piece" }));
        }
    }
    answer.more.push(if ways.is_empty() {
        "At your pace so far nothing would make that day likely; think of another day or another gift.".into()
    } else {
        format!("To be four times in five in time: {}.", ways.join("; or "))
    });
}

/// "40 cm to weave x 31 picks per 10 cm = 124 picks".
fn reckoning(progress: &Progress, projection: &Projection, manner: &Manner) -> String {
    let left = projection.reasons.picks_left;
    let Some(per_mm) = progress.picks_per_mm else { return format!("{left:.0} picks are still to weave.") };
    let density = match manner.units {
        Units::Metric => format!("{} picks per 10\u{a0}cm", manner.number(per_mm * 100.0, 1)),
        Units::Imperial => format!("{} picks per inch", manner.number(per_mm * 25.4, 2)),
    };
    format!("{} to weave \u{d7} {density} = {left:.0} picks.", show_length(progress.to_weave_mm.unwrap_or(0.0), manner))
}

/// The picture runs from the first sitting to the late end of the span, the gift day included.
fn picture(
    log: &WarpLog,
    progress: &Progress,
    projection: &Projection,
    manner: &Manner,
    today: NaiveDate,
) -> Option<DaysPicture> {
    let done = projection.woven.last().map_or(0.0, |(_, picks)| *picks);
    let whole = done + projection.reasons.picks_left.max(0.0);
    if whole <= 0.0 {
        return None;
    }
    let from = projection.woven.first().map_or(today, |(day, _)| *day).min(today);
    let gift = log.warp.gift_on.filter(|day| *day >= from);
    let span = &projection.finished.span;
    let to = span.p90.max(today).max(gift.unwrap_or(today));
    let offset = |day: NaiveDate| (day - from).num_days();
    let share = |picks: f64| (picks / whole).clamp(0.0, 1.0);
    let woven =
        projection.woven.iter().map(|(day, picks)| DayPoint { day: offset(*day), share: share(*picks) }).collect();
    let fan = projection
        .fan(FAN_POINTS)
        .into_iter()
        .map(|point| FanPoint {
            day: offset(point.day),
            low: share(point.p10),
            likely: share(point.p50),
            high: share(point.p90),
        })
        .collect();
    let mut ticks: Vec<DayTick> = Vec::new();
    let mut tick = |day: NaiveDate, label: String| ticks.push(DayTick { day: offset(day), label });
    tick(from, manner.date(from, today));
    if today != from {
        tick(today, "today".into());
    }
    tick(span.p50, format!("likely {}", manner.date(span.p50, today)));
    if let Some(gift) = gift {
        tick(gift, format!("gift day {}", manner.date(gift, today)));
    }
    let percent = share(done) * 100.0;
    Some(DaysPicture {
        from: from.to_string(),
        days: offset(to) + 1,
        today: offset(today),
        woven,
        fan,
        gift: gift.map(offset),
        ticks,
        text: format!(
            "{} per cent woven by today; finished likely {}, four times in five {}.",
            manner.number(percent, 0),
            manner.date(span.p50, today),
            manner.between(span.p10, span.p90, today)
        ),
    })
    .filter(|_| progress.wanted_mm.is_some())
}

#[cfg(test)]
mod tests;

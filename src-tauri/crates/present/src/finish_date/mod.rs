//! When a warp will be done, in words: the answer, its figures and the picture of its days.

mod before_weaving;
mod days_picture;
mod gift_day;
mod projection;
mod why;

use chrono::{Datelike, NaiveDate};
use fellmark_projection::{DateDistribution, Note, Projection, ProjectionState, QuestionError};

use crate::dates::DateText;
use crate::figures::{show_length, show_minutes};
use crate::lists_and_numbers::{capital, small_number};
use crate::view::{Answer, DaysPicture, Figures, Standing};
use fellmark_model::WarpLog;
use fellmark_model::display_format::DisplayFormat;
use fellmark_reports::finish_date::{FinishDate, Measure, SET_UP_MINUTES, set_up_minutes};
use fellmark_reports::progress::Progress;

pub(crate) use before_weaving::{answer as before_weaving_answer, rounded_hours, speed_words};
pub use projection::{AmountWriter, DateWriter, in_picks, kind_words, note_sentence, projection_sentence};

/// A chance from which a gift day counts as safe, and below which it does not.
const WELL: f64 = 0.8;
const CLOSE: f64 = 0.4;

/// The answer, its figures and its picture.
pub struct FinishDateView {
    /// In words.
    pub answer: Answer,
    /// Day by day.
    pub days: Option<DaysPicture>,
}

/// The first sentence of the answer alone, as a list shows it.
#[must_use]
pub fn headline(
    log: &WarpLog,
    progress: &Progress,
    finish_date: &FinishDate,
    format: &DisplayFormat,
    today: NaiveDate,
) -> String {
    match finish_date {
        FinishDate::Done(day) => finished(log, *day, format, today).headline,
        FinishDate::Unknown => unknown(progress).headline,
        FinishDate::BeforeWeaving(before) => before_weaving::headline(before, format, today),
        FinishDate::Projected(Ok(projection)) => likely(projection, format, today),
        FinishDate::Projected(Err(error)) => refused(error).headline,
    }
}

/// Answers when a warp will be done, and fills in its figures.
#[must_use]
pub fn answer(
    log: &WarpLog,
    progress: &Progress,
    finish_date: &FinishDate,
    format: &DisplayFormat,
    today: NaiveDate,
    figures: &mut Figures,
) -> FinishDateView {
    figures.gift_on = log.warp.gift_on.map(|day| day.to_string());
    match finish_date {
        FinishDate::Done(day) => FinishDateView { answer: finished(log, *day, format, today), days: None },
        FinishDate::Unknown => FinishDateView { answer: unknown(progress), days: None },
        FinishDate::BeforeWeaving(before) => {
            before_weaving::fill(figures, before);
            let mut answer =
                before_weaving::answer(before, before_weaving::headline(before, format, today), format, today);
            answer.why.extend(availability_words_of(log, format, today));
            FinishDateView { answer, days: None }
        }
        FinishDate::Projected(Ok(projection)) => projected_view(log, progress, projection, format, today, figures),
        FinishDate::Projected(Err(error)) => FinishDateView { answer: refused(error), days: None },
    }
}

/// All of it is done.
fn finished(log: &WarpLog, day: NaiveDate, format: &DisplayFormat, today: NaiveDate) -> Answer {
    let mut answer = Answer {
        headline: format!("Finished {}.", format.spoken_day(day, today)),
        standing: Standing::Well,
        ..Answer::default()
    };
    if let Some(gift) = log.warp.gift_on {
        let day_of = format.weekday_date(gift, today);
        answer.more.push(if day <= gift {
            format!("In time for the gift day, {day_of}.")
        } else {
            format!("After the gift day, {day_of}.")
        });
    }
    answer.why.push("Every finishing step is ticked; the last tick is the day.".into());
    answer
}

fn unknown(progress: &Progress) -> Answer {
    let (missing, give) = if progress.wanted_mm.is_none() {
        ("the length wanted is", "Give the length wanted under \u{201c}change the warp\u{201d}.")
    } else {
        (
            "the picks per length are",
            "Measure the cloth once, or give the picks per length under \u{201c}change the warp\u{201d}.",
        )
    };
    Answer {
        headline: format!("There is no date yet: {missing} not known."),
        more: vec![give.into()],
        ..Answer::default()
    }
}

fn refused(error: &QuestionError) -> Answer {
    let sentence = capital(&error.to_string());
    Answer {
        headline: "There is no date: one entry cannot be right.".into(),
        more: vec![format!("{sentence}.")],
        ..Answer::default()
    }
}

/// The likely day, or how things stand instead.
fn likely(projection: &Projection, format: &DisplayFormat, today: NaiveDate) -> String {
    let spoken = |day: NaiveDate| format.spoken_day(day, today);
    let finished = &projection.finished;
    match projection.state {
        ProjectionState::NotBegun | ProjectionState::Running => {
            format!("Likely done {}.", spoken(finished.quantiles.p50))
        }
        ProjectionState::ReadyToCutOff => {
            format!("Ready to cut off; likely finished {}.", spoken(finished.quantiles.p50))
        }
        ProjectionState::Finishing { .. } if finished.quantiles.p90 <= today => {
            "Off the loom, and likely finished by now.".into()
        }
        ProjectionState::Finishing { .. } => {
            format!("Off the loom; likely finished {}.", spoken(finished.quantiles.p50))
        }
        ProjectionState::Resting { since } => {
            format!("Resting since {}, so there is no date.", format.date(since, today))
        }
        ProjectionState::NotAtThisPace => "Not within three years at this pace.".into(),
    }
}

fn projected_view(
    log: &WarpLog,
    progress: &Progress,
    projection: &Projection,
    format: &DisplayFormat,
    today: NaiveDate,
    figures: &mut Figures,
) -> FinishDateView {
    let spoken = |day: NaiveDate| format.spoken_day(day, today);
    let date = |day: NaiveDate| format.date(day, today);
    let dated = matches!(
        projection.state,
        ProjectionState::NotBegun
            | ProjectionState::Running
            | ProjectionState::ReadyToCutOff
            | ProjectionState::Finishing { .. }
    );
    if dated {
        fill(figures, projection);
    }
    let mut answer = Answer { standing: Standing::Well, ..Answer::default() };
    let finished = &projection.finished;
    answer.headline = likely(projection, format, today);
    match projection.state {
        ProjectionState::NotBegun | ProjectionState::Running => {
            answer.more.push(span_words(finished, format, today));
            answer.more.push(format!(
                "Off the loom likely {}; fringe or hem, washing and drying come after.",
                spoken(projection.off_loom.quantiles.p50)
            ));
        }
        ProjectionState::ReadyToCutOff | ProjectionState::Finishing { .. } => {
            if finished.quantiles.p10 != finished.quantiles.p90 {
                answer.more.push(span_words(finished, format, today));
            }
        }
        ProjectionState::Resting { .. } => {
            answer.standing = Standing::Open;
            answer.more.push(if projection.beyond_three_years {
                "Taken up today it would not be done within three years at this pace.".into()
            } else {
                format!("Taken up today it would likely be done {}.", spoken(finished.quantiles.p50))
            });
        }
        ProjectionState::NotAtThisPace => answer.standing = Standing::Short,
    }
    if matches!(projection.state, ProjectionState::NotBegun) {
        answer.standing = Standing::Open;
    }
    if let (Some(gift), Some(chance)) = (log.warp.gift_on, projection.gift_chance) {
        figures.gift_chance = dated.then_some(chance);
        gift_day::gift_words(&mut answer, (log, progress), projection, (gift, chance), format, today);
    }
    // Days of two years each name theirs.
    let shown = match projection.state {
        ProjectionState::ReadyToCutOff | ProjectionState::Finishing { .. } => &projection.finished.quantiles,
        _ => &projection.off_loom.quantiles,
    };
    let reference = if shown.p10.year() == shown.p90.year() { today } else { NaiveDate::MIN };
    let amount = |picks: f64| amount_words(Measure::for_progress(progress), picks, format);
    answer.why.push(projection_sentence(projection, &|day| format.date(day, reference), &amount));
    answer.why.extend(why::picks_to_weave(progress, projection, format));
    answer.why.extend(why::paces(progress, projection));
    answer.why.extend(availability_words_of(log, format, today));
    if set_up_minutes(log, progress) > 0.0 {
        answer.why.push(set_up_words());
    }
    answer.why.push(why::finishing_words(log, projection));
    for note in &projection.notes {
        let sentence = note_sentence(note, &date, &amount);
        match note {
            Note::AskResting { .. } | Note::AskDaysAWeek | Note::FutureSittings { .. } | Note::FastSitting { .. } => {
                answer.more.push(sentence);
            }
            _ => answer.why.push(sentence),
        }
    }
    let days = days_picture::picture((log, progress), projection, dated, format, today);
    FinishDateView { answer, days }
}

fn availability_words_of(log: &WarpLog, format: &DisplayFormat, today: NaiveDate) -> Option<String> {
    let warp = &log.warp;
    crate::availability::availability_words(&warp.said, warp.days_a_week, warp.minutes_a_day, format, today)
}

/// What comes before the first pick.
pub(crate) fn set_up_words() -> String {
    format!(
        "{} for winding and threading (one weaver\u{2019}s account; the practised take 20 to 30\u{a0}min).",
        show_minutes(SET_UP_MINUTES)
    )
}

fn fill(figures: &mut Figures, projection: &Projection) {
    let (off, finished) = (&projection.off_loom.quantiles, &projection.finished.quantiles);
    figures.off_loom_likely = Some(off.p50.to_string());
    figures.off_loom_span = Some([off.p10.to_string(), off.p90.to_string()]);
    figures.finished_likely = Some(finished.p50.to_string());
    figures.finished_span = Some([finished.p10.to_string(), finished.p90.to_string()]);
}

/// "give or take four days" where the span is even, else both ends.
pub(crate) fn span_words(outlook: &DateDistribution, format: &DisplayFormat, today: NaiveDate) -> String {
    let span = &outlook.quantiles;
    let (before, after) = ((span.p50 - span.p10).num_days(), (span.p90 - span.p50).num_days());
    if after == 0 && before == 0 {
        return "That is nearly sure.".into();
    }
    if (before - after).abs() <= 1 && after <= 10 {
        let days = before.max(after);
        let unit = if days == 1 { "day" } else { "days" };
        return format!("Give or take {} {unit}, four times in five.", small_number(days));
    }
    format!("Four times in five {}.", format.between(span.p10, span.p90, today))
}

/// An amount in words: "300 picks", "75 cm".
fn amount_words(measure: Measure, picks: f64, format: &DisplayFormat) -> String {
    if measure.stands_for_lengths { show_length(picks / measure.picks_per_mm, format) } else { in_picks(picks) }
}

#[cfg(test)]
mod tests;

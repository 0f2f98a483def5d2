//! The gift day in words: how likely it is to be made, and what would make it.

use chrono::NaiveDate;
use fellmark_projection::{Basis, Projection, ProjectionState};

use super::before_weaving::way_words;
use super::{CLOSE, WELL, amount_words};
use crate::chances::chance_words;
use crate::dates::DateText;
use crate::figures::show_length;
use crate::lists_and_numbers::small_number;
use crate::view::{Answer, Standing};
use fellmark_model::WarpLog;
use fellmark_model::display_format::DisplayFormat;
use fellmark_reports::finish_date::{Advice, DaysAWeek, Measure, ShorterBy, advice};
use fellmark_reports::progress::Progress;

/// Says how likely the gift day is, and what would make it where it is not safe.
pub(super) fn gift_words(
    answer: &mut Answer,
    (log, progress): (&WarpLog, &Progress),
    projection: &Projection,
    (gift, chance): (NaiveDate, f64),
    format: &DisplayFormat,
    today: NaiveDate,
) {
    let measure = Measure::for_progress(progress);
    if gift < today {
        answer.more.push(format!("The gift day, {}, is past.", format.weekday_date(gift, today)));
        return;
    }
    let day = format.spoken_day(gift, today);
    let words = chance_words(chance);
    if matches!(projection.state, ProjectionState::Resting { .. }) {
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
    if chance >= WELL || matches!(projection.state, ProjectionState::ReadyToCutOff | ProjectionState::Finishing { .. })
    {
        return;
    }
    let Some(ways) = advice(log, progress, projection, gift, today) else { return };
    let ways: Vec<String> = ways.iter().map(|way| advice_words(way, measure, format)).collect();
    answer.more.push(if ways.is_empty() {
        let pace = match projection.reasons.basis {
            Basis::Stated => "With no more than 3\u{a0}h on a day",
            Basis::CommonPractice => "As weaving commonly goes",
            Basis::EarlierWarps => "At the pace of your earlier warps",
            Basis::OwnSittings => "At your pace so far",
        };
        format!("{pace} nothing would make that day likely; think of another day or another gift.")
    } else {
        format!("To be four times in five in time: {}.", ways.join("; or "))
    });
}

/// "60 minutes a time instead of some 40".
fn advice_words(advice: &Advice, measure: Measure, format: &DisplayFormat) -> String {
    match *advice {
        Advice::LongerSittings { minutes, usual_minutes } => {
            format!("{minutes:.0} minutes a time instead of some {usual_minutes:.0}")
        }
        Advice::MoreAtATime { picks, usual_picks } => {
            let usual = amount_words(measure, usual_picks, format);
            let more = amount_words(measure, picks, format);
            format!("{more} a time instead of some {}", usual.trim_end_matches(" picks"))
        }
        Advice::SittingEvery { days, usual_days } => {
            format!("a sitting every {days:.0} days instead of every {usual_days:.0}")
        }
        Advice::MoreDays { days_a_week, usual } => {
            let every_day = days_a_week >= 7.0;
            let more =
                if every_day { "every day".into() } else { format!("{} days a week", format.number(days_a_week, 1)) };
            let instead = match usual {
                DaysAWeek::EveryDays(between) => format!("a sitting every {between:.0} days"),
                DaysAWeek::Days(usual) if every_day => format!("{} days a week", format.number(usual, 1)),
                DaysAWeek::Days(usual) => format.number(usual, 1),
            };
            format!("{more} instead of {instead}")
        }
        Advice::MoreAndLonger(way) => way_words(way, format),
        Advice::Shorter { by_mm, which } => {
            let length = show_length(by_mm, format);
            match which {
                ShorterBy::ThePiece => format!("{length} shorter"),
                ShorterBy::EndingItHere => format!("ending it where it is, {length} shorter"),
                ShorterBy::InAll => format!("{length} shorter in all"),
                ShorterBy::EachPiece => format!("each piece {length} shorter"),
                ShorterBy::LastPiece => format!("the last piece {length} shorter"),
                ShorterBy::EachStillToWeave(pieces) => {
                    let pieces = small_number(i64::try_from(pieces).unwrap_or(i64::MAX));
                    format!("each of the {pieces} pieces still to be woven {length} shorter")
                }
            }
        }
        Advice::FewerPieces(pieces) => {
            format!("{} {} fewer", small_number(pieces), if pieces > 1 { "pieces" } else { "piece" })
        }
    }
}

//! A projection in sentences: the likely day and why, and what was noticed on the way.

use chrono::NaiveDate;
use fellmark_projection::{Basis, DateDistribution, Note, Projection, ProjectionState, Reasons, SectionKind};

use crate::lists_and_numbers::capital;

/// Writes a number of picks: as "1 pick" and "300 picks", or as the length they stand for.
pub type AmountWriter<'a> = &'a dyn Fn(f64) -> String;

/// Writes a day in the reader's format.
pub type DateWriter<'a> = &'a dyn Fn(NaiveDate) -> String;

/// On so few days, without earlier warps, the usual rhythm of weavers still outweighs the weaver's own: it is not called the weaver's.
const FEW_DAYS: usize = 3;

/// An amount that is counted in picks.
#[must_use]
pub fn in_picks(picks: f64) -> String {
    if picks.round() == 1.0 { "1 pick".into() } else { format!("{picks:.0} picks") }
}

/// A kind of section, within a sentence.
pub fn kind_words(kind: &SectionKind) -> &str {
    match kind {
        SectionKind::Plain => "plain weave",
        SectionKind::PickUp => "pick-up",
        SectionKind::Other(name) => name,
    }
}

/// "9 h", "8 h 30 min", "48 min".
fn hours(minutes: f64) -> String {
    let whole = minutes.round().max(0.0);
    match ((whole / 60.0).floor(), whole % 60.0) {
        (0.0, rest) => format!("{rest:.0}\u{a0}min"),
        (hours, 0.0) => format!("{hours:.0}\u{a0}h"),
        (hours, rest) => format!("{hours:.0}\u{a0}h\u{a0}{rest:.0}\u{a0}min"),
    }
}

fn count(sittings: usize) -> String {
    match sittings {
        1 => "one sitting".into(),
        2 => "two sittings".into(),
        3 => "three sittings".into(),
        _ => format!("{sittings} sittings"),
    }
}

/// A note as a sentence.
#[must_use]
pub fn note_sentence(note: &Note, date: DateWriter<'_>, amount: AmountWriter<'_>) -> String {
    let mut text = capital(&match note {
        Note::FutureSittings { sittings } => {
            let (verb, were) = if *sittings == 1 { ("lies", "was") } else { ("lie", "were") };
            format!("{} {verb} in the future and {were} left out of your pace; is the date right?", count(*sittings))
        }
        Note::LongSitting { day, minutes_entered, minutes_used: Some(minutes) } => {
            format!(
                "the {} of the sitting on {} count as {}, going by the others",
                hours(*minutes_entered),
                date(*day),
                hours(*minutes)
            )
        }
        Note::LongSitting { day, minutes_entered, minutes_used: None } => {
            format!(
                "the {} of the sitting on {} look like a forgotten timer and are not counted",
                hours(*minutes_entered),
                date(*day)
            )
        }
        Note::FastSitting { day, picks, minutes } => {
            let (picks, minutes) = (amount(*picks), hours(*minutes));
            format!("{picks} in {minutes} on {}? This was left out of your pace", date(*day))
        }
        Note::PicksGuessed { sittings } => {
            format!(
                "{} with neither picks nor a length: reckoned from minutes, or as a usual sitting",
                count(*sittings)
            )
        }
        Note::MinutesMissing { sittings } => {
            format!("{} without minutes: counted for the date, not for your pace", count(*sittings))
        }
        Note::FromEarlierWarps { warps: 1 } => {
            "no sitting here tells of your pace yet, so this goes by your earlier warp".into()
        }
        Note::FromEarlierWarps { warps } => {
            format!("no sitting here tells of your pace yet, so this goes by your {warps} earlier warps")
        }
        Note::FromCommonPractice => {
            "no sitting tells of your pace yet, so this goes by common practice, not by you; expect it to move".into()
        }
        Note::AskResting { days } => format!("nothing was woven for {days} days; is this warp resting?"),
        Note::FasterOfLate => {
            "you have woven faster of late than is usual for you, which may not last; the span is the wider for it"
                .into()
        }
        Note::AskDaysAWeek => "about how many days a week do you weave? Saying so would narrow this".into(),
    });
    if !text.ends_with('?') {
        text.push('.');
    }
    text
}

/// "4 or 5 more sittings".
fn sittings_words(reasons: &Reasons) -> String {
    match (reasons.sittings_left_low, reasons.sittings_left_high) {
        (_, 1) => "one more sitting".into(),
        (low, high) if high > 12 => format!("some {} more sittings", u32::midpoint(low, high)),
        (low, high) if low == high => format!("about {low} more sittings"),
        (low, high) => format!("{low} or {high} more sittings"),
    }
}

fn rhythm(reasons: &Reasons) -> String {
    let d = reasons.days_between;
    if d < 1.3 {
        "about every day".into()
    } else if d < 1.75 {
        "two days in three".into()
    } else if d < 2.5 {
        "every other day".into()
    } else {
        format!("about every {d:.0} days")
    }
}

fn opening(reasons: &Reasons, amount: AmountWriter<'_>) -> String {
    let rhythm = rhythm(reasons);
    let (picks, left) = (amount(reasons.picks_a_day), amount(reasons.picks_left));
    let sittings = sittings_words(reasons);
    let are = if left == "1 pick" { "is" } else { "are" };
    match reasons.basis {
        Basis::OwnSittings if reasons.earlier_warps == 0 && (1..=FEW_DAYS).contains(&reasons.weaving_days) => {
            let days =
                if reasons.weaving_days == 1 { "one day".into() } else { format!("{} days", reasons.weaving_days) };
            format!(
                "You have woven on {days} so far, which tells little: reckoned as {rhythm}, some {picks} a time; \
                 {left} {are} {sittings}"
            )
        }
        Basis::OwnSittings => {
            format!("You weave {rhythm}, some {picks} a time; {left} {are} {sittings}")
        }
        Basis::EarlierWarps => {
            format!("On earlier warps you wove {rhythm}, some {picks} a time; {left} {are} {sittings}")
        }
        Basis::Stated => {
            let minutes =
                reasons.minutes_a_day.map_or_else(String::new, |minutes| format!(" of {minutes:.0}\u{a0}minutes"));
            let rhythm = match 7.0 / reasons.days_between {
                days if days > 6.9 => "every day".to_owned(),
                days if (days - 1.0).abs() < 0.05 => "once a week".to_owned(),
                days if (days - days.round()).abs() < 0.05 => format!("{days:.0} days a week"),
                days => format!("{days:.1} days a week"),
            };
            format!("As you said, you weave {rhythm}; at a usual pace {left} {are} {sittings}{minutes}")
        }
        Basis::CommonPractice => {
            format!("Nothing is known of your pace yet; as weaving commonly goes, {left} {are} {sittings}")
        }
    }
}

/// The likely day and why, in one sentence of the weaver's own numbers.
#[must_use]
pub fn projection_sentence(projection: &Projection, date: DateWriter<'_>, amount: AmountWriter<'_>) -> String {
    let why = opening(&projection.reasons, amount);
    let span = |o: &DateDistribution| {
        let (likely, from, until) = (date(o.quantiles.p50), date(o.quantiles.p10), date(o.quantiles.p90));
        if o.quantiles.p10 == o.quantiles.p90 {
            format!("{likely}, nearly surely")
        } else {
            format!("{likely}; 4 times in 5 between {from} and {until}")
        }
    };
    match projection.state {
        ProjectionState::ReadyToCutOff => {
            format!("All picks are woven: ready to cut off. Finished most likely {}.", span(&projection.finished))
        }
        ProjectionState::Finishing { since } => {
            format!("Off the loom since {}; finished most likely {}.", date(since), span(&projection.finished))
        }
        ProjectionState::Resting { since } if projection.beyond_three_years => format!(
            "Resting since {}, so it has no date. {why}: taken up today, not within three years at this pace.",
            date(since)
        ),
        ProjectionState::Resting { since } => format!(
            "Resting since {}, so it has no date. {why}: taken up today, off the loom most likely {}.",
            date(since),
            span(&projection.off_loom)
        ),
        ProjectionState::NotAtThisPace => format!("{why}, so not within three years at this pace."),
        ProjectionState::Running | ProjectionState::NotBegun => {
            format!("{why}, so off the loom most likely {}.", span(&projection.off_loom))
        }
    }
}
